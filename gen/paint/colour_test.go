package paint

import (
	"bufio"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"spruelight/gen/quantity"
)

// The 34 pairs of Sharma, Wu and Dalal (2005), table 1. testdata/ciede2000.txt
// holds L1 a1 b1 L2 a2 b2 ΔE00; it agrees with three independent public copies.
func TestDifferenceMatchesPublishedPairs(t *testing.T) {
	file, err := os.Open("testdata/ciede2000.txt")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	n, worst := 0, 0.0
	for lines := bufio.NewScanner(file); lines.Scan(); {
		var one, two Lab
		var want float64
		if _, err := fmt.Sscan(lines.Text(), &one.L, &one.A, &one.B, &two.L, &two.A, &two.B, &want); err != nil {
			t.Fatalf("line %d: %v", n+1, err)
		}
		n++
		for _, got := range []float64{Difference(one, two), Difference(two, one)} {
			worst = max(worst, math.Abs(got-want))
			if math.Abs(got-want) > 1e-4 {
				t.Errorf("pair %d: got %.4f, want %.4f", n, got, want)
			}
		}
	}
	if n != 34 {
		t.Errorf("read %d pairs, the paper has 34", n)
	}
	t.Logf("largest error %.2e", worst)
}

// A difference is the same both ways, never negative, and nothing from itself.
func TestDifferenceIsAMeasure(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	colour := func() Lab {
		return Lab{100 * random.Float64(), 200*random.Float64() - 100, 200*random.Float64() - 100}
	}
	for range 20000 {
		one, two := colour(), colour()
		d, back := Difference(one, two), Difference(two, one)
		if math.Abs(d-back) > 1e-9 || d < 0 || math.IsNaN(d) || Difference(one, one) != 0 {
			t.Fatalf("%v and %v: %v one way, %v the other; to itself %v", one, two, d, back, Difference(one, one))
		}
	}
}

// XYZ and L*a*b* (D65) of sRGB colours, from culori 4.0.2, which agrees with
// colorjs.io 0.7.1; both use the white x 0.3127, y 0.3290.
func TestColourToLab(t *testing.T) {
	for _, c := range []struct {
		hex string
		xyz XYZ
		lab Lab
	}{
		{"#000000", XYZ{0, 0, 0}, Lab{0, 0, 0}},
		{"#ffffff", XYZ{0.95046, 1, 1.08906}, Lab{100, 0, 0}},
		{"#ff0000", XYZ{0.41239, 0.21264, 0.01933}, Lab{53.237, 80.090, 67.203}},
		{"#00ff00", XYZ{0.35758, 0.71517, 0.11919}, Lab{87.736, -86.182, 83.187}},
		{"#0000ff", XYZ{0.18048, 0.07219, 0.95053}, Lab{32.301, 79.195, -107.855}},
		{"#808080", XYZ{0.20517, 0.21586, 0.23508}, Lab{53.585, 0, 0}},
		{"#767676", XYZ{0.17219, 0.18116, 0.19730}, Lab{49.637, 0, 0}},
		{"#c0c0c0", XYZ{0.50100, 0.52712, 0.57406}, Lab{77.704, 0, 0}},
		{"#4b5320", XYZ{0.06255, 0.07787, 0.02540}, Lab{33.535, -11.638, 28.262}},
		{"#b22222", XYZ{0.19220, 0.10726, 0.02572}, Lab{39.115, 55.915, 37.647}},
		{"#708090", XYZ{0.19434, 0.20896, 0.29396}, Lab{52.836, -2.141, -10.571}},
		{"#556b2f", XYZ{0.09517, 0.12652, 0.04630}, Lab{42.234, -18.829, 30.600}},
	} {
		colour := hex(c.hex)
		near(t, c.hex+" X", LinearOf(colour).XYZ().X, c.xyz.X, 1e-5)
		near(t, c.hex+" Y", LinearOf(colour).XYZ().Y, c.xyz.Y, 1e-5)
		near(t, c.hex+" Z", LinearOf(colour).XYZ().Z, c.xyz.Z, 1e-5)
		near(t, c.hex+" L", LabOf(colour).L, c.lab.L, 1e-3)
		near(t, c.hex+" a", LabOf(colour).A, c.lab.A, 1e-3)
		near(t, c.hex+" b", LabOf(colour).B, c.lab.B, 1e-3)
	}
}

// The standard prints the matrix from linear sRGB to XYZ in four decimals
// (IEC 61966-2-1, clause 5.2).
func TestMatrixIsTheStandards(t *testing.T) {
	want := [3][3]float64{{0.4124, 0.3576, 0.1805}, {0.2126, 0.7152, 0.0722}, {0.0193, 0.1192, 0.9505}}
	for r := range want {
		for i := range want[r] {
			near(t, fmt.Sprintf("row %d, column %d", r, i), toXYZ[r][i], want[r][i], 0.5e-4)
		}
	}
}

// Every 8-bit level goes to linear light and back unchanged, and greys have no hue.
func TestColourRoundTrip(t *testing.T) {
	for v := range 256 {
		c := rgb(uint8(v), uint8(255-v), uint8(v/2))
		if back := LinearOf(c).Colour(); back != c {
			t.Errorf("%s comes back as %s", c, back)
		}
		grey := LabOf(Colour{R: uint8(v), G: uint8(v), B: uint8(v)})
		near(t, "a of a grey", grey.A, 0, 1e-9)
		near(t, "b of a grey", grey.B, 0, 1e-9)
	}
}

// hex is a colour of a test.
func hex(text string) Colour {
	var c quantity.Colour
	if err := c.UnmarshalText([]byte(text)); err != nil {
		panic(err)
	}
	return Colour(c)
}

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: got %.6g, want %.6g ± %g", what, got, want, tolerance)
	}
}

func rgb(r, g, b uint8) Colour { return Colour{R: r, G: g, B: b} }
