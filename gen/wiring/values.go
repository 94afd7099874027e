package wiring

import (
	"slices"
	"strings"

	"spruelight/gen/circuit"
	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// Values as they stand in a drawing: three figures, the unit's sign.

func ampsText(i quantity.Amps) source.Message { return one(engineering(float64(i), "A")) }

func ohmsText(r quantity.Ohms) source.Message { return one(ohms(r)) }

func voltsText(v quantity.Volts) source.Message { return one(rounded(float64(v), "V")) }

// ohms is a resistance with the sign of its unit.
type ohms quantity.Ohms

func (r ohms) String() string { return strings.Replace(quantity.Ohms(r).String(), "ohm", "Ω", 1) }

// engineering is a value with its prefix; currents of an ampere and more stay
// in amperes.
func engineering(v float64, unit string) quantity.Amount {
	if v > -1e-9 && v < 1e-9 {
		return rounded(0, unit)
	}
	return rounded(quantity.Prefixed(v, unit))
}

func rounded(v float64, unit string) quantity.Amount {
	return quantity.Amount{Value: v, Unit: unit, Digits: 3}
}

// one is a message of a single value.
func one(v any) source.Message { return source.Say("%s", v) }

// as is what the builder wrote, as it stands; nothing where nothing is written.
func as(text string) source.Message {
	if text == "" {
		return source.Message{}
	}
	return one(text)
}

// joined puts a comma between what is not empty.
func joined(parts ...source.Message) source.Message {
	said := slices.DeleteFunc(parts, source.Message.Empty)
	switch len(said) {
	case 0:
		return source.Message{}
	case 1:
		return said[0]
	}
	return one(source.Row(said))
}

// ratingText is a resistor's size the way it is sold.
func ratingText(w quantity.Watts) source.Message {
	for _, below := range []int{8, 4, 2} {
		if w == quantity.Watts(1/float64(below)) {
			return source.Say("1/%d W", below)
		}
	}
	if w <= 0 {
		return source.Message{}
	}
	return one(engineering(float64(w), "W"))
}

// wireText names a wire: size and colour of the insulation.
func wireText(r circuit.Run, colour source.Message) source.Message {
	switch size := sizeText(r); {
	case size.Empty():
		return colour
	case colour.Empty():
		return size
	default:
		return source.Say("%s %s", size, colour)
	}
}

// sizeText is a wire's gauge as written, or the name it has on the rack with
// the diameter of its copper.
func sizeText(r circuit.Run) source.Message {
	copper := rounded(r.Size.V.Copper.Millimetres(), "mm")
	switch {
	case r.Size.V.Text != "":
		return as(r.Size.V.Text)
	case r.Size.Set && r.Wire.V != "":
		return source.Say("%s (%s)", r.Wire.V, tied{copper})
	case r.Size.Set:
		return one(copper)
	}
	return as(r.Wire.V)
}

// lengthText is a length in millimetres, from two metres on in metres.
func lengthText(m quantity.Metres) source.Message {
	if m >= 2 {
		return one(rounded(float64(m), "m"))
	}
	return one(rounded(m.Millimetres(), "mm"))
}

// fuseText is a fuse's rating, with what else was written about it.
func fuseText(s *circuit.Solution) source.Message {
	rated := s.Circuit.Fuse.Rated.V
	if rated <= 0 {
		return as(s.Fuse.Text)
	}
	return joined(one(rated), as(otherThan(s.Fuse.Text, rated.String())))
}
