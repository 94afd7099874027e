package main

import (
	"spruelight/gen/guide"
	"spruelight/gen/output"

	"github.com/spf13/cobra"
)

// written makes the verb of files that the program knows by itself.
func (c *common) written(use, short, example, outWords string, files func() []output.File) *cobra.Command {
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

// schema writes the JSON Schemas of the workshop's files.
func (c *common) schema() *cobra.Command {
	return c.written("schema --out folder", "JSON Schemas of all files, for editors that complete and check while typing",
		"  spruelight reckon schema --out schemas", "`folder` for the files", guide.Schemas)
}

// reference writes the reference as free pages.
func (c *common) reference() *cobra.Command {
	return c.written("reference --out folder", "Keys, rules and formulas as free pages for a workshop's wall",
		"  spruelight reckon reference --out wall", "`folder` for the pages, such as wall", guide.Reference)
}
