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

// assembleVerb writes the site.
func assembleVerb(c *common) *cobra.Command {
	var out string
	verb := &cobra.Command{
		Use:     "assemble [workshop]",
		Short:   "Write the site",
		Example: "  spruelight assemble content-example\n  spruelight assemble --out /srv/www/bench",
		Args:    atMostOne,
		RunE: func(cmd *cobra.Command, args []string) error {
			dir, err := c.folder(args)
			if err != nil {
				return err
			}
			if out == "" {
				out = filepath.Join(dir, "site")
			}
			return assemble(cmd, c, dir, out)
		},
	}
	verb.Flags().StringVar(&out, "out", "", "`folder` for the site; else site in the workshop")
	return verb
}

func assemble(cmd *cobra.Command, c *common, dir, out string) error {
	began := time.Now()
	env, done, err := c.env(dir, newProgress(c).report)
	if err != nil {
		return err
	}
	defer done()
	res, err := gen.Assemble(cmd.Context(), env)
	if err != nil {
		return err
	}
	if err := c.tell(res); err != nil {
		return err
	}
	cache, err := c.cacheFolder()
	if err != nil {
		return err
	}
	report, err := output.Write(cmd.Context(), out, res.Files, output.Options{Workshop: dir, Forbid: []string{cache, filepath.Join(dir, "builds"), filepath.Join(dir, "rack"), filepath.Join(dir, "wall")},
		Waiting: func(h output.Holder) { fmt.Fprintf(os.Stderr, "waiting for %s\n", h) }})
	if err != nil {
		return err
	}
	if !c.quiet && !c.json {
		n := res.Counts
		fmt.Fprintf(os.Stderr, "%d builds, %d sittings, %d photos made, %d reused, %d pages; %d files written, %d unchanged, %d removed in %.1f s\n",
			n.Builds, n.Sittings, n.Made, n.Reused, n.Pages, report.Written, report.Kept, report.Removed, time.Since(began).Seconds())
	}
	return nil
}

// tell prints what a run found, and fails where it must not go on.
func (c *common) tell(res *gen.Result) error {
	if c.verbose {
		for _, name := range res.Hidden {
			fmt.Fprintf(os.Stderr, "left out: %s\n", name)
		}
	}
	if c.json {
		if err := printJSON(os.Stdout, res.Findings); err != nil {
			return err
		}
	} else {
		printFindings(os.Stderr, res.Findings, colourful(os.Stderr))
	}
	if res.Findings.Stops() {
		return errFindings
	}
	return nil
}
