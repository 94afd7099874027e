package wiring

import (
	"slices"

	"spruelight/gen/circuit"
	"spruelight/gen/source"
	"spruelight/gen/svg"
)

// continued opens a row with the flags of the one above.
type continued struct{ from *join }

func (o *continued) width() float64  { return flagLength }
func (o *continued) head() float64   { return flagHeight }
func (o *continued) height() float64 { return 2 * flagHeight }
func (o *continued) foot() float64   { return flagHeight / 2 }

func (o *continued) draw(c *canvas, x, top, bottom float64) (plusFrom, minusFrom float64) {
	c.put(piece{kind: flagKind, join: o.from, ref: "+"}, x, top, true)
	c.put(piece{kind: flagKind, join: o.from, ref: "-"}, x, bottom, true)
	return x + flagLength, x + flagLength
}

// arrival opens the first row of a junction whose wires come from elsewhere.
type arrival struct {
	continued
	points junctionPoints
	name   label
}

func (l *layout) arrival(k int, from *join) opening {
	return &arrival{continued{from}, l.points[k], (&writer{width: 80}).title(l.s.Junctions[k].Name, 3).lines}
}

func (o *arrival) width() float64 {
	return flagLength + 10 + max(20, o.name.width()-headLeft+columnGap)
}

func (o *arrival) head() float64 { return max(flagHeight, o.name.height()) }

func (o *arrival) draw(c *canvas, x, top, bottom float64) (plusFrom, minusFrom float64) {
	plusFrom, minusFrom = o.continued.draw(c, x, top, bottom)
	at := x + flagLength + 10
	o.name.draw(c, svg.Point{X: at, Y: top - 10 - o.name.height()})
	return lay(c, o.points.plus, plusFrom, at, top), lay(c, o.points.minus, minusFrom, at, bottom)
}

// lay puts a test point into a rail at x, if there is one, and returns where
// the rail goes on.
func lay(c *canvas, number int, from, x, y float64) float64 {
	p, ok := point(number)
	if !ok {
		return from
	}
	c.wire(from, y, x, y)
	c.put(p, x, y, true)
	return x + p.shape().length
}

// source is the supply with fuse and switch above it, and the first feed in
// the rails.
type supplyOpening struct {
	pieces      []piece // from the plus rail down; the supply last but for a connector's contact
	plus, minus *piece  // the feed's wires; nil: none
	points      junctionPoints
	name        label
	wide        float64 // of the words beside the pieces
	feed        label   // above the feed's plus wire
}

func (l *layout) supply() opening {
	s := l.s
	o := &supplyOpening{points: l.points[0]}
	numbers := s.Points
	take := func() {
		if len(numbers) > 0 {
			p, _ := point(numbers[0].Number)
			o.pieces = append([]piece{p}, o.pieces...)
			numbers = numbers[1:]
		}
	}
	add := func(p piece) {
		o.pieces = append([]piece{p}, o.pieces...)
		take()
	}
	add(l.source())
	if f := s.Fuse; f != nil {
		add(piece{kind: fuseKind, ref: f.Ref, label: l.label().ref(f.Ref).say(l.say(fuseText(s)), 3).lines})
	}
	if w := s.Switch; w != nil {
		add(piece{kind: switchKind, ref: w.Ref, label: l.label().ref(w.Ref).say(w.Text, 3).lines})
	}
	if out, back := l.plugPieces(s.Feed); out != nil {
		o.pieces = append(append([]piece{*out}, o.pieces...), *back)
	}
	o.plus, o.minus = l.wirePieces("W1", s.Feed)
	if e := s.Circuit.Entry.V; e != "" {
		o.feed = l.label().soft(l.say(source.Say("through %s", e)), 4).lines
	}
	if o.plus != nil { // the words stand above the wire: the reference nearest to it
		slices.Reverse(o.plus.label)
		o.feed = append(o.feed, o.plus.label...)
	}
	o.name = (&writer{width: 80}).title(s.Junctions[0].Name, 3).lines
	for _, p := range o.pieces {
		o.wide = max(o.wide, p.wordsFrom()+p.label.width())
	}
	return o
}

// source returns the supply's symbol and words.
func (l *layout) source() piece {
	s := l.s
	p := piece{kind: sourceKind, ref: s.Supply.Ref}
	in := s.Circuit.Supply
	if in.Kind.V == string(circuit.Battery) || in.Cells.V.Type != "" {
		p.kind = batteryKind
	}
	w := l.label().ref(p.ref).say(s.Supply.Name, 2).say(l.say(voltsText(s.Supply.Open.Nominal)), 1)
	if s.Cells != nil && !s.Cells.Cells.Empty() {
		w.soft(l.say(s.Cells.Cells), 2)
	} else {
		w.soft(l.word(in.Kind.V), 1)
	}
	p.label = w.lines
	return p
}

// supplyAxis is how far right of the drawing's edge the supply stands.
const supplyAxis = 24.0

// feedAt is how far right of the supply's axis the feed's wire begins.
const feedAt = 16.0

// pointAt is how far right of the supply's axis the junction's test point lies.
func (o *supplyOpening) pointAt() float64 {
	at := feedAt + 10
	if o.plus != nil {
		at += shapes[wireKind].length
	}
	if w := o.feed.width(); w > 0 {
		at = max(at, feedAt+w+columnGap+headLeft)
	}
	if o.minus != nil {
		at = max(at, feedAt+o.minus.label.width()+columnGap)
	}
	return roundHalf(at)
}

func (o *supplyOpening) width() float64 {
	return supplyAxis + max(o.wide+columnGap, o.pointAt()+20, o.pointAt()+o.name.width()+columnGap-headLeft)
}

func (o *supplyOpening) head() float64 {
	return max(o.feed.height(), o.name.height()+5)
}

func (o *supplyOpening) foot() float64 {
	if o.minus == nil {
		return 10
	}
	return o.minus.label.height() + headAir
}

func (o *supplyOpening) height() float64 {
	h := 2 * railAir
	for _, p := range o.pieces {
		h += p.room()
	}
	return roundHalf(h) + 10
}

func (o *supplyOpening) draw(c *canvas, x, top, bottom float64) (plusFrom, minusFrom float64) {
	axis := x + supplyAxis
	y, at := top, top+railAir
	for _, p := range o.pieces {
		y = p.stand(c, axis, y, at, p.room())
		at += p.room()
	}
	c.wire(axis, y, axis, bottom)
	from := [2]float64{axis, axis}
	for i, p := range []*piece{o.plus, o.minus} {
		rail := []float64{top, bottom}[i]
		if p != nil {
			c.wire(axis, rail, axis+feedAt, rail)
			c.put(*p, axis+feedAt, rail, true)
			from[i] = axis + feedAt + shapes[wireKind].length
		}
	}
	words := o.feed
	words.draw(c, svg.Point{X: axis + feedAt, Y: top - headAir - words.height()})
	if o.minus != nil {
		o.minus.label.draw(c, svg.Point{X: axis + feedAt, Y: bottom + headAir})
	}
	point := axis + o.pointAt()
	o.name.draw(c, svg.Point{X: point, Y: top - 10 - o.name.height()})
	return lay(c, o.points.plus, from[0], point, top), lay(c, o.points.minus, from[1], point, bottom)
}
