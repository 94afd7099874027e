package chart

import (
	"math"
	"spruelight/gen/svg"
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
func (c Months) Stacked() (*svg.Drawing, svg.Table) {
	table := c.table()
	if len(c.Columns) == 0 || len(c.Series) == 0 {
		return c.empty(), table
	}
	d, width := c.sheet(), c.width()
	beside := width >= narrow
	room := width
	if beside {
		room -= column(c.names(), width*0.3) + keyLead + 2*gap
	}
	tallest, widest := 0.0, 0.0
	for _, col := range c.Columns {
		tallest = max(tallest, col.sum())
		w, _, _ := svg.Measure(col.Total, axisSize, svg.Regular)
		widest = max(widest, w)
	}
	grid := newGrid(0, room, c.Columns, widest, mostColumn)
	base := stackHeight + lineStep
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
func (c Months) stacks(d *svg.Drawing, grid places, y scale, right float64) {
	var totals []candidate
	var stacks []svg.Box
	var parts []block
	var numbers []callOut
	for j, col := range c.Columns {
		p, n := c.stack(grid, j, y)
		parts, numbers = append(parts, p...), append(numbers, n...)
		sum := col.sum()
		stacks = append(stacks, svg.Box{X: grid.middle(j) - grid.bar/2, Y: y.at(sum), W: grid.bar, H: y.low - y.at(sum)})
		totals = append(totals, candidate{sum, svg.Point{X: grid.middle(j), Y: y.at(sum) - 4}, col.Total})
	}
	drawBlocks(d, parts)
	drawCallOuts(d, numbers)
	drawFitting(d, totals, svg.TextStyle{Size: axisSize, Anchor: svg.Middle, Fill: svg.Ink}, stacks, 0, right)
}

// stack lays one column from the bottom up and returns its parts and the numbers
// of those that have room for one.
func (c Months) stack(grid places, j int, y scale) (parts []block, numbers []callOut) {
	from := 0.0
	for i, s := range c.Series {
		v := c.Columns[j].value(i)
		if v <= 0 {
			continue
		}
		part := svg.Box{X: grid.middle(j) - grid.bar/2, Y: y.at(from + v), W: grid.bar, H: y.at(from) - y.at(from+v)}
		parts = append(parts, block{s.Name, svg.Fill(i), part})
		if part.H >= swatch+2 && part.W >= swatch+2 {
			numbers = append(numbers, callOut{part.Centre(), i + 1})
		}
		from += v
	}
	return parts, numbers
}

// callOut is a number in a circle.
type callOut struct {
	at     svg.Point
	number int
}

func drawCallOuts(d *svg.Drawing, all []callOut) {
	if len(all) == 0 {
		return
	}
	style := svg.Style{Fill: svg.Paper, Stroke: svg.Ink, Width: hair}
	d.Group(svg.Attrs{Style: style}, func() {
		for _, c := range all {
			d.Circle(c.at, swatch/2, style)
		}
	})
	d.Group(svg.Attrs{Style: svg.Style{Fill: svg.Ink}}, func() {
		for _, c := range all {
			d.Text(c.at, strconv.Itoa(c.number), svg.TextStyle{Size: 10, Anchor: svg.Middle, VAlign: svg.Centre})
		}
	})
}

// keyBeside lists the series at the right, the topmost of a column on top.
func (c Months) keyBeside(d *svg.Drawing, x, base, width float64) {
	c.key(d, width-x, func(i int) svg.Point { return svg.Point{X: x, Y: base - (float64(i)+0.5)*keyPitch} })
}

// keyBelow lists the series in as many columns as fit.
func (c Months) keyBelow(d *svg.Drawing, y, width float64) {
	each := min(column(c.names(), width)+keyLead+3*gap, width)
	across := max(1, int(width/each))
	c.key(d, each-gap, func(i int) svg.Point {
		return svg.Point{X: float64(i%across) * each, Y: y + (float64(i/across)+0.5)*keyPitch}
	})
}

// key draws number, swatch and name of every series at its place, in a room.
func (c Months) key(d *svg.Drawing, room float64, place func(i int) svg.Point) {
	var numbers []callOut
	for i, s := range c.Series {
		at := place(i)
		numbers = append(numbers, callOut{at.Add(swatch/2, 0), i + 1})
		d.Rect(svg.Box{X: at.X + swatch + gap/2, Y: at.Y - swatch/2, W: swatch, H: swatch}, 0,
			svg.Style{Fill: svg.Fill(i), Stroke: svg.Ink, Width: hair})
		name, _ := svg.Shorten(s.Name, room-keyLead, svg.TextSize, svg.Regular)
		d.Text(at.Add(keyLead, 0), name, svg.TextStyle{VAlign: svg.Centre})
	}
	drawCallOuts(d, numbers)
}
