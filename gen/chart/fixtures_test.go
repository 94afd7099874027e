package chart

import (
	"fmt"
	"math"
	"time"

	"spruelight/gen/svg"
)

// The charts below are the ones the tests draw. Their data is invented.

var stages = []string{"Assembly", "Lighting", "Masking", "Painting", "Weathering", "Decals", "Finishing", "Photography"}

func frame(id string, width float64) Frame {
	return Frame{ID: id, Title: "Chart " + id, Desc: "Invented data.", Lang: "en", Width: width, Empty: "Nothing logged yet"}
}

func hoursText(h float64) string {
	m := int(math.Round(h * 60))
	switch {
	case m%60 == 0:
		return fmt.Sprintf("%d h", m/60)
	case m < 60:
		return fmt.Sprintf("%d min", m)
	}
	return fmt.Sprintf("%d h %d min", m/60, m%60)
}

func stageBars(width float64) Bars {
	c := Bars{Frame: frame("hours", width), Label: "Stage", Value: "Hours"}
	for i, h := range []float64{14.5, 22.25, 6, 11.75, 8.5, 2.25, 1.5, 0.75} {
		c.Bars = append(c.Bars, Bar{Label: stages[i], Value: h, Text: hoursText(h)})
	}
	return c
}

func date(y int, m time.Month, d int) time.Time { return time.Date(y, m, d, 12, 0, 0, 0, time.UTC) }

func tickText(t time.Time, u Unit) string {
	switch u {
	case Hour:
		return t.Format("15:04")
	case Day:
		return t.Format("2 Jan")
	case Year:
		return t.Format("2006")
	}
	return t.Format("Jan 2006")
}

func plain(v float64) string { return fmt.Sprintf("%g h", v) }

func hoursOverTime(width float64) Steps {
	c := Steps{Frame: frame("course", width), When: "Date", Value: "Hours so far", Format: plain}
	sum, at := 0.0, date(2025, time.October, 3)
	for i := range 34 {
		sum += []float64{1.5, 2.25, 3, 0.75, 2, 4.5}[i*7%6]
		c.Points = append(c.Points, Datum{at, sum, at.Format("2006-01-02"), hoursText(sum)})
		at = at.AddDate(0, 0, []int{2, 5, 1, 9, 3, 12}[i*5%6])
	}
	c.Ticks = Ticks(date(2025, time.October, 3), at, 6, tickText)
	return c
}

func monthly(width float64, months int) Months {
	c := Months{Frame: frame("months", width), Period: "Month", Total: "Total"}
	sums := make([]float64, len(stages))
	for j := range months {
		t := date(2025, time.August, 1).AddDate(0, j, 0)
		col := Column{Label: t.Format("January 2006"), Tick: t.Format("Jan"), Group: t.Format("2006")}
		total := 0.0
		for i := range stages {
			v := 0.0
			if d := float64(j)*8/float64(months) - float64(i); d > -1.5 && d < 2 {
				v = math.Round(4*math.Abs(3.1+2.7*math.Sin(float64(i*5+j*3)))) / 4
			}
			col.Values = append(col.Values, v)
			col.Texts = append(col.Texts, fmt.Sprintf("%g", v))
			total += v
			sums[i] += v
		}
		col.Total = fmt.Sprintf("%g", total)
		c.Columns = append(c.Columns, col)
	}
	for i, s := range stages {
		c.Series = append(c.Series, Series{Name: s, Total: hoursText(sums[i])})
	}
	return c
}

// open is the end, in hours, of a window that stays open.
const open = -1

func curing(width float64) Clock {
	c := Clock{Frame: frame("curing", width), Row: "Coat", What: "State", From: "From", To: "To"}
	start := time.Date(2026, time.February, 14, 19, 30, 0, 0, time.UTC)
	after := func(hours float64) time.Time { return start.Add(time.Duration(hours * float64(time.Hour))) }
	clock := func(t time.Time) string { return t.Format("2 Jan 15:04") }
	window := func(from, to float64, label string, fill svg.Role) Window {
		w := Window{From: after(from), Label: label, FromText: clock(after(from)), Fill: fill}
		if to != open {
			w.To, w.ToText = after(to), clock(after(to))
		}
		return w
	}
	c.Rows = []Row{
		{"Black, first coat", "acrylic lacquer", []Window{
			window(0, 0.25, "wet", svg.Fill5), window(0.25, 1, "touch dry", svg.Fill2), window(1, open, "may be recoated", svg.Fill1)}},
		{"Silver", "enamel, light blocking", []Window{
			window(2, 8, "wet", svg.Fill5), window(8, 26, "touch dry", svg.Fill2), window(26, open, "holds a mask", svg.Fill1)}},
		{"White", "acrylic lacquer", []Window{
			window(27, 28, "touch dry", svg.Fill2), window(28, 51, "may be recoated", svg.Fill1), window(51, open, "holds a mask", svg.Fill3)}},
	}
	c.Ticks = Ticks(start, after(56), 6, func(t time.Time, u Unit) string {
		if t.Hour() == 0 {
			return t.Format("2 Jan")
		}
		return t.Format("15:04")
	})
	now := after(22)
	c.Now = Moment{now, "now", clock(now)}
	return c
}

// namedDrawing is a drawing with the table of its chart.
type namedDrawing struct {
	name    string
	drawing *svg.Drawing
	table   svg.Table
}

// charts draws every kind of chart, wide and for a phone.
func charts() []namedDrawing {
	var all []namedDrawing
	for _, w := range []struct {
		suffix string
		width  float64
	}{{"", 600}, {"-phone", 320}} {
		all = append(all, drawAll(w.suffix, stageBars(w.width), hoursOverTime(w.width), monthly(w.width, 10), curing(w.width))...)
	}
	return all
}

func drawAll(suffix string, bars Bars, steps Steps, months Months, clock Clock) (all []namedDrawing) {
	add := func(name string, draw func() (*svg.Drawing, svg.Table)) {
		d, t := draw()
		all = append(all, namedDrawing{name + suffix, d, t})
	}
	add("bars", bars.Draw)
	add("steps", steps.Draw)
	add("lanes", months.Lanes)
	add("stacked", months.Stacked)
	add("clock", clock.Draw)
	return all
}
