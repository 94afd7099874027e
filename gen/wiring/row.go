package wiring

import "spruelight/gen/svg"

// row is columns side by side between a plus and a minus rail.
type row struct {
	cols   []*column
	axes   []float64 // from the row's left edge
	slots  []float64
	width  float64
	head   float64 // height of the words above the plus rail
	height float64 // from rail to rail
}

// newRow sets columns side by side.
func newRow(cols []*column) *row {
	r := &row{cols: cols}
	x := 0.0
	for _, col := range cols {
		left, right := col.extent()
		if x > 0 {
			x += columnGap
		}
		r.axes = append(r.axes, roundHalf(x+left))
		x = roundHalf(x+left) + right
		r.slots = col.reserve(r.slots)
		r.head = max(r.head, col.head.height())
	}
	r.width = x
	for _, col := range cols {
		r.height = max(r.height, roundHalf(col.height(r.slots))+0.5)
	}
	return r
}

// mostSpread is the most that spreading adds between two columns.
const mostSpread = 60.0

// spread sets the columns further apart, so that a row that continues fills
// its width.
func (r *row) spread(width float64) {
	if len(r.axes) < 2 || width <= r.width {
		return
	}
	step := roundHalf(min((width-r.width)/float64(len(r.axes)), mostSpread)) - 0.5
	for i := range r.axes {
		r.axes[i] += step * float64(i)
	}
	r.width += step * float64(len(r.axes)-1)
}

// draw draws the columns from x on between the rails at top and bottom, and the
// rails themselves from where the wires end to the left of the row. Where the
// row continues the rails go on to the x named by on, else on is zero.
func (r *row) draw(c *canvas, x, top, bottom, plusFrom, minusFrom, on float64) {
	end, lowerEnd := on, on
	for i, col := range r.cols {
		axis := x + r.axes[i]
		if on == 0 {
			end = max(end, axis)
			if !col.hangsFree() {
				lowerEnd = max(lowerEnd, axis)
			}
		}
	}
	for i, col := range r.cols {
		axis := x + r.axes[i]
		if axis < end {
			c.dot(axis, top)
		}
		if axis < lowerEnd && !col.hangsFree() {
			c.dot(axis, bottom)
		}
		col.draw(c, axis, top, bottom, r.slots)
		col.head.draw(c, svg.Point{X: axis - headLeft, Y: top - headAir - col.head.height()})
	}
	if end > 0 {
		c.wire(plusFrom, top, end, top)
	}
	if lowerEnd > 0 {
		c.wire(minusFrom, bottom, lowerEnd, bottom)
	}
}

// hangsFree reports whether a column does not reach the minus rail.
func (col *column) hangsFree() bool { return col.open && len(col.lower) == 0 }
