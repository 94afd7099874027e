// Package quantity holds typed values with units as a modeller writes them,
// and their printing: volts, ohms, wire lengths, scales, hours, money.
//
// Every quantity is a named float64 in its SI base unit, so that volts and
// amperes cannot be mixed. Parsing accepts what the trade writes ("12 mA",
// "4k7", "1/32", "5' 9\"", "3 h 20 min"); a missing or foreign unit is an
// *Error that says which part of the text is wrong and what would be right.
// String prints a text that parses back to the same value.
//
// # Sources
//
//   - BIPM, The International System of Units, 9th edition (2019): units, prefixes
//   - IEC 60062: letter codes and colour codes for resistors
//   - IEC 60063: preferred number series E6 to E96
//   - ISO 4217: currency codes and their minor units
package quantity

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"spruelight/gen/source"
)

// Quantities, each in its SI base unit (litres, ampere hours and degrees
// Celsius excepted, which is how the trade counts them).
type (
	Volts     float64 // V
	Amps      float64 // A
	Ohms      float64 // ohm
	Watts     float64 // W
	Farads    float64 // F
	Hertz     float64 // Hz
	AmpHours  float64 // Ah
	Metres    float64 // m
	Kilograms float64 // kg
	Litres    float64 // l
	Candelas  float64 // cd
	Lux       float64 // lx
	Pascals   float64 // Pa
	Celsius   float64 // degrees Celsius
	Hours     float64 // h: bench time, cell life, curing time
	Share     float64 // a part of one: 5 % is 0.05
	Degrees   float64 // plane angle
)

// Error says what is wrong in a value's text: the bytes Offset to
// Offset+Length of it, and what to write instead.
type Error struct {
	Offset, Length int
	Says, Remedy   source.Message
}

func (e *Error) Error() string {
	if e.Remedy.Empty() {
		return e.Says.String()
	}
	return e.Says.String() + "; " + e.Remedy.String()
}

// Wrong returns an Error over so many bytes from an offset on. What to do about
// it is a text without values or a Message.
func Wrong(offset, length int, do any, form string, args ...any) *Error {
	if false { // has go vet hold the values against the form
		return &Error{Length: len(fmt.Sprintf(form, args...))}
	}
	return &Error{offset, length, source.Say(form, args...), source.MessageOf(do)}
}

// fault returns an Error over part of a text.
func fault(text, part string, do any, form string, args ...any) *Error {
	e := Wrong(0, len(text), do, form, args...)
	at := strings.Index(text, part)
	if part != "" && at >= 0 {
		e.Offset, e.Length = at, len(part)
	}
	return e
}

// unit is one way to write a dimension's unit.
type unit struct {
	symbol string
	factor float64 // SI value of one of it
	shift  int     // or: power of ten, kept apart so that decimals stay exact
}

// dimension is what kind of quantity a unit measures.
type dimension struct {
	name    string // "current"
	example string // "12 mA"
	prefix  string // SI prefixes allowed before the first unit
	units   []unit // the first is the one printed
	bare    bool   // a plain number needs no unit
	signed  bool   // values below zero are meaningful
}

var prefixes = map[byte]int{'p': -12, 'n': -9, 'u': -6, 'm': -3, 'c': -2, 'k': 3, 'M': 6, 'G': 9}

