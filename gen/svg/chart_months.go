package svg

import (
	"math"
	"slices"
	"strconv"
)

// A MonthChart shows amounts by period and kind: hours by month and stage.
type MonthChart struct {
	Frame
	Series  []Series
	Columns []Column // by time, without gaps: a period without work is a column of zeros
	Period  string   // head of the table's first column, for instance "Month"
	Total   string   // head of its last
}

// A Series is one kind: its name, its fill, and its total as text.
type Series struct {
	Name  string
	Fill  Role // None takes the chart fill of its place
	Total string
}

// A Column is one period.
type Column struct {
	Label  string    // in full, for instance "February 2026"
	Tick   string    // below the column, for instance "Feb"; empty takes Label
	Group  string    // what several columns share, for instance "2026"
	Values []float64 // one for each series; missing ones are 0, negative ones count as 0
	Texts  []string  // the values as text; missing ones are written plainly
	Total  string    // the sum as text
}

func (s Series) fill(index int) Role {
	if s.Fill.known() == None {
		return Fill(index)
	}
	return s.Fill
}

// value returns the amount of a series in a column.
func (c Column) value(series int) float64 {
	if series >= len(c.Values) {
		return 0
	}
	return max(0, sane(c.Values[series]))
}

func (c Column) text(series int) string {
	if series < len(c.Texts) {
		if t := CleanText(c.Texts[series]); t != "" {
			return t
		}
	}
	return plainNumber(c.value(series))
}

func (c Column) sum(series int) float64 {
	total := 0.0
	for i := range series {
		total += c.value(i)
	}
	return total
}

func (c Column) total(series int) string {
	if t := CleanText(c.Total); t != "" {
		return t
	}
	return plainNumber(c.sum(series))
}

func (c Column) tick() string {
	if t := CleanText(c.Tick); t != "" {
		return t
	}
	return CleanText(c.Label)
}

func (c MonthChart) table() Table {
	t := Table{Head: []string{c.Period}}
	for _, s := range c.Series {
		t.Head = append(t.Head, CleanText(s.Name))
	}
	t.Head = append(t.Head, c.Total)
	for _, col := range c.Columns {
		row := []string{CleanText(col.Label)}
		for i := range c.Series {
			row = append(row, col.text(i))
		}
		t.Rows = append(t.Rows, append(row, col.total(len(c.Series))))
	}
	return t
}

const (
	stackHeight = 170.0 // of the plot with the tallest column
	laneHeight  = 32.0  // of one lane, with the text above its bars
	laneBar     = 17.0  // of the tallest bar in a lane
	mostColumn  = 46.0  // width of a column's place, unless its texts need more
	swatch      = 14.0
	keyLead     = 2*swatch + 1.5*gap // number and swatch before a name in the key
)

// columnsGrid is the common ground of both month charts: equal places side by side.
type columnsGrid struct {
	left, pitch, bar float64
	n                int
}

// newGrid lays n places into a width, each as wide as its widest text where there
// is room, but no wider than needed.
func newGrid(left, width float64, columns []Column, widest float64) columnsGrid {
	for _, c := range columns {
		w, _, _ := Measure(c.tick(), axisSize, Regular)
		widest = max(widest, w)
	}
	n := len(columns)
	pitch := min(width/float64(n), max(mostColumn, widest+gap))
	return columnsGrid{left, pitch, min(max(pitch*0.72, min(pitch, 1)), mostColumn*0.72), n}
}

func (g columnsGrid) middle(i int) float64 { return g.left + (float64(i)+0.5)*g.pitch }
func (g columnsGrid) right() float64       { return g.left + float64(g.n)*g.pitch }

// axis draws the line below the columns with their ticks and groups. Where not
// every tick has room, every second, third … is written.
func (g columnsGrid) axis(d *Drawing, y, whole float64, columns []Column) {
	d.Line(Point{g.left, y}, Point{g.right(), y}, Style{Stroke: Ink, Width: hair})
	style := TextStyle{Size: axisSize, Anchor: Middle, VAlign: Top, Fill: Soft}
	labels, boxes := make([]string, g.n), make([]Box, g.n)
	for i, c := range columns {
		labels[i], _ = Shorten(c.tick(), whole/3, axisSize, Regular)
		boxes[i] = TextBox(Point{g.middle(i), y + 4}, labels[i], style)
	}
	stride, first := tickStride(columns, boxes)
	for i := first; i < g.n; i += stride {
		if boxes[i].X >= 0 && boxes[i].Right() <= whole {
			d.Text(Point{g.middle(i), y + 4}, labels[i], style)
		}
	}
	g.groups(d, y+4+axisSize*LineHeight, whole, columns)
}

