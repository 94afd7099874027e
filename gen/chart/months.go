package chart

import (
	"spruelight/gen/svg"
)

// Months show amounts by month and kind, as the hours by stage or by build: in
// lanes or stacked.
type Months struct {
	Frame
	Series  []Series
	Columns []Column // by time, without gaps: a month without work is a column of zeros
	Period  string   // head of the table's first column, for instance "Month"
	Total   string   // head of its last
}

// A Series is one kind: its name and its total as text.
type Series struct{ Name, Total string }

// A Column is one month.
type Column struct {
	Label  string    // in full, for instance "February 2026"
	Tick   string    // below the column, for instance "Feb"
	Group  string    // what several columns share, for instance "2026"
	Values []float64 // one for each series; negative ones count as 0
	Texts  []string  // the values as text
	Total  string    // their sum as text
}

// value returns the amount of a series in a column.
func (c Column) value(series int) float64 { return max(0, sane(c.Values[series])) }

func (c Column) sum() float64 {
	total := 0.0
	for i := range c.Values {
		total += c.value(i)
	}
	return total
}

func (c Months) names() []string {
	names := make([]string, len(c.Series))
	for i, s := range c.Series {
		names[i] = s.Name
	}
	return names
}

func (c Months) table() svg.Table {
	t := svg.Table{Head: []string{c.Period}}
	for _, s := range c.Series {
		t.Head = append(t.Head, svg.CleanText(s.Name))
	}
	t.Head = append(t.Head, c.Total)
	for _, col := range c.Columns {
		row := []string{svg.CleanText(col.Label)}
		for _, text := range col.Texts {
			row = append(row, svg.CleanText(text))
		}
		t.Rows = append(t.Rows, append(row, svg.CleanText(col.Total)))
	}
	return t
}

// mostColumn is the width of a column's place, in units, unless its texts need more.
const mostColumn = 46.0

// places is the common ground of both month charts: equal places side by side.
type places struct {
	left, pitch, bar float64
	n                int
}

// newGrid lays n places into a width, each as wide as its widest text where there
// is room, but no wider than most unless they need it.
func newGrid(left, width float64, columns []Column, text, most float64) places {
	for _, c := range columns {
		w, _, _ := svg.Measure(c.Tick, axisSize, svg.Regular)
		text = max(text, w)
	}
	n := len(columns)
	pitch := min(width/float64(n), max(most, text+gap))
	return places{left, pitch, min(max(pitch*0.72, min(pitch, 1)), mostColumn*0.72), n}
}

func (g places) middle(i int) float64 { return g.left + (float64(i)+0.5)*g.pitch }
func (g places) right() float64       { return g.left + float64(g.n)*g.pitch }

// axis draws the line below the columns with their ticks and groups. Where not
// every tick has room, every second, third … is written.
func (g places) axis(d *svg.Drawing, y, whole float64, columns []Column) {
	d.Line(svg.Point{X: g.left, Y: y}, svg.Point{X: g.right(), Y: y}, svg.Style{Stroke: svg.Ink, Width: hair})
	style := svg.TextStyle{Size: axisSize, Anchor: svg.Middle, VAlign: svg.Top, Fill: svg.Soft}
	labels, boxes := make([]string, g.n), make([]svg.Box, g.n)
	for i, c := range columns {
		labels[i], _ = svg.Shorten(c.Tick, whole/3, axisSize, svg.Regular)
		boxes[i] = svg.TextBox(svg.Point{X: g.middle(i), Y: y + 4}, labels[i], style)
	}
	stride, first := tickStride(columns, boxes)
	for i := first; i < g.n; i += stride {
		if boxes[i].X >= 0 && boxes[i].Right() <= whole {
			d.Text(svg.Point{X: g.middle(i), Y: y + 4}, labels[i], style)
		}
	}
	g.groups(d, y+4+axisSize*svg.LineHeight, whole, columns)
}

// tickStride returns the smallest step at which tick labels keep clear of each
// other, and the first column to label, so that groups begin with a label.
func tickStride(columns []Column, boxes []svg.Box) (stride, first int) {
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
func (g places) groups(d *svg.Drawing, y, whole float64, columns []Column) {
	for i := 0; i < len(columns); {
		j := i + 1
		for j < len(columns) && columns[j].Group == columns[i].Group {
			j++
		}
		if name := svg.CleanText(columns[i].Group); name != "" {
			from, to := g.left+float64(i)*g.pitch+1, g.left+float64(j)*g.pitch-1
			d.Line(svg.Point{X: from, Y: y + 2}, svg.Point{X: to, Y: y + 2}, svg.Style{Stroke: svg.Rule, Width: hair})
			room := to - from
			if j == len(columns) {
				room = whole - from
			}
			if short, cut := svg.Shorten(name, room, axisSize, svg.Regular); !cut {
				d.Text(svg.Point{X: from, Y: y + 4}, short, svg.TextStyle{Size: axisSize, VAlign: svg.Top, Fill: svg.Soft})
			}
		}
		i = j
	}
}
