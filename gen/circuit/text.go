package circuit

import (
	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// inAmps, inVolts, inWatts and inPercent are a worked-out value in a sentence:
// three figures at most and a fitting prefix.
func inAmps(i quantity.Amps) quantity.Amount {
	if i < 1e-9 {
		return quantity.Amount{Unit: "mA", Digits: 3}
	}
	v, unit := quantity.Prefixed(float64(i), "A")
	if unit == "A" && v < 10 {
		v, unit = v*1000, "mA"
	}
	return quantity.Amount{Value: v, Unit: unit, Digits: 3}
}

func inVolts(v quantity.Volts) quantity.Amount {
	if v < 0.1 && v > -0.1 {
		return quantity.Amount{Value: float64(v) * 1000, Unit: "mV", Digits: 2}
	}
	return quantity.Amount{Value: float64(v), Unit: "V", Digits: 3}
}

func inWatts(w quantity.Watts) quantity.Amount {
	v, unit := quantity.Prefixed(float64(w), "W")
	return quantity.Amount{Value: v, Unit: unit, Digits: 2}
}

func inPercent(s quantity.Share) quantity.Amount {
	return quantity.Amount{Value: float64(s) * 100, Unit: "%", Digits: 2}
}

// bare is a number without a unit of its own.
func bare(v float64, digits int) quantity.Amount { return quantity.Amount{Value: v, Digits: digits} }

// bandOf is a band of currents: "4.1 to 5.6 mA".
func bandOf(b Band[quantity.Amps]) source.Message {
	low, high := inAmps(b.Low), inAmps(b.High)
	if low.Unit == "mA" && high.Unit == "mA" {
		low.Unit = ""
	}
	return source.Say("%s to %s", low, high)
}
