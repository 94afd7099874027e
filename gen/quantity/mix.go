package quantity

import (
	"strconv"
	"strings"
)

// Measure is how a portion of a mix was measured out.
type Measure int

// The measures of a mix.
const (
	InParts Measure = iota
	InDrops
	InLitres
)

// Portion is one portion of a mix: so many parts, so many drops, or a volume.
type Portion struct {
	Number  float64 // parts, drops or litres
	Measure Measure
}

// UnmarshalText reads "3", "3 parts", "12 drops", "1.5 ml".
func (p *Portion) UnmarshalText(text []byte) error {
	s := string(text)
	trimmed := strings.TrimSpace(s)
	digits, rest := splitNumber(trimmed)
	unit := strings.TrimSpace(rest)
	const remedy = "write it like 3 parts, 12 drops or 1.5 ml"
	if digits == "" {
		return fault(s, trimmed, remedy, "%s is not a portion of a mix", quote(trimmed))
	}
	n, err := number(digits, 0)
	switch {
	case err != nil || n > 1e6:
		return fault(s, digits, remedy, "%s is not a number of a mix", quote(digits))
	case n < 0:
		return fault(s, digits, "write a value of zero or more", "a portion of a mix cannot be negative")
	}
	switch unit {
	case "", "part", "parts":
		*p = Portion{n, InParts}
		return nil
	case "drop", "drops":
		*p = Portion{n, InDrops}
		return nil
	}
	var v Litres
	if err := v.UnmarshalText([]byte(trimmed)); err != nil {
		return fault(s, unit, remedy, "%s is not a measure of a mix", quote(unit))
	}
	*p = Portion{float64(v), InLitres}
	return nil
}

// String prints the portion as it is written.
func (p Portion) String() string {
	switch p.Measure {
	case InLitres:
		return Litres(p.Number).String()
	case InDrops:
		return counted(p.Number, "drop")
	}
	return counted(p.Number, "part")
}

func counted(n float64, word string) string {
	if n != 1 {
		word += "s"
	}
	return strconv.FormatFloat(n, 'f', -1, 64) + " " + word
}
