package quantity

import (
	"cmp"
	"math"
	"strings"
)

// Printer prints values for a reader, by the table of forms. The workshop's
// choices are its fields; the zero Printer is that of files and messages.
type Printer struct {
	Inches bool // lengths in inches and feet
}

// step is a unit in use from a size on.
type step struct {
	from  float64 // the smallest magnitude printed in it, in the base unit
	sign  string  // as it stands after the number: "mA"
	shift int     // one of it in the base unit, as a power of ten
	size  float64 // or: in base units, where it is no power of ten
}

// one is one of the step's unit in base units.
func (s step) one() float64 {
	if s.size != 0 {
		return s.size
	}
	return math.Pow10(s.shift)
}

// form is how the values of one base unit are printed: a row of the table.
type form struct {
	unit   string  // the base unit, as figures name it
	zero   string  // the unit of nothing
	least  float64 // below it there is nothing: leakage, the noise of a sum
	digits int     // significant digits of a worked-out value; 0 for usualDigits
	steps  []step  // the largest first; the last has no lower end
}

// forms are the rules by which values are printed, one row for each unit. A
// value stands in the first unit that it reaches, rounded as it will be shown;
// a declared one keeps all that was written.
// Which prefixes are in use is what the trade writes: milliamperes and
// millimetres, no centimetres, no millifarads, millicandelas into thousands.
var forms = []form{
	{unit: "V", zero: "V", least: 1e-9, steps: []step{{from: 0.1, sign: "V"}, {sign: "mV", shift: -3}}},
	{unit: "A", zero: "mA", least: 1e-9, steps: []step{{from: 1, sign: "A"}, {from: 1e-4, sign: "mA", shift: -3}, {sign: "µA", shift: -6}}},
	{unit: "Ω", zero: "Ω", least: 1e-9, steps: []step{{from: 1e6, sign: "MΩ", shift: 6}, {from: 1e3, sign: "kΩ", shift: 3}, {from: 0.1, sign: "Ω"}, {sign: "mΩ", shift: -3}}},
	{unit: "W", zero: "mW", least: 1e-12, steps: []step{{from: 1, sign: "W"}, {from: 1e-4, sign: "mW", shift: -3}, {sign: "µW", shift: -6}}},
	{unit: "F", zero: "F", steps: []step{{from: 1, sign: "F"}, {from: 1e-6, sign: "µF", shift: -6}, {from: 1e-9, sign: "nF", shift: -9}, {sign: "pF", shift: -12}}},
	{unit: "Hz", zero: "Hz", steps: []step{{from: 1e6, sign: "MHz", shift: 6}, {from: 1e3, sign: "kHz", shift: 3}, {sign: "Hz"}}},
	{unit: "Ah", zero: "mAh", steps: []step{{from: 10, sign: "Ah"}, {sign: "mAh", shift: -3}}},
	{unit: "m", zero: "mm", steps: []step{{from: 1, sign: "m"}, {sign: "mm", shift: -3}}},
	{unit: "kg", zero: "g", steps: []step{{from: 1, sign: "kg"}, {from: 1e-4, sign: "g", shift: -3}, {sign: "mg", shift: -6}}},
	{unit: "l", zero: "ml", steps: []step{{from: 1, sign: "l"}, {from: 1e-4, sign: "ml", shift: -3}, {sign: "µl", shift: -6}}},
	{unit: "cd", digits: 2, zero: "mcd", steps: []step{{from: 10, sign: "cd"}, {sign: "mcd", shift: -3}}},
	{unit: "Pa", zero: "bar", steps: []step{{sign: "bar", shift: 5}}},
	{unit: "s", zero: "s", steps: []step{{from: 0.1, sign: "s"}, {from: 1e-4, sign: "ms", shift: -3}, {sign: "µs", shift: -6}}},
	{unit: "B", zero: "B", steps: []step{{from: 1e9, sign: "GB", shift: 9}, {from: 1e6, sign: "MB", shift: 6}, {from: 1e3, sign: "kB", shift: 3}, {sign: "B"}}},
	{unit: "share", digits: 2, zero: "%", steps: []step{{sign: "%", shift: -2}}},
	{unit: "lx", zero: "lx", steps: []step{{sign: "lx"}}},
	{unit: "°C", zero: "°C", steps: []step{{sign: "°C"}}},
	{unit: "K", digits: 2, zero: "K", steps: []step{{sign: "K"}}},
	{unit: "°", zero: "°", steps: []step{{sign: "°"}}},
	{unit: "mm²", zero: "mm²", steps: []step{{sign: "mm²"}}},
}

