package circuit

import (
	"math"
	"testing"

	"spruelight/gen/quantity"
)

func TestLampsForPointsOfLight(t *testing.T) {
	const mm = 0.001
	for _, c := range []struct {
		points       int
		lamp, strand quantity.Metres
		want         int
		source       string
	}{
		{75, 5 * mm, 0.5 * mm, 1, "75 strands of 0.5 mm behind 5 mm at 75 % packing (common practice, no source)"},
		{76, 5 * mm, 0.5 * mm, 2, "one more than fit"},
		{90, 3 * mm, 0.5 * mm, 4, "0.75·6² = 27 a lamp"},
		{90, 3 * mm, 0.25 * mm, 1, "half the diameter, four times the strands: 108"},
		{1, 0.4 * mm, 0.5 * mm, 0, "a strand thicker than the lamp"},
		{0, 5 * mm, 0.5 * mm, 0, "no points"},
	} {
		if got := LampsFor(c.points, c.lamp, c.strand); got != c.want {
			t.Errorf("%d points, %v, %v: %d lamps, want %d (%s)", c.points, c.lamp, c.strand, got, c.want, c.source)
		}
	}
}

// No bundle is denser than circles can lie in the plane: π/√12 of the area
// (Lagrange for lattices, Thue and Fejes Tóth in general).
func TestStrandsStayBelowTheDensestPacking(t *testing.T) {
	for lamp := quantity.Metres(0.0005); lamp < 0.02; lamp += 0.0003 {
		for strand := quantity.Metres(0.0001); strand < lamp; strand += 0.0001 {
			n := float64(Strands(lamp, strand))
			if share := n * math.Pow(float64(strand/lamp), 2); share > math.Pi/math.Sqrt(12) {
				t.Fatalf("%v strands of %v before %v fill %.3f of its face", n, strand, lamp, share)
			}
		}
	}
}

func TestFibreToBuy(t *testing.T) {
	// 90 strands of 180 mm are 16.2 m; 15 % more (common practice, no source) are 18.63 m.
	if got := FibreToBuy(90, 0.18); math.Abs(float64(got)-18.63) > 1e-9 {
		t.Errorf("got %v", got)
	}
}
