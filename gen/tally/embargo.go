package tally

import (
	"time"

	"spruelight/gen/source"
)

// Embargoed is something that may not be seen before a moment: a sitting or a
// review, with its photos and every mention of it.
type Embargoed struct {
	What  string // "sitting", "review"
	Name  string // "skiff/2026-02-14"
	Until source.Value[time.Time]
}

var ruleHeldBack = &source.Rule{Name: "held-back", Severity: source.Note,
	Reason: "An embargo keeps a sitting or a review, its photos and every mention of it out of the site until its moment.",
	Source: "the workshop's own agreement with the sender",
	Keys:   "sitting: embargo; review: embargo"}

// HeldBack returns what is still under embargo at a moment, in the order
// given. At its very moment a thing is free.
func HeldBack(things []Embargoed, now time.Time) ([]Embargoed, source.Findings) {
	var held []Embargoed
	var findings source.Findings
	for _, x := range things {
		if x.Until.Set && now.Before(x.Until.V) {
			held = append(held, x)
			findings.Add(ruleHeldBack.At(x.Until.At, "nothing to do; assemble again at that time or later",
				"%s %s is held back until %s", source.Word(x.What), x.Name, x.Until.V.Format("2006-01-02 15:04 MST")))
		}
	}
	return held, findings
}
