package page

import (
	"fmt"
	"strings"
	"time"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// Message prints a message in the language: its form is looked up among the
// phrases, its values are printed by value. A form that the language lacks
// stands in English around them.
func (w *Words) Message(m source.Message) string {
	if w.Language == "en" && !w.values.Inches {
		return m.String()
	}
	form := w.Say(m.Form)
	if len(m.Args) == 0 {
		return form
	}
	args := make([]any, len(m.Args))
	for i, v := range m.Args {
		args[i] = w.value(v)
	}
	return fmt.Sprintf(form, args...)
}

// value is a message's value as a verb of a form in the language takes it: a
// text, or a number.
func (w *Words) value(v any) any {
	switch v := v.(type) {
	case source.Message:
		return w.Message(v)
	case source.List:
		return v.Print(func(v any) string { return fmt.Sprint(w.value(v)) }, w.sign)
	case source.Count:
		return w.Count(v.N, v.Noun)
	case quantity.Hours:
		return w.Bench(v)
	case quantity.Date:
		return w.Day(time.Time(v))
	case quantity.Day:
		return w.Day(v.Time)
	case quantity.Moment:
		return w.Moment(time.Time(v))
	case quantity.ShortMoment:
		return w.ShortMoment(time.Time(v))
	case quantity.Amount:
		return w.amount(v)
	case quantity.Figure:
		return w.Figure(v)
	case float64:
		return decimal{v, w.point}
	case error:
		return v.Error()
	}
	if text, ok := w.values.Print(v); ok {
		return w.localised(text)
	}
	if v, ok := v.(fmt.Stringer); ok {
		return w.localised(v.String())
	}
	return v
}

// sign is what the language sets between two values where English has this.
func (w *Words) sign(english string) string {
	if english == source.Pause {
		return w.pause
	}
	return w.Join(string(w.punctuated([]byte(english))))
}

// Moment writes a day with the time of day.
func (w *Words) Moment(t time.Time) string { return w.Day(t) + w.Join(", ") + t.Format("15:04") }

// ShortMoment writes a day as axes do, with its year and the time of day.
func (w *Words) ShortMoment(t time.Time) string {
	return w.date(t, "brief") + w.Join(", ") + t.Format("15:04")
}

// decimal is a number that a verb prints with the language's decimal sign.
type decimal struct {
	v     float64
	point string
}

// Format implements fmt.Formatter.
func (d decimal) Format(s fmt.State, verb rune) {
	fmt.Fprint(s, strings.Replace(fmt.Sprintf(fmt.FormatString(s, verb), d.v), ".", d.point, 1))
}
