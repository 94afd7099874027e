package nodal

import (
	"math"
	"math/rand/v2"
	"testing"

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
func TestThermalVoltage(t *testing.T) { near(t, "kT/q", Thermal, 25.86493e-3, 5e-9) }

// One point takes b = 2kT/q and c = 5 ohm; two go through both with c = 0;
// three or more recover the curve they were made from.
func TestFitCurve(t *testing.T) {
	one, err := FitCurve(points(2.0, 0.020))
	if err != nil || one.B != 2*Thermal || one.C != 5 || one.Assumed == "" {
		t.Errorf("one point: %+v %v", one, err)
	}
	near(t, "one point", float64(one.Volts(0.020)), 2.0, 1e-12)
	two, err := FitCurve(points(2.65, 0.002, 3.2, 0.020))
	if err != nil || two.C != 0 || two.Assumed != "" {
		t.Errorf("two points: %+v %v", two, err)
	}
	near(t, "b of two points", two.B, (3.2-2.65)/math.Ln10, 1e-12)
	near(t, "low point", float64(two.Volts(0.002)), 2.65, 1e-5) // the saturation current adds microvolts
	near(t, "high point", float64(two.Volts(0.020)), 3.2, 1e-5)
	made := Curve{A: 2.6, B: 0.06, C: 9}
	var many []quantity.Point
	for _, i := range []quantity.Amps{0.001, 0.003, 0.01, 0.02, 0.03} {
		many = append(many, quantity.Point{Volts: made.Volts(i), Amps: i})
	}
	for n := 3; n <= len(many); n++ {
		got, err := FitCurve(many[:n])
		if err != nil {
			t.Fatal(err)
		}
		near(t, "a", got.A, made.A, 1e-9)
		near(t, "b", got.B, made.B, 1e-9)
		near(t, "c", got.C, made.C, 1e-7)
	}
}

// The fit keeps its bounds and is the least-squares optimum within them: no
// step in any direction that keeps them makes the sum of squares smaller.
func TestFitIsOptimal(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	for range 500 {
		var p []quantity.Point
		v, i := 1.5+2*r.Float64(), 0.0005+0.002*r.Float64()
		for range 3 + r.IntN(4) {
			p = append(p, quantity.Point{Volts: quantity.Volts(v), Amps: quantity.Amps(i)})
			v, i = v+0.3*r.Float64()*r.Float64(), i*(1.2+3*r.Float64())
		}
		c, err := FitCurve(p)
		if err != nil {
			t.Fatalf("%v: %v", p, err)
		}
		if c.B < leastB || c.C < 0 {
			t.Fatalf("%v: %+v leaves its bounds", p, c)
		}
		plain := func(c Curve) float64 { // the formula that is fitted, without the saturation current
			sum := 0.0
			for _, q := range p {
				d := c.A + c.B*math.Log(float64(q.Amps)/1e-3) + c.C*float64(q.Amps) - float64(q.Volts)
				sum += d * d
			}
			return sum
		}
		best := plain(c)
		for _, d := range []Curve{{A: 1e-4}, {A: -1e-4}, {B: 1e-4}, {B: -1e-4}, {C: 1e-2}, {C: -1e-2}, {A: 1e-4, B: -1e-4}, {A: -1e-4, B: 1e-4}, {B: 1e-4, C: -1e-2}, {B: -1e-4, C: 1e-2}} {
			o := Curve{A: c.A + d.A, B: c.B + d.B, C: c.C + d.C}
			if o.B >= leastB && o.C >= 0 && plain(o) < best-1e-9 {
				t.Fatalf("%v: %+v is not the best fit, %+v is better (%g, %g)", p, c, o, best, plain(o))
			}
		}
	}
}

func TestFitRefuses(t *testing.T) {
	for name, p := range map[string][]quantity.Point{
		"nothing": nil, "zero volts": points(0, 0.01), "zero current": points(2, 0), "one current twice": points(2, 0.01, 2.1, 0.01),
		"falling": points(3.2, 0.002, 3.0, 0.02), "endless": points(math.Inf(1), 0.01),
	} {
		if c, err := FitCurve(p); err == nil {
			t.Errorf("%s: %+v", name, c)
		}
	}
}

// Wright's omega: values of the Lambert W function, ω(z) = W(e^z), from
// Corless et al., On the Lambert W function (1996) and the NIST DLMF 4.13:
// W(1) = Ω = 0.56714329…, W(e) = 1; and the equation it solves.
func TestOmega(t *testing.T) {
	near(t, "omega(0)", omega(0), 0.5671432904097838, 1e-15)
	near(t, "omega(1)", omega(1), 1, 1e-15)
	for z := -700.0; z < 2000; z += 0.37 {
		w := omega(z)
		if miss := w + math.Log(w) - z; math.Abs(miss) > 4e-16*max(math.Abs(z), 1)*2 {
			t.Fatalf("omega(%g) = %g misses by %g", z, w, miss)
		}
	}
	if omega(-800) != 0 {
		t.Error("omega far below does not underflow to 0")
	}
}

// Curve.Current undoes Curve.Volts.
func TestCurveInverts(t *testing.T) {
	for _, c := range []Curve{{A: 2.6, B: 0.06, C: 9}, {A: 1.7, B: 0.25}, {A: 3, B: Thermal, C: 1}, {A: 5, B: Thermal}} {
		for _, i := range []quantity.Amps{1e-9, 1e-6, 0.0002, 0.003, 0.02, 0.1} {
			if got := c.Current(c.Volts(i)); math.Abs(float64(got/i)-1) > 1e-9 {
				t.Errorf("%+v: %g A came back as %g A", c, i, got)
			}
		}
		if c.Volts(0) > 1e-12 || c.Current(0) != 0 {
			t.Errorf("%+v: %v at no current, %v at no voltage", c, c.Volts(0), c.Current(0))
		}
	}
}

// Sedra and Smith, Microelectronic Circuits, iterative analysis: 5 V, 1 kohm,
// a diode of 0.7 V at 1 mA that gains 0.1 V a decade: 4.237 mA and 0.762 V
// (as reprinted at expertsmind.com, Iterative Analysis through Example).
func TestTextbookDiode(t *testing.T) {
	d := NewDiode(0.7, 0.1/math.Ln10)
	i, _ := stringCurrent([]Diode{d}, 1000, 5)
	near(t, "current", i, 4.237e-3, 1e-6)
	near(t, "voltage", d.Volts(i), 0.762, 1e-3)
}

// Scaling: every voltage of the circuit doubled (supply, lamp curves) with all
// resistances kept doubles every current; all resistances doubled as well
// leaves them. Lamps in the model scale with a, b and c·I alike.
func TestScaling(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 4))
	for range 50 {
		row := []Diode{NewDiode(1.5+2*r.Float64(), 0.03+0.2*r.Float64()), NewDiode(1.5+2*r.Float64(), 0.05+0.2*r.Float64())}
		ohms, volts := 20+500*r.Float64(), 8+6*r.Float64()
		i, _ := stringCurrent(row, ohms, volts)
		double := make([]Diode, len(row))
		for k, d := range row {
			double[k] = d
			double[k].A, double[k].B = 2*d.A, 2*d.B
		}
		same, _ := stringCurrent(double, 2*ohms, 2*volts)
		near(t, "voltages and resistances doubled", same/i, 1, 1e-9)
	}
}
