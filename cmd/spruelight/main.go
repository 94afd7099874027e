// Command spruelight publishes the build logs of lit scale models.
//
// What goes where: results and machine-readable output go to standard output,
// progress, findings and errors to standard error. Errors are in lower case,
// without a full stop, and name what to do. Colour is used on a terminal only,
// never where NO_COLOR is set, and nothing is said by colour alone.
//
// Exit codes: 0 done (warnings allowed), 1 findings of severity stop or a
// failed operation, 2 wrong usage.
package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/signal"
	"syscall"

	"github.com/spf13/cobra"
)

func main() { os.Exit(run()) }

// run runs the program and returns its exit code.
func run() int {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	err := command().ExecuteContext(ctx)
	var usage *usageError
	switch {
	case err == nil:
		return 0
	case errors.Is(err, errFindings): // the findings have been printed
		return 1
	case errors.As(err, &usage):
		fmt.Fprintf(os.Stderr, "spruelight: %v\n", err)
		return 2
	case ctx.Err() != nil:
		fmt.Fprintln(os.Stderr, "spruelight: stopped")
		return 1
	}
	fmt.Fprintf(os.Stderr, "spruelight: %v\n", err)
	return 1
}

// errFindings says that findings of severity stop were printed.
var errFindings = errors.New("findings of severity stop")

// usageError is a wrong call of the program.
type usageError struct{ error }

func misuse(format string, args ...any) error { return &usageError{fmt.Errorf(format, args...)} }

// command returns the program's root command with its verbs.
func command() *cobra.Command {
	c := &common{}
	cobra.EnableCommandSorting = false // they stand in the order of the work
	root := &cobra.Command{
		Use:           "spruelight <verb>",
		Short:         "Plan the lights, keep the journal, publish the build log of a scale model",
		Long:          "Reads the journals of a workshop (a folder of plain text and photos), does the sums of lamps, paint and scale, checks them before each point of no return, and writes a site of pages that need no server.",
		Example:       "  spruelight unbox survey-skiff\n  spruelight sit survey-skiff\n  spruelight dryfit\n  spruelight assemble",
		Version:       version(),
		SilenceErrors: true,
		SilenceUsage:  true,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) > 0 {
				return noVerb(cmd, args[0])
			}
			return nil
		},
		PersistentPreRun: func(*cobra.Command, []string) { c.sweep() },
		RunE:             func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
	}
	root.SetFlagErrorFunc(wrongFlag)
	root.SetHelpFunc(func(cmd *cobra.Command, _ []string) { printHelp(cmd.OutOrStdout(), sheetOf(cmd)) })
	root.SetHelpCommand(helpVerb(root))
	root.CompletionOptions.DisableDefaultCmd = true // completionVerb has our own words
	root.Flags().BoolP("version", "v", false, "the version of the program")
	c.flags(root)
	root.AddCommand(unboxVerb(c), sitVerb(c), benchVerb(c), dryfitVerb(c), assembleVerb(c), reckonVerb(c), shownotesVerb(c), shelveVerb(c),
		completionVerb(), manVerb(c))
	for _, verb := range everyVerb(root) {
		if verb.ValidArgsFunction == nil {
			verb.ValidArgsFunction = words() // a value, or nothing: never the files of the folder
		}
	}
	return root
}
