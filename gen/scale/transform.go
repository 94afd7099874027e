package scale

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"spruelight/gen/svg"
)

// readTransform reads the transform attribute (SVG 2, section 8.5 and CSS
// Transforms 1, section 7): functions applied from the last to the first.
func readTransform(text string) (svg.Matrix, error) {
	all := svg.Scale(1, 1)
	rest := strings.TrimSpace(text)
	for rest != "" {
		name, after, ok := strings.Cut(rest, "(")
		arguments, next, closed := strings.Cut(after, ")")
		if !ok || !closed {
			return all, fmt.Errorf("%.40q has no pair of brackets", rest)
		}
		m, err := oneTransform(strings.TrimSpace(name), arguments)
		if err != nil {
			return all, err
		}
		all = m.Then(all)
		rest = strings.TrimLeft(next, ", \t\r\n")
	}
	return all, nil
}

func oneTransform(name, arguments string) (svg.Matrix, error) {
	fields := strings.FieldsFunc(arguments, func(r rune) bool { return strings.ContainsRune(", \t\r\n", r) })
	v := make([]float64, len(fields))
	for i, f := range fields {
		n, err := strconv.ParseFloat(f, 64)
		if err != nil || !(math.Abs(n) < 1e9) {
			return svg.Matrix{}, fmt.Errorf("has %.20q where a number is due", f)
		}
		v[i] = n
	}
	if n := len(v); n == 0 || n > len(transforms[name]) || transforms[name][n-1] == nil {
		return svg.Matrix{}, fmt.Errorf("%.20q cannot be read with %d numbers", name, len(v))
	}
	return transforms[name][len(v)-1](v), nil
}

// transforms holds the functions by name and by how many numbers they have.
var transforms = map[string][6]func(v []float64) svg.Matrix{
	"matrix":    {5: func(v []float64) svg.Matrix { return svg.Matrix{A: v[0], B: v[1], C: v[2], D: v[3], E: v[4], F: v[5]} }},
	"translate": {func(v []float64) svg.Matrix { return svg.Translate(v[0], 0) }, func(v []float64) svg.Matrix { return svg.Translate(v[0], v[1]) }},
	"scale":     {func(v []float64) svg.Matrix { return svg.Scale(v[0], v[0]) }, func(v []float64) svg.Matrix { return svg.Scale(v[0], v[1]) }},
	"rotate": {func(v []float64) svg.Matrix { return svg.Rotate(v[0]) }, 2: func(v []float64) svg.Matrix {
		return svg.Translate(-v[1], -v[2]).Then(svg.Rotate(v[0])).Then(svg.Translate(v[1], v[2]))
	}},
	"skewX": {func(v []float64) svg.Matrix { return svg.Matrix{A: 1, C: math.Tan(v[0] * math.Pi / 180), D: 1} }},
	"skewY": {func(v []float64) svg.Matrix { return svg.Matrix{A: 1, B: math.Tan(v[0] * math.Pi / 180), D: 1} }},
}
