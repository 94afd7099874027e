package paint

import (
	"time"

	"spruelight/gen/chart"
	"spruelight/gen/quantity"
	"spruelight/gen/source"
	"spruelight/gen/svg"
)

// Timeline draws when each coat that is still drying may be touched, painted
// over and masked, with the moment across it, in the moment's time zone; coats
// that have cured are left out. ticks names days and hours in the reader's
// language. The table says the same in words.
func Timeline(
	frame chart.Frame, areas []AreaResult, moment time.Time, ticks func(time.Time, chart.Unit) string, print svg.Printer,
) (*svg.Drawing, svg.Table) {
	word := func(text string) string { return print.Print(source.Word(text)) }
	short := func(t time.Time) string { return ticks(t, chart.Day) + " " + ticks(t, chart.Hour) }
	clock := chart.Clock{Frame: frame, Row: word("Coat"), What: word("What"), From: word("From"), To: word("Until"),
		Now: chart.Moment{At: moment, Label: short(moment), Text: print.Print(stamp(moment))}}
	first, last := moment, moment
	for i := range areas {
		for j := range areas[i].Curings {
			c := &areas[i].Curings[j]
			if !c.drying(moment) {
				continue
			}
			note := print.Print(source.Say("%s", source.Row([]string{areas[i].Name, short(c.Laid.When)})))
			clock.Rows = append(clock.Rows, chart.Row{Label: c.Name(), Note: note, Windows: c.windows(print)})
			first = earlier(first, c.Laid.When)
			last = later(last, c.Ready[Mask].From)
			last = later(last, c.Ready[Cured].From)
		}
	}
	if clock.Empty == "" {
		clock.Empty = word("nothing is drying")
	}
	clock.Ticks = chart.Ticks(first, last, 6, ticks)
	return clock.Draw()
}

// Drying reports whether any laid coat still waits for something.
func Drying(areas []AreaResult, moment time.Time) bool {
	for i := range areas {
		for j := range areas[i].Curings {
			if areas[i].Curings[j].drying(moment) {
				return true
			}
		}
	}
	return false
}

// Pending reports whether time alone will change what may be done: a coat still
// waits for something, or the window in which it may be painted over will close.
func Pending(areas []AreaResult, moment time.Time) bool {
	if Drying(areas, moment) {
		return true
	}
	for i := range areas {
		for _, c := range areas[i].Curings {
			if c.Until.Known && !c.Until.From.Before(moment) {
				return true
			}
		}
	}
	return false
}

// drying reports whether anything about the coat is still to come.
func (c *Curing) drying(moment time.Time) bool {
	for _, r := range c.Ready {
		if r.Known && r.From.After(moment) {
			return true
		}
	}
	return c.Again.Known && c.Again.From.After(moment)
}

// windows are the bars of one coat: wet, the recoat windows, and from when it
// holds a mask and has cured.
func (c *Curing) windows(print svg.Printer) []chart.Window {
	var out []chart.Window
	bar := func(label string, r Ready, from, to time.Time, fill svg.Role) {
		w := chart.Window{From: from, To: to, Label: print.Print(r.marked(label)), FromText: print.Print(stamp(from)), Fill: fill}
		if !to.IsZero() {
			w.ToText = print.Print(stamp(to))
		}
		out = append(out, w)
	}
	open := func(label string, r Ready, fill svg.Role) {
		if r.Known {
			bar(label, r, r.From, time.Time{}, fill)
		}
	}
	if touch := c.Ready[Touch]; touch.Known {
		bar("wet", touch, c.Laid.When, touch.From, svg.Fill1)
	}
	switch r := c.Ready[Recoat]; {
	case !r.Known:
	case c.Until.Known && c.Until.From.After(r.From):
		bar("recoat", r, r.From, c.Until.From, svg.Fill3)
		open("recoat again", c.Again, svg.Fill3)
	default:
		open("recoat", r, svg.Fill3)
	}
	open("mask", c.Ready[Mask], svg.Fill2)
	open("cured", c.Ready[Cured], svg.Fill5)
	return out
}

// marked adds to a label that the time rests on an assumption.
func (r *Ready) marked(label string) source.Message {
	if r.Assumed {
		return source.Say("%s", source.Row([]source.Message{source.Word(label), source.Word("assumed")}))
	}
	return source.Word(label)
}

func stamp(t time.Time) source.Message { return source.Say("%s", quantity.Moment(t)) }

func earlier(a, b time.Time) time.Time {
	if b.Before(a) {
		return b
	}
	return a
}

func later(a, b time.Time) time.Time {
	if b.After(a) {
		return b
	}
	return a
}
