package main

import (
	"spruelight/gen/guide"

	"github.com/spf13/cobra"
)

// schemaSum writes the JSON Schemas of the workshop's files.
func schemaSum(c *common) *cobra.Command {
	var out string
	sum := &cobra.Command{
		Use:     "schema --out folder",
		Short:   "JSON Schemas of all files, for editors that complete and check while typing",
		Example: "  spruelight reckon schema --out schemas",
		Args:    none,
		RunE: func(*cobra.Command, []string) error {
			if out == "" {
				return misuse("say where to: --out folder")
			}
			return c.writeFiles(out, guide.Schemas())
		},
	}
	sum.Flags().StringVar(&out, "out", "", "`folder` for the files")
	flagWords(sum, "out", folders)
	return sum
}
