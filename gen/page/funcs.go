package page

import (
	"encoding/json"
	"fmt"
	"html/template"
	"strings"
	"time"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// Function is a function that a template can call besides html/template's own.
type Function struct {
	Name    string
	Says    string // what it gives
	Example string // a call, with values that every page has or that stand in it
	make    func(*Words) any
}

// Functions lists them in the order in which the theme's reference shows them.
var Functions = []Function{
	{"say", "a phrase of the interface in the workshop's language, with values in the places of its `%s`; or a message of the program", `{{say "%s long" "204 mm"}}`, func(w *Words) any {
		return func(what any, values ...any) string {
			switch what := what.(type) {
			case string:
				return w.Say(what, values...)
			case source.Message:
				return Tied(w.marked(what.Form, w.Message(what)))
			}
			return Tied(fmt.Sprint(w.value(what)))
		}
	}},
	{"tied", "a text whose numbers stay with their units at the end of a line", `{{tied "204 mm long"}}`, func(*Words) any { return Tied }},
	{"count", "a number with its word in the form that the language wants", `{{count 3 "sitting"}}`, func(w *Words) any { return w.Count }},
	{"number", "a number with at most so many decimals", `{{number 1234.56 1}}`, func(w *Words) any { return w.Number }},
	{"day", "a day", `{{day .Site.Updated}}`, func(w *Words) any { return w.Day }},
	{"month", "a month and its year", `{{month .Site.Updated}}`, func(w *Words) any { return w.Month }},
	{"iso", "a day for a `datetime` attribute", `{{iso .Site.Updated}}`, func(*Words) any {
		return func(t time.Time) string { return t.Format(time.DateOnly) }
	}},
	{"figure", "a number with its unit, rounded to the digits that mean something", `{{figure .Figure}}`, func(w *Words) any {
		return func(f quantity.Figure) string { return Tied(w.Figure(f)) }
	}},
	{"band", "the range in which a figure lies", `{{band .Figure}}`, func(w *Words) any {
		return func(f quantity.Figure) string { return Tied(w.Range(f)) }
	}},
	{"bench", "a time at the bench", `{{bench .Hours}}`, func(w *Words) any { return w.Bench }},
	{"money", "an amount of money", `{{money .Money}}`, func(w *Words) any {
		return func(m quantity.Money) string { return Tied(w.Money(m)) }
	}},
	{"share", "a share in per cent", `{{share .Share}}`, func(w *Words) any {
		return func(v quantity.Share) string { return w.Number(float64(v)*100, 0) + "\u00a0%" }
	}},
	{"stands", "where a build stands, within a line", `{{stands .State}}`, func(w *Words) any {
		return func(state any) string { return w.Say(stands[fmt.Sprint(state)][0]) }
	}},
	{"Stands", "where a build stands, as a heading", `{{Stands .State}}`, func(w *Words) any {
		return func(state any) string { return w.Say(stands[fmt.Sprint(state)][1]) }
	}},
	{"swatch", "a colour as a small drawing, since pages carry no style attributes", `{{swatch .Colour}}`, func(*Words) any { return swatch }},
	{"join", "the texts of a list in one, with a text between them", `{{join .Texts ", "}}`, func(*Words) any {
		return func(list []string, sep string) string { return strings.Join(list, sep) }
	}},
	{"list", "a list of values, to hand several to a shared template", `{{range list 1 2 3}}{{.}};{{end}}`, func(*Words) any {
		return func(values ...any) []any { return values }
	}},
	{"add", "the sum of two whole numbers, to count from one", `{{add 1 2}}`, func(*Words) any { return func(a, b int) int { return a + b } }},
	{"json", "a value for a block of structured data", `<script type="application/ld+json">{{json .Texts}}</script>`, func(*Words) any { return jsonLD }},
	{"trimIndex", "an address without `index.html` at its end", `{{trimIndex "marram/index.html"}}`, func(*Words) any {
		return func(address string) string { return strings.TrimSuffix(address, "index.html") }
	}},
}

// funcs are the functions in the words of the book.
func (b *Book) funcs() template.FuncMap {
	all := template.FuncMap{}
	for _, f := range Functions {
		all[f.Name] = f.make(b.words)
	}
	said := all["say"].(func(any, ...any) string)
	all["say"] = func(what any, values ...any) string { // of phrases, those of the templates alone are ours to mark
		text := said(what, values...)
		if phrase, ok := what.(string); ok && b.said[phrase] {
			return b.words.marked(phrase, text)
		}
		return text
	}
	return all
}

// Shows runs the example of a function, in the words of a language, for the
// theme's reference.
func (f Function) Shows(words *Words, data any) (string, error) {
	book := &Book{words: words}
	t, err := template.New(f.Name).Funcs(book.funcs()).Parse(f.Example)
	if err != nil {
		return "", err
	}
	var out strings.Builder
	err = t.Execute(&out, data)
	return out.String(), err
}

// stands says where a build stands, within a line and as a heading.
var stands = map[string][2]string{
	"bench": {"on the bench", "On the bench"}, "shelf": {"on the shelf", "On the shelf"},
	"stash": {"in the stash", "In the stash"}, "set aside": {"set aside", "Set aside"},
}

// Bench writes a time at the bench: "3 h 20 min".
func (w *Words) Bench(h quantity.Hours) string { return w.clock(h.Parts(0)) }

// clock writes a time as it is read off.
func (w *Words) clock(parts []quantity.Part) string {
	between := " "
	if w.gap == "" {
		between = ""
	}
	texts := make([]string, len(parts))
	for i, p := range parts {
		texts[i] = w.localised(p.Number) + w.gap + w.Say(p.Unit)
	}
	return strings.Join(texts, between)
}

// jsonLD writes structured data for a script element of type
// application/ld+json. json.Marshal escapes <, > and &, so that no text can
// end the element.
func jsonLD(v any) (template.JS, error) {
	text, err := json.Marshal(v)
	return template.JS(text), err
}

// swatch draws a colour as a small square. Pages carry no style attributes, so
// a drawing with a fill stands for a coloured box.
func swatch(colour fmt.Stringer) template.HTML {
	return template.HTML(fmt.Sprintf(`<svg class="swatch" viewBox="0 0 16 16" aria-hidden="true"><rect width="16" height="16" fill="%s"/></svg>`, template.HTMLEscapeString(colour.String())))
}

// Escape returns a text that stands for itself in HTML.
func Escape(text string) string { return template.HTMLEscapeString(text) }
