package main

import (
	"encoding/json"
	"fmt"
	"io"
	"os"

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
		fmt.Fprintf(w, "%d stop, %d warn, %d note\n", found.Count(source.Stop), found.Count(source.Warn), found.Count(source.Note))
	}
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
