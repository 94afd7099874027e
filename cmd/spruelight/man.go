package main

import (
	"fmt"
	"runtime/debug"
	"strings"

	"spruelight/gen/output"

	"github.com/spf13/cobra"
)

// manVerb writes the man pages.
func manVerb(c *common) *cobra.Command {
	var out string
	verb := &cobra.Command{
		Use:   "man",
		Short: "Write the man pages, a file a verb",
		Long: "Writes the same texts as --help as man pages. They bear the day of the commit that the program was built from, " +
			"or that of --at, never today's: the same program gives the same files. Read one with man man/man1/spruelight-sit.1.",
		Example: "  spruelight man --out man/man1",
		Args:    none,
		RunE: func(cmd *cobra.Command, _ []string) error {
			if out == "" {
				return misuse("say where to with --out folder, like --out man/man1")
			}
			day := builtOn()
			if c.at != "" {
				moment, err := c.moment()
				if err != nil {
					return err
				}
				day = moment.Format("2006-01-02")
			}
			var files []output.File
			for _, verb := range everyVerb(cmd.Root()) {
				s := sheetOf(verb)
				files = append(files, output.File{Path: s.page() + ".1", Bytes: []byte(manPage(s, parentOf(verb), day))})
			}
			return c.writeFiles(cmd.Context(), out, files)
		},
	}
	verb.Flags().StringVar(&out, "out", "", "`folder` for the pages")
	return verb
}

// everyVerb returns a command and all below it that users see.
func everyVerb(cmd *cobra.Command) []*cobra.Command {
	list := []*cobra.Command{cmd}
	for _, verb := range cmd.Commands() {
		if verb.IsAvailableCommand() {
			list = append(list, everyVerb(verb)...)
		}
	}
	return list
}

// page is the name of a sheet's man page: "spruelight-reckon-led".
func (s *sheet) page() string { return strings.ReplaceAll(s.name, " ", "-") }

func parentOf(cmd *cobra.Command) string {
	if cmd.Parent() == nil {
		return ""
	}
	return strings.ReplaceAll(cmd.Parent().CommandPath(), " ", "-")
}

// manPage prints a sheet in the macros of man(7).
func manPage(s *sheet, parent, day string) string {
	var b strings.Builder
	head := func(name string) { fmt.Fprintf(&b, ".SH %s\n", name) }
	fmt.Fprintf(&b, ".TH %s 1 %q %q\n", strings.ToUpper(roff(s.page())), day, "spruelight "+version())
	head("NAME")
	fmt.Fprintf(&b, "%s \\- %s\n", roff(s.page()), roff(lowerFirst(s.short)))
	head("SYNOPSIS")
	fmt.Fprintf(&b, ".B %s\n", roff(s.name))
	if rest := strings.TrimSpace(strings.TrimPrefix(s.line, s.name)); rest != "" {
		fmt.Fprintln(&b, roffLine(rest))
	}
	head("DESCRIPTION")
	text := s.text
	if len(text) == 0 {
		text = []string{s.short + "."}
	}
	for i, par := range text {
		if i > 0 {
			b.WriteString(".PP\n")
		}
		fmt.Fprintln(&b, roffLine(par))
	}
	if len(s.examples) > 0 {
		head("EXAMPLES")
		b.WriteString(".EX\n")
		for _, e := range s.examples {
			fmt.Fprintln(&b, roffLine(e))
		}
		b.WriteString(".EE\n")
	}
	manRows(&b, "VERBS", s.verbs)
	manRows(&b, "OPTIONS", append(s.flags[:len(s.flags):len(s.flags)], s.common...))
	manRows(&b, "EXIT STATUS", exitCodes)
	manRows(&b, "ENVIRONMENT", environment)
	if pages := s.seeAlso(parent); len(pages) > 0 {
		head("SEE ALSO")
		for i, page := range pages {
			end := " ,"
			if i == len(pages)-1 {
				end = ""
			}
			fmt.Fprintf(&b, ".BR %s (1)%s\n", roff(page), end)
		}
	}
	return b.String()
}

func (s *sheet) seeAlso(parent string) []string {
	var pages []string
	if parent != "" {
		pages = append(pages, parent)
	}
	for _, v := range s.verbs {
		if v.name != "help" {
			pages = append(pages, s.page()+"-"+v.name)
		}
	}
	return pages
}

func manRows(b *strings.Builder, head string, rows []row) {
	if len(rows) == 0 {
		return
	}
	fmt.Fprintf(b, ".SH %s\n", head)
	for _, r := range rows {
		fmt.Fprintf(b, ".TP\n.B %s\n%s\n", roff(r.name), roffLine(r.does))
	}
}

// roff escapes what troff would read as its own: a backslash, and hyphens and
// quotes that must stay as they were typed.
var roff = strings.NewReplacer(`\`, `\e`, "-", `\-`, `"`, `\(dq`, "'", `\(aq`, "`", `\(ga`, "^", `\(ha`, "~", `\(ti`, "°", `\(de`, "±", `\(+-`, "…", "...").Replace

// roffLine escapes a line; one that begins with a dot would be a macro.
func roffLine(text string) string {
	text = roff(text)
	if strings.HasPrefix(text, ".") {
		return `\&` + text
	}
	return text
}

// builtOn returns the day of the commit the program was built from, "" where
// it is not known.
func builtOn() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return ""
	}
	for _, s := range info.Settings {
		if s.Key == "vcs.time" && len(s.Value) >= len("2006-01-02") {
			return s.Value[:len("2006-01-02")]
		}
	}
	return ""
}