var (
	voltage = dimension{name: "voltage", example: "5 V", prefix: "mk", units: []unit{{"V", 1, 0}, {"volts", 1, 0}, {"volt", 1, 0}},
		signed: true}
	current    = dimension{name: "current", example: "12 mA", prefix: "num", units: []unit{{"A", 1, 0}, {"amps", 1, 0}, {"amp", 1, 0}}}
	resistance = dimension{name: "resistance", example: "470 ohm", prefix: "mkMG", units: []unit{{"ohm", 1, 0}, {"Ω", 1, 0}, {"ohms", 1, 0},
		{"R", 1, 0}}}
	power       = dimension{name: "power", example: "0.25 W", prefix: "umk", units: []unit{{"W", 1, 0}}}
	capacitance = dimension{name: "capacitance", example: "10 uF", prefix: "pnum", units: []unit{{"F", 1, 0}}}
	frequency   = dimension{name: "frequency", example: "1.2 Hz", prefix: "mkM", units: []unit{{"Hz", 1, 0}, {"per minute", 1.0 / 60, 0},
		{"/min", 1.0 / 60, 0}}}
	charge = dimension{name: "capacity", example: "500 mAh", prefix: "m", units: []unit{{"Ah", 1, 0}}}
	length = dimension{name: "length", example: "180 mm", prefix: "umck", units: []unit{{"m", 1, 0}, {"in", 0.0254, 0}, {"inches", 0.0254, 0}, {"inch", 0.0254, 0}, {`"`, 0.0254, 0}, {"″", 0.0254, 0}, {"ft", 0.3048, 0}, {"feet", 0.3048, 0}, {"foot", 0.3048, 0}, {"'", 0.3048, 0}, {"′", 0.3048, 0}, {"yd", 0.9144, 0}, {"thou", 0.0000254, 0}}}
	mass   = dimension{name: "weight", example: "640 g", prefix: "mk", units: []unit{{"g", 1, -3}, {"oz", 0.028349523125, 0},
		{"lb", 0.45359237, 0}, {"t", 1, 3}}}
	volume      = dimension{name: "volume", example: "12 ml", prefix: "umc", units: []unit{{"l", 1, 0}, {"L", 1, 0}, {"drops", 1, 0}}}
	intensity   = dimension{name: "luminous intensity", example: "1200 mcd", prefix: "mk", units: []unit{{"cd", 1, 0}}}
	illuminance = dimension{name: "illuminance", example: "35 lx", units: []unit{{"lx", 1, 0}, {"lux", 1, 0}, {"klx", 1, 3}}}
	pressure    = dimension{name: "pressure", example: "1.2 bar", prefix: "kM", units: []unit{{"Pa", 1, 0}, {"bar", 1, 5},
		{"psi", 6894.757293168361, 0}}}
	temperature = dimension{name: "temperature", example: "21 °C", units: []unit{{"°C", 1, 0}, {"C", 1, 0}, {"deg C", 1, 0}}, signed: true}
	share       = dimension{name: "share", example: "5 %", units: []unit{{"%", 1, -2}, {"percent", 1, -2}}, signed: true}
	angle       = dimension{name: "angle", example: "112.5°", units: []unit{{"°", 1, 0}, {"deg", 1, 0}, {"degrees", 1, 0}}, signed: true}
)

func init() { volume.units = volume.units[:2] } // drops have no fixed size

// like is what to write instead of what is no value of the dimension.
func like(d *dimension) source.Message { return source.Say("write it like %s", d.example) }

// scan reads text as a value of the dimension.
func (d *dimension) scan(text string) (float64, error) {
	trimmed := strings.TrimSpace(text)
	digits, rest := splitNumber(trimmed)
	if digits == "" {
		return 0, fault(text, trimmed, like(d), "%s is not a %s", quote(trimmed), source.Word(d.name))
	}
	spelling := strings.TrimSpace(rest)
	if spelling == "" && !d.bare {
		return 0, fault(text, trimmed, source.Say("add the unit, like %s", d.example), "%s has no unit", quote(trimmed))
	}
	u, shift, ok := d.unit(spelling)
	if !ok {
		return 0, fault(text, spelling, like(d), "%s is not a unit of %s", quote(spelling), source.Word(d.name))
	}
	value, err := number(digits, shift)
	if err != nil {
		return 0, fault(text, digits, pointed(digits, like(d)), "%s is not a number", quote(digits))
	}
	value *= u.factor
	switch {
	case math.IsInf(value, 0) || math.IsNaN(value):
		return 0, fault(text, digits, like(d), "%s is too large", quote(digits))
	case value < 0 && !d.signed:
		return 0, fault(text, digits, "write a value of zero or more", "a %s cannot be negative", source.Word(d.name))
	}
	return value, nil
}

