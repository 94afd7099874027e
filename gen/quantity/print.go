package quantity

import "strings"

// baseUnit returns the unit of the table in which a type of this package is
// kept, and the value in it.
func baseUnit(v any) (float64, string, bool) {
	switch v := v.(type) {
	case Volts:
		return float64(v), "V", true
	case Amps:
		return float64(v), "A", true
	case Ohms:
		return float64(v), "Ω", true
	case Watts:
		return float64(v), "W", true
	case Farads:
		return float64(v), "F", true
	case Hertz:
		return float64(v), "Hz", true
	case AmpHours:
		return float64(v), "Ah", true
	case Metres:
		return float64(v), "m", true
	case Kilograms:
		return float64(v), "kg", true
	case Litres:
		return float64(v), "l", true
	case Candelas:
		return float64(v), "cd", true
	case Lux:
		return float64(v), "lx", true
	case Pascals:
		return float64(v), "Pa", true
	case Celsius:
		return float64(v), "°C", true
	case Share:
		return float64(v), "share", true
	case Degrees:
		return float64(v), "°", true
	case Hours:
		return float64(v), "h", true
	}
	return 0, "", false
}

// Print prints a value of this package: a declared one with all its digits, an
// Amount or a Figure with those that mean something. False for other values.
func (p Printer) Print(v any) (string, bool) {
	switch v := v.(type) {
	case Amount:
		return p.number(v.Value, v.Unit, v.Digits), true
	case Tied:
		return strings.ReplaceAll(p.number(v.Value, v.Unit, v.Digits), " ", "\u00a0"), true
	case Figure:
		return p.number(v.Value, v.Unit, v.Digits), true
	case Measured:
		return p.measured(v), true
	case Reading:
		return p.within(Measured(v), 5, 2), true
	case lower:
		low, _ := p.ends(v.low.Value, v.high.Value, v.low.Unit, v.low.Digits)
		return low, true
	case WireSize:
		return p.wire(v), true
	case Money:
		return v.String(), true
	case Portion:
		return v.String(), true
	}
	if value, unit, ok := baseUnit(v); ok {
		return p.number(value, unit, exact), true
	}
	return "", false
}

// text is what a declared value prints in a file or message.
func text(v any) string {
	s, _ := Printer{}.Print(v)
	return s
}

// measured prints a length and the tolerance it has, in one unit.
func (p Printer) measured(m Measured) string {
	if m.Low == m.High {
		s, _ := p.Print(m.Value)
		return s
	}
	return p.within(m, exact, 6)
}

// within prints a length and by how much it may be off, both in the unit of
// the length: "204 ± 0.5 mm".
func (p Printer) within(m Measured, digits, ofPlus int) string {
	s := p.of(formsBySign["m"].form).step(float64(m.Value), digits)
	number := strings.TrimSuffix(s.print(float64(m.Value), digits), unitAfter(s.sign))
	return number + " ± " + s.print(float64(m.Plus()), ofPlus)
}

// wire prints a wire's gauge, or the diameter of its copper.
func (p Printer) wire(w WireSize) string {
	if gauge := w.gauge(); gauge != "" {
		return gauge
	}
	s, _ := p.Print(About(w.Copper))
	return s
}

// Reading is a measured length as it is shown: to five digits, its tolerance to
// two.
type Reading Measured

func (r Reading) String() string { return text(r) }

// About is a worked-out value of a type of this package, for a text.
func About[T ~float64](v T) Amount {
	_, unit, _ := baseUnit(v) // a bare number has none
	return Amount{Value: float64(v), Unit: unit}
}

// lower is the lower end of a band, which leaves its unit to the upper one
// where that is the same.
type lower struct{ low, high Amount }

func (l lower) String() string { return text(l) }

// Ends are both ends of a band for a sentence: "4.1" and "5.6 mA".
func Ends(low, high Amount) (any, any) { return lower{low, high}, high }

// FigureOf is a worked-out value under its name.
func FigureOf[T ~float64](name string, v T) Figure {
	_, unit, _ := baseUnit(v)
	return Figure{Name: name, Value: float64(v), Unit: unit}
}

// Rating is a resistor's rating, printed as it is sold: "1/8 W".
type Rating Watts

// String prints halves to sixteenths of a watt as a fraction.
func (r Rating) String() string {
	for _, below := range []float64{2, 4, 8, 16} {
		if near(float64(r)*below, 1) {
			return "1/" + decimal(below, 0) + " W"
		}
	}
	return text(Watts(r))
}

// Marked is a resistor's value with what is printed on the part: "560 Ω (560R)".
type Marked Ohms

func (m Marked) String() string { return text(Ohms(m)) + " (" + Ohms(m).Code() + ")" }
