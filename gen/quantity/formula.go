package quantity

import (
	"math"
	"strings"

	"spruelight/gen/source"
)

// Formula is a sum as a reader could do it by hand: one declaration from which
// the program's number, its working and the guide's entry come. Rooms declare
// theirs in a list; a test works each out anew from its words.
type Formula struct {
	Name   string   // "copper wire": unique, a heading of the guide
	Sum    string   // "R = ρ · l / A"; what follows a comma says how it is rounded
	Where  []string // "R: resistance of one wire, Ω"
	Unit   string   // of the result, where the program makes figures by it; "" for a bare number
	Digits int      // significant digits of the result; 0 for those of its unit
	Source string   // standard, handbook or data sheet; else "common practice, no source"
	Note   string   // what it leaves out, or when it does not hold; may be ""
}

// read parts the sum: its letter, its right side, and how it is rounded.
func (f *Formula) read() (left string, right expression, last string) {
	sum, last, _ := strings.Cut(f.Sum, ", ")
	left, text, ok := strings.Cut(sum, " = ")
	if !ok {
		panic("a formula without an equals sign: " + f.Sum)
	}
	return left, parse(text), last
}

// endings are what a formula may say of its result after a comma.
var endings = map[string]func(float64) float64{
	"":                func(v float64) float64 { return v },
	"rounded up":      func(v float64) float64 { return math.Ceil(v - 1e-9) },
	"rounded down":    func(v float64) float64 { return math.Floor(v + 1e-9) },
	"rounded":         math.Round,
	"never below 1":   func(v float64) float64 { return max(v, 1) },
	"at least a drop": func(v float64) float64 { return max(math.Round(v), 1) },
}

// Of works the formula out, in the base unit of its result.
func (f *Formula) Of(let Let) float64 {
	_, right, last := f.read()
	return ended(last, right.work(let))
}

func ended(last string, v float64) float64 {
	ending, ok := endings[last]
	if !ok {
		panic("a formula ends on what is not known: " + last)
	}
	return ending(v)
}

// Figure is the result under a name, with its working and its source.
func (f *Formula) Figure(name string, let Let) Figure { return f.FigureIn(f.Unit, name, let) }

// FigureIn is the same in a unit that only the values know: a currency.
func (f *Formula) FigureIn(unit, name string, let Let) Figure {
	left, right, last := f.read()
	plain := right.work(let)
	out := Figure{Symbol: left, Name: name, Value: ended(last, plain), Unit: unit, Digits: f.Digits, Source: f.Source}
	shown := Amount{plain, unit, f.Digits}
	out.Working = written(left, right, let)
	say(&out.Working, " = ")
	value(&out.Working, shown)
	if shown.String() != out.Text() {
		out = out.Then(out.Amount(), "")
	}
	return out
}

// written is a sum with the values in the places of its letters.
func written(left string, right expression, let Let) source.Message {
	var m source.Message
	right.write(let, &m)
	if _, whole := right.(total); whole { // needs no brackets
		m.Form = strings.TrimSuffix(strings.TrimPrefix(m.Form, "("), ")")
	}
	m.Form = left + " = " + m.Form
	return m
}

// Balance shows a solved value: the formula holds with the values of the
// solution, of which the left side's letter is one.
func (f *Formula) Balance(of Figure, let Let) Figure {
	left, right, _ := f.read()
	var m source.Message
	letter(left).write(let, &m)
	say(&m, " = ")
	right.write(let, &m)
	of.Working, of.Source = m, f.Source
	return of
}

// Then adds to a figure's working what is made of its result: "→ 560 Ω, E24".
func (f Figure) Then(v any, why string) Figure {
	say(&f.Working, " → ")
	value(&f.Working, v)
	if why != "" {
		say(&f.Working, ", "+why)
	}
	return f
}

// Each makes a list of values for a formula's sum.
func Each[T any](values []T) []any { return source.Anys(values) }

// Formulas are those of this package.
var Formulas = []*Formula{
	{Name: "wire gauge", Sum: "d = 0.127 mm · 92^((36 − n) / 39)", Where: []string{"d: diameter of the bare copper, mm", "n: AWG number"}, Source: "ASTM B258"},
	{Name: "cross-section", Sum: "A = π/4 · d²", Where: []string{"A: cross-section of the copper, mm²", "d: its diameter, mm"}, Source: "geometry"},
	{Name: "preferred value", Sum: "R = the smallest value of the series that is not below the exact one", Where: []string{"the series: E12, E24 or E96, repeated in every decade"}, Source: "IEC 60063"},
	{Name: "length at a scale", Sum: "l = L / S", Where: []string{"l: length on the model", "L: length of the real thing", "S: the ratio: 48 for 1/48"}, Source: "proportion"},
	{Name: "inches to the foot", Sum: "i = 12 / S", Where: []string{"i: inches on the model for a real foot", "S: the ratio"}, Source: "12 inches to the foot"},
}
