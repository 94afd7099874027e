package svg

import (
	"math"
	"slices"
	"sort"
)

// A LineChart shows an amount over time: hours worked so far, money spent so far.
type LineChart struct {
	Frame
	Points []Datum
	Ticks  []Tick               // of the time axis; see TimeTicks
	Marks  []Mark               // moments to name, for instance finished milestones
	Format func(float64) string // of the values at the rules; nil writes plain numbers
	When   string               // head of the table's first column, for instance "Date"
	Value  string               // head of the second, and the caption of the upright axis
	Named  string               // head of the third, the marks, for instance "Milestone"
}

// A Datum is a value at a moment, with both as text.
type Datum struct {
	X, Y  float64
	Label string // the moment
	Text  string // the value
}

const lineHeight = 170.0 // of the plot, in units

// Steps draws an amount that stays until the next moment and then jumps, as
// hours do from sitting to sitting.
func Steps(c LineChart) (*Drawing, Table) { return c.draw(true) }

// Line draws an amount that changes evenly from moment to moment.
func Line(c LineChart) (*Drawing, Table) { return c.draw(false) }

// course is a line chart laid out.
type course struct {
	points  []Datum // by time
	stepped bool
	plot    Box
	x, y    scale
	flags   []placedFlag
	yTicks  []float64
	yLabels []string
	last    string // the text at the end of the line
}

func (c LineChart) draw(stepped bool) (*Drawing, Table) {
	points := slices.Clone(c.Points)
	for i, p := range points {
		points[i].X, points[i].Y = sane(p.X), sane(p.Y)
	}
	slices.SortStableFunc(points, func(a, b Datum) int { return compare(a.X, b.X) })
	table := c.table(points)
	if len(points) == 0 {
		return c.empty(), table
	}
	k := c.layOut(points, stepped)
	d := c.chart()
	k.area(d)
	k.rules(d, c.Value)
	k.line(d)
	k.marks(d)
	xAxis(d, k.plot, k.x, c.Ticks, c.width())
	return d, table
}

func (c LineChart) layOut(points []Datum, stepped bool) course {
	k := course{points: points, stepped: stepped}
	k.x = scale{from: points[0].X, to: points[len(points)-1].X}
	for _, m := range c.Marks {
		k.x.from, k.x.to = min(k.x.from, sane(m.At)), max(k.x.to, sane(m.At))
	}
	low, high := 0.0, 0.0
	for _, p := range points {
		low, high = min(low, p.Y), max(high, p.Y)
	}
	k.yTicks = NiceTicks(low, high, 4)
	k.y = scale{from: k.yTicks[0], to: k.yTicks[len(k.yTicks)-1]}
	width := c.width()
	gutter := k.labelRules(c.Format, width*0.3)
	end := points[len(points)-1]
	k.last, _ = Shorten(end.text(), width*0.25, TextSize, Bold)
	after, _, _ := Measure(k.last, TextSize, Bold)
	k.plot = Box{X: gutter + gap, W: width - gutter - after - 2*gap - 2, H: lineHeight}
	k.x.low, k.x.high = k.plot.X, k.plot.Right()
	k.flags = placeFlags(c.Marks, k.x, k.plot.X-gutter, width)
	k.plot.Y = flagsHeight(k.flags) + gap
	if CleanText(c.Value) != "" {
		k.plot.Y += axisSize*LineHeight + gap
	}
	k.y.low, k.y.high = k.plot.Bottom(), k.plot.Y
	if k.y.from == k.y.to { // nothing but zeros: the line lies on the axis
		k.y.to = k.y.from + 1
	}
	return k
}

// labelRules writes the values at the rules and returns the width they need.
func (k *course) labelRules(format func(float64) string, most float64) (widest float64) {
	if format == nil {
		format = plainNumber
	}
	for _, v := range k.yTicks {
		label, _ := Shorten(format(v), most, axisSize, Regular)
		w, _, _ := Measure(label, axisSize, Regular)
		widest = max(widest, w)
		k.yLabels = append(k.yLabels, label)
	}
	return widest
}

// rules draws the level rules with their values, and the caption of the axis.
func (k *course) rules(d *Drawing, caption string) {
	style := TextStyle{Size: axisSize, Anchor: End, VAlign: Centre, Fill: Soft}
	for i, v := range k.yTicks {
		y := k.y.at(v)
		d.Line(Point{k.plot.X, y}, Point{k.plot.Right(), y}, Style{Stroke: Rule, Width: hair})
		d.Text(Point{k.plot.X - gap, y}, k.yLabels[i], style)
	}
	if caption = CleanText(caption); caption != "" {
		caption, _ = Shorten(caption, k.plot.W, axisSize, Regular)
		d.Text(Point{0, 0}, caption, TextStyle{Size: axisSize, VAlign: Top, Fill: Soft})
	}
}

