package circuit

import (
	"math"

	"spruelight/gen/circuit/nodal"
	"spruelight/gen/quantity"
)

// leastResistor is the smallest value chosen by auto, in ohms: the smallest in
// the usual assortments (common practice, no source).
const leastResistor quantity.Ohms = 1

// mostResistor is the largest value chosen, in ohms: none larger is sold.
const mostResistor quantity.Ohms = 1e9

// chooseResistors settles every auto resistor and leaves the nominal operating
// point in b.nominal. The smallest values are found with which no lamp exceeds
// its wanted current at the nominal supply, nor its absolute limit at the
// highest supply and the worst spread. Branches on one feed act on each other,
// so all are chosen together: first with every auto branch taking exactly what
// is wanted, then raised until the whole circuit agrees. Raising one value
// never lets another fall, so this ends at the smallest set.
func (b *bench) chooseResistors() bool {
	p := b.plan
	b.set(nominal)
	for i := range p.branches {
		if bp := &p.branches[i]; bp.Kind == Auto {
			b.net.Branches[i].Port = nodal.Port{Limit: bp.wantedTotal()} // a driver that drops nothing
		}
	}
	ideal, ok := b.run(p.supply.open.Nominal)
	if !ok {
		return false
	}
	for i := range p.branches {
		bp := &p.branches[i]
		if bp.Kind != Auto {
			continue
		}
		at := ideal.Volts[b.net.Branches[i].Feed]
		exact := bp.exactOhms(at)
		bp.Resistor.Exact, bp.Resistor.At = max(exact, 0), quantity.Volts(at)
		bp.Resistor.Ohms = preferred(p.series, max(exact, b.limitOhms(i)))
	}
	return b.raise()
}

// preferred returns the smallest value of a series that is not below a
// resistance, among those that are sold.
func preferred(series quantity.Series, ohms quantity.Ohms) quantity.Ohms {
	return series.Up(min(max(ohms, leastResistor), mostResistor))
}

// maxRaises bounds the rounds of raise; a few settle any circuit.
const maxRaises = 100

// raise lifts auto resistors until no lamp is above its wanted current: each
// to the value that its junction's present voltage asks for, at least to the
// next. The voltage rises as others are lifted, so a few rounds may follow.
func (b *bench) raise() bool {
	p := b.plan
	b.set(nominal)
	for range maxRaises {
		o, ok := b.run(p.supply.open.Nominal)
		if !ok {
			return false
		}
		b.nominal = o
		raised := false
		for i := range p.branches {
			bp := &p.branches[i]
			if bp.Kind != Auto || bp.Resistor.Ohms >= mostResistor || b.greatest(i, o) <= float64(bp.Wanted)*(1+1e-9) {
				continue
			}
			exact := bp.exactOhms(o.Volts[b.net.Branches[i].Feed])
			bp.Resistor.Ohms = max(p.series.Next(bp.Resistor.Ohms), preferred(p.series, exact))
			b.net.Branches[i].Port = bp.port(nominal)
			raised = true
		}
		if !raised {
			return true
		}
	}
	o, ok := b.run(p.supply.open.Nominal)
	b.nominal = o
	return ok
}

// limitOhms returns the smallest resistance with which no lamp of a branch
// exceeds its absolute limit with the highest supply, the resistor at its low
// end and the lowest forward voltages, all other branches being dark: then the
// feeds leave it most. With lamps side by side the lowest of them lies below
// the others by its spread.
func (b *bench) limitOhms(i int) quantity.Ohms {
	bp := &b.plan.branches[i]
	limit := bp.leastLimit()
	if math.IsInf(limit, 1) {
		return 0
	}
	volts, amps := 0.0, limit
	if bp.Parallel {
		v := variant{ohms: 1, lamp: bp.eldest(), alone: -1}
		volts = float64(bp.shifted(v.lamp, v).Volts(quantity.Amps(limit)))
		amps = 0
		for k := range bp.Lamps {
			amps += float64(bp.shifted(k, v).Current(quantity.Volts(volts)))
		}
	} else {
		for k := range bp.Lamps {
			volts += float64(bp.shifted(k, bp.greedy()).Volts(quantity.Amps(limit)))
		}
	}
	path := b.pathOhms(i) - b.inside + float64(b.plan.supply.inside.Low) + float64(bp.Lead.Ohms)
	ohms := (float64(b.plan.supply.open.High)-volts)/amps - path
	return quantity.Ohms(ohms / (1 - float64(bp.Resistor.Tolerance)))
}

// pathOhms returns the resistance from the source to a branch's junction.
func (b *bench) pathOhms(i int) float64 {
	sum := 0.0
	for k := b.net.Branches[i].Feed; k >= 0; k = b.net.Feeds[k].Parent {
		sum += b.net.Feeds[k].Ohms
	}
	return sum
}

// greatest returns the highest current of a lamp of a branch, in A.
func (b *bench) greatest(i int, o nodal.Operating) float64 {
	p := &b.net.Branches[i]
	if len(p.Port.Beside) == 0 {
		return o.Currents[i]
	}
	return p.Port.Most(p.Port.Over(o.Volts[p.Feed]))
}

// wantedTotal is the current of a branch in which no lamp has more than is
// wanted: with lamps side by side the sum of what each takes, in A.
func (bp *BranchResult) wantedTotal() float64 {
	if !bp.Parallel {
		return float64(bp.Wanted)
	}
	over, sum := bp.wantedVolts(), 0.0
	for k := range bp.Lamps {
		sum += float64(bp.Lamps[k].Curve.Current(quantity.Volts(over)))
	}
	return sum
}

// exactOhms returns the resistor that gives the wanted current at a voltage
// over the branch; it is not above zero where the lamps alone take too much.
func (bp *BranchResult) exactOhms(volts float64) quantity.Ohms {
	return quantity.Ohms(exactResistor.Of(bp.exactLet(quantity.Volts(volts))))
}

func (bp *BranchResult) exactLet(at quantity.Volts) quantity.Let {
	var drops []quantity.Volts
	for k := range bp.Lamps {
		drops = append(drops, bp.Lamps[k].Curve.Volts(bp.Wanted))
	}
	if bp.Parallel {
		drops = []quantity.Volts{quantity.Volts(bp.wantedVolts())}
	}
	return quantity.Let{"U": at, "V": quantity.Each(drops), "I": quantity.Amps(bp.wantedTotal()), "R_l": bp.Lead.Ohms}
}
