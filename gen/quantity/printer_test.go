package quantity

import (
	"fmt"
	"testing"
)

// The printer's rules, as a reader meets them. Each line is one value, however
// it comes in; which prefixes are in use is the trade's practice, no source.
var printerRules = []struct {
	value any
	reads string
	why   string
}{
	{Volts(5), "5 V", "volts from a tenth of a volt on"},
	{Volts(0.25), "0.25 V", ""},
	{Volts(0.0625), "62.5 mV", "millivolts below"},
	{Amount{0.0996, "V", 2}, "0.1 V", "the unit is that of the value as rounded"},
	{Volts(-3.2), "-3.2 V", "a value below zero by its size"},

	{Amps(1.5), "1.5 A", "amperes from one on, never 1500 mA"},
	{Amount{1500, "mA", 3}, "1.5 A", ""},
	{Amount{0.9996, "A", 3}, "1 A", ""},
	{Amps(0.02), "20 mA", "milliamperes between"},
	{Amps(500e-6), "0.5 mA", "down to a tenth, never 500 µA"},
	{Amount{500, "µA", 3}, "0.5 mA", ""},
	{Amps(40e-6), "40 µA", "microamperes below"},
	{Amount{1e-12, "A", 3}, "0 mA", "leakage is no current"},

	{Ohms(560), "560 Ω", "the sign, not the word"},
	{Amount{553.2, "Ω", 3}, "553 Ω", ""},
	{Ohms(4700), "4.7 kΩ", ""},
	{Ohms(1e6), "1 MΩ", ""},
	{Ohms(0.22), "0.22 Ω", "ohms from a tenth on"},
	{Ohms(0.02), "20 mΩ", "milliohms below: contacts, feeds"},
	{Marked(560), "560 Ω (560R)", "the part's marking in parentheses, where it is meant"},
	{Marked(4700), "4.7 kΩ (4k7)", ""},

	{Watts(0.3), "300 mW", "heat in milliwatts below one watt"},
	{Amount{0.3, "W", 2}, "300 mW", ""},
	{Watts(1.25), "1.25 W", ""},
	{Watts(20e-6), "20 µW", ""},
	{Rating(0.0625), "1/16 W", "a resistor's rating as it is sold"},
	{Rating(0.125), "1/8 W", ""},
	{Rating(0.5), "1/2 W", ""},
	{Rating(1), "1 W", ""},
	{Rating(0.6), "600 mW", "where it is no fraction, like any other power"},

	{Hertz(0.5), "0.5 Hz", "slow rates in Hz, never 500 mHz"},
	{Hertz(490), "490 Hz", ""},
	{Hertz(25000), "25 kHz", ""},

	{Farads(100e-9), "100 nF", "no 0.1 µF"},
	{Farads(4700e-6), "4700 µF", "microfarads up to one farad: no millifarads"},
	{AmpHours(2.6), "2600 mAh", "cells in mAh up to ten Ah"},
	{AmpHours(10), "10 Ah", ""},
	{Candelas(1.2), "1200 mcd", "as lamps are sold"},
	{Amount{1.2, "cd", 2}, "1200 mcd", ""},
	{Candelas(12), "12 cd", ""},

	{Metres(1.2), "1.2 m", "metres from one on, never 1200 mm"},
	{Amount{1200, "mm", 3}, "1.2 m", ""},
	{Metres(0.8), "800 mm", "millimetres below, never 80 cm"},
	{Measured{0.204, 0.2035, 0.2045}, "204 ± 0.5 mm", "a tolerance in the unit of its value"},
	{Measured{9.4, 9.35, 9.45}, "9.4 ± 0.05 m", ""},
	{Measured{9.4, 9.4, 9.4}, "9.4 m", ""},
	{WireSize{AWG(34), "34 AWG"}, "34 AWG", "a gauge as a gauge"},
	{WireSize{0.2e-3, "0.20 mm"}, "0.2 mm", "copper by its diameter, whatever its spelling"},

	{Kilograms(0.64), "640 g", ""},
	{Kilograms(1.2), "1.2 kg", ""},
	{Litres(0.012), "12 ml", ""},
	{Litres(50e-6), "50 µl", "drops"},
	{Pascals(120000), "1.2 bar", "air pressure in bar"},
	{Celsius(21), "21 °C", ""},
	{Share(0.05), "5 %", ""},
	{Degrees(112.5), "112.5°", "no space before a degree"},
	{Lux(1850), "1850 lx", ""},

	{Hours(3 + 20*(1.0/60)), "3 h 20 min", "times as clocks are read"},
	{Hours(0.75), "45 min", ""},
	{Hours(0.025), "1 min 30 s", ""},
	{Amount{90, "s", 3}, "1 min 30 s", ""},
	{Amount{2.4, "s", 2}, "2.4 s", ""},
	{Amount{0.05, "s", 2}, "50 ms", ""},
	{Amount{2.5, "h", 3}, "2 h 30 min", "never 2.5 h"},
	{Amount{2.5, "h a week", 3}, "2 h 30 min a week", ""},
	{Amount{3.73, "h", 2}, "3 h 40 min", "of two digits: tens of minutes"},
	{Amount{36.6, "h", 2}, "37 h", "or whole hours"},
	{Amount{193, "h", 2}, "190 h", "or tens of hours"},

	{Money{650, "EUR"}, "6.50 EUR", "the currency's own decimals"},
	{Money{9200, "EUR"}, "92 EUR", "or none"},
	{Amount{6.5, "EUR", 0}, "6.50 EUR", ""},
	{Amount{1200, "JPY", 0}, "1200 JPY", ""},

	{Amount{1.5432, "", 0}, "1.54", "a bare number: three digits where nothing is said"},
	{Amount{7.5, "of 10", 2}, "7.5 of 10", "a unit that the table lacks as it is"},
	{Amount{1500000, "B", 0}, "1.5 MB", ""},
}

