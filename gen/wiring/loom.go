package wiring

import (
	"fmt"
	"slices"
	"strings"

	"spruelight/gen/circuit"
	"spruelight/gen/source"
	"spruelight/gen/svg"
)

// Loom draws the physical run of the wires of circuits: from the base through
// the entry and the junctions to every lamp, with lengths along the limbs. It
// is not to scale. A width of zero means Wide. Circuits that are not solved are
// left out; without any there is no drawing: nil.
func Loom(id string, all []circuit.Solution, width float64, print svg.Printer) *svg.Drawing {
	if width <= 0 {
		width = Wide
	}
	var names []string
	for i := range all {
		if all[i].Solved {
			names = append(names, all[i].Name)
		}
	}
	if len(names) == 0 {
		return nil
	}
	all = slices.Clone(all)
	for i := range all {
		all[i] = named(all[i], print)
	}
	const margin = 8.0
	d := svg.New(id, print.Print(source.Say("Loom: %s", source.Row(names))), print.Print(describeLoom(all)))
	d.Margin, d.Class = margin, "loom"
	l := &loom{c: &canvas{d: d}, print: print, width: max(width, 240) - 2*margin, letters: lampLetters(all, print)}
	l.limb = min(124, max(92, l.width/5))
	for i := range all {
		if all[i].Solved {
			l.circuit(&all[i], len(names) > 1)
		}
	}
	l.key()
	l.c.finish()
	return d
}

// describeLoom says what the loom shows, for those who cannot see it.
func describeLoom(all []circuit.Solution) source.Message {
	junctions, lamps := 0, 0
	for i := range all {
		junctions += len(all[i].Junctions)
		for _, b := range all[i].Branches {
			lamps += len(b.Lamps)
		}
	}
	return source.Text(
		source.Word("The wires as they lie in the model, from the base at the left to every lamp, with their lengths."),
		source.Say("Junctions: %d.", junctions), source.Say("Lamps: %d.", lamps), source.Word("The cut list names every piece."))
}

// loom draws limbs from top to bottom.
type loom struct {
	c       *canvas
	print   svg.Printer
	width   float64
	limb    float64 // length of a limb with its words
	y       float64 // where free paper begins
	above   float64 // room for the words above a limb
	letters []letter
}

// Sizes of the loom, in units.
const (
	stripWidth = 10.0 // of a junction
	lampRadius = 12.0
	lampInner  = 8.5  // of the disc that bears the letters
	lampStep   = 28.0 // least distance of the lamps of a branch
	insulation = 5.0  // thickness of a wire
)

// circuit draws the loom of one circuit.
func (l *loom) circuit(s *circuit.Solution, titled bool) {
	t := &tree{loom: l, s: s, plan: newLayout(s, l.width, l.print)}
	l.above = t.wordsAbove()
	if titled && s.Name != "" {
		name := (&writer{width: l.width}).title(s.Name, 2).lines
		name.draw(l.c, svg.Point{Y: l.y})
		l.y += name.height() + 6
	}
	t.base()
	for len(t.apart) > 0 {
		k := t.apart[0]
		t.apart = t.apart[1:]
		name := (&writer{width: l.width}).title(s.Junctions[k].Name, 2).lines
		name.draw(l.c, svg.Point{Y: l.y})
		l.y = t.junction(k, 0, l.y+name.height()+t.above) + 22
	}
	l.y += 12
}

// tree draws the run of one circuit.
type tree struct {
	*loom
	s     *circuit.Solution
	plan  *layout // for the order in which things hang on a junction
	apart []int   // junctions that begin anew at the left
}

// wordsAbove returns the height that the words above the limbs take.
func (t *tree) wordsAbove() float64 {
	h := lineStep
	for k, j := range t.s.Junctions {
		h = max(h, t.run(wireRef("W", k), j.Feed).height())
	}
	for i, b := range t.s.Branches {
		h = max(h, t.run(wireRef("L", i), b.Lead).height())
	}
	return h + insulation + 9
}

