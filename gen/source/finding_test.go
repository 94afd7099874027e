package source

import (
	"reflect"
	"testing"
)

func TestSince(t *testing.T) {
	file := NewFile("a.md", "hours: 3\nstage: x\n")
	at := func(line int, says string) Finding {
		return (&Rule{Name: "value", Severity: Warn}).At(file.At(9*line, 5), "", "%s", says)
	}
	quiet := at(0, "a")
	quiet.Silenced = "it is known"
	for _, c := range []struct {
		name                string
		before, found, want Findings
	}{
		{"all at first", nil, Findings{at(0, "a"), at(1, "b")}, Findings{at(0, "a"), at(1, "b")}},
		{"none twice", Findings{at(0, "a")}, Findings{at(0, "a")}, nil},
		{"one that moved is no news", Findings{at(0, "a")}, Findings{at(1, "a")}, nil},
		{"a second of the same is", Findings{at(0, "a")}, Findings{at(0, "a"), at(1, "a")}, Findings{at(1, "a")}},
		{"one no longer silenced is", Findings{quiet}, Findings{at(0, "a")}, Findings{at(0, "a")}},
		{"one that came back is", Findings{}, Findings{at(0, "a")}, Findings{at(0, "a")}},
	} {
		if got := c.found.Since(c.before); !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
}
