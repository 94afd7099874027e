package scale

import (
	"math"

	"spruelight/gen/quantity"
)

// Interval is a range of values above zero, both ends included.
type Interval struct{ Low, High float64 }

// spanOf returns the limits of a measured length in metres.
func spanOf(m quantity.Measured) Interval { return Interval{float64(m.Low), float64(m.High)} }

// Over returns the range of quotients of two ranges.
func (i Interval) Over(o Interval) Interval { return Interval{i.Low / o.High, i.High / o.Low} }

// Contains reports whether a value lies in the range. A part in 10¹² is
// forgiven, which is what rounding of the limits may take away.
func (i Interval) Contains(v float64) bool {
	return v >= i.Low*(1-1e-12) && v <= i.High*(1+1e-12)
}

// Intersect returns what two ranges share, and whether they share anything.
func (i Interval) Intersect(o Interval) (Interval, bool) {
	both := Interval{max(i.Low, o.Low), min(i.High, o.High)}
	return both, both.Low <= both.High*(1+1e-12)
}

// Hull returns the smallest range that holds both.
func (i Interval) Hull(o Interval) Interval {
	return Interval{min(i.Low, o.Low), max(i.High, o.High)}
}

// Half returns half the width.
func (i Interval) Half() float64 { return (i.High - i.Low) / 2 }

// standard returns the relative standard uncertainty of a value between two
// limits, any value between them being as likely as any other: the half width
// over the square root of three (JCGM 100:2008, 4.3.7).
func (i Interval) standard() float64 {
	mid := (i.Low + i.High) / 2
	return i.Half() / mid / math.Sqrt(3)
}