// base draws the box with supply, fuse and switch, and the feed.
func (t *tree) base() {
	s := t.s
	w := &writer{width: min(t.limb+20, 130)}
	w.soft(t.plan.word("the base"), 1).ref(s.Supply.Ref).say(s.Supply.Name, 2)
	if s.Fuse != nil {
		w.ref(s.Fuse.Ref).say(t.plan.say(fuseText(s)), 3)
	}
	if s.Switch != nil {
		w.ref(s.Switch.Ref).say(s.Switch.Text, 3)
	}
	box := svg.Box{Y: t.y, W: roundHalf(w.lines.width()) + 18, H: w.lines.height() + 12}
	y := t.y + t.above
	box.H = max(box.H, y+insulation+8-box.Y) // down to where the wires leave it
	t.c.d.Rect(box, 3, bodyPaint)
	t.c.d.Mark(svg.KindSymbol, "base", box)
	w.lines.draw(t.c, svg.Point{X: 9, Y: box.Y + 6})
	words := t.run("W1", s.Feed)
	x := t.limbTo(box.Right(), y, max(t.limb, words.width()+24), words, s.Feed)
	below := (&writer{width: x - box.Right() - 10}).title(s.Junctions[0].Name, 3)
	if s.Circuit.Entry.V != "" {
		t.wall(x-10, y)
		below.soft(t.plan.say(source.Say("through %s", s.Circuit.Entry.V)), 4)
	}
	below.lines.draw(t.c, svg.Point{X: box.Right() + 8, Y: y + 15})
	low := max(box.Bottom(), y+15+below.lines.height())
	if t.fits(x) {
		t.y = max(low, t.junction(0, x, y)) + 22
		return
	}
	t.stop(0, x, y)
	t.apart = append([]int{0}, t.apart...)
	t.y = max(low, y+20) + 22
}

// wall draws where the wires enter the model.
func (t *tree) wall(x, y float64) {
	for _, dx := range []float64{-2.5, 2.5} {
		t.c.d.Line(svg.Point{X: x + dx, Y: y - 13}, svg.Point{X: x + dx, Y: y + 13}, linePaint)
	}
	for _, top := range []float64{y - 13, y + insulation + 2} { // the wires run through between
		t.c.d.Mark(svg.KindSymbol, "entry", svg.Box{X: x - 3, Y: top, W: 6, H: 6})
	}
}

// fits reports whether limbs with their lamps fit beside x.
func (t *tree) fits(x float64) bool {
	need := stripWidth + t.limb + 2*lampRadius + 8 + 90
	return x+need <= t.width
}

// stop draws the end of a feed whose junction is drawn below.
func (t *tree) stop(k int, x, y float64) {
	b := svg.Box{X: x, Y: y - 9, W: stripWidth, H: 18}
	t.c.d.Rect(b, 2, bodyPaint)
	t.c.d.Mark(svg.KindSymbol, t.s.Junctions[k].Name, b)
}

// run sets the words above a limb.
func (t *tree) run(ref string, result circuit.RunResult) label {
	r, w := result.Run, &writer{width: t.limb - 14}
	if result.Plug != "" {
		w.ref(result.Plug).say(r.Connector.Kind.V, 3).soft(r.Connector.Place.V, 2)
	}
	w.ref(ref)
	if !r.Length.Set && sizeText(r).Empty() {
		return w.soft(t.plan.word("not written"), 1).lines
	}
	if r.Length.Set {
		w.say(t.plan.say(lengthText(r.Length.V)), 1)
	}
	return w.soft(t.plan.say(wireText(r, colourText(r.Colour.V))), 3).lines
}

// limbTo draws a pair of wires to the right with their words above and
// returns where they end.
func (t *tree) limbTo(x, y, length float64, words label, r circuit.RunResult) float64 {
	plus, minus := pairColours(r.Run.Colour.V)
	end := roundHalf(x + length)
	for i, colour := range []string{plus, minus} {
		paint := bodyPaint
		paint.Fill = shade(colour)
		top := y - insulation - 0.5 + float64(i)*(insulation+1)
		t.c.d.Rect(svg.Box{X: x, Y: top, W: end - x, H: insulation}, 2, paint)
	}
	seen := []float64{x, end} // where the pair is not hidden
	if r.Plug != "" {
		at := t.plug(r, x, y, end)
		seen = []float64{x, at.X, at.Right(), end}
	}
	for i := 0; i < len(seen); i += 2 {
		t.c.d.Mark("wire", "", svg.Box{X: seen[i], Y: y - insulation - 1, W: seen[i+1] - seen[i], H: 2*insulation + 2})
	}
	words.draw(t.c, svg.Point{X: x + 8, Y: y - insulation - 3 - words.height()})
	return end
}

// plug draws a connector across a limb: the socket, and the plug in it on the
// side away from the supply, about where it sits along the wire.
func (t *tree) plug(r circuit.RunResult, x, y, end float64) svg.Box {
	part := 0.0
	if length := r.Run.Length.V; length > 0 {
		part = float64(r.Run.Connector.After.V / length)
	}
	at := roundHalf(min(max(x+part*(end-x), x+4), end-30))
	socket, plug := svg.Box{X: at, Y: y - 7.5, W: 9, H: 15}, svg.Box{X: at + 9, Y: y - 5.5, W: 7, H: 11}
	t.c.d.Rect(socket, 1.5, bodyPaint)
	t.c.d.Rect(plug, 1.5, bodyPaint)
	t.c.plugs++
	t.c.d.Mark(svg.KindSymbol, r.Plug, socket.Union(plug))
	return socket.Union(plug)
}

