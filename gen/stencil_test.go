package gen_test

import (
	"bytes"
	"context"
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"spruelight/gen"
)

// TestStencilsPrintWhatTemplatesPrint holds every page of the example, in each
// theme, in words with marks and quotes and filled with hostile strings, to what
// html/template prints; none may be left to it.
func TestStencilsPrintWhatTemplatesPrint(t *testing.T) {
	base, words, list, bodies := hostileFill(t)
	hostile := fill(t, base, words, list, bodies, 0)
	dark := exampleEnv(0)
	settings, err := os.ReadFile("../content-example/workshop.yaml")
	if err != nil {
		t.Fatal(err)
	}
	changed := strings.NewReplacer("theme: sheet", "theme: lamplight", "language: en", "language: fr").Replace(string(settings))
	dark.Content = overlaid{dark.Content, fstest.MapFS{"workshop.yaml": {Data: []byte(changed)}}}
	for name, env := range map[string]gen.Env{"sheet": exampleEnv(0), "lamplight in French": dark, "hostile": hostile.env(hostile.shop())} {
		t.Run(name, func(t *testing.T) {
			book, site, sheets, found := gen.Composed(context.Background(), env)
			if book == nil {
				t.Fatal(found)
			}
			kinds := map[string]bool{}
			for _, s := range sheets {
				kinds[s.Kind] = true
				got, err := book.ByStencil(site, s)
				if err != nil {
					t.Errorf("%s: %v", s.Path, err)
					continue
				}
				want, err := book.ByTemplate(site, s)
				if err != nil {
					t.Fatal(err)
				}
				if !bytes.Equal(got, want) {
					t.Errorf("%s: %s", s.Path, firstDifference(got, want))
				}
			}
			for _, k := range book.Kinds() {
				if !kinds[k] && k != "catalogue" && (k != "lineup" || name != "hostile") { // a catalogue stands over archives, not in a site
					t.Errorf("no page of kind %s was compared", k)
				}
			}
		})
	}
}
