package chart

import (
	"cmp"
	"math"
	"slices"
	"time"

	"spruelight/gen/svg"
)

// sane returns an amount that can be scaled: not a number counts as 0, and the
// span of two amounts stays finite.
func sane(v float64) float64 {
	if math.IsNaN(v) {
		return 0
	}
	return max(-1e300, min(1e300, v))
}

// scale maps values to places along one direction; a span of zero maps to the middle.
type scale struct{ from, to, low, high float64 } // values from…to lie at low…high

func (s scale) at(v float64) float64 {
	if s.to == s.from {
		return (s.low + s.high) / 2
	}
	part := max(0, min(1, (v-s.from)/(s.to-s.from)))
	return s.low + part*(s.high-s.low)
}

// holds reports whether a value lies on the axis.
func (s scale) holds(v float64) bool { return v >= s.from && v <= s.to }

// RoundUp returns the least round distance that is no shorter than one above
// zero: 1, 2 or 5 times a power of ten (P. S. Heckbert, "Nice numbers for graph
// labels", Graphics Gems, 1990, p. 61; from memory).
func RoundUp(least float64) float64 {
	power := math.Pow(10, math.Floor(math.Log10(least)))
	for _, k := range [...]float64{1, 2, 5} {
		if least <= k*power*(1+1e-9) {
			return k * power
		}
	}
	return 10 * power
}

// roundValues returns round values that cover from…to in about n steps. The
// first and last enclose the range.
func roundValues(from, to float64, n int) []float64 {
	if to == from {
		return []float64{from}
	}
	step := RoundUp((to - from) / float64(max(1, n)))
	if !(step > 0) || math.IsInf(step, 0) { // a span beyond all powers
		return []float64{from, to}
	}
	first, last := math.Floor(from/step+1e-9), math.Ceil(to/step-1e-9)
	values := make([]float64, 0, int(last-first)+1)
	for i := first; i <= last; i++ {
		values = append(values, i*step)
	}
	return values
}

// seconds returns a moment as a value on a time axis: seconds of Unix time.
func seconds(t time.Time) float64 { return float64(t.Unix()) + float64(t.Nanosecond())/1e9 }

// A Tick is a labelled moment on a time axis.
type Tick struct {
	At    time.Time
	Label string
}

// A Unit is the unit in which the ticks of a time axis are counted.
type Unit int

// The units of time ticks.
const (
	Hour Unit = iota
	Day
	Month
	Year
)

// timeSteps are the steps that a time axis may have, from fine to coarse.
var timeSteps = []struct {
	unit  Unit
	count int
	about time.Duration
}{
	{Hour, 1, time.Hour}, {Hour, 2, 2 * time.Hour}, {Hour, 3, 3 * time.Hour}, {Hour, 6, 6 * time.Hour}, {Hour, 12, 12 * time.Hour},
	{Day, 1, day}, {Day, 2, 2 * day}, {Day, 7, 7 * day}, {Day, 14, 14 * day},
	{Month, 1, 30 * day}, {Month, 2, 61 * day}, {Month, 3, 91 * day}, {Month, 6, 182 * day},
	{Year, 1, 365 * day}, {Year, 2, 730 * day}, {Year, 5, 1826 * day}, {Year, 10, 3652 * day},
	{Year, 25, 9131 * day}, {Year, 50, 18262 * day},
}

const day = 24 * time.Hour

// Ticks returns at most about n ticks at round moments between two times, in
// the time zone of the first. The label function gets the moment and the unit in
// which the ticks step, and returns the text in the reader's language.
func Ticks(from, to time.Time, n int, label func(time.Time, Unit) string) []Tick {
	to = to.In(from.Location())
	span := to.Sub(from)
	step := timeSteps[len(timeSteps)-1]
	for _, s := range timeSteps {
		if s.about*time.Duration(max(1, n)) >= span {
			step = s
			break
		}
	}
	var ticks []Tick
	for t := roundDown(from, step.unit, step.count); !t.After(to) && len(ticks) < 200; {
		if !t.Before(from) {
			ticks = append(ticks, Tick{t, label(t, step.unit)})
		}
		t = nextTick(t, step.unit, step.count)
	}
	return ticks
}