// junction draws a junction's strip at x and its limbs from y downward, and
// returns where free paper begins.
func (t *tree) junction(k int, x, y float64) float64 {
	top, last := y, y
	from := x + stripWidth
	for i, h := range t.plan.hangs(k) {
		if i > 0 {
			y += t.above
		}
		last = y
		if h.junction < 0 {
			y = t.lead(h.branch, from, y)
		} else {
			y = t.feed(h.junction, from, y)
		}
	}
	strip := svg.Box{X: x, Y: top - 9, W: stripWidth, H: last - top + 18}
	t.c.d.Rect(strip, 2, bodyPaint)
	t.c.d.Mark(svg.KindSymbol, t.s.Junctions[k].Name, strip)
	return max(y, strip.Bottom())
}

// feed draws the wires to a further junction and what hangs on it.
func (t *tree) feed(k int, x, y float64) float64 {
	r := t.s.Junctions[k].Feed
	end := t.limbTo(x, y, t.limb, t.run(wireRef("W", k), r), r)
	name := (&writer{width: t.limb - 12}).title(t.s.Junctions[k].Name, 3).lines
	name.draw(t.c, svg.Point{X: x + 8, Y: y + insulation + 4})
	low := y + insulation + 4 + name.height()
	if t.fits(end) {
		return max(low, t.junction(k, end, y))
	}
	t.stop(k, end, y)
	t.apart = append(t.apart, k)
	below := (&writer{width: t.limb - 12}).soft(t.plan.word("see below"), 1).lines
	below.draw(t.c, svg.Point{X: x + 8, Y: low})
	return low + below.height()
}

// lead draws a branch's wires and its lamps.
func (t *tree) lead(i int, x, y float64) float64 {
	b := &t.s.Branches[i]
	end := t.limbTo(x, y, t.limb, t.run(wireRef("L", i), b.Lead), b.Lead)
	name := (&writer{width: t.limb - 12}).title(b.Name, 2).soft(t.plan.say(t.limits(b)), 2).lines
	name.draw(t.c, svg.Point{X: x + 8, Y: y + insulation + 4})
	low := y + insulation + 4 + name.height()
	return max(low, t.lamps(b, end, y))
}

// limits names what limits a branch's current, which the builder must find
// room for.
func (t *tree) limits(b *circuit.BranchResult) source.Message {
	var beside source.Message
	if b.Parallel {
		beside = source.Word("lamps side by side")
	}
	switch b.Kind {
	case circuit.None:
		return beside
	case circuit.ConstantCurrent:
		return joined(source.Say("%s %s", b.Ref, ampsText(b.Resistor.Set)), beside)
	}
	return joined(source.Say("%s %s", b.Ref, ohmsText(b.Resistor.Ohms)), beside)
}

// lamps draws the lamps of a branch below each other, the first at the limb's
// end, and returns where free paper begins.
func (t *tree) lamps(b *circuit.BranchResult, x, y float64) float64 {
	x += lampRadius
	low := y
	for k := range b.Lamps {
		lamp := &b.Lamps[k]
		if k > 0 {
			above := y + lampRadius
			y = max(y+lampStep, low+lampRadius)
			t.c.d.Line(svg.Point{X: x, Y: above}, svg.Point{X: x, Y: y - lampRadius}, wirePaint)
		}
		t.disc(lamp.Ref, lamp.Colour, t.letterOf(lamp.Colour), svg.Point{X: x, Y: y})
		words := (&writer{width: max(t.width-x-lampRadius-8, 90)}).ref(lamp.Ref).say(lampName(lamp, t.print), 2).soft(lamp.Place, 3).lines
		at := svg.Point{X: x + lampRadius + 7, Y: y - lineStep/2}
		words.draw(t.c, at)
		low = at.Y + words.height()
		for _, f := range lamp.Fibres {
			low = t.fibre(f, x+lampRadius+7, low)
		}
		low = max(low, y+lampRadius)
	}
	return low
}

// disc draws a ring in a lamp's colour around the letters of that colour. The
// letters stand on paper, so that they are read whatever the colour and theme.
func (l *loom) disc(name, colour, letters string, at svg.Point) {
	paint := bodyPaint
	paint.Fill = shade(colour)
	l.c.d.Mark(svg.KindSymbol, name, l.c.d.Circle(at, lampRadius, paint))
	l.c.d.Circle(at, lampInner, svg.Style{Stroke: svg.Ink, Width: fineWidth, Fill: svg.Paper})
	size := 10.0
	if len(letters) > 1 {
		size = 8
	}
	l.c.text(at, letters, svg.TextStyle{Size: size, Font: svg.Bold, Anchor: svg.Middle, VAlign: svg.Centre})
}

