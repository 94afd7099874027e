package gen

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"spruelight/gen/source"
)

// The reference on the example's wall is what the program writes now.
func TestReferenceIsFresh(t *testing.T) {
	wall := filepath.Join("..", "content-example", "wall")
	written := map[string]bool{}
	for _, f := range Reference() {
		written[f.Path] = true
		at := filepath.Join(wall, f.Path)
		if *update {
			if err := os.WriteFile(at, f.Bytes, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		if is, err := os.ReadFile(at); err != nil || string(is) != string(f.Bytes) {
			t.Errorf("%s is stale (%v): go test ./gen -run ReferenceIsFresh -update", at, err)
		}
	}
	old, err := filepath.Glob(filepath.Join(wall, "reference*.md"))
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range old {
		if !written[filepath.Base(name)] {
			t.Errorf("%s is no page of the reference any more", name)
		}
	}
}

// Every key, rule and formula has a heading of its own.
func TestReferenceLacksNothing(t *testing.T) {
	pages := map[string]string{}
	for _, f := range Reference() {
		pages[strings.TrimSuffix(f.Path, ".md")] = string(f.Bytes)
	}
	want := func(page, heading string) {
		if n := strings.Count(pages[page], "\n### "+heading+"\n"); n != 1 {
			t.Errorf("%s: %d headings %q", page, n, heading)
		}
	}
	for kind, keys := range knownKeys() {
		for key := range keys {
			want(pageOfKind(kind).name, keyHeading(source.Key{Kind: kind, Path: key}))
		}
	}
	for _, set := range RuleSets() {
		for _, r := range set.Rules {
			want("reference-rules", r.Name)
		}
	}
	for _, l := range Limits() {
		if !strings.Contains(pages["reference-limits"], "\n- At most: "+marked(l.Most)+"\n- Said by: ["+l.Rule+"]") {
			t.Errorf("the limit of %s is not told", l.Of)
		}
	}
	for _, set := range FormulaSets() {
		for _, f := range set.Formulas {
			want("reference-formulas", strings.ToUpper(f.Name[:1])+f.Name[1:])
		}
	}
}
