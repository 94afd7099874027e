package circuit

import (
	"math"
	"testing"

	"spruelight/gen/circuit/nodal"
	"spruelight/gen/quantity"
)

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: %.9g, want %.9g within %.2g", what, got, want, within)
	}
}

func points(pairs ...float64) []quantity.Point {
	var all []quantity.Point
	for k := 0; k < len(pairs); k += 2 {
		all = append(all, quantity.Point{Volts: quantity.Volts(pairs[k]), Amps: quantity.Amps(pairs[k+1])})
	}
	return all
}

// kT/q at 300.15 K is 25.86493 mV: the value ngspice 39 reckons with.
// Typical lamps reproduce the data-sheet points they were taken from, and
// infrared is refused.
func TestTypical(t *testing.T) {
	for colour, at20 := range map[string]float64{"red": 2.0, "amber": 2.1, "green": 3.2, "blue": 3.4, "white": 3.2, "warm white": 3.2, "#ffd9a0": 3.2, "#ff2010": 2.0} {
		l, err := Typical(colour)
		if err != nil {
			t.Errorf("%s: %v", colour, err)
			continue
		}
		p := make([]quantity.Point, len(l.Forward))
		for k, f := range l.Forward {
			p[k] = f.V
		}
		c, err := nodal.FitCurve(p)
		if err != nil {
			t.Errorf("%s: %v", colour, err)
		}
		near(t, colour, float64(c.Volts(0.020)), at20, 1e-4)
		if l.Source.V == "" || l.Limit.V < l.Rated.V {
			t.Errorf("%s: source %q, rated %v, limit %v", colour, l.Source.V, l.Rated.V, l.Limit.V)
		}
	}
	for _, colour := range []string{"infrared", "IR", "mauve", "", "#12"} {
		if _, err := Typical(colour); err == nil {
			t.Errorf("a typical lamp of %q was given", colour)
		}
	}
}
