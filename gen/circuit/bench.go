package circuit

import (
	"spruelight/gen/circuit/nodal"
	"spruelight/gen/quantity"
)

// bench is where a plan is solved, again and again with small differences.
type bench struct {
	plan     *plan
	net      nodal.Network
	work     *nodal.Workspace
	position []int // of each junction among the network's feeds
	nominal  nodal.Operating
	inside   float64 // ohm: the supply's, now
	rest     float64 // ohm: of the feed's way without it
	culprit  int     // index of the branch that defeated the last run
}

func newBench(p *plan) *bench {
	b := &bench{plan: p, position: make([]int, len(p.junctions))}
	for at, k := range p.order {
		b.position[k] = at
		f := nodal.Feed{Parent: -1}
		if k > 0 {
			f = nodal.Feed{Parent: b.position[p.junctions[k].From], Ohms: float64(p.junctions[k].Feed.Ohms)}
		}
		b.net.Feeds = append(b.net.Feeds, f)
	}
	b.rest = float64(p.junctions[0].Feed.Ohms)
	for _, c := range []*Contact{p.fuse, p.switched} {
		if c != nil {
			b.rest += float64(c.Ohms)
		}
	}
	b.setInside(p.supply.inside.Nominal)
	for i := range p.branches {
		b.net.Branches = append(b.net.Branches, nodal.Branch{Feed: b.position[p.branches[i].Junction]})
	}
	b.work = nodal.NewWorkspace(&b.net)
	return b
}

// setInside sets the supply's inside resistance.
func (b *bench) setInside(ohms quantity.Ohms) {
	b.inside = float64(ohms)
	b.net.Feeds[0].Ohms = b.rest + b.inside
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
func (b *bench) run(volts quantity.Volts) (nodal.Operating, bool) {
	b.net.Volts = float64(volts)
	o, culprit, err := b.net.Solve(b.work, b.nominal.Volts)
	if err != nil {
		b.culprit = max(culprit, 0)
		return nodal.Operating{}, false
	}
	return o, true
}

// set gives every port the same case.
func (b *bench) set(v variant) {
	for i := range b.plan.branches {
		b.net.Branches[i].Port = b.plan.branches[i].port(v)
	}
}
