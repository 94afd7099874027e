package wiring

// ladder is a further junction drawn between the rails that feed it: its own
// plus rail, its columns, its own minus rail.
type ladder struct{ row *row }

// ladderGap is the room between the feed's axis and the first column.
const ladderGap = 14.0

func (l *ladder) extent() (left, right, height float64) {
	return 9, ladderGap + l.row.width, l.above() + l.row.height
}

// above is the height from the feed's last piece to the plus rail.
func (l *ladder) above() float64 {
	if l.row.head == 0 {
		return railAir
	}
	return l.row.head + 2*headAir
}

func (l *ladder) draw(c *canvas, axis, top float64) float64 {
	plus := roundHalf(top + l.above())
	minus := plus + l.row.height
	c.wire(axis, top, axis, plus)
	l.row.draw(c, axis+ladderGap, plus, minus, axis, axis, 0)
	return minus
}
