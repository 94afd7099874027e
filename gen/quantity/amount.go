package quantity

import "time"

// Amount is a worked-out number with its unit, as a sentence has it: rounded to
// its significant digits, three where Digits is zero. The unit in which it is
// shown is the printer's.
type Amount struct {
	Value  float64
	Unit   string // "" for a bare number
	Digits int
}

// String prints the amount: "4.5 mA".
func (a Amount) String() string { return Printer{}.number(a.Value, a.Unit, a.Digits) }

// Tied is an amount that keeps its unit on the same line.
type Tied Amount

// String prints the amount with a no-break space.
func (t Tied) String() string { return text(t) }

// Date is a calendar day as a sentence has it; a Day prints as it is written.
type Date time.Time

// String prints the date: "14 February 2026".
func (d Date) String() string { return time.Time(d).Format("2 January 2006") }

// Moment is a time of a day, in its own zone.
type Moment time.Time

// String prints the moment: "Sat 14 Feb 2026 10:30".
func (m Moment) String() string { return time.Time(m).Format("Mon 2 Jan 2006 15:04") }
