package main

import (
	"context"
	"fmt"
	"path/filepath"

	"spruelight/gen/output"
)

// writeFiles writes files into a folder, each in one step, and names them.
func (c *common) writeFiles(ctx context.Context, dir string, files []output.File) error {
	for _, f := range files {
		name := filepath.Join(dir, filepath.FromSlash(f.Path))
		if err := output.MakeFolders(filepath.Dir(name)); err != nil {
			return err
		}
		if err := output.WriteFile(ctx, name, f.Bytes); err != nil {
			return err
		}
		if !c.quiet {
			fmt.Println(name)
		}
	}
	return nil
}
