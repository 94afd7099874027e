package main

import (
	"context"
	"encoding/json"
	"fmt"
	"os"

	"spruelight/gen"
	"spruelight/gen/desk"
	"spruelight/gen/output"

	"github.com/spf13/cobra"
)

// shownotesVerb writes the description of a sitting's film.
func shownotesVerb(c *common) *cobra.Command {
	var opts desk.NotesOptions
	var out string
	verb := &cobra.Command{
		Use:   "shownotes <build>/<sitting>",
		Short: "Write the description of a sitting's film, or its chapters",
		Long: "Writes the description of a sitting's film as plain text: a due disclosure first, then what it is,\n" +
			"chapters, kit, paints, lamps, tools and links. The date alone names a sitting where there is one that day.",
		Example:           "  spruelight shownotes marram/2026-02-14\n  spruelight shownotes --vtt --out chapters.vtt marram/2026-02-14\n  spruelight shownotes --limit 5000 marram/2026-02-14",
		Args:              exactlyOne("a sitting, like marram/2026-02-14"),
		ValidArgsFunction: completeSittings(c),
		RunE: func(cmd *cobra.Command, args []string) error {
			if opts.Limit < 0 {
				return misuse("--limit %d is no number of characters", opts.Limit)
			}
			return c.inWorkshop(nil, func(_ string, env gen.Env) error {
				notes, err := desk.NotesFor(cmd.Context(), env, args[0], opts)
				if err != nil {
					return err
				}
				return printNotes(cmd.Context(), c, notes, out)
			})
		},
	}
	verb.Flags().IntVar(&opts.Limit, "limit", 0, "the most `characters` the description may have; whole lists are left out to keep to it")
	verb.Flags().BoolVar(&opts.VTT, "vtt", false, "the chapters as WebVTT instead")
	verb.Flags().StringVar(&out, "out", "", "`file` to write; else standard output. A file that is there is replaced")
	return verb
}

func printNotes(ctx context.Context, c *common, notes *desk.ShowNotes, out string) error {
	printFindings(os.Stderr, notes.Findings, colourful(os.Stderr))
	if notes.Findings.Stops() {
		return errFindings
	}
	switch {
	case out != "":
		return output.WriteFile(ctx, out, []byte(notes.Text))
	case c.json:
		return json.NewEncoder(os.Stdout).Encode(map[string]any{"text": notes.Text, "findings": notes.Findings})
	}
	_, err := fmt.Print(notes.Text)
	return err
}