// fibre draws a bundle that a lamp feeds: a light path to a ring, where it ends.
func (t *tree) fibre(f circuit.FibreResult, x, top float64) float64 {
	words := (&writer{width: max(t.width-x-44, 60)}).soft(t.plan.say(fibreText(f)), 4).lines
	y := top + lineStep/2 + 1
	t.c.d.Line(svg.Point{X: x, Y: y}, svg.Point{X: x + 24, Y: y}, svg.Style{Stroke: svg.Accent, Width: 1.4, Dash: svg.Dashed})
	box := t.c.d.Circle(svg.Point{X: x + 28, Y: y}, 3.5, svg.Style{Stroke: svg.Accent, Width: 1.2, Fill: svg.Paper})
	t.c.d.Mark(svg.KindSymbol, "fibre of "+f.Lamp, box.Union(svg.Box{X: x, Y: y - 1, W: 24, H: 2}))
	words.draw(t.c, svg.Point{X: x + 38, Y: top + 1})
	return top + 1 + words.height()
}

// key says what the letters and signs mean.
func (l *loom) key() {
	x, y := 0.0, l.y
	for _, e := range l.letters {
		width, _, _ := svg.Measure(e.name, wordSize, svg.Regular)
		wide := 2*lampRadius + 7 + width
		if x > 0 && x+wide > l.width {
			x, y = 0, y+2*lampRadius+4
		}
		at := svg.Point{X: x + lampRadius, Y: y + lampRadius}
		l.disc(e.letters, e.colour, e.letters, at)
		l.c.text(at.Add(lampRadius+7, 0), e.name, svg.TextStyle{Size: wordSize, VAlign: svg.Centre})
		x += wide + 16
	}
	text := []source.Message{source.Word("Not to scale."), source.Word("Upright bars are junctions."),
		source.Word("Every limb is a pair of wires, plus above minus.")}
	if l.c.plugs > 0 {
		text = append(text, source.Word("Blocks across a limb are connectors."))
	}
	l.c.note(y+2*lampRadius+8, l.width, l.print.Print(source.Text(text...)))
}

// letter is what stands for a lamp's colour.
type letter struct{ colour, name, letters string }

// lampLetters gives every colour of lamp its letters: its initial or initials,
// longer where two colours share them.
func lampLetters(all []circuit.Solution, print svg.Printer) []letter {
	var list []letter
	for i := range all {
		for k := range all[i].Branches {
			for _, lamp := range all[i].Branches[k].Lamps {
				name := strings.ToLower(print.Print(source.Word(colourName(lamp.Colour))))
				if slices.ContainsFunc(list, func(e letter) bool { return e.name == name }) {
					continue
				}
				list = append(list, letter{lamp.Colour, name, freeLetters(name, list)})
			}
		}
	}
	return list
}

// colourName returns a colour in words: its own, or the family of a hex.
func colourName(colour string) string {
	if strings.HasPrefix(colour, "#") {
		if family := circuit.ColourFamily(colour); family != "" {
			return family
		}
	}
	name := strings.ToLower(strings.Join(strings.FieldsFunc(colour, func(r rune) bool { return r == ' ' || r == '-' || r == '_' }), " "))
	if name == "" {
		return "unknown"
	}
	return name
}

func freeLetters(name string, taken []letter) string {
	initials := ""
	for _, w := range strings.Fields(name) {
		initials += strings.ToUpper(string([]rune(w)[:1]))
	}
	initials = string([]rune(initials)[:min(2, len([]rune(initials)))])
	tries := []string{initials}
	runes := []rune(strings.ReplaceAll(name, " ", ""))
	for _, r := range runes[1:] {
		tries = append(tries, strings.ToUpper(string(runes[:1]))+string(r))
	}
	for n := range 99 {
		tries = append(tries, strings.ToUpper(string(runes[:1]))+fmt.Sprint(n+2))
	}
	for _, t := range tries {
		if !slices.ContainsFunc(taken, func(e letter) bool { return e.letters == t }) {
			return t
		}
	}
	return "?"
}

func (l *loom) letterOf(colour string) string {
	name := strings.ToLower(l.print.Print(source.Word(colourName(colour))))
	for _, e := range l.letters {
		if e.name == name {
			return e.letters
		}
	}
	return "?"
}
