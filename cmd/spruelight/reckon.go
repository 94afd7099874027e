package main

import (
	"encoding/json"
	"fmt"
	"io"
	"io/fs"
	"os"

	"spruelight/gen/desk"

	"github.com/spf13/cobra"
)

// sumVerbs makes every sum, in the order of the help.
func sumVerbs(c *common) []*cobra.Command {
	return []*cobra.Command{ledSum(c), wireSum(c), cellSum(c), flashSum(c), fibreSum(c), scaleSum(c), mixSum(c), colourSum(c), densitySum(c),
		diagramSum(c), netlistSum(c), commissionSum(c), schemaSum(c), referenceSum(c)}
}

// sum is a sum that ends in an answer.
type sum struct {
	use, short string
	examples   string
	args       cobra.PositionalArgs
	complete   completer // of the arguments; none where nil
	flags      []option
	rack       bool // the question may look into the workshop that it is called in
	question   func(workshop fs.FS, args []string) (desk.Answer, error)
}

// sumVerb makes the verb of a sum. An error of the question is a wrong question.
func sumVerb(c *common, s sum) *cobra.Command {
	verb := &cobra.Command{Use: s.use, Short: s.short, Example: s.examples, Args: s.args, ValidArgsFunction: s.complete,
		RunE: func(cmd *cobra.Command, args []string) error {
			var workshop fs.FS
			if s.rack {
				folder, done, err := rackOf(c)
				if err != nil {
					return err
				}
				defer done()
				workshop = folder
			}
			a, err := s.question(workshop, args)
			if err != nil {
				return &usageError{err}
			}
			return answer(c, cmd.OutOrStdout(), a)
		}}
	for _, add := range s.flags {
		add(verb)
	}
	return verb
}

// rackOf opens the workshop for a sum that may need it; nil where there is none.
func rackOf(c *common) (fs.FS, func(), error) {
	dir, err := c.folder(nil)
	if err != nil {
		if c.workshop != "" {
			return nil, nil, err
		}
		return nil, func() {}, nil
	}
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil, nil, err
	}
	return root.FS(), func() { root.Close() }, nil
}

// option adds a flag to a verb.
type option func(verb *cobra.Command)

// text is a flag of one text, completed by words where such are given.
func text(to *string, name, does string, words ...completer) option {
	return func(verb *cobra.Command) {
		verb.Flags().StringVar(to, name, *to, does)
		for _, w := range words {
			flagWords(verb, name, w)
		}
	}
}

// texts is a flag that may be given once or more.
func texts(to *[]string, name, does string) option {
	return func(verb *cobra.Command) { verb.Flags().StringArrayVar(to, name, nil, does) }
}

// number is a flag of a whole number; what stands in it holds when not given.
func number(to *int, name, does string) option {
	return func(verb *cobra.Command) { verb.Flags().IntVar(to, name, *to, does) }
}

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
	verb.AddCommand(sumVerbs(c)...)
	return verb
}

// answer prints what a sum came to, for people or for scripts.
func answer(c *common, w io.Writer, a desk.Answer) error {
	if c.json {
		enc := json.NewEncoder(w)
		enc.SetEscapeHTML(false)
		enc.SetIndent("", "  ")
		return enc.Encode(a)
	}
	_, err := fmt.Fprint(w, a.Text())
	return err
}
