package quantity

import (
	"fmt"
	"strings"
	"time"

	"spruelight/gen/source"
)

// Day is a calendar day, at midnight UTC: days are counted, not timed.
type Day struct{ time.Time }

// UnmarshalText reads "2026-02-14".
func (d *Day) UnmarshalText(text []byte) error {
	t, err := ParseDay(string(text))
	if err != nil {
		return Wrong(0, len(text), source.Say("write a day like %s", likeDay(string(text))), "%v", err)
	}
	d.Time = t
	return nil
}

// String prints "2026-02-14".
func (d Day) String() string { return d.Format(time.DateOnly) }

// ShortMoment is a time of a day where there is little room, as in drawings.
type ShortMoment time.Time

// String prints the moment: "14 Feb 2026 10:30".
func (m ShortMoment) String() string { return time.Time(m).Format("2 Jan 2006 15:04") }

// ParseDay reads a calendar day of a year in which models are built.
func ParseDay(text string) (time.Time, error) {
	text = strings.TrimSpace(text)
	day, err := time.Parse(time.DateOnly, text)
	switch {
	case err == nil && (day.Year() < 1900 || day.Year() > 2200):
		return day, fmt.Errorf("%q is far from any bench time", text)
	case err == nil:
		return day, nil
	case strings.Contains(err.Error(), "out of range"):
		return day, fmt.Errorf("there is no day %s", text)
	}
	return day, fmt.Errorf("%q is no day", text)
}

// likeDay turns 14.02.2026 round. With slashes nobody knows which is the month.
func likeDay(text string) string {
	if day, err := time.Parse("2.1.2006", strings.TrimSpace(text)); err == nil {
		return day.Format(time.DateOnly)
	}
	return "2026-02-14"
}
