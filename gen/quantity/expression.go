package quantity

import (
	"fmt"
	"math"
	"strings"
	"unicode"

	"spruelight/gen/source"
)

// expression is the right side of a formula, as a tree. It is worked out in
// base units and written with the values in the places of its letters.
type expression interface {
	// work returns the number with the values given.
	work(let Let) float64
	// write adds to a message what the reader sees.
	write(let Let, to *source.Message)
}

// Let gives the letters of a formula their values: values of this package,
// bare numbers, or lists of them for a sum (Σ).
type Let map[string]any

// of returns a letter's value as a number in its base unit, and as it is shown.
func (let Let) of(name string) (float64, any) {
	v, given := let[name]
	if !given {
		panic("a formula's letter has no value: " + name)
	}
	return measured(v)
}

// measured is a value as a number in its base unit, and as it is shown.
func measured(v any) (float64, any) {
	switch v := v.(type) {
	case int:
		return float64(v), v
	case float64:
		return v, Amount{Value: v}
	case Figure:
		return inBase(v.Amount()), v.Amount()
	case Amount:
		return inBase(v), v
	case Money:
		return v.Amount(), v
	}
	value, unit, ok := baseUnit(v)
	if length, is := v.(Metres); is { // measured, not worked out
		return value, Amount{Value: float64(length), Unit: unit, Digits: 6}
	}
	if !ok {
		panic(fmt.Sprintf("no value of a formula: %T", v))
	}
	return value, Amount{Value: value, Unit: unit}
}

func inBase(a Amount) float64 {
	if known, ok := formsBySign[a.Unit]; ok {
		return a.Value * known.one
	}
	return a.Value
}

type (
	// constant is a number of the formula, with its unit.
	constant struct {
		text  string
		value float64
	}
	// letter stands for a value.
	letter string
	// total is the sum of a list of values: "Σ V".
	total string
	// pair joins two terms by a sign: + − · /, or ^ for a power.
	pair struct {
		sign        string
		left, right expression
	}
	// raisedTo is a power written behind its term: ² or ³.
	raisedTo struct {
		sign string
		of   expression
	}
	// function is one of the functions below, by its name.
	function struct {
		name string
		of   expression
	}
	// bracketed stands in parentheses.
	bracketed struct{ in expression }
)

// functions that a formula may name.
var functions = map[string]func(float64) float64{"ln": math.Log, "log₁₀": math.Log10, "√": math.Sqrt,
	"−": func(x float64) float64 { return -x }}

var exponents = map[string]float64{"²": 2, "³": 3}

func (c constant) work(Let) float64 { return c.value }
func (l letter) work(let Let) float64 {
	v, _ := let.of(string(l))
	return v
}
func (t total) work(let Let) float64 {
	sum := 0.0
	for _, v := range let.list(string(t)) {
		n, _ := measured(v)
		sum += n
	}
	return sum
}
func (p pair) work(let Let) float64 {
	a, b := p.left.work(let), p.right.work(let)
	switch p.sign {
	case "+":
		return a + b
	case "−":
		return a - b
	case "·":
		return a * b
	case "/":
		return a / b
	}
	return math.Pow(a, b)
}
func (p raisedTo) work(let Let) float64  { return math.Pow(p.of.work(let), exponents[p.sign]) }
func (f function) work(let Let) float64  { return functions[f.name](f.of.work(let)) }
func (b bracketed) work(let Let) float64 { return b.in.work(let) }

// list returns the values of a sum.
func (let Let) list(name string) []any {
	list, ok := let[name].([]any)
	if !ok {
		panic("a formula's sum has no list of values: " + name)
	}
	return list
}

func say(m *source.Message, text string) { m.Form += strings.ReplaceAll(text, "%", "%%") }

func value(m *source.Message, v any) {
	m.Form += "%s"
	if n, ok := v.(int); ok {
		v = Amount{Value: float64(n), Digits: 15}
	}
	m.Args = append(m.Args, v)
}

func (c constant) write(_ Let, to *source.Message) { say(to, c.text) }
func (l letter) write(let Let, to *source.Message) {
	_, shown := let.of(string(l))
	value(to, shown)
}

// write says equal values once with their number: "3 · 2.79 V".
func (t total) write(let Let, to *source.Message) {
	list := let.list(string(t))
	var shown []any
	alike := true
	for _, v := range list {
		_, s := measured(v)
		shown = append(shown, s)
		alike = alike && s == shown[0]
	}
	switch {
	case len(shown) == 0:
		say(to, "0")
	case len(shown) == 1:
		value(to, shown[0])
	case alike:
		say(to, fmt.Sprintf("%d · ", len(shown)))
		value(to, shown[0])
	default:
		say(to, "(")
		for i, v := range shown {
			if i > 0 {
				say(to, " + ")
			}
			value(to, v)
		}
		say(to, ")")
	}
}

