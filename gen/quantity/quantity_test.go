package quantity

import (
	"encoding"
	"errors"
	"math"
	"strings"
	"testing"
)

func read[T any, P interface {
	*T
	encoding.TextUnmarshaler
}](text string) (T, error) {
	var v T
	err := P(&v).UnmarshalText([]byte(text))
	return v, err
}

// What a modeller writes, and the SI value it stands for. Values follow from
// the definitions in the SI brochure and from 1 in = 25.4 mm exactly.
func TestUnits(t *testing.T) {
	check := func(text string, got any, err error, want any) {
		t.Helper()
		if err != nil || got != want {
			t.Errorf("%q: got %v (%v), want %v", text, got, err, want)
		}
	}
	volts := map[string]Volts{"5 V": 5, "9V": 9, "2.75 V": 2.75, "250 mV": 0.25, "0.2 V": 0.2, "-5 V": -5, "−5 V": -5, "3 volts": 3}
	for text, want := range volts {
		got, err := read[Volts](text)
		check(text, got, err, want)
	}
	amps := map[string]Amps{"12 mA": 0.012, "0.5 A": 0.5, "190 uA": 190e-6, "190 µA": 190e-6, "190 μA": 190e-6, "500mA": 0.5, "20 nA": 20e-9, "1e-3 A": 1e-3}
	for text, want := range amps {
		got, err := read[Amps](text)
		check(text, got, err, want)
	}
	ohms := map[string]Ohms{"470 ohm": 470, "470 Ω": 470, "470 R": 470, "4.7 kΩ": 4700, "4.7 kohm": 4700, "1.7 ohm": 1.7, "2 mohm": 0.002,
		"4k7": 4700, "470R": 470, "1M0": 1e6, "R22": 0.22, "4R7": 4.7, "10k": 10000, "1K5": 1500, "4 ohms": 4}
	for text, want := range ohms {
		got, err := read[Ohms](text)
		check(text, got, err, want)
	}
	metres := map[string]Metres{"180 mm": 0.18, "9.4 m": 9.4, "7 in": 7 * 0.0254, `5' 9"`: 5*0.3048 + 9*0.0254, "5 ft 9 in": 5*0.3048 + 9*0.0254,
		"3/8 in": 3.0 / 8 * 0.0254, "2 1/2 in": 2.5 * 0.0254, "0.2 mm": 0.0002, "12 cm": 0.12, "40 µm": 40e-6, "6 ft": 6 * 0.3048, `7"`: 7 * 0.0254, "1/2 mm": 0.0005}
	for text, want := range metres {
		got, err := read[Metres](text)
		if err != nil || math.Abs(float64(got-want)) > 1e-15 {
			t.Errorf("%q: got %v (%v), want %v", text, got, err, want)
		}
	}
	hours := map[string]Hours{"3.5 h": 3.5, "3 h 20 min": 3 + 20*(1.0/60), "45 min": 45 * (1.0 / 60), "2 days": 48, "3h20min": 3 + 20*(1.0/60), "1 d 2 h": 26, "90 s": 0.025}
	for text, want := range hours {
		got, err := read[Hours](text)
		check(text, got, err, want)
	}
	shares := map[string]Share{"5 %": 0.05, "12.5%": 0.125, "20 percent": 0.2}
	for text, want := range shares {
		got, err := read[Share](text)
		check(text, got, err, want)
	}
	weights := map[string]Kilograms{"640 g": 0.64, "1.2 kg": 1.2, "350 mg": 350e-6, "2 lb": 0.90718474}
	for text, want := range weights {
		got, err := read[Kilograms](text)
		check(text, got, err, want)
	}
	scales := map[string]float64{"1/32": 32, "1:32": 32, "3/8 in to the foot": 32, "1/4 in = 1 ft": 48, "1/72": 72, "1 : 350": 350, "4 mm to the foot": 76.2}
	for text, want := range scales {
		got, err := read[Scale](text)
		if err != nil || math.Abs(got.Ratio-want) > 1e-12*want {
			t.Errorf("%q: got %v (%v), want %v", text, got.Ratio, err, want)
		}
	}
	money := map[string]Money{"92 EUR": {9200, "EUR"}, "6.50 EUR": {650, "EUR"}, "EUR 92": {9200, "EUR"}, "1200 JPY": {1200, "JPY"}, "3.125 KWD": {3125, "KWD"}}
	for text, want := range money {
		got, err := read[Money](text)
		check(text, got, err, want)
	}
	point, err := read[Point]("2.75 V @ 2 mA")
	check("point", point, err, Point{2.75, 0.002})
	bright, err := read[Brightness]("1200 mcd @ 20 mA")
	check("brightness", bright, err, Brightness{1.2, 0.02})
	colour, err := read[Colour]("#8a9095")
	check("colour", colour, err, Colour{0x8a, 0x90, 0x95})
	spot, err := read[Spot]("42 % 31 %")
	check("spot", spot, err, Spot{0.42, 0.31})
	clock, err := read[Clock]("19:30")
	check("clock", clock, err, Clock(19*60+30))
	stamp, err := read[Stamp]("1:02:40")
	check("stamp", stamp, err, Stamp(3760))
}

