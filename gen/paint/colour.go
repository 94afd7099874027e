package paint

import (
	"math"

	"spruelight/gen/quantity"
)

// Colour is a colour in 8-bit sRGB, as swatches and screens use it.
type Colour = quantity.Colour

// Linear is a colour in linear light, each channel from 0 to 1, with the sRGB primaries.
type Linear struct{ R, G, B float64 }

// XYZ is a colour in CIE 1931 tristimulus values, Y of white being 1.
type XYZ struct{ X, Y, Z float64 }

// Lab is a colour in CIE 1976 L*a*b* for the white D65.
type Lab struct{ L, A, B float64 }

// LinearOf takes the sRGB curve off (IEC 61966-2-1, clause 5.2).
func LinearOf(c Colour) Linear {
	return Linear{expand(c.R), expand(c.G), expand(c.B)}
}

func expand(v uint8) float64 {
	s := float64(v) / 255
	if s <= 0.04045 {
		return s / 12.92
	}
	return math.Pow((s+0.055)/1.055, 2.4)
}

// Colour puts the sRGB curve on and rounds to 8 bits; what lies outside is cut.
func (l Linear) Colour() Colour {
	return Colour{R: compress(l.R), G: compress(l.G), B: compress(l.B)}
}

func compress(v float64) uint8 {
	v = min(max(v, 0), 1)
	if v <= 0.0031308 {
		v *= 12.92
	} else {
		v = 1.055*math.Pow(v, 1/2.4) - 0.055
	}
	return uint8(math.Round(v * 255))
}

// d65 is the white of sRGB from its chromaticity x 0.3127, y 0.3290. The often
// copied 0.95047, 1.08883 belongs to another rounding of D65; with it greys
// come out tinted.
var d65 = XYZ{0.3127 / 0.3290, 1, (1 - 0.3127 - 0.3290) / 0.3290}

// primaries are the chromaticities of red, green and blue (IEC 61966-2-1, table 1).
var primaries = [3][2]float64{{0.64, 0.33}, {0.30, 0.60}, {0.15, 0.06}}

// toXYZ is worked out from primaries and white instead of copied in the
// standard's four decimals, so that white maps to the white exactly.
var toXYZ = matrix()

func matrix() [3][3]float64 {
	var m [3][3]float64
	for i, p := range primaries {
		m[0][i], m[1][i], m[2][i] = p[0]/p[1], 1, (1-p[0]-p[1])/p[1]
	}
	s := solve(m, [3]float64{d65.X, d65.Y, d65.Z})
	for r := range m {
		for i := range m[r] {
			m[r][i] *= s[i]
		}
	}
	return m
}

// solve returns x of m·x = b by Cramer's rule.
func solve(m [3][3]float64, b [3]float64) [3]float64 {
	var x [3]float64
	whole := determinant(m)
	for i := range x {
		column := m
		for r := range column {
			column[r][i] = b[r]
		}
		x[i] = determinant(column) / whole
	}
	return x
}

func determinant(m [3][3]float64) float64 {
	return m[0][0]*(m[1][1]*m[2][2]-m[1][2]*m[2][1]) - m[0][1]*(m[1][0]*m[2][2]-m[1][2]*m[2][0]) + m[0][2]*(m[1][0]*m[2][1]-m[1][1]*m[2][0])
}

// XYZ returns the tristimulus values, white having Y = 1.
func (l Linear) XYZ() XYZ {
	row := func(r [3]float64) float64 { return r[0]*l.R + r[1]*l.G + r[2]*l.B }
	return XYZ{row(toXYZ[0]), row(toXYZ[1]), row(toXYZ[2])}
}

// Lab returns CIE L*a*b* for D65 (ISO/CIE 11664-4).
func (x XYZ) Lab() Lab {
	fx, fy, fz := cubeRoot(x.X/d65.X), cubeRoot(x.Y/d65.Y), cubeRoot(x.Z/d65.Z)
	return Lab{116*fy - 16, 500 * (fx - fy), 200 * (fy - fz)}
}

// LabOf returns CIE L*a*b* for D65.
func LabOf(c Colour) Lab { return LinearOf(c).XYZ().Lab() }

func cubeRoot(t float64) float64 {
	const edge = 6.0 / 29
	if t > edge*edge*edge {
		return math.Cbrt(t)
	}
	return t/(3*edge*edge) + 4.0/29
}

// Luminance returns relative luminance, white being 1.
func (l Linear) Luminance() float64 { return l.XYZ().Y }
