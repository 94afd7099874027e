package circuit

import (
	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// bare is a number without a unit of its own.
func bare(v float64, digits int) quantity.Amount { return quantity.Amount{Value: v, Digits: digits} }

// bandOf is a band of currents: "4.1 to 5.6 mA".
func bandOf(b Band[quantity.Amps]) source.Message {
	low, high := quantity.Ends(quantity.About(b.Low), quantity.About(b.High))
	return source.Say("%s to %s", low, high)
}
