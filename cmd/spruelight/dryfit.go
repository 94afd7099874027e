package main

import (
	"fmt"
	"os"

	"spruelight/gen"

	"github.com/spf13/cobra"
)

// dryfitVerb reads and checks everything, and writes nothing.
func dryfitVerb(c *common) *cobra.Command {
	return &cobra.Command{
		Use:   "dryfit [workshop]",
		Short: "Read and check everything, write nothing",
		Long: "Prints what the checks have to say. Each finding has a severity (stop, warn or note), file, line and column, what is wrong, what to do, and the name of its rule. " +
			"A finding of severity stop ends with exit code 1; warnings do not.",
		Example:           "  spruelight dryfit\n  spruelight dryfit --json --at \"2026-02-14 21:00\" content-example",
		Args:              atMostOne,
		ValidArgsFunction: folders,
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.inWorkshop(args, func(_ string, env gen.Env) error {
				res, err := gen.Check(cmd.Context(), env)
				if err != nil {
					return err
				}
				if err := reportFindings(c, res, res.Findings); err != nil {
					return err
				}
				if !c.quiet && !c.json {
					n := res.Counts
					fmt.Fprintf(os.Stderr, "%s, %s, %s read\n", count(n.Builds, "build"), count(n.Sittings, "sitting"), count(n.Photos, "photo"))
				}
				return nil
			})
		},
	}
}
