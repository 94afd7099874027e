package wiring

import (
	"spruelight/gen/svg"
)

// Distances within a row, in units.
const (
	columnGap  = 10.0
	railAir    = 6.0   // between a rail and the first or last piece of a column
	headAir    = 6.0   // between a rail and the words above it
	mostWords  = 112.0 // the widest label beside a symbol
	leastWords = 46.0

	// On a sheet narrower than this, labels are so wide that two columns stand
	// beside each other on a phone.
	narrowest, narrowWords = 480.0, 83.0
)

// Slots are the heights at which the pieces of neighbouring columns stand, so
// that resistors stand beside resistors and first lamps beside first lamps.
const (
	currentSlot = iota
	plugSlot
	wireSlot
	limiterSlot
	firstPointSlot // test point above lamp k: firstPointSlot + 2k
	firstLampSlot  // lamp k: firstLampSlot + 2k
)

// slotted is a piece at its slot.
type slotted struct {
	slot int
	piece
}

// block is what a column may hold between its upper and lower pieces instead
// of single pieces: lamps side by side, or a ladder.
type block interface {
	extent() (left, right, height float64)
	draw(c *canvas, axis, top float64) (bottom float64) // wires it to its own ends on the axis
}

// column is what hangs between the rails on one axis.
type column struct {
	head   label // above the plus rail
	amps   label // beside an arrow along the wire
	upper  []slotted
	middle block
	lower  []piece // from top to bottom, standing on the minus rail
	open   bool    // the two ends do not meet
}

// extent returns how far a column reaches left and right of its axis.
func (col *column) extent() (left, right float64) {
	left, right = 12, 17+leastWords
	grow := func(p piece) {
		s := p.shape()
		left, right = max(left, s.left), max(right, s.right, p.wordsFrom()+p.label.width())
	}
	for _, p := range col.upper {
		grow(p.piece)
	}
	for _, p := range col.lower {
		grow(p)
	}
	right = max(right, col.head.width()-headLeft, 17+col.amps.width())
	if col.middle != nil {
		l, r, _ := col.middle.extent()
		left, right = max(left, l), max(right, r)
	}
	return left, right
}

// headLeft is how far left of the axis the words above a rail begin.
const headLeft = 9.0

// reserve makes every slot high enough for the column's pieces.
func (col *column) reserve(slots []float64) []float64 {
	grow := func(slot int, room float64) {
		for len(slots) <= slot {
			slots = append(slots, 0)
		}
		slots[slot] = max(slots[slot], room)
	}
	if len(col.amps) > 0 {
		grow(currentSlot, col.amps.height()+8)
	}
	for _, p := range col.upper {
		grow(p.slot, p.room())
	}
	return slots
}

// below returns the height of the slots down to the end of the column's last
// upper piece.
func (col *column) below(slots []float64) float64 {
	last := -1
	if len(col.amps) > 0 {
		last = currentSlot
	}
	if n := len(col.upper); n > 0 {
		last = col.upper[n-1].slot
	}
	sum := 0.0
	for _, h := range slots[:last+1] {
		sum += h
	}
	return sum
}

// height returns the least distance of the rails.
func (col *column) height(slots []float64) float64 {
	h := railAir + col.below(slots) + col.lowerHeight() + railAir
	if col.middle != nil {
		_, _, block := col.middle.extent()
		h += block
	}
	return h
}

func (col *column) lowerHeight() float64 {
	h := 0.0
	for _, p := range col.lower {
		h += p.room()
	}
	return h
}

// draw draws a column from the plus rail at top to the minus rail at bottom.
func (col *column) draw(c *canvas, x, top, bottom float64, slots []float64) {
	col.drawAmps(c, x, top+railAir)
	y := top // where the wire drawn so far ends
	at := top + railAir
	slot := 0
	for _, p := range col.upper {
		for ; slot < p.slot; slot++ {
			at += slots[slot]
		}
		y = p.stand(c, x, y, at, slots[slot])
	}
	if col.middle != nil {
		from := top + railAir + col.below(slots)
		c.wire(x, y, x, from)
		y = col.middle.draw(c, x, from)
	}
	at = bottom - railAir - col.lowerHeight()
	if col.open { // nothing joins the two ends
		if len(col.lower) == 0 {
			return
		}
		y = col.lower[0].start(at, col.lower[0].room())
	}
	for _, p := range col.lower {
		y = p.stand(c, x, y, at, p.room())
		at += p.room()
	}
	c.wire(x, y, x, bottom)
}

// stand puts a piece in the middle of a slot, wires it to what ends at y above
// it and returns where it ends.
func (p piece) stand(c *canvas, x, y, slotTop, slotHeight float64) float64 {
	length := p.shape().length
	at := p.start(slotTop, slotHeight)
	c.wire(x, y, x, at)
	c.put(p, x, at, false)
	p.label.draw(c, svg.Point{X: x + p.wordsFrom(), Y: at - p.lift()})
	return at + length
}

// start is where a piece begins that stands, with its words, in the middle of a slot.
func (p piece) start(slotTop, slotHeight float64) float64 {
	if p.lift() < mostLift {
		return slotTop + roundHalf((slotHeight-p.shape().length)/2)
	}
	return slotTop + roundHalf((slotHeight-p.label.height())/2+mostLift)
}

// mostLift keeps a reference beside its symbol where many words follow it.
const mostLift = 2 * lineStep

// lift is how far above a symbol's upper end its words begin: they stand beside
// its middle.
func (p piece) lift() float64 { return min((p.label.height()-p.shape().length)/2, mostLift) }

// drawAmps draws the current with an arrow along the wire.
func (col *column) drawAmps(c *canvas, x, top float64) {
	if len(col.amps) == 0 {
		return
	}
	c.arrows = append(c.arrows, segment{svg.Point{X: x + 8, Y: top + 2}, svg.Point{X: x + 8, Y: top + 17}})
	col.amps.draw(c, svg.Point{X: x + 17, Y: top + 3})
}

// roundHalf keeps lines on the pixel grid.
func roundHalf(v float64) float64 { return float64(int(v*2+0.5)) / 2 }
