package main

import (
	"fmt"
	"os"
	"path/filepath"

	"spruelight/gen"
	"spruelight/gen/output"

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
			return c.writeFiles(out, gen.Schemas())
		},
	}
	sum.Flags().StringVar(&out, "out", "", "`folder` for the files")
	return sum
}

func none(_ *cobra.Command, args []string) error {
	if len(args) > 0 {
		return misuse("%q is one word too many", args[0])
	}
	return nil
}

// writeFiles writes files into a folder, each in one step, and names them.
func (c *common) writeFiles(dir string, files []output.File) error {
	for _, f := range files {
		name := filepath.Join(dir, filepath.FromSlash(f.Path))
		if err := os.MkdirAll(filepath.Dir(name), 0o777); err != nil {
			return err
		}
		if err := output.WriteFile(name, f.Bytes); err != nil {
			return err
		}
		if !c.quiet {
			fmt.Println(name)
		}
	}
	return nil
}
