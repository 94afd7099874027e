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
	if len(sorted) == 0 {
		return math.NaN()
	}
	position := float64(len(sorted)-1) * p
	i := int(position)
	if i+1 >= len(sorted) {
		return sorted[len(sorted)-1]
	}
	return sorted[i] + (position-float64(i))*(sorted[i+1]-sorted[i])
}
