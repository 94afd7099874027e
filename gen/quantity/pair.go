package quantity

import (
	"encoding"
	"math"
	"strings"

	"spruelight/gen/source"
)

// Point is a voltage at a current, as a data sheet gives a forward voltage:
// "2.75 V @ 2 mA".
type Point struct {
	Volts Volts
	Amps  Amps
}

func (p *Point) UnmarshalText(text []byte) error {
	return scanAt(text, "2.0 V @ 20 mA", &p.Volts, &p.Amps)
}

// String prints the point as it is written.
func (p Point) String() string { return p.Volts.String() + " @ " + p.Amps.String() }

// Brightness is a luminous intensity at a current: "1200 mcd @ 20 mA".
type Brightness struct {
	Candelas Candelas
	Amps     Amps
}

func (b *Brightness) UnmarshalText(text []byte) error {
	return scanAt(text, "1200 mcd @ 20 mA", &b.Candelas, &b.Amps)
}

// String prints the brightness as it is written.
func (b Brightness) String() string { return b.Candelas.String() + " @ " + b.Amps.String() }

// scanAt reads "value @ value" into two quantities.
func scanAt(text []byte, example string, left, right encoding.TextUnmarshaler) error {
	s := string(text)
	a, b, ok := strings.Cut(s, "@")
	if !ok {
		return fault(s, strings.TrimSpace(s), source.Say("write it like %s", example), "%s does not say at which current",
			quote(strings.TrimSpace(s)))
	}
	if err := left.UnmarshalText([]byte(a)); err != nil {
		return err
	}
	if err := right.UnmarshalText([]byte(b)); err != nil {
		return shiftError(err, len(a)+1)
	}
	return nil
}

func shiftError(err error, by int) error {
	if e, ok := err.(*Error); ok {
		e.Offset += by
	}
	return err
}

// Band of a value: nominal, and the lowest and highest it may be.
type Measured struct {
	Value, Low, High Metres
}

// UnmarshalText reads a length with or without its tolerance: "204 mm ± 0.5 mm",
// "204 ± 0.5 mm", "204 mm +/- 0.25 %". Without one, Low and High equal Value.
func (m *Measured) UnmarshalText(text []byte) error {
	s := string(text)
	sign := "±"
	if !strings.Contains(s, sign) {
		for _, other := range []string{"+/-", "+-"} {
			if strings.Contains(s, other) {
				sign = other
				break
			}
		}
	}
	left, right, ok := strings.Cut(s, sign)
	if !ok {
		var v Metres
		if err := v.UnmarshalText(text); err != nil {
			return err
		}
		*m = Measured{v, v, v}
		return nil
	}
	// "204 ± 0.5 mm": the unit at the end serves both.
	if digits, rest := splitNumber(strings.TrimSpace(left)); digits != "" && strings.TrimSpace(rest) == "" {
		if d, unit := splitNumber(strings.TrimSpace(right)); d != "" && !strings.Contains(unit, "%") {
			left = digits + unit
		}
	}
	var v Metres
	if err := v.UnmarshalText([]byte(left)); err != nil {
		return err
	}
	by, err := scanTolerance(right, v)
	if err != nil {
		return shiftError(err, strings.Index(s, sign)+len(sign))
	}
	*m = Measured{v, v - by, v + by}
	return nil
}

// scanTolerance reads what follows ±: a length, or a percentage of the value.
func scanTolerance(text string, of Metres) (Metres, error) {
	if strings.Contains(text, "%") {
		var p Share
		if err := p.UnmarshalText([]byte(text)); err != nil {
			return 0, err
		}
		return Metres(math.Abs(float64(p)) * float64(of)), nil
	}
	var by Metres
	err := by.UnmarshalText([]byte(text))
	return by, err
}

// Plus returns the tolerance to either side.
func (m Measured) Plus() Metres { return (m.High - m.Low) / 2 }

// String prints the value, with its tolerance where it has one.
func (m Measured) String() string { return text(m) }

// Spot is a place on a picture, as shares of its width and height from the top
// left: "42 % 31 %".
type Spot struct{ X, Y Share }

func (p *Spot) UnmarshalText(text []byte) error {
	s := string(text)
	first, second, ok := strings.Cut(strings.TrimSpace(s), "%")
	if !ok || strings.TrimSpace(second) == "" {
		return fault(s, "", "write it like 42 % 31 %: from the left, from the top", "%s is not a place on a picture", quote(s))
	}
	var x, y Share
	if err := x.UnmarshalText([]byte(first + "%")); err != nil {
		return err
	}
	if err := y.UnmarshalText([]byte(second)); err != nil {
		return shiftError(err, strings.Index(s, second))
	}
	if x < 0 || x > 1 || y < 0 || y > 1 {
		return fault(s, "", "write shares from 0 % to 100 %", "%s lies outside the picture", quote(s))
	}
	*p = Spot{x, y}
	return nil
}

// String prints the place as it is written.
func (p Spot) String() string { return p.X.String() + " " + p.Y.String() }