// tickStride returns the smallest step at which tick labels keep clear of each
// other, and the first column to label, so that groups begin with a label.
func tickStride(columns []Column, boxes []Box) (stride, first int) {
	begin := 0
	for i := 1; i < len(columns) && begin == 0; i++ {
		if columns[i].Group != columns[i-1].Group {
			begin = i
		}
	}
	for _, stride = range [...]int{1, 2, 3, 4, 6, 12, 24, 60} {
		first = begin % stride
		apart := true
		for i := first; i+stride < len(boxes) && apart; i += stride {
			apart = boxes[i].Right()+gap/2 <= boxes[i+stride].X
		}
		if apart {
			return stride, first
		}
	}
	return max(1, len(columns)), 0
}

// groups draws a hairline under the columns of each group with its name.
func (g columnsGrid) groups(d *Drawing, y, whole float64, columns []Column) {
	for i := 0; i < len(columns); {
		j := i + 1
		for j < len(columns) && columns[j].Group == columns[i].Group {
			j++
		}
		if name := CleanText(columns[i].Group); name != "" {
			from, to := g.left+float64(i)*g.pitch+1, g.left+float64(j)*g.pitch-1
			d.Line(Point{from, y + 2}, Point{to, y + 2}, Style{Stroke: Rule, Width: hair})
			room := to - from
			if j == len(columns) {
				room = whole - from
			}
			if short, cut := Shorten(name, room, axisSize, Regular); !cut {
				d.Text(Point{from, y + 4}, short, TextStyle{Size: axisSize, VAlign: Top, Fill: Soft})
			}
		}
		i = j
	}
}

// candidate is a text that is drawn if there is room, greater values first.
type candidate struct {
	value float64
	at    Point
	text  string
}

// drawFitting draws those candidates that touch neither each other nor a taken
// box, and stay within left…right.
func drawFitting(d *Drawing, all []candidate, style TextStyle, taken []Box, left, right float64) {
	slices.SortStableFunc(all, func(a, b candidate) int { return compare(b.value, a.value) })
	taken = slices.Clone(taken)
	for _, c := range all {
		box := TextBox(c.at, c.text, style)
		near := Box{box.X - 1.5, box.Y, box.W + 3, box.H}
		if box.X < left || box.Right() > right || slices.ContainsFunc(taken, near.Overlaps) {
			continue
		}
		d.Text(c.at, c.text, style)
		taken = append(taken, box)
	}
}

// Lanes draws one lane for each series above each other, all on the same scale,
// with the periods across: when was what done, and how much. Every lane is named
// at its left and summed at its right, so that no fill has to be looked up.
func Lanes(c MonthChart) (*Drawing, Table) {
	table := c.table()
	if len(c.Columns) == 0 || len(c.Series) == 0 {
		return c.empty(), table
	}
	d, width := c.chart(), c.width()
	labels, totals := make([]string, len(c.Series)), make([]string, len(c.Series))
	for i, s := range c.Series {
		labels[i] = s.Name
		totals[i], _ = Shorten(s.Total, width*0.26, TextSize, Regular)
	}
	column := labelColumn(labels, width*0.3)
	after := labelColumn(totals, width*0.26)
	grid := newGrid(column+gap, width-column-after-2*gap, c.Columns, 0)
	top := 0.0
	for _, col := range c.Columns {
		for i := range c.Series {
			top = max(top, col.value(i))
		}
	}
	for i, s := range c.Series {
		base := float64(i+1) * laneHeight
		lines := ShortenLines(s.Name, column, TextSize, Regular, 2)
		middle := base - laneBar/2
		if len(lines) > 1 {
			middle = base - laneHeight*0.4 // so that the second line ends above the next lane
		}
		d.Lines(Point{column, middle}, lines, TextStyle{Anchor: End, VAlign: Centre})
		d.Text(Point{grid.right() + gap + after, base - laneBar/2}, totals[i], TextStyle{Anchor: End, VAlign: Centre})
		c.lane(d, grid, i, base, top)
	}
	grid.axis(d, float64(len(c.Series))*laneHeight, width, c.Columns)
	return d, table
}

// lane draws the bars of one series on a base line, the tallest of all being top.
func (c MonthChart) lane(d *Drawing, grid columnsGrid, series int, base, top float64) {
	d.Line(Point{grid.left, base}, Point{grid.right(), base}, Style{Stroke: Rule, Width: hair})
	var texts []candidate
	var bars []Box
	for j, col := range c.Columns {
		v := col.value(series)
		if v <= 0 {
			continue
		}
		h := max(v/top*laneBar, 1)
		bar := Box{grid.middle(j) - grid.bar/2, base - h, grid.bar, h}
		d.Rect(bar, 0, Style{Fill: c.Series[series].fill(series), Stroke: Ink, Width: hair})
		d.Register(KindMark, c.Series[series].Name, bar)
		bars = append(bars, bar)
		texts = append(texts, candidate{v, Point{grid.middle(j), base - h - 3}, col.text(series)})
	}
	style := TextStyle{Size: 10, Anchor: Middle, Fill: Soft}
	drawFitting(d, texts, style, bars, grid.left, grid.right())
}

