package circuit

import (
	"math"

	"spruelight/gen/quantity"
)

// variant is one case of a branch: how its parts differ from their nominal
// values, and which lamp has failed.
type variant struct {
	ohms   float64 // times the resistor's value; for a driver, over its current
	volts  float64 // of its spread, added to every lamp: -1, 0 or 1
	lamp   int     // one lamp apart from the others, -1: none
	alone  float64 // of that lamp's spread, instead of volts
	failed FaultKind
	cut    bool // open above the lamps: resistor or lead
}

var nominal = variant{ohms: 1, lamp: -1}

// model returns the branch as a one-port in one case.
func (bp *branchPlan) model(v variant) model {
	m := model{limit: math.Inf(1), ohms: float64(bp.lead.Ohms)}
	switch l := bp.limiter; l.Kind {
	case Auto, Fixed:
		m.ohms += float64(l.Ohms) * v.ohms
	case ConstantCurrent:
		m.limit = float64(l.current) / v.ohms
		m.ohms += float64(l.dropout) / m.limit
	}
	for k := range bp.lamps {
		lp := &bp.lamps[k]
		shift := v.volts
		if k == v.lamp {
			shift = v.alone
		}
		d := newDiode(lp.curve.A+shift*lp.spread, lp.curve.B)
		d.ohms = lp.curve.C
		switch {
		case k == v.lamp && v.failed == Open && bp.parallel:
			continue
		case k == v.lamp && v.failed == Open:
			m.broken = true
		case k == v.lamp && v.failed == Short && bp.parallel:
			d = diode{}
		case k == v.lamp && v.failed == Short:
			continue
		}
		if bp.parallel {
			m.beside = append(m.beside, d)
			continue
		}
		m.join(d)
		m.ohms += d.ohms
	}
	return m
}

// bench is where a plan is solved, again and again with small differences.
type bench struct {
	plan     *plan
	net      network
	work     *workspace
	position []int // of each junction among the network's feeds
	nominal  operating
	inside   float64 // ohm: the supply's, now
	rest     float64 // ohm: of the feed's way without it
	culprit  int     // index of the branch that defeated the last run
}

func newBench(p *plan) *bench {
	b := &bench{plan: p, position: make([]int, len(p.junctions))}
	for at, k := range p.order {
		b.position[k] = at
		f := feed{parent: -1}
		if k > 0 {
			f = feed{parent: b.position[p.junctions[k].parent], ohms: float64(p.junctions[k].feed.Ohms)}
		}
		b.net.feeds = append(b.net.feeds, f)
	}
	b.rest = float64(p.feed.Ohms)
	for _, c := range []*Contact{p.fuse, p.switched} {
		if c != nil {
			b.rest += float64(c.Ohms)
		}
	}
	b.setInside(p.supply.inside.Nominal)
	for i := range p.branches {
		b.net.ports = append(b.net.ports, port{feed: b.position[p.branches[i].junction]})
	}
	b.work = newWorkspace(&b.net)
	return b
}

// setInside sets the supply's inside resistance.
func (b *bench) setInside(ohms quantity.Ohms) {
	b.inside = float64(ohms)
	b.net.feeds[0].ohms = b.rest + b.inside
}

// restore sets everything back to nominal.
func (b *bench) restore() {
	b.setInside(b.plan.supply.inside.Nominal)
	b.set(nominal)
}

// state returns the nominal operating point.
func (b *bench) state() *state {
	return &state{b.plan, b, float64(b.plan.supply.open.Nominal), b.nominal, nil, float64(b.plan.supply.inside.Nominal)}
}

// run solves the network as its ports stand, at a voltage of the source.
func (b *bench) run(volts quantity.Volts) (operating, bool) {
	b.net.volts = float64(volts)
	o, culprit, err := b.net.solve(b.work, b.nominal.volts)
	if err != nil {
		b.culprit = max(culprit, 0)
		return operating{}, false
	}
	return o, true
}

// set gives every port the same case.
func (b *bench) set(v variant) {
	for i := range b.plan.branches {
		b.net.ports[i].model = b.plan.branches[i].model(v)
	}
}