func TestMeasured(t *testing.T) {
	for text, want := range map[string]Measured{
		"204 mm ± 0.5 mm":   {0.204, 0.2035, 0.2045},
		"204 ± 0.5 mm":      {0.204, 0.2035, 0.2045},
		"204 mm +/- 0.5 mm": {0.204, 0.2035, 0.2045},
		"200 mm ± 0.25 %":   {0.2, 0.1995, 0.2005},
		"36.5 mm":           {0.0365, 0.0365, 0.0365},
	} {
		got, err := read[Measured](text)
		if err != nil || math.Abs(float64(got.Low-want.Low)) > 1e-12 || math.Abs(float64(got.High-want.High)) > 1e-12 || got.Value != want.Value {
			t.Errorf("%q: got %+v (%v), want %+v", text, got, err, want)
		}
	}
}

// What is refused, the part of the text that is wrong, and words the message
// must hold.
func TestRefused(t *testing.T) {
	type parse func(string) error
	as := map[string]parse{
		"volts": func(s string) error { _, err := read[Volts](s); return err },
		"amps":  func(s string) error { _, err := read[Amps](s); return err },
		"ohms":  func(s string) error { _, err := read[Ohms](s); return err },
		"metre": func(s string) error { _, err := read[Metres](s); return err },
		"hours": func(s string) error { _, err := read[Hours](s); return err },
		"money": func(s string) error { _, err := read[Money](s); return err },
		"scale": func(s string) error { _, err := read[Scale](s); return err },
		"clock": func(s string) error { _, err := read[Clock](s); return err },
		"wire":  func(s string) error { _, err := read[WireSize](s); return err },
		"point": func(s string) error { _, err := read[Point](s); return err },
		"mix":   func(s string) error { _, err := read[Mix](s); return err },
	}
	for _, c := range []struct{ kind, text, marked, says string }{
		{"volts", "5", "5", "no unit"},
		{"volts", "5 A", "A", "not a unit of voltage"},
		{"volts", "five V", "five V", "not a voltage"},
		{"amps", "12 ma", "ma", "not a unit of current"},
		{"amps", "12,5 mA", "12,5", "not a number"},
		{"amps", "-3 mA", "-3", "negative"},
		{"amps", "1e999 A", "1e999", "not a number"},
		{"ohms", "47 kg", "kg", "not a unit of resistance"},
		{"metre", "3/0 in", "3/0 in", "divides by zero"},
		{"metre", "7 parsec", "parsec", "not a unit of length"},
		{"hours", "1:30", "1:30", "hours and minutes or minutes and seconds"},
		{"hours", "20 min 3 h", "h", "out of order"},
		{"hours", "3.5", "3.5", "no unit"},
		{"hours", "", "", "no duration"},
		{"money", "92", "92", "no currency"},
		{"money", "92 €", "€", "ISO 4217"},
		{"money", "92 EURO", "EURO", "ISO 4217"},
		{"money", "1.234 EUR", "1.234", "smallest unit"},
		{"scale", "48", "48", "not a scale"},
		{"scale", "1/0", "1/0", "not a scale"},
		{"scale", "2:1", "2:1", "not a scale"},
		{"clock", "25:00", "25:00", "not a time of day"},
		{"clock", "7:5", "7:5", "not a time of day"},
		{"wire", "36 SWG", "36 SWG", "SWG"},
		{"wire", "99 AWG", "99 AWG", "not an AWG size"},
		{"point", "3 V", "3 V", "at which current"},
		{"point", "3 V @ 20", "20", "no unit"},
		{"mix", "1", "1", "not a mix"},
	} {
		err := as[c.kind](c.text)
		var e *Error
		if !errors.As(err, &e) {
			t.Errorf("%s %q: accepted", c.kind, c.text)
			continue
		}
		marked := strings.TrimSpace(c.text[e.Offset : e.Offset+e.Length])
		if marked != c.marked || !strings.Contains(e.Says.String(), c.says) {
			t.Errorf("%s %q: marks %q, says %q; want %q, %q", c.kind, c.text, marked, e.Says, c.marked, c.says)
		}
	}
}

