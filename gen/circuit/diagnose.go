package circuit

import (
	"math"
	"sort"

	"spruelight/gen/circuit/nodal"
	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// suspect is one way in which the circuit may differ from the plan, solved,
// with how badly the readings fit it.
type suspect struct {
	cause source.Message
	try   source.Message
	doubt float64 // how unlikely it is before any reading
	miss  float64
	fits  bool
}

// diagnosis tries one suspect after another against a series of readings.
type diagnosis struct {
	*bench
	s      *Solution
	probes []probe
	all    []suspect
}

// diagnose compares a series of readings with every suspect's solved circuit
// and names the one that they fit best. Of two that fit alike the simpler wins:
// a failed lamp before a wrong value that could be anything.
func diagnose(b *bench, s *Solution, probes []probe) Verdict {
	defer b.restore()
	b.restore()
	d := &diagnosis{bench: b, s: s, probes: probes}
	d.suspectSupply(d.try)
	for i := range s.Branches {
		d.suspectLamps(i, d.try)
		d.suspectResistor(i, d.try)
	}
	sort.SliceStable(d.all, func(x, y int) bool { return d.all[x].weight() < d.all[y].weight() })
	best := d.all[0]
	if !best.fits {
		return Verdict{
			Cause: source.Say("no single fault explains the readings (nearest: %s)", best.cause),
			Try:   source.Word("measure again along the test points from supply to lamp, and see where the voltage first differs from the card"),
		}
	}
	v := Verdict{Cause: best.cause, Try: best.try, Fits: true}
	for _, x := range d.all[1:] {
		if x.fits && x.weight() <= best.weight()+1 && x.cause.String() != best.cause.String() && len(v.Others) < 3 {
			v.Others = append(v.Others, x.cause)
		}
	}
	return v
}

// try weighs a suspect whose circuit was solved.
func (d *diagnosis) try(cause, next source.Message, doubt float64, st *state) {
	x := suspect{cause: cause, try: next, doubt: doubt, fits: true}
	x.weigh(d.probes, st)
	d.all = append(d.all, x)
}

// weight is how little a suspect explains the readings.
func (x *suspect) weight() float64 { return x.miss + x.doubt }

// weigh sums the squared misses of the readings from a suspect's circuit, each
// in units of what parts and meter may do, and no single one without bound.
func (x *suspect) weigh(probes []probe, st *state) {
	for k := range probes {
		pr := &probes[k]
		predicted := pr.predict(st)
		half := 0.0
		if e := pr.expected; e.Nominal > 0 {
			half = max(e.High-e.Nominal, e.Nominal-e.Low) / e.Nominal * math.Abs(predicted)
		}
		unit := max(half, meterShare*math.Abs(predicted)) + pr.step()
		z := (pr.value - predicted) / unit
		x.miss += min(z*z, 50)
		x.fits = x.fits && math.Abs(z) <= 1.5
	}
}

type suspecter func(cause, next source.Message, doubt float64, st *state)

// suspectSupply: dead, low or high.
func (d *diagnosis) suspectSupply(try suspecter) {
	b, supply := d.bench, &d.plan.supply
	dark := b.state()
	dark.volts = 0
	if o, ok := b.run(0); ok {
		dark.op = o
		try(source.Word("no supply: switched off, fuse open, a plug or feed wire broken"),
			source.Say("measure TP%d and follow the card to where the voltage stops", d.s.Points[0].Number), 1.5, dark)
	}
	b.restore()
	volts, ok := d.fitSupply()
	if !ok {
		return
	}
	st := b.state()
	st.volts = volts
	if st.op, ok = b.run(quantity.Volts(volts)); !ok {
		return
	}
	about := quantity.About(quantity.Volts(volts))
	switch {
	case volts > float64(supply.open.High):
		try(source.Say("the supply gives about %s unloaded, more than declared", about),
			source.Word("measure the supply with nothing connected"), 2.5, st)
	case volts < float64(supply.open.Low) && supply.kind.cells():
		try(source.Say("flat cells: about %s unloaded is left", about), source.Word("fit fresh cells and measure again"), 1.5, st)
	case volts < float64(supply.open.Low):
		try(source.Say("the supply gives about %s unloaded, less than declared, or a joint in the feed is bad", about),
			source.Word("measure the supply with nothing connected, then under load"), 2.5, st)
	}
}

// fitSupply finds the supply voltage with which the readings fit best, by
// golden sections between 0 and twice the declared.
func (d *diagnosis) fitSupply() (float64, bool) {
	b := d.bench
	miss := func(volts float64) float64 {
		st := b.state()
		o, ok := b.run(quantity.Volts(volts))
		if !ok {
			return math.Inf(1)
		}
		st.volts, st.op = volts, o
		var x suspect
		for k := range d.probes {
			pr := &d.probes[k]
			z := (pr.value - pr.predict(st)) / (0.02*pr.expected.High + pr.step())
			x.miss += z * z
		}
		return x.miss
	}
	low, high := 0.0, 2*float64(d.plan.supply.open.High)
	const golden = 0.6180339887498949
	for range 60 {
		a, c := high-golden*(high-low), low+golden*(high-low)
		if miss(a) < miss(c) {
			high = c
		} else {
			low = a
		}
	}
	volts := (low + high) / 2
	return volts, !math.IsInf(miss(volts), 0)
}

// suspectLamps: each lamp of a branch open, which one fitted the wrong way
// round looks like, or short.
func (d *diagnosis) suspectLamps(i int, try suspecter) {
	b, bp, known := d.bench, &d.plan.branches[i], map[faultCase]*state{}
	for k := range bp.Lamps {
		ref := bp.Lamps[k].Ref
		if st, ok := b.failed(i, k, Open, known); ok {
			try(source.Say("%s open, fitted the wrong way round, or a joint beside it broken", ref),
				source.Say("measure over %s: the whole supply stands over a lamp that is open or reversed; turn or change it", ref), 1, st)
		}
		if st, ok := b.failed(i, k, Short, known); ok {
			try(source.Say("%s short, or its leads touching", ref), source.Say("measure over %s: a short shows 0 V", ref), 1.2, st)
		}
	}
	if r := bp.Ref; r != "" && !bp.Parallel {
		b.net.Branches[i].Port = nodal.Port{Broken: true, Limit: math.Inf(1)}
		o, ok := b.run(d.plan.supply.open.Nominal)
		b.net.Branches[i].Port = bp.port(nominal)
		if ok {
			st := b.state()
			st.op, st.cases = o, soundCases(len(st.plan.branches))
			st.cases[i].cut = true
			try(source.Say("%s or the lead of %s open", r, bp.Name), source.Say("measure on both sides of %s", r), 1.1, st)
		}
	}
}

// soundCases is the sound case for every branch.
func soundCases(branches int) []variant {
	cases := make([]variant, branches)
	for i := range cases {
		cases[i] = nominal
	}
	return cases
}

// suspectResistor: the value that the branch's current points to, when that is
// a preferred one well off the plan; a ring misread by ten is likelier.
func (d *diagnosis) suspectResistor(i int, try suspecter) {
	b, bp := d.bench, &d.plan.branches[i]
	if !bp.Kind.resistor() {
		return
	}
	defer func() { b.net.Branches[i].Port = bp.port(nominal) }()
	test := func(ohms quantity.Ohms, doubt float64) {
		v := nominal
		v.ohms = float64(ohms / bp.Resistor.Ohms)
		b.net.Branches[i].Port = bp.port(v)
		if o, ok := b.run(d.plan.supply.open.Nominal); ok {
			st := b.state()
			st.op, st.cases = o, soundCases(len(st.plan.branches))
			st.cases[i] = v
			try(source.Say("%s is %s instead of %s", bp.Ref, ohms.Code(), bp.Resistor.Ohms.Code()),
				source.Say("read the rings of %s, or measure it with one end free", bp.Ref), doubt, st)
		}
	}
	test(bp.Resistor.Ohms*10, 2)
	test(bp.Resistor.Ohms/10, 2)
	for k := range d.probes {
		if ohms, ok := d.pointsTo(i, &d.probes[k]); ok {
			test(ohms, 3)
		}
	}
}

// pointsTo returns the preferred resistance with which a branch would carry
// the current that was read.
func (d *diagnosis) pointsTo(i int, pr *probe) (quantity.Ohms, bool) {
	bp := &d.plan.branches[i]
	if pr.unit != "A" || pr.value <= 1e-6 || bp.Parallel {
		return 0, false
	}
	// The probe belongs to this branch when breaking the branch silences it.
	st := d.state()
	st.op.Currents = append([]float64(nil), st.op.Currents...)
	st.op.Currents[i] = 0
	if pr.predict(st) != 0 {
		return 0, false
	}
	j := &d.s.Junctions[bp.Junction]
	ohms := (float64(j.Plus.Nominal-j.Minus.Nominal)-bp.voltsAt(quantity.Amps(pr.value)))/pr.value - float64(bp.Lead.Ohms)
	if ohms < 0.5 {
		return 0, false
	}
	near := d.plan.series.Nearest(quantity.Ohms(ohms))
	if ratio := float64(near / bp.Resistor.Ohms); ratio > 0.85 && ratio < 1.18 {
		return 0, false
	}
	return near, true
}
