package circuit

import (
	"spruelight/gen/circuit/nodal"
	"spruelight/gen/quantity"
)

// The corners are exact for the currents: every branch's current rises with
// the supply and falls with its own resistor and forward voltages, and what
// other branches take lowers the voltage that reaches it. So its highest
// current is found with the highest supply, its own parts at their low ends
// and all others taking as little as they may, and its lowest the other way
// round. Voltages between parts are bounded from those currents.
//
// A lamp may lie by its whole spread above or below the declared curve, since
// that curve is one lamp's; two lamps differ by the spread at most.

// greedy and frugal are the cases in which a branch takes most and least.
func (bp *BranchResult) greedy() variant {
	return variant{ohms: 1 - float64(bp.Resistor.Tolerance), volts: -1, lamp: -1}
}

func (bp *BranchResult) frugal() variant {
	return variant{ohms: 1 + float64(bp.Resistor.Tolerance), volts: 1, lamp: -1}
}

// corners is where bands are found: every branch at the ends of its range.
type corners struct {
	*bench
	s              *Solution
	greedy, frugal []nodal.Port
}

// fillBands fills in the lowest and highest of every band, and reports whether
// every case has an operating point.
func fillBands(b *bench, s *Solution) bool {
	n := len(b.plan.branches)
	c := &corners{b, s, make([]nodal.Port, n), make([]nodal.Port, n)}
	for i := range b.plan.branches {
		bp := &b.plan.branches[i]
		c.greedy[i], c.frugal[i] = bp.port(bp.greedy()), bp.port(bp.frugal())
	}
	defer b.restore()
	if !c.whole() {
		return false
	}
	for i := range b.plan.branches {
		if !c.branch(i) {
			return false
		}
	}
	return true
}

// high and low set the source to its ends: volts and inside resistance.
func (c *corners) high() quantity.Volts {
	c.setInside(c.plan.supply.inside.Low)
	return c.plan.supply.open.High
}

func (c *corners) low() quantity.Volts {
	c.setInside(c.plan.supply.inside.High)
	return c.plan.supply.open.Low
}

// whole solves the four cases in which all branches lie at one end and the
// supply at one end: they bound the total current and the junctions.
func (c *corners) whole() bool {
	s, p := c.s, c.plan
	var states [4]*state
	for n := range states {
		volts, models, pick := c.high(), c.greedy, (*BranchResult).greedy
		if n >= 2 {
			volts = c.low()
		}
		if n%2 == 1 {
			models, pick = c.frugal, (*BranchResult).frugal
		}
		cases := make([]variant, len(p.branches))
		for i := range models {
			c.net.Branches[i].Port = models[i]
			cases[i] = pick(&p.branches[i])
		}
		o, ok := c.run(volts)
		if !ok {
			return false
		}
		states[n] = &state{p, c.bench, float64(volts), o, cases, c.inside}
	}
	most, rich, poor, least := states[0], states[1], states[2], states[3]
	s.Total.Current.High, s.Total.Current.Low = quantity.Amps(most.total()), quantity.Amps(least.total())
	s.Supply.Terminal.High, s.Supply.Terminal.Low = quantity.Volts(rich.terminal()), quantity.Volts(poor.terminal())
	for k := range s.Junctions {
		j := &s.Junctions[k]
		j.Plus.High, j.Plus.Low = quantity.Volts(rich.plus(k)), quantity.Volts(poor.plus(k))
		j.Minus.High, j.Minus.Low = quantity.Volts(most.minus(k)), quantity.Volts(least.minus(k))
	}
	return true
}

