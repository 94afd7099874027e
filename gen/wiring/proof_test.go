package wiring

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"spruelight/gen/circuit"

	"spruelight/testdata/effort"
	"spruelight/testdata/readback"
)

// TestReadBack rebuilds the netlist of the example circuits from the drawing's
// coordinates alone and compares it with the declared one.
func TestReadBack(t *testing.T) {
	for _, c := range circuits() {
		for _, width := range []float64{Wide, Narrow} {
			s := solved(t, c.in)
			if err := proof(&s, width); err != nil {
				t.Errorf("%s, %g wide: %v", c.name, width, err)
			}
		}
	}
}

func proof(s *circuit.Solution, width float64) error {
	r, err := readback.Read(DiagramFor("d", *s, width, nil).File())
	if err != nil {
		return err
	}
	if err := r.Compare(s); err != nil {
		return err
	}
	return r.CheckLayout()
}

// TestReadBackRandom does the same for seeded random circuits with every
// feature, most of them small, some of 60 branches, at both widths.
func TestReadBackRandom(t *testing.T) {
	const batches = 8
	n := effort.Of(160, 2000)
	for batch := range batches {
		t.Run(fmt.Sprintf("batch %d", batch+1), func(t *testing.T) {
			t.Parallel()
			for k := batch; k < n; k += batches {
				proveRandom(t, k)
			}
		})
	}
}

func proveRandom(t *testing.T, k int) {
	r := rand.New(rand.NewPCG(60, uint64(k)))
	u := r.Float64()
	in := randomCircuit(r, 1+int(59*u*u*u*u))
	if k%200 == 0 {
		in = randomCircuit(r, 60)
	}
	s, found := circuit.Solve(in)
	if !s.Solved {
		t.Fatalf("circuit %d: %v", k, found)
	}
	if err := proof(&s, []float64{Wide, Narrow}[k/8%2]); err != nil {
		t.Fatalf("circuit %d of %d branches: %v", k, len(in.Branches), err)
	}
}
