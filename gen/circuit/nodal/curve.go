package nodal

import (
	"errors"
	"math"

	"spruelight/gen/quantity"
)

// Thermal is kT/q at 27 °C, in volts: the temperature at which SPICE reckons
// by default, 300.15 K. k and q are exact since the SI of 2019.
const Thermal = 1.380649e-23 * 300.15 / 1.602176634e-19

// milliamp is the current at which a lamp's curve has its voltage a.
const milliamp = 1e-3

// Curve is a lamp's forward voltage over current:
// V(I) = A + B·ln(I / 1 mA) + C·I, the Shockley diode with series resistance.
// Like Shockley's, the curve counts the saturation current, 1 mA·e^(−A/B), with
// I in the logarithm: nothing at working currents, but no voltage without a
// current.
type Curve struct {
	A, B    float64 // V
	C       float64 // ohm
	Assumed string  // what was taken for granted, "" where the data sheet says all
}

// Volts returns the forward voltage at a current.
func (c Curve) Volts(i quantity.Amps) quantity.Volts {
	return quantity.Volts(NewDiode(c.A, c.B).Volts(float64(i)) + c.C*float64(i))
}

// Current returns the current at a voltage over the lamp alone.
func (c Curve) Current(v quantity.Volts) quantity.Amps {
	d := NewDiode(c.A, c.B)
	d.Ohms = c.C
	i, _ := d.At(max(float64(v), 0))
	return quantity.Amps(i)
}

// Shifted returns the curve moved up by some volts: another lamp of the kind.
func (c Curve) Shifted(by quantity.Volts) Curve {
	c.A += float64(by)
	return c
}

// SPICE returns the parameters of the SPICE diode model that has this curve at
// 27 °C: saturation current in amperes, emission coefficient, series
// resistance in ohms.
func (c Curve) SPICE() (is, n, rs float64) {
	return NewDiode(c.A, c.B).Is, c.B / Thermal, c.C
}

// The curve taken for one declared point: an ideality of 2, usual for LEDs,
// and a few ohms of series resistance. Assumed, as DESIGN says.
const (
	assumedB = 2 * Thermal
	assumedC = 5.0
)

// leastB is the smallest b a fit may return for one junction: a diode's
// ideality is never below one (Shockley 1949), and readings that say so are
// rounded readings.
const leastB = Thermal

// mostJunction is the highest forward voltage of a single junction, in V: no
// lamp of visible light needs more (old blue lamps took 5.5 V). What takes
// more is several in a row, and its curve has the ideality of all.
const mostJunction = 6

// junctions returns how many junctions a lamp must hold in a row.
func junctions(points []quantity.Point) float64 {
	most := 0.0
	for _, p := range points {
		most = max(most, float64(p.Volts))
	}
	return max(math.Ceil(most/mostJunction), 1)
}

// Errors of FitCurve.
var (
	errNoPoints    = errors.New("no forward voltage is given")
	errPointRange  = errors.New("a forward voltage lies between 0.5 V and 1 kV, its current between 1 µA and 5 A")
	errSamePoint   = errors.New("two forward voltages are given for one current")
	errFallingVolt = errors.New("forward voltage falls while the current rises")
)

// FitCurve fits the curve to a data sheet's points by least squares, b and c
// never negative: three or more points fit all, two fit a and b, one takes
// b = 2kT/q and c = 5 ohm. Points must have distinct currents and voltages
// that do not fall as the current rises.
func FitCurve(points []quantity.Point) (Curve, error) {
	if err := checkPoints(points); err != nil {
		return Curve{}, err
	}
	if len(points) == 1 {
		p, n := points[0], junctions(points)
		i := float64(p.Amps)
		// A lamp made for much current has less resistance than 5 ohm: at most
		// a tenth of its voltage is put down to it.
		c := min(n*assumedC, 0.1*float64(p.Volts)/i)
		return Curve{
			A:       float64(p.Volts) - n*assumedB*math.Log(i/milliamp) - c*i,
			B:       n * assumedB,
			C:       c,
			Assumed: "the shape of the curve, from one point: ideality 2 and 5 ohm",
		}, nil
	}
	best, least := Curve{}, math.Inf(1)
	for _, free := range activeSets(len(points)) {
		c, ok := leastSquares(points, free)
		if e := squares(points, c); ok && e < least*(1-1e-9) {
			best, least = c, e
		}
	}
	return best, nil
}

func checkPoints(points []quantity.Point) error {
	if len(points) == 0 {
		return errNoPoints
	}
	for i, p := range points {
		if !(p.Volts >= 0.5 && p.Volts <= 1000) || !(p.Amps >= 1e-6 && p.Amps <= 5) {
			return errPointRange
		}
		for _, q := range points[:i] {
			switch {
			case q.Amps == p.Amps:
				return errSamePoint
			case (q.Amps < p.Amps) != (q.Volts < p.Volts) && q.Volts != p.Volts:
				return errFallingVolt
			}
		}
	}
	return nil
}

// freeSet says which of b and c a fit may choose; the others stay at their bound.
type freeSet struct{ b, c bool }

// activeSets lists the fits among which the best feasible one is the
// constrained least-squares solution: the problem is convex, so its solution
// is the unconstrained one of some set of active bounds.
func activeSets(points int) []freeSet {
	if points == 2 {
		return []freeSet{{b: true}, {}}
	}
	return []freeSet{{b: true, c: true}, {b: true}, {c: true}, {}}
}

// leastSquares solves the normal equations for a and the free parameters, and
// reports whether the result keeps the bounds.
func leastSquares(points []quantity.Point, free freeSet) (Curve, bool) {
	least, fixedB := leastB*junctions(points), 0.0
	if !free.b {
		fixedB = least
	}
	// Means are taken out first: a then follows, and the system stays small
	// and well conditioned.
	n := float64(len(points))
	var mx, my, mz float64
	for _, p := range points {
		x, y, z := math.Log(float64(p.Amps)/milliamp), float64(p.Amps), float64(p.Volts)
		mx, my, mz = mx+x/n, my+y/n, mz+(z-fixedB*x)/n
	}
	var xx, xy, yy, xz, yz float64
	for _, p := range points {
		x, y := math.Log(float64(p.Amps)/milliamp)-mx, float64(p.Amps)-my
		z := float64(p.Volts) - fixedB*(x+mx) - mz
		xx, xy, yy, xz, yz = xx+x*x, xy+x*y, yy+y*y, xz+x*z, yz+y*z
	}
	b, c := fixedB, 0.0
	switch {
	case free.b && free.c:
		det := xx*yy - xy*xy
		if det <= 1e-12*xx*yy {
			return Curve{}, false
		}
		b, c = (xz*yy-yz*xy)/det, (yz*xx-xz*xy)/det
	case free.b:
		b = xz / xx
	case free.c:
		c = yz / yy
	}
	if b < least || c < 0 {
		return Curve{}, false
	}
	a := mz - c*my
	if free.b {
		a -= b * mx
	}
	return Curve{A: a, B: b, C: c}, true
}

// squares returns the sum of squared misses of a curve, in V².
func squares(points []quantity.Point, c Curve) float64 {
	sum := 0.0
	for _, p := range points {
		d := float64(c.Volts(p.Amps) - p.Volts)
		sum += d * d
	}
	return sum
}
