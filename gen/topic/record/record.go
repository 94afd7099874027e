// Package record is the topic of what a build took and what became of it: its
// hours, cost and parts, its choices and problems, and the pages on them.
package record

import (
	"spruelight/gen/journal"
	"spruelight/gen/quantity"
	"spruelight/gen/source"
	"spruelight/gen/tally"
	"spruelight/gen/topic"
)

// Result is what the log of a build adds up to.
type Result struct {
	topic.Outcome
	Build     tally.Build // the journals as the sums take them
	Sum       tally.Sum
	Obtained  tally.Disclosure // how the kit came here; empty where nothing says
	Rows      []tally.Row      // the account of the counted parts
	Closings  []tally.Closing  // areas closed so far, the first time each
	Decisions []tally.Decision // one a choice, in the order of build.md
	Problems  []ProblemCase
	Balances  []tally.Balance
	Quote     *tally.Quote // of a commission; nil where there is none
	Box       tally.OutOfBox
}

// Names of the pages.
const (
	hoursFile    = "hours.html"
	partsFile    = "parts.html"
	problemsFile = "problems.html"
	choicesFile  = "choices.html"
	entryFile    = "entry.html"
)

// Reckon adds up a build's hours, days, money and parts, says how its choices
// stand and looks for the causes of its problems.
func Reckon(f topic.Facts) Result {
	r := Result{Build: handed(f.Build), Closings: closingsOf(f.Build)}
	r.Sum = tally.Totals(r.Build, f.Settings.StageNames())
	if r.Build.Kit.Obtained.Set { // what is wrong with it is the review's business
		r.Obtained, _ = tally.Disclose(r.Build.Kit, f.Front.At)
	}
	r.account(f)
	for i := range f.Front.Problems {
		r.isolate(f, i)
	}
	for _, s := range f.Sittings {
		if s.Front.Video != nil {
			video, found := VideoOf(s.Front.Video)
			r.Found.Add(found...)
			if !found.Stops() { // a chapter that cannot be read is not missing
				r.Found.Add(tally.CheckChapters(video)...)
			}
		}
	}
	r.Pages = r.pages()
	return r
}

// account keeps the books: parts, choices, budgets, the commission, and what
// did not come in the box.
func (r *Result) account(f topic.Facts) {
	front := &f.Front
	var found source.Findings
	take := func() { r.Found.Add(found...) }
	r.Rows, found = tally.Ledger(r.Build, front.Parts)
	take()
	r.Decisions, found = tally.Decisions(front.Choices, r.Closings, r.Build.State)
	take()
	r.Balances, found = tally.Balances(front.Budget, r.Sum)
	take()
	if c := front.Commission; c != nil {
		r.Quote, found = tally.QuoteFor(c, r.Sum)
		take()
	}
	r.Box, found = tally.JudgeOutOfBox(len(r.Build.Lamps), front.Kit.Lights.V, front.Extras, r.Rows)
	take()
}

// pages lists the pages that there will be.
func (r *Result) pages() []string {
	var names []string
	for _, p := range []struct {
		name string
		is   bool
	}{
		{hoursFile, r.Sum.Sittings > 0}, {partsFile, len(r.Rows) > 0}, {problemsFile, len(r.Problems) > 0},
		{choicesFile, len(r.Decisions) > 0}, {entryFile, r.Build.State == tally.Shelf},
	} {
		if p.is {
			names = append(names, p.name)
		}
	}
	return names
}

// handed hands a build's journals over to the sums.
func handed(b *journal.Build) tally.Build {
	front := &b.Front
	out := tally.Build{Slug: b.Slug, Name: front.Name.V, State: tally.State(front.State.V), At: front.At,
		Kit: front.Kit, Decals: front.Decals, Spent: front.Spent}
	out.Lamps, out.Resistors = lampRefs(b)
	for _, s := range b.Sittings {
		f := &s.Front
		out.Sittings = append(out.Sittings, tally.Sitting{Slug: s.Slug, Title: s.Title(), At: f.At, Date: s.Date, Hours: f.Hours, Stage: f.Stage,
			Apart: f.Apart, Spent: f.Spent, Parts: f.Parts, Decals: f.Decals,
			Lit: f.Lit, Readings: len(f.Read), Closed: f.ClosedAreas(), Next: f.Next})
	}
	return out
}

// lampRefs returns the references of a build's lamps and how many resistors its
// circuits take: one a branch, but where a driver or nothing at all stands in
// its place.
func lampRefs(b *journal.Build) (lamps []string, resistors int) {
	for _, c := range b.Front.Circuits {
		for i := range c.Branches {
			if c.Branches[i].TakesResistor() {
				resistors++
			}
		}
	}
	return b.LampRefs(), resistors
}

// closingsOf lists the areas closed so far, the first time each.
func closingsOf(b *journal.Build) []tally.Closing {
	var out []tally.Closing
	seen := map[string]bool{}
	for _, s := range b.Sittings {
		for _, a := range s.Front.ClosedAreas() {
			if !seen[a.V] {
				seen[a.V] = true
				area, _ := b.Front.Areas.Get(a.V)
				out = append(out, tally.Closing{Area: a.V, Date: s.Date, Lamps: len(area.Encloses)})
			}
		}
	}
	return out
}

// VideoOf hands a film over; a chapter's time stands in its key and is read
// here, so that what is wrong with it is said at its place.
func VideoOf(v *journal.Video) (tally.Video, source.Findings) {
	var found source.Findings
	out := tally.Video{Address: v.Address.V, Length: v.Length}
	for _, c := range v.Chapters {
		var at quantity.Stamp
		if err := at.UnmarshalText([]byte(c.Name.V)); err != nil {
			found.Add(tally.RuleChapterTime.At(c.Name.At, `write minutes and seconds in quotes, like "2:40"`, "%v", err))
			continue
		}
		out.Chapters = append(out.Chapters, tally.Chapter{Start: source.Written(at, c.Name.At), Title: c.Value.V})
	}
	return out, found
}
