package quantity

import (
	"fmt"
	"math"
	"strings"
)

// Series is a series of preferred numbers for resistors.
type Series struct {
	Name      string
	Tolerance Share     // the tolerance the series is made for
	decade    []float64 // values of one decade, 1 to 10
}

// The series of IEC 60063. E6 to E24 are not rounded powers of a root and must
// be listed; E96 is round(100·10^(i/96)).
var (
	E12 = Series{"E12", 0.10, []float64{1.0, 1.2, 1.5, 1.8, 2.2, 2.7, 3.3, 3.9, 4.7, 5.6, 6.8, 8.2}}
	E24 = Series{"E24", 0.05, []float64{1.0, 1.1, 1.2, 1.3, 1.5, 1.6, 1.8, 2.0, 2.2, 2.4, 2.7, 3.0,
		3.3, 3.6, 3.9, 4.3, 4.7, 5.1, 5.6, 6.2, 6.8, 7.5, 8.2, 9.1}}
	E96 = Series{"E96", 0.01, e96()}
)

func e96() []float64 {
	values := make([]float64, 96)
	for i := range values {
		values[i] = math.Round(100*math.Pow(10, float64(i)/96)) / 100
	}
	return values
}

// SeriesByName returns E12, E24 or E96.
func SeriesByName(name string) (Series, bool) {
	for _, s := range []Series{E12, E24, E96} {
		if strings.EqualFold(s.Name, name) {
			return s, true
		}
	}
	return Series{}, false
}

// Decade returns the values of one decade, 1 to 10.
func (s Series) Decade() []float64 { return append([]float64(nil), s.decade...) }

// matches is how near a computed resistance must lie to a preferred value to
// be taken as that value: rounding noise, not tolerance.
const matches = 1e-9

// Up returns the smallest preferred value that is not below r, in ohms.
func (s Series) Up(r Ohms) Ohms {
	for _, decade := s.start(r); ; decade++ {
		for _, d := range s.decade {
			if value := preferred(d, decade); float64(value) >= float64(r)*(1-matches) {
				return value
			}
		}
	}
}

// Down returns the largest preferred value that is not above r, in ohms.
func (s Series) Down(r Ohms) Ohms {
	value, decade := s.start(r)
	for ; ; decade++ {
		for _, d := range s.decade {
			next := preferred(d, decade)
			if float64(next) > float64(r)*(1+matches) {
				return value
			}
			value = next
		}
	}
}

// Nearest returns the preferred value nearest to r in ratio.
func (s Series) Nearest(r Ohms) Ohms {
	down, up := s.Down(r), s.Up(r)
	if float64(r)/float64(down) <= float64(up)/float64(r) {
		return down
	}
	return up
}

// Next returns the preferred value that follows r.
func (s Series) Next(r Ohms) Ohms { return s.Up(Ohms(float64(r) * (1 + 1e-6))) }

// Previous returns the preferred value before r.
func (s Series) Previous(r Ohms) Ohms { return s.Down(Ohms(float64(r) * (1 - 1e-6))) }

// lowest and highest resistance a preferred value is sought for, in ohms:
// wider than anything sold, so that the search always ends.
const lowest, highest = 0.01, 1e9

// start returns a preferred value well below r and the decade above it.
func (s Series) start(r Ohms) (Ohms, int) {
	r = min(max(r, lowest), highest)
	if math.IsNaN(float64(r)) {
		r = highest
	}
	decade := int(math.Floor(math.Log10(float64(r)))) - 1
	return preferred(s.decade[0], decade), decade
}

// preferred returns value·10^decade as the nearest decimal, so that 4.7 k is
// 4700 exactly.
func preferred(value float64, decade int) Ohms {
	v, _ := number(decimal(value, 0), decade)
	return Ohms(v)
}

// letterCode reads IEC 60062 codes: 4k7, 470R, 1M0, R22, 2m2 is not one (m is
// used for milliohms and clashes with M).
func letterCode(text string) (Ohms, bool) {
	if len(text) < 2 || len(text) > 8 {
		return 0, false
	}
	at := strings.IndexAny(text, "RkKMG")
	if at < 0 || strings.ContainsAny(text[at+1:], "RkKMG") {
		return 0, false
	}
	whole, part := text[:at], text[at+1:]
	if whole == "" && part == "" || !digitsOnly(whole) || !digitsOnly(part) {
		return 0, false
	}
	shift := map[byte]int{'R': 0, 'k': 3, 'K': 3, 'M': 6, 'G': 9}[text[at]]
	v, err := number("0"+whole+"."+part+"0", shift)
	return Ohms(v), err == nil
}

