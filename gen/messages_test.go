package gen_test

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"spruelight/gen"
	"spruelight/gen/photo"
	"spruelight/gen/source"
	"spruelight/themes"
)

// updates reports whether golden files are to be rewritten. The flag is
// declared by this package's inner tests.
func updates() bool { return flag.Lookup("update").Value.String() == "true" }

// mistake is one case of testdata/messages.txt: changes to the small workshop,
// and what a run then says that it did not say before.
type mistake struct {
	name  string
	edits []string // "FILE: OLD => NEW"
	says  string
}

// readMistakes reads the cases: a heading "== name", lines "in FILE: OLD =>
// NEW" (\n for the end of a line; nothing before the arrow for a file of its
// own), then the findings as a terminal shows them.
func readMistakes(t *testing.T) (head string, list []mistake) {
	t.Helper()
	text, err := os.ReadFile("testdata/messages.txt")
	if err != nil {
		t.Fatal(err)
	}
	parts := strings.Split("\n"+string(text), "\n== ")
	for _, part := range parts[1:] {
		name, rest, _ := strings.Cut(part, "\n")
		m := mistake{name: name}
		for strings.HasPrefix(rest, "in ") {
			line, after, _ := strings.Cut(rest, "\n")
			m.edits = append(m.edits, strings.TrimPrefix(line, "in "))
			rest = after
		}
		m.says = strings.TrimSpace(rest)
		list = append(list, m)
	}
	return strings.TrimPrefix(parts[0], "\n"), list
}

func (m mistake) apply(t *testing.T, shop fstest.MapFS) {
	t.Helper()
	unquote := strings.NewReplacer(`\n`, "\n", `\t`, "\t", `\x1b`, "\x1b", `\u202e`, "\u202e", `\xe7`, "\xe7", `\x00`, "\x00").Replace
	for _, e := range m.edits {
		file, change, _ := strings.Cut(e, ": ")
		from, to, ok := strings.Cut(change, "=> ")
		from, to = unquote(strings.TrimSuffix(from, " ")), unquote(to)
		old := ""
		if shop[file] != nil {
			old = string(shop[file].Data)
		}
		if !ok || strings.Count(old, from) == 0 {
			t.Fatalf("%s: %s changes nothing", m.name, e)
		}
		if from == "" {
			shop[file] = &fstest.MapFile{Data: []byte(to)}
			continue
		}
		shop[file] = &fstest.MapFile{Data: []byte(strings.Replace(old, from, to, 1))}
	}
}

// checked returns what a run says, by rule, words and the text spoken of: lines
// may move when a case adds one above them.
func checked(t *testing.T, shop fstest.MapFS) (prints, keys []string) {
	t.Helper()
	res, err := gen.Check(context.Background(), gen.Env{Content: shop, Themes: themes.FS, Moment: moment, Workers: 1, Photos: photo.MemoryCache(), Version: "test"})
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range res.Findings {
		var out strings.Builder
		source.Style{}.Print(&out, f)
		prints = append(prints, out.String())
		keys = append(keys, fmt.Sprint(f.At.Name(), f.Rule.Name, f.Says.String(), f.At.Text()))
	}
	return prints, keys
}

// What each mistake gets to hear, to the letter: the place, what is wrong and
// the way out.
func TestMessages(t *testing.T) {
	_, usual := checked(t, smallShop())
	head, list := readMistakes(t)
	var out bytes.Buffer
	out.WriteString(head)
	for _, m := range list {
		shop := smallShop()
		m.apply(t, shop)
		var says []string
		prints, keys := checked(t, shop)
		for i, key := range keys {
			if !slices.Contains(usual, key) {
				says = append(says, prints[i])
			}
		}
		got := strings.TrimSpace(strings.Join(says, ""))
		fmt.Fprintf(&out, "\n== %s\n", m.name)
		for _, e := range m.edits {
			fmt.Fprintf(&out, "in %s\n", e)
		}
		fmt.Fprintf(&out, "\n%s\n", got)
		if updates() {
			continue
		}
		if got == "" {
			t.Errorf("%s: nothing is said", m.name)
		}
		if got != m.says {
			t.Errorf("%s:\n%s\nwant\n%s", m.name, got, m.says)
		}
	}
	if updates() {
		if err := os.WriteFile("testdata/messages.txt", out.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if len(list) < 80 {
		t.Errorf("only %d mistakes", len(list))
	}
}

// The tone: no shouting, no blame, no politeness that hides the point, and a
// way out wherever something is wrong.
func TestToneOfMessages(t *testing.T) {
	_, list := readMistakes(t)
	for _, m := range list {
		for _, word := range []string{"!", "please", "you must", "you should", "you have", "your mistake", "invalid", "illegal", "error", "failed", "bad ", "wrong value", "forbidden", "sorry", "oops"} {
			for line := range strings.Lines(m.says) {
				if !strings.Contains(line, " | ") && strings.Contains(strings.ToLower(line), word) {
					t.Errorf("%s: %q in %s", m.name, word, line)
				}
			}
		}
		if strings.Contains(m.says, " stop: ") && !strings.Contains(m.says, "\n  do: ") {
			t.Errorf("%s: no way out", m.name)
		}
	}
}
