package svg

import (
	"math"
	"slices"
	"strconv"
	"time"
)

// Frame is what every chart shares: how it is named and how wide it is drawn.
// All words come from the caller, in the reader's language.
type Frame struct {
	ID, Title, Desc string
	Lang            string  // BCP 47 tag of the words
	Width           float64 // of the whole chart in units; 0 means 560, less than 240 counts as 240
	Empty           string  // what stands in a chart without data
}

// A Table is the text equivalent of a chart: everything it shows, in full.
type Table struct {
	Head []string
	Rows [][]string
}

// A Tick is a labelled place on an axis.
type Tick struct {
	At    float64
	Label string
}

// A Mark is a labelled moment on the time axis: a milestone, a point of no
// return, the present.
type Mark struct {
	At    float64
	Label string
	Text  string // the moment as text, for the table
}

// Sizes and gaps that all charts share, in units.
const (
	defaultWidth = 560.0
	leastWidth   = 240.0
	mostWidth    = 4000.0
	chartMargin  = 4.0
	narrow       = 400.0 // below it labels stand above their marks, not beside them
	axisSize     = 11.0
	gap          = 6.0
	hair         = 0.75
)

// width returns the inner width: the frame's less the margins.
func (f Frame) width() float64 {
	w := f.Width
	if w == 0 || !finite(w) {
		w = defaultWidth
	}
	return math.Round(min(max(w, leastWidth), mostWidth)) - 2*chartMargin
}

// chart starts the drawing of a chart and claims its full width, so that charts
// below each other line up.
func (f Frame) chart() *Drawing {
	d := New(f.ID, f.Title, f.Desc)
	d.Lang = f.Lang
	d.Class = "chart"
	d.Margin = chartMargin - 0.5 // half a unit for the strokes of what lies on the edge
	d.Include(Box{-0.5, 0, f.width() + 1, 0})
	return d
}

// empty draws what stands in place of a chart without data.
func (f Frame) empty() *Drawing {
	d, w := f.chart(), f.width()
	words := f.Empty
	if CleanText(words) == "" {
		words = "–"
	}
	lines := ShortenLines(words, w-4*gap, TextSize, Regular, 3)
	h := 40 + TextSize*LineHeight*float64(len(lines)-1)
	d.Rect(Box{0, 0, w, h}, 2, Style{Stroke: Rule, Width: hair, Dash: Dashed})
	d.Lines(Point{w / 2, h / 2}, lines, TextStyle{Anchor: Middle, VAlign: Centre, Fill: Soft})
	return d
}

// chartMark is a bar or a part of one.
type chartMark struct {
	name string
	fill Role
	box  Box
}

// drawMarks draws and registers outlined bars, those of one fill in a group that
// names the paint once: a chart of many months would be twice as heavy otherwise.
func drawMarks(d *Drawing, marks []chartMark) {
	var fills []Role
	for _, m := range marks {
		d.Register(KindMark, m.name, m.box)
		if !slices.Contains(fills, m.fill) {
			fills = append(fills, m.fill)
		}
	}
	for _, fill := range fills {
		style := Style{Fill: fill, Stroke: Ink, Width: hair}
		d.Group(Attrs{Style: style}, func() {
			for _, m := range marks {
				if m.fill == fill {
					d.Rect(m.box, 0, style)
				}
			}
		})
	}
}

// sane returns a value that can be scaled: not a number counts as 0, and the
// span of two values stays finite.
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

// NiceTicks returns round values that cover from…to in about n steps: multiples
// of 1, 2 or 5 times a power of ten (P. S. Heckbert, "Nice numbers for graph
// labels", Graphics Gems, 1990, p. 61; from memory). The first and last enclose the range.
func NiceTicks(from, to float64, n int) []float64 {
	from, to = sane(from), sane(to)
	if to < from {
		from, to = to, from
	}
	if to == from {
		return []float64{from}
	}
	raw := (to - from) / float64(max(1, n))
	power := math.Pow(10, math.Floor(math.Log10(raw)))
	step := power
	for _, k := range [...]float64{1, 2, 5, 10} {
		if step = k * power; raw <= step*(1+1e-9) {
			break
		}
	}
	if !(step > 0) || math.IsInf(step, 0) { // a span beyond all powers
		return []float64{from, to}
	}
	first, last := math.Floor(from/step+1e-9), math.Ceil(to/step-1e-9)
	ticks := make([]float64, 0, int(last-first)+1)
	for i := first; i <= last; i++ {
		ticks = append(ticks, i*step)
	}
	return ticks
}

// plainNumber is how values are written where the caller gives no format.
func plainNumber(v float64) string { return strconv.FormatFloat(v, 'g', 6, 64) }

// A Unit is the unit in which the ticks of a time axis are counted.
type Unit int

// The units of time ticks.
const (
	Hour Unit = iota
	Day
	Month
	Year
)

// At returns a moment as a value on a time axis: seconds of Unix time.
func At(t time.Time) float64 { return float64(t.Unix()) + float64(t.Nanosecond())/1e9 }

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

// TimeTicks returns at most about n ticks at round moments between two times, in
// the time zone of the first. The label function gets the moment and the unit in
// which the ticks step, and returns the text in the reader's language.
func TimeTicks(from, to time.Time, n int, label func(time.Time, Unit) string) []Tick {
	if to.Before(from) {
		from, to = to, from
	}
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
			ticks = append(ticks, Tick{At(t), label(t, step.unit)})
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

// xAxis draws the line at the bottom of a plot with its ticks. A label that would
// touch the one before it or leave the drawing is left out; its tick stays.
func xAxis(d *Drawing, plot Box, x scale, ticks []Tick, whole float64) {
	d.Line(plot.SW(), plot.SE(), Style{Stroke: Ink, Width: hair})
	free := math.Inf(-1)
	style := TextStyle{Size: axisSize, Anchor: Middle, VAlign: Top, Fill: Soft}
	for _, t := range sortedTicks(ticks) {
		if !x.holds(t.At) {
			continue
		}
		at := Point{x.at(t.At), plot.Bottom()}
		d.Line(at, at.Add(0, 4), Style{Stroke: Ink, Width: hair})
		label, _ := Shorten(t.Label, whole/3, axisSize, Regular)
		box := TextBox(at.Add(0, 7), label, style)
		shift := max(0, -box.X) - max(0, box.Right()-whole)
		box = box.Move(shift, 0)
		if box.X < free || math.Abs(shift) > box.W/2 {
			continue
		}
		d.Text(at.Add(shift, 7), label, style)
		free = box.Right() + gap
	}
}

func sortedTicks(ticks []Tick) []Tick {
	ticks = slices.Clone(ticks)
	slices.SortStableFunc(ticks, func(a, b Tick) int { return compare(a.At, b.At) })
	return ticks
}

func compare(a, b float64) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// labelColumn returns the width of a column of labels at the left of a chart.
func labelColumn(labels []string, most float64) float64 {
	widest := 0.0
	for _, l := range labels {
		w, _, _ := Measure(l, TextSize, Regular)
		widest = max(widest, w)
	}
	return min(widest, most)
}
