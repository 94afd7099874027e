package quantity

import (
	"math"
	"testing"
)

// A formula gives the number and the working from the same words; each number
// is worked out by hand beside it.
func TestFormulaFigures(t *testing.T) {
	for _, c := range []struct {
		f     *Formula
		let   Let
		value float64 // by hand
		reads string
	}{
		{&Formula{Sum: "R = (U − ΣV) / I", Unit: "Ω"}, Let{"U": Volts(5), "V": Each([]Volts{2.79}), "I": Amps(0.004)}, 552.5, "R = (5 V − 2.79 V) / 4 mA = 553 Ω"},
		{&Formula{Sum: "R = (U − Σ V) / I", Unit: "Ω"}, Let{"U": Volts(9), "V": Each([]Volts{2, 2, 2}), "I": Amps(0.01)}, 300, "R = (9 V − 3 · 2 V) / 10 mA = 300 Ω"},
		{&Formula{Sum: "I = ΣI_i", Unit: "A"}, Let{"I_i": Each([]Amps{0.004, 0.9, 0.2})}, 1.104, "I = 4 mA + 900 mA + 200 mA = 1.1 A"},
		{&Formula{Sum: "n = 0.75 · (D / d)², rounded down", Digits: 6}, Let{"D": Metres(5e-3), "d": Metres(0.75e-3)}, 33, "n = 0.75 · (5 mm / 0.75 mm)² = 33.3333 → 33"},
		{&Formula{Sum: "k = 2^((t₀ − t) / 10 °C), never below 1"}, Let{"t₀": Celsius(20), "t": Celsius(14)}, math.Pow(2, 0.6), "k = 2^((20 °C − 14 °C) / 10 °C) = 1.52"},
		{&Formula{Sum: "k = 2^((t₀ − t) / 10 °C), never below 1"}, Let{"t₀": Celsius(20), "t": Celsius(30)}, 1, "k = 2^((20 °C − 30 °C) / 10 °C) = 0.5 → 1"},
		{&Formula{Sum: "n = V / 50 µl, rounded"}, Let{"V": Litres(2e-3)}, 40, "n = 2 ml / 50 µl = 40"},
		{&Formula{Sum: "D = log₁₀(E₀ / E)", Digits: 2}, Let{"E₀": Lux(1000), "E": Lux(10)}, 2, "D = log₁₀(1000 lx / 10 lx) = 2"},
		{&Formula{Sum: "m = 100 % · a / b", Unit: "share"}, Let{"a": 72.0, "b": 48}, 1.5, "m = 100 % · 72 / 48 = 150 %"},
	} {
		f := c.f.Figure("it", c.let)
		if math.Abs(f.Value-c.value) > 1e-9*math.Abs(c.value) || f.Working.String() != c.reads {
			t.Errorf("%s: %v, %q; want %v, %q", c.f.Sum, f.Value, f.Working, c.value, c.reads)
		}
	}
}

// A solved value shows the balance that it keeps.
func TestBalance(t *testing.T) {
	f := Formula{Sum: "U = I · R + ΣV", Unit: "V"}
	got := f.Balance(FigureOf("current", Amps(0.004)), Let{"U": Volts(5), "I": Amps(0.004), "R": Ohms(550), "V": Each([]Volts{2.8})})
	if got.Working.String() != "5 V = 4 mA · 550 Ω + 2.8 V" || got.Text() != "4 mA" {
		t.Errorf("%s: %s", got.Text(), got.Working)
	}
	if got := got.Then(Marked(560), "E24").Working.String(); got != "5 V = 4 mA · 550 Ω + 2.8 V → 560 Ω (560R), E24" {
		t.Error(got)
	}
}

// What is no formula, or lacks a value, is found by the first test that uses it.
func TestFormulaFaults(t *testing.T) {
	for name, do := range map[string]func(){
		"an open bracket":   func() { (&Formula{Sum: "a = (b + c"}).Of(Let{"b": 1, "c": 2}) },
		"no equals sign":    func() { (&Formula{Sum: "b + c"}).Of(nil) },
		"a lacking value":   func() { (&Formula{Sum: "a = b"}).Of(Let{}) },
		"an unknown ending": func() { (&Formula{Sum: "a = b, more or less"}).Of(Let{"b": 1}) },
		"text for a value":  func() { (&Formula{Sum: "a = b"}).Of(Let{"b": "5 V"}) },
		"something behind":  func() { (&Formula{Sum: "a = b c"}).Of(Let{"b": 1, "c": 2}) },
	} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("%s is taken", name)
				}
			}()
			do()
		}()
	}
}
