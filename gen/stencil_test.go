package gen_test

import (
	"bytes"
	"context"
	"testing"

	"spruelight/gen"
	"spruelight/testdata/example"
)

// TestStencilsPrintWhatTemplatesPrint holds every page of the example, in each
// theme, in words with marks and quotes and filled with hostile strings, to what
// html/template prints; none may be left to it.
func TestStencilsPrintWhatTemplatesPrint(t *testing.T) {
	hostile := filledFrom(t, 0, 1)
	dark := example.Env(t, 0)
	for from, to := range map[string]string{"theme: sheet": "theme: lamplight", "language: en": "language: fr"} {
		var err error
		if dark.Content, err = example.Changed(dark.Content, from, to); err != nil {
			t.Fatal(err)
		}
	}
	for name, env := range map[string]gen.Env{"sheet": example.Env(t, 0), "lamplight in French": dark, "hostile": hostile.env(t, hostile.shop())} {
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
