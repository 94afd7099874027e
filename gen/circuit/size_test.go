package circuit

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"spruelight/gen/source"
)

// A circuit of the largest size is worked out; one more of anything is not,
// and the finding says what to do.
func TestCircuitSize(t *testing.T) {
	base := func() Input {
		in := randomCircuit(rand.New(rand.NewPCG(48, 1)))
		in.Branches, in.Junctions = in.Branches[:1], nil
		in.Branches[0].Junction = source.Value[string]{}
		in.Branches[0].Lamps = in.Branches[0].Lamps[:1]
		return in
	}
	for _, c := range []struct {
		of   string
		most int
		make func(n int) Input
		rule *source.Rule
	}{
		{"junctions", maxJunctions, func(n int) Input {
			in := base()
			for i := range n - 1 {
				in.Junctions = append(in.Junctions, Junction{Name: written(fmt.Sprintf("deck %d", i+2))})
			}
			return in
		}, ruleCircuitSize},
		{"branches", maxBranches, func(n int) Input {
			in := base()
			for i := range n - 1 {
				b := in.Branches[0]
				b.Name = written(fmt.Sprintf("more %d", i))
				in.Branches = append(in.Branches, b)
			}
			return in
		}, ruleCircuitSize},
		{"lamps", maxLamps, func(n int) Input {
			in := base()
			for range n - 1 {
				in.Branches[0].Lamps = append(in.Branches[0].Lamps, in.Branches[0].Lamps[0])
			}
			return in
		}, ruleBranchEmpty},
	} {
		for _, n := range []int{c.most / 2, c.most, c.most + 1} {
			in := c.make(n)
			p := newPlan(&in)
			said := ""
			for _, f := range p.found {
				if f.Rule.Name == c.rule.Name {
					said = f.Says.String() + "; " + f.Do.String()
				}
			}
			if (said != "") != (n > c.most) {
				t.Errorf("%d %s: %q", n, c.of, said)
			}
		}
	}
}