// Every value that is printed reads back as the same value.
func TestPrintingRoundTrips(t *testing.T) {
	values := []float64{0, 1, 0.1, 0.012, 4700, 470, 0.22, 1e6, 2.2e-6, 1234.5678, 9.4, 0.0005, 1.0 / 3, 3 + 20*(1.0/60), 1e-9, 123456789}
	for _, v := range values {
		same(t, Volts(v), v)
		same(t, Amps(v), v)
		same(t, Ohms(v), v)
		same(t, Watts(v), v)
		same(t, Metres(v), v)
		same(t, Hours(v), v)
		same(t, Hertz(v), v)
		same(t, AmpHours(v), v)
		same(t, Kilograms(v), v)
		same(t, Candelas(v), v)
		same(t, Share(v), v)
		same(t, Farads(v), v)
	}
}

func same[T interface {
	~float64
	String() string
}, P interface {
	*T
	encoding.TextUnmarshaler
}](t *testing.T, v T, _ float64, _ ...P) {
	t.Helper()
	var back T
	if err := P(&back).UnmarshalText([]byte(v.String())); err != nil || back != v {
		t.Errorf("%T %v prints %q, which reads as %v (%v)", v, float64(v), v.String(), float64(back), err)
	}
}

func TestPrinted(t *testing.T) {
	for got, want := range map[string]string{
		Amps(0.012).String(): "12 mA", Ohms(4700).String(): "4.7 kΩ", Ohms(0.22).String(): "0.22 Ω", Volts(0.25).String(): "0.25 V",
		Hours(3 + 20*(1.0/60)).String(): "3 h 20 min", Hours(0.75).String(): "45 min", Metres(0.18).String(): "180 mm", Metres(9.4).String(): "9.4 m",
		Share(0.05).String(): "5 %", AmpHours(0.5).String(): "500 mAh", Kilograms(0.64).String(): "640 g", Kilograms(1.2).String(): "1.2 kg",
		Amps(190e-6).String(): "0.19 mA", Farads(10e-6).String(): "10 µF", Scale{Ratio: 48}.String(): "1/48", Money{650, "EUR"}.String(): "6.50 EUR",
		Money{9200, "EUR"}.String(): "92 EUR", Money{5, "EUR"}.String(): "0.05 EUR",
		Round(9.4231, 3): "9.42", Round(457.9821, 3): "458", Round(0.00123456, 2): "0.0012", Round(12345, 3): "12345", Round(-0.5, 2): "-0.5",
	} {
		if got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}

func FuzzRead(f *testing.F) {
	for _, s := range []string{"12 mA", "4k7", "3 h 20 min", `5' 9"`, "1/32", "92 EUR", "204 mm ± 0.5 mm", "2.75 V @ 2 mA", "34 AWG", "3/8 in to the foot", "1:1.5", "−5 V", "42 % 31 %"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		targets := []encoding.TextUnmarshaler{new(Volts), new(Amps), new(Ohms), new(Metres), new(Hours), new(Money), new(Scale), new(Measured),
			new(Point), new(WireSize), new(Mix), new(Colour), new(Spot), new(Clock), new(Stamp), new(Kilograms), new(Share)}
		for _, target := range targets {
			err := target.UnmarshalText([]byte(s))
			var e *Error
			if errors.As(err, &e) {
				if e.Offset < 0 || e.Length < 0 || e.Offset+e.Length > len(s) {
					t.Fatalf("%T %q: error marks %d+%d of %d bytes", target, s, e.Offset, e.Length, len(s))
				}
			} else if err != nil {
				t.Fatalf("%T %q: error of type %T", target, s, err)
			}
			if v, ok := target.(*Ohms); ok && err == nil {
				same(t, *v, 0)
			}
			if v, ok := target.(*Metres); ok && err == nil && *v >= 0 {
				same(t, *v, 0)
			}
			if v, ok := target.(*Hours); ok && err == nil {
				same(t, *v, 0)
			}
		}
	})
}