// inches is the form of lengths where the workshop works in inches: feet from
// four on.
var inches = form{unit: "m", zero: "in", steps: []step{{from: 4 * 0.3048, sign: "ft", size: 0.3048}, {sign: "in", size: 0.0254}}}

// usualDigits are the significant digits of a worked-out value, where nothing
// is said of how well it is known.
const usualDigits = 3

// exact asks for the fewest digits that read back as the same value.
const exact = -1

// named is a unit by its sign: the row it belongs to and its size.
type named struct {
	form *form
	one  float64 // in base units
}

// formsBySign finds the row and the size of a unit by the sign a figure has.
var formsBySign = func() map[string]named {
	found := map[string]named{}
	for i := range forms {
		found[forms[i].unit] = named{&forms[i], 1}
		for _, s := range forms[i].steps {
			found[s.sign] = named{&forms[i], s.one()}
		}
	}
	return found
}()

// number prints v in a unit of the table, which need not be the one it will
// stand in; a unit that the table lacks stands as it is.
func (p Printer) number(v float64, unit string, digits int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "–"
	}
	if clock, rest := InHours(unit); clock {
		return joined(Hours(v).Parts(digits)) + rest
	}
	if unit == "s" && math.Abs(v) >= 60 {
		return joined(Hours(v / 3600).Parts(digits))
	}
	if places, ok := MinorDigits(unit); ok {
		return Money{int64(math.Round(v * math.Pow10(places))), unit}.String()
	}
	known, ok := formsBySign[unit]
	if !ok {
		return shortest(v, digits) + unitAfter(unit)
	}
	if digits == 0 {
		digits = cmp.Or(known.form.digits, usualDigits)
	}
	if known.one != 1 {
		v *= known.one
	}
	return p.of(known.form).print(v, digits)
}

// of is the row, or the one in its place by the workshop's choice.
func (p Printer) of(f *form) *form {
	if p.Inches && f.unit == "m" {
		return &inches
	}
	return f
}

// print writes a value given in the base unit.
func (f *form) print(v float64, digits int) string {
	if v == 0 || digits != exact && math.Abs(v) < f.least {
		return "0" + unitAfter(f.zero)
	}
	return f.step(v, digits).print(v, digits)
}

// step finds the unit in which a value stands.
func (f *form) step(v float64, digits int) step {
	last := len(f.steps) - 1
	for _, s := range f.steps[:last] {
		if shown := roundedTo(v/s.one(), digits); math.Abs(shown)*s.one() >= s.from*(1-1e-12) {
			return s
		}
	}
	return f.steps[last]
}

func (s step) print(v float64, digits int) string {
	switch {
	case digits != exact:
		return Round(v/s.one(), digits) + unitAfter(s.sign)
	case s.size != 0:
		return s.imperial(v) + unitAfter(s.sign)
	}
	return decimal(v, s.shift) + unitAfter(s.sign)
}

// imperial writes a declared length in inches or feet: as it was where it was
// declared so, else as a worked-out one, since 250 mm are 9.84251968 in.
func (s step) imperial(v float64) string {
	if whole := Round(v/s.size, 9); len(whole) <= len("10.125") {
		return whole
	}
	return Round(v/s.size, usualDigits)
}

func roundedTo(v float64, digits int) float64 {
	if digits == exact {
		return v
	}
	return roundTo(v, digits)
}

// shortest writes a bare number.
func shortest(v float64, digits int) string {
	if digits == exact {
		return decimal(v, 0)
	}
	return Round(v, digits)
}

// ends prints two values with the unit once where it is the same: "8.9", "10.4 mA".
func (p Printer) ends(low, high float64, unit string, digits int) (string, string) {
	from, to := p.number(low, unit, digits), p.number(high, unit, digits)
	if a, sign, ok := strings.Cut(from, " "); ok && strings.HasSuffix(to, " "+sign) && !strings.Contains(sign, " ") {
		from = a
	}
	return from, to
}

// Shown returns the value in the unit in which it is printed, not rounded, and
// that unit.
func (f Figure) Shown() (value float64, unit string) {
	known, ok := formsBySign[f.Unit]
	if !ok {
		return f.Value, f.Unit
	}
	s := known.form.step(f.Value*known.one, cmp.Or(f.Digits, known.form.digits, usualDigits))
	return f.Value * known.one / s.one(), s.sign
}
