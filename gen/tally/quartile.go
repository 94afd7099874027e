package tally

import (
	"math"
	"slices"
)

// Quartiles are a median with the quarter below and above it.
type Quartiles struct{ Low, Median, High float64 }

// QuartileMethod names the method, for readers.
const QuartileMethod = "Hyndman and Fan, type 7 (linear between order statistics)"

// QuartilesOf returns the quartiles of values by the method of Hyndman and Fan
// (1996), type 7: the p-quantile lies at position (n - 1)·p + 1 among the
// ordered values, linear in between. NaN without values.
func QuartilesOf(values []float64) Quartiles {
	sorted := slices.Clone(values)
	slices.Sort(sorted)
	return Quartiles{quantile(sorted, 0.25), quantile(sorted, 0.5), quantile(sorted, 0.75)}
}

func quantile(sorted []float64, p float64) float64 {
	return quantileOf(len(sorted), p, func(i int) float64 { return sorted[i] })
}

// quantileOf is quantile of n ordered values, each asked for by its index.
func quantileOf(n int, p float64, sorted func(int) float64) float64 {
	if n == 0 {
		return math.NaN()
	}
	position := float64(n-1) * p
	i := int(position)
	if i+1 >= n {
		return sorted(n - 1)
	}
	low := sorted(i)
	return low + (position-float64(i))*(sorted(i+1)-low)
}
