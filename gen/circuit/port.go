package circuit

import (
	"math"

	"spruelight/gen/circuit/nodal"
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

// port returns the branch as a one-port in one case.
func (bp *BranchResult) port(v variant) nodal.Port {
	m := nodal.Port{Limit: math.Inf(1), Ohms: float64(bp.Lead.Ohms)}
	switch l := &bp.Resistor; bp.Kind {
	case Auto, Fixed:
		m.Ohms += float64(l.Ohms) * v.ohms
	case ConstantCurrent:
		m.Limit = float64(l.Set) / v.ohms
		m.Ohms += float64(l.Dropout) / m.Limit
	}
	for k := range bp.Lamps {
		c := bp.shifted(k, v)
		d := nodal.NewDiode(c.A, c.B)
		d.Ohms = c.C
		switch {
		case k == v.lamp && v.failed == Open && bp.Parallel:
			continue
		case k == v.lamp && v.failed == Open:
			m.Broken = true
		case k == v.lamp && v.failed == Short && bp.Parallel:
			d = nodal.Diode{}
		case k == v.lamp && v.failed == Short:
			continue
		}
		if bp.Parallel {
			m.Beside = append(m.Beside, d)
			continue
		}
		m.Join(d)
		m.Ohms += d.Ohms
	}
	return m
}

// shifted is a lamp's curve in a case.
func (bp *BranchResult) shifted(k int, v variant) nodal.Curve {
	shift := v.volts
	if k == v.lamp {
		shift = v.alone
	}
	return bp.Lamps[k].Curve.Shifted(quantity.Volts(shift) * bp.Lamps[k].Spread)
}

// leastLimit returns the lowest absolute limit of a branch's lamps, in A.
func (bp *BranchResult) leastLimit() float64 {
	limit := math.Inf(1)
	for _, l := range bp.Lamps {
		if l.Limit > 0 {
			limit = min(limit, float64(l.Limit))
		}
	}
	return limit
}

// eldest returns the lamp that takes most when lamps lie side by side.
func (bp *BranchResult) eldest() int {
	most := 0
	for k := range bp.Lamps {
		if bp.Lamps[k].Curve.Volts(bp.Wanted) < bp.Lamps[most].Curve.Volts(bp.Wanted) {
			most = k
		}
	}
	return most
}

// wantedVolts is the voltage over the lamps at the wanted current.
func (bp *BranchResult) wantedVolts() float64 {
	sum, least := 0.0, math.Inf(1)
	for k := range bp.Lamps {
		v := float64(bp.Lamps[k].Curve.Volts(bp.Wanted))
		sum, least = sum+v, min(least, v)
	}
	if bp.Parallel {
		return least
	}
	return sum
}

// voltsAt is what the lamps of a branch need at a current each.
func (bp *BranchResult) voltsAt(i quantity.Amps) float64 {
	sum, most := 0.0, 0.0
	for _, l := range bp.Lamps {
		v := float64(l.Curve.Volts(i))
		sum, most = sum+v, max(most, v)
	}
	if bp.Parallel {
		return most
	}
	return sum
}

// refs returns the references of a branch's lamps.
func (b *BranchResult) refs() []string {
	all := make([]string, len(b.Lamps))
	for k, l := range b.Lamps {
		all[k] = l.Ref
	}
	return all
}
