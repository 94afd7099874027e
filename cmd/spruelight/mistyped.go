package main

import (
	"errors"
	"fmt"
	"strings"

	"spruelight/gen/journal"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// verbsOf returns the names of the verbs, or sums, below a command.
func verbsOf(cmd *cobra.Command) []string {
	var names []string
	for _, verb := range cmd.Commands() {
		if verb.IsAvailableCommand() {
			names = append(names, verb.Name())
		}
	}
	return names
}

// noVerb says that a verb, or a sum, is not there, and which was meant.
func noVerb(cmd *cobra.Command, word string) error {
	what := "verb"
	if cmd.Name() == "reckon" {
		what = "sum"
	}
	hint := ""
	switch near, ok := journal.Nearest(word, verbsOf(cmd)); {
	case ok:
		hint = "; did you mean " + near + "?"
	case what == "verb" && isSum(cmd.Root(), word):
		hint = fmt.Sprintf("; it is a sum: %s reckon %s", cmd.Root().Name(), word)
	}
	return misuse("there is no %s %q%s (%s --help lists them)", what, word, hint, cmd.CommandPath())
}

func isSum(root *cobra.Command, word string) bool {
	reckon, _, err := root.Find([]string{"reckon", word})
	return err == nil && reckon.Name() == word
}

// wrongFlag says in our own words what is wrong with a flag.
func wrongFlag(cmd *cobra.Command, err error) error {
	var (
		unknown *pflag.NotExistError
		bare    *pflag.ValueRequiredError
		invalid *pflag.InvalidValueError
	)
	switch {
	case errors.As(err, &unknown):
		return noFlag(cmd, unknown)
	case errors.As(err, &bare):
		value, _ := pflag.UnquoteUsage(bare.GetFlag())
		return misuse("--%s wants a value after it: %s", bare.GetFlag().Name, value)
	case errors.As(err, &invalid):
		what := "a value of another kind"
		switch invalid.GetFlag().Value.Type() {
		case "int":
			what = "a whole number"
		case "bool":
			what = "no value: it is there or not"
		}
		return misuse("--%s %q: it takes %s", invalid.GetFlag().Name, invalid.GetValue(), what)
	}
	return &usageError{err}
}

func noFlag(cmd *cobra.Command, unknown *pflag.NotExistError) error {
	name, hint := unknown.GetSpecifiedName(), ""
	if unknown.GetSpecifiedShortnames() != "" {
		name = "-" + unknown.GetSpecifiedShortnames()
	} else {
		name = "--" + name
	}
	var known []string
	cmd.Flags().VisitAll(func(f *pflag.Flag) { known = append(known, f.Name) })
	if near, ok := journal.Nearest(strings.TrimLeft(name, "-"), known); ok {
		hint = "; did you mean --" + near + "?"
	}
	return misuse("there is no flag %s%s (%s --help lists them)", name, hint, cmd.CommandPath())
}
