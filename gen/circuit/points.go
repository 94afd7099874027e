package circuit

import (
	"fmt"

	"spruelight/gen/quantity"
)

// place says where a test point lies, so that its voltage can be read from
// any state of the circuit.
type place struct {
	kind   placeKind
	index  int // of the junction or branch
	lamp   int // of the first lamp below the point
	number int
}

type placeKind int

const (
	atSupply placeKind = iota
	atFuse
	atSwitch
	atPlus
	atMinus
	atLamp
)

// volts returns what a meter reads at a place, black probe on the supply's minus.
func (st *state) at(pl place) float64 {
	switch pl.kind {
	case atSupply:
		return st.terminal()
	case atFuse, atSwitch:
		return st.afterFuse()
	case atPlus:
		return st.plus(pl.index)
	case atMinus:
		return st.minus(pl.index)
	}
	return st.above(pl.index, pl.lamp)
}

// returnWorth is the drop in a shared return from which it gets a test point
// of its own: one display step of a common meter.
const returnWorth quantity.Volts = 0.010

// points numbers the test points in the order in which a meter goes along:
// supply, fuse, switch, junctions, then branch by branch from plus to minus.
func (p *plan) points(b *bench, s *Solution) {
	plus, minus := s.junctionNodes(s.topNode())
	add := func(kind placeKind, index, lamp int, node, where string, low, high quantity.Volts) int {
		pl := place{kind, index, lamp, s.Next.TestPoint}
		t := TestPoint{Number: pl.number, Where: where, Node: node, Branch: -1, place: pl}
		if kind == atLamp {
			t.Branch = index
		}
		v := quantity.Volts(b.state().at(pl))
		t.Volts = Band[quantity.Volts]{v, min(low, v), max(high, v)}
		s.Points = append(s.Points, t)
		s.Next.TestPoint++
		return t.Number
	}
	lost := func(c *Contact) quantity.Volts {
		if c == nil {
			return 0
		}
		return quantity.Volts(float64(s.Total.Current.High) * float64(c.Ohms))
	}
	t := s.Supply.Terminal
	add(atSupply, 0, 0, "supply", "supply plus", t.Low, t.High)
	if s.Fuse != nil {
		add(atFuse, 0, 0, "fused", "after fuse "+s.Fuse.Ref, t.Low-lost(s.Fuse), t.High)
	}
	if s.Switch != nil {
		add(atSwitch, 0, 0, "switched", "after switch "+s.Switch.Ref, t.Low-lost(s.Fuse), t.High)
	}
	for k := range s.Junctions {
		j := &s.Junctions[k]
		j.Point = add(atPlus, k, 0, plus[k], j.Name+", plus", j.Plus.Low, j.Plus.High)
		if j.Minus.High >= returnWorth {
			add(atMinus, k, 0, minus[k], j.Name+", return", j.Minus.Low, j.Minus.High)
		}
	}
	for i := range s.Branches {
		p.branchPoints(s, i, add)
	}
}

// branchPoints puts a point below the limiter and one between any two lamps.
func (p *plan) branchPoints(s *Solution, i int, add func(placeKind, int, int, string, string, quantity.Volts, quantity.Volts) int) {
	b := &s.Branches[i]
	plus, minus := s.junctionNodes(s.topNode())
	nodes := map[int]string{}
	for _, e := range s.branchElements(i, plus, minus) {
		if e.Kind == LampElement && nodes[e.Lamp] == "" {
			nodes[e.Lamp] = e.From
		}
	}
	j := &s.Junctions[b.Junction]
	for k := range b.Lamps {
		if k == 0 && b.Kind == None || k > 0 && b.Parallel {
			continue
		}
		where := "between " + b.Lamps[max(k-1, 0)].Ref + " and " + b.Lamps[k].Ref
		if k == 0 {
			where = "between " + b.Ref + " and " + b.Lamps[0].Ref
		}
		low, high := b.lampBand(k)
		back := quantity.Volts(float64(b.Lead.Ohms) / 2)
		low += j.Minus.Low + back*quantity.Volts(b.Current.Low)
		high += j.Minus.High + back*quantity.Volts(b.Current.High)
		b.Points = append(b.Points, add(atLamp, i, k, nodes[k], fmt.Sprintf("%s, %s", b.Name, where), low, min(high, j.Plus.High)))
	}
}

// topNode is the node that the feed starts from.
func (s *Solution) topNode() string {
	switch {
	case s.Switch != nil:
		return "switched"
	case s.Fuse != nil:
		return "fused"
	}
	return "supply"
}
