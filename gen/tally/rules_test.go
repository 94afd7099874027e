package tally

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"
)

// Every rule declared in this package is listed, explained and sourced.
func TestRulesAreComplete(t *testing.T) {
	names, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	declared := 0
	for _, name := range names {
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(file, func(n ast.Node) bool {
			if spec, ok := n.(*ast.ValueSpec); ok && len(spec.Names) == 1 && strings.HasPrefix(spec.Names[0].Name, "rule") {
				declared++
			}
			return true
		})
	}
	if declared != len(Rules) {
		t.Errorf("%d rules are declared, %d are listed", declared, len(Rules))
	}
	seen := map[string]bool{}
	for _, r := range Rules {
		if seen[r.Name] || r.Reason == "" || r.Source == "" || r.Name != strings.ToLower(r.Name) || strings.Contains(r.Name, " ") {
			t.Errorf("rule %q is listed twice, or says too little", r.Name)
		}
		seen[r.Name] = true
	}
}

// The words that a journal may write, by its tags, are those that the sums know.
func TestTagsNameTheWordsOfTheSums(t *testing.T) {
	var ways, events []string
	for _, o := range AllObtained {
		ways = append(ways, string(o))
	}
	for _, e := range Events {
		events = append(events, string(e))
	}
	for name, c := range map[string]struct {
		in    any
		field string
		words []string
	}{
		"events": {PartEvent{}, "Event", events},
		"kits":   {Kit{}, "Obtained", ways},
	} {
		f, _ := reflect.TypeOf(c.in).FieldByName(c.field)
		tagged := strings.Split(f.Tag.Get("one"), "|")
		slices.Sort(tagged)
		if words := slices.Sorted(slices.Values(c.words)); !slices.Equal(tagged, words) {
			t.Errorf("%s: the tag allows %q, the sums know %q", name, tagged, words)
		}
	}
}

// Kinds of faults and of additions are named where they are explained; another
// word is no mistake that stops a review.
func TestFreeKindsAreExplained(t *testing.T) {
	for name, c := range map[string]struct {
		in    any
		words []string
	}{"extras": {Extra{}, ExtraKinds}, "faults": {Fault{}, FaultKinds}} {
		f, _ := reflect.TypeOf(c.in).FieldByName("Kind")
		if doc := f.Tag.Get("doc"); f.Tag.Get("one") != "" || !strings.Contains(doc, ": "+strings.Join(c.words, ", ")+"; another word is a warning") {
			t.Errorf("%s: %q", name, doc)
		}
	}
}
