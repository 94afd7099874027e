package scale

import (
	"math"
	"math/rand"
	"testing"

	"spruelight/gen/quantity"
)

func newRandom(seed int64) *rand.Rand { return rand.New(rand.NewSource(seed)) }

// within draws a value from an interval, its ends included now and then.
func within(r *rand.Rand, i Interval) float64 {
	switch r.Intn(10) {
	case 0:
		return i.Low
	case 1:
		return i.High
	}
	return i.Low + r.Float64()*(i.High-i.Low)
}

func someInterval(r *rand.Rand) Interval {
	low := math.Exp(r.Float64()*20 - 10)
	return Interval{low, low * (1 + r.Float64())}
}

// The first law of interval arithmetic (R. E. Moore, Interval Analysis, 1966):
// whatever values lie in the operands, the result lies in the result; and no
// narrower interval would do, as the ends are reached.
func TestIntervalsEnclose(t *testing.T) {
	r := newRandom(1)
	for range 20_000 {
		a, b := someInterval(r), someInterval(r)
		x, y := within(r, a), within(r, b)
		if !a.Over(b).Contains(x / y) {
			t.Fatalf("%v / %v misses %v / %v", a, b, x, y)
		}
		if q := a.Over(b); q.Low != a.Low/b.High || q.High != a.High/b.Low {
			t.Fatalf("%v / %v is wider than needed", a, b)
		}
		both, any := a.Intersect(b)
		if any != (a.Contains(both.Low) && b.Contains(both.Low)) {
			t.Fatalf("%v and %v share %v: %v", a, b, both, any)
		}
		if h := a.Hull(b); !h.Contains(x) || !h.Contains(y) {
			t.Fatalf("hull of %v and %v misses %v or %v", a, b, x, y)
		}
	}
}

// A model built true at some scale, with every length measured somewhere within
// its limits and published somewhere within its own, always allows that scale;
// and the true one is nearly always inside the combined estimate.
func TestTrueScaleIsAllowed(t *testing.T) {
	r := newRandom(2)
	missed, disagreed := 0, 0
	const runs = 4000
	for range runs {
		ratio := math.Exp(r.Float64()*5 + 1.5)
		var all []Implied
		for range 1 + r.Intn(4) {
			real := 1 + 50*r.Float64()
			realHalf, modelHalf := real*0.01*r.Float64()+1e-6, real/ratio*0.01*r.Float64()+1e-9
			published := real + realHalf*(2*r.Float64()-1)
			read := real/ratio + modelHalf*(2*r.Float64()-1)
			i := imply("length", limited(read, modelHalf), limited(published, realHalf))
			if !i.Span.Contains(ratio) {
				t.Fatalf("1/%v is outside %v", ratio, i.Span)
			}
			all = append(all, i)
		}
		estimate, agreement := Combine(all)
		if !estimate.Span.Contains(ratio) {
			missed++
		}
		if !agreement.Agree {
			disagreed++
		}
	}
	// About 95 in 100 by design; limits are rectangular, so it is rather more.
	if missed > runs*6/100 || disagreed > runs*6/100 {
		t.Errorf("of %d: %d missed, %d called disagreeing", runs, missed, disagreed)
	}
}

func limited(v, half float64) Length {
	return Length{V: quantity.Measured{Value: quantity.Metres(v), Low: quantity.Metres(v - half), High: quantity.Metres(v + half)}, Set: true}
}

// Units, order and repetition do not matter; a wider limit never narrows the result.
func TestCombineIsSteady(t *testing.T) {
	r := newRandom(3)
	for range 2000 {
		var all []Implied
		for range 2 + r.Intn(3) {
			real := 1 + 10*r.Float64()
			all = append(all, imply("l", limited(real/48*(1+0.02*r.Float64()), 0.0005), limited(real, 0.05)))
		}
		one, agree := Combine(all)
		turned := append([]Implied{all[len(all)-1]}, all[:len(all)-1]...)
		two, same := Combine(turned)
		if math.Abs(one.Ratio-two.Ratio) > 1e-9*one.Ratio || math.Abs(agree.ChiSquare-same.ChiSquare) > 1e-6 {
			t.Fatalf("order matters: %v, %v", one, two)
		}
		low, high := math.Inf(1), 0.0
		for _, i := range all {
			low, high = min(low, i.Ratio), max(high, i.Ratio)
		}
		if one.Ratio < low*(1-1e-12) || one.Ratio > high*(1+1e-12) {
			t.Fatalf("the mean %v lies outside %v to %v", one.Ratio, low, high)
		}
	}
}

// A weighted mean worked by hand: three results 10.0 ± 0.1, 10.2 ±
// 0.1 and 10.1 ± 0.2 (standard uncertainties): weights 100, 100, 25; mean
// (1000 + 1020 + 252.5) / 225 = 10.1; uncertainty 1/√225 = 1/15; chi-square
// (1 + 1 + 0) = 2 with 2 degrees of freedom, chance exp(−1) = 0.3679. Scaled so
// small that logarithms and differences are the same to six places.
func TestCombineWorkedByHand(t *testing.T) {
	const small = 1e-4
	part := func(x, u float64) Implied {
		ratio := 100 * math.Exp(small*(x-10))
		return Implied{Ratio: ratio, Span: Interval{ratio * 0.9, ratio * 1.1}, standard: small * u}
	}
	estimate, agreement := Combine([]Implied{part(10, 0.1), part(10.2, 0.1), part(10.1, 0.2)})
	if got := math.Log(estimate.Ratio/100)/small + 10; math.Abs(got-10.1) > 1e-6 {
		t.Errorf("mean %v", got)
	}
	if got := estimate.standard / small; math.Abs(got-1.0/15) > 1e-9 {
		t.Errorf("uncertainty %v", got)
	}
	if math.Abs(agreement.ChiSquare-2) > 1e-6 || agreement.Freedom != 2 || math.Abs(agreement.Chance-math.Exp(-1)) > 1e-6 || !agreement.Agree {
		t.Errorf("agreement %+v", agreement)
	}
	// Critical values of chi-square at 5 % (NIST/SEMATECH e-Handbook, 1.3.6.7.4): 3.841, 5.991, 7.815.
	for freedom, critical := range map[int]float64{1: 3.841, 2: 5.991, 3: 7.815} {
		for _, side := range []float64{0.999, 1.001} {
			parts := make([]Implied, freedom+1)
			for i := range parts {
				parts[i] = part(10, 1)
			}
			// Two results at ± d put 2 d² into chi-square.
			d := math.Sqrt(critical * side / 2)
			parts[0], parts[1] = part(10-d, 1), part(10+d, 1)
			if _, a := Combine(parts); a.Agree != (side < 1) {
				t.Errorf("%d degrees of freedom, chi-square %v: agree %v", freedom, a.ChiSquare, a.Agree)
			}
		}
	}
}
