package quantity

import (
	"encoding"
	"reflect"
	"regexp"
	"testing"
)

// Every form that reads as a value matches the pattern that the schemas give
// for it, and every kind's own example reads.
func TestPatternsAdmitWhatReads(t *testing.T) {
	targets := []any{new(Volts), new(Amps), new(Ohms), new(Watts), new(Farads), new(Hertz), new(AmpHours), new(Metres), new(Kilograms), new(Litres), new(Candelas),
		new(Lux), new(Pascals), new(Celsius), new(Share), new(Degrees), new(Measured), new(Hours), new(Fraction), new(Clock), new(Stamp), new(Scale), new(Mix),
		new(Colour), new(Money), new(Point), new(Brightness), new(WireSize), new(Spot)}
	texts := []string{"5 V", "-5 V", "−5 V", "12 mA", "190 µA", "190 μA", "1e-3 A", "4k7", "470R", "R22", "470 Ω", "470 ohms", "1.7 ohm", "4.7 kohm", "0.25 W", "10 uF", "1.2 Hz", "40 per minute",
		"500 mAh", "180 mm", "7 in", `5' 9"`, "5 ft 9 1/2 in", "3/8 in", "9.4 m", "640 g", "2 lb", "12 ml", "1200 mcd", "35 lx", "1.2 bar", "30 psi", "21 °C", "5 %", "20 percent", "60°", "112.5 deg",
		"204 mm ± 0.5 mm", "204 ± 0.5 mm", "204 mm +/- 0.25 %", "3 h 20 min", "3h20min", "2 days", "90 s", "1/50 s", "20 ms", "19:30", "7:05", "2:40", "1:02:40", "1/48", "1 : 32", "3/8 in to the foot",
		"1/4 in = 1 ft", "1:1.5", "2:1:0.5", "#8a9095", "92 EUR", "EUR 92", "6.50 EUR", "2.75 V @ 2 mA", "1200 mcd @ 20 mA", "34 AWG", "AWG 34", "0.2 mm", "42 % 31 %", "10 Volts", "3 VOLTS"}
	for _, target := range targets {
		typ := reflect.TypeOf(target).Elem()
		k, ok := KindOf(typ)
		if !ok {
			t.Errorf("%v has no kind", typ)
			continue
		}
		pattern, err := regexp.Compile(k.Pattern)
		if err != nil {
			t.Errorf("%v: %v", typ, err)
			continue
		}
		readable := 0
		for _, text := range append(texts, k.Example) {
			fresh := reflect.New(typ).Interface().(encoding.TextUnmarshaler)
			if fresh.UnmarshalText([]byte(text)) != nil {
				continue
			}
			readable++
			if !pattern.MatchString(text) {
				t.Errorf("%v reads %q, which its pattern %s refuses", typ, text, k.Pattern)
			}
		}
		if fresh := reflect.New(typ).Interface().(encoding.TextUnmarshaler); fresh.UnmarshalText([]byte(k.Example)) != nil || readable < 2 {
			t.Errorf("%v: its example %q does not read, or only %d texts do", typ, k.Example, readable)
		}
	}
}

// A pattern refuses what lacks its unit or carries another one.
func TestPatternsRefuse(t *testing.T) {
	for typ, texts := range map[reflect.Type][]string{
		reflect.TypeFor[Amps](): {"12", "12 mV", "twelve mA", "12 ma"}, reflect.TypeFor[Volts](): {"5", "5 A"}, reflect.TypeFor[Hours](): {"3.5", "1:30", "x h"},
		reflect.TypeFor[Money](): {"92", "92 euro"}, reflect.TypeFor[Metres](): {"180", "9 parsec"}, reflect.TypeFor[Colour](): {"#12345", "red"}, reflect.TypeFor[Clock](): {"7:5", "1930"},
		reflect.TypeFor[Point](): {"3 V", "3 V @ 20"}, reflect.TypeFor[Share](): {"5", "0.05"},
	} {
		k, _ := KindOf(typ)
		pattern := regexp.MustCompile(k.Pattern)
		for _, text := range texts {
			if pattern.MatchString(text) {
				t.Errorf("%v: its pattern admits %q", typ, text)
			}
		}
	}
}
