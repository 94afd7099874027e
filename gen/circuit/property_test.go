package circuit

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"spruelight/gen/circuit/nodal"
	"spruelight/gen/quantity"
	"spruelight/testdata/effort"
)

// Kirchhoff's laws on the results as published: currents into every node sum
// to nothing, voltages around every loop too, both to 1e-9 relative.
func TestKirchhoff(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for k := range effort.Of(50, 100) {
		s, found := Solve(randomCircuit(r))
		if !s.Solved {
			t.Fatalf("circuit %d: %v", k, found)
		}
		if err := kirchhoff(&s); err != nil {
			t.Fatalf("circuit %d: %v", k, err)
		}
	}
}

func kirchhoff(s *Solution) error {
	into := make([]float64, len(s.Junctions))
	scale, power, slack := 1e-12, 0.0, 1e-9
	for _, b := range s.Branches {
		into[b.Junction] -= float64(b.Current.Nominal)
		scale += float64(b.Current.Nominal)
		lamps := 0.0
		for _, l := range b.Lamps {
			lamps += float64(l.Current.Nominal)
		}
		if b.Parallel && math.Abs(lamps-float64(b.Current.Nominal)) > 1e-9*float64(b.Current.Nominal)+1e-15 {
			return fmt.Errorf("%s: %g A in, %g A through its lamps", b.Name, b.Current.Nominal, lamps)
		}
		j := &s.Junctions[b.Junction]
		around := float64(b.Resistor.Volts.Nominal+b.Lead.Drop) - float64(j.Plus.Nominal-j.Minus.Nominal)
		for k, l := range b.Lamps {
			if !b.Parallel || k == 0 {
				around += float64(l.Volts.Nominal)
			}
		}
		joint := 0.0 // a branch of nothing but lamps still has a milliohm
		if b.Kind == None || b.Kind == ConstantCurrent && b.Resistor.Dropout == 0 {
			joint = nodal.LeastOhms * float64(b.Current.Nominal)
			power += joint * float64(b.Current.Nominal)
		}
		if math.Abs(around) > 1e-9*float64(s.Supply.Open.Nominal)+joint {
			return fmt.Errorf("%s: its loop misses by %g V", b.Name, around)
		}
	}
	for k, j := range s.Junctions {
		into[k] += float64(j.Current)
		if j.From >= 0 {
			into[j.From] -= float64(j.Current)
			from := s.Junctions[j.From]
			if miss := float64(from.Plus.Nominal - j.Plus.Nominal - j.Feed.Drop/2); math.Abs(miss) > 1e-9*float64(s.Supply.Open.Nominal) {
				return fmt.Errorf("%s: its feed misses by %g V", j.Name, miss)
			}
		}
	}
	for k, i := range into {
		if math.Abs(i) > 1e-9*scale {
			return fmt.Errorf("%s: %g A are lost", s.Junctions[k].Name, i)
		}
	}
	slack += power / float64(s.Total.Power)
	power = float64(s.Total.Lamps + s.Total.Limiters + s.Total.Wires)
	for _, c := range []*Contact{s.Fuse, s.Switch} {
		if c != nil {
			power += float64(c.Drop) * float64(s.Total.Current.Nominal)
		}
	}
	power += float64(s.Supply.Inside) * float64(s.Total.Current.Nominal) * float64(s.Total.Current.Nominal)
	if math.Abs(power-float64(s.Total.Power)) > slack*float64(s.Total.Power)+1e-15 {
		return fmt.Errorf("%g W come from the supply, %g W are used", s.Total.Power, power)
	}
	return nil
}

// More resistance anywhere never gives more current in that branch, nor in
// the whole circuit.
func TestMoreResistanceNeverMoreCurrent(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 9))
	for range effort.Of(30, 100) {
		in := randomCircuit(r)
		i := r.IntN(len(in.Branches))
		in.Branches[i].Resistor = written(Limiter{Kind: Fixed, Ohms: quantity.Ohms(10 + 500*r.Float64())})
		for k := range in.Branches {
			if in.Branches[k].Resistor.V.Kind == Auto {
				in.Branches[k].Resistor = written(Limiter{Kind: Fixed, Ohms: 220})
			}
		}
		before, _ := Solve(in)
		in.Branches[i].Resistor.V.Ohms *= 1.5
		after, _ := Solve(in)
		if after.Branches[i].Current.Nominal > before.Branches[i].Current.Nominal*(1+1e-12) {
			t.Fatalf("branch %d rose from %v to %v", i, before.Branches[i].Current.Nominal, after.Branches[i].Current.Nominal)
		}
		if after.Total.Current.Nominal > before.Total.Current.Nominal*(1+1e-12) {
			t.Fatalf("the total rose from %v to %v", before.Total.Current.Nominal, after.Total.Current.Nominal)
		}
		in.Branches[i].Resistor.V.Ohms /= 1.5
		if len(in.Junctions) > 0 && in.Junctions[0].Run.Length.Set {
			in.Junctions[0].Run.Length.V *= 4
			if longer, _ := Solve(in); longer.Total.Current.Nominal > before.Total.Current.Nominal*(1+1e-12) {
				t.Fatal("a longer feed raised the current")
			}
		}
	}
}

