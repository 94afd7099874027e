package main

import (
	"fmt"
	"os"
	"path/filepath"
	"time"

	"spruelight/gen"
	"spruelight/gen/output"

	"github.com/spf13/cobra"
)

// unboxVerb starts a build, and in an empty folder a whole workshop.
func unboxVerb(c *common) *cobra.Command {
	return &cobra.Command{
		Use:   "unbox <build>",
		Short: "Start a build; in an empty folder, a whole workshop",
		Long: "Makes builds/<build>/build.md with every key behind a # and an example. In an empty folder it makes a whole\n" +
			"small workshop, which assembles at once. Nothing is ever overwritten.",
		Example: "  spruelight unbox survey-skiff\n  spruelight --workshop ~/bench unbox survey-skiff",
		Args:    exactlyOne("a build, like survey-skiff"),
		RunE: func(cmd *cobra.Command, args []string) error {
			moment, err := c.moment()
			if err != nil {
				return err
			}
			dir, files, err := c.unbox(args[0], moment)
			if err != nil {
				return err
			}
			for _, f := range files {
				name := filepath.Join(dir, filepath.FromSlash(f.Name))
				if err := os.MkdirAll(filepath.Dir(name), 0o777); err != nil {
					return err
				}
				if err := output.NewFile(name, []byte(f.Text)); err != nil {
					return err
				}
				fmt.Println(f.Name)
			}
			return nil
		},
	}
}

// unbox finds the workshop, or an empty folder to make one in.
func (c *common) unbox(slug string, moment time.Time) (dir string, files []gen.NewFile, err error) {
	dir, missing := c.folder(nil)
	if missing == nil {
		if _, err := os.Lstat(filepath.Join(dir, "builds", slug)); err == nil {
			return "", nil, fmt.Errorf("builds/%s is there already; choose another name", slug)
		}
		files, err = gen.UnboxBuild(slug)
		return dir, files, err
	}
	dir = c.workshop
	if dir == "" {
		dir = "."
	}
	entries, err := os.ReadDir(dir)
	if err != nil && !os.IsNotExist(err) {
		return "", nil, err
	}
	if len(entries) > 0 {
		return "", nil, fmt.Errorf("%w; to make one, go into an empty folder: %s holds %s", missing, dir, entries[0].Name())
	}
	files, err = gen.UnboxWorkshop(slug, moment)
	return dir, files, err
}
