package readback

import (
	"fmt"
	"math"
	"regexp"
	"slices"

	"spruelight/gen/svg"
)

// symbol is a symbol recognised by its shape, with its pins by coordinates.
type symbol struct {
	kind kind
	box  svg.Box
	more []svg.Box    // what belongs to it outside that box: arrows, a sign
	pins [2]svg.Point // plus or anode first where the shape tells
	name string       // the reference, number or letters beside or in it
	text string       // what stands behind the reference
}

// polar reports whether the two pins of a symbol differ.
func (s symbol) polar() bool {
	return s.kind == lampKind || s.kind == batteryKind || s.kind == sourceKind
}

// netlist is which ends of parts are joined: every net a sorted list of names.
type netlist []string

// Reading is what was read from a drawing.
type Reading struct {
	figure  *figure
	symbols []symbol
	wires   []stroke
	dots    []svg.Point
}

// same reports whether two places are the same in print.
func same(a, b svg.Point) bool { return math.Abs(a.X-b.X) < 0.011 && math.Abs(a.Y-b.Y) < 0.011 }

// Read recognises symbols, wires and dots by shape and paint. Every shape must
// belong to one of them.
func Read(file []byte) (*Reading, error) {
	f, err := readFigure(file)
	if err != nil {
		return nil, err
	}
	r := &Reading{figure: f}
	rest := r.readWires(f.lines)
	var rings []ring
	for _, c := range f.circles {
		if c.filled {
			r.dots = append(r.dots, c.centre)
		} else {
			rings = append(rings, c)
		}
	}
	var heads []polygon
	for _, p := range f.polygons {
		if p.filled {
			heads = append(heads, p)
		}
	}
	p := &pile{lines: rest, rings: rings, heads: heads}
	for _, step := range []func(*pile) error{r.readRects, r.readPolygons, r.readSwitches, r.readPlugs, r.readBatteries, r.readRings} {
		if err := step(p); err != nil {
			return nil, err
		}
	}
	if len(p.lines)+len(p.rings) > 2*len(p.heads) {
		return nil, fmt.Errorf("%d lines and %d circles belong to no symbol", len(p.lines), len(p.rings))
	}
	return r, r.readNames()
}

// pile is the shapes that belong to no symbol yet.
type pile struct {
	lines []stroke
	rings []ring
	heads []polygon
}

// inside takes the lines out of a pile that lie within a box.
func (p *pile) linesIn(b svg.Box) []stroke {
	var in, out []stroke
	for _, l := range p.lines {
		if b.Inset(-0.02).Contains(l.box()) {
			in = append(in, l)
		} else {
			out = append(out, l)
		}
	}
	p.lines = out
	return in
}

func (p *pile) ringsIn(b svg.Box) []ring {
	var in, out []ring
	for _, c := range p.rings {
		if b.ContainsPoint(c.centre) {
			in = append(in, c)
		} else {
			out = append(out, c)
		}
	}
	p.rings = out
	return in
}

// readWires takes the solid upright lines of a wire's width.
func (r *Reading) readWires(lines []stroke) (rest []stroke) {
	for _, l := range lines {
		if l.width == wireWidth && !l.dashed && l.upright() {
			r.wires = append(r.wires, l)
		} else {
			rest = append(rest, l)
		}
	}
	return rest
}

// readRects tells wires, resistors, fuses, drivers and supplies apart.
func (r *Reading) readRects(p *pile) error {
	for _, rect := range r.figure.rects {
		b := rect.box
		s := symbol{kind: resistorKind, box: b, pins: [2]svg.Point{b.N(), b.S()}}
		if b.W > b.H {
			s.pins = [2]svg.Point{b.West(), b.E()}
		}
		in, rings := p.linesIn(b), p.ringsIn(b)
		switch {
		case rect.rounded:
			s.kind = wireKind
		case len(rings) == 1 && len(in) == 1:
			s.kind = driverKind
		case len(in) == 1 && same(in[0].from, b.N()) && same(in[0].to, b.S()):
			s.kind = fuseKind
		case len(in) == 5:
			s.kind = sourceKind
			if plus := crossing(in); plus == nil {
				return fmt.Errorf("the supply at %v has no plus", b)
			} else if plus.Y > b.Centre().Y {
				s.pins[0], s.pins[1] = s.pins[1], s.pins[0]
			}
		case len(in)+len(rings) > 0:
			return fmt.Errorf("the box at %v is no known symbol", b)
		}
		r.symbols = append(r.symbols, s)
	}
	return nil
}

// crossing returns where two lines form a plus sign.
func crossing(lines []stroke) *svg.Point {
	for i, a := range lines {
		for _, b := range lines[i+1:] {
			if m := a.middle(); same(m, b.middle()) && a.box().W > 0 && b.box().H > 0 {
				return &m
			}
		}
	}
	return nil
}

