package circuit

import (
	"spruelight/gen/circuit/nodal"
	"spruelight/gen/quantity"
)

// failLamps fails every lamp in turn, open and short, at the nominal supply.
// Lamps of one string with one curve fail alike, so each such case is solved
// once.
func failLamps(b *bench, s *Solution) bool {
	p := b.plan
	defer b.restore()
	b.restore()
	for i := range p.branches {
		bp := &p.branches[i]
		known := map[faultCase]*state{}
		for k := range bp.Lamps {
			for _, kind := range []FaultKind{Open, Short} {
				st, ok := b.failed(i, k, kind, known)
				if !ok {
					return false
				}
				s.Faults = append(s.Faults, faultResult(st, i, k, kind))
			}
		}
	}
	return true
}

// faultCase keeps failures of one branch apart by what they do to it.
type faultCase struct {
	kind  FaultKind
	curve nodal.Curve
	lamp  int
}

func (b *bench) failed(i, k int, kind FaultKind, known map[faultCase]*state) (*state, bool) {
	bp := &b.plan.branches[i]
	key := faultCase{kind: kind, curve: bp.Lamps[k].Curve}
	if bp.Parallel {
		key.lamp = k
	} else if kind == Open {
		key.curve = nodal.Curve{}
	}
	if st := known[key]; st != nil {
		return st.moved(i, k, kind), true
	}
	v := variant{ohms: 1, lamp: k, failed: kind}
	b.net.Branches[i].Port = bp.port(v)
	o, ok := b.run(b.plan.supply.open.Nominal)
	b.net.Branches[i].Port = bp.port(nominal)
	if !ok {
		return nil, false
	}
	st := b.state()
	st.op = o
	known[key] = st
	return st.moved(i, k, kind), true
}

// moved returns the state with the failure on another lamp of the branch.
func (st *state) moved(i, k int, kind FaultKind) *state {
	other := *st
	other.cases = soundCases(len(st.plan.branches))
	other.cases[i] = variant{ohms: 1, lamp: k, failed: kind}
	return &other
}

// faultResult compares a failed state with the sound one.
func faultResult(st *state, i, k int, kind FaultKind) FaultResult {
	p := st.plan
	r := FaultResult{Lamp: p.branches[i].Lamps[k].Ref, Kind: kind, Branch: i}
	for n := range p.branches {
		bp := &p.branches[n]
		for m := range bp.Lamps {
			if n == i && m == k {
				continue
			}
			was := &bp.Lamps[m]
			now := quantity.Amps(st.op.Currents[n])
			if bp.Parallel {
				amps, _ := st.lamp(n, m)
				now = quantity.Amps(amps)
			}
			if was.Lit && float64(now) < litAt*max(float64(bp.Wanted), 1e-3) {
				r.Dark = append(r.Dark, was.Ref)
			}
			if n == i {
				r.Hottest = max(r.Hottest, now)
			}
			if over(now, was.Rated, was.Limit) && !over(was.Current.Nominal, was.Rated, was.Limit) {
				r.Over = append(r.Over, OverLimit{was.Ref, now, was.Rated, was.Limit})
			}
		}
	}
	return r
}

// over reports whether a current is above a lamp's rated or absolute one.
func over(i, rated, limit quantity.Amps) bool {
	return rated > 0 && i > rated*(1+1e-9) || limit > 0 && i > limit*(1+1e-9)
}
