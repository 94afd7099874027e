package nodal

import "math"

// LeastOhms stands in for a resistance of nothing in a branch: even a soldered
// joint has a milliohm, and with it every branch has a finite current.
const LeastOhms = 1e-3

// diodeCurrent returns the current, in A, for which
// u = b·ln(I / 1 mA) + r·I: a diode with series resistance r under a voltage
// that lies u above its voltage at 1 mA. In closed form I = (b/r)·ω(z) with
// Wright's omega function and z = u/b + ln(r·1 mA/b) (Banwell and Jayakumar).
func diodeCurrent(u, b, r float64) float64 {
	r = max(r, LeastOhms)
	return b / r * omega(u/b+math.Log(r*milliamp/b))
}

// omega is Wright's omega function for real z: the w with w + ln w = z. Where
// w would underflow it is 0. Newton steps on w + ln w - z from an asymptotic
// start; the step used is the third-order one of Fritsch, Shafer and Crowley
// (Comm. ACM 16 (1973) 123-124), which gains a factor of four in digits.
func omega(z float64) float64 {
	var w float64
	switch {
	case z < -740:
		return 0
	case z < -1:
		w = math.Exp(z - math.Exp(z))
	case z < 2:
		w = 0.5671432904097838 + 0.3618962566348892*z + 0.0737*z*z
	default:
		w = z - math.Log(z)
	}
	for range 3 {
		residual := z - w - math.Log(w)
		q := 2 * (1 + w) * (1 + w + 2.0/3*residual)
		w *= 1 + residual/(1+w)*(q-residual)/(q-2*residual)
		if math.Abs(residual) < 1e-5 { // fourth order: the next one is below rounding
			break
		}
	}
	return w
}
