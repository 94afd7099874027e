package circuit

import (
	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// PointKind says where a test point lies.
type PointKind int

// Where test points lie.
const (
	AtSupply PointKind = iota
	AtFuse
	AtSwitch
	AtPlus  // of a junction
	AtMinus // of a junction
	AtLamp  // above a lamp of a branch
)

// at returns what a meter reads at a test point, black probe on the supply's
// minus.
func (st *state) at(t *TestPoint) float64 {
	switch t.Kind {
	case AtSupply:
		return st.terminal()
	case AtFuse, AtSwitch:
		return st.afterFuse()
	case AtPlus:
		return st.plus(t.Junction)
	case AtMinus:
		return st.minus(t.Junction)
	}
	return st.above(t.Branch, t.Lamp)
}

// returnWorth is the drop in a shared return from which it gets a test point
// of its own: one display step of a common meter.
const returnWorth quantity.Volts = 0.010

// card puts test points on a circuit.
type card struct {
	st *state
	s  *Solution
}

// testPoints numbers the test points in the order in which a meter goes along:
// supply, fuse, switch, junctions, then branch by branch from plus to minus.
func testPoints(st *state, s *Solution) {
	c := &card{st, s}
	t := s.Supply.Terminal
	c.add(TestPoint{Kind: AtSupply, Where: source.Word("supply plus"), Branch: -1}, t.Low, t.High)
	low := t.Low
	if f := s.Fuse; f != nil {
		low -= quantity.Volts(float64(s.Total.Current.High) * float64(f.Ohms))
		c.add(TestPoint{Kind: AtFuse, Where: source.Say("after fuse %s", f.Ref), Branch: -1}, low, t.High)
	}
	if s.Switch != nil {
		c.add(TestPoint{Kind: AtSwitch, Where: source.Say("after switch %s", s.Switch.Ref), Branch: -1}, low, t.High)
	}
	for k := range s.Junctions {
		j := &s.Junctions[k]
		plus := TestPoint{Kind: AtPlus, Where: source.Say("%s, plus", s.JunctionName(k)), Junction: k, Branch: -1}
		j.Point = c.add(plus, j.Plus.Low, j.Plus.High)
		if j.Minus.High >= returnWorth {
			c.add(TestPoint{Kind: AtMinus, Where: source.Say("%s, return", s.JunctionName(k)), Junction: k, Branch: -1}, j.Minus.Low, j.Minus.High)
		}
	}
	for i := range s.Branches {
		c.branch(i)
	}
}

// add numbers a test point whose voltage lies between two bounds, and returns
// its number.
func (c *card) add(t TestPoint, low, high quantity.Volts) int {
	v := quantity.Volts(c.st.at(&t))
	t.Number, t.Volts = c.s.Next.TestPoint, Band[quantity.Volts]{v, min(low, v), max(high, v)}
	c.s.Points = append(c.s.Points, t)
	c.s.Next.TestPoint++
	return t.Number
}

// branch puts a point below the limiter and one between any two lamps.
func (c *card) branch(i int) {
	s, b := c.s, &c.s.Branches[i]
	j := &s.Junctions[b.Junction]
	for k := range b.Lamps {
		if k == 0 && b.Kind == None || k > 0 && b.Parallel {
			continue
		}
		above := b.Ref
		if k > 0 {
			above = b.Lamps[k-1].Ref
		}
		where := source.Say("between %s and %s", above, b.Lamps[k].Ref)
		low, high := b.lampBand(k)
		back := quantity.Volts(float64(b.Lead.Ohms) / 2)
		low += j.Minus.Low + back*quantity.Volts(b.Current.Low)
		high += j.Minus.High + back*quantity.Volts(b.Current.High)
		t := TestPoint{Kind: AtLamp, Where: source.Say("%s", source.Row([]any{b.Name, where})), Junction: b.Junction, Branch: i, Lamp: k}
		b.Points = append(b.Points, c.add(t, low, min(high, j.Plus.High)))
	}
}

// JunctionName is the name of a junction: a name given to it, or a term.
func (s *Solution) JunctionName(k int) source.Message {
	if k == 0 && !s.Circuit.Junction.Set {
		return source.Word(s.Junctions[k].Name)
	}
	return source.Say("%s", s.Junctions[k].Name)
}
