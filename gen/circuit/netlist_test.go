package circuit_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"

	"spruelight/gen/circuit"
	"spruelight/gen/circuit/netlist"
	"spruelight/gen/circuit/nodal"
	"spruelight/gen/quantity"
)

// Every test point lies on a node of the netlist that has its voltage.
func TestPointsLieOnNodes(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	for k := range 30 {
		s, _ := circuit.Solve(circuit.RandomCircuit(r))
		volts := nodeVolts(&s)
		for n, node := range netlist.PointNodes(&s) {
			p := &s.Points[n]
			if got, ok := volts[node]; !ok || math.Abs(got-float64(p.Volts.Nominal)) > 1e-9 {
				t.Errorf("circuit %d: TP%d (%s) has %v, node %q %g V", k, p.Number, p.Where, p.Volts.Nominal, node, got)
			}
		}
	}
}

// A second way to the same solution: every wire, resistor and lamp stamped
// into the full matrix of modified nodal analysis, node by node, without
// reducing a branch to a port. At the solution the equations must balance.
func TestFullMatrixBalances(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for k := range 100 {
		s, _ := circuit.Solve(circuit.RandomCircuit(r))
		volts := nodeVolts(&s)
		volts[netlist.Ground] = 0
		index := map[string]int{}
		for n := range volts {
			index[n] = len(index)
		}
		balance := mat.NewVecDense(len(index), nil)
		flow := func(from, to string, amps float64) {
			balance.SetVec(index[from], balance.AtVec(index[from])-amps)
			balance.SetVec(index[to], balance.AtVec(index[to])+amps)
		}
		stiff := map[string]bool{} // across almost no resistance a rounding of volts is amperes
		for _, e := range netlist.Elements(&s) {
			over := volts[e.From] - volts[e.To]
			switch e.Kind {
			case netlist.Source:
				flow(e.To, e.From, float64(s.Total.Current.Nominal))
			case netlist.Lamp:
				flow(e.From, e.To, float64(s.Branches[e.Branch].Lamps[e.Lamp].Curve.Current(quantity.Volts(over))))
			case netlist.Driver:
				r := &s.Branches[e.Branch].Resistor
				ohms := max(float64(r.Dropout/quantity.Volts(r.Set)), nodal.LeastOhms)
				flow(e.From, e.To, min(float64(r.Set), max(over, 0)/ohms))
			default:
				if e.Ohms < 1e-2 {
					stiff[e.From], stiff[e.To] = true, true
					continue
				}
				flow(e.From, e.To, over/float64(e.Ohms))
			}
		}
		for n, i := range index {
			if miss := math.Abs(balance.AtVec(i)); miss > 1e-8 && !stiff[n] {
				t.Fatalf("circuit %d: node %s is out of balance by %g A", k, n, miss)
			}
		}
	}
}

// nodeVolts returns the nominal voltage of every node of Elements but ground,
// to ground.
func nodeVolts(s *circuit.Solution) map[string]float64 {
	volts := map[string]float64{"supply": float64(s.Supply.Terminal.Nominal)}
	at := volts["supply"]
	for _, c := range []struct {
		contact *circuit.Contact
		node    string
	}{{s.Fuse, "fused"}, {s.Switch, "switched"}} {
		if c.contact != nil {
			at -= float64(c.contact.Drop)
			volts[c.node] = at
		}
	}
	elements := netlist.Elements(s)
	for _, e := range elements {
		if e.Branch < 0 && e.Kind == netlist.Wire {
			j := s.Junctions[e.Junction]
			plugged, drop := j.Feed.Plug != "", float64(j.Feed.Current)*float64(e.Ohms)
			if e.Ref[len(e.Ref)-1] == '+' {
				volts[e.To] = float64(j.Plus.Nominal)
				if plugged {
					volts[e.From] = volts[e.To] + drop
				}
				continue
			}
			volts[e.From] = float64(j.Minus.Nominal)
			if plugged {
				volts[e.To] = volts[e.From] - drop
			}
		}
	}
	for i := range s.Branches {
		branchVolts(s, i, elements, volts)
	}
	return volts
}

// branchVolts goes along a branch from plus and notes the voltage after each
// element; the last ends on its junction.
func branchVolts(s *circuit.Solution, i int, elements []netlist.Element, volts map[string]float64) {
	b := &s.Branches[i]
	at := float64(s.Junctions[b.Junction].Plus.Nominal)
	for _, e := range elements {
		if e.Branch != i {
			continue
		}
		switch e.Kind {
		case netlist.Wire, netlist.Plug:
			at -= float64(b.Lead.Current) * float64(e.Ohms)
		case netlist.Lamp:
			if b.Parallel && e.Lamp > 0 {
				continue
			}
			at -= float64(b.Lamps[e.Lamp].Volts.Nominal)
		default:
			at -= float64(b.Resistor.Volts.Nominal)
		}
		if _, known := volts[e.To]; !known && e.To != netlist.Ground { // the junction's return is known
			volts[e.To] = at
		}
	}
}
