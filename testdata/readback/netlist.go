package readback

import (
	"fmt"
	"math"
	"slices"
	"sort"
	"strings"

	"spruelight/gen/circuit"
	parts "spruelight/gen/circuit/netlist"
	"spruelight/gen/quantity"
	"spruelight/gen/svg"
)

// nets follows the wires.
type nets struct{ parent map[string]string }

func place(p svg.Point) string {
	return fmt.Sprintf("%.0f,%.0f", math.Round(p.X*50), math.Round(p.Y*50))
}

func (n *nets) find(a string) string {
	for {
		up, ok := n.parent[a]
		if !ok || up == a {
			return a
		}
		a = up
	}
}

func (n *nets) join(a, b string) {
	if a, b = n.find(a), n.find(b); a != b {
		n.parent[a] = b
	}
}

// Netlist joins what the wires, flags and test points join and lists who meets
// in each net.
func (r *Reading) Netlist() (netlist, error) {
	if err := r.checkJoints(); err != nil {
		return nil, err
	}
	n := &nets{map[string]string{}}
	for i, w := range r.wires {
		n.join(place(w.from), place(w.to))
		for _, v := range r.crossers(i) {
			for _, end := range []svg.Point{v.from, v.to} {
				if w.holds(end) {
					n.join(place(w.from), place(end))
				}
			}
		}
	}
	meet := map[string][]string{}
	for _, s := range r.symbols {
		for _, pin := range s.pins {
			if s.kind != endKind && s.kind != flagKind && !r.pinned(s, pin) {
				return nil, fmt.Errorf("a pin of %s at %v joins nothing", s.name, pin)
			}
		}
		switch s.kind {
		case flagKind:
			n.join(place(s.pins[0]), "flag "+s.name)
			n.join(place(s.pins[1]), "flag "+s.name)
		case pointKind, endKind:
			n.join(place(s.pins[0]), place(s.pins[1]))
		}
	}
	for _, s := range r.symbols {
		name := strings.Replace(s.name, "−", "-", 1)
		for i, pin := range s.pins {
			switch net := n.find(place(pin)); {
			case s.kind == endKind || s.kind == flagKind:
			case s.kind == pointKind && i == 0:
				meet[net] = append(meet[net], "TP"+name)
			case s.kind == pointKind:
			case s.polar():
				meet[net] = append(meet[net], name+[]string{" plus", " minus"}[i])
			default:
				meet[net] = append(meet[net], name)
			}
		}
	}
	return listNets(meet), nil
}

func listNets(meet map[string][]string) netlist {
	var all netlist
	for _, names := range meet {
		sort.Strings(names)
		all = append(all, strings.Join(names, ", "))
	}
	sort.Strings(all)
	return all
}

// holds reports whether a place lies on a wire.
func (s stroke) holds(p svg.Point) bool {
	return s.box().Inset(-0.01).ContainsPoint(p)
}

// inner reports whether a place lies on a wire between its ends.
func (s stroke) inner(p svg.Point) bool {
	return s.holds(p) && !same(p, s.from) && !same(p, s.to)
}

// crossers returns the wires that touch a wire.
func (r *Reading) crossers(i int) []stroke {
	var all []stroke
	b := r.wires[i].box().Inset(-0.01)
	for k, v := range r.wires {
		if o := v.box(); k != i && o.X <= b.Right() && o.Right() >= b.X && o.Y <= b.Bottom() && o.Bottom() >= b.Y {
			all = append(all, v)
		}
	}
	return all
}

// pinned reports whether a pin meets a wire's end or another symbol's pin.
func (r *Reading) pinned(s symbol, pin svg.Point) bool {
	if r.touches(pin) {
		return true
	}
	return slices.ContainsFunc(r.symbols, func(o symbol) bool {
		return o.box != s.box && (same(o.pins[0], pin) || same(o.pins[1], pin))
	})
}

