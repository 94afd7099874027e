package circuit

import (
	"fmt"

	"spruelight/gen/quantity"
)

// from returns the numbers with zero read as one.
func (r Refs) from() Refs {
	return Refs{
		max(r.Supply, 1), max(r.Fuse, 1), max(r.Switch, 1), max(r.Lamp, 1),
		max(r.Resistor, 1), max(r.Driver, 1), max(r.TestPoint, 1), max(r.Connector, 1),
	}
}

// take returns the next reference of a letter.
func take(letter string, number *int) string {
	ref := fmt.Sprintf("%s%d", letter, *number)
	*number++
	return ref
}

// describe fills in the nominal results and the references.
func describe(b *bench, s *Solution) {
	p, st := b.plan, b.state()
	next := &s.Next
	total := quantity.Amps(st.total())
	s.Supply = SupplyResult{
		Ref: take("B", &next.Supply), Name: p.in.Circuit.Supply.V,
		Open: p.supply.open, Inside: p.supply.inside.Nominal, Limit: p.supply.limit,
	}
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
	s.Junctions, s.Branches = p.junctions, p.branches
	for k := range s.Junctions {
		s.Junctions[k].describe(st, k, next)
	}
	s.Feed = s.Junctions[0].Feed
	for i := range s.Branches {
		r := &s.Branches[i]
		r.describe(st, i)
		r.Lead.name(next)
		switch r.Kind {
		case Auto, Fixed:
			r.Ref = take("R", &next.Resistor)
		case ConstantCurrent:
			r.Ref = take("U", &next.Driver)
		}
		next.Lamp += len(r.Lamps)
	}
	s.Total = totals(s)
}

// describe fills in a junction's nominal results.
func (j *JunctionResult) describe(st *state, k int, next *Refs) {
	amps := st.op.Through[st.bench.position[k]]
	j.Current, j.Feed = quantity.Amps(amps), j.Feed.loaded(amps)
	j.Feed.name(next)
	j.Plus.Nominal, j.Minus.Nominal = quantity.Volts(st.plus(k)), quantity.Volts(st.minus(k))
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

// describe fills in a branch's nominal results.
func (r *BranchResult) describe(st *state, i int) {
	amps := st.op.Currents[i]
	volts := st.across(r.Junction)
	mean := quantity.Amps(r.Control.Mean())
	r.Current.Nominal, r.Average = quantity.Amps(amps), quantity.Amps(amps)*mean
	r.Lead = r.Lead.loaded(amps)
	for k := range r.Lamps {
		l := &r.Lamps[k]
		l.describe(st.lamp(i, k))
		l.Average = l.Current.Nominal * mean
		l.Lit = float64(l.Current.Nominal) >= litAt*max(float64(r.Wanted), 1e-3)
		r.Lit = r.Lit || l.Lit
	}
	r.Resistor.Volts.Nominal = quantity.Volts(st.limiter(i))
	r.Resistor.Heat.Nominal = quantity.Watts(st.limiter(i) * amps)
	if r.Kind.resistor() {
		r.Resistor.Code = r.Resistor.Ohms.Code()
		r.Resistor.Bands, _ = r.Resistor.Ohms.Bands(r.Resistor.Tolerance) // a value outside the colour code has no rings: its code is shown
	}
	r.Headroom = quantity.Share(st.limiter(i) / st.terminal())
	r.WireDrop = quantity.Volts(st.terminal()-volts) + r.Lead.Drop
	r.Power = quantity.Watts(volts * amps)
}

// describe fills in a lamp's nominal results.
func (l *LampResult) describe(amps, volts float64) {
	l.Current.Nominal, l.Volts.Nominal, l.Power = quantity.Amps(amps), quantity.Volts(volts), quantity.Watts(amps*volts)
	if rated := l.Declared.Type.Intensity.V; rated.Amps > 0 {
		l.Bright = rated.Candelas * quantity.Candelas(amps/float64(rated.Amps))
	}
}

// totals sums over the circuit.
func totals(s *Solution) (t Totals) {
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
	return t
}
