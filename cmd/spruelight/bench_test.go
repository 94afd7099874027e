package main

import (
	"bytes"
	"regexp"
	"testing"
	"time"

	"spruelight/gen/source"
)

// The terminal tells what has come since the last change, and where the pages
// stand.
func TestBenchTellsNews(t *testing.T) {
	rule := func(severity source.Severity, says string) source.Finding {
		file := source.NewFile("a.md", "hours: 3\n")
		return (&source.Rule{Name: "value", Severity: severity}).At(file.At(0, 5), "", "%s", says)
	}
	old, news, stop := rule(source.Note, "old"), rule(source.Warn, "new"), rule(source.Stop, "bad")
	const excerpt = "    1 | hours: 3\n      | ^^^^^\n"
	var out, errs bytes.Buffer
	tell := reportBench(&common{}, &out, &errs)
	for _, c := range []struct {
		name  string
		found source.Findings
		want  string
	}{
		{"a stop at first", source.Findings{old, stop}, "a.md:1:1: note: old [value]\n" + excerpt + "a.md:1:1: stop: bad [value]\n" + excerpt + "1 stop, 0 warn, 1 note; stop at a.md:1:1\nNOW: no pages until what stops is mended\n"},
		{"mended", source.Findings{old}, "0 stop, 0 warn, 1 note\nNOW: shown anew in 5 ms\n"},
		{"nothing new", source.Findings{old}, "0 stop, 0 warn, 1 note\nNOW: shown anew in 5 ms\n"},
		{"one more", source.Findings{old, news}, "a.md:1:1: warn: new [value]\n" + excerpt + "0 stop, 1 warn, 1 note\nNOW: shown anew in 5 ms\n"},
		{"a stop later", source.Findings{old, news, stop}, "a.md:1:1: stop: bad [value]\n" + excerpt + "1 stop, 1 warn, 1 note; stop at a.md:1:1\nNOW: the pages stay as they were\n"},
		{"all gone", nil, "NOW: shown anew in 5 ms\n"},
	} {
		errs.Reset()
		tell(c.found, 5*time.Millisecond, nil)
		if got := regexp.MustCompile(`(?m)^\d\d:\d\d:\d\d`).ReplaceAllString(errs.String(), "NOW"); got != c.want || out.Len() > 0 {
			t.Errorf("%s:\n%s\nwant\n%s", c.name, got, c.want)
		}
	}
}
