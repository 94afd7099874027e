package quantity

import (
	"math"
	"strings"
)

// Part is one unit of a time, as it is read off: 3 and "h".
type Part struct {
	Number, Unit string
}

// InHours reports whether a figure's unit is hours, or so many of them by
// something ("h a week"), and what follows them.
func InHours(unit string) (bool, string) {
	rest, ok := strings.CutPrefix(unit, "h")
	return ok && (rest == "" || rest[0] == ' '), rest
}

// Parts parts a worked-out time into hours, minutes and seconds, to no finer
// step than its significant digits mean: of one or two, whole hours from ten
// hours on and ten minutes from one hour on. Digits of 0 are the usual ones.
func (v Hours) Parts(digits int) []Part {
	if digits == exact {
		return v.written()
	}
	if v == 0 {
		return []Part{{"0", "h"}}
	}
	seconds, step := float64(v)*3600, 60.0
	size, coarse := math.Abs(seconds), digits == 1 || digits == 2
	switch {
	case size < 60:
		number, unit, _ := strings.Cut(Printer{}.number(seconds, "s", digits), " ")
		return []Part{{number, unit}}
	case coarse && size >= 36000:
		step = 3600 * math.Pow10(max(0, int(math.Floor(math.Log10(size/3600)))+1-digits))
	case coarse && size >= 3600:
		step = 600
	case size < 600:
		step = 1
	}
	return parted(math.Round(seconds/step) * step)
}

// written parts a time that somebody wrote, which must read back unchanged: in
// whole seconds, or as decimal hours.
func (v Hours) written() []Part {
	if v == 0 {
		return []Part{{"0", "h"}}
	}
	parts := parted(math.Round(float64(v) * 3600))
	var back Hours
	if back.UnmarshalText([]byte(joined(parts))) == nil && back == v {
		return parts
	}
	if seconds := float64(v) * 3600; math.Abs(seconds) < 60 {
		s := decimal(seconds, 0)
		if back.UnmarshalText([]byte(s+" s")) == nil && back == v {
			return []Part{{s, "s"}}
		}
	}
	return []Part{{decimal(float64(v), 0), "h"}}
}

// parted parts whole seconds.
func parted(seconds float64) []Part {
	sign := ""
	if seconds < 0 {
		sign, seconds = "-", -seconds
	}
	var parts []Part
	for _, u := range []struct {
		sign string
		size float64
	}{{"h", 3600}, {"min", 60}, {"s", 1}} {
		if n := math.Floor(seconds / u.size); n > 0 {
			parts = append(parts, Part{sign + decimal(n, 0), u.sign})
			seconds, sign = seconds-n*u.size, ""
		}
	}
	return parts
}

func joined(parts []Part) string {
	texts := make([]string, len(parts))
	for i, p := range parts {
		texts[i] = p.Number + " " + p.Unit
	}
	return strings.Join(texts, " ")
}
