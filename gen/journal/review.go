package journal

import (
	"strings"
	"time"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
	"spruelight/gen/tally"
)

// Review is the verdict on a kit: builds/<slug>/review.md.
type Review struct {
	File  *source.File
	Front ReviewFront
	Body  *Body
}

// ReviewFront is the front matter of review.md.
type ReviewFront struct {
	At         source.Span
	Title      Text                       `key:"title" doc:"The review's title" eg:"A kit that wants light"`
	Date       Val[quantity.Day]          `key:"date,required" doc:"Day of the verdict" eg:"2026-01-20"`
	Embargo    Val[Moment]                `key:"embargo" doc:"Kept out of the site until then, in the workshop's time zone" eg:"2026-03-01 09:00"`
	Draft      Val[bool]                  `key:"draft" doc:"yes while it is written: checked, and not in the site until the key is taken away" eg:"yes"`
	Experience Text                       `key:"experience" doc:"What the reviewer has built of this kind" eg:"the fourth boat on this bench"`
	Marks      source.Entries[tally.Mark] `key:"marks" doc:"Marks by criterion, each with its reason"`
	Faults     []tally.Fault              `key:"faults" doc:"What is wrong with the kit itself"`
	Verdict    Text                       `key:"verdict" doc:"The verdict in a paragraph" eg:"A sound kit that rewards careful dry fitting"`
	BuyIf      []Text                     `key:"buy it if" doc:"Whom it suits" eg:"you want room for lights"`
	LeaveIf    []Text                     `key:"leave it if" doc:"Whom it does not suit" eg:"you build straight from the box"`
	Besides    []Text                     `key:"needs besides" doc:"What one needs that is not in the box" eg:"[lead weight, 0.3 mm rod]"`
}

// ReviewSettings is how a workshop judges kits.
type ReviewSettings struct {
	At       source.Span
	Criteria source.Entries[Criterion] `key:"criteria" doc:"What is judged, with its weight; the eight usual criteria with equal weights when not given" eg:"{fit: 3, detail: 2, value: 1}"`
	Best     Val[float64]              `key:"best" doc:"The top mark; ten when not given" eg:"10"`
	Overall  Val[bool]                 `key:"overall" doc:"Whether one mark over all is worked out and shown" eg:"no"`
	Phrases  []Text                    `key:"empty phrases" doc:"Phrases that say nothing and get a note; they take the place of the usual list" eg:"[should build up nicely]"`
}

// Criterion is one thing that is judged.
type Criterion struct {
	At     source.Span
	Weight Val[float64] `key:"weight,required,short" doc:"How much it counts beside the others" eg:"2"`
	Asks   Text         `key:"asks" doc:"The question it answers" eg:"Do the parts meet without work?"`
	Stages []Text       `key:"stages" doc:"Stages whose hours bear on it" eg:"[assembly]"`
	Kinds  []Text       `key:"problems" doc:"Kinds of problems that bear on it" eg:"[fit]"`
}

// Moment is a wall-clock time in the workshop's time zone.
type Moment struct{ time.Time }

// UnmarshalText reads "2026-03-01 09:00", or a day alone, which is its midnight.
func (m *Moment) UnmarshalText(text []byte) error {
	written := strings.TrimSpace(string(text))
	for _, form := range []string{"2006-01-02 15:04", "2006-01-02T15:04", time.DateOnly} {
		if t, err := time.Parse(form, written); err == nil {
			m.Time = t
			return nil
		}
	}
	return quantity.Wrong(0, len(text), "write it like 2026-03-01 09:00",
		"%q is no moment", written)
}

// In returns the moment in a time zone.
func (m Moment) In(zone *time.Location) time.Time {
	return time.Date(m.Year(), m.Month(), m.Day(), m.Hour(), m.Minute(), 0, 0, zone)
}

// String prints "2026-03-01 09:00".
func (m Moment) String() string { return m.Format("2006-01-02 15:04") }

// Written returns a body as it was written, with its place.
func (b *Body) Written() Text {
	return source.Written(b.file.Text[b.start:], b.file.At(b.start, len(b.file.Text)-b.start))
}
