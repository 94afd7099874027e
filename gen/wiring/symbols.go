package wiring

import (
	"strings"

	"spruelight/gen/svg"
)

// kind is a kind of symbol.
type kind string

const (
	wireKind     kind = "wire" // a length of insulated wire
	resistorKind kind = "resistor"
	driverKind   kind = "driver"
	lampKind     kind = "lamp"
	fuseKind     kind = "fuse"
	switchKind   kind = "switch"
	plugKind     kind = "connector" // one contact: the socket on the supply's side, its pin beyond
	batteryKind  kind = "battery"
	sourceKind   kind = "source"     // any supply that is no battery
	pointKind    kind = "test-point" // numbered as on the meter card
	flagKind     kind = "continues"  // joined to the flag of the same letters
	endKind      kind = "end"        // a wire that leads nowhere yet
)

// piece is a symbol with its words. Its first pin is the upper or left one, its
// last lies length further on.
type piece struct {
	kind  kind
	ref   string // D1, L3+; the number of a test point, the letters of a flag
	fill  svg.Role
	label label
	join  *join // of a flag: the interruption it belongs to
}

// shape is the size of a symbol about its axis, drawn from top to bottom.
type shape struct{ length, left, right float64 }

var shapes = map[kind]shape{
	wireKind:     {30, 3.5, 3.5},
	resistorKind: {30, 6.5, 6.5},
	driverKind:   {32, 16, 16},
	lampKind:     {17, 27, 10},
	fuseKind:     {30, 6.5, 6.5},
	switchKind:   {26, 13, 3},
	plugKind:     {22, 6.5, 6.5},
	batteryKind:  {18, 14, 14},
	sourceKind:   {44, 22, 22},
	flagKind:     {22, flagLength / 2, flagLength / 2},
	endKind:      {5, 2.5, 2.5},
}

// A flag that lies flat is this long and high, in units.
const flagLength, flagHeight = 30.0, 16.0

// pointRadius is the radius of a test point with a number of so many digits.
func pointRadius(digits int) float64 {
	if digits < 3 {
		return 8
	}
	return 8 + 3*float64(digits-2)
}

func (p piece) shape() shape {
	if p.kind == pointKind {
		r := pointRadius(len(p.ref))
		return shape{2 * r, r, r}
	}
	return shapes[p.kind]
}

// wordsFrom is how far right of its axis a symbol's words begin.
func (p piece) wordsFrom() float64 { return max(17, p.shape().right+7) }

// room is the height that a piece takes in a column, words and air included.
func (p piece) room() float64 {
	air := 12.0
	if p.kind == pointKind || p.kind == endKind {
		air = 8
	}
	return max(p.shape().length+air, p.label.height()+8)
}

// box returns the box of a part's symbol.
func (p part) box() svg.Box {
	s := p.piece.shape()
	if p.flat && p.kind == flagKind {
		s = shape{flagLength, flagHeight / 2, flagHeight / 2}
	}
	if p.flat {
		return svg.Box{X: p.at.X, Y: p.at.Y - s.left, W: s.length, H: s.left + s.right}
	}
	return svg.Box{X: p.at.X - s.left, Y: p.at.Y, W: s.left + s.right, H: s.length}
}

// draw draws a symbol in a group of its own, named by its reference.
func (p part) draw(d *svg.Drawing) {
	data := map[string]string{"part": string(p.kind)}
	id := p.ref
	switch p.kind {
	case pointKind:
		id, data["point"] = "TP"+p.ref, p.ref
	case flagKind, endKind:
		id = ""
	default:
		data["ref"] = p.ref
	}
	switch {
	case len(id) > 0 && id[len(id)-1] == '+':
		id = id[:len(id)-1] + "-plus"
	case len(id) > 0 && id[len(id)-1] == '-':
		id += "minus"
	}
	d.Mark(svg.KindSymbol, p.ref, p.box())
	d.Group(svg.Attrs{ID: id, Data: data}, func() { p.symbol(d) })
}

// symbol draws the shape alone.
func (p part) symbol(d *svg.Drawing) {
	b, x, y := p.box(), p.at.X, p.at.Y
	switch p.kind {
	case wireKind:
		paint := bodyPaint
		paint.Fill = p.fill
		d.Rect(b, 3.5, paint)
	case resistorKind:
		d.Rect(b, 0, bodyPaint)
	case fuseKind:
		d.Rect(b, 0, bodyPaint)
		d.Line(b.N(), b.S(), linePaint)
	case driverKind:
		d.Rect(b, 0, bodyPaint)
		d.Circle(b.Centre(), 8, linePaint)
		d.Line(b.Centre().Add(-8, 0), b.Centre().Add(8, 0), linePaint)
	case lampKind:
		p.lamp(d, x, y)
	case switchKind:
		p.contact(d, x, y)
	case plugKind:
		p.plug(d, b)
	case batteryKind:
		drawBattery(d, x, y)
	case sourceKind:
		drawSource(d, b)
	case pointKind:
		d.Circle(b.Centre(), b.W/2, bodyPaint)
		d.Text(b.Centre(), p.ref, svg.TextStyle{Size: 9.5, Anchor: svg.Middle, VAlign: svg.Centre})
	case flagKind:
		p.flag(d, b)
	case endKind:
		d.Circle(b.Centre(), b.W/2, bodyPaint)
	}
}

