package circuit

import "spruelight/gen/quantity"

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
			f = feed{parent: b.position[p.junctions[k].From], ohms: float64(p.junctions[k].Feed.Ohms)}
		}
		b.net.feeds = append(b.net.feeds, f)
	}
	b.rest = float64(p.junctions[0].Feed.Ohms)
	for _, c := range []*Contact{p.fuse, p.switched} {
		if c != nil {
			b.rest += float64(c.Ohms)
		}
	}
	b.setInside(p.supply.inside.Nominal)
	for i := range p.branches {
		b.net.ports = append(b.net.ports, port{feed: b.position[p.branches[i].Junction]})
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
