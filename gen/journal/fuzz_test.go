package journal

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"spruelight/gen/source"
	"spruelight/testdata/hostile"
)

// checkFindings holds what every finding of this package must keep to: a rule
// that the guide lists, a place inside the file, words that print on one line.
func checkFindings(t *testing.T, file *source.File, found source.Findings) {
	t.Helper()
	for _, f := range found {
		if !slices.ContainsFunc(Rules, func(r *source.Rule) bool { return r.Name == f.Rule.Name }) {
			t.Fatalf("the rule %q is not listed", f.Rule.Name)
		}
		if f.At.File != file || f.At.Start < 0 || f.At.End < f.At.Start || f.At.End > len(file.Text) {
			t.Fatalf("%s stands at %d to %d of %d", f.Rule.Name, f.At.Start, f.At.End, len(file.Text))
		}
		if f.Says.String() == "" || strings.ContainsAny(f.Says.String()+f.Do.String(), "\n") {
			t.Fatalf("%s: %q; %q", f.Rule.Name, f.Says.String(), f.Do.String())
		}
		var out strings.Builder
		if (source.Style{}).Print(&out, f); strings.ContainsAny(out.String(), "\x1b\x07\r\u202e\u2066") {
			t.Fatalf("%q reaches the terminal", out.String())
		}
	}
}

// places walks a decoded value and reports one that was set and stands
// outside its file.
func places(v reflect.Value, file *source.File) error {
	if v.CanAddr() {
		if slot, ok := v.Addr().Interface().(interface {
			Slot() (any, *source.Span, *bool)
		}); ok {
			if _, at, set := slot.Slot(); *set && (at.File != file || at.Start < 0 || at.End < at.Start || at.End > len(file.Text)) {
				return fmt.Errorf("%v stands at %d to %d", v.Interface(), at.Start, at.End)
			}
		}
	}
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() && v.Type().Field(i).Type != spanType {
				if err := places(v.Field(i), file); err != nil {
					return err
				}
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			if err := places(v.Index(i), file); err != nil {
				return err
			}
		}
	case reflect.Pointer:
		if !v.IsNil() {
			return places(v.Elem(), file)
		}
	}
	return nil
}

// FuzzFrontMatter: any text in any kind of file is read to its end; what is
// wrong has a place, what was read stands where it says, and the same text
// gives the same answer with line ends of two characters.
func FuzzFrontMatter(f *testing.F) {
	kinds := FileKinds()
	for i := range kinds {
		f.Add(uint8(i), kindExample(kinds[i]))
	}
	for i, s := range []string{
		"name: x\nscale: 1/48\nstate: bench\nareas: {hull: {material: styrene}}\npaint: {hull: [{coat: a, for: base}]}\n",
		"a: [[[[[[[[[[[[[[[[[[[[[[[[[[[[[[x", "a: &x [*x]\n<<: *x\n", "? a\n: b\n", "!!binary x: y\n", "- a\n-b: [c\n", "a: |\n  b\n c: >-\n", "\"\\u0000\": 'x\n", "a: \"\t\\\n", "---\n---\n", "%YAML 9\n", "a:\n\tb: c\n", "{\"a\": [1, 2], 'b': {}}", "# only this", "",
		"hours: 1 h\nhours: 2 h\n", "name: null\n~: x\nscale:\n", "name: x # y\r\nstate: bench\r\n",
	} {
		f.Add(uint8(i), s)
	}
	f.Fuzz(func(t *testing.T, number uint8, text string) {
		if invalidUTF8(text) >= 0 || strings.Contains(text, "\x00") {
			t.Skip("refused before it is parsed")
		}
		kind := kinds[int(number)%len(kinds)]
		read := func(text string) (reflect.Value, *source.File, source.Findings) {
			file := source.NewFile("a.md", text)
			into := reflect.New(kind.Type)
			found := decode(file, 0, len(text), into.Interface())
			checkFindings(t, file, found)
			if err := places(into.Elem(), file); err != nil {
				t.Fatal(err)
			}
			return into, file, found
		}
		_, _, first := read(text)
		if strings.Contains(text, "\r") {
			return
		}
		_, _, second := read(strings.ReplaceAll(text, "\n", "\r\n"))
		if len(first) != len(second) {
			t.Fatalf("%d findings, and %d with CRLF", len(first), len(second))
		}
		for i := range first {
			if a, b := first[i], second[i]; a.Rule.Name != b.Rule.Name || a.At.Position() != b.At.Position() {
				t.Fatalf("%s at %v, and %s at %v with CRLF", a.Rule.Name, a.At.Position(), b.Rule.Name, b.At.Position())
			}
		}
	})
}

