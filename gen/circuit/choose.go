package circuit

import (
	"math"

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
		if bp := &p.branches[i]; bp.limiter.Kind == Auto {
			b.net.ports[i].model = model{limit: bp.wantedTotal()} // a driver that drops nothing
		}
	}
	ideal, ok := b.run(p.supply.open.Nominal)
	if !ok {
		return false
	}
	for i := range p.branches {
		bp := &p.branches[i]
		if bp.limiter.Kind != Auto {
			continue
		}
		exact := bp.exactOhms(ideal.volts[b.net.ports[i].feed])
		bp.exact = max(exact, 0)
		bp.limiter.Tolerance = p.tolerance
		bp.limiter.Ohms = p.preferred(max(exact, b.limitOhms(i)))
	}
	return b.raise()
}

// preferred returns the smallest value of the circuit's series that is not
// below a resistance, among those that are sold.
func (p *plan) preferred(ohms quantity.Ohms) quantity.Ohms {
	return p.series.Up(min(max(ohms, leastResistor), mostResistor))
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
			if bp.limiter.Kind != Auto || bp.limiter.Ohms >= mostResistor || b.greatest(i, o) <= float64(bp.wanted)*(1+1e-9) {
				continue
			}
			exact := bp.exactOhms(o.volts[b.net.ports[i].feed])
			bp.limiter.Ohms = max(p.series.Next(bp.limiter.Ohms), p.preferred(exact))
			b.net.ports[i].model = bp.model(nominal)
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
	if bp.parallel {
		v := variant{ohms: 1, lamp: bp.eldest(), alone: -1}
		volts = float64(bp.shifted(v.lamp, v).Volts(quantity.Amps(limit)))
		amps = 0
		for k := range bp.lamps {
			amps += float64(bp.shifted(k, v).Current(quantity.Volts(volts)))
		}
	} else {
		for k := range bp.lamps {
			volts += float64(bp.shifted(k, bp.greedy()).Volts(quantity.Amps(limit)))
		}
	}
	path := b.pathOhms(i) - b.inside + float64(b.plan.supply.inside.Low) + float64(bp.lead.Ohms)
	ohms := (float64(b.plan.supply.open.High)-volts)/amps - path
	return quantity.Ohms(ohms / (1 - float64(bp.limiter.Tolerance)))
}

// leastLimit returns the lowest absolute limit of a branch's lamps, in A.
func (bp *branchPlan) leastLimit() float64 {
	limit := math.Inf(1)
	for _, l := range bp.lamps {
		if l.limit > 0 {
			limit = min(limit, float64(l.limit))
		}
	}
	return limit
}

// pathOhms returns the resistance from the source to a branch's junction.
func (b *bench) pathOhms(i int) float64 {
	sum := 0.0
	for k := b.net.ports[i].feed; k >= 0; k = b.net.feeds[k].parent {
		sum += b.net.feeds[k].ohms
	}
	return sum
}

// eldest returns the lamp that takes most when lamps lie side by side.
func (bp *branchPlan) eldest() int {
	most := 0
	for k := range bp.lamps {
		if bp.lamps[k].curve.Volts(bp.wanted) < bp.lamps[most].curve.Volts(bp.wanted) {
			most = k
		}
	}
	return most
}

// greatest returns the highest current of a lamp of a branch, in A.
func (b *bench) greatest(i int, o operating) float64 {
	p := &b.net.ports[i]
	if len(p.model.beside) == 0 {
		return o.currents[i]
	}
	return p.model.most(p.model.over(o.volts[p.feed]))
}

// wantedTotal is the current of a branch in which no lamp has more than is
// wanted: with lamps side by side the sum of what each takes, in A.
func (bp *branchPlan) wantedTotal() float64 {
	if !bp.parallel {
		return float64(bp.wanted)
	}
	over, sum := bp.wantedVolts(), 0.0
	for k := range bp.lamps {
		sum += float64(bp.lamps[k].curve.Current(quantity.Volts(over)))
	}
	return sum
}

// wantedVolts is the voltage over the lamps at the wanted current.
func (bp *branchPlan) wantedVolts() float64 {
	sum, least := 0.0, math.Inf(1)
	for k := range bp.lamps {
		v := float64(bp.lamps[k].curve.Volts(bp.wanted))
		sum, least = sum+v, min(least, v)
	}
	if bp.parallel {
		return least
	}
	return sum
}

// exactOhms returns the resistor that gives the wanted current at a voltage
// over the branch; it is not above zero where the lamps alone take too much.
func (bp *branchPlan) exactOhms(volts float64) quantity.Ohms {
	return quantity.Ohms((volts-bp.wantedVolts())/bp.wantedTotal()) - bp.lead.Ohms
}
