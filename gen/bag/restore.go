package bag

import (
	"context"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"spruelight/gen/output"
	"spruelight/gen/source"
)

// Restore checks the bag in a folder or zip file and, where it is valid, copies
// payload files into the new folder dst. pick says under which path below dst a
// payload file goes, given its path below data/; "" leaves it out, and a nil
// pick takes all as they are. dst must not exist, and appears whole or not at
// all. Every file is verified again as it is copied. A bag that is not valid
// gives the report and a nil error, and nothing is written.
func Restore(ctx context.Context, name, dst string, pick func(path string) string) (Report, error) {
	s, err := openStore(name)
	if err != nil {
		return Report{}, err
	}
	defer s.close()
	c, err := examine(ctx, s)
	if err != nil || !c.rep.Valid {
		return c.rep, err
	}
	copies, err := c.copies(pick)
	if err != nil {
		return c.rep, fmt.Errorf("%s: cannot be restored: %w", name, err)
	}
	return c.rep, output.Folder(ctx, dst, func(stage string) error {
		for _, cp := range copies {
			if ctx.Err() != nil {
				return context.Cause(ctx)
			}
			if err := c.restore(stage, cp); err != nil {
				return err
			}
		}
		return nil
	})
}

// fileCopy is one file to be restored, with the checksum it must have.
type fileCopy struct{ from, to, algorithm, sum string }

// copies lists what is to be restored, each file by the best checksum there is
// of it: before version 1.0 a manifest need not list every file.
func (c *checker) copies(pick func(string) string) ([]fileCopy, error) {
	var list []fileCopy
	var paths []string
	seen := map[string]bool{}
	for _, algorithm := range strength {
		for _, m := range c.payload {
			if m.algorithm != algorithm {
				continue
			}
			for _, e := range m.entries {
				name, _ := c.resolve(e.path)
				to := strings.TrimPrefix(e.path, dataFolder)
				if pick != nil {
					to = pick(to)
				}
				if to != "" && !seen[name] {
					paths = append(paths, to)
					list = append(list, fileCopy{name, to, algorithm, e.sum})
				}
				seen[name] = true
			}
		}
	}
	return list, source.CheckPaths(paths)
}

func (c *checker) restore(stage string, cp fileCopy) error {
	r, err := c.open(cp.from)
	if err != nil {
		return fmt.Errorf("reading %s from the bag: %w", cp.from, err)
	}
	defer r.Close()
	return writeFile(filepath.Join(stage, filepath.FromSlash(cp.to)), func(w io.Writer) error {
		_, sums, err := sumAll(io.TeeReader(r, w), []string{cp.algorithm})
		if err == nil && sums[cp.algorithm] != cp.sum {
			err = &output.Refusal{Path: cp.from, Says: "changed in the bag while it was being restored", Remedy: "check the bag again"}
		}
		return err
	})
}
