package main

import (
	"os"

	"spruelight/gen"
	"spruelight/gen/desk"

	"github.com/spf13/cobra"
)

// diagramSum draws a build's circuits and their loom.
func diagramSum(c *common) *cobra.Command {
	var out string
	sum := &cobra.Command{
		Use:               "diagram <build>",
		Short:             "Circuit diagrams and the loom of a build, as drawings",
		Example:           `  spruelight reckon diagram marram --out drawings`,
		Args:              exactlyOne("a build, like marram"),
		ValidArgsFunction: c.builds(),
		RunE: func(cmd *cobra.Command, args []string) error {
			if out == "" {
				return misuse("say where the drawings go with --out folder")
			}
			return c.inWorkshop(nil, func(_ string, env gen.Env) error {
				files, found, err := desk.Diagrams(cmd.Context(), env, args[0])
				if err != nil {
					return &usageError{err}
				}
				if found.Stops() {
					printFindings(os.Stderr, found, colourful(os.Stderr))
					return errFindings
				}
				return c.writeFiles(out, files)
			})
		},
	}
	sum.Flags().StringVar(&out, "out", "", "`folder` for the drawings")
	flagWords(sum, "out", folders)
	return sum
}