func digitsOnly(s string) bool {
	return strings.Trim(s, "0123456789") == ""
}

// Code prints the letter code of IEC 60062 in two to four characters where the
// value allows it: 470R, 4k7, 1M0.
func (v Ohms) Code() string {
	letter, shift := "R", 0
	switch {
	case v >= 1e9:
		letter, shift = "G", 9
	case v >= 1e6:
		letter, shift = "M", 6
	case v >= 1e3:
		letter, shift = "k", 3
	}
	text := decimal(float64(v), shift)
	whole, part, fraction := strings.Cut(text, ".")
	switch {
	case strings.Contains(text, "e"):
		return v.String()
	case !fraction && len(whole) == 1:
		part = "0"
	case whole == "0":
		whole = ""
	}
	return whole + letter + part
}

// Band is one colour ring of a resistor.
type Band struct {
	Colour string // in words: brown
	Hex    string // for the drawing
	Means  string // "4", "×100", "±5 %"
}

// bandColours are the ring colours of IEC 60062 for the digits 0 to 9. The
// standard fixes the colours' names; the hex values are ours.
var bandColours = []struct{ name, hex string }{
	{"black", "#1c1c1c"}, {"brown", "#7a4a22"}, {"red", "#c8281e"}, {"orange", "#e8791c"}, {"yellow", "#e9c41b"},
	{"green", "#2c8a43"}, {"blue", "#2a5cb8"}, {"violet", "#7b3fa0"}, {"grey", "#8b8b8b"}, {"white", "#f4f4f4"},
}

// Bands returns the colour rings of IEC 60062 for a resistance: two digits for
// tolerances of 5 % and more, three below, then multiplier and tolerance.
// It fails where the value needs more digits or lies outside the code.
func (v Ohms) Bands(tolerance Share) ([]Band, error) {
	figures := 2
	if tolerance < 0.05 {
		figures = 3
	}
	mark, ok := toleranceBands[int(math.Round(float64(tolerance)*10000))]
	if !ok {
		return nil, fmt.Errorf("no colour ring stands for a tolerance of %v", tolerance)
	}
	if v <= 0 {
		return nil, fmt.Errorf("no colour rings stand for %v", v)
	}
	exponent := int(math.Floor(math.Log10(float64(v))+1e-12)) - figures + 1
	count := math.Round(float64(v) / math.Pow10(exponent))
	if math.Abs(count*math.Pow10(exponent)/float64(v)-1) > 1e-9 {
		return nil, fmt.Errorf("%v has more than %d digits", v, figures)
	}
	times, ok := multiplierBands[exponent]
	if !ok {
		return nil, fmt.Errorf("%v lies outside the colour code", v)
	}
	var bands []Band
	for _, digit := range fmt.Sprintf("%0*.0f", figures, count) {
		c := bandColours[digit-'0']
		bands = append(bands, Band{c.name, c.hex, string(digit)})
	}
	return append(bands, times, mark), nil
}

var gold, silver = Band{Colour: "gold", Hex: "#c9a13b"}, Band{Colour: "silver", Hex: "#b4b8bc"}

var multiplierBands = func() map[int]Band {
	m := map[int]Band{-2: {silver.Colour, silver.Hex, "×0.01"}, -1: {gold.Colour, gold.Hex, "×0.1"}}
	for i, text := range []string{"×1", "×10", "×100", "×1 k", "×10 k", "×100 k", "×1 M", "×10 M", "×100 M", "×1 G"} {
		m[i] = Band{bandColours[i].name, bandColours[i].hex, text}
	}
	return m
}()

// toleranceBands are keyed by tolerance in hundredths of a percent.
var toleranceBands = map[int]Band{
	1000: {silver.Colour, silver.Hex, "±10 %"}, 500: {gold.Colour, gold.Hex, "±5 %"},
	100: {"brown", bandColours[1].hex, "±1 %"}, 200: {"red", bandColours[2].hex, "±2 %"},
	50: {"green", bandColours[5].hex, "±0.5 %"}, 25: {"blue", bandColours[6].hex, "±0.25 %"},
	10: {"violet", bandColours[7].hex, "±0.1 %"},
}
