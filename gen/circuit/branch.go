package circuit

import (
	"fmt"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// defaultCurrent is what a lamp gets when nothing is written: 2 to 5 mA suit
// most lamps inside a model (common practice, no source).
const defaultCurrent quantity.Amps = 0.005

var ruleCircuitEmpty = &source.Rule{Name: "circuit-empty", Severity: source.Warn, Source: arithmetic,
	Reason: "A circuit without branches has nothing to light.",
	Keys:   "build circuits[]: name, branches"}

func (p *plan) readBranches() {
	in := p.in
	if len(in.Branches) == 0 {
		p.found.Add(ruleCircuitEmpty.At(in.place(), "add a branch with its lamps", "circuit %q has no branches", in.Name.V))
	}
	index := map[string]int{}
	for i, j := range p.junctions {
		index[j.Name] = i
	}
	lamp := max(in.First.Lamp, 1)
	p.branches = make([]BranchResult, len(in.Branches))
	for i := range in.Branches {
		b := &p.branches[i]
		declared := &in.Branches[i]
		b.Declared, b.Name, b.Matched = declared, declared.Name.V, declared.Matched.V
		if b.Name == "" {
			b.Name = fmt.Sprintf("branch %d", i+1)
		}
		b.Junction, _ = p.junction(declared.Junction, index)
		b.Parallel = declared.Parallel.V && len(declared.Lamps) > 1
		b.Control = readControl(declared.Control)
		b.Lead = p.run(declared.Lead, source.Say("the lead of %s", b.Name))
		p.readLamps(b, &lamp)
		if !p.found.Stops() {
			p.readLimiter(b)
		}
	}
}

var ruleBranchEmpty = &source.Rule{Name: "branch-empty", Severity: source.Stop, Source: arithmetic,
	Reason: "A branch without a lamp is a short circuit or nothing.",
	Keys:   "build circuits[].branches[]: name, lamps"}

func (p *plan) readLamps(b *BranchResult, number *int) {
	if n := len(b.Declared.Lamps); n == 0 || n > maxLamps {
		p.found.Add(ruleBranchEmpty.At(b.Declared.place(), source.Say("give it 1 to %d lamps", maxLamps), "branch %q has %d lamps", b.Name, n))
		return
	}
	for i := range b.Declared.Lamps {
		ref := LampRef(*number)
		*number++
		l := p.readLamp(&b.Declared.Lamps[i], ref, b.Name)
		l.Fibres = p.in.fibresOf(ref, l.Declared.Type.Diameter())
		b.Lamps, b.Fibres = append(b.Lamps, l), append(b.Fibres, l.Fibres...)
	}
}

var ruleBranchValue = &source.Rule{Name: "branch-value", Severity: source.Stop, Source: arithmetic,
	Reason: "A value of the branch lies outside what can be.",
	Keys: "build circuits[].branches[]: name, current, resistor, driver, control; build circuits[].feed: length; " +
		"build circuits[].branches[].lead: length"}

// readLimiter settles what limits a branch's current and what is wanted.
func (p *plan) readLimiter(b *BranchResult) {
	written, r := b.Declared.Resistor.V, &b.Resistor
	b.Kind, r.Ohms, r.Rating, r.Tolerance = written.Kind, written.Ohms, written.Rated, written.Tolerance
	if d := b.Declared.Driver; d.Current.Set {
		b.Kind, *r = ConstantCurrent, ResistorResult{Set: d.Current.V, Dropout: d.Dropout.V, Tolerance: d.Tolerance.V}
	}
	if b.Kind == Fixed && r.Ohms == 0 {
		b.Kind = None
	}
	if !r.canBe(b.Kind) {
		p.found.Add(ruleBranchValue.At(b.Declared.limiterAt(), "write auto, a value like 470 ohm, or driver: {current: 10 mA, dropout: 0.5 V}",
			"what limits the current of branch %q lies outside what can be", b.Name))
		return
	}
	if r.Tolerance == 0 {
		r.Tolerance = p.tolerance
		if !p.in.Tolerance.Set && b.Kind != None {
			p.assumed.add(source.Say("resistors within %s, as the %s series is made for", p.tolerance, p.series.Name))
		}
	}
	b.Wanted = b.Declared.Current.V
	switch {
	case b.Declared.Current.Set:
		if !(b.Wanted > 0) || b.Wanted > 10 {
			p.found.Add(ruleBranchValue.At(b.Declared.Current.At, "write the current each lamp shall get, like 5 mA",
				"branch %q wants %v", b.Name, b.Wanted))
		}
	case b.Kind == ConstantCurrent:
		b.Wanted = r.Set
	case b.Kind == Auto:
		b.Wanted, b.Assumed = defaultCurrent, true
		for _, l := range b.Lamps {
			if l.Rated > 0 {
				b.Wanted = min(b.Wanted, l.Rated)
			}
		}
		p.assumed.add(source.Say("wanted current %s", b.Wanted), b.Name)
	}
}

// canBe reports whether what was written of a limiter lies in what there is.
func (r *ResistorResult) canBe(kind LimiterKind) bool {
	if kind == ConstantCurrent && !(r.Set > 0 && r.Set <= 10 && r.Dropout >= 0 && r.Dropout < 100) {
		return false
	}
	return r.Ohms >= 0 && r.Ohms <= 1e9 && r.Tolerance >= 0 && r.Tolerance <= 0.5
}
