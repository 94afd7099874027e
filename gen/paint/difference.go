package paint

import "math"

// Difference returns the CIEDE2000 colour difference of two colours with all
// weights 1. Equation numbers are those of Sharma, Wu and Dalal (2005). Hue
// stays in degrees: the branch at 180° is then decided exactly.
func Difference(one, two Lab) float64 {
	c1, c2 := math.Hypot(one.A, one.B), math.Hypot(two.A, two.B)                             // (2)
	g := 0.5 * (1 - math.Sqrt(seventh((c1+c2)/2)))                                           // (3), (4)
	a1, a2 := (1+g)*one.A, (1+g)*two.A                                                       // (5)
	p1, p2 := math.Hypot(a1, one.B), math.Hypot(a2, two.B)                                   // (6)
	h1, h2 := hue(a1, one.B), hue(a2, two.B)                                                 // (7)
	dL, dC := two.L-one.L, p2-p1                                                             // (8), (9)
	dh, mean := hues(p1*p2, h1, h2)                                                          // (10), (14)
	dH := 2 * math.Sqrt(p1*p2) * sin(dh/2)                                                   // (11)
	meanL, meanC := (one.L+two.L)/2, (p1+p2)/2                                               // (12), (13)
	t := 1 - 0.17*cos(mean-30) + 0.24*cos(2*mean) + 0.32*cos(3*mean+6) - 0.20*cos(4*mean-63) // (15)
	turn := 30 * math.Exp(-square((mean-275)/25))                                            // (16)
	rC := 2 * math.Sqrt(seventh(meanC))                                                      // (17)
	sL := 1 + 0.015*square(meanL-50)/math.Sqrt(20+square(meanL-50))                          // (18)
	sC, sH := 1+0.045*meanC, 1+0.015*meanC*t                                                 // (19), (20)
	rT := -sin(2*turn) * rC                                                                  // (21)
	dL, dC, dH = dL/sL, dC/sC, dH/sH
	return math.Sqrt(max(0, dL*dL+dC*dC+dH*dH+rT*dC*dH)) // (22)
}

// seventh returns c⁷/(c⁷+25⁷).
func seventh(c float64) float64 {
	c7 := math.Pow(c, 7)
	return c7 / (c7 + 6103515625)
}

// hue returns the hue angle in degrees from 0 to 360, 0 for grey.
func hue(a, b float64) float64 {
	if a == 0 && b == 0 {
		return 0
	}
	h := math.Atan2(b, a) * 180 / math.Pi
	if h < 0 {
		h += 360
	}
	return h
}

// hues returns the difference and the mean of two hues, both in degrees. Where
// one colour is grey its hue means nothing: the mean is the other's, which is
// their sum since hue gives grey a 0.
func hues(chroma, h1, h2 float64) (difference, mean float64) {
	if chroma == 0 {
		return 0, h1 + h2
	}
	switch d := h2 - h1; {
	case math.Abs(d) <= 180:
		return d, (h1 + h2) / 2
	case h1+h2 < 360:
		return turned(d), (h1 + h2 + 360) / 2
	default:
		return turned(d), (h1 + h2 - 360) / 2
	}
}

// turned brings a difference of hues beyond half a turn to the short way round.
func turned(d float64) float64 {
	if d > 180 {
		return d - 360
	}
	return d + 360
}

func square(x float64) float64    { return x * x }
func sin(degrees float64) float64 { return math.Sin(degrees * math.Pi / 180) }
func cos(degrees float64) float64 { return math.Cos(degrees * math.Pi / 180) }
