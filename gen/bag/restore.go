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
// all. A file whose name not every system can store, or that is one with another
// on some systems, is left out and named in the report. Every file is verified
// again as it is copied. A bag that is not valid gives the report and a nil
// error, and nothing is written.
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
	copies := c.copies(pick)
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

func oneLine(err error) string { return strings.ReplaceAll(err.Error(), "\n", "; ") }

// fileCopy is one file to be restored, with the checksum it must have.
type fileCopy struct{ from, to, algorithm, sum string }

// copies lists what is to be restored, each file by the best checksum there is
// of it: before version 1.0 a manifest need not list every file.
func (c *checker) copies(pick func(string) string) []fileCopy {
	var list []fileCopy
	var paths source.Paths
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
				if to == "" || seen[name] {
					continue
				}
				seen[name] = true
				if err := paths.Add(to); err != nil {
					c.rep.Left = append(c.rep.Left, fmt.Sprintf("%s is left in the bag: %v", show(name), oneLine(err)))
					continue
				}
				list = append(list, fileCopy{name, to, algorithm, e.sum})
			}
		}
	}
	return list
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
