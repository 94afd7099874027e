package svg

import (
	"slices"
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

func (c MonthChart) names() []string {
	names := make([]string, len(c.Series))
	for i, s := range c.Series {
		names[i] = s.Name
	}
	return names
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

// mostColumn is the width of a column's place, in units, unless its texts need more.
const mostColumn = 46.0

// columnsGrid is the common ground of both month charts: equal places side by side.
type columnsGrid struct {
	left, pitch, bar float64
	n                int
}

// newGrid lays n places into a width, each as wide as its widest text where there
// is room, but no wider than most unless they need it.
func newGrid(left, width float64, columns []Column, widest, most float64) columnsGrid {
	for _, c := range columns {
		w, _, _ := Measure(c.tick(), axisSize, Regular)
		widest = max(widest, w)
	}
	n := len(columns)
	pitch := min(width/float64(n), max(most, widest+gap))
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
	var fits []candidate
	for _, c := range all {
		box := TextBox(c.at, c.text, style)
		near := Box{box.X - 1.5, box.Y, box.W + 3, box.H}
		if box.X < left || box.Right() > right || slices.ContainsFunc(taken, near.Overlaps) {
			continue
		}
		fits = append(fits, c)
		taken = append(taken, box)
	}
	if len(fits) == 0 {
		return
	}
	d.Group(Attrs{Style: Style{Fill: style.fill()}}, func() {
		for _, c := range fits {
			d.Text(c.at, c.text, style)
		}
	})
}
