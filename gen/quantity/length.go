package quantity

import (
	"math"
	"strings"
)

// scanLength reads a length in metric or imperial units, whole, decimal or
// with fractions, and feet followed by inches. Returns metres.
func scanLength(text string) (float64, error) {
	trimmed := strings.TrimSpace(text)
	if feet, inches, ok := splitFeet(trimmed); ok {
		f, err := scanLengthPart(text, feet)
		if err != nil {
			return 0, err
		}
		i, err := scanLengthPart(text, inches)
		if err != nil {
			return 0, err
		}
		return f + i, nil
	}
	return scanLengthPart(text, trimmed)
}

// splitFeet parts "5' 9\"" and "5 ft 9 in" into feet and inches.
func splitFeet(text string) (feet, inches string, ok bool) {
	for _, mark := range []string{"feet", "foot", "ft", "'", "′"} {
		if i := strings.Index(text, mark); i > 0 {
			feet, inches = strings.TrimSpace(text[:i+len(mark)]), strings.TrimSpace(text[i+len(mark):])
			return feet, inches, inches != ""
		}
	}
	return "", "", false
}

// scanLengthPart reads one number with one unit; the number may be a fraction
// ("3/8") or a whole and a fraction ("2 1/2").
func scanLengthPart(text, part string) (float64, error) {
	value, rest, ok := leadingFraction(part)
	if !ok {
		metres, err := length.scan(part)
		if e, is := err.(*Error); is {
			e.Offset += max(strings.Index(text, part), 0)
		}
		return metres, err
	}
	spelling := strings.TrimSpace(rest)
	u, shift, known := length.unit(spelling)
	switch {
	case spelling == "":
		return 0, fault(text, part, "add the unit, like 3/8 in", "%s has no unit", quote(part))
	case !known:
		return 0, fault(text, spelling, like(&length), "%s is not a unit of length", quote(spelling))
	case math.IsInf(value, 0) || math.IsNaN(value):
		return 0, fault(text, part, "write a fraction like 3/8", "%s divides by zero", quote(part))
	}
	return value * u.factor * math.Pow10(shift), nil
}

// leadingFraction reads "3/8" or "2 1/2" at the front of a text.
func leadingFraction(text string) (value float64, rest string, ok bool) {
	slash := strings.IndexByte(text, '/')
	if slash < 0 {
		return 0, text, false
	}
	head := strings.Fields(text[:slash])
	if len(head) == 0 || len(head) > 2 {
		return 0, text, false
	}
	below, rest := splitNumber(strings.TrimSpace(text[slash+1:]))
	denominator, err := number(below, 0)
	if err != nil {
		return 0, text, false
	}
	numerator, err := number(head[len(head)-1], 0)
	if err != nil {
		return 0, text, false
	}
	whole := 0.0
	if len(head) == 2 {
		if whole, err = number(head[0], 0); err != nil {
			return 0, text, false
		}
	}
	if numerator < 0 || denominator < 0 || whole < 0 {
		return 0, text, false
	}
	return whole + numerator/denominator, rest, true
}

// Inches returns the length in inches.
func (v Metres) Inches() float64 { return float64(v) / 0.0254 }

// Millimetres returns the length in millimetres.
func (v Metres) Millimetres() float64 { return float64(v) * 1000 }
