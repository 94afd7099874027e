package main

import (
	"encoding/json"
	"fmt"
	"io"

	"spruelight/gen/desk"

	"github.com/spf13/cobra"
)

// sums are the sums that reckon does; each has a file of its own, reckon_….go.
var sums = []func(*common) *cobra.Command{ledSum, wireSum, cellSum, flashSum, fibreSum, scaleSum, mixSum, colourSum, densitySum, diagramSum, netlistSum, commissionSum, schemaSum, referenceSum}

// reckonVerb is the parent of the sums.
func reckonVerb(c *common) *cobra.Command {
	verb := &cobra.Command{
		Use:   "reckon <sum>",
		Short: "Do one sum at the bench",
		Long: "Values are written as on the bench, unit included, and in quotes where they hold a space: \"12 mA\", 4k7, \"34 AWG\", 1/48. " +
			"A sum that looks into the rack or at a build takes the workshop that it is called in; the others need none. " +
			"Sums are aids, not approvals: the maker's data sheet wins.",
		Example: "  spruelight reckon led --supply \"5 V\" --lamp white\n  spruelight reckon scale 1/48 --real \"9.4 m\"",
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) > 0 {
				return noVerb(cmd, args[0])
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
	}
	for _, sum := range sums {
		verb.AddCommand(sum(c))
	}
	return verb
}

// answer prints what a sum came to, for people or for scripts.
func (c *common) answer(w io.Writer, a desk.Answer) error {
	if c.json {
		enc := json.NewEncoder(w)
		enc.SetEscapeHTML(false)
		enc.SetIndent("", "  ")
		return enc.Encode(a)
	}
	_, err := fmt.Fprint(w, a.Text())
	return err
}
