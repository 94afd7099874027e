package main

import "github.com/spf13/cobra"

// atMostOne wants no argument but a workshop.
func atMostOne(_ *cobra.Command, args []string) error {
	if len(args) > 1 {
		return misuse("one workshop at a time; %d were named", len(args))
	}
	return nil
}

// exactlyOne wants one argument.
func exactlyOne(what string) cobra.PositionalArgs {
	return func(_ *cobra.Command, args []string) error {
		switch {
		case len(args) == 0:
			return misuse("name %s", what)
		case len(args) > 1:
			return misuse("name %s; %q is one word too many", what, args[1])
		}
		return nil
	}
}

// none wants no argument.
func none(_ *cobra.Command, args []string) error {
	if len(args) > 0 {
		return misuse("%q is one word too many; put a value with spaces into quotes", args[0])
	}
	return nil
}
