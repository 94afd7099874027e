package page

import (
	"testing"
	"testing/fstest"

	"spruelight/gen/source"

	"golang.org/x/text/language"
)

// What the language lacks stands in English and is marked so where an element
// may stand; a builder's own words are nobody's to mark.
func TestMissingWordsAreMarkedAsEnglish(t *testing.T) {
	words := &Words{Language: "de", tag: language.German, point: ",", phrases: map[string]string{"Lamps": "Lampen"}, printer: nil}
	for name, c := range map[string]struct{ template, want string }{
		"known":                        {`<p>{{say "Lamps"}}</p>`, `<p>Lampen</p>`},
		"lacking":                      {`<p>{{say "Wires"}}: 3</p>`, `<p><span lang="en">Wires</span>: 3</p>`},
		"in an attribute":              {`<p title="{{say "Wires"}}">x</p>`, `<p title="Wires">x</p>`},
		"in the title":                 {`<title>{{say "Wires"}}</title><p>x</p>`, `<title>Wires</title><p>x</p>`},
		"in a drawing":                 {`<svg viewBox="0 0 1 1"><text>{{say "Wires"}}</text></svg>{{say "Wires"}}`, `<svg viewBox="0 0 1 1"><text>Wires</text></svg><span lang="en">Wires</span>`},
		"a message":                    {`<p>{{say .Message}}</p>`, `<p><span lang="en">fit 560 Ω</span></p>`},
		"a builder's words":            {`<p>{{say .Own}}</p>`, `<p>Wires</p>`},
		"a standard has no language":   {`<p>{{say .Standard}}</p>`, `<p>IEC 60063</p>`},
		"with signs of the page's own": {`<p>{{say "Wires"}}, {{say "Lamps"}}</p>`, `<p><span lang="en">Wires</span>, Lampen</p>`},
	} {
		text := `{{define "page"}}{{with .Data}}` + c.template + `{{end}}{{end}}`
		own := "Wi" + "res" // no phrase of a template in the others
		if name != "a builder's words" {
			own = "Draht"
		}
		b, found := NewBook(fstest.MapFS{"x.html": {Data: []byte(text)}}, words)
		if len(found) > 0 {
			t.Fatal(found)
		}
		data := map[string]any{"Message": source.Say("fit %s", "560 Ω"), "Own": own, "Standard": source.Word("IEC 60063")}
		got, found := b.Print(&Site{Name: "n"}, &Sheet{Path: "x.html", Kind: "x", Title: "t", Data: data})
		if len(found) > 0 || string(got) != c.want {
			t.Errorf("%s:\n got %s %v\nwant %s", name, got, found, c.want)
		}
	}
}
