package circuit

import (
	"math"
	"math/rand/v2"
	"testing"

	"spruelight/gen/quantity"
)

// Whatever is declared, solving ends, gives no NaN, and what it gives obeys
// Kirchhoff's laws.
func FuzzSolve(f *testing.F) {
	f.Add(uint64(1), 5.0, 0.01, 0.3, 2.0, 0.02, 1.0)
	f.Add(uint64(2), 1e-9, 10.0, 0.0, 60.0, 1e-6, 0.0)
	f.Add(uint64(3), 1000.0, 1e-9, 1e5, 0.01, 9.0, 50.0)
	f.Add(uint64(4), 12.0, 0.02, 1e-12, 3.0, 0.02, 1e8)
	f.Add(uint64(5), math.Inf(1), math.NaN(), -1.0, -3.0, 0.0, math.Inf(-1))
	f.Fuzz(func(t *testing.T, seed uint64, volts, amps, length, forward, at, ohms float64) {
		in := randomCircuit(rand.New(rand.NewPCG(seed, 1)))
		if len(in.Branches) > 8 {
			in.Branches = in.Branches[:8]
		}
		in.Supply.Volts = written(quantity.Volts(volts))
		in.Feed = awg(28, quantity.Metres(length))
		b := &in.Branches[0]
		b.Current = written(quantity.Amps(amps))
		b.Lamps[0].Type.Forward = append(b.Lamps[0].Type.Forward[:0:0], written(quantity.Point{Volts: quantity.Volts(forward), Amps: quantity.Amps(at)}))
		if seed%2 == 1 {
			b.Resistor = written(Limiter{Kind: Fixed, Ohms: quantity.Ohms(ohms)})
		}
		in.Readings = []Reading{{Where: written("branch 1"), Current: written(quantity.Amps(amps))}}
		s, found := Solve(in)
		if !s.Solved {
			stops := false
			for _, x := range found {
				stops = stops || x.Severity().String() == "stop"
			}
			if !stops {
				t.Fatalf("not solved, and nothing says why: %v", found)
			}
			return
		}
		if err := kirchhoff(&s); err != nil {
			t.Fatal(err)
		}
		for _, b := range s.Branches {
			for _, v := range []float64{float64(b.Current.Nominal), float64(b.Current.Low), float64(b.Current.High), float64(b.Resistor.Volts.High), float64(b.Resistor.Heat.High), float64(b.Headroom), float64(b.Power)} {
				if math.IsNaN(v) || math.IsInf(v, 0) || v < 0 {
					t.Fatalf("%s: %+v", b.Name, b)
				}
			}
			if b.Current.Low > b.Current.Nominal*(1+1e-9) || b.Current.High < b.Current.Nominal*(1-1e-9) {
				t.Fatalf("%s: band %v", b.Name, b.Current)
			}
		}
	})
}
