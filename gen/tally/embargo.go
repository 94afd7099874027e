package tally

import (
	"time"

	"spruelight/gen/source"
)

// Embargoed is something that may not be seen before a moment: a build, a
// sitting or a review, with its photos and every mention of it.
type Embargoed struct {
	What  string // "the build", "the sitting", "the review of"
	Name  string // "skiff/2026-02-14"
	Until source.Value[time.Time]
}

var ruleHeldBack = &source.Rule{Name: "held-back", Severity: source.Note,
	Reason: "An embargo or a draft keeps a build, a sitting, a review or a page, its photos and every mention of it out of the site.",
	Source: "the workshop's own agreement with the sender",
	Keys:   "build: embargo; sitting: embargo, draft; review: embargo, draft; wall: draft"}

// RulePublished is broken by a page that was in the site and is held back now.
var RulePublished = &source.Rule{Name: "held-back-late", Severity: source.Warn,
	Reason: "A site can be changed; copies that others have made of it cannot.",
	Source: "common practice, no source",
	Keys:   "build: embargo; sitting: embargo, draft; review: embargo, draft; wall: draft"}

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

// Draft says that something is held back as a draft: what it is, its name, and
// where it says so.
func Draft(what, name string, at source.Span) source.Finding {
	return ruleHeldBack.At(at, source.Word("take the key away when it is ready"), "%s %s is a draft: checked, and left out of the site",
		what, name)
}
