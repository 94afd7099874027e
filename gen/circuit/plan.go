package circuit

import (
	"fmt"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// written wraps a value that has no place of its own.
func written[T any](v T) source.Value[T] { return source.Value[T]{V: v, Set: true} }

// Limits on the size of one circuit.
const (
	maxJunctions = 60
	maxBranches  = 400
	maxLamps     = 40 // in one branch
)

// Limits lists the bounds of this package for the guide.
var Limits = []source.Limit{
	{Of: "junctions of a circuit, the first counted", Most: fmt.Sprint(maxJunctions),
		Why: "The work grows with the cube of them; two circuits are worked out as readily.", Rule: ruleCircuitSize.Name},
	{Of: "branches of a circuit", Most: fmt.Sprint(maxBranches),
		Why: "A diagram of more cannot be read.", Rule: ruleCircuitSize.Name},
	{Of: "lamps of a branch", Most: fmt.Sprint(maxLamps),
		Why: "No supply at the bench lights more in series.", Rule: ruleBranchEmpty.Name},
}

// plan is a circuit read: every name looked up, every default filled in. What
// is worked out later goes into the same branches and junctions.
type plan struct {
	notes
	in        *Input
	series    quantity.Series
	tolerance quantity.Share
	supply    supplyPlan
	fuse      *Contact
	switched  *Contact
	junctions []JunctionResult // the first one is the feed's end
	order     []int            // of junctions, each after the one that feeds it
	branches  []BranchResult
}

var ruleCircuitSize = &source.Rule{Name: "circuit-size", Severity: source.Stop, Source: "limit of this program",
	Reason: "A circuit of more parts than this is a slip of the pen, and would take long to work out.",
	Keys:   "build circuits[]: branches, junctions"}

// newPlan reads an input. The plan can be solved if its findings do not stop.
func newPlan(in *Input) *plan {
	p := &plan{in: in, series: in.Series}
	if p.series.Name == "" {
		p.series = quantity.E24
	}
	p.tolerance = in.Tolerance.Or(p.series.Tolerance)
	if p.tolerance < 0 || p.tolerance > 0.5 {
		p.found.Add(ruleBranchValue.At(in.Tolerance.At, "write a tolerance from 0 % to 50 %, like 5 %",
			"a resistor tolerance of %v cannot be", p.tolerance))
		return p
	}
	if len(in.Junctions) >= maxJunctions || len(in.Branches) > maxBranches {
		p.found.Add(ruleCircuitSize.At(in.place(), "split it into several circuits",
			"circuit %q has %d junctions and %d branches; at most %d and %d are worked out",
			in.Name.V, len(in.Junctions)+1, len(in.Branches), maxJunctions, maxBranches))
		return p
	}
	p.supply = readSupply(in, &p.notes)
	p.readContacts()
	p.readJunctions()
	p.readBranches()
	return p
}

func (p *plan) readContacts() {
	in := p.in
	if f := in.Fuse; f.Rated.Set || f.Text.Set || f.Resistance.Set {
		p.fuse = &Contact{Text: f.Text.V, Ohms: f.Resistance.V}
		if f.Text.V == "" && f.Rated.V > 0 {
			p.fuse.Text = f.Rated.V.String()
		}
		if !f.Resistance.Set && f.Rated.V > 0 {
			// Small cartridge fuses drop about 0.1 V cold at their rated
			// current (common practice, no source).
			p.fuse.Ohms = quantity.Ohms(0.1 / float64(f.Rated.V))
			p.assumed.add(source.Say("fuse of %s cold", quantity.About(p.fuse.Ohms)))
		}
	}
	if in.Switch.Set {
		p.switched = &Contact{Text: in.Switch.V}
	}
}
