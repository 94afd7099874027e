// Package desk does the sums of the bench that are asked for one at a time, and
// writes the show notes of a sitting. Questions come as they were typed, with
// their units; an error is a wrong question.
package desk

import (
	"encoding/json"
	"fmt"
	"strings"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// Answer is what one sum at the bench comes to: sentences, and figures with
// their working.
type Answer struct {
	Says    []source.Message
	Figures []quantity.Figure
}

func (a *Answer) say(form string, args ...any) {
	if false { // has go vet hold the values against the form
		_ = fmt.Sprintf(form, args...)
	}
	a.Says = append(a.Says, source.Say(form, args...))
}

// finding says a finding of a sum: "warn: it is too hot; take a larger one".
func (a *Answer) finding(f source.Finding) { a.say("%s: %s; %s", f.Severity(), f.Says, f.Do) }

func (a *Answer) add(figures ...quantity.Figure) { a.Figures = append(a.Figures, figures...) }

// Text returns the answer for a terminal: sentences, then the figures in
// columns, each with how it was worked out.
func (a Answer) Text() string {
	var b strings.Builder
	for _, s := range a.Says {
		b.WriteString(s.String() + "\n")
	}
	names, values := 0, 0
	for _, f := range a.Figures {
		names, values = max(names, len([]rune(f.Name))), max(values, len([]rune(f.Text())))
	}
	for _, f := range a.Figures {
		line := pad(f.Name, names) + "  " + pad(f.Text(), values)
		if f.Range() != "" {
			line += "  " + f.Range()
		}
		switch working := f.Working.String(); {
		case strings.Contains(working, " = "): // a formula's, which ends on the value
			line += "  " + working
		case working != "":
			line += "  = " + working
		}
		b.WriteString(strings.TrimRight(line, " ") + "\n")
	}
	return b.String()
}

func pad(text string, width int) string {
	return text + strings.Repeat(" ", max(width-len([]rune(text)), 0))
}

// answerFigure is a figure in the answer for scripts.
type answerFigure struct {
	Name    string   `json:"name"`
	Symbol  string   `json:"symbol,omitempty"`
	Value   float64  `json:"value"`
	Low     *float64 `json:"low,omitempty"`
	High    *float64 `json:"high,omitempty"`
	Unit    string   `json:"unit,omitempty"`
	Text    string   `json:"text"`
	Working string   `json:"working,omitempty"`
	Source  string   `json:"source,omitempty"`
	Assumed bool     `json:"assumed,omitempty"`
}

// MarshalJSON writes the answer for scripts.
func (a Answer) MarshalJSON() ([]byte, error) {
	out := struct {
		Says    []source.Message `json:"says"`
		Figures []answerFigure   `json:"figures"`
	}{Says: append([]source.Message{}, a.Says...), Figures: []answerFigure{}}
	for _, f := range a.Figures {
		x := answerFigure{Name: f.Name, Symbol: f.Symbol, Text: f.Text(), Working: f.Working.String(),
			Source: f.Source, Assumed: f.Assumed}
		x.Value, x.Unit = f.Shown()
		if f.Range() != "" {
			low, high := f.Low*x.Value/f.Value, f.High*x.Value/f.Value
			x.Low, x.High = &low, &high
		}
		out.Figures = append(out.Figures, x)
	}
	return json.Marshal(out)
}
