package main

import (
	"spruelight/gen/guide"
	"spruelight/gen/output"

	"github.com/spf13/cobra"
)

// writtenSum makes the verb of files that the program knows by itself.
func writtenSum(c *common, use, short, example, outWords string, files func() []output.File) *cobra.Command {
	var out string
	verb := &cobra.Command{
		Use:     use,
		Short:   short,
		Example: example,
		Args:    none,
		RunE: func(cmd *cobra.Command, _ []string) error {
			if out == "" {
				return misuse("say where to: --out folder")
			}
			return c.writeFiles(cmd.Context(), out, files())
		},
	}
	text(&out, "out", outWords, folders)(verb)
	return verb
}

// schemaSum writes the JSON Schemas of the workshop's files.
func schemaSum(c *common) *cobra.Command {
	return writtenSum(c, "schema --out folder", "JSON Schemas of all files, for editors that complete and check while typing",
		"  spruelight reckon schema --out schemas", "`folder` for the files", guide.Schemas)
}

// referenceSum writes the reference as free pages.
func referenceSum(c *common) *cobra.Command {
	return writtenSum(c, "reference --out folder", "Keys, rules and formulas as free pages for a workshop's wall",
		"  spruelight reckon reference --out wall", "`folder` for the pages, such as wall", guide.Reference)
}
