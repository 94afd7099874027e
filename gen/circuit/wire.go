package circuit

import (
	"spruelight/gen/quantity"
)

// CopperResistivity is that of annealed copper at 20 °C, in ohm·mm²/m: 1/58
// (IEC 60028).
const CopperResistivity = 1.0 / 58

// CopperCoefficient is the relative change of copper's resistance for each
// kelvin from 20 °C (IEC 60028).
const CopperCoefficient = 0.00393

// WireOhms returns the resistance of a solid copper wire at 20 °C. For a pair
// there and back give twice its length.
func WireOhms(size quantity.WireSize, length quantity.Metres) quantity.Ohms {
	area := size.Area()
	if !(area > 0) {
		return 0
	}
	return quantity.Ohms(CopperResistivity * float64(length) / area)
}

// WireOhmsAt returns it at a temperature.
func WireOhmsAt(size quantity.WireSize, length quantity.Metres, at quantity.Celsius) quantity.Ohms {
	return WireOhms(size, length) * quantity.Ohms(1+CopperCoefficient*(float64(at)-20))
}