// checkJoints makes sure that a dot stands wherever three wires meet and
// nowhere else, that four never meet, and that no two wires cross or overlap.
func (r *Reading) checkJoints() error {
	for i, w := range r.wires {
		for _, v := range r.crossers(i) {
			cross := svg.Point{X: clamp(v.from.X, w.box().X, w.box().Right()), Y: clamp(v.from.Y, w.box().Y, w.box().Bottom())}
			flat, other := w.from.Y == w.to.Y, v.from.Y == v.to.Y
			switch {
			case flat != other && w.inner(cross) && v.inner(cross):
				return fmt.Errorf("two wires cross at %v", cross)
			case flat == other && (w.inner(v.from) || w.inner(v.to) || same(w.from, v.from) && same(w.to, v.to)):
				return fmt.Errorf("two wires lie on each other at %v", cross)
			}
		}
	}
	meet := map[string]int{}
	at := map[string]svg.Point{}
	for i, w := range r.wires {
		for _, end := range []svg.Point{w.from, w.to} {
			meet[place(end)]++
			at[place(end)] = end
		}
		seen := map[string]bool{}
		for _, v := range r.crossers(i) {
			for _, end := range []svg.Point{v.from, v.to} {
				if w.inner(end) && !seen[place(end)] {
					seen[place(end)] = true
					meet[place(end)] += 2
				}
			}
		}
	}
	return r.checkDots(meet, at)
}

func (r *Reading) checkDots(meet map[string]int, at map[string]svg.Point) error {
	dotted := map[string]bool{}
	for _, d := range r.dots {
		dotted[place(d)] = true
		if meet[place(d)] != 3 {
			return fmt.Errorf("a dot at %v joins %d wires", d, meet[place(d)])
		}
	}
	for p, n := range meet {
		switch {
		case n > 3:
			return fmt.Errorf("%d wires meet at %v", n, at[p])
		case n == 3 && !dotted[p]:
			return fmt.Errorf("three wires meet at %v without a dot", at[p])
		}
	}
	return nil
}

func clamp(v, low, high float64) float64 { return min(max(v, low), high) }

// declared is the netlist that a drawing must show.
func declared(s *circuit.Solution) netlist {
	meet := map[string][]string{}
	for _, e := range parts.Elements(s) {
		from, to := e.Ref, e.Ref
		if e.Kind == parts.Lamp || e.Kind == parts.Source {
			from, to = e.Ref+" plus", e.Ref+" minus"
		}
		meet[e.From] = append(meet[e.From], from)
		meet[e.To] = append(meet[e.To], to)
	}
	for k, node := range parts.PointNodes(s) {
		meet[node] = append(meet[node], fmt.Sprintf("TP%d", s.Points[k].Number))
	}
	return listNets(meet)
}

// Compare reports how what was read differs from what was declared: kinds of
// parts, nets, and the values of resistors.
func (r *Reading) Compare(s *circuit.Solution) error {
	got, err := r.Netlist()
	if err != nil {
		return err
	}
	want := declared(s)
	if !slices.Equal(got, want) {
		return fmt.Errorf("nets\n%s\nwant\n%s", strings.Join(missing(got, want), "\n"), strings.Join(missing(want, got), "\n"))
	}
	kinds := map[string]kind{}
	values := map[string]string{}
	for _, sym := range r.symbols {
		kinds[strings.Replace(sym.name, "−", "-", 1)] = sym.kind
		values[sym.name] = sym.text
	}
	for _, e := range parts.Elements(s) {
		want := map[parts.Kind][]kind{
			parts.Source: {batteryKind, sourceKind}, parts.Fuse: {fuseKind}, parts.Switch: {switchKind}, parts.Plug: {plugKind}, parts.Wire: {wireKind},
			parts.Resistor: {resistorKind}, parts.Driver: {driverKind}, parts.Lamp: {lampKind},
		}[e.Kind]
		if !slices.Contains(want, kinds[e.Ref]) {
			return fmt.Errorf("%s is drawn as a %s", e.Ref, kinds[e.Ref])
		}
		if e.Kind == parts.Resistor {
			var v quantity.Ohms
			if err := v.UnmarshalText([]byte(values[e.Ref])); err != nil || math.Abs(float64(v/e.Ohms)-1) > 1e-9 {
				return fmt.Errorf("%s is %v and says %q", e.Ref, e.Ohms, values[e.Ref])
			}
		}
	}
	return nil
}

// missing returns what of a is not in b.
func missing(a, b netlist) []string {
	var all []string
	for _, x := range a {
		if !slices.Contains(b, x) {
			all = append(all, x)
		}
	}
	return all
}