// place returns a datum's place in the plot.
func (k *course) place(p Datum) Point { return Point{k.x.at(p.X), k.y.at(p.Y)} }

// corners returns the line's corners.
func (k *course) corners() []Point {
	var out []Point
	for i, p := range k.points {
		at := k.place(p)
		if k.stepped && i > 0 && out[len(out)-1].Y != at.Y {
			out = append(out, Point{at.X, out[len(out)-1].Y})
		}
		out = append(out, at)
	}
	return out
}

// area washes the surface between the line and zero.
func (k *course) area(d *Drawing) {
	corners := k.corners()
	zero := k.y.at(0)
	outline := append([]Point{{corners[0].X, zero}}, corners...)
	outline = append(outline, Point{corners[len(corners)-1].X, zero})
	if BoxOf(outline...).W > 0 && BoxOf(outline...).H > 0 {
		d.Polygon(outline, Style{Fill: Glow})
	}
}

func (k *course) line(d *Drawing) {
	corners := k.corners()
	if k.stepped && corners[0].Y != k.y.at(0) {
		corners = append([]Point{{corners[0].X, k.y.at(0)}}, corners...)
	}
	d.Polyline(corners, Style{Stroke: Ink, Width: 1.5})
	end := k.place(k.points[len(k.points)-1])
	if right := (Point{k.plot.Right(), end.Y}); end.X < right.X { // a mark comes later
		d.Line(end, right, Style{Stroke: Ink, Width: 1, Dash: Dotted})
	}
	d.Circle(end, 3.5, Style{Fill: Accent})
	d.Text(Point{k.plot.Right() + gap + 2, end.Y}, k.last, TextStyle{Font: Bold, VAlign: Centre})
}

// marks draws the named moments on the line.
func (k *course) marks(d *Drawing) {
	top := k.plot.Y - gap
	for _, f := range k.flags {
		foot := Point{f.x, k.y.at(k.valueAt(f.mark.At))}
		f.draw(d, foot.Add(0, -3), top, Style{Stroke: Soft, Width: hair})
		d.Circle(foot, 3, Style{Fill: Paper, Stroke: Accent, Width: 1.5})
		d.Register(KindMark, f.mark.Label, Box{foot.X - 3, foot.Y - 3, 6, 6})
	}
}

// valueAt returns the value of the line at a moment.
func (k *course) valueAt(x float64) float64 {
	i := sort.Search(len(k.points), func(i int) bool { return k.points[i].X > x })
	switch {
	case i == 0:
		return k.points[0].Y
	case i == len(k.points) || k.stepped:
		return k.points[i-1].Y
	}
	a, b := k.points[i-1], k.points[i]
	return a.Y + (b.Y-a.Y)*(x-a.X)/(b.X-a.X)
}

func (p Datum) text() string {
	if t := CleanText(p.Text); t != "" {
		return t
	}
	return plainNumber(p.Y)
}

// table lists points and marks together by time; a mark without a point of its
// own moment gets a row without a value.
func (c LineChart) table(points []Datum) Table {
	t := Table{Head: []string{c.When, c.Value}}
	if len(c.Marks) > 0 {
		t.Head = append(t.Head, c.Named)
	}
	marks := slices.Clone(c.Marks)
	slices.SortStableFunc(marks, func(a, b Mark) int { return compare(sane(a.At), sane(b.At)) })
	row := func(cells ...string) { t.Rows = append(t.Rows, cells[:len(t.Head)]) }
	for i, p := range points {
		for len(marks) > 0 && sane(marks[0].At) < p.X {
			row(CleanText(marks[0].Text), "", CleanText(marks[0].Label))
			marks = marks[1:]
		}
		named, next := "", math.Inf(1)
		if i+1 < len(points) {
			next = points[i+1].X
		}
		for len(marks) > 0 && sane(marks[0].At) == p.X && next != p.X {
			named = joinWords(named, CleanText(marks[0].Label))
			marks = marks[1:]
		}
		row(CleanText(p.Label), p.text(), named)
	}
	for _, m := range marks {
		row(CleanText(m.Text), "", CleanText(m.Label))
	}
	return t
}

func joinWords(a, b string) string {
	if a == "" || b == "" {
		return a + b
	}
	return a + "; " + b
}
