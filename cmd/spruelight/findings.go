package main

import (
	"encoding/json"
	"fmt"
	"io"
	"os"
	"slices"

	"spruelight/gen/source"

	"golang.org/x/term"
)

// colourful reports whether findings may be coloured: on a terminal, and only
// where NO_COLOR is not set.
func colourful(f *os.File) bool {
	return os.Getenv("NO_COLOR") == "" && os.Getenv("TERM") != "dumb" && term.IsTerminal(int(f.Fd()))
}

// printFindings prints findings for people, and counts them in a last line.
func printFindings(w io.Writer, found source.Findings, colour bool) {
	style := source.Style{Colour: colour}
	for _, f := range found {
		style.Print(w, f)
	}
	if len(found) > 0 {
		fmt.Fprintln(w, inAll(found))
	}
}

// inAll counts findings: "1 stop, 5 warn, 12 note; stop at a.md:3:8".
func inAll(found source.Findings) string {
	return fmt.Sprintf("%d stop, %d warn, %d note%s", found.Count(source.Stop), found.Count(source.Warn), found.Count(source.Note),
		firstStop(found))
}

// firstStop points to the first of the findings that stop, which may be far up
// among the others.
func firstStop(found source.Findings) string {
	i := slices.IndexFunc(found, func(f source.Finding) bool { return f.Severity() == source.Stop })
	if i < 0 || len(found) == 1 || !found[i].At.Known() {
		return ""
	}
	at := found[i].At.Position()
	return fmt.Sprintf("; stop at %s:%d:%d", found[i].At.Name(), at.Line, at.Column)
}

// count says how many there are of a thing: "1 build", "2 builds".
func count(n int, what string) string {
	if n != 1 {
		what += "s"
	}
	return fmt.Sprintf("%d %s", n, what)
}

// printJSON prints findings as JSON lines.
func printJSON(w io.Writer, found source.Findings) error {
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	for _, f := range found {
		if err := enc.Encode(f); err != nil {
			return err
		}
	}
	return nil
}
