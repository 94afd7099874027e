package gen_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"spruelight/gen"
	"spruelight/gen/circuit"
	"spruelight/gen/source"
	"spruelight/themes"

	"github.com/goccy/go-yaml"
)

// findingRooms are the rooms whose findings stand on pages. What stops a run stands
// on none: nothing is written then.
var findingRooms = []string{"circuit", "paint"}

// sameEverywhere are sources that stand as they are: numbers of standards.
var sameEverywhere = regexp.MustCompile(`^(?:IEC 60028, ASTM B258|14 CFR 25\.1401\(c\))$`)

// Every warning and note of a room whose findings stand on pages is told: what was
// found, what to do about it, why it matters, by which source. A message that is
// reworded takes its sentences along.
func TestFindingsAreTold(t *testing.T) {
	told := toldBy(t)
	for _, room := range findingRooms {
		seen := 0
		for _, form := range saidBy(t, room) {
			seen++
			if !told(form) {
				t.Errorf("gen/%s: no sentence tells %q", room, form)
			}
		}
		if seen < 60 {
			t.Errorf("gen/%s: %d forms were found; the walk has lost its way", room, seen)
		}
	}
}

// unopened ends several reasons and is told by itself; practice ends several sources.
const (
	unopened = "the shell cannot be opened again without breaking it"
	practice = "common practice, no source"
)

// The reason and the source of a rule stand below its finding.
func TestReasonsOfFindingsAreTold(t *testing.T) {
	told, seen := toldBy(t), 0
	for _, r := range pageRules(t) {
		if r.Severity == source.Stop {
			continue
		}
		seen++
		if !told(strings.Replace(r.Reason, unopened, "{}", 1)) {
			t.Errorf("%s: no sentence tells %q", r.Name, r.Reason)
		}
		if !told(r.Source) && !sameEverywhere.MatchString(r.Source) {
			t.Errorf("%s: no sentence tells its source %q", r.Name, r.Source)
		}
	}
	if seen < 60 {
		t.Errorf("%d rules were seen", seen)
	}
}

// toldBy reports of a form whether the words have it whole.
func toldBy(t *testing.T) func(form string) bool {
	t.Helper()
	known, w := sentencesOf(t), wordsOf(t, "de")
	return func(form string) bool { return known[form] != "" || known[form+"."] != "" || w.Has(form) }
}

// pageRules are the rules of the rooms whose findings stand on pages.
func pageRules(t *testing.T) []*source.Rule {
	t.Helper()
	for _, set := range gen.RuleSets() {
		if slices.ContainsFunc(set.Rules, func(r *source.Rule) bool { return r.Name == "lacquer-over-enamel" }) {
			return append(slices.Clone(set.Rules), circuit.Rules...)
		}
	}
	t.Fatal("no rules of the finish")
	return nil
}

// sentencesOf are the sentences of a language; all have the same.
func sentencesOf(t *testing.T) map[string]string {
	t.Helper()
	text, err := fs.ReadFile(themes.FS, "words/de.yaml")
	if err != nil {
		t.Fatal(err)
	}
	var file struct{ Sentences map[string]string }
	if err := yaml.Unmarshal(text, &file); err != nil {
		t.Fatal(err)
	}
	return file.Sentences
}

// saidBy reads a room's source for the messages and remedies of its findings, with
// {} for each value.
func saidBy(t *testing.T, room string) []string {
	t.Helper()
	names, err := filepath.Glob(room + "/*.go")
	if err != nil {
		t.Fatal(err)
	}
	var files []*ast.File
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		f, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		files = append(files, f)
	}
	stops := map[string]bool{}
	for _, f := range files {
		ast.Inspect(f, func(n ast.Node) bool {
			if spec, ok := n.(*ast.ValueSpec); ok && len(spec.Values) == len(spec.Names) {
				for i, v := range spec.Values {
					stops[spec.Names[i].Name] = namesStop(v)
				}
			}
			return true
		})
	}
	var forms []string
	for _, f := range files {
		forms = append(forms, speech{f, stops}.forms()...)
	}
	slices.Sort(forms)
	return slices.DeleteFunc(slices.Compact(forms), func(form string) bool { return form == "" || form == "{}" })
}

func namesStop(v ast.Expr) (found bool) {
	ast.Inspect(v, func(n ast.Node) bool {
		s, ok := n.(*ast.SelectorExpr)
		found = found || ok && s.Sel.Name == "Stop"
		return true
	})
	return found
}

// speech is one file and the rules that stop.
type speech struct {
	file  *ast.File
	stops map[string]bool
}

func (s speech) forms() []string {
	var out []string
	ast.Inspect(s.file, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.CallExpr:
			out = append(out, s.call(n)...)
		case *ast.KeyValueExpr: // of a verdict on meter readings
			if key, ok := n.Key.(*ast.Ident); ok && (key.Name == "Cause" || key.Name == "Try") {
				out = append(out, s.texts(n.Value, 0)...)
			}
		}
		return true
	})
	return out
}

// call takes rule.At(place, remedy, format, …) and try(cause, next, …).
func (s speech) call(c *ast.CallExpr) []string {
	switch f := c.Fun.(type) {
	case *ast.SelectorExpr:
		rule, _ := f.X.(*ast.Ident)
		if f.Sel.Name != "At" || len(c.Args) < 3 || rule != nil && s.stops[rule.Name] {
			return nil
		}
		out := s.texts(c.Args[1], 0)
		for _, format := range s.texts(c.Args[2], 0) {
			out = append(out, formed(format))
		}
		return out
	case *ast.Ident:
		if f.Name == "try" && len(c.Args) == 4 {
			return append(s.texts(c.Args[0], 0), s.texts(c.Args[1], 0)...)
		}
	}
	return nil
}

