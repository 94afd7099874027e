package desk

import (
	"errors"
	"fmt"

	"spruelight/gen/circuit"
	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// FibreQuestion is a sum of optical fibres: points of light, a strand each.
type FibreQuestion struct {
	Lamp, Strand, Length, Scale string
	Points                      int
}

// Fibre works out how many strands a lamp feeds, how many lamps the points
// want, what to buy, and how large a strand's end is at full size.
func Fibre(q FibreQuestion) (Answer, error) {
	var a Answer
	var in form
	lamp, strand := read[quantity.Metres](&in, "--lamp", q.Lamp), read[quantity.Metres](&in, "--strand", q.Strand)
	length, scale := read[quantity.Metres](&in, "--length", q.Length), read[quantity.Scale](&in, "--scale", q.Scale)
	if in.err != nil {
		return a, in.err
	}
	fits := circuit.Strands(lamp.V, strand.V)
	switch {
	case lamp.V <= 0 || strand.V <= 0:
		return a, errors.New(`say how large lamp and strand are, like --lamp "5 mm" --strand "0.5 mm"`)
	case q.Points < 0 || q.Points > 100_000:
		return a, fmt.Errorf("--points: %d points of light cannot be", q.Points)
	case fits == 0:
		return a, fmt.Errorf("a strand of %s does not fit before a lamp of %s; use thinner strands or a larger lamp", strand.V, lamp.V)
	}
	a.say("A lamp of %s feeds %d strands of %s.", lamp.V, fits, strand.V)
	a.add(circuit.FibreFits(lamp.V, strand.V))
	if q.Points > 0 {
		lamps := circuit.LampsFor(q.Points, lamp.V, strand.V)
		a.add(quantity.Figure{Name: "lamps for all points", Value: float64(lamps), Digits: 6,
			Working: source.Say("%d points / %d", q.Points, fits), Source: "arithmetic"})
	}
	if q.Points > 0 && length.V > 0 {
		a.add(circuit.FibreBought(q.Points, length.V))
	}
	if scale.Set {
		a.add(circuit.SizeInTruth("a strand's end at full size", strand.V, scale.V.Ratio))
	}
	return a, nil
}
