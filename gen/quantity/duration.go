package quantity

import (
	"fmt"
	"math"
	"strings"
)

// hourUnits are the ways to write parts of a duration, in hours.
var hourUnits = map[string]float64{
	"weeks": 168, "week": 168, "days": 24, "day": 24, "d": 24,
	"hours": 1, "hour": 1, "h": 1, "minutes": 1.0 / 60, "minute": 1.0 / 60, "min": 1.0 / 60,
	"seconds": 1.0 / 3600, "s": 1.0 / 3600,
}

// UnmarshalText reads a duration: "3.5 h", "3 h 20 min", "45 min", "2 days".
// "1:30" is refused, since it may mean hours or minutes.
func (v *Hours) UnmarshalText(text []byte) error {
	s := string(text)
	rest, total, last := strings.TrimSpace(s), 0.0, math.Inf(1)
	if rest == "" {
		return fault(s, "", "write it like 3 h 20 min", "no duration is given")
	}
	for rest != "" {
		digits, after := splitNumber(rest)
		after = strings.TrimSpace(after)
		if digits != "" && strings.HasPrefix(after, ":") {
			return fault(s, strings.TrimSpace(s), "write 1 h 30 min or 1 min 30 s", "%s may be hours and minutes or minutes and seconds",
				quote(strings.TrimSpace(s)))
		}
		spelling := after[:len(after)-len(strings.TrimLeft(after, "abcdefghijklmnopqrstuvwxyz"))]
		if digits == "" {
			return fault(s, rest, "write it like 3 h 20 min", "%s is not a duration", quote(rest))
		}
		if spelling == "" {
			return fault(s, digits, "add the unit, like 3 h 20 min", "%s has no unit", quote(digits))
		}
		unit, ok := hourUnits[spelling]
		if !ok {
			return fault(s, spelling, "write it like 3 h 20 min", "%s is not a unit of time", quote(spelling))
		}
		n, err := number(digits, 0)
		if err != nil || n < 0 {
			return fault(s, digits, pointed(digits, "write it like 3 h 20 min"), "%s is not a length of time", quote(digits))
		}
		if unit >= last {
			return fault(s, spelling, "write the larger unit first, each once", "%s comes out of order", quote(spelling))
		}
		total, last, rest = total+n*unit, unit, strings.TrimSpace(after[len(spelling):])
	}
	*v = Hours(total)
	return nil
}

// Minutes returns the duration in minutes, rounded to a whole one.
func (v Hours) Minutes() int { return int(math.Round(float64(v) * 60)) }

// String prints "3 h 20 min"; what is no whole number of seconds as decimal
// hours, so that it reads back unchanged.
func (v Hours) String() string { return joined(v.written()) }

// Clock is a time of day, in minutes since midnight.
type Clock int

// UnmarshalText reads "19:30", from 0:00 to 23:59.
func (c *Clock) UnmarshalText(text []byte) error {
	s := strings.TrimSpace(string(text))
	h, m, ok := strings.Cut(s, ":")
	hours, err1 := number(h, 0)
	minutes, err2 := number(m, 0)
	if !ok || err1 != nil || err2 != nil || !digitsOnly(h) || !digitsOnly(m) || len(m) != 2 || len(h) > 2 || hours > 23 || minutes > 59 {
		return fault(string(text), s, `write the time of day in quotes, like "19:30"`, "%s is not a time of day", quote(s))
	}
	*c = Clock(int(hours)*60 + int(minutes))
	return nil
}

// String prints "19:30".
func (c Clock) String() string { return fmt.Sprintf("%02d:%02d", int(c)/60, int(c)%60) }

// Stamp is a place in a video, in seconds from its start.
type Stamp int

// UnmarshalText reads "2:40" (minutes and seconds) or "1:02:40".
func (t *Stamp) UnmarshalText(text []byte) error {
	s := strings.TrimSpace(string(text))
	parts := strings.Split(s, ":")
	total := 0
	for i, p := range parts {
		n, err := number(p, 0)
		if err != nil || !digitsOnly(p) || len(p) > 3 || i > 0 && (len(p) != 2 || n > 59) || len(parts) < 2 || len(parts) > 3 {
			return fault(string(text), s, `write minutes and seconds in quotes, like "2:40"`, "%s is not a place in a video", quote(s))
		}
		total = total*60 + int(n)
	}
	*t = Stamp(total)
	return nil
}

// String prints minutes and seconds, with hours where there are any.
func (t Stamp) String() string {
	if h := int(t) / 3600; h > 0 {
		return fmt.Sprintf("%d:%02d:%02d", h, int(t)/60%60, int(t)%60)
	}
	return fmt.Sprintf("%d:%02d", int(t)/60, int(t)%60)
}

// Fraction is a length of time written as a part of a second, like an exposure.
type Fraction float64 // seconds

// UnmarshalText reads "1/50 s", "0.02 s" or "20 ms".
func (f *Fraction) UnmarshalText(text []byte) error {
	s := strings.TrimSpace(string(text))
	value, rest, ok := leadingFraction(s)
	if !ok {
		digits, unit := splitNumber(s)
		v, err := number(digits, 0)
		if err != nil {
			return fault(string(text), s, "write it like 1/50 s", "%s is not an exposure time", quote(s))
		}
		value, rest = v, unit
	}
	switch strings.TrimSpace(rest) {
	case "s":
	case "ms":
		value /= 1000
	default:
		return fault(string(text), s, "write it like 1/50 s", "%s has no unit of time", quote(s))
	}
	if !(value > 0) || math.IsInf(value, 0) {
		return fault(string(text), s, "write it like 1/50 s", "%s is not an exposure time", quote(s))
	}
	*f = Fraction(value)
	return nil
}

// String prints "1/50 s" below a second.
func (f Fraction) String() string {
	if f < 1 && f > 0 && math.Abs(1/float64(f)-math.Round(1/float64(f))) < 1e-9 {
		return fmt.Sprintf("1/%.0f s", 1/float64(f))
	}
	return decimal(float64(f), 0) + " s"
}
