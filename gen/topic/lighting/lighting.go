// Package lighting is the topic of lamps and what feeds them: the sums of a
// build's circuits, with its pages on them: the lighting page and the meter card.
package lighting

import (
	"slices"
	"time"

	"spruelight/gen/circuit"
	"spruelight/gen/source"
	"spruelight/gen/topic"
)

// Names of a build's pages on its circuits.
const (
	File      = "lighting.html"
	MeterFile = "meter.html"
)

// Result is what was worked out of a build's circuits.
type Result struct {
	topic.Outcome
	Circuits []Circuit // that could be handed over, in the order of build.md; not each is solved
	Areas    []circuit.AreaHeat
}

// Circuit is one circuit with what was found in it, which its page shows too.
type Circuit struct {
	Solution circuit.Solution
	Found    source.Findings
}

// Reckon works out every circuit of a build. References run on from one
// circuit to the next. Readings name test points, so the circuits are worked
// out before it is known to which one a reading belongs, and those that have
// readings once more with them.
func Reckon(f topic.Facts) Result {
	r := Result{Outcome: topic.Outcome{Found: checkNames(f)}}
	var inputs []circuit.Input
	var handed []source.Findings
	var next circuit.Refs
	for i := range f.Front.Circuits {
		c := &f.Front.Circuits[i]
		in, found := handOver(f, c, next)
		if found.Stops() {
			r.Found.Add(found...)
			next.Lamp = max(next.Lamp, 1) + c.Lamps()
			continue
		}
		s, more := circuit.Solve(in)
		if next = s.Next; !s.Solved {
			next.Lamp = max(in.First.Lamp, 1) + c.Lamps()
		}
		inputs, handed = append(inputs, in), append(handed, found)
		r.Circuits = append(r.Circuits, Circuit{Solution: s, Found: more})
	}
	r.readMeter(f, inputs)
	for i := range r.Circuits {
		c := &r.Circuits[i]
		c.Found = append(handed[i], c.Found...)
		r.Found.Add(c.Found...)
	}
	r.heatAreas(f)
	if len(r.Solved()) > 0 {
		r.Pages = []string{File, MeterFile}
	}
	return r
}

// Judged returns what was worked out of the reading at a place, nil where
// nothing was.
func (r *Result) Judged(at source.Span) *circuit.JudgedReading {
	for i := range r.Circuits {
		judged := r.Circuits[i].Solution.Judged
		for k := range judged {
			if judged[k].Reading.At == at {
				return &judged[k]
			}
		}
	}
	return nil
}

// Solved lists the circuits that could be worked out.
func (r *Result) Solved() []circuit.Solution {
	var all []circuit.Solution
	for i := range r.Circuits {
		if s := r.Circuits[i].Solution; s.Solved {
			all = append(all, s)
		}
	}
	return all
}

// readMeter gives every reading to the circuit that knows its place, or else
// to the first, which says that it does not.
func (r *Result) readMeter(f topic.Facts, inputs []circuit.Input) {
	if len(inputs) == 0 {
		return
	}
	for _, s := range f.Sittings {
		for _, read := range s.Front.Read {
			at := max(slices.IndexFunc(r.Circuits, func(c Circuit) bool { return c.Solution.Knows(read.Where.V) }), 0)
			inputs[at].Readings = append(inputs[at].Readings, circuit.Reading{
				At: read.At, Where: read.Where, Current: read.Current, Volts: read.Volts, Taken: s.Date.Format(time.DateOnly),
			})
		}
	}
	for i := range inputs {
		if len(inputs[i].Readings) > 0 {
			c := &r.Circuits[i]
			c.Solution, c.Found = circuit.Solve(inputs[i])
		}
	}
}

// heatAreas adds up over all circuits the heat set free in each area.
func (r *Result) heatAreas(f topic.Facts) {
	var solutions []*circuit.Solution
	for i := range r.Circuits {
		if s := &r.Circuits[i].Solution; s.Solved {
			solutions = append(solutions, s)
		}
	}
	var areas []circuit.Area
	for _, a := range f.Front.Areas {
		if len(a.Value.Encloses) > 0 {
			areas = append(areas, circuit.Area{Name: a.Name, Volume: a.Value.Volume})
		}
	}
	heat, found := circuit.HeatAreas(areas, solutions)
	r.Areas = heat
	r.Found.Add(found...)
}
