package main

import (
	"fmt"
	"os"
	"path/filepath"

	"spruelight/gen/output"
)

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
