package circuit

import (
	"math"
	"testing"

	"spruelight/gen/quantity"
)

// NE555 data sheet, TI SLFS022I (Sep 2014), figure for RA = 5 kohm,
// RB = 3 kohm, C = 0.15 µF and its formulas; the second set by the same
// formulas (10 k, 68 k, 10 µF).
func TestAstable(t *testing.T) {
	a := Astable{5000, 3000, 0.15e-6}.Times()
	near(t, "tH", a.High, 0.8316e-3, 1e-9)
	near(t, "tL", a.Low, 0.31185e-3, 1e-9)
	near(t, "T", a.Period, 1.14345e-3, 1e-9)
	near(t, "f", float64(a.Frequency), 872.7, 0.05)
	near(t, "high share", float64(a.HighShare), 0.7273, 5e-5)
	near(t, "low share", float64(a.LowShare), 0.2727, 5e-5)
	b := Astable{10e3, 68e3, 10e-6}.Times()
	near(t, "f", float64(b.Frequency), 0.9863, 5e-5)
	near(t, "high share", float64(b.HighShare), 0.5342, 5e-5)
}

// A designed timer does what was asked, as near as its series allows.
func TestDesignAstable(t *testing.T) {
	for _, rate := range []quantity.Hertz{0.7, 1, 1.2, 2.5} {
		for _, lit := range []quantity.Share{0.05, 0.2, 0.4, 0.6, 0.8} {
			a, sinks, err := DesignAstable(rate, lit, 10e-6, quantity.E96)
			if err != nil {
				t.Errorf("%v %v: %v", rate, lit, err)
				continue
			}
			times := a.Times()
			got := times.HighShare
			if sinks {
				got = times.LowShare
			}
			if math.Abs(float64(times.Frequency/rate)-1) > 0.02 || math.Abs(float64(got-lit)) > 0.01 {
				t.Errorf("%v lit %v: %+v gives %v and %v", rate, lit, a, times.Frequency, got)
			}
		}
	}
	for _, c := range []struct {
		rate quantity.Hertz
		lit  quantity.Share
		c    quantity.Farads
	}{{0, 0.5, 1e-6}, {1, 0, 1e-6}, {1, 1, 1e-6}, {1, 0.5, 0}, {1, 0.2, 1e-12}} {
		if a, _, err := DesignAstable(c.rate, c.lit, c.c, quantity.E24); err == nil {
			t.Errorf("%+v: %+v", c, a)
		}
	}
}

// Charging: shares at whole time constants by 1 − e^−n (any textbook), and
// ngspice's transient for 10 kohm and 100 µF on 5 V: 3.16060 V at 1.000002 s,
// 4.75107 V at 3 s.
func TestRC(t *testing.T) {
	r := RC{10e3, 100e-6}
	for n, share := range map[float64]float64{1: 0.63212, 2: 0.86466, 3: 0.95021, 4: 0.98168, 5: 0.99326} {
		near(t, "share", float64(r.Charged(n*r.Tau())), share, 5e-6)
	}
	near(t, "10 %", float64(r.Charged(0.10536*r.Tau())), 0.1, 1e-4) // and 2.1972 time constants later
	near(t, "90 %", float64(r.Charged((0.10536+2.1972)*r.Tau())), 0.9, 1e-4)
	near(t, "ngspice at 1 s", 5*float64(r.Charged(1.000002)), 3.16060, 2e-5)
	near(t, "ngspice at 3 s", 5*float64(r.Charged(3)), 4.75107, 2e-5)
}

// CIE 15: L* = 50 is Y = 18.42 %, the photographer's middle grey; L* = 8 is
// Y = 0.8856 % on either branch; a fade must use 116, and a table that
// divides by 119 would end below full light.
func TestLuminance(t *testing.T) {
	near(t, "L* 50", Luminance(50), 0.18418652, 1e-8)
	near(t, "L* 8", Luminance(8), 0.00885645, 1e-8)
	near(t, "just above 8", Luminance(8.0000001), 0.00885645, 1e-8)
	near(t, "L* 100", Luminance(100), 1, 1e-15)
	near(t, "L* 0", Luminance(0), 0, 0)
	table := FadeTable(4, 101)
	if last := table[100]; last.Seconds != 4 || last.Level != 255 || table[0].Level != 0 {
		t.Errorf("ends of the table: %+v, %+v", table[0], last)
	}
	mean := 0.0
	const steps = 200000
	for k := range steps {
		mean += Luminance(100*(float64(k)+0.5)/steps) / steps
	}
	near(t, "mean of a fade", fadeMean, mean, 1e-9)
}

// 490 Hz at 1/50 s: 9.8 pulses, a ripple of about 10 % (trade reports).
func TestRipple(t *testing.T) {
	near(t, "490 Hz at 1/50 s", float64(Ripple(490, 1.0/50)), 0.102, 5e-4)
	if Ripple(0, 1) != 0 || Ripple(1, 0) != 0 {
		t.Error("ripple without a frequency or exposure")
	}
}
