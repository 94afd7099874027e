package quantity

import (
	"fmt"
	"math"

	"spruelight/gen/source"
)

// Figure is a number for a reader: never bare, always with what it is, its
// unit, how it was worked out and where the rule comes from.
type Figure struct {
	Symbol  string  // "I", "U_R"
	Name    string  // "branch current"
	Value   float64 // in Unit
	Low     float64 // worst cases, in Unit; both zero where there is no band
	High    float64
	Unit    string         // "mA"
	Digits  int            // significant figures shown
	Working source.Message // "R = (5 V − 2.79 V) / 4 mA = 553 Ω"
	Source  string         // standard, data sheet, or "common practice, no source"
	Assumed bool           // rests on a default nobody wrote down
}

// Text prints the value with its unit, rounded to the figure's digits.
func (f Figure) Text() string { return Printer{}.number(f.Value, f.Unit, f.Digits) }

// Amount is the value as a sentence has it.
func (f Figure) Amount() Amount { return Amount{f.Value, f.Unit, f.Digits} }

// Band is the band, "8.9 to 10.4 mA", or nothing where there is none.
func (f Figure) Band() source.Message {
	if f.Low == 0 && f.High == 0 {
		return source.Message{}
	}
	low, high := Ends(Amount{f.Low, f.Unit, f.Digits}, Amount{f.High, f.Unit, f.Digits})
	return source.Say("%s to %s", low, high)
}

// Range prints the band.
func (f Figure) Range() string { return f.Band().String() }

func unitAfter(unit string) string {
	switch unit {
	case "":
		return ""
	case "°", "′", "″":
		return unit
	}
	return " " + unit
}

// Round writes a number to so many significant figures (three where digits is
// zero), without an exponent and without zeros that say nothing.
func Round(v float64, digits int) string {
	if digits <= 0 {
		digits = 3
	}
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "–"
	}
	return decimal(roundTo(v, digits), 0)
}

// roundTo rounds to significant figures; numbers of more whole digits than
// that keep them all.
func roundTo(v float64, digits int) float64 {
	if v == 0 || math.IsNaN(v) || math.IsInf(v, 0) {
		return v
	}
	places := digits - 1 - int(math.Floor(math.Log10(math.Abs(v))))
	if places <= 0 {
		return math.Round(v)
	}
	rounded, err := number(fmt.Sprintf("%.*f", min(places, 300), v), 0)
	if err != nil {
		return v
	}
	return rounded
}