// kindExample is a text with the example of every key at the top of a kind.
func kindExample(k FileKind) string {
	var out strings.Builder
	for _, key := range k.Keys() {
		if name, nested := strings.CutPrefix(key.Path, "<name>."); nested && !strings.Contains(name, ".") {
			if out.Len() == 0 {
				out.WriteString("thing:\n")
			}
			fmt.Fprintf(&out, "  %s: %s\n", name, key.Example)
		} else if !strings.ContainsAny(key.Path, ".[<") {
			fmt.Fprintf(&out, "%s: %s\n", key.Path, key.Example)
		}
	}
	return out.String()
}

// FuzzMarkdown: whatever a body says, what is printed of it holds no code, no
// style and no address of another scheme, however often it is read anew.
func FuzzMarkdown(f *testing.F) {
	for _, s := range hostile.Strings() {
		f.Add(s)
	}
	for _, s := range []string{"# A\n\n## B {#c}", "[x](a.md#b) ![y](p/z.jpg \"t\")", "| a | b |\n|:-|-:|\n| 1 | 2 |", "- [ ] a\n  > b\n\n  1. c\n", "x[^1]\n\n[^1]: y", "```go\nx := `y`\n```", "<div>\n*a*\n</div>", "[a]: <b> 'c'\n[a] [b][a] ![a]"} {
		f.Add(s)
	}
	into := Into{Link: func(dest string) (string, bool) { return "to.html", !strings.Contains(dest, "gone") },
		Picture: func(p Picture) string { return `<img src="a.jpg" alt="">` }}
	f.Fuzz(func(t *testing.T, text string) {
		if invalidUTF8(text) >= 0 || strings.Contains(text, "\x00") {
			t.Skip("refused before it is parsed")
		}
		file := source.NewFile("a.md", text)
		b, found := parseBody(file, 0)
		checkFindings(t, file, found)
		out := b.HTML(into)
		if list := hostile.Runs([]byte(out)); len(list) > 0 {
			t.Fatalf("%s\nin %s", strings.Join(list, "\n"), out)
		}
		refused := slices.ContainsFunc(found, func(f source.Finding) bool { return f.Rule.Name == ruleHidden.Name })
		if i := strings.IndexFunc(out+b.Text(), hidden); i >= 0 && !refused && strings.IndexFunc(text, hidden) < 0 {
			t.Fatalf("%q shows a hidden character, and nothing says so", out)
		}
		if again := b.HTML(into); again != out {
			t.Fatalf("printed twice:\n%s\n%s", out, again)
		}
		for _, l := range b.Links() {
			scheme, absolute := Scheme(l.Dest)
			safe := !absolute || scheme == "http" || scheme == "https" || scheme == "mailto"
			if told := slices.ContainsFunc(found, func(f source.Finding) bool { return f.Rule.Name == ruleScheme.Name }); !safe && !told {
				t.Fatalf("nothing is said of %q", l.Dest)
			}
		}
		if s := b.Summary(40); len([]rune(s)) > 42 {
			t.Fatalf("a summary of %d characters: %q", len([]rune(s)), s)
		}
		b.Text()
	})
}
