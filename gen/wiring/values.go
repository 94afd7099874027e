package wiring

import (
	"strings"

	"spruelight/gen/circuit"
	"spruelight/gen/quantity"
)

// Values as they stand in a drawing: worked-out ones to three figures.

func ampsText(i quantity.Amps) string { return quantity.About(i).String() }

func ohmsText(r quantity.Ohms) string { return r.String() }

func voltsText(v quantity.Volts) string { return quantity.About(v).String() }

// ratingText prints a resistor's size the way it is sold, "" where it is not known.
func ratingText(w quantity.Watts) string {
	if w <= 0 {
		return ""
	}
	return quantity.Rating(w).String()
}

// wireText names a wire: size and colour of the insulation.
func wireText(r circuit.Run, colour string) string {
	parts := []string{}
	if size := sizeText(r); size != "" {
		parts = append(parts, size)
	}
	if colour != "" {
		parts = append(parts, colour)
	}
	return strings.Join(parts, " ")
}

// sizeText is a wire's gauge as written, or the name it has on the rack with
// the diameter of its copper.
func sizeText(r circuit.Run) string {
	switch {
	case r.Size.V.Text != "":
		return r.Size.V.Text
	case r.Size.Set && r.Wire.V != "":
		return r.Wire.V + " (" + strings.ReplaceAll(lengthText(r.Size.V.Copper), " ", "\u00a0") + ")"
	case r.Size.Set:
		return lengthText(r.Size.V.Copper)
	}
	return r.Wire.V
}

func lengthText(m quantity.Metres) string { return quantity.About(m).String() }

// fuseText is a fuse's rating, with what else was written about it.
func fuseText(s *circuit.Solution) string {
	rated := ""
	if r := s.Circuit.Fuse.Rated; r.V > 0 {
		rated = r.V.String()
	}
	return joinWords(rated, otherThan(s.Fuse.Text, rated))
}

// controlText says how a branch is driven, empty where it is steady.
func controlText(c circuit.Control) string {
	if c.Kind == circuit.Steady {
		return ""
	}
	return c.String()
}
