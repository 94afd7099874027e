package circuit

import (
	"spruelight/gen/source"
)

// Solve works a circuit out. The findings say what is wrong with it; where one
// of them is of severity stop and Solution.Solved is false, only names and
// references of the solution mean anything.
func Solve(in Input) (Solution, []source.Finding) {
	p := newPlan(&in)
	s := Solution{Circuit: in, Name: in.Name.V, Next: in.First.from()}
	if !p.found.Stops() {
		b := newBench(p)
		s.Solved = b.chooseResistors() && work(b, &s)
		if s.Solved {
			judge(b, &s)
		} else {
			b.unsolved()
		}
	}
	s.Assumed = p.assumed.list()
	return s, p.found
}

var ruleUnsolved = &source.Rule{Name: "circuit-unsolved", Severity: source.Stop, Source: arithmetic,
	Reason: "Without an operating point no figure of the circuit can be given.",
	Keys:   "build circuits[]: name, branches"}

// unsolved says which branch defeats the circuit.
func (b *bench) unsolved() {
	p := b.plan
	at, name := p.in.place(), source.Word("the feed")
	if b.culprit < len(p.branches) {
		at, name = p.branches[b.culprit].Declared.place(), source.Say("branch %q", p.branches[b.culprit].Name)
	}
	p.found.Add(ruleUnsolved.At(at, "check the lamps' forward voltages and what limits the current there",
		"no operating point of circuit %q was found; %s defeats it", p.in.Name.V, name))
}

// work fills in the results from the nominal operating point outward.
func work(b *bench, s *Solution) bool {
	describe(b, s)
	return fillBands(b, s) && failLamps(b, s)
}

// judge adds what rests on the results: pairs, cells, heat, readings, checks.
func judge(b *bench, s *Solution) {
	p := b.plan
	s.series = p.series
	rateResistors(s, p.series)
	s.Matched = matchLamps(s)
	s.Cells = cellLife(b)
	testPoints(b.state(), s)
	check(p, s)
	readings(b, s)
	s.Cautions = cautions(&p.supply, s.Branches)
	s.Figures = s.totalFigures()
}