func TestPrinter(t *testing.T) {
	for _, rule := range printerRules {
		reads, ok := Printer{}.Print(rule.value)
		if s, is := rule.value.(fmt.Stringer); !ok && is {
			reads, ok = s.String(), true
		}
		if !ok || reads != rule.reads {
			t.Errorf("%T %v reads %q, want %q (%s)", rule.value, rule.value, reads, rule.reads, rule.why)
		}
		if s, ok := rule.value.(fmt.Stringer); ok && s.String() != rule.reads {
			t.Errorf("%T: String gives %q, the printer %q", rule.value, s.String(), rule.reads)
		}
	}
}

// A workshop that measures in inches reads every length so, and nothing else
// otherwise.
func TestPrinterInInches(t *testing.T) {
	for _, rule := range []struct {
		value any
		reads string
	}{
		{Metres(0.0254 * 7), "7 in"}, {Metres(0.375 * 0.0254), "0.375 in"}, {Metres(0.25), "9.84 in"}, {Metres(6 * 0.3048), "6 ft"}, {Amount{204, "mm", 3}, "8.03 in"},
		{Measured{0.0508, 0.04953, 0.05207}, "2 ± 0.05 in"}, {WireSize{0.2e-3, "0.2 mm"}, "0.00787 in"},
		{WireSize{AWG(34), "34 AWG"}, "34 AWG"}, {Metres(0), "0 in"}, {Volts(5), "5 V"}, {Amount{0.2, "mm²", 2}, "0.2 mm²"},
	} {
		if reads, _ := (Printer{Inches: true}).Print(rule.value); reads != rule.reads {
			t.Errorf("%T %v reads %q, want %q", rule.value, rule.value, reads, rule.reads)
		}
	}
}

// The rows of the table are in order: no unit is passed over or out of reach.
func TestForms(t *testing.T) {
	for _, f := range append(forms, inches) {
		signs := map[string]bool{}
		for i, s := range f.steps {
			signs[s.sign] = true
			if last := i == len(f.steps)-1; last != (s.from == 0) {
				t.Errorf("%s: the last unit alone has no lower end, not %s", f.unit, s.sign)
			}
			if i > 0 && (s.from >= f.steps[i-1].from || s.one() >= f.steps[i-1].one()) {
				t.Errorf("%s: %s comes after a smaller unit", f.unit, s.sign)
			}
		}
		if !signs[f.zero] {
			t.Errorf("%s: nothing stands in %s, which is not among its units", f.unit, f.zero)
		}
	}
}

func TestRange(t *testing.T) {
	for _, c := range []struct {
		f     Figure
		reads string
	}{
		{Figure{Low: 8.9, High: 10.4, Unit: "mA"}, "8.9 to 10.4 mA"},
		{Figure{Low: 900, High: 1200, Unit: "mA"}, "900 mA to 1.2 A"},
		{Figure{Low: 45.9, High: 46.3, Digits: 4}, "45.9 to 46.3"},
		{Figure{}, ""},
	} {
		if got := c.f.Range(); got != c.reads {
			t.Errorf("%q, want %q", got, c.reads)
		}
	}
}
