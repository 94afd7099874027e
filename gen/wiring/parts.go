package wiring

import (
	"slices"
	"strconv"

	"spruelight/gen/circuit"
	"spruelight/gen/quantity"
	"spruelight/gen/source"
	"spruelight/gen/svg"
)

// label starts a label of the usual width.
func (l *layout) label() *writer { return &writer{width: l.words} }

// say prints a message in the language of the drawing, word a term.
func (l *layout) say(m source.Message) string { return l.print.Print(m) }
func (l *layout) word(term string) string     { return l.say(source.Word(term)) }

// wirePieces returns the two wires of a pair, nil where none is reckoned with.
func (l *layout) wirePieces(ref string, r circuit.RunResult) (plus, minus *piece) {
	if !(r.Ohms > 0) {
		return nil, nil
	}
	l.wired = true
	there, back := pairColours(r.Run.Colour.V)
	make := func(sign, colour string) *piece {
		p := &piece{kind: wireKind, ref: ref + sign, fill: shade(colour)}
		w := l.label().ref(ref + minusSign(sign))
		w.say(l.say(lengthText(r.Run.Length.V)), 1)
		p.label = w.soft(l.say(wireText(r.Run, source.Word(colour))), 2).lines
		return p
	}
	return make("+", there), make("-", back)
}

// plugPieces returns the two contacts of a run's connector, nil where it has none.
func (l *layout) plugPieces(r circuit.RunResult) (plus, minus *piece) {
	if r.Plug == "" {
		return nil, nil
	}
	c := r.Run.Connector
	there := l.label().ref(r.Plug+"+").say(c.Kind.V, 2).soft(c.Place.V, 2).lines
	back := l.label().ref(r.Plug + "−").lines
	return &piece{kind: plugKind, ref: r.Plug + "+", label: there}, &piece{kind: plugKind, ref: r.Plug + "-", label: back}
}

// run begins and ends a column with a pair of wires and the connector in it.
func (l *layout) run(col *column, ref string, r circuit.RunResult) {
	out, back := l.plugPieces(r)
	if out != nil {
		col.upper = append(col.upper, slotted{plugSlot, *out})
		col.lower = append(col.lower, *back)
	}
	plus, minus := l.wirePieces(ref, r)
	if plus != nil {
		col.upper = append(col.upper, slotted{wireSlot, *plus})
		col.lower = append([]piece{*minus}, col.lower...)
	}
}

// point returns a test point, or nothing for number zero.
func point(number int) (piece, bool) {
	return piece{kind: pointKind, ref: strconv.Itoa(number)}, number > 0
}

// branch makes a branch's column.
func (l *layout) branch(i int) *column {
	b := &l.s.Branches[i]
	col := &column{}
	col.head = l.label().title(b.Name, 2).lines
	amps := l.label().say(l.say(ampsText(b.Current.Nominal)), 1)
	col.amps = amps.soft(l.say(b.Control.Says()), 2).lines
	l.run(col, wireRef("L", i), b.Lead)
	if p, ok := l.limiter(b); ok {
		col.upper = append(col.upper, slotted{limiterSlot, p})
	}
	points := b.Points
	take := func(slot int) {
		if len(points) > 0 {
			p, _ := point(points[0])
			col.upper = append(col.upper, slotted{slot, p})
			points = points[1:]
		}
	}
	if b.Kind != circuit.None {
		take(firstPointSlot)
	}
	if b.Parallel {
		col.middle = l.beside(b)
		return col
	}
	for k := range b.Lamps {
		if k > 0 {
			take(firstPointSlot + 2*k)
		}
		col.upper = append(col.upper, slotted{firstLampSlot + 2*k, l.lamp(&b.Lamps[k])})
	}
	return col
}

// beside arranges the lamps of a branch side by side.
func (l *layout) beside(b *circuit.BranchResult) *group {
	var lamps []piece
	for k := range b.Lamps {
		lamps = append(lamps, l.lamp(&b.Lamps[k]))
	}
	return newGroup(lamps, l.width*0.6)
}

