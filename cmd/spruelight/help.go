package main

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"github.com/spf13/cobra"
)

// columns is the widest line of a help page: a terminal's usual 80, less one
// so that no terminal wraps a full line.
const columns = 79

// helpVerb explains a verb, like its --help.
func helpVerb(root *cobra.Command) *cobra.Command {
	return &cobra.Command{
		Use:     "help [verb]",
		Short:   "Explain a verb, like its --help",
		Example: "  spruelight help sit\n  spruelight help reckon led",
		ValidArgsFunction: func(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
			cmd, rest, err := root.Find(args)
			if err != nil || len(rest) > 0 {
				return nil, cobra.ShellCompDirectiveNoFileComp
			}
			return verbsOf(cmd), cobra.ShellCompDirectiveNoFileComp
		},
		RunE: func(_ *cobra.Command, args []string) error {
			cmd, rest, err := root.Find(args)
			switch {
			case err != nil:
				return err
			case len(rest) > 0:
				return noVerb(cmd, rest[0])
			}
			return cmd.Help()
		},
	}
}

// printHelp prints a sheet for a terminal.
func printHelp(w io.Writer, s *sheet) {
	wrap(w, "", "", s.name+": "+lowerFirst(s.short))
	fmt.Fprintf(w, "\nUsage:\n")
	wrap(w, "  ", "      ", s.line)
	for _, par := range s.text {
		fmt.Fprintln(w)
		wrap(w, "", "", par)
	}
	if len(s.examples) > 0 {
		fmt.Fprintf(w, "\nExamples:\n  %s\n", strings.Join(s.examples, "\n  "))
	}
	printRows(w, "Verbs", s.verbs)
	printRows(w, "Flags", s.flags)
	printRows(w, "Flags of every verb", s.common)
	printRows(w, "Exit codes", exitCodes)
	if len(s.verbs) > 0 {
		fmt.Fprintf(w, "\n%s <verb> --help says more of each, with examples.\n", s.name)
	}
}

// printRows prints names in one column and what they do in another.
func printRows(w io.Writer, head string, rows []row) {
	if len(rows) == 0 {
		return
	}
	wide := 0
	for _, r := range rows {
		wide = max(wide, utf8.RuneCountInString(r.name))
	}
	fmt.Fprintf(w, "\n%s:\n", head)
	for _, r := range rows {
		pad := strings.Repeat(" ", wide-utf8.RuneCountInString(r.name))
		wrap(w, "  "+r.name+pad+"  ", strings.Repeat(" ", wide+4), r.does)
	}
}

// wrap prints words after a first indent, and goes on in further lines after
// another one. A word longer than a line stands on a line of its own.
func wrap(w io.Writer, first, next, text string) {
	line, empty := first, true
	for _, word := range strings.Fields(text) {
		if !empty && utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > columns {
			fmt.Fprintln(w, line)
			line, empty = next, true
		}
		if !empty {
			line += " "
		}
		line, empty = line+word, false
	}
	fmt.Fprintln(w, strings.TrimRight(line, " "))
}

// lowerFirst makes the first letter small, unless the word is all capitals
// like JSON.
func lowerFirst(text string) string {
	if len(text) < 2 || strings.ToUpper(text[:2]) == text[:2] {
		return text
	}
	return strings.ToLower(text[:1]) + text[1:]
}