// lamp draws a light emitting diode: triangle from anode to the bar of the
// cathode, two arrows away from it.
func (p part) lamp(d *svg.Drawing, x, y float64) {
	paint := bodyPaint
	paint.Fill = p.fill
	h := shapes[lampKind].length
	d.Polygon([]svg.Point{{X: x - 9.5, Y: y}, {X: x + 9.5, Y: y}, {X: x, Y: y + h}}, paint)
	d.Line(svg.Point{X: x - 9.5, Y: y + h}, svg.Point{X: x + 9.5, Y: y + h}, svg.Style{Stroke: svg.Ink, Width: 1.8})
	for _, from := range []svg.Point{{X: x - 12, Y: y + 6}, {X: x - 9.5, Y: y + 13}} {
		d.Arrow(from, from.Add(-13, -7), 5.5, svg.Style{Stroke: svg.Ink, Width: fineWidth})
	}
}

// contact draws a make contact, open as is the custom: the blade is hinged
// below and stands off to the left.
func (p part) contact(d *svg.Drawing, x, y float64) {
	h := shapes[switchKind].length
	d.Line(svg.Point{X: x, Y: y}, svg.Point{X: x, Y: y + 4}, linePaint)
	d.Line(svg.Point{X: x, Y: y + h}, svg.Point{X: x, Y: y + h - 4}, linePaint)
	d.Line(svg.Point{X: x, Y: y + h - 4}, svg.Point{X: x - 11, Y: y + 5}, svg.Style{Stroke: svg.Ink, Width: wireWidth})
	d.Circle(svg.Point{X: x, Y: y + 4}, 2, bodyPaint)
	d.Circle(svg.Point{X: x, Y: y + h - 4}, 2, bodyPaint)
}

// plug draws a contact of a connector: the cup of the socket over the bar of
// the pin. The socket belongs to the supply's side, above in the plus wire and
// below in the minus wire.
func (p part) plug(d *svg.Drawing, b svg.Box) {
	x, top, way := b.Centre().X, b.Y, 1.0
	if strings.HasSuffix(p.ref, "-") {
		top, way = b.Bottom(), -1
	}
	at := func(dx, dy float64) svg.Point { return svg.Point{X: x + dx, Y: top + way*dy} }
	d.Line(at(0, 0), at(0, 4), linePaint)
	var cup svg.Path
	const r, k = 6.0, 6 * 0.5523 // a quarter of a circle as a cubic curve
	from, crown, to := at(-r, 4+r), at(0, 4), at(r, 4+r)
	cup.MoveTo(from.X, from.Y)
	cup.CurveTo(from.X, from.Y-way*k, crown.X-k, crown.Y, crown.X, crown.Y)
	cup.CurveTo(crown.X+k, crown.Y, to.X, to.Y-way*k, to.X, to.Y)
	d.Path(cup, linePaint)
	d.Line(at(0, 7.5), at(0, 17), svg.Style{Stroke: svg.Ink, Width: 3})
	d.Line(at(0, 17), at(0, 22), linePaint)
}

// drawBattery draws two cells: long thin plates plus, short thick plates minus.
func drawBattery(d *svg.Drawing, x, y float64) {
	long, short := svg.Style{Stroke: svg.Ink, Width: bodyWidth}, svg.Style{Stroke: svg.Ink, Width: 3}
	for _, at := range []float64{y, y + 12} {
		d.Line(svg.Point{X: x - 11, Y: at}, svg.Point{X: x + 11, Y: at}, long)
		d.Line(svg.Point{X: x - 5.5, Y: at + 6}, svg.Point{X: x + 5.5, Y: at + 6}, short)
	}
	d.Line(svg.Point{X: x, Y: y + 6}, svg.Point{X: x, Y: y + 12}, svg.Style{Stroke: svg.Ink, Width: bodyWidth, Dash: svg.Dotted})
	plusSign(d, svg.Point{X: x - 11, Y: y - 6})
}

// drawSource draws a supply of direct current as a box with its poles marked.
func drawSource(d *svg.Drawing, b svg.Box) {
	d.Rect(b, 0, bodyPaint)
	plusSign(d, b.N().Add(0, 8))
	m := b.S().Add(0, -8)
	d.Line(m.Add(-3.5, 0), m.Add(3.5, 0), linePaint)
	m = b.Centre()
	d.Line(m.Add(-8, -2), m.Add(8, -2), linePaint)
	d.Line(m.Add(-8, 3), m.Add(8, 3), svg.Style{Stroke: svg.Ink, Width: bodyWidth, Dash: svg.Dashed})
}

func plusSign(d *svg.Drawing, m svg.Point) {
	d.Line(m.Add(-3.5, 0), m.Add(3.5, 0), linePaint)
	d.Line(m.Add(0, -3.5), m.Add(0, 3.5), linePaint)
}

// flag draws where a wire continues: a pennant with letters.
func (p part) flag(d *svg.Drawing, b svg.Box) {
	var outline []svg.Point
	if p.flat {
		outline = []svg.Point{b.NW(), {X: b.Right() - 6, Y: b.Y}, b.E(), {X: b.Right() - 6, Y: b.Bottom()}, b.SW()}
	} else {
		outline = []svg.Point{b.NW(), b.NE(), {X: b.Right(), Y: b.Bottom() - 6}, b.S(), {X: b.X, Y: b.Bottom() - 6}}
	}
	d.Polygon(outline, bodyPaint)
	d.Text(b.Centre(), p.join.letters+minusSign(p.ref), svg.TextStyle{Size: 9.5, Font: svg.Bold, Anchor: svg.Middle, VAlign: svg.Centre})
}
