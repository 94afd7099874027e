package circuit

import (
	"spruelight/gen/quantity"
)

// Ratings are the resistor sizes reckoned with, in watts.
var Ratings = []quantity.Watts{0.125, 0.25, 0.5, 1}

// fullRating is the share of its rating that a resistor inside a model should
// bear: half, so that it stays cool enough to touch plastic (common practice;
// the military derating is the same).
const fullRating = 0.5

// Rating returns the smallest resistor size of at least twice the heat and of
// no less than the worst case, and false where the largest is too small.
func Rating(heat, worst quantity.Watts) (quantity.Watts, bool) {
	for _, r := range Ratings {
		if heat <= r*fullRating && worst <= r {
			return r, true
		}
	}
	return Ratings[len(Ratings)-1], false
}

// rateResistors gives every resistor without a declared size its rating, and works out
// the preferred values next to it.
func rateResistors(s *Solution, series quantity.Series) {
	for i := range s.Branches {
		r := &s.Branches[i]
		if !r.Kind.resistor() {
			continue
		}
		if r.Resistor.Rating == 0 {
			r.Resistor.Rating, _ = Rating(r.Resistor.Heat.Nominal, r.Resistor.Heat.High)
		}
		across := float64(s.Junctions[r.Junction].Plus.Nominal - s.Junctions[r.Junction].Minus.Nominal)
		below, above := series.Previous(r.Resistor.Ohms), series.Next(r.Resistor.Ohms)
		r.Resistor.Below = Neighbour{below, currentWith(r, below, across)}
		r.Resistor.Above = Neighbour{above, currentWith(r, above, across)}
	}
}

// currentWith returns the current of the branch with another resistor, its junction's
// voltage staying as it is.
func currentWith(bp *BranchResult, ohms quantity.Ohms, across float64) quantity.Amps {
	v := nominal
	v.ohms = float64(ohms / bp.Resistor.Ohms)
	m := bp.port(v)
	i, _ := m.At(across)
	return quantity.Amps(i)
}