// readPolygons tells lamps from flags.
func (r *Reading) readPolygons(p *pile) error {
	for _, poly := range r.figure.polygons {
		b := svg.BoxOf(poly.points...)
		switch {
		case poly.filled:
		case len(poly.points) == 3:
			s, err := readLamp(poly.points, p)
			if err != nil {
				return err
			}
			r.symbols = append(r.symbols, s)
		case len(poly.points) == 5 && b.H > flagHeight+1: // hangs down
			r.symbols = append(r.symbols, symbol{kind: flagKind, box: b, pins: [2]svg.Point{b.N(), b.S()}})
		case len(poly.points) == 5:
			r.symbols = append(r.symbols, symbol{kind: flagKind, box: b, pins: [2]svg.Point{b.West(), b.E()}})
		default:
			return fmt.Errorf("a polygon of %d points is no known symbol", len(poly.points))
		}
	}
	return nil
}

// readLamp reads a triangle as a light emitting diode: a bar across its tip is
// the cathode, two arrows must lead away from it.
func readLamp(t []svg.Point, p *pile) (symbol, error) {
	b := svg.BoxOf(t...)
	for i := range t {
		tip, base := t[i], svg.Point{X: (t[(i+1)%3].X + t[(i+2)%3].X) / 2, Y: (t[(i+1)%3].Y + t[(i+2)%3].Y) / 2}
		bar := slices.IndexFunc(p.lines, func(l stroke) bool { return same(l.middle(), tip) && l.from.Y == l.to.Y && l.width > bodyWidth })
		if bar < 0 || math.Abs(base.X-tip.X) > 0.01 {
			continue
		}
		p.lines = slices.Delete(p.lines, bar, bar+1)
		s := symbol{kind: lampKind, box: b, pins: [2]svg.Point{base, tip}}
		if n := s.arrows(p); n != 2 {
			return s, fmt.Errorf("the lamp at %v has %d arrows", b, n)
		}
		return s, nil
	}
	return symbol{}, fmt.Errorf("the triangle at %v has no bar", b)
}

// arrows takes the arrows beside a lamp that lead away from it.
func (s *symbol) arrows(p *pile) int {
	n := 0
	reach := s.box.Inset(-18)
	centre := s.box.Centre()
	var heads []polygon
	for _, h := range p.heads {
		tip, neck := h.points[0], svg.Point{X: (h.points[1].X + h.points[2].X) / 2, Y: (h.points[1].Y + h.points[2].Y) / 2}
		shaft := slices.IndexFunc(p.lines, func(l stroke) bool { return math.Hypot(l.to.X-neck.X, l.to.Y-neck.Y) < 0.05 })
		if !reach.ContainsPoint(tip) || tip.X == neck.X || shaft < 0 {
			heads = append(heads, h)
			continue
		}
		from := p.lines[shaft].from
		if math.Hypot(tip.X-centre.X, tip.Y-centre.Y) > math.Hypot(from.X-centre.X, from.Y-centre.Y) {
			n++
		}
		s.more = append(s.more, svg.BoxOf(h.points...).Union(p.lines[shaft].box()))
		p.lines = slices.Delete(p.lines, shaft, shaft+1)
	}
	p.heads = heads
	return n
}

// readSwitches reads a slanted blade between two small circles.
func (r *Reading) readSwitches(p *pile) error {
	for {
		blade := slices.IndexFunc(p.lines, func(l stroke) bool { return l.width == wireWidth && !l.upright() })
		if blade < 0 {
			return nil
		}
		l := p.lines[blade]
		p.lines = slices.Delete(p.lines, blade, blade+1)
		x := l.from.X
		rings := p.ringsIn(svg.Box{X: x, Y: l.to.Y - 5, W: 0, H: l.from.Y - l.to.Y + 5})
		stubs := p.linesIn(svg.Box{X: x, Y: l.to.Y - 10, W: 0, H: l.from.Y - l.to.Y + 20})
		if len(rings) != 2 || len(stubs) != 2 {
			return fmt.Errorf("the blade at %v has %d contacts", l.from, len(rings))
		}
		b := stubs[0].box().Union(stubs[1].box())
		r.symbols = append(r.symbols, symbol{kind: switchKind, box: b.Union(l.box()), pins: [2]svg.Point{b.N(), b.S()}})
	}
}

