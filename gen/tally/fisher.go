package tally

import "math"

// Fourfold is a table of counts: affected and sound parts, with and without a
// treatment.
type Fourfold struct {
	AffectedWith, AffectedWithout int
	SoundWith, SoundWithout       int
}

// Fisher returns the two-sided P of Fisher's exact test: the probability,
// under fixed margins and pure chance, of a table at most as probable as this
// one. It is the sum rule of Agresti (A Survey of Exact Inference for
// Contingency Tables, Statistical Science 7, 1992, section 2.1), which R and
// SAS print as two-sided. Of a table with an empty row or column nothing can be said: 1.
func Fisher(t Fourfold) float64 {
	affected, sound := t.AffectedWith+t.AffectedWithout, t.SoundWith+t.SoundWithout
	with := t.AffectedWith + t.SoundWith
	low, high := max(0, with-sound), min(with, affected)
	if min(t.AffectedWith, t.AffectedWithout, t.SoundWith, t.SoundWithout) < 0 {
		return math.NaN()
	}
	all := logChoose(affected+sound, with)
	chance := func(a int) float64 {
		return math.Exp(logChoose(affected, a) + logChoose(sound, with-a) - all)
	}
	observed, sum := chance(t.AffectedWith), 0.0
	for a := low; a <= high; a++ {
		// The margin lets tables of equal probability count as equal in spite
		// of rounding.
		if p := chance(a); p <= observed*(1+1e-7) {
			sum += p
		}
	}
	return min(sum, 1)
}

// logChoose is the logarithm of the number of ways to choose k of n.
func logChoose(n, k int) float64 {
	a, _ := math.Lgamma(float64(n + 1))
	b, _ := math.Lgamma(float64(k + 1))
	c, _ := math.Lgamma(float64(n - k + 1))
	return a - b - c
}
