package main

import (
	"os"

	"spruelight/gen"
	"spruelight/gen/desk"

	"github.com/spf13/cobra"
)

// commissionSum works out a build's commission.
func commissionSum(c *common) *cobra.Command {
	return &cobra.Command{
		Use:   "commission <build>",
		Short: "What work for a client is quoted at, and what an hour of it really brought",
		Long: "Works out the commission written in a build's build.md. These figures are kept off the site\n" +
			"unless the build says publish: yes; here they are shown to the keeper of the bench.",
		Example:           "  spruelight reckon commission lanternhouse",
		Args:              exactlyOne("a build, like lanternhouse"),
		ValidArgsFunction: c.builds(),
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.inWorkshop(nil, func(_ string, env gen.Env) error {
				a, found, err := desk.Commission(cmd.Context(), env, args[0])
				if err != nil {
					return err
				}
				printFindings(os.Stderr, found, colourful(os.Stderr))
				if found.Stops() || len(a.Says) == 0 {
					return errFindings
				}
				return c.answer(cmd.OutOrStdout(), a)
			})
		},
	}
}
