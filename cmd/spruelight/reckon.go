package main

import (
	"encoding/json"
	"fmt"
	"io"

	"spruelight/gen"

	"github.com/spf13/cobra"
)

// sums are the sums that reckon does; each has a file of its own, reckon_….go.
var sums = []func(*common) *cobra.Command{ledSum, wireSum, cellSum, flashSum, netlistSum, diagramSum, commissionSum, mixSum, colourSum, densitySum, scaleSum, schemaSum}

// reckonVerb is the parent of the sums.
func reckonVerb(c *common) *cobra.Command {
	verb := &cobra.Command{
		Use:   "reckon <sum>",
		Short: "Do one sum at the bench",
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) > 0 {
				return misuse("there is no sum %q; spruelight reckon --help lists them", args[0])
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
func (c *common) answer(w io.Writer, a gen.Answer) error {
	if c.json {
		enc := json.NewEncoder(w)
		enc.SetEscapeHTML(false)
		enc.SetIndent("", "  ")
		return enc.Encode(a)
	}
	_, err := fmt.Fprint(w, a.Text())
	return err
}
