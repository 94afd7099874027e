package main

import (
	"spruelight/gen/guide"

	"github.com/spf13/cobra"
)

// referenceSum writes the reference as free pages.
func referenceSum(c *common) *cobra.Command {
	var out string
	sum := &cobra.Command{
		Use:     "reference --out folder",
		Short:   "Keys, rules and formulas as free pages for a workshop's wall",
		Example: "  spruelight reckon reference --out wall",
		Args:    none,
		RunE: func(*cobra.Command, []string) error {
			if out == "" {
				return misuse("say where to: --out folder")
			}
			return c.writeFiles(out, guide.Reference())
		},
	}
	sum.Flags().StringVar(&out, "out", "", "`folder` for the pages, such as wall")
	flagWords(sum, "out", folders)
	return sum
}
