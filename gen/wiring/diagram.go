package wiring

import (
	"spruelight/gen/circuit"
	"spruelight/gen/source"
	"spruelight/gen/svg"
)

// The widths, in units, that a diagram is usually laid out for.
const (
	Wide   = 720.0 // a sheet of A4 upright, a desktop page
	Narrow = 350.0 // a phone held upright
)

// Diagram draws the circuit diagram of a solved circuit for a sheet of paper or
// a wide page. The id prefixes the ids within. A circuit that has no operating
// point has no diagram: nil.
func Diagram(id string, s circuit.Solution, print svg.Printer) *svg.Drawing {
	return DiagramFor(id, s, Wide, print)
}

// DiagramFor is Diagram laid out for a width in units; a column that is wider
// by itself makes the drawing wider.
func DiagramFor(id string, s circuit.Solution, width float64, print svg.Printer) *svg.Drawing {
	if !s.Solved || len(s.Junctions) == 0 {
		return nil
	}
	s = named(s, print)
	margin := 8.0
	l := newLayout(&s, max(width, 240)-2*margin, print)
	l.arrange()
	d := svg.New(id, print.Print(source.Say("Circuit diagram: %s", s.Name)), print.Print(describe(&s)))
	d.Margin = margin
	d.Class = "circuit"
	c := &canvas{d: d}
	y := 0.0
	for _, b := range l.rows {
		top := y + b.head + headAir
		bottom := top + roundHalf(b.height)
		l.drawBand(c, b, top, bottom)
		y = bottom + b.start.foot() + rowGap
	}
	c.note(y-rowGap+12, l.width, l.remark(c))
	c.finish()
	return d
}

// remark says what the signs mean that no text of electronics has.
func (l *layout) remark(c *canvas) string {
	text := []source.Message{source.Word("Numbers in circles: test points of the meter card, red probe there, black on supply minus.")}
	if c.joins > 0 {
		text = append(text, source.Word("Flags of equal letters are joined."))
	}
	if l.wired {
		text = append(text, source.Word("Coloured bars: lengths of wire, as in the cut list."))
	}
	return l.say(source.Text(text...))
}

// rowGap is the room between two rows.
const rowGap = 26.0

func (l *layout) drawBand(c *canvas, b *band, top, bottom float64) {
	plusFrom, minusFrom := b.start.draw(c, 0, top, bottom)
	x, on := roundHalf(b.start.width())+0.5, 0.0
	if b.to != nil {
		on = max(roundHalf(l.width)-flagLength, roundHalf(x+b.row.width+columnGap))
	}
	b.row.draw(c, x, top, bottom, plusFrom, minusFrom, on)
	if b.to != nil {
		c.put(piece{kind: flagKind, join: b.to, ref: "+"}, on, top, true)
		c.put(piece{kind: flagKind, join: b.to, ref: "-"}, on, bottom, true)
	}
}

// describe says what the diagram shows, for those who cannot see it.
func describe(s *circuit.Solution) source.Message {
	lamps := 0
	for _, b := range s.Branches {
		lamps += len(b.Lamps)
	}
	return source.Text(
		source.Say("Supply %s of %s at the left, plus above, minus below, %s in all.",
			s.Supply.Ref, voltsText(s.Supply.Open.Nominal), ampsText(s.Total.Current.Nominal)),
		source.Say("Junctions: %d.", len(s.Junctions)), source.Say("Branches: %d.", len(s.Branches)), source.Say("Lamps: %d.", lamps),
		source.Word("The table names every part with what it joins."))
}
