package source

import (
	"encoding/json"
	"strings"
	"testing"
)

var ruleTest = &Rule{Name: "test-rule", Severity: Warn}

func printed(f Finding, colour bool) string {
	var b strings.Builder
	Style{Colour: colour}.Print(&b, f)
	return b.String()
}

func TestPrintedFindings(t *testing.T) {
	file := NewFile("builds/a/build.md", "---\nname: x\n\tscale: 1/48 ü\n  größe: 5\r\n日本: 7 V\n")
	at := func(text string) Span { return file.At(strings.Index(file.Text, text), len(text)) }
	for _, c := range []struct {
		name string
		f    Finding
		want string
	}{
		{"a value", ruleTest.At(at("1/48"), "write it so", "%s is wrong", "1/48"),
			"builds/a/build.md:3:9: warn: 1/48 is wrong [test-rule]\n    3 | \tscale: 1/48 ü\n      | \t       ^^^^\n  do: write it so\n"},
		{"columns count characters", ruleTest.At(at("5"), "", "x"),
			"builds/a/build.md:4:10: warn: x [test-rule]\n    4 |   größe: 5\n      |          ^\n"},
		{"wide characters take two cells", ruleTest.At(at("7 V"), "", "x"),
			"builds/a/build.md:5:5: warn: x [test-rule]\n    5 | 日本: 7 V\n      |       ^^^\n"},
		{"nowhere", ruleTest.At(Span{}, "make one", "there is none"), "warn: there is none [test-rule]\n  do: make one\n"},
		{"with another place", ruleTest.At(at("name"), "", "twice").With(at("größe"), "first here"),
			"builds/a/build.md:2:1: warn: twice [test-rule]\n    2 | name: x\n      | ^^^^\n  see builds/a/build.md:4:3: first here\n"},
		{"several lines are marked to the end of the first", ruleTest.At(file.At(4, 20), "", "x"),
			"builds/a/build.md:2:1: warn: x [test-rule]\n    2 | name: x\n      | ^^^^^^^\n"},
		{"control characters cannot steer a terminal", ruleTest.At(Span{}, "", "a\x1b[31mb\u202ec"), "warn: a\ufffd[31mb\ufffdc [test-rule]\n"},
	} {
		if got := printed(c.f, false); got != c.want {
			t.Errorf("%s:\n%s\nwant\n%s", c.name, got, c.want)
		}
	}
	if got := printed(ruleTest.At(Span{}, "", "x"), true); !strings.Contains(got, "\x1b[33mwarn\x1b[0m") {
		t.Errorf("no colour in %q", got)
	}
}

// A line of a megabyte keeps its caret in sight and does not fill the terminal.
func TestLongLines(t *testing.T) {
	file := NewFile("a.md", strings.Repeat("x", 500_000)+"HERE"+strings.Repeat("y", 500_000))
	got := printed(ruleTest.At(file.At(500_000, 4), "", "x"), false)
	if len(got) > 1000 || !strings.Contains(got, "HERE") || !strings.Contains(got, "^^^^") {
		t.Errorf("printed %d bytes: %.300s", len(got), got)
	}
}

func TestFindingsAsJSON(t *testing.T) {
	file := NewFile("a.md", "one\ntwo\n")
	text, err := json.Marshal(ruleTest.At(file.At(4, 3), "do it", "wrong"))
	want := `{"rule":"test-rule","severity":"warn","file":"a.md","line":2,"column":1,"endLine":2,"endColumn":4,"message":"wrong","remedy":"do it"}`
	if err != nil || string(text) != want {
		t.Errorf("%s (%v), want %s", text, err, want)
	}
}

// Names, messages and excerpts reach a terminal without what could steer it;
// JSON keeps them as escapes.
func TestFindingsCannotSteerATerminal(t *testing.T) {
	const steer = "a\x1b[2J\x07\u009b31m\u202eb\r\u2066c\x00\x7f"
	f := ruleTest.At(NewFile(steer+".md", steer+"\n").At(0, 40), steer, "%s", steer).With(NewFile(steer, "").Whole(), steer)
	f.Silenced = steer
	if got := printed(f, false); strings.ContainsAny(got, "\x1b\x07\u009b\u202e\r\u2066\x00\x7f") {
		t.Errorf("printed %q", got)
	}
	text, err := json.Marshal(f)
	if err != nil || strings.ContainsAny(string(text), "\x1b\x07\u009b\u202e\r\u2066\x00\x7f") {
		t.Errorf("%q, %v", text, err)
	}
	var back struct{ Message string }
	if err := json.Unmarshal(text, &back); err != nil || back.Message != steer {
		t.Errorf("%q, %v", back.Message, err)
	}
}

func TestOrderAndCounts(t *testing.T) {
	a, b := NewFile("a.md", "1\n2\n"), NewFile("b.md", "1\n")
	stop := &Rule{Name: "s", Severity: Stop}
	list := Findings{ruleTest.At(b.At(0, 1), "", "y"), stop.At(a.At(2, 1), "", "x"), ruleTest.At(a.At(0, 1), "", "z"), ruleTest.At(b.At(0, 1), "", "y")}
	list.Sort()
	got := ""
	for _, f := range list {
		got += f.Says.String()
	}
	if got != "zxy" {
		t.Errorf("order %q, want zxy: by file, then place, repeats dropped", got)
	}
	if !list.Stops() || list.Count(Warn) != 2 {
		t.Errorf("stops %v, %d warnings", list.Stops(), list.Count(Warn))
	}
	list[1].Silenced = "with a reason"
	if list.Stops() {
		t.Error("a silenced finding stops the run")
	}
}

// Line and column lead back to the offset they came from, for every offset.
func TestPositionsRoundTrip(t *testing.T) {
	file := NewFile("a", "ab\nü日\n\nx\r\nend")
	for offset := range file.Text {
		p := file.Position(offset)
		if back := file.Offset(p.Line, p.Column); back != offset {
			t.Errorf("offset %d is %+v, which is offset %d", offset, p, back)
		}
	}
}
