package circuit

import "spruelight/gen/quantity"

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
func (bp *branchPlan) greedy() variant {
	return variant{ohms: 1 - float64(bp.limiter.Tolerance), volts: -1, lamp: -1}
}

func (bp *branchPlan) frugal() variant {
	return variant{ohms: 1 + float64(bp.limiter.Tolerance), volts: 1, lamp: -1}
}

// ends are the models of all branches at one end of their range.
type ends struct{ greedy, frugal []model }

// corners fills in the lowest and highest of every band.
func (p *plan) corners(b *bench, s *Solution) bool {
	n := len(p.branches)
	e := ends{make([]model, n), make([]model, n)}
	for i := range p.branches {
		e.greedy[i], e.frugal[i] = p.branches[i].model(p.branches[i].greedy()), p.branches[i].model(p.branches[i].frugal())
	}
	defer b.restore()
	if !p.whole(b, s, &e) {
		return false
	}
	for i := range p.branches {
		if !p.branchCorners(b, s, i, &e) {
			return false
		}
	}
	return true
}

// high and low set the source to its ends: volts and inside resistance.
func (b *bench) high() quantity.Volts {
	b.setInside(b.plan.supply.inside.Low)
	return b.plan.supply.open.High
}

func (b *bench) low() quantity.Volts {
	b.setInside(b.plan.supply.inside.High)
	return b.plan.supply.open.Low
}

// whole solves the four cases in which all branches lie at one end and the
// supply at one end: they bound the total current and the junctions.
func (p *plan) whole(b *bench, s *Solution, e *ends) bool {
	var states [4]*state
	for c := range states {
		volts, models, pick := b.high(), e.greedy, (*branchPlan).greedy
		if c >= 2 {
			volts = b.low()
		}
		if c%2 == 1 {
			models, pick = e.frugal, (*branchPlan).frugal
		}
		cases := make([]variant, len(p.branches))
		for i := range models {
			b.net.ports[i].model = models[i]
			cases[i] = pick(&p.branches[i])
		}
		o, ok := b.run(volts)
		if !ok {
			return false
		}
		states[c] = &state{p, b, float64(volts), o, cases, b.inside}
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

// branchCorners finds the lowest and highest currents of a branch and its lamps.
func (p *plan) branchCorners(b *bench, s *Solution, i int, e *ends) bool {
	bp, r := &p.branches[i], &s.Branches[i]
	high, ok := b.corner(i, e.frugal, bp.greedy(), true)
	if !ok {
		return false
	}
	low, ok := b.corner(i, e.greedy, bp.frugal(), false)
	if !ok {
		return false
	}
	r.Current.Low, r.Current.High = quantity.Amps(low.op.currents[i]), quantity.Amps(high.op.currents[i])
	for k := range r.Lamps {
		l := &r.Lamps[k]
		l.Current.Low, l.Current.High = r.Current.Low, r.Current.High
		if bp.parallel && !b.lampCorners(i, k, e, l) {
			return false
		}
		spread := quantity.Volts(bp.lamps[k].spread)
		l.Volts.Low = max(l.Curve.Volts(l.Current.Low)-spread, 0)
		l.Volts.High = min(l.Curve.Volts(l.Current.High)+spread, quantity.Volts(high.volts))
	}
	p.limiterBands(s, i)
	return true
}

// lampCorners finds the currents of one of several lamps side by side, when
// its forward voltage alone lies below or above the others'.
func (b *bench) lampCorners(i, k int, e *ends, l *LampResult) bool {
	bp := &b.plan.branches[i]
	v := bp.greedy()
	v.volts, v.lamp, v.alone = 0, k, -1
	high, ok := b.corner(i, e.frugal, v, true)
	if !ok {
		return false
	}
	v = bp.frugal()
	v.volts, v.lamp, v.alone = 0, k, 1
	low, ok := b.corner(i, e.greedy, v, false)
	if !ok {
		return false
	}
	most, _ := high.lamp(i, k)
	least, _ := low.lamp(i, k)
	l.Current.High, l.Current.Low = quantity.Amps(most), quantity.Amps(least)
	return true
}

// corner solves with one branch in a case and all others as given.
func (b *bench) corner(i int, others []model, own variant, high bool) (*state, bool) {
	volts := b.low()
	if high {
		volts = b.high()
	}
	for k := range others {
		b.net.ports[k].model = others[k]
	}
	b.net.ports[i].model = b.plan.branches[i].model(own)
	o, ok := b.run(volts)
	if !ok {
		return nil, false
	}
	cases := make([]variant, len(others))
	cases[i] = own
	return &state{b.plan, b, float64(volts), o, cases, b.inside}, true
}

// limiterBands bounds the voltage over a branch's limiter and its heat: by the
// current and the resistance at their ends, and by what the lamps leave.
func (p *plan) limiterBands(s *Solution, i int) {
	bp, r := &p.branches[i], &s.Branches[i]
	j := &s.Junctions[bp.junction]
	lampsLow, lampsHigh := r.lampBand(0)
	v := &r.Resistor.Volts
	v.High = max(j.Plus.High-j.Minus.Low-lampsLow, 0)
	v.Low = max(j.Plus.Low-j.Minus.High-lampsHigh-quantity.Volts(float64(r.Current.High)*float64(bp.lead.Ohms)), 0)
	if r.Kind == Auto || r.Kind == Fixed {
		ohms := float64(bp.limiter.Ohms)
		v.High = min(v.High, quantity.Volts(float64(r.Current.High)*ohms*(1+float64(bp.limiter.Tolerance))))
		v.Low = max(v.Low, quantity.Volts(float64(r.Current.Low)*ohms*(1-float64(bp.limiter.Tolerance))))
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
