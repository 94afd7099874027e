package circuit

import "spruelight/gen/quantity"

// place says where a test point lies, so that its voltage can be read from
// any state of the circuit.
type place struct {
	kind  placeKind
	index int // of the junction or branch
	lamp  int // of the first lamp below the point
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

// at returns what a meter reads at a place, black probe on the supply's minus.
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

// card puts test points on a circuit.
type card struct {
	st          *state
	s           *Solution
	plus, minus []string // nodes of the junctions
}

// testPoints numbers the test points in the order in which a meter goes along:
// supply, fuse, switch, junctions, then branch by branch from plus to minus.
func testPoints(st *state, s *Solution) {
	c := &card{st: st, s: s}
	c.plus, c.minus = s.junctionNodes(s.topNode())
	t := s.Supply.Terminal
	c.add(place{kind: atSupply}, "supply", "supply plus", t.Low, t.High)
	low := t.Low
	if f := s.Fuse; f != nil {
		low -= quantity.Volts(float64(s.Total.Current.High) * float64(f.Ohms))
		c.add(place{kind: atFuse}, "fused", "after fuse "+f.Ref, low, t.High)
	}
	if s.Switch != nil {
		c.add(place{kind: atSwitch}, "switched", "after switch "+s.Switch.Ref, low, t.High)
	}
	for k := range s.Junctions {
		j := &s.Junctions[k]
		j.Point = c.add(place{kind: atPlus, index: k}, c.plus[k], j.Name+", plus", j.Plus.Low, j.Plus.High)
		if j.Minus.High >= returnWorth {
			c.add(place{kind: atMinus, index: k}, c.minus[k], j.Name+", return", j.Minus.Low, j.Minus.High)
		}
	}
	for i := range s.Branches {
		c.branch(i)
	}
}

// add puts a test point on a node, its voltage between two bounds, and returns
// its number.
func (c *card) add(pl place, node, where string, low, high quantity.Volts) int {
	t := TestPoint{Number: c.s.Next.TestPoint, Where: where, Node: node, Branch: -1, place: pl}
	if pl.kind == atLamp {
		t.Branch = pl.index
	}
	v := quantity.Volts(c.st.at(pl))
	t.Volts = Band[quantity.Volts]{v, min(low, v), max(high, v)}
	c.s.Points = append(c.s.Points, t)
	c.s.Next.TestPoint++
	return t.Number
}

// branch puts a point below the limiter and one between any two lamps.
func (c *card) branch(i int) {
	s, b := c.s, &c.s.Branches[i]
	nodes := map[int]string{}
	for _, e := range s.branchElements(i, c.plus, c.minus) {
		if e.Kind == LampElement && nodes[e.Lamp] == "" {
			nodes[e.Lamp] = e.From
		}
	}
	j := &s.Junctions[b.Junction]
	for k := range b.Lamps {
		if k == 0 && b.Kind == None || k > 0 && b.Parallel {
			continue
		}
		above := b.Ref
		if k > 0 {
			above = b.Lamps[k-1].Ref
		}
		where := b.Name + ", between " + above + " and " + b.Lamps[k].Ref
		low, high := b.lampBand(k)
		back := quantity.Volts(float64(b.Lead.Ohms) / 2)
		low += j.Minus.Low + back*quantity.Volts(b.Current.Low)
		high += j.Minus.High + back*quantity.Volts(b.Current.High)
		b.Points = append(b.Points, c.add(place{kind: atLamp, index: i, lamp: k}, nodes[k], where, low, min(high, j.Plus.High)))
	}
}
