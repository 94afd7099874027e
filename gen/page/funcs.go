package page

import (
	"encoding/json"
	"fmt"
	"html/template"
	"strings"
	"time"

	"spruelight/gen/quantity"
	"spruelight/gen/tally"
)

// funcs are what a template can call besides html/template's own.
func (b *Book) funcs() template.FuncMap {
	w := b.words
	return template.FuncMap{
		"say":       w.Say,
		"tell":      func(what any) string { return w.Tell(fmt.Sprint(what)) },
		"count":     w.Count,
		"number":    w.Number,
		"day":       w.Day,
		"month":     w.Month,
		"iso":       func(t time.Time) string { return t.Format(time.DateOnly) },
		"figure":    w.Figure,
		"band":      w.Range,
		"bench":     w.Bench,
		"money":     func(m quantity.Money) string { return w.localised(m.String()) },
		"share":     func(v quantity.Share) string { return w.Number(float64(v)*100, 0) + "\u00a0%" },
		"add":       func(a, b int) int { return a + b },
		"list":      func(values ...any) []any { return values },
		"join":      func(list []string, sep string) string { return strings.Join(list, sep) },
		"json":      jsonLD,
		"swatch":    swatch,
		"trimIndex": func(address string) string { return strings.TrimSuffix(address, "index.html") },
		"stands":    func(s tally.State) string { return w.Say(stands[s][0]) },
		"Stands":    func(s tally.State) string { return w.Say(stands[s][1]) },
	}
}

// stands says where a build stands, within a line and as a heading.
var stands = map[tally.State][2]string{
	tally.Bench: {"on the bench", "On the bench"}, tally.Shelf: {"on the shelf", "On the shelf"},
	tally.Stash: {"in the stash", "In the stash"}, tally.SetAside: {"set aside", "Set aside"},
}

// Bench writes a time at the bench: "3 h 20 min".
func (w *Words) Bench(h quantity.Hours) string {
	minutes := h.Minutes()
	switch hours, rest := minutes/60, minutes%60; {
	case hours == 0:
		return fmt.Sprintf("%d\u00a0%s", rest, w.Say("min"))
	case rest == 0:
		return fmt.Sprintf("%d\u00a0%s", hours, w.Say("h"))
	default:
		return fmt.Sprintf("%d\u00a0%s %d\u00a0%s", hours, w.Say("h"), rest, w.Say("min"))
	}
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