func roundDown(t time.Time, unit Unit, count int) time.Time {
	y, m, d := t.Date()
	switch unit {
	case Hour:
		return time.Date(y, m, d, t.Hour()/count*count, 0, 0, 0, t.Location())
	case Day:
		return time.Date(y, m, d, 0, 0, 0, 0, t.Location())
	case Month:
		return time.Date(y, m-(m-1)%time.Month(count), 1, 0, 0, 0, 0, t.Location())
	}
	return time.Date(y-y%count, 1, 1, 0, 0, 0, 0, t.Location())
}

// nextTick steps by the calendar, so that ticks stay on midnight and on the first
// of a month through leap days and changes of the clock.
func nextTick(t time.Time, unit Unit, count int) time.Time {
	y, m, d := t.Date()
	switch unit {
	case Hour:
		if next := time.Date(y, m, d, t.Hour()+count, 0, 0, 0, t.Location()); next.After(t) {
			return next
		}
		return t.Add(time.Duration(count) * time.Hour) // the hour that comes twice
	case Day:
		return time.Date(y, m, d+count, 0, 0, 0, 0, t.Location())
	case Month:
		return time.Date(y, m+time.Month(count), 1, 0, 0, 0, 0, t.Location())
	}
	return time.Date(y+count, 1, 1, 0, 0, 0, 0, t.Location())
}

// timeAxis draws the line at the bottom of a plot with its ticks. A label that would
// touch the one before it or leave the drawing is left out; its tick stays.
func timeAxis(d *svg.Drawing, plot svg.Box, x scale, ticks []Tick, whole float64) {
	d.Line(plot.SW(), plot.SE(), svg.Style{Stroke: svg.Ink, Width: hair})
	free := math.Inf(-1)
	style := svg.TextStyle{Size: axisSize, Anchor: svg.Middle, VAlign: svg.Top, Fill: svg.Soft}
	ticks = slices.SortedStableFunc(slices.Values(ticks), func(a, b Tick) int { return a.At.Compare(b.At) })
	for _, t := range ticks {
		v := seconds(t.At)
		if !x.holds(v) {
			continue
		}
		at := svg.Point{X: x.at(v), Y: plot.Bottom()}
		d.Line(at, at.Add(0, 4), svg.Style{Stroke: svg.Ink, Width: hair})
		label, _ := svg.Shorten(t.Label, whole/3, axisSize, svg.Regular)
		box := svg.TextBox(at.Add(0, 7), label, style)
		shift := max(0, -box.X) - max(0, box.Right()-whole)
		box = box.Move(shift, 0)
		if box.X < free || math.Abs(shift) > box.W/2 {
			continue
		}
		d.Text(at.Add(shift, 7), label, style)
		free = box.Right() + gap
	}
}

// candidate is a text that is drawn if there is room, greater values first.
type candidate struct {
	value float64
	at    svg.Point
	text  string
}

// drawFitting draws those candidates that touch neither each other nor a taken
// box, and stay within left…right. The style names its fill.
func drawFitting(d *svg.Drawing, all []candidate, style svg.TextStyle, taken []svg.Box, left, right float64) {
	slices.SortStableFunc(all, func(a, b candidate) int { return cmp.Compare(b.value, a.value) })
	taken = slices.Clone(taken)
	var fits []candidate
	for _, c := range all {
		box := svg.TextBox(c.at, c.text, style)
		near := svg.Box{X: box.X - 1.5, Y: box.Y, W: box.W + 3, H: box.H}
		if box.X < left || box.Right() > right || slices.ContainsFunc(taken, near.Overlaps) {
			continue
		}
		fits = append(fits, c)
		taken = append(taken, box)
	}
	if len(fits) == 0 {
		return
	}
	d.Group(svg.Attrs{Style: svg.Style{Fill: style.Fill}}, func() {
		for _, c := range fits {
			d.Text(c.at, c.text, style)
		}
	})
}
