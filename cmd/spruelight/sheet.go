package main

import (
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// sheet is all that is to be said of a verb. --help and the man page are two
// prints of it, so that they cannot disagree.
type sheet struct {
	name     string // "spruelight reckon led"
	short    string
	line     string   // how it is called
	text     []string // paragraphs
	verbs    []row
	examples []string
	flags    []row // its own
	common   []row // those of every verb
}

// row is a flag or a verb, and what it does.
type row struct{ name, does string }

var exitCodes = []row{
	{"0", "done; warnings are allowed"},
	{"1", "findings of severity stop, or a failed operation"},
	{"2", "wrong usage"},
}

var environment = []row{
	{"NO_COLOR", "no colours where this is set and not empty; there are none off a terminal anyway, and none is ever needed"},
	{"XDG_CACHE_HOME", "where the photo cache lies on Linux, else in ~/.cache; --cache names another folder"},
}

// sheetOf gathers what there is to say of a verb.
func sheetOf(cmd *cobra.Command) *sheet {
	s := &sheet{name: cmd.CommandPath(), short: cmd.Short, line: cmd.UseLine()}
	for _, par := range strings.Split(cmd.Long, "\n\n") {
		if par = strings.Join(strings.Fields(par), " "); par != "" {
			s.text = append(s.text, par)
		}
	}
	for _, verb := range cmd.Commands() {
		if verb.IsAvailableCommand() || verb.Name() == "help" {
			s.verbs = append(s.verbs, row{verb.Name(), verb.Short})
		}
	}
	for _, line := range strings.Split(cmd.Example, "\n") {
		if line = strings.TrimSpace(line); line != "" {
			s.examples = append(s.examples, line)
		}
	}
	cmd.LocalNonPersistentFlags().VisitAll(func(f *pflag.Flag) { s.flags = append(s.flags, rowOf(f)) })
	cmd.Root().PersistentFlags().VisitAll(func(f *pflag.Flag) { s.common = append(s.common, rowOf(f)) })
	return s
}

func rowOf(f *pflag.Flag) row {
	value, does := pflag.UnquoteUsage(f)
	name := "--" + f.Name
	if f.Shorthand != "" {
		name = "-" + f.Shorthand + ", " + name
	}
	return row{strings.TrimSpace(name + " " + value), does}
}
