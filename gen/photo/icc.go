package photo

import (
	"encoding/binary"
	"errors"
	"fmt"
	"math"
)

// errProfile marks a profile that is not made of primaries and curves, or is
// damaged.
var errProfile = errors.New("not made of primaries and curves")

// readProfile reads a three-component matrix or a monochrome profile
// (ICC.1:2022, 8.3.3 and 8.3.4). For other kinds it returns errProfile.
func readProfile(b []byte) (*space, error) {
	p := profile(b)
	if len(b) < 132 || string(b[36:40]) != "acsp" {
		return nil, fmt.Errorf("%w: no ICC profile", errProfile)
	}
	if kind := string(b[16:20]); kind == "GRAY" {
		c, err := p.curve("kTRC")
		if err != nil {
			return nil, err
		}
		return &space{curves: [3]curve{c, c, c}}, nil
	} else if kind != "RGB " {
		return nil, fmt.Errorf("%w: for %q", errProfile, kind)
	}
	var curves [3]curve
	var m matrix
	for i, channel := range []string{"r", "g", "b"} {
		c, err := p.curve(channel + "TRC")
		if err != nil {
			return nil, err
		}
		xyz, err := p.xyz(channel + "XYZ")
		if err != nil {
			return nil, err
		}
		curves[i] = c
		m[i], m[3+i], m[6+i] = xyz[0], xyz[1], xyz[2]
	}
	if _, ok := m.inverse(); !ok {
		return nil, fmt.Errorf("%w: its primaries span no triangle", errProfile)
	}
	return newSpace(curves, m), nil
}

// profile is the bytes of an ICC profile.
type profile []byte

// tag returns the data of a tag (7.3), at least twelve bytes.
func (p profile) tag(name string) ([]byte, error) {
	n := int(min(binary.BigEndian.Uint32(p[128:]), 200)) // profiles have some twenty
	for i := range n {
		at := 132 + 12*i
		if at+12 > len(p) {
			break
		}
		if string(p[at:at+4]) != name {
			continue
		}
		offset, size := int64(binary.BigEndian.Uint32(p[at+4:])), int64(binary.BigEndian.Uint32(p[at+8:]))
		if size < 12 || offset+size > int64(len(p)) {
			return nil, fmt.Errorf("%w: tag %s reaches outside", errProfile, name)
		}
		return p[offset : offset+size], nil
	}
	return nil, fmt.Errorf("%w: no tag %s", errProfile, name)
}

// fixed reads an s15Fixed16Number (4.6).
func fixed(b []byte) float64 { return float64(int32(binary.BigEndian.Uint32(b))) / 65536 }

// xyz reads an XYZType (10.31).
func (p profile) xyz(name string) ([3]float64, error) {
	b, err := p.tag(name)
	if err != nil {
		return [3]float64{}, err
	}
	if string(b[:4]) != "XYZ " || len(b) < 20 {
		return [3]float64{}, fmt.Errorf("%w: tag %s holds no XYZ", errProfile, name)
	}
	return [3]float64{fixed(b[8:]), fixed(b[12:]), fixed(b[16:])}, nil
}

// curve reads a curveType (10.6) or a parametricCurveType (10.18).
func (p profile) curve(name string) (curve, error) {
	b, err := p.tag(name)
	if err != nil {
		return nil, err
	}
	switch string(b[:4]) {
	case "curv":
		return sampledCurve(b)
	case "para":
		return parametricCurve(b)
	}
	return nil, fmt.Errorf("%w: tag %s holds no curve", errProfile, name)
}

func sampledCurve(b []byte) (curve, error) {
	n := int64(binary.BigEndian.Uint32(b[8:]))
	if n*2 > int64(len(b)-12) {
		return nil, fmt.Errorf("%w: a curve is cut short", errProfile)
	}
	switch n {
	case 0:
		return straight, nil
	case 1:
		return gamma(float64(binary.BigEndian.Uint16(b[12:])) / 256), nil
	}
	table := make([]float64, n)
	for i := range table {
		table[i] = float64(binary.BigEndian.Uint16(b[12+2*i:])) / 65535
	}
	return func(v float64) float64 {
		at := min(max(v, 0), 1) * float64(n-1)
		i := min(int(at), int(n)-2)
		return table[i] + (table[i+1]-table[i])*(at-float64(i))
	}, nil
}

// parametricCurve reads the five functions of table 68: a power of a straight
// line, with a straight toe where the type has one.
func parametricCurve(b []byte) (curve, error) {
	kind := binary.BigEndian.Uint16(b[8:])
	if int(kind) >= len(parameters) || len(b) < 12+4*parameters[kind] {
		return nil, fmt.Errorf("%w: a curve of unknown type %d", errProfile, kind)
	}
	var v [7]float64
	for i := range parameters[kind] {
		v[i] = fixed(b[12+4*i:])
	}
	g, a, c0, c, d, e, f := v[0], v[1], v[2], v[3], v[4], v[5], v[6]
	switch kind {
	case 0:
		a, c0, c, d, e, f = 1, 0, 0, math.Inf(-1), 0, 0
	case 1, 2: // below −b/a the value is 0, or c
		e, f = c, c
		c, d = 0, math.Inf(-1)
		if a != 0 {
			d = -c0 / a
		}
	case 3:
		e, f = 0, 0
	}
	return func(x float64) float64 {
		y := c*x + f
		if x >= d {
			y = math.Pow(max(a*x+c0, 0), g) + e
		}
		return clampUnit(y)
	}, nil
}

// parameters is how many parameters each type of parametric curve has.
var parameters = [5]int{1, 3, 4, 5, 7}

// clampUnit keeps a value within 0 to 1; what is no number counts as 0.
func clampUnit(v float64) float64 {
	if !(v > 0) {
		return 0
	}
	return min(v, 1)
}
