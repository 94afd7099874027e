package circuit

import (
	"fmt"
	"testing"

	"spruelight/gen/circuit/nodal"
	"spruelight/gen/quantity"
)

// large declares a hundred branches of three lamps on ten junctions.
func large() Input {
	in := Input{Supply: Supply{Volts: written(quantity.Volts(12)), Kind: written("mains adapter")}, Circuit: Circuit{Name: written("large"), Feed: awg(22, 0.4)}}
	for k := 1; k < 10; k++ {
		j := Junction{Name: written(fmt.Sprintf("junction %d", k+1)), Run: awg(26, 0.15)}
		if k > 3 {
			j.From = written(fmt.Sprintf("junction %d", k/2+1))
		}
		in.Junctions = append(in.Junctions, j)
	}
	for k := range 100 {
		b := Branch{Name: written(fmt.Sprintf("branch %d", k+1)), Lamps: []Fitted{white(), white(), white()}, Current: written(quantity.Amps(0.005)), Lead: awg(34, 0.2)}
		if k%10 > 0 {
			b.Junction = written(fmt.Sprintf("junction %d", k%10+1))
		}
		in.Branches = append(in.Branches, b)
	}
	return in
}

// The operating point alone, cold: the reckoning that the 5 ms are meant for.
func BenchmarkOperatingPoint(b *testing.B) {
	in := large()
	p := newPlan(&in)
	bench := newBench(p)
	bench.chooseResistors()
	for b.Loop() {
		bench.nominal = nodal.Operating{}
		if _, ok := bench.run(p.supply.open.Nominal); !ok {
			b.Fatal("not solved")
		}
	}
}

// Everything the pages show of the same circuit.
func BenchmarkSolve(b *testing.B) {
	in := large()
	for b.Loop() {
		if s, _ := Solve(in); !s.Solved {
			b.Fatal("not solved")
		}
	}
}
