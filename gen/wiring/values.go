package wiring

import (
	"slices"
	"strings"

	"spruelight/gen/circuit"
	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// Values as they stand in a drawing: worked-out ones to three figures.

func ampsText(i quantity.Amps) source.Message { return one(quantity.About(i)) }

func ohmsText(r quantity.Ohms) source.Message { return one(r) }

func voltsText(v quantity.Volts) source.Message { return one(quantity.About(v)) }

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
	if w <= 0 {
		return source.Message{}
	}
	return one(quantity.Rating(w))
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
	copper := quantity.About(r.Size.V.Copper)
	switch {
	case strings.HasSuffix(r.Size.V.Text, "AWG"), r.Size.Set && r.Wire.V == "":
		return one(r.Size.V)
	case r.Size.Set && r.Wire.V != "":
		return source.Say("%s (%s)", r.Wire.V, quantity.Tied(copper))
	}
	return as(r.Wire.V)
}

func lengthText(m quantity.Metres) source.Message { return one(quantity.About(m)) }

// fuseText is a fuse's rating, with what else was written about it.
func fuseText(s *circuit.Solution) source.Message {
	rated := s.Circuit.Fuse.Rated.V
	if rated <= 0 {
		return as(s.Fuse.Text)
	}
	return joined(one(rated), as(otherThan(s.Fuse.Text, rated.String())))
}