func (p pair) write(let Let, to *source.Message) {
	p.left.write(let, to)
	if p.sign == "^" {
		say(to, "^")
	} else {
		say(to, " "+p.sign+" ")
	}
	p.right.write(let, to)
}

// write keeps a value with its unit together under a power: "(5 mm)²".
func (p raisedTo) write(let Let, to *source.Message) {
	if _, plain := p.of.(letter); plain {
		bracketed{p.of}.write(let, to)
	} else {
		p.of.write(let, to)
	}
	say(to, p.sign)
}

func (f function) write(let Let, to *source.Message) {
	say(to, f.name)
	if _, plain := f.of.(bracketed); !plain && f.name != "−" {
		say(to, " ")
	}
	f.of.write(let, to)
}

func (b bracketed) write(let Let, to *source.Message) {
	say(to, "(")
	b.in.write(let, to)
	say(to, ")")
}

// parser reads an expression as it is written in a formula.
type parser struct{ rest string }

// parse reads the right side of a formula; it panics where that is none, which
// a test of the formulas would find.
func parse(text string) expression {
	p := &parser{text}
	e := p.sum()
	if p.space(); p.rest != "" {
		panic("a formula cannot be read from: " + p.rest)
	}
	return e
}

func (p *parser) space() { p.rest = strings.TrimLeft(p.rest, " ") }

// sign takes one of the signs, "" where none follows.
func (p *parser) sign(signs ...string) string {
	p.space()
	for _, s := range signs {
		if rest, ok := strings.CutPrefix(p.rest, s); ok {
			p.rest = rest
			return s
		}
	}
	return ""
}

func (p *parser) sum() expression {
	left := p.product()
	for {
		s := p.sign("+", "−")
		if s == "" {
			return left
		}
		left = pair{s, left, p.product()}
	}
}

func (p *parser) product() expression {
	left := p.raised()
	for {
		s := p.sign("·", "/")
		if s == "" {
			return left
		}
		left = pair{s, left, p.raised()}
	}
}

func (p *parser) raised() expression {
	term := p.term()
	for {
		switch s := p.sign("²", "³", "^"); s {
		case "":
			return term
		case "^":
			term = pair{s, term, p.term()}
		default:
			term = raisedTo{s, term}
		}
	}
}

func (p *parser) term() expression {
	if p.sign("(") != "" {
		in := p.sum()
		if p.sign(")") == "" {
			panic("a formula's bracket is open before: " + p.rest)
		}
		return bracketed{in}
	}
	if p.sign("Σ") != "" {
		return total(p.name())
	}
	if f := p.sign("ln", "log₁₀", "√", "−"); f != "" {
		return function{f, p.term()}
	}
	p.space()
	if digits, rest := splitNumber(p.rest); digits != "" {
		return p.constant(digits, rest)
	}
	name := p.name()
	if c, known := constants[name]; known {
		return constant{name, c}
	}
	return letter(name)
}

// constants are the numbers that have a letter of their own.
var constants = map[string]float64{"e": math.E, "π": math.Pi}

// constant reads a number, with the unit that follows it where one does.
func (p *parser) constant(digits, rest string) expression {
	p.rest = rest
	c := constant{text: digits}
	c.value, _ = number(digits, 0)
	end := strings.IndexFunc(strings.TrimPrefix(rest, " "), func(r rune) bool { return !unicode.IsLetter(r) && r != '°' && r != '%' })
	unit := strings.TrimPrefix(rest, " ")
	if end >= 0 {
		unit = unit[:end]
	}
	if known, ok := formsBySign[unit]; ok && strings.HasPrefix(rest, " ") {
		c.text, c.value, p.rest = digits+" "+unit, c.value*known.one, rest[len(" ")+len(unit):]
	}
	return c
}

// name reads a letter with its index: "U_R", "V₁", "t₀", "ΔT".
func (p *parser) name() string {
	p.space()
	end := strings.IndexFunc(p.rest, func(r rune) bool {
		return !unicode.IsLetter(r) && r != '_' && (r < '₀' || r > '₉') && r != '*'
	})
	if end < 0 {
		end = len(p.rest)
	}
	if end == 0 {
		panic("a formula lacks a letter before: " + p.rest)
	}
	name := p.rest[:end]
	p.rest = p.rest[end:]
	return name
}