// branch finds the lowest and highest currents of a branch and its lamps.
func (c *corners) branch(i int) bool {
	r := &c.plan.branches[i]
	high, ok := c.at(i, c.frugal, r.greedy(), true)
	if !ok {
		return false
	}
	low, ok := c.at(i, c.greedy, r.frugal(), false)
	if !ok {
		return false
	}
	r.Current.Low, r.Current.High = quantity.Amps(low.op.Currents[i]), quantity.Amps(high.op.Currents[i])
	for k := range r.Lamps {
		l := &r.Lamps[k]
		l.Current.Low, l.Current.High = r.Current.Low, r.Current.High
		if r.Parallel && !c.lamp(i, k) {
			return false
		}
		l.Volts.Low = max(l.Curve.Volts(l.Current.Low)-l.Spread, 0)
		l.Volts.High = min(l.Curve.Volts(l.Current.High)+l.Spread, quantity.Volts(high.volts))
	}
	r.limiterBands(&c.s.Junctions[r.Junction])
	return true
}

// lamp finds the currents of one of several lamps side by side, when
// its forward voltage alone lies below or above the others'.
func (c *corners) lamp(i, k int) bool {
	bp := &c.plan.branches[i]
	v := bp.greedy()
	v.volts, v.lamp, v.alone = 0, k, -1
	high, ok := c.at(i, c.frugal, v, true)
	if !ok {
		return false
	}
	v = bp.frugal()
	v.volts, v.lamp, v.alone = 0, k, 1
	low, ok := c.at(i, c.greedy, v, false)
	if !ok {
		return false
	}
	most, _ := high.lamp(i, k)
	least, _ := low.lamp(i, k)
	l := &bp.Lamps[k]
	l.Current.High, l.Current.Low = quantity.Amps(most), quantity.Amps(least)
	return true
}

// at solves with one branch in a case and all others as given.
func (c *corners) at(i int, others []nodal.Port, own variant, high bool) (*state, bool) {
	volts := c.low()
	if high {
		volts = c.high()
	}
	for k := range others {
		c.net.Branches[k].Port = others[k]
	}
	c.net.Branches[i].Port = c.plan.branches[i].port(own)
	o, ok := c.run(volts)
	if !ok {
		return nil, false
	}
	cases := make([]variant, len(others))
	cases[i] = own
	return &state{c.plan, c.bench, float64(volts), o, cases, c.inside}, true
}

// limiterBands bounds the voltage over a branch's limiter and its heat: by the
// current and the resistance at their ends, and by what the lamps leave.
func (r *BranchResult) limiterBands(j *JunctionResult) {
	lampsLow, lampsHigh := r.lampBand(0)
	v := &r.Resistor.Volts
	v.High = max(j.Plus.High-j.Minus.Low-lampsLow, 0)
	v.Low = max(j.Plus.Low-j.Minus.High-lampsHigh-quantity.Volts(float64(r.Current.High)*float64(r.Lead.Ohms)), 0)
	if r.Kind.resistor() {
		ohms, tolerance := float64(r.Resistor.Ohms), float64(r.Resistor.Tolerance)
		v.High = min(v.High, quantity.Volts(float64(r.Current.High)*ohms*(1+tolerance)))
		v.Low = max(v.Low, quantity.Volts(float64(r.Current.Low)*ohms*(1-tolerance)))
	}
	v.Low, v.High = min(v.Low, v.Nominal), max(v.High, v.Nominal)
	h := &r.Resistor.Heat
	h.Low, h.High = quantity.Watts(float64(v.Low)*float64(r.Current.Low)), quantity.Watts(float64(v.High)*float64(r.Current.High))
}

// lampBand bounds the voltage over the lamps of a branch from the k-th on.
func (b *BranchResult) lampBand(k int) (low, high quantity.Volts) {
	if b.Parallel {
		low, high = b.Lamps[0].Volts.Low, b.Lamps[0].Volts.High
		for _, l := range b.Lamps {
			low, high = min(low, l.Volts.Low), max(high, l.Volts.High)
		}
		return low, high
	}
	for _, l := range b.Lamps[k:] {
		low, high = low+l.Volts.Low, high+l.Volts.High
	}
	return low, high
}
