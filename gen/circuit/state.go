package circuit

import (
	"spruelight/gen/circuit/nodal"
	"spruelight/gen/quantity"
)

// state is a solved network with the case that every branch was in: from it
// follows every voltage of the circuit.
type state struct {
	plan   *plan
	bench  *bench
	volts  float64 // of the source, unloaded
	op     nodal.Operating
	cases  []variant // of each branch; nil: all nominal
	inside float64   // ohm, of the supply
}

func (st *state) variant(i int) variant {
	if st.cases == nil {
		return nominal
	}
	return st.cases[i]
}

// total is the current from the supply, in A.
func (st *state) total() float64 { return st.op.Through[0] }

// terminal is the voltage at the supply's terminals.
func (st *state) terminal() float64 {
	return st.volts - st.total()*st.inside
}

// afterFuse is the voltage behind fuse and switch, whose contact drops nothing.
func (st *state) afterFuse() float64 {
	if st.plan.fuse == nil {
		return st.terminal()
	}
	return st.terminal() - st.total()*float64(st.plan.fuse.Ohms)
}

// minus and plus are the voltages of a junction to ground. Half of every
// feed's resistance lies in its return.
func (st *state) minus(junction int) float64 {
	sum := 0.0
	for k := junction; k >= 0; k = st.plan.junctions[k].From {
		sum += st.op.Through[st.bench.position[k]] * float64(st.plan.junctions[k].Feed.Ohms) / 2
	}
	return sum
}

func (st *state) plus(junction int) float64 { return st.minus(junction) + st.across(junction) }

// across is the voltage from a junction's plus to its minus.
func (st *state) across(junction int) float64 { return st.op.Volts[st.bench.position[junction]] }

// lamp returns the current through and the voltage over one lamp.
func (st *state) lamp(i, k int) (amps, volts float64) {
	bp, v := &st.plan.branches[i], st.variant(i)
	amps = st.op.Currents[i]
	switch {
	case v.cut:
		return 0, 0
	case bp.Parallel:
		return st.beside(i, k)
	case k == v.lamp && v.failed == Short:
		return amps, 0
	case k == v.lamp && v.failed == Open:
		return 0, st.across(bp.Junction)
	case bp.port(v).Broken:
		return 0, 0
	}
	return amps, float64(bp.shifted(k, v).Volts(quantity.Amps(amps)))
}

// beside is lamp for lamps side by side: all have one voltage.
func (st *state) beside(i, k int) (amps, volts float64) {
	bp, v := &st.plan.branches[i], st.variant(i)
	m := bp.port(v)
	volts = m.Over(max(st.across(bp.Junction), 0))
	switch {
	case k == v.lamp && v.failed == Open:
		return 0, volts
	case k == v.lamp && v.failed == Short:
		return st.op.Currents[i], volts
	}
	return float64(bp.shifted(k, v).Current(quantity.Volts(volts))), volts
}

// lampsFrom is the voltage over the lamps of a branch from the k-th to the
// last: what stands between a test point above lamp k and the branch's return.
func (st *state) lampsFrom(i, k int) float64 {
	bp := &st.plan.branches[i]
	if bp.Parallel {
		_, v := st.beside(i, 0)
		return v
	}
	sum := 0.0
	for ; k < len(bp.Lamps); k++ {
		_, v := st.lamp(i, k)
		sum += v
	}
	return sum
}

// limiter is the voltage over a branch's resistor or driver.
func (st *state) limiter(i int) float64 {
	bp := &st.plan.branches[i]
	amps := st.op.Currents[i]
	if st.variant(i).cut {
		return st.across(bp.Junction)
	}
	switch bp.Kind {
	case Auto, Fixed:
		return amps * float64(bp.Resistor.Ohms) * st.variant(i).ohms
	case ConstantCurrent:
		return max(st.across(bp.Junction)-st.lampsFrom(i, 0)-amps*float64(bp.Lead.Ohms), 0)
	}
	return 0
}

// above is the voltage to ground at the test point above lamp k of a branch.
func (st *state) above(i, k int) float64 {
	bp := &st.plan.branches[i]
	return st.minus(bp.Junction) + st.op.Currents[i]*float64(bp.Lead.Ohms)/2 + st.lampsFrom(i, k)
}