// unit finds a unit's spelling, with or without a prefix, and the power of ten
// that prefix and unit stand for.
func (d *dimension) unit(spelling string) (unit, int, bool) {
	if spelling == "" {
		return unit{factor: 1}, 0, d.bare
	}
	for _, u := range d.units {
		if spelling == u.symbol || len(u.symbol) > 2 && strings.EqualFold(spelling, u.symbol) {
			return u, u.shift, true
		}
	}
	// Both µ (U+00B5) and μ (U+03BC) are in use for micro.
	spelling = strings.NewReplacer("µ", "u", "μ", "u").Replace(spelling)
	if shift, ok := prefixes[spelling[0]]; ok && strings.IndexByte(d.prefix, spelling[0]) >= 0 {
		for _, u := range d.units {
			rest := strings.TrimPrefix(spelling[1:], " ")
			if u.factor == 1 && len(u.symbol) < 5 && rest == u.symbol {
				return u, u.shift + shift, true
			}
		}
	}
	return unit{}, 0, false
}

// splitNumber parts a text into its leading number and what follows. A comma
// is taken for a decimal point only in the number's own error message: which
// of the two is meant in "1,200" cannot be known.
func splitNumber(text string) (digits, rest string) {
	i := 0
	if i < len(text) && (text[i] == '-' || text[i] == '+') {
		i++
	}
	if minus := "−"; strings.HasPrefix(text, minus) {
		i = len(minus)
	}
	start := i
	for i < len(text) && (text[i] >= '0' && text[i] <= '9' || text[i] == '.' || text[i] == ',') {
		i++
	}
	if i == start {
		return "", text
	}
	if i+1 < len(text) && (text[i] == 'e' || text[i] == 'E') { // 1e-3
		j := i + 1
		if text[j] == '-' || text[j] == '+' {
			j++
		}
		from := j
		for j < len(text) && text[j] >= '0' && text[j] <= '9' {
			j++
		}
		if j > from {
			i = j
		}
	}
	return text[:i], text[i:]
}

// pointed returns what to write instead of a number with a comma, else what is
// to be written otherwise.
func pointed(digits string, otherwise any) any {
	whole, part, comma := strings.Cut(digits, ",")
	switch {
	case !comma || strings.ContainsAny(part, ".,") || whole == "" || part == "" || strings.Contains(whole, "."):
		return otherwise
	case len(part) == 3:
		return source.Say("write %s.%s, or %s if thousands are meant", whole, part, whole+part)
	}
	return source.Say("write a point for the decimals: %s.%s", whole, part)
}

// number reads decimal digits times ten to the shift, rounded once.
func number(digits string, shift int) (float64, error) {
	digits = strings.Replace(digits, "−", "-", 1)
	exponent := 0
	if i := strings.IndexAny(digits, "eE"); i >= 0 {
		e, err := strconv.Atoi(digits[i+1:])
		if err != nil || e > 400 || e < -400 {
			return 0, strconv.ErrRange
		}
		exponent, digits = e, digits[:i]
	}
	value, err := strconv.ParseFloat(digits+"e"+strconv.Itoa(exponent+shift), 64)
	if err != nil {
		return 0, err
	}
	return value + 0, nil // + 0 turns -0 into 0
}

// decimal writes v times ten to the -shift with the fewest digits that read
// back as v.
func decimal(v float64, shift int) string {
	s := strconv.FormatFloat(v, 'e', -1, 64)
	mantissa, exponent, _ := strings.Cut(s, "e")
	e, _ := strconv.Atoi(exponent)
	e -= shift
	sign := ""
	if mantissa[0] == '-' {
		sign, mantissa = "-", mantissa[1:]
	}
	digits := strings.Replace(mantissa, ".", "", 1)
	point := e + 1 // digits before the decimal point
	switch {
	case point <= -6 || point > 21:
		return sign + mantissa + "e" + strconv.Itoa(e)
	case point <= 0:
		return sign + "0." + strings.Repeat("0", -point) + digits
	case point >= len(digits):
		return sign + digits + strings.Repeat("0", point-len(digits))
	}
	return sign + digits[:point] + "." + digits[point:]
}

func quote(s string) string {
	if r := []rune(s); len(r) > 40 {
		s = string(r[:40]) + "…"
	}
	return strconv.Quote(s)
}
