package svg

import (
	"math"
	"strconv"
)

const (
	stackHeight = 170.0 // of the tallest column
	swatch      = 14.0
	keyPitch    = 20.0               // from line to line of the key
	keyLead     = 2*swatch + 1.5*gap // number and swatch before a name in the key
)

// Stacked draws one column for each period with the series on top of each other,
// the first at the bottom, and the sum above. Every part that has room carries
// the number of its series in a circle, as the key beside the columns has it.
func Stacked(c MonthChart) (*Drawing, Table) {
	table := c.table()
	if len(c.Columns) == 0 || len(c.Series) == 0 {
		return c.empty(), table
	}
	d, width := c.chart(), c.width()
	beside := width >= narrow
	room := width
	if beside {
		room -= labelColumn(c.names(), width*0.3) + keyLead + 2*gap
	}
	tallest, widest := 0.0, 0.0
	for _, col := range c.Columns {
		tallest = max(tallest, col.sum(len(c.Series)))
		w, _, _ := Measure(col.total(len(c.Series)), axisSize, Regular)
		widest = max(widest, w)
	}
	grid := newGrid(0, room, c.Columns, widest, mostColumn)
	base := stackHeight + TextSize*LineHeight
	y := scale{from: 0, to: max(tallest, math.SmallestNonzeroFloat64), low: base, high: base - stackHeight}
	c.stacks(d, grid, y, min(grid.right()+gap, width))
	grid.axis(d, base, room, c.Columns)
	if beside {
		c.keyBeside(d, grid.right()+2*gap, base, width)
	} else {
		c.keyBelow(d, d.Extent().Bottom()+2*gap, width)
	}
	return d, table
}

// stacks draws all columns with their numbers, and the sums that have room up to right.
func (c MonthChart) stacks(d *Drawing, grid columnsGrid, y scale, right float64) {
	var totals []candidate
	var stacks []Box
	var parts []chartMark
	var numbers []callOut
	for j, col := range c.Columns {
		p, n := c.stack(grid, j, y)
		parts, numbers = append(parts, p...), append(numbers, n...)
		sum := col.sum(len(c.Series))
		stacks = append(stacks, Box{grid.middle(j) - grid.bar/2, y.at(sum), grid.bar, y.low - y.at(sum)})
		totals = append(totals, candidate{sum, Point{grid.middle(j), y.at(sum) - 4}, col.total(len(c.Series))})
	}
	drawMarks(d, parts)
	drawCallOuts(d, numbers)
	drawFitting(d, totals, TextStyle{Size: axisSize, Anchor: Middle}, stacks, 0, right)
}

// stack lays one column from the bottom up and returns its parts and the numbers
// of those that have room for one.
func (c MonthChart) stack(grid columnsGrid, j int, y scale) (parts []chartMark, numbers []callOut) {
	from := 0.0
	for i, s := range c.Series {
		v := c.Columns[j].value(i)
		if v <= 0 {
			continue
		}
		part := Box{grid.middle(j) - grid.bar/2, y.at(from + v), grid.bar, y.at(from) - y.at(from+v)}
		parts = append(parts, chartMark{s.Name, s.fill(i), part})
		if part.H >= swatch+2 && part.W >= swatch+2 {
			numbers = append(numbers, callOut{part.Centre(), i + 1})
		}
		from += v
	}
	return parts, numbers
}

// callOut is a number in a circle.
type callOut struct {
	at     Point
	number int
}

func drawCallOuts(d *Drawing, all []callOut) {
	if len(all) == 0 {
		return
	}
	style := Style{Fill: Paper, Stroke: Ink, Width: hair}
	d.Group(Attrs{Style: style}, func() {
		for _, c := range all {
			d.Circle(c.at, swatch/2, style)
		}
	})
	d.Group(Attrs{Style: Style{Fill: Ink}}, func() {
		for _, c := range all {
			d.Text(c.at, strconv.Itoa(c.number), TextStyle{Size: 10, Anchor: Middle, VAlign: Centre})
		}
	})
}

// keyBeside lists the series at the right, the topmost of a column on top.
func (c MonthChart) keyBeside(d *Drawing, x, base, width float64) {
	c.key(d, width-x, func(i int) Point { return Point{x, base - (float64(i)+0.5)*keyPitch} })
}

// keyBelow lists the series in as many columns as fit.
func (c MonthChart) keyBelow(d *Drawing, y, width float64) {
	each := min(labelColumn(c.names(), width)+keyLead+3*gap, width)
	across := max(1, int(width/each))
	c.key(d, each-gap, func(i int) Point {
		return Point{float64(i%across) * each, y + (float64(i/across)+0.5)*keyPitch}
	})
}

// key draws number, swatch and name of every series at its place, in a room.
func (c MonthChart) key(d *Drawing, room float64, place func(i int) Point) {
	var numbers []callOut
	for i, s := range c.Series {
		at := place(i)
		numbers = append(numbers, callOut{at.Add(swatch/2, 0), i + 1})
		d.Rect(Box{at.X + swatch + gap/2, at.Y - swatch/2, swatch, swatch}, 0,
			Style{Fill: s.fill(i), Stroke: Ink, Width: hair})
		name, _ := Shorten(s.Name, room-keyLead, TextSize, Regular)
		d.Text(at.Add(keyLead, 0), name, TextStyle{VAlign: Centre})
	}
	drawCallOuts(d, numbers)
}
