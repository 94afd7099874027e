package quantity

import (
	"fmt"
	"math"
	"testing"
)

// IEC 60063:2015, table of E24 (all 24 values) and E12.
func TestSeriesValues(t *testing.T) {
	const e24 = "[1 1.1 1.2 1.3 1.5 1.6 1.8 2 2.2 2.4 2.7 3 3.3 3.6 3.9 4.3 4.7 5.1 5.6 6.2 6.8 7.5 8.2 9.1]"
	if got := fmt.Sprint(E24.Decade()); got != e24 {
		t.Errorf("E24 is %s", got)
	}
	const e12 = "[1 1.2 1.5 1.8 2.2 2.7 3.3 3.9 4.7 5.6 6.8 8.2]"
	if got := fmt.Sprint(E12.Decade()); got != e12 {
		t.Errorf("E12 is %s", got)
	}
	// IEC 60063 E96, as listed at qsl.net/g4usp "Component preferred values".
	e96 := []float64{100, 102, 105, 107, 110, 113, 115, 118, 121, 124, 127, 130, 133, 137, 140, 143, 147, 150, 154, 158, 162, 165, 169, 174, 178,
		182, 187, 191, 196, 200, 205, 210, 215, 221, 226, 232, 237, 243, 249, 255, 261, 267, 274, 280, 287, 294, 301, 309, 316, 324, 332, 340, 348, 357,
		365, 374, 383, 392, 402, 412, 422, 432, 442, 453, 464, 475, 487, 499, 511, 523, 536, 549, 562, 576, 590, 604, 619, 634, 649, 665, 681, 698, 715,
		732, 750, 768, 787, 806, 825, 845, 866, 887, 909, 931, 953, 976}
	for i, v := range E96.Decade() {
		if math.Abs(v*100-e96[i]) > 1e-9 {
			t.Errorf("E96[%d] is %v, want %v", i, v*100, e96[i])
		}
	}
}

// Published look-ups of an independent package's manual (pypi.org eseries
// 1.1.1) and values worked by hand from the series.
func TestSeriesLookUp(t *testing.T) {
	for _, c := range []struct {
		got, want Ohms
	}{
		{E24.Nearest(319), 330}, {E96.Up(184), 187}, {E24.Up(287.5), 300}, {E24.Down(287.5), 270}, {E96.Nearest(287.5), 287},
		{E12.Up(250), 270}, {E24.Up(250), 270}, {E24.Nearest(250), 240}, {E24.Up(4700), 4700}, {E24.Next(4700), 5100}, {E24.Previous(4700), 4300},
		{E24.Up(0.91), 0.91}, {E24.Up(9.2), 10}, {E24.Down(9.9), 9.1}, {E24.Up(1e6), 1e6}, {E96.Up(16834.2), 16900},
	} {
		if c.got != c.want {
			t.Errorf("got %v, want %v", c.got, c.want)
		}
	}
	for r := Ohms(0.5); r < 1e7; r *= 1.037 {
		for _, s := range []Series{E12, E24, E96} {
			if up, down := s.Up(r), s.Down(r); down > r*(1+1e-9) || up < r*(1-1e-9) || s.Up(up) != up || s.Down(down) != down {
				t.Errorf("%s at %v: %v to %v", s.Name, r, down, up)
			}
		}
	}
}

func TestLetterCodes(t *testing.T) {
	for r, want := range map[Ohms]string{470: "470R", 4700: "4k7", 1e6: "1M0", 0.22: "R22", 4.7: "4R7", 10000: "10k", 100: "100R", 1: "1R0", 1200: "1k2"} {
		if got := r.Code(); got != want {
			t.Errorf("%v: %q, want %q", float64(r), got, want)
		}
		if back, err := read[Ohms](want); err != nil || back != r {
			t.Errorf("%q reads as %v (%v)", want, back, err)
		}
	}
}

// IEC 60062: digits black 0 to white 9, multiplier, tolerance (gold 5 %, brown
// 1 %). The worked values are the usual textbook ones: 470 ohm yellow violet
// brown, 4.7 k yellow violet red, 1 ohm brown black gold.
func TestColourBands(t *testing.T) {
	for _, c := range []struct {
		r    Ohms
		tol  Share
		want string
	}{
		{470, 0.05, "yellow violet brown gold"},
		{4700, 0.05, "yellow violet red gold"},
		{1, 0.05, "brown black gold gold"},
		{0.22, 0.05, "red red silver gold"},
		{1e6, 0.10, "brown black green silver"},
		{332, 0.01, "orange orange red black brown"},
		{10000, 0.01, "brown black black red brown"},
		{91, 0.05, "white brown black gold"},
	} {
		bands, err := c.r.Bands(c.tol)
		got := ""
		for i, b := range bands {
			if i > 0 {
				got += " "
			}
			got += b.Colour
		}
		if err != nil || got != c.want {
			t.Errorf("%v ±%v: %q (%v), want %q", c.r, c.tol, got, err, c.want)
		}
	}
	for _, r := range []Ohms{0, 332, 1234, 1e13} {
		if bands, err := r.Bands(0.05); err == nil {
			t.Errorf("%v at 5 %% has rings %v", float64(r), bands)
		}
	}
}

// AWG diameters of ASTM B258 computed by its formula, in the NBS Handbook 100
// range; areas from the same table.
func TestWireGauges(t *testing.T) {
	for n, want := range map[int][2]float64{22: {0.6438, 0.32553}, 28: {0.3211, 0.08098}, 30: {0.2546, 0.05093}, 34: {0.1601, 0.02014}, 36: {0.1270, 0.01267}, 40: {0.0799, 0.00501}} {
		w := WireSize{Copper: AWG(n)}
		if d := w.Copper.Millimetres(); math.Abs(d-want[0]) > 6e-5 {
			t.Errorf("%d AWG: %.4f mm, want %.4f", n, d, want[0])
		}
		if a := w.Area(); math.Abs(a-want[1]) > 6e-6 {
			t.Errorf("%d AWG: %.5f mm², want %.5f", n, a, want[1])
		}
	}
	// 36 AWG is 0.0050 in and 0000 AWG 0.4600 in by definition.
	if d := AWG(-3).Inches(); math.Abs(d-0.46) > 1e-9 {
		t.Errorf("0000 AWG is %v in", d)
	}
	for _, text := range []string{"34 AWG", "AWG 34", "34awg"} {
		if w, err := read[WireSize](text); err != nil || w.Copper != AWG(34) || w.Text != "34 AWG" {
			t.Errorf("%q: %+v %v", text, w, err)
		}
	}
}
