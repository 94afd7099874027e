package photo

import (
	"image"
	"math"
	"slices"
	"testing"
)

// lab returns CIELAB (D65) of an sRGB pixel: IEC 61966-2-1:1999 and CIE 15:2004.
func lab(r, g, b uint8) [3]float64 {
	l := [3]float64{srgbCurve(float64(r) / 255), srgbCurve(float64(g) / 255), srgbCurve(float64(b) / 255)}
	f := func(row [3]float64) float64 {
		sum := row[0] + row[1] + row[2] // white: where every channel is 1
		t := (row[0]*l[0] + row[1]*l[1] + row[2]*l[2]) / sum
		if t > 216.0/24389 {
			return math.Cbrt(t)
		}
		return t*841/108 + 4.0/29
	}
	x, y, z := f([3]float64{0.4124, 0.3576, 0.1805}), f([3]float64{0.2126, 0.7152, 0.0722}), f([3]float64{0.0193, 0.1192, 0.9505})
	return [3]float64{116*y - 16, 500 * (x - y), 200 * (y - z)}
}

// deltaE is CIEDE2000 (Sharma, Wu, Dalal, Color Res. Appl. 30 (2005) 21).
func deltaE(p, q [3]float64) float64 {
	rad := math.Pi / 180
	c := (math.Hypot(p[1], p[2]) + math.Hypot(q[1], q[2])) / 2
	g := 0.5 * (1 - math.Sqrt(math.Pow(c, 7)/(math.Pow(c, 7)+math.Pow(25, 7))))
	a1, a2 := p[1]*(1+g), q[1]*(1+g)
	c1, c2 := math.Hypot(a1, p[2]), math.Hypot(a2, q[2])
	hue := func(a, b float64) float64 {
		if a == 0 && b == 0 {
			return 0
		}
		return math.Mod(math.Atan2(b, a)/rad+360, 360)
	}
	h1, h2 := hue(a1, p[2]), hue(a2, q[2])
	dh, h := h2-h1, h1+h2
	switch {
	case c1*c2 == 0:
		dh = 0
	case math.Abs(h1-h2) <= 180:
		h /= 2
	case h < 360:
		h = (h + 360) / 2
	default:
		h = (h - 360) / 2
	}
	if c1*c2 != 0 && dh > 180 {
		dh -= 360
	} else if c1*c2 != 0 && dh < -180 {
		dh += 360
	}
	dl, dc := q[0]-p[0], c2-c1
	dH := 2 * math.Sqrt(c1*c2) * math.Sin(dh/2*rad)
	l, cm := (p[0]+q[0])/2, (c1+c2)/2
	t := 1 - 0.17*math.Cos((h-30)*rad) + 0.24*math.Cos(2*h*rad) + 0.32*math.Cos((3*h+6)*rad) - 0.2*math.Cos((4*h-63)*rad)
	sl := 1 + 0.015*(l-50)*(l-50)/math.Sqrt(20+(l-50)*(l-50))
	sc, sh := 1+0.045*cm, 1+0.015*cm*t
	rt := -math.Sin(60*math.Exp(-math.Pow((h-275)/25, 2))*rad) * 2 * math.Sqrt(math.Pow(cm, 7)/(math.Pow(cm, 7)+math.Pow(25, 7)))
	x, y, z := dl/sl, dc/sc, dH/sh
	return math.Sqrt(x*x + y*y + z*z + rt*y*z)
}

// Pairs of table 1 of that paper: chosen for the hue discontinuity, the blue
// rotation term and large differences.
func TestDeltaE(t *testing.T) {
	for _, c := range []struct {
		p, q [3]float64
		want float64
	}{
		{[3]float64{50, 2.6772, -79.7751}, [3]float64{50, 0, -82.7485}, 2.0425},
		{[3]float64{50, 0, 0}, [3]float64{50, -1, 2}, 2.3669},
		{[3]float64{50, 2.49, -0.001}, [3]float64{50, -2.49, 0.0009}, 7.1792},
		{[3]float64{50, 2.49, -0.001}, [3]float64{50, -2.49, 0.0011}, 7.2195},
		{[3]float64{50, 2.5, 0}, [3]float64{58, 24, 15}, 19.4535},
		{[3]float64{60.2574, -34.0099, 36.2677}, [3]float64{60.4626, -34.1751, 39.4387}, 1.2644},
		{[3]float64{90.9257, -0.5406, -0.9208}, [3]float64{88.6381, -0.8985, -0.7239}, 1.5381},
		{[3]float64{2.0776, 0.0795, -1.135}, [3]float64{0.9033, -0.0636, -0.5514}, 0.9082},
	} {
		if got, back := deltaE(c.p, c.q), deltaE(c.q, c.p); math.Abs(got-c.want) > 1e-4 || math.Abs(back-c.want) > 1e-4 {
			t.Errorf("%v to %v: %.4f, back %.4f, want %.4f", c.p, c.q, got, back, c.want)
		}
	}
}

// differences returns the mean CIEDE2000 of two pictures, the value that 99 of
// 100 pixels keep below, and the mean of the others, from one pixel in nine.
func differences(t testing.TB, a, b image.Image) (mean, percentile, worst float64) {
	t.Helper()
	if a.Bounds().Size() != b.Bounds().Size() {
		t.Fatalf("sizes %v and %v", a.Bounds(), b.Bounds())
	}
	var all []float64
	for y := 0; y < a.Bounds().Dy(); y += 3 {
		for x := 0; x < a.Bounds().Dx(); x += 3 {
			r1, g1, b1, _ := a.At(a.Bounds().Min.X+x, a.Bounds().Min.Y+y).RGBA()
			r2, g2, b2, _ := b.At(b.Bounds().Min.X+x, b.Bounds().Min.Y+y).RGBA()
			all = append(all, deltaE(lab(uint8(r1>>8), uint8(g1>>8), uint8(b1>>8)), lab(uint8(r2>>8), uint8(g2>>8), uint8(b2>>8))))
		}
	}
	slices.Sort(all)
	tail := all[len(all)-max(len(all)/100, 1):]
	return average(all), tail[0], average(tail)
}

func average(v []float64) float64 {
	sum := 0.0
	for _, x := range v {
		sum += x
	}
	return sum / float64(len(v))
}

// luminance returns the mean relative luminance of a picture, in linear light.
func luminance(img image.Image) float64 {
	sum, n := 0.0, 0
	for y := img.Bounds().Min.Y; y < img.Bounds().Max.Y; y++ {
		for x := img.Bounds().Min.X; x < img.Bounds().Max.X; x++ {
			r, g, b, _ := img.At(x, y).RGBA()
			sum += 0.2126*srgbCurve(float64(r)/65535) + 0.7152*srgbCurve(float64(g)/65535) + 0.0722*srgbCurve(float64(b)/65535)
			n++
		}
	}
	return sum / float64(n)
}