// readPlugs reads a cup with a thick bar in its axis and a stub at either end
// as one contact of a connector.
func (r *Reading) readPlugs(p *pile) error {
	for _, cup := range r.figure.cups {
		x := cup.Centre().X
		in := p.linesIn(svg.Box{X: x, Y: cup.Y - 14, H: cup.H + 28})
		bars := slices.DeleteFunc(slices.Clone(in), func(l stroke) bool { return l.width != 3 })
		stubs := slices.DeleteFunc(slices.Clone(in), func(l stroke) bool { return l.width != bodyWidth })
		if len(bars) != 1 || len(stubs) != 2 || len(in) != 3 || !cup.Inset(-0.1).ContainsPoint(bars[0].from) && !cup.Inset(-0.1).ContainsPoint(bars[0].to) {
			return fmt.Errorf("the cup at %v has %d bars and %d stubs", cup, len(bars), len(stubs))
		}
		b := stubs[0].box().Union(stubs[1].box())
		r.symbols = append(r.symbols, symbol{kind: plugKind, box: b.Union(cup), pins: [2]svg.Point{b.N(), b.S()}})
	}
	return nil
}

// readBatteries reads pairs of a long thin and a short thick plate.
func (r *Reading) readBatteries(p *pile) error {
	thick := slices.IndexFunc(p.lines, func(l stroke) bool { return l.width == 3 })
	if thick < 0 {
		return nil
	}
	m := p.lines[thick].middle()
	all := p.linesIn(svg.Box{X: m.X - 16, Y: m.Y - 18, W: 32, H: 36})
	var plates []stroke
	for _, l := range all {
		if l.from.Y == l.to.Y && l.middle().X == m.X {
			plates = append(plates, l)
		}
	}
	slices.SortFunc(plates, func(a, b stroke) int { return int(a.from.Y - b.from.Y) })
	if len(plates) < 2 {
		return fmt.Errorf("the thick line at %v belongs to no symbol", m)
	}
	first, last := plates[0], plates[len(plates)-1]
	box := first.box().Union(last.box())
	s := symbol{kind: batteryKind, box: box, pins: [2]svg.Point{first.middle(), last.middle()}}
	if first.box().W < last.box().W {
		s.pins[0], s.pins[1] = s.pins[1], s.pins[0]
	}
	for _, l := range all {
		if !box.Contains(l.box()) {
			s.more = append(s.more, l.box())
		}
	}
	r.symbols = append(r.symbols, s)
	return nil
}

// readRings reads what circles are left: test points with their numbers, and
// ends that lead nowhere.
func (r *Reading) readRings(p *pile) error {
	for _, c := range p.rings {
		b := svg.Box{X: c.centre.X - c.r, Y: c.centre.Y - c.r, W: 2 * c.r, H: 2 * c.r}
		s := symbol{kind: endKind, box: b, pins: [2]svg.Point{b.N(), b.S()}}
		if c.r >= pointRadius {
			s.kind = pointKind
			if r.touches(b.West()) {
				s.pins = [2]svg.Point{b.West(), b.E()}
			}
		}
		r.symbols = append(r.symbols, s)
	}
	p.rings = nil
	return nil
}

// touches reports whether a wire ends at a place.
func (r *Reading) touches(at svg.Point) bool {
	return slices.ContainsFunc(r.wires, func(w stroke) bool { return same(w.from, at) || same(w.to, at) })
}

var reference = regexp.MustCompile(`^[A-Z]+[0-9]+[+−]?$`)

// readNames gives every symbol the name that stands in it or nearest to it, and
// the words that follow on the same line.
func (r *Reading) readNames() error {
	taken := map[int]string{}
	for i := range r.symbols {
		s := &r.symbols[i]
		switch s.kind {
		case endKind:
			continue
		case pointKind, flagKind:
			for _, t := range r.figure.texts {
				if s.box.Contains(t.box) {
					s.name = t.text
				}
			}
			if s.name == "" {
				return fmt.Errorf("%s at %v has no words in it", s.kind, s.box)
			}
			continue
		}
		best, least := -1, math.Inf(1)
		for k, t := range r.figure.texts {
			if !t.bold || !reference.MatchString(t.text) {
				continue
			}
			if d := apart(s.box, t.box); d < least {
				best, least = k, d
			}
		}
		if best < 0 {
			return fmt.Errorf("%s at %v has no reference", s.kind, s.box)
		}
		if other := taken[best]; other != "" {
			return fmt.Errorf("%q names two symbols, a %s and a %s at %v", r.figure.texts[best].text, other, s.kind, s.box)
		}
		taken[best] = string(s.kind)
		s.name = r.figure.texts[best].text
		s.text = r.behind(r.figure.texts[best].box)
	}
	return nil
}

// behind returns the words that follow a box on its line.
func (r *Reading) behind(b svg.Box) string {
	for _, t := range r.figure.texts {
		if d := t.box.X - b.Right(); d > 0 && d < refGap+1 && math.Abs(t.box.Centre().Y-b.Centre().Y) < 2 {
			return t.text
		}
	}
	return ""
}

// apart returns the distance of two boxes.
func apart(a, b svg.Box) float64 {
	dx := max(0, a.X-b.Right(), b.X-a.Right())
	dy := max(0, a.Y-b.Bottom(), b.Y-a.Bottom())
	return math.Hypot(dx, dy)
}
