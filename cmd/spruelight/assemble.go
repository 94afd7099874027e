package main

import (
	"fmt"
	"os"
	"path/filepath"
	"time"

	"spruelight/gen"
	"spruelight/gen/output"
	"spruelight/gen/source"

	"github.com/spf13/cobra"
)

// assembleVerb writes the site.
func assembleVerb(c *common) *cobra.Command {
	var out string
	verb := &cobra.Command{
		Use:   "assemble [workshop]",
		Short: "Write the site",
		Long: "Checks everything, then writes the site: pages, drawings, photos in several sizes, feeds. Where a finding stops it, nothing is written and the former site stays. " +
			"Of what is in the folder already only files of a former run are replaced or taken away.\n\n" +
			"The folder can be put on any web server as it is, and its pages open from disk too.",
		Example:           "  spruelight assemble\n  spruelight assemble content-example\n  spruelight assemble --out public",
		Args:              atMostOne,
		ValidArgsFunction: folders,
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
	flagWords(verb, "out", folders)
	return verb
}

func assemble(cmd *cobra.Command, c *common, dir, out string) error {
	began := time.Now()
	repeat, err := repeatOf(c, dir, out)
	if err != nil {
		return err
	}
	if said, ok := repeat.Recall(cmd.Context(), began); ok {
		return sayAgain(c, said, out, began)
	}
	begun := repeat.Begin(cmd.Context())
	env, done, err := c.env(dir, newProgress(c).report)
	if err != nil {
		return err
	}
	defer done()
	cache, err := c.cacheFolder()
	if err != nil {
		return err
	}
	site := output.New(cmd.Context(), out, output.Options{Workshop: dir,
		Forbid:  []string{cache, filepath.Join(dir, "builds"), filepath.Join(dir, "rack"), filepath.Join(dir, "wall")},
		Waiting: func(h output.Holder) { fmt.Fprintf(os.Stderr, "waiting for %s\n", h) }})
	defer site.Close()
	res, err := gen.Assemble(cmd.Context(), env, site)
	if err != nil && cmd.Context().Err() != nil {
		return err
	}
	if err := reportFindings(c, res, res.Findings.Veiled()); err != nil {
		if !c.quiet && !c.json {
			fmt.Fprintln(os.Stderr, "nothing is written; put right what stops, and assemble again")
		}
		return err
	}
	if err != nil { // the folder refuses
		return err
	}
	report, err := site.Swap()
	if err != nil {
		return err
	}
	summary(c, res.Counts, report, out, began)
	return remember(cmd.Context(), repeat, begun, res, report.Written+report.Kept)
}

// summary says what a run did.
func summary(c *common, n gen.Counts, report output.Report, out string, began time.Time) {
	if c.quiet || c.json {
		return
	}
	fmt.Fprintf(os.Stderr, "%s, %s, %s made, %d reused, %s; %s written, %d unchanged, %d removed in %.1f s\n",
		count(n.Builds, "build"), count(n.Sittings, "sitting"), count(n.Made, "photo"), n.Reused, count(n.Pages, "page"),
		count(report.Written, "file"), report.Kept, report.Removed, time.Since(began).Seconds())
	fmt.Fprintf(os.Stderr, "open %s in a browser\n", filepath.Join(shortest(out), "index.html"))
}

// shortest returns a folder as it is shortest named from here.
func shortest(dir string) string {
	here, err := os.Getwd()
	if err != nil {
		return dir
	}
	if rel, err := filepath.Rel(here, dir); err == nil && len(rel) < len(dir) {
		return rel
	}
	return dir
}

// reportFindings prints what a run found, for people or for machines, and fails
// where it must not go on.
func reportFindings(c *common, res *gen.Result, forMachines source.Findings) error {
	if c.verbose {
		for _, name := range res.Hidden {
			fmt.Fprintf(os.Stderr, "left out: %s\n", name)
		}
	}
	if c.json {
		if err := printJSON(os.Stdout, forMachines); err != nil {
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
