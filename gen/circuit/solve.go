package circuit

import (
	"fmt"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// Solve works a circuit out. The findings say what is wrong with it; where one
// of them is of severity stop and Solution.Solved is false, only names and
// references of the solution mean anything.
func Solve(in Input) (Solution, []source.Finding) {
	p := newPlan(&in)
	s := Solution{Circuit: in, Name: in.Name.V, Next: in.First.from()}
	if p.found.Stops() {
		s.Assumed = p.assumed.list()
		return s, p.found
	}
	b := newBench(p)
	if !b.chooseResistors() || !p.work(b, &s) {
		at, name := in.place(), "the feed"
		if b.culprit < len(p.branches) {
			at, name = p.branches[b.culprit].in.place(), fmt.Sprintf("branch %q", p.branches[b.culprit].name)
		}
		p.found.Add(ruleUnsolved.At(at, "check the lamps' forward voltages and what limits the current there",
			"no operating point of circuit %q was found; %s defeats it", in.Name.V, name))
		s.Assumed = p.assumed.list()
		return s, p.found
	}
	s.Solved = true
	p.judge(b, &s)
	s.Assumed = p.assumed.list()
	return s, p.found
}

// work fills in the results from the nominal operating point outward.
func (p *plan) work(b *bench, s *Solution) bool {
	p.describe(b, s)
	return p.corners(b, s) && p.faults(b, s)
}

// judge adds what rests on the results: pairs, cells, heat, readings, checks.
func (p *plan) judge(b *bench, s *Solution) {
	p.rate(s)
	s.Matched = p.matched(s)
	s.Cells = p.cellLife(b)
	p.points(b, s)
	p.check(s)
	p.readings(b, s)
	s.Cautions = p.cautions()
	s.Figures = s.totalFigures()
}

// from returns the numbers with zero read as one.
func (r Refs) from() Refs {
	return Refs{max(r.Supply, 1), max(r.Fuse, 1), max(r.Switch, 1), max(r.Lamp, 1), max(r.Resistor, 1), max(r.Driver, 1), max(r.TestPoint, 1), max(r.Connector, 1)}
}

// take returns the next reference of a letter.
func take(letter string, number *int) string {
	ref := fmt.Sprintf("%s%d", letter, *number)
	*number++
	return ref
}

// describe fills in the nominal results and the references.
func (p *plan) describe(b *bench, s *Solution) {
	st := b.state()
	next := &s.Next
	total := quantity.Amps(st.total())
	s.Supply = SupplyResult{Ref: take("B", &next.Supply), Name: p.in.Circuit.Supply.V, Open: p.supply.open, Inside: p.supply.inside.Nominal, Limit: p.supply.limit}
	s.Supply.Terminal.Nominal = quantity.Volts(st.terminal())
	if p.supply.limit > 0 {
		s.Supply.Used = quantity.Share(total / p.supply.limit)
	}
	contact := func(c *Contact, letter string, number *int) *Contact {
		if c == nil {
			return nil
		}
		c.Ref, c.Drop = take(letter, number), quantity.Volts(float64(total)*float64(c.Ohms))
		return c
	}
	s.Fuse = contact(p.fuse, "F", &next.Fuse)
	s.Switch = contact(p.switched, "S", &next.Switch)
	p.describeJunctions(st, s)
	for i := range p.branches {
		r := p.describeBranch(st, i)
		r.Lead.name(next)
		switch r.Kind {
		case Auto, Fixed:
			r.Ref = take("R", &next.Resistor)
		case ConstantCurrent:
			r.Ref = take("U", &next.Driver)
		}
		next.Lamp += len(r.Lamps)
		s.Branches = append(s.Branches, r)
	}
	p.totals(s)
}

func (p *plan) describeJunctions(st *state, s *Solution) {
	s.Feed = p.feed.loaded(st.total())
	s.Junctions = make([]JunctionResult, len(p.junctions))
	for k := range p.junctions {
		amps := st.op.through[st.bench.position[k]]
		j := JunctionResult{Name: p.junctions[k].name, From: p.junctions[k].parent, Current: quantity.Amps(amps), Feed: s.Feed}
		if k > 0 {
			j.Feed = p.junctions[k].feed.loaded(amps)
		}
		j.Feed.name(&s.Next)
		if k == 0 {
			s.Feed = j.Feed
		}
		j.Plus.Nominal, j.Minus.Nominal = quantity.Volts(st.plus(k)), quantity.Volts(st.minus(k))
		s.Junctions[k] = j
	}
}

// name gives the run's connector its reference, where there is a wire to part.
func (r *RunResult) name(next *Refs) {
	if r.Ohms > 0 && r.Run.Connector.Kind.Set {
		r.Plug = take("X", &next.Connector)
	}
}

// loaded returns the run with a current through it.
func (r RunResult) loaded(amps float64) RunResult {
	r.Current = quantity.Amps(amps)
	r.Drop = quantity.Volts(amps * float64(r.Ohms))
	r.Heat = quantity.Watts(amps * float64(r.Drop))
	return r
}

// litAt is the share of the wanted current, or of 1 mA where none is wanted,
// above which a lamp is taken to be seen lit.
const litAt = 0.01

// describeBranch returns a branch's nominal results.
func (p *plan) describeBranch(st *state, i int) BranchResult {
	bp := &p.branches[i]
	amps := st.op.currents[i]
	volts := st.across(bp.junction)
	mean := quantity.Amps(bp.control.Mean())
	r := BranchResult{
		Name: bp.name, Junction: bp.junction, Kind: bp.limiter.Kind, Parallel: bp.parallel, Wanted: bp.wanted, Assumed: bp.assumed,
		Average: quantity.Amps(amps) * mean, Control: bp.control, Lead: bp.lead.loaded(amps), Matched: bp.in.Matched.V,
	}
	r.Current.Nominal = quantity.Amps(amps)
	for k := range bp.lamps {
		i, v := st.lamp(i, k)
		l := bp.lamps[k].result(i, v, p.in.Scale)
		l.Average = l.Current.Nominal * mean
		l.Lit = i >= litAt*max(float64(bp.wanted), 1e-3)
		l.Fibres = bp.lamps[k].fed()
		r.Lit = r.Lit || l.Lit
		r.Fibres = append(r.Fibres, l.Fibres...)
		r.Lamps = append(r.Lamps, l)
	}
	r.Resistor = describeLimiter(bp, st.limiter(i), amps)
	r.Headroom = quantity.Share(st.limiter(i) / st.terminal())
	r.WireDrop = quantity.Volts(st.terminal()-volts) + r.Lead.Drop
	r.Power = quantity.Watts(volts * amps)
	return r
}

func (lp *lampPlan) result(i, v, scale float64) LampResult {
	l := LampResult{
		Ref: lp.ref, Model: lp.in.Lamp.V, Place: lp.in.Place.V, Area: lp.in.Area, Colour: lp.in.Type.Colour.V, Curve: lp.curve,
		Power: quantity.Watts(i * v), Rated: lp.rated, Limit: lp.limit,
		FullSize: FullSize(lp.in.Type.Diameter(), scale),
	}
	l.Current.Nominal, l.Volts.Nominal = quantity.Amps(i), quantity.Volts(v)
	if lp.bright.Amps > 0 {
		l.Bright = lp.bright.Candelas * quantity.Candelas(i/float64(lp.bright.Amps))
	}
	return l
}

func describeLimiter(bp *branchPlan, volts, amps float64) ResistorResult {
	l := bp.limiter
	r := ResistorResult{Ohms: l.Ohms, Exact: bp.exact, Tolerance: l.Tolerance, Dropout: l.dropout, Set: l.current, Rating: l.Rated}
	r.Volts.Nominal, r.Heat.Nominal = quantity.Volts(volts), quantity.Watts(volts*amps)
	if l.Kind != Auto && l.Kind != Fixed {
		return r
	}
	r.Code = l.Ohms.Code()
	r.Bands, _ = l.Ohms.Bands(l.Tolerance) // a value outside the colour code has no rings: its code is shown
	return r
}

func (p *plan) totals(s *Solution) {
	t := &s.Total
	for _, b := range s.Branches {
		t.Current.Nominal += b.Current.Nominal
		t.Average += b.Average
		t.Limiters += b.Resistor.Heat.Nominal
		t.Wires += b.Lead.Heat
		for _, l := range b.Lamps {
			t.Lamps += l.Power
		}
	}
	for _, j := range s.Junctions {
		t.Wires += j.Feed.Heat
	}
	t.Power = quantity.Watts(float64(s.Supply.Open.Nominal) * float64(t.Current.Nominal))
	if t.Power > 0 {
		t.Efficiency = quantity.Share(t.Lamps / t.Power)
	}
}
