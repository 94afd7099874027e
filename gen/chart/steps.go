package chart

import (
	"slices"
	"time"

	"spruelight/gen/svg"
)

// Steps show an amount over time that stays until the next moment and then
// jumps: hours worked so far from sitting to sitting, money spent so far.
type Steps struct {
	Frame
	Points []Datum
	Ticks  []Tick               // of the time axis; see Ticks
	Format func(float64) string // of the values at the rules
	When   string               // head of the table's first column, for instance "Date"
	Value  string               // head of the second, and the caption of the upright axis
}

// A Datum is a value at a moment, with both as text.
type Datum struct {
	At    time.Time
	Value float64
	Label string // the moment
	Text  string // the value
}

const plotHeight = 170.0 // in units

// course is the line laid out.
type course struct {
	corners []svg.Point
	end     svg.Point // the last amount
	plot    svg.Box
	x, y    scale
	values  []float64 // at the rules
	labels  []string  // of the rules
	last    string    // the text at the end of the line
}

// Draw draws the line with the surface below it washed, and the last amount at its end.
func (c Steps) Draw() (*svg.Drawing, svg.Table) {
	table := svg.Table{Head: []string{c.When, c.Value}}
	points := slices.SortedStableFunc(slices.Values(c.Points), func(a, b Datum) int { return a.At.Compare(b.At) })
	for i, p := range points {
		points[i].Value = sane(p.Value)
		table.Rows = append(table.Rows, []string{svg.CleanText(p.Label), svg.CleanText(p.Text)})
	}
	if len(points) == 0 {
		return c.empty(), table
	}
	k := c.layOut(points)
	d := c.sheet()
	k.area(d)
	k.rules(d, c.Value)
	k.line(d)
	timeAxis(d, k.plot, k.x, c.Ticks, c.width())
	return d, table
}

func (c Steps) layOut(points []Datum) course {
	var k course
	first, end := points[0], points[len(points)-1]
	low, high := 0.0, 0.0
	for _, p := range points {
		low, high = min(low, p.Value), max(high, p.Value)
	}
	k.values = roundValues(low, high, 4)
	width := c.width()
	for _, v := range k.values {
		label, _ := svg.Shorten(c.Format(v), width*0.3, axisSize, svg.Regular)
		k.labels = append(k.labels, label)
	}
	gutter := widest(k.labels, axisSize)
	k.last, _ = svg.Shorten(end.Text, width*0.25, svg.TextSize, svg.Bold)
	after, _, _ := svg.Measure(k.last, svg.TextSize, svg.Bold)
	k.plot = svg.Box{X: gutter + gap, Y: gap, W: width - gutter - after - 2*gap - 2, H: plotHeight}
	if svg.CleanText(c.Value) != "" {
		k.plot.Y += axisSize*svg.LineHeight + gap
	}
	k.x = scale{seconds(first.At), seconds(end.At), k.plot.X, k.plot.Right()}
	k.y = scale{k.values[0], k.values[len(k.values)-1], k.plot.Bottom(), k.plot.Y}
	if k.y.from == k.y.to { // nothing but zeros: the line lies on the axis
		k.y.to = k.y.from + 1
	}
	for _, p := range points {
		at := svg.Point{X: k.x.at(seconds(p.At)), Y: k.y.at(p.Value)}
		if n := len(k.corners); n > 0 && k.corners[n-1].Y != at.Y {
			k.corners = append(k.corners, svg.Point{X: at.X, Y: k.corners[n-1].Y})
		}
		k.corners = append(k.corners, at)
	}
	k.end = k.corners[len(k.corners)-1]
	return k
}

// rules draws the level rules with their values, and the caption of the axis.
func (k *course) rules(d *svg.Drawing, caption string) {
	style := svg.TextStyle{Size: axisSize, Anchor: svg.End, VAlign: svg.Centre, Fill: svg.Soft}
	for i, v := range k.values {
		y := k.y.at(v)
		d.Line(svg.Point{X: k.plot.X, Y: y}, svg.Point{X: k.plot.Right(), Y: y}, svg.Style{Stroke: svg.Rule, Width: hair})
		d.Text(svg.Point{X: k.plot.X - gap, Y: y}, k.labels[i], style)
	}
	caption, _ = svg.Shorten(caption, k.plot.W, axisSize, svg.Regular)
	d.Text(svg.Point{}, caption, svg.TextStyle{Size: axisSize, VAlign: svg.Top, Fill: svg.Soft})
}

// area washes the surface between the line and zero.
func (k *course) area(d *svg.Drawing) {
	zero := k.y.at(0)
	outline := slices.Concat([]svg.Point{{X: k.corners[0].X, Y: zero}}, k.corners, []svg.Point{{X: k.end.X, Y: zero}})
	if box := svg.BoxOf(outline...); box.W > 0 && box.H > 0 {
		d.Polygon(outline, svg.Style{Fill: svg.Glow})
	}
}

// line draws the line, up from zero at its first moment.
func (k *course) line(d *svg.Drawing) {
	corners := k.corners
	if zero := k.y.at(0); corners[0].Y != zero {
		corners = slices.Concat([]svg.Point{{X: corners[0].X, Y: zero}}, corners)
	}
	d.Polyline(corners, svg.Style{Stroke: svg.Ink, Width: 1.5})
	if right := (svg.Point{X: k.plot.Right(), Y: k.end.Y}); k.end.X < right.X { // a single moment stands in the middle
		d.Line(k.end, right, svg.Style{Stroke: svg.Ink, Width: 1, Dash: svg.Dotted})
	}
	d.Circle(k.end, 3.5, svg.Style{Fill: svg.Accent})
	d.Text(svg.Point{X: k.plot.Right() + gap + 2, Y: k.end.Y}, k.last, svg.TextStyle{Font: svg.Bold, VAlign: svg.Centre})
}
