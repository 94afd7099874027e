package quantity

import (
	"reflect"
	"regexp"
	"strings"
)

// Kind describes how one type of value is written, for schemas and reference.
type Kind struct {
	Name    string // "current"
	Units   string // "A, amps, amp; with m, u, n"; "" where a value has its own form
	Example string // "12 mA"
	Pattern string // regular expression (ECMA 262) that every readable text matches
}

// KindOf returns how values of a type of this package are written.
func KindOf(t reflect.Type) (Kind, bool) {
	if d, ok := dimensionsByType[t]; ok {
		return d.kind(), true
	}
	k, ok := kinds[t]
	return k, ok
}

var dimensionsByType = map[reflect.Type]*dimension{
	reflect.TypeFor[Volts](): &voltage, reflect.TypeFor[Amps](): &current, reflect.TypeFor[Watts](): &power,
	reflect.TypeFor[Farads](): &capacitance,
	reflect.TypeFor[Hertz]():  &frequency, reflect.TypeFor[AmpHours](): &charge, reflect.TypeFor[Kilograms](): &mass,
	reflect.TypeFor[Litres]():   &volume,
	reflect.TypeFor[Candelas](): &intensity, reflect.TypeFor[Lux](): &illuminance, reflect.TypeFor[Pascals](): &pressure,
	reflect.TypeFor[Celsius](): &temperature, reflect.TypeFor[Share](): &share, reflect.TypeFor[Degrees](): &angle,
}

// figures matches what splitNumber reads as a number.
const figures = `[-+−]?[0-9.]+([eE][-+]?[0-9]+)?`

func (d *dimension) kind() Kind {
	return Kind{Name: d.name, Units: d.spellings(), Example: d.example, Pattern: `^\s*` + d.pattern() + `\s*$`}
}

func (d *dimension) spellings() string {
	symbols := make([]string, len(d.units))
	for i, u := range d.units {
		symbols[i] = u.symbol
	}
	text := strings.Join(symbols, ", ")
	if d.prefix != "" {
		text += "; with " + strings.Join(strings.Split(d.prefix, ""), ", ")
	}
	return text
}

// pattern matches a number with one of the dimension's units.
func (d *dimension) pattern() string {
	var alternatives []string
	for _, u := range d.units {
		symbol := regexp.QuoteMeta(u.symbol)
		if len(u.symbol) > 2 {
			symbol = anyCase(u.symbol)
		}
		if u.factor == 1 && len(u.symbol) < 5 && d.prefix != "" {
			symbol = "(" + d.prefixPattern() + " ?" + regexp.QuoteMeta(u.symbol) + "|" + symbol + ")"
		}
		alternatives = append(alternatives, symbol)
	}
	return figures + `\s*(` + strings.Join(alternatives, "|") + ")"
}

func (d *dimension) prefixPattern() string {
	set := d.prefix
	if strings.Contains(set, "u") {
		set += "µμ"
	}
	return "[" + set + "]"
}

// anyCase matches a word in upper and lower case: ECMA 262 patterns in a
// schema carry no flags.
func anyCase(word string) string {
	var b strings.Builder
	for _, r := range word {
		lower, upper := strings.ToLower(string(r)), strings.ToUpper(string(r))
		if lower == upper {
			b.WriteString(regexp.QuoteMeta(string(r)))
		} else {
			b.WriteString("[" + lower + upper + "]")
		}
	}
	return b.String()
}

// kinds are the values whose form is more than a number and a unit.
var kinds = map[reflect.Type]Kind{
	reflect.TypeFor[Ohms]():       {Name: "resistance", Units: resistance.spellings() + "; or a letter code of IEC 60062", Example: "470 ohm", Pattern: `^\s*(` + resistance.pattern() + `|[0-9]*[RkKMG][0-9]*)\s*$`},
	reflect.TypeFor[Metres]():     {Name: "length", Units: length.spellings(), Example: "180 mm", Pattern: `^\s*` + lengthPattern + `\s*$`},
	reflect.TypeFor[Measured]():   {Name: "length with tolerance", Units: length.spellings(), Example: "204 mm ± 0.5 mm", Pattern: `^\s*` + figures + `.*$`},
	reflect.TypeFor[Hours]():      {Name: "duration", Units: "days, h, min, s", Example: "3 h 20 min", Pattern: `^\s*([0-9.]+\s*(weeks?|days?|d|hours?|h|minutes?|min|seconds?|s)\s*)+$`},
	reflect.TypeFor[Fraction]():   {Name: "exposure", Units: "s, ms", Example: "1/50 s", Pattern: `^\s*[0-9./ ]+m?s\s*$`},
	reflect.TypeFor[Clock]():      {Name: "time of day", Example: "19:30", Pattern: `^\s*[0-9]{1,2}:[0-9]{2}\s*$`},
	reflect.TypeFor[Stamp]():      {Name: "place in a video", Example: "2:40", Pattern: `^\s*[0-9]{1,3}(:[0-9]{2}){1,2}\s*$`},
	reflect.TypeFor[Scale]():      {Name: "scale", Example: "1/48", Pattern: `^.*[0-9A-Za-z].*$`},
	reflect.TypeFor[Mix]():        {Name: "mix", Example: "1:1.5", Pattern: `^\s*[0-9.]+(\s*:\s*[0-9.]+){1,5}\s*$`},
	reflect.TypeFor[Colour]():     {Name: "colour", Example: "#8a9095", Pattern: `^\s*#[0-9a-fA-F]{6}\s*$`},
	reflect.TypeFor[Money]():      {Name: "amount", Units: "a currency code of ISO 4217; €, £, $ and ¥ where the workshop's currency is meant", Example: "92 EUR", Pattern: `^\s*([0-9.]+\s*([A-Z]{3}|[€£$¥])|([A-Z]{3}|[€£$¥])\s*[0-9.]+)\s*$`},
	reflect.TypeFor[Point]():      {Name: "voltage at a current", Units: "V @ A", Example: "2.75 V @ 2 mA", Pattern: `^\s*` + voltage.pattern() + `\s*@\s*` + current.pattern() + `\s*$`},
	reflect.TypeFor[Brightness](): {Name: "luminous intensity at a current", Units: "cd @ A", Example: "1200 mcd @ 20 mA", Pattern: `^\s*` + intensity.pattern() + `\s*@\s*` + current.pattern() + `\s*$`},
	reflect.TypeFor[WireSize]():   {Name: "wire size", Units: "AWG, or the copper's diameter", Example: "34 AWG", Pattern: `^.*[0-9].*$`},
	reflect.TypeFor[Spot]():       {Name: "place on a picture", Units: "% from the left, % from the top", Example: "42 % 31 %", Pattern: `^\s*[0-9.]+\s*%\s*[0-9.]+\s*%\s*$`},
}

const (
	lengthPattern = `[-+−]?[0-9.].*(m|in|inch|inches|"|″|ft|feet|foot|'|′|yd|thou)`
)
