package circuit

import (
	"fmt"
	"math"

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
	if !b.chooseResistors() {
		p.found.Add(ruleUnsolved.At(p.branches[b.culprit].in.At, "check the lamps' forward voltages and the resistor of this branch",
			"no operating point of circuit %q was found; branch %q defeats it", in.Name.V, p.branches[b.culprit].name))
		s.Assumed = p.assumed.list()
		return s, p.found
	}
	p.describe(b, &s)
	s.Assumed = p.assumed.list()
	s.Solved = true
	return s, p.found
}

// from returns the numbers with zero read as one.
func (r Refs) from() Refs {
	return Refs{max(r.Supply, 1), max(r.Fuse, 1), max(r.Switch, 1), max(r.Lamp, 1), max(r.Resistor, 1), max(r.Driver, 1), max(r.TestPoint, 1)}
}

// describe fills in the nominal results and the references.
func (p *plan) describe(b *bench, s *Solution) {
	o := b.nominal
	next := &s.Next
	take := func(letter string, number *int) string {
		ref := fmt.Sprintf("%s%d", letter, *number)
		*number++
		return ref
	}
	total := quantity.Amps(o.through[0])
	s.Supply = SupplyResult{Ref: take("B", &next.Supply), Open: p.supply.open, Inside: p.supply.inside, Limit: p.supply.limit}
	s.Supply.Terminal.Nominal = p.supply.open.Nominal - quantity.Volts(float64(total)*float64(p.supply.inside))
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
	p.describeJunctions(b, s)
	for i := range p.branches {
		bp := &p.branches[i]
		r := p.describeBranch(b, i, s)
		switch bp.limiter.Kind {
		case Auto, Fixed:
			r.Ref = take("R", &next.Resistor)
		case Driver:
			r.Ref = take("U", &next.Driver)
		}
		next.Lamp += len(bp.lamps)
		s.Branches = append(s.Branches, r)
	}
	p.totals(s)
}

func (p *plan) describeJunctions(b *bench, s *Solution) {
	o := b.nominal
	s.Feed = p.feed.loaded(o.through[0])
	s.Junctions = make([]JunctionResult, len(p.junctions))
	for _, k := range p.order {
		j := &s.Junctions[k]
		at := b.position[k]
		i := o.through[at]
		*j = JunctionResult{Name: p.junctions[k].name, From: p.junctions[k].parent, Current: quantity.Amps(i)}
		above, below := s.Supply.Terminal.Nominal, quantity.Volts(0)
		j.Feed = s.Feed
		if k > 0 {
			from := s.Junctions[j.From]
			above, below = from.Plus.Nominal, from.Minus.Nominal
			j.Feed = p.junctions[k].feed.loaded(i)
		} else {
			for _, c := range []*Contact{s.Fuse, s.Switch} {
				if c != nil {
					above -= c.Drop
				}
			}
		}
		j.Plus.Nominal, j.Minus.Nominal = above-j.Feed.Drop/2, below+j.Feed.Drop/2
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
func (p *plan) describeBranch(b *bench, i int, s *Solution) BranchResult {
	bp := &p.branches[i]
	amps := b.nominal.currents[i]
	j := &s.Junctions[bp.junction]
	mean := float64(bp.control.Mean())
	r := BranchResult{
		Name: bp.name, Junction: bp.junction, Kind: bp.limiter.Kind, Parallel: bp.parallel, Wanted: bp.wanted, Assumed: bp.assumed,
		Average: quantity.Amps(amps * mean), Control: bp.control, Lead: bp.lead.loaded(amps), Matched: bp.in.Matched.V,
	}
	r.Current.Nominal = quantity.Amps(amps)
	volts := float64(j.Plus.Nominal - j.Minus.Nominal)
	p.describeLamps(&r, bp, volts, amps, mean)
	lamps := r.overLamps()
	limiter := max(volts-float64(lamps)-float64(r.Lead.Drop), 0)
	if bp.limiter.Kind == Auto || bp.limiter.Kind == Fixed {
		limiter = amps * float64(bp.limiter.Ohms)
	}
	r.Resistor = p.describeLimiter(bp, limiter, amps)
	r.Headroom = quantity.Share(limiter / float64(s.Supply.Terminal.Nominal))
	r.WireDrop = s.Supply.Terminal.Nominal - quantity.Volts(volts) + r.Lead.Drop
	r.Power = quantity.Watts(volts * amps)
	return r
}

// overLamps returns the volts over the lamps of a branch.
func (r *BranchResult) overLamps() quantity.Volts {
	if r.Parallel {
		return r.Lamps[0].Volts.Nominal
	}
	sum := quantity.Volts(0)
	for _, l := range r.Lamps {
		sum += l.Volts.Nominal
	}
	return sum
}

func (p *plan) describeLamps(r *BranchResult, bp *branchPlan, volts, amps, mean float64) {
	m := bp.model(nominal)
	over := 0.0
	if bp.parallel && amps > 0 {
		over = volts - amps*m.ohms
	}
	for k := range bp.lamps {
		lp := &bp.lamps[k]
		i, v := amps, over
		switch {
		case bp.parallel:
			i, _ = m.beside[k].at(over)
		default:
			v = float64(lp.curve.Volts(quantity.Amps(amps)))
		}
		l := lp.result(i, v, mean, p.in.Scale)
		l.Lit = i >= litAt*max(float64(bp.wanted), 1e-3)
		r.Lit = r.Lit || l.Lit
		r.Lamps = append(r.Lamps, l)
	}
}

func (lp *lampPlan) result(i, v, mean, scale float64) LampResult {
	l := LampResult{
		Ref: lp.ref, Model: lp.in.Model.V, Place: lp.in.Place.V, Area: lp.in.Area, Colour: lp.in.Colour.V, Curve: lp.curve,
		Average: quantity.Amps(i * mean), Power: quantity.Watts(i * v), Rated: lp.rated, Limit: lp.limit,
		FullSize: lp.in.Size.V * quantity.Metres(scale),
	}
	l.Current.Nominal, l.Volts.Nominal = quantity.Amps(i), quantity.Volts(v)
	if lp.bright.Amps > 0 {
		l.Bright = lp.bright.Candelas * quantity.Candelas(i/float64(lp.bright.Amps))
	}
	return l
}

func (p *plan) describeLimiter(bp *branchPlan, volts, amps float64) ResistorResult {
	l := bp.limiter
	r := ResistorResult{Ohms: l.Ohms, Exact: bp.exact, Tolerance: l.Tolerance, Dropout: l.Dropout, Set: l.Current, Rating: l.Rated}
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
	if math.IsNaN(float64(t.Efficiency)) {
		t.Efficiency = 0
	}
}
