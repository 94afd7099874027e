package photo

import "math"

// space is how the stored numbers of a photo stand for colours: a curve for
// each channel, then a matrix to linear sRGB.
type space struct {
	curves [3]curve
	matrix *matrix // nil where the primaries are those of sRGB
}

// matrix is a 3 × 3 matrix, row by row.
type matrix [9]float64

func (m matrix) times(n matrix) matrix {
	var out matrix
	for i := range 3 {
		for j := range 3 {
			for k := range 3 {
				out[3*i+j] += m[3*i+k] * n[3*k+j]
			}
		}
	}
	return out
}

func (m matrix) apply(x, y, z float64) [3]float64 {
	return [3]float64{m[0]*x + m[1]*y + m[2]*z, m[3]*x + m[4]*y + m[5]*z, m[6]*x + m[7]*y + m[8]*z}
}

// inverse returns the inverse, and false where there is as good as none.
func (m matrix) inverse() (matrix, bool) {
	c := matrix{
		m[4]*m[8] - m[5]*m[7], m[2]*m[7] - m[1]*m[8], m[1]*m[5] - m[2]*m[4],
		m[5]*m[6] - m[3]*m[8], m[0]*m[8] - m[2]*m[6], m[2]*m[3] - m[0]*m[5],
		m[3]*m[7] - m[4]*m[6], m[1]*m[6] - m[0]*m[7], m[0]*m[4] - m[1]*m[3],
	}
	d := m[0]*c[0] + m[1]*c[3] + m[2]*c[6]
	if !(math.Abs(d) > 1e-3) { // those of real spaces have 0.05 and more
		return matrix{}, false
	}
	for i := range c {
		c[i] /= d
	}
	return c, true
}

// identity reports whether a matrix changes no colour by more than a tenth of
// an 8-bit step.
func (m matrix) identity() bool {
	for i, v := range m {
		want := 0.0
		if i%4 == 0 {
			want = 1
		}
		if math.Abs(v-want) > 0.0004 {
			return false
		}
	}
	return true
}

// primaries are chromaticities: white, red, green and blue as x and y.
type primaries [8]float64

var (
	d65 = [2]float64{0.3127, 0.3290}
	// sRGB and BT.709: ITU-R BT.709-6 item 1.3, IEC 61966-2-1:1999.
	srgbPrimaries = primaries{d65[0], d65[1], 0.64, 0.33, 0.30, 0.60, 0.15, 0.06}
	// Display P3: SMPTE EG 432-1:2010 with D65; ITU-T H.273 table 2, code 12.
	p3Primaries = primaries{d65[0], d65[1], 0.680, 0.320, 0.265, 0.690, 0.150, 0.060}
	// Adobe RGB (1998) Color Image Encoding, version 2005-05, section 4.3.1.
	adobePrimaries = primaries{d65[0], d65[1], 0.64, 0.33, 0.21, 0.71, 0.15, 0.06}
	// ITU-R BT.2020-2 table 3; ITU-T H.273 table 2, code 9.
	bt2020Primaries = primaries{d65[0], d65[1], 0.708, 0.292, 0.170, 0.797, 0.131, 0.046}
)

// adobeGamma is the exponent of Adobe RGB (1998), 2 + 51/256 (section 4.3.1.2).
const adobeGamma = 2 + 51.0/256

// toXYZ returns the matrix from linear RGB to CIE XYZ at its own white
// (SMPTE RP 177-1993), and false for primaries that span no triangle.
func (p primaries) toXYZ() (matrix, bool) {
	column := func(i int) (x, y, z float64) { return p[i] / p[i+1], 1, (1 - p[i] - p[i+1]) / p[i+1] }
	for i := 1; i < 8; i += 2 {
		if !(p[i] > 0.001) {
			return matrix{}, false
		}
	}
	var m matrix
	for i := range 3 {
		m[i], m[3+i], m[6+i] = column(2 + 2*i)
	}
	inverse, ok := m.inverse()
	if !ok {
		return matrix{}, false
	}
	scale := inverse.apply(column(0))
	for i := range m {
		m[i] *= scale[i%3]
	}
	return m, true
}

// The Bradford matrix (ICC.1:2022 annex E.3) and the white of the ICC's
// connection space, D50 (7.2.16).
var (
	bradford = matrix{0.8951, 0.2664, -0.1614, -0.7502, 1.7135, 0.0367, 0.0389, -0.0685, 1.0296}
	d50      = [3]float64{0.9642, 1, 0.8249}
)

// toPCS returns the matrix from linear RGB to XYZ adapted to D50.
func (p primaries) toPCS() (matrix, bool) {
	m, ok := p.toXYZ()
	if !ok {
		return matrix{}, false
	}
	white := m.apply(1, 1, 1)
	from, to := bradford.apply(white[0], white[1], white[2]), bradford.apply(d50[0], d50[1], d50[2])
	back, _ := bradford.inverse()
	adapt := back.times(matrix{to[0] / from[0], 0, 0, 0, to[1] / from[1], 0, 0, 0, to[2] / from[2]}).times(bradford)
	return adapt.times(m), true
}

// fromPCS turns XYZ at D50 into linear sRGB.
var fromPCS = func() matrix {
	m, _ := srgbPrimaries.toPCS()
	inverse, _ := m.inverse()
	return inverse
}()

// newSpace returns the space of three curves and a matrix to XYZ at D50.
func newSpace(curves [3]curve, toPCS matrix) *space {
	s := &space{curves: curves}
	if m := fromPCS.times(toPCS); !m.identity() {
		s.matrix = &m
	}
	return s
}

// spaceOf returns the space of primaries that share one curve, nil where the
// primaries make no sense.
func spaceOf(p primaries, c curve) *space {
	m, ok := p.toPCS()
	if !ok {
		return nil
	}
	return newSpace([3]curve{c, c, c}, m)
}

func gamma(exponent float64) curve {
	return func(v float64) float64 { return math.Pow(v, exponent) }
}

func straight(v float64) float64 { return v }

var srgb = spaceOf(srgbPrimaries, srgbCurve)
