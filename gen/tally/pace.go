package tally

import (
	"fmt"
	"time"

	"spruelight/gen/quantity"
)

// paceWeeks is how far back the pace looks: long enough to smooth a missed
// weekend, short enough to follow the season (common practice, no source).
const paceWeeks = 6

// Pace is the bench time of late.
type Pace struct {
	From, To time.Time // the days looked at, both counted
	Sittings int
	Hours    quantity.Hours
	PerWeek  quantity.Hours
}

// PaceOf returns the pace of the six weeks that end on a day. For a build
// begun within them only the days since its first sitting count, at least one
// week, so that a fresh start neither dilutes nor inflates it.
func PaceOf(sittings []Sitting, today time.Time) Pace {
	p := Pace{From: today.AddDate(0, 0, 1-7*paceWeeks), To: today}
	var first time.Time
	for _, s := range sittings {
		if s.Date.After(today) {
			continue
		}
		if first.IsZero() || s.Date.Before(first) {
			first = s.Date
		}
		if !s.Date.Before(p.From) {
			p.Sittings++
			p.Hours += s.Hours.V
		}
	}
	if first.After(p.From) {
		p.From = first
	}
	week := today.AddDate(0, 0, -6)
	if p.From.After(week) {
		p.From = week
	}
	p.Hours = tidy(p.Hours)
	p.PerWeek = quantity.Hours(weekly.Of(p.let()))
	return p
}

func (p Pace) let() quantity.Let { return quantity.Let{"h": p.Hours, "d": days(p.From, p.To) + 1} }

// Figure returns the pace for readers.
func (p Pace) Figure() quantity.Figure {
	f := weekly.Figure("pace", p.let())
	f.Source = fmt.Sprintf("bench time of the last %d weeks, or since the first sitting where that is later", paceWeeks)
	return f
}