// texts are what an expression may say.
func (s speech) texts(e ast.Expr, depth int) []string {
	switch e := e.(type) {
	case *ast.BasicLit:
		if text, err := strconv.Unquote(e.Value); err == nil && e.Kind == token.STRING {
			return []string{text}
		}
	case *ast.BinaryExpr:
		var out []string
		for _, x := range s.texts(e.X, depth) {
			for _, y := range s.texts(e.Y, depth) {
				out = append(out, joined(x+y))
			}
		}
		return out
	case *ast.CallExpr:
		f, ok := e.Fun.(*ast.SelectorExpr)
		switch {
		case ok && f.Sel.Name == "Sprintf":
			var out []string
			for _, format := range s.texts(e.Args[0], depth) {
				out = append(out, formed(format))
			}
			return out
		case ok && f.Sel.Name == "placesFor":
			return s.returned(f.Sel.Name)
		}
	case *ast.Ident:
		if out := s.assigned(e.Name, depth); len(out) > 0 {
			return out
		}
	}
	return []string{"{}"}
}

// returned are the texts that a function of the file returns.
func (s speech) returned(name string) []string {
	var out []string
	ast.Inspect(s.file, func(n ast.Node) bool {
		if f, ok := n.(*ast.FuncDecl); ok {
			return f.Name.Name == name
		}
		if r, ok := n.(*ast.ReturnStmt); ok {
			out = append(out, s.texts(r.Results[0], 0)...)
		}
		return true
	})
	return out
}

// assigned are the texts that a name gets in the file.
func (s speech) assigned(name string, depth int) []string {
	if depth > 3 {
		return nil
	}
	var out []string
	take := func(lhs, rhs ast.Expr) {
		if id, ok := lhs.(*ast.Ident); ok && id.Name == name {
			out = append(out, s.texts(rhs, depth+1)...)
		}
	}
	ast.Inspect(s.file, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.AssignStmt:
			for i := range n.Lhs {
				if len(n.Lhs) == len(n.Rhs) {
					take(n.Lhs[i], n.Rhs[i])
				}
			}
		case *ast.ValueSpec:
			for i := range n.Values {
				take(n.Names[i], n.Values[i])
			}
		}
		return true
	})
	return out
}

var (
	formatVerb = regexp.MustCompile(`%[-+# 0]*\d*(?:\.\d+)?[a-zA-Z]`)
	places     = regexp.MustCompile(`(?:\{\})+`)
)

// formed is a format as the sentences have it.
func formed(format string) string {
	whole := strings.ReplaceAll(format, "%%", "\x00")
	return strings.ReplaceAll(joined(formatVerb.ReplaceAllString(whole, "{}")), "\x00", "%")
}

// joined makes one value of two that touch.
func joined(form string) string { return places.ReplaceAllString(form, "{}") }

// putTogether are sentences whose words the source puts together from pieces, so
// that no four of them need stand in a row.
var putTogether = []*regexp.Regexp{
	regexp.MustCompile(`^Try one |^(?:and )?only those two were |^There is nothing to compare yet: \{\} parts? affected, no `), // the suspects of a problem, one to a few
	regexp.MustCompile(`^the \{\}(?:st|nd|rd|th) percentile of `),                                                              // a place among people, with its ending
	regexp.MustCompile(`^\{\} parts? had to be |^no light leaks found$|^\{\} at the bench in \{\} sittings$`),                  // a count and its noun
	regexp.MustCompile(`^the current on day one of \{\}$|^when the coats were laid of \{\}$`),                                  // what a repair sheet lacks, and of what
}

// A sentence that nothing says any more is taken out: each four words of it that
// stand in a row stand so in the source. Shorter pieces may be put together.
func TestSentencesAreSaid(t *testing.T) {
	source, long := saidAnywhere(t), 0
	for form := range sentencesOf(t) {
		if slices.ContainsFunc(putTogether, func(p *regexp.Regexp) bool { return p.MatchString(form) }) {
			continue
		}
		for _, piece := range strings.Split(strings.ReplaceAll(form, ": "+practice, "{}"), "{}") {
			words := strings.Fields(strings.Trim(piece, " .,;:()"))
			for i := 0; i+4 <= len(words); i++ {
				long++
				if run := strings.Join(words[i:i+4], " "); !strings.Contains(source, run) {
					t.Errorf("nothing says %q of %q", run, form)
					break
				}
			}
		}
	}
	if long < 1000 {
		t.Errorf("%d runs of four words were looked up", long)
	}
}

// saidAnywhere is every text of the source: of the rooms, and of the themes.
func saidAnywhere(t *testing.T) string {
	t.Helper()
	var out strings.Builder
	err := filepath.WalkDir(".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") {
			return err
		}
		f, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		ast.Inspect(f, func(n ast.Node) bool {
			if l, ok := n.(*ast.BasicLit); ok && l.Kind == token.STRING {
				if text, err := strconv.Unquote(l.Value); err == nil {
					out.WriteString(strings.ReplaceAll(text, "%%", "%") + "\n")
				}
			}
			return true
		})
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	err = fs.WalkDir(themes.FS, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || !strings.HasSuffix(name, ".html") {
			return err
		}
		text, err := fs.ReadFile(themes.FS, name)
		out.Write(text)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out.String()
}