// Stacked draws one column for each period with the series on top of each other,
// the first at the bottom, and the sum above. Every part that has room carries
// the number of its series in a circle, as the key beside the columns has it.
func Stacked(c MonthChart) (*Drawing, Table) {
	table := c.table()
	if len(c.Columns) == 0 || len(c.Series) == 0 {
		return c.empty(), table
	}
	d, width := c.chart(), c.width()
	names := make([]string, len(c.Series))
	for i, s := range c.Series {
		names[i] = s.Name
	}
	beside := width >= narrow
	keyWidth := 0.0
	if beside {
		keyWidth = labelColumn(names, width*0.3) + keyLead + 2*gap
	}
	tallest, widest := 0.0, 0.0
	for _, col := range c.Columns {
		tallest = max(tallest, col.sum(len(c.Series)))
		w, _, _ := Measure(col.total(len(c.Series)), axisSize, Regular)
		widest = max(widest, w)
	}
	grid := newGrid(0, width-keyWidth, c.Columns, widest)
	base := stackHeight + TextSize*LineHeight
	y := scale{from: 0, to: max(tallest, math.SmallestNonzeroFloat64), low: base, high: base - stackHeight}
	var totals []candidate
	var stacks []Box
	for j, col := range c.Columns {
		c.stack(d, grid, j, y)
		sum := col.sum(len(c.Series))
		stacks = append(stacks, Box{grid.middle(j) - grid.bar/2, y.at(sum), grid.bar, base - y.at(sum)})
		totals = append(totals, candidate{sum, Point{grid.middle(j), y.at(sum) - 4}, col.total(len(c.Series))})
	}
	drawFitting(d, totals, TextStyle{Size: axisSize, Anchor: Middle}, stacks, 0, min(grid.right()+gap, width))
	grid.axis(d, base, width-keyWidth, c.Columns)
	if beside {
		c.keyBeside(d, grid.right()+2*gap, base, width)
	} else {
		c.keyBelow(d, d.Extent().Bottom()+2*gap, width)
	}
	return d, table
}

// stack draws one column from the bottom up.
func (c MonthChart) stack(d *Drawing, grid columnsGrid, j int, y scale) {
	from := 0.0
	for i, s := range c.Series {
		v := c.Columns[j].value(i)
		if v <= 0 {
			continue
		}
		part := Box{grid.middle(j) - grid.bar/2, y.at(from + v), grid.bar, y.at(from) - y.at(from+v)}
		d.Rect(part, 0, Style{Fill: s.fill(i), Stroke: Ink, Width: hair})
		d.Register(KindMark, s.Name, part)
		if part.H >= swatch+2 && part.W >= swatch+2 {
			callOut(d, part.Centre(), i+1)
		}
		from += v
	}
}

// callOut draws a number in a circle.
func callOut(d *Drawing, at Point, n int) {
	d.Circle(at, swatch/2, Style{Fill: Paper, Stroke: Ink, Width: hair})
	d.Text(at, strconv.Itoa(n), TextStyle{Size: 10, Anchor: Middle, VAlign: Centre})
}

// keyBeside lists the series at the right, the topmost of a column on top.
func (c MonthChart) keyBeside(d *Drawing, x, base, width float64) {
	const pitch = 20.0
	for i, s := range c.Series {
		y := base - pitch/2 - float64(i)*pitch
		c.keyEntry(d, Point{x, y}, i, s, width-x)
	}
}

// keyBelow lists the series in as many columns as fit.
func (c MonthChart) keyBelow(d *Drawing, y, width float64) {
	const pitch = 20.0
	names := make([]string, len(c.Series))
	for i, s := range c.Series {
		names[i] = s.Name
	}
	each := min(labelColumn(names, width)+keyLead+3*gap, width)
	across := max(1, int(width/each))
	for i, s := range c.Series {
		at := Point{float64(i%across) * each, y + pitch/2 + float64(i/across)*pitch}
		c.keyEntry(d, at, i, s, each-gap)
	}
}

func (c MonthChart) keyEntry(d *Drawing, at Point, i int, s Series, room float64) {
	callOut(d, at.Add(swatch/2, 0), i+1)
	d.Rect(Box{at.X + swatch + gap/2, at.Y - swatch/2, swatch, swatch}, 0,
		Style{Fill: s.fill(i), Stroke: Ink, Width: hair})
	name, _ := Shorten(s.Name, room-keyLead, TextSize, Regular)
	d.Text(at.Add(keyLead, 0), name, TextStyle{VAlign: Centre})
}
