package main

import (
	"io/fs"
	"os"
	"strings"

	"spruelight/gen/journal"

	"github.com/spf13/cobra"
)

// shells are those that completion knows, with how its script is printed.
var shells = map[string]func(*cobra.Command) error{
	"bash":       func(root *cobra.Command) error { return root.GenBashCompletionV2(root.OutOrStdout(), true) },
	"zsh":        func(root *cobra.Command) error { return root.GenZshCompletion(root.OutOrStdout()) },
	"fish":       func(root *cobra.Command) error { return root.GenFishCompletion(root.OutOrStdout(), true) },
	"powershell": func(root *cobra.Command) error { return root.GenPowerShellCompletionWithDesc(root.OutOrStdout()) },
}

var shellNames = []string{"bash", "zsh", "fish", "powershell"}

// completionVerb prints the script by which a shell completes our words.
func completionVerb() *cobra.Command {
	return &cobra.Command{
		Use:   "completion <shell>",
		Short: "Print the script by which a shell completes verbs, builds and stock",
		Long: "The shells are " + strings.Join(shellNames, ", ") + ". Completed are verbs, sums, flags, builds, sittings, stages and what is on the rack.\n\n" +
			"bash (with its package bash-completion): put the script into ~/.local/share/bash-completion/completions/spruelight.\n\n" +
			"zsh: put it as _spruelight into a folder of $fpath. fish: put it into ~/.config/fish/completions/spruelight.fish.\n\n" +
			"PowerShell: add to $PROFILE the line: spruelight completion powershell | Out-String | Invoke-Expression",
		Example:           "  spruelight completion bash > spruelight.bash\n  spruelight completion fish > spruelight.fish",
		Args:              exactlyOne("a shell: " + strings.Join(shellNames, ", ")),
		ValidArgsFunction: words(shellNames...),
		RunE: func(cmd *cobra.Command, args []string) error {
			script, ok := shells[args[0]]
			if !ok {
				return misuse("%q is none of the shells known here: %s", args[0], strings.Join(shellNames, ", "))
			}
			return script(cmd.Root())
		},
	}
}

// completer completes a word on the command line.
type completer = cobra.CompletionFunc

// words completes the first argument, or a flag, with fixed words.
func words(list ...string) completer { return first(func(string) []string { return list }) }

// first completes the first argument alone, and never with files.
func first(names func(begun string) []string) completer {
	return func(_ *cobra.Command, args []string, begun string) ([]string, cobra.ShellCompDirective) {
		if len(args) > 0 {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		return names(begun), cobra.ShellCompDirectiveNoFileComp
	}
}

// inShop completes from the workshop, and with nothing where there is none: a
// shell must never be told of an error while somebody types.
func inShop(c *common, names func(shop fs.FS) []string) []string {
	dir, err := c.folder(nil)
	if err != nil {
		return nil
	}
	return names(os.DirFS(dir))
}

// completeBuilds completes the name of a build.
func completeBuilds(c *common) completer {
	return first(func(string) []string { return inShop(c, journal.BuildNames) })
}

// completeSittings completes a build, and after its slash a sitting.
func completeSittings(c *common) completer {
	return func(_ *cobra.Command, args []string, begun string) ([]string, cobra.ShellCompDirective) {
		if len(args) > 0 {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		slug, _, whole := strings.Cut(begun, "/")
		names := inShop(c, func(shop fs.FS) (names []string) {
			if !whole {
				for _, b := range journal.BuildNames(shop) {
					names = append(names, b+"/")
				}
				return names
			}
			for _, s := range journal.SittingNames(shop, slug) {
				names = append(names, slug+"/"+s)
			}
			return names
		})
		return names, cobra.ShellCompDirectiveNoFileComp | cobra.ShellCompDirectiveNoSpace
	}
}

// completeStock completes the name of something on the rack, beside fixed words.
func completeStock(c *common, kind string, more ...string) completer {
	return func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		return append(inShop(c, func(shop fs.FS) []string { return journal.StockNames(shop, kind) }), more...), cobra.ShellCompDirectiveNoFileComp
	}
}

// flagWords completes the value of a flag.
func flagWords(cmd *cobra.Command, flag string, complete completer) {
	err := cmd.RegisterFlagCompletionFunc(flag, func(cmd *cobra.Command, _ []string, begun string) ([]string, cobra.ShellCompDirective) {
		return complete(cmd, nil, begun) // the arguments before it do not matter to a flag
	})
	if err != nil {
		panic(err) // a flag that is not there: a slip in the program
	}
}

// folders completes a folder.
func folders(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	return nil, cobra.ShellCompDirectiveFilterDirs
}
