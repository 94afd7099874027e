package gen

import (
	"context"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"spruelight/gen/journal"
	"spruelight/gen/source"
	"spruelight/themes"

	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/parser"
	"github.com/rogpeppe/go-internal/txtar"
)

// workshopsOf are the workshops that tests bring along: the example, and every
// one in the scripts of the command and in testdata/findings.
func workshopsOf(t *testing.T) map[string]fstest.MapFS {
	t.Helper()
	shops := map[string]fstest.MapFS{}
	for _, pattern := range []string{"../cmd/spruelight/testdata/script/*.txtar", "testdata/findings/*.txtar"} {
		files, err := filepath.Glob(pattern)
		if err != nil || len(files) == 0 {
			t.Fatalf("%s: no scripts (%v)", pattern, err)
		}
		for _, file := range files {
			a, err := txtar.ParseFile(file)
			if err != nil {
				t.Fatal(err)
			}
			for _, f := range a.Files { // a script may hold several workshops, each in a folder
				dir, ok := strings.CutSuffix(f.Name, "workshop.yaml")
				if !ok {
					continue
				}
				shop := fstest.MapFS{}
				for _, g := range a.Files {
					if name, ok := strings.CutPrefix(g.Name, dir); ok {
						shop[name] = &fstest.MapFile{Data: g.Data}
					}
				}
				shops[path.Base(file)+":"+f.Name] = shop
			}
		}
	}
	return shops
}

// keyOf returns the key of the reference at which a finding points, such as
// "build circuits[].branches[].current"; false for text and whole files.
func keyOf(f *source.Finding, kinds map[string]map[string]bool) (string, bool) {
	kind := kindOfFile(f.At.Name())
	if kind == "" || !f.At.Known() {
		return "", false
	}
	text, base := f.At.File.Text, 0
	if strings.HasSuffix(f.At.Name(), ".md") {
		base = strings.IndexByte(text, '\n') + 1
		end := strings.Index(text[base:], "\n---")
		if end < 0 || f.At.Start < base || f.At.Start > base+end {
			return "", false
		}
		text = text[base : base+end+1]
	}
	tree, err := parser.ParseBytes([]byte(text), 0, parser.AllowDuplicateMapKey())
	if err != nil || len(tree.Docs) != 1 || tree.Docs[0].Body == nil {
		return "", false
	}
	s := &keySearch{known: kinds[kind], yaml: source.NewFile("y", text), want: f.At.Start - base}
	s.walk(tree.Docs[0].Body, "")
	for s.found != "" && !kinds[kind][s.found] { // a name, or a place within a value
		s.found = s.found[:max(strings.LastIndexByte(s.found, '.'), 0)]
		s.found = strings.TrimSuffix(s.found, "[]")
	}
	return kind + " " + s.found, s.found != ""
}

func kindOfFile(name string) string {
	dir, base := path.Split(name)
	stem := strings.TrimSuffix(base, path.Ext(base))
	switch {
	case name == "workshop.yaml" || name == "shelf.yaml":
		return stem
	case dir == "rack/":
		kind, _ := journal.RackKind(base)
		return kind
	case dir == "wall/":
		return "wall"
	case base == "build.md" || base == "review.md":
		return stem
	case strings.HasPrefix(dir, "builds/"):
		return "sitting"
	}
	return ""
}

// keySearch finds the key whose pair begins last before an offset.
type keySearch struct {
	known map[string]bool
	yaml  *source.File
	want  int
	best  int
	found string
}

func (s *keySearch) walk(n ast.Node, at string) {
	switch n := n.(type) {
	case *ast.MappingNode:
		for _, pair := range n.Values {
			s.pair(pair, at)
		}
	case *ast.MappingValueNode:
		s.pair(n, at)
	case *ast.SequenceNode:
		for _, item := range n.Values {
			s.walk(item, at+"[]")
		}
	}
}

func (s *keySearch) pair(p *ast.MappingValueNode, at string) {
	name := strings.TrimSpace(p.Key.GetToken().Value)
	key := strings.TrimPrefix(at+"."+name, ".")
	if !s.known[key] && !s.known[strings.ReplaceAll(key, "[]", "")] {
		key = strings.TrimPrefix(at+".<name>", ".")
		if single := at + "[]." + name; s.known[single] { // one entry of a list, written without brackets
			key = single
		}
	}
	pos := p.Key.GetToken().Position
	if start := s.yaml.Offset(pos.Line, pos.Column); start <= s.want && start >= s.best {
		s.best, s.found = start, key
	}
	s.walk(p.Value, key)
}

// knownKeys lists the keys of the reference by kind of file.
func knownKeys() map[string]map[string]bool {
	kinds := map[string]map[string]bool{}
	for _, k := range journal.FileKinds() {
		kinds[k.Name] = map[string]bool{}
		for _, key := range k.Keys() {
			kinds[k.Name][key.Path] = true
		}
	}
	return kinds
}

func observedKeys(t *testing.T) map[string]map[string]bool {
	kinds, seen := knownKeys(), map[string]map[string]bool{}
	note := func(found source.Findings) {
		for i := range found {
			key, ok := keyOf(&found[i], kinds)
			if !ok {
				key = "-"
			}
			if seen[found[i].Rule.Name] == nil {
				seen[found[i].Rule.Name] = map[string]bool{}
			}
			seen[found[i].Rule.Name][key] = true
		}
	}
	moment := time.Date(2026, 3, 15, 21, 0, 0, 0, time.UTC)
	for _, shop := range workshopsOf(t) {
		res, err := Check(context.Background(), Env{Content: shop, Themes: themes.FS, Moment: moment})
		if err != nil {
			t.Fatal(err)
		}
		note(res.Findings)
	}
	res, err := Check(context.Background(), Env{Content: os.DirFS("../content-example"), Themes: themes.FS, Moment: moment})
	if err != nil {
		t.Fatal(err)
	}
	note(res.Findings)
	return seen
}

// Every rule says which keys it looks at, or that no key is to blame; every
// key named is one of the reference.
func TestRulesNameTheirKeys(t *testing.T) {
	kinds := knownKeys()
	for _, set := range RuleSets() {
		for _, r := range set.Rules {
			keys := r.LooksAt()
			if general := r.Keys == source.EveryKey || r.Keys == source.NoKey; general == (len(keys) > 0) {
				t.Errorf("%s says of its keys %q", r.Name, r.Keys)
			}
			for _, k := range keys {
				if !kinds[k.Kind][k.Path] {
					t.Errorf("%s names %s %s, which is no key", r.Name, k.Kind, k.Path)
				}
			}
		}
	}
}

// What the checks say of workshops with every kind of mistake points at keys
// that the rule names, at a mapping around them, or into one of them.
func TestFindingsPointAtTheKeysTheirRulesName(t *testing.T) {
	seen := observedKeys(t)
	rules := 0
	for rule, keys := range seen {
		rules++
		if ruleOf(rule).Keys == source.EveryKey {
			continue
		}
		for key := range keys {
			if key != "-" && !slices.ContainsFunc(ruleOf(rule).LooksAt(), func(k source.Key) bool { return near(key, k.Kind+" "+k.Path) }) {
				t.Errorf("%s points at %s, which its keys do not name", rule, key)
			}
		}
	}
	if rules < 130 {
		t.Errorf("only %d rules spoke", rules)
	}
}

// near reports whether a key is the other one or holds it.
func near(key, named string) bool {
	return key == named || strings.HasPrefix(named, key+".") || strings.HasPrefix(named, key+"[]") || strings.HasPrefix(key, named+".") || strings.HasPrefix(key, named+"[]")
}
