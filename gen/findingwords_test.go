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

	"spruelight/gen/circuit"
	"spruelight/gen/guide"
	"spruelight/gen/source"
	"spruelight/themes"

	"github.com/goccy/go-yaml"
)

// findingRooms are the rooms whose findings stand on pages. What stops a run stands
// on none: nothing is written then.
var findingRooms = []string{"circuit", "paint"}

// sameEverywhere are sources that stand as they are: numbers of standards.
var sameEverywhere = regexp.MustCompile(`^(?:IEC 60028, ASTM B258|14 CFR 25\.1401\(c\))$`)

// Every language has the form of every warning and note of a room whose findings
// stand on pages: what was found, what to do about it, and what these are put
// together from.
func TestFindingsAreTranslated(t *testing.T) {
	for _, room := range findingRooms {
		forms := formsOf(t, room)
		for _, language := range languages {
			w := wordsOf(t, language)
			for _, form := range forms {
				if !w.Has(form) {
					lacking(t, "gen/%s: %s lacks %q", room, language, form)
				}
			}
		}
		if len(forms) < 60 {
			t.Errorf("gen/%s: %d forms were found; the walk has lost its way", room, len(forms))
		}
	}
}

// The reason and the source of a rule stand below its finding.
func TestReasonsOfFindingsAreTranslated(t *testing.T) {
	seen := 0
	for _, r := range pageRules(t) {
		if r.Severity == source.Stop {
			continue
		}
		seen++
		for _, language := range languages {
			w := wordsOf(t, language)
			if !w.Has(r.Why().Form) {
				lacking(t, "%s: %s lacks %q", r.Name, language, r.Reason)
			}
			if !w.Has(r.From().Form) && !sameEverywhere.MatchString(r.Source) {
				lacking(t, "%s: %s lacks its source %q", r.Name, language, r.Source)
			}
		}
	}
	if seen < 60 {
		t.Errorf("%d rules were seen", seen)
	}
}

// pageRules are the rules of the rooms whose findings stand on pages.
func pageRules(t *testing.T) []*source.Rule {
	t.Helper()
	for _, set := range guide.RuleSets() {
		if slices.ContainsFunc(set.Rules, func(r *source.Rule) bool { return r.Name == "lacquer-over-enamel" }) {
			return append(slices.Clone(set.Rules), circuit.Rules...)
		}
	}
	t.Fatal("no rules of the finish")
	return nil
}

// wordedIn are the keys of a language's words, with {} for each value; all
// languages have the same.
func wordedIn(t *testing.T) map[string]bool {
	t.Helper()
	text, err := fs.ReadFile(themes.FS, "words/de.yaml")
	if err != nil {
		t.Fatal(err)
	}
	var file struct{ Phrases map[string]string }
	if err := yaml.Unmarshal(text, &file); err != nil {
		t.Fatal(err)
	}
	all := map[string]bool{}
	for key := range file.Phrases {
		all[formed(key)] = true
	}
	return all
}

// formsOf reads a room's source for the forms of what its warnings and notes say.
// Forms that are values and signs alone are left out.
func formsOf(t *testing.T, room string) []string {
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
	return slices.DeleteFunc(slices.Compact(forms), func(form string) bool {
		return !aLetter.MatchString(formatVerb.ReplaceAllString(form, ""))
	})
}

var aLetter = regexp.MustCompile(`\pL`)

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
		c, ok := n.(*ast.CallExpr)
		if !ok {
			return true
		}
		said, deeper := s.call(c)
		out = append(out, said...)
		return deeper
	})
	return out
}

// call takes the forms of rule.At(place, do, form, …), source.Say(form, …),
// source.Word(text), and of the helpers that hand a text on to these; it reports
// whether to look into the call.
func (s speech) call(c *ast.CallExpr) (said []string, deeper bool) {
	args := func(at ...int) (all []string) {
		for _, i := range at {
			if i < len(c.Args) {
				all = append(all, s.texts(c.Args[i], 0)...)
			}
		}
		return all
	}
	switch f := c.Fun.(type) {
	case *ast.SelectorExpr:
		x, _ := f.X.(*ast.Ident)
		switch {
		case f.Sel.Name == "At" && len(c.Args) > 2:
			if x != nil && s.stops[x.Name] {
				return nil, false
			}
			return args(1, 2), true
		case x != nil && x.Name == "source" && (f.Sel.Name == "Say" || f.Sel.Name == "Word"):
			return args(0), true
		case f.Sel.Name == "With": // a related place stands on no page
			return nil, true
		}
	case *ast.Ident:
		if f.Name == "add" && len(c.Args) == 6 || f.Name == "noted" {
			return args(1), true
		}
	}
	return nil, true
}

// texts are the texts that an expression may be, as far as they stand in the file.
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
				out = append(out, x+y)
			}
		}
		return out
	case *ast.Ident:
		return s.assigned(e.Name, depth)
	}
	return nil
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

// formed is a form with {} for each value.
func formed(format string) string {
	whole := strings.ReplaceAll(format, "%%", "\x00")
	return strings.ReplaceAll(joined(formatVerb.ReplaceAllString(whole, "{}")), "\x00", "%")
}

// joined makes one value of two that touch.
func joined(form string) string { return places.ReplaceAllString(form, "{}") }

// ends are the ends of several sources and reasons, which the source puts together.
var ends = strings.NewReplacer(": common practice, no source", "{}", "the shell cannot be opened again without breaking it", "{}")

// putTogether are sentences whose words the source puts together from pieces, so
// that no four of them need stand in a row.
var putTogether = []*regexp.Regexp{
	regexp.MustCompile(`^Try one |^(?:and )?only those two were |^There is nothing to compare yet: \{\} parts? affected, no `), // the suspects of a problem, one to a few
	regexp.MustCompile(`^the \{\}(?:st|nd|rd|th) percentile of `),                                                              // a place among people, with its ending
	regexp.MustCompile(`^\{\} parts? had to be |^no light leaks found$|^\{\} at the bench in \{\} sittings$`),                  // a count and its noun
	regexp.MustCompile(`^(?:[a-z-]+ ){1,3}on \{\}$`),                                                                           // a fault of a kit and its part
	regexp.MustCompile(`^the current on day one of \{\}$|^when the coats were laid of \{\}$`),                                  // what a repair sheet lacks, and of what
}

// A sentence that nothing says any more is taken out: each four words of it that
// stand in a row stand so in the source. Shorter pieces may be put together.
func TestSentencesAreSaid(t *testing.T) {
	source, long := saidAnywhere(t), 0
	for form := range wordedIn(t) {
		if slices.ContainsFunc(putTogether, func(p *regexp.Regexp) bool { return p.MatchString(form) }) {
			continue
		}
		for _, piece := range strings.Split(ends.Replace(form), "{}") {
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
			if text, ok := literalText(n); ok {
				out.WriteString(strings.ReplaceAll(text, "%%", "%") + "\n")
				return false
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

// literalText is the text of a literal, or of several joined by +.
func literalText(n ast.Node) (string, bool) {
	switch n := n.(type) {
	case *ast.BasicLit:
		text, err := strconv.Unquote(n.Value)
		return text, err == nil && n.Kind == token.STRING
	case *ast.BinaryExpr:
		x, ok := literalText(n.X)
		y, also := literalText(n.Y)
		return x + y, ok && also && n.Op == token.ADD
	}
	return "", false
}