// limiter returns what limits a branch's current.
func (l *layout) limiter(b *circuit.BranchResult) (piece, bool) {
	w := l.label().ref(b.Ref)
	switch b.Kind {
	case circuit.Auto, circuit.Fixed:
		w.say(l.say(ohmsText(b.Resistor.Ohms)), 1)
		return piece{kind: resistorKind, ref: b.Ref, label: w.soft(l.say(ratingText(b.Resistor.Rating)), 1).lines}, true
	case circuit.ConstantCurrent:
		w.say(l.say(ampsText(b.Resistor.Set)), 1)
		return piece{kind: driverKind, ref: b.Ref, label: w.soft(l.word("constant current"), 2).lines}, true
	}
	return piece{}, false
}

// lamp returns a lamp with its model, its place and the fibres it feeds.
func (l *layout) lamp(lamp *circuit.LampResult) piece {
	w := l.label().ref(lamp.Ref)
	w.say(lampName(lamp, l.print), 2).soft(lamp.Place, 3)
	for _, f := range lamp.Fibres {
		w.soft(l.say(fibreText(f)), 4)
	}
	return piece{kind: lampKind, ref: lamp.Ref, fill: shade(lamp.Colour), label: w.lines}
}

// lampName is what is printed for a lamp: its model, else its colour.
func lampName(lamp *circuit.LampResult, print svg.Printer) string {
	return print.Print(lampModel(lamp))
}

func lampModel(lamp *circuit.LampResult) source.Message {
	if lamp.Model != "" {
		return as(lamp.Model)
	}
	return source.Word(lamp.Colour)
}

// fibreText describes a bundle: strands, diameter, length, and where the ends
// come out. Values keep their units on the same line.
func fibreText(f circuit.FibreResult) source.Message {
	size := quantity.Tied(quantity.About(f.Size))
	strands := source.Say("%d\u00a0×\u00a0%s", f.Count, size)
	if f.Count <= 0 {
		strands = one(size)
	}
	length := quantity.Tied(quantity.About(f.Length))
	switch {
	case f.Length > 0 && f.Place != "":
		return source.Say("%s fibre, %s to %s", strands, length, f.Place)
	case f.Length > 0:
		return source.Say("%s fibre, %s", strands, length)
	case f.Place != "":
		return source.Say("%s fibre to %s", strands, f.Place)
	}
	return source.Say("%s fibre", strands)
}

// feedColumn makes a further junction's column down to its test point.
func (l *layout) feedColumn(k int) *column {
	j := &l.s.Junctions[k]
	col := &column{head: l.label().title(j.Name, 2).soft(l.word("junction"), 1).lines}
	col.amps = l.label().say(l.say(ampsText(j.Current)), 1).lines
	l.run(col, wireRef("W", k), j.Feed)
	if p, ok := point(l.points[k].plus); ok {
		col.upper = append(col.upper, slotted{limiterSlot, p})
	}
	if p, ok := point(l.points[k].minus); ok {
		col.lower = append([]piece{p}, col.lower...)
	}
	return col
}

// end marks both wires of a junction with nothing on it.
func (col *column) end() {
	last := wireSlot
	if n := len(col.upper); n > 0 {
		last = col.upper[n-1].slot
	}
	col.upper = append(col.upper, slotted{last + 1, piece{kind: endKind}})
	if len(col.lower) > 0 {
		col.lower = append([]piece{{kind: endKind}}, col.lower...)
	}
}

// jump makes the column of a junction whose ladder stands in rows of its own.
func (l *layout) jump(k int, to *join) *column {
	j := &l.s.Junctions[k]
	col := &column{head: l.label().title(j.Name, 2).soft(l.word("junction"), 1).lines, open: true}
	col.amps = l.label().say(l.say(ampsText(j.Current)), 1).lines
	l.run(col, wireRef("W", k), j.Feed)
	col.upper = append(col.upper, slotted{limiterSlot, piece{kind: flagKind, join: to, ref: "+"}})
	col.lower = append([]piece{{kind: flagKind, join: to, ref: "-"}}, col.lower...)
	return col
}

// named prints the name that a first junction has where nobody gave it one.
func named(s circuit.Solution, print svg.Printer) circuit.Solution {
	if !s.Circuit.Junction.Set && len(s.Junctions) > 0 {
		s.Junctions = slices.Clone(s.Junctions)
		s.Junctions[0].Name = print.Print(s.JunctionName(0))
	}
	return s
}