// The order in which branches are written changes nothing but the references.
func TestPermutingBranches(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 1))
	for range 20 {
		in := randomCircuit(r)
		one, _ := Solve(in)
		order := r.Perm(len(in.Branches))
		mixed := in
		mixed.Branches = make([]Branch, len(order))
		for k, from := range order {
			mixed.Branches[k] = in.Branches[from]
		}
		two, _ := Solve(mixed)
		for k, from := range order {
			a, b := one.Branches[from], two.Branches[k]
			if a.Resistor.Ohms != b.Resistor.Ohms {
				t.Fatalf("%s: %v and %v", a.Name, a.Resistor.Ohms, b.Resistor.Ohms)
			}
			near(t, a.Name, float64(b.Current.Nominal), float64(a.Current.Nominal), 1e-9*float64(a.Current.Nominal)+1e-15)
			near(t, a.Name+" high", float64(b.Current.High), float64(a.Current.High), 1e-9*float64(a.Current.High)+1e-15)
		}
	}
}

// No circuit within its tolerances leaves the corners: parts drawn at random
// from their ranges, each lamp by itself, never exceed the bands, and often
// come near them.
func TestCornersHold(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 3))
	nearest := 1.0
	for range 20 {
		in := randomCircuit(r)
		in.Supply.Kind, in.Supply.Regulated = written("mains adapter"), written(true)
		in.Supply.Tolerance = written(quantity.Share(0.05))
		s, _ := Solve(in)
		p := newPlan(&in)
		for i := range p.branches {
			p.branches[i].Resistor.Ohms = s.Branches[i].Resistor.Ohms
			if p.branches[i].Kind == Auto {
				p.branches[i].Resistor.Tolerance = p.tolerance
			}
		}
		b := newBench(p)
		for trial := range 60 {
			pull := []float64{0, 1, -1}[trial%3] // toward the middle, and toward either end
			draw := func() float64 { return min(max(r.Float64()*2-1+pull, -1), 1) }
			for i := range p.branches {
				b.net.Branches[i].Port = p.branches[i].drawn(draw)
			}
			volts := p.supply.open.Nominal * quantity.Volts(1-0.05*draw())
			o, ok := b.run(volts)
			if !ok {
				t.Fatal("not solved")
			}
			for i := range s.Branches {
				c := s.Branches[i].Current
				got := o.Currents[i]
				if got < float64(c.Low)*(1-1e-9)-1e-15 || got > float64(c.High)*(1+1e-9)+1e-15 {
					t.Fatalf("%s: %g A lies outside %g to %g A", s.Branches[i].Name, got, c.Low, c.High)
				}
				if c.High > 1e-4 {
					nearest = min(nearest, 1-got/float64(c.High))
				}
			}
			if total := o.Through[0]; total > float64(s.Total.Current.High)*(1+1e-9) || total < float64(s.Total.Current.Low)*(1-1e-9) {
				t.Fatalf("total of %g A lies outside %v", total, s.Total.Current)
			}
		}
	}
	if nearest > 0.02 {
		t.Errorf("no draw came nearer to a corner than %.1f %%", nearest*100)
	}
}

// drawn is a branch whose parts lie anywhere in their ranges.
func (bp *BranchResult) drawn(draw func() float64) nodal.Port {
	v := nominal
	v.ohms = 1 + float64(bp.Resistor.Tolerance)*draw()
	own := *bp
	own.Lamps = append([]LampResult(nil), bp.Lamps...)
	for k := range own.Lamps {
		own.Lamps[k].Curve.A += float64(own.Lamps[k].Spread) * draw()
	}
	return own.port(v)
}

// An auto resistor is the smallest of its series with which no lamp of the
// whole circuit is above its wanted current; the next value down would be.
func TestAutoIsSmallest(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 2))
	checked := 0
	for range effort.Of(12, 25) {
		in := randomCircuit(r)
		s, _ := Solve(in)
		for i, b := range s.Branches {
			if b.Kind != Auto {
				continue
			}
			for _, l := range b.Lamps {
				if l.Current.Nominal > b.Wanted*(1+1e-9) {
					t.Fatalf("%s: %v wanted, %v given", b.Name, b.Wanted, l.Current.Nominal)
				}
				if l.Limit > 0 && !b.Parallel && l.Current.High > l.Limit*(1+1e-9) {
					t.Fatalf("%s: limit %v, %v at the corner", b.Name, l.Limit, l.Current.High)
				}
			}
			if b.Resistor.Ohms <= leastResistor || checked > effort.Of(80, 300) {
				continue
			}
			checked++
			less := in
			less.Branches = append([]Branch(nil), in.Branches...)
			for k := range less.Branches {
				if less.Branches[k].Resistor.V.Kind == Auto {
					less.Branches[k].Resistor = written(Limiter{Kind: Fixed, Ohms: s.Branches[k].Resistor.Ohms, Tolerance: b.Resistor.Tolerance})
				}
			}
			less.Branches[i].Resistor.V.Ohms = b.Resistor.Below.Ohms
			if less.Branches[i].Resistor.V.Ohms < leastResistor {
				continue
			}
			worse, _ := Solve(less)
			p := newPlan(&less)
			p.branches[i].Resistor.Tolerance = b.Resistor.Tolerance
			ok := less.Branches[i].Resistor.V.Ohms < newBench(p).limitOhms(i)
			for _, l := range worse.Branches[i].Lamps {
				ok = ok || l.Current.Nominal > b.Wanted
			}
			if !ok {
				t.Fatalf("%s: %v would have done instead of %v", b.Name, b.Resistor.Below.Ohms, b.Resistor.Ohms)
			}
		}
	}
	if checked < 50 {
		t.Errorf("only %d resistors were checked", checked)
	}
}
