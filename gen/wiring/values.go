package wiring

import (
	"strconv"
	"strings"

	"spruelight/gen/circuit"
	"spruelight/gen/quantity"
)

// Values as they stand in a drawing: three figures, the unit's sign.

func ampsText(i quantity.Amps) string { return engineering(float64(i), "A") }

func ohmsText(r quantity.Ohms) string {
	return strings.Replace(r.String(), "ohm", "Ω", 1)
}

func voltsText(v quantity.Volts) string { return quantity.Round(float64(v), 3) + " V" }

// engineering prints a value with its prefix; currents of an ampere and more
// stay in amperes.
func engineering(v float64, unit string) string {
	if v > -1e-9 && v < 1e-9 {
		return "0 " + unit
	}
	v, unit = quantity.Prefixed(v, unit)
	return quantity.Round(v, 3) + " " + unit
}

// ratingText prints a resistor's size the way it is sold.
func ratingText(w quantity.Watts) string {
	for _, below := range []float64{8, 4, 2} {
		if w == quantity.Watts(1/below) {
			return "1/" + strconv.Itoa(int(below)) + " W"
		}
	}
	if w <= 0 {
		return ""
	}
	return engineering(float64(w), "W")
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
		return r.Wire.V + " (" + quantity.Round(r.Size.V.Copper.Millimetres(), 3) + "\u00a0mm)"
	case r.Size.Set:
		return quantity.Round(r.Size.V.Copper.Millimetres(), 3) + " mm"
	}
	return r.Wire.V
}

// lengthText prints a length in millimetres, from two metres on in metres.
func lengthText(m quantity.Metres) string {
	if m >= 2 {
		return quantity.Round(float64(m), 3) + " m"
	}
	return quantity.Round(m.Millimetres(), 3) + " mm"
}

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
	text := string(c.Kind)
	switch c.Kind {
	case circuit.Blink, circuit.PWM:
		if c.Frequency > 0 {
			text += " " + engineering(float64(c.Frequency), "Hz")
		}
		if c.Duty > 0 {
			text += " " + quantity.Round(float64(c.Duty)*100, 2) + " %"
		}
	case circuit.Fade:
		if c.Period > 0 {
			text += " " + quantity.Round(float64(c.Period)*3600, 3) + " s"
		}
	default:
		return ""
	}
	return text
}
