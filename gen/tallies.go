package gen

import (
	"fmt"
	"time"

	"spruelight/gen/journal"
	"spruelight/gen/quantity"
	"spruelight/gen/source"
	"spruelight/gen/tally"
)

// recordWork is what the tally topic works out of a build beside its totals.
type recordWork struct {
	rows      []tally.Row
	closings  []tally.Closing
	decisions []tally.Decision
	problems  []studied
	balances  []tally.Balance
	quote     *tally.Quote
	outOfBox  tally.OutOfBox
}

// studied is a problem with what could be told of its cause.
type studied struct {
	problem *journal.Problem
	known   tally.Isolation
}

// reckonTally adds up a build's hours, days, money and parts, says how its
// choices stand and looks for the causes of its problems.
func reckonTally(w *work) {
	f := &w.build.Front
	w.tally = tallyBuild(w.build)
	w.totals = tally.Totals(w.tally, w.run.shop.Settings.StageNames())
	w.record.closings = closingsOf(w.build)
	var found source.Findings
	take := func(more source.Findings) { found.Add(more...) }
	rows, more := tally.Ledger(w.tally, partsOf(f.Parts))
	w.record.rows = rows
	take(more)
	w.record.decisions, more = tally.Decisions(choicesOf(f.Choices), w.record.closings, w.tally.State)
	take(more)
	w.record.balances, more = tally.Balances(f.Budget, w.totals)
	take(more)
	if c := f.Commission; c != nil {
		w.record.quote, more = tally.QuoteFor(tally.Commission{Rate: c.Rate, Hours: c.Hours, Materials: c.Materials, Quoted: c.Quoted, Deposit: c.Deposit}, w.totals, c.At)
		take(more)
	}
	w.record.outOfBox, more = tally.JudgeOutOfBox(len(w.tally.Lamps), f.Kit.Lights.V, extrasOf(f.Extras), rows)
	take(more)
	for i := range f.Problems {
		known, more := tally.Isolate(problemOf(w.build, &f.Problems[i]))
		take(more)
		w.record.problems = append(w.record.problems, studied{&f.Problems[i], known})
	}
	for _, s := range w.build.Sittings {
		if s.Front.Video != nil {
			video, more := videoOf(s.Front.Video)
			take(more)
			take(tally.CheckChapters(video))
		}
	}
	w.found.Add(found...)
}

// tallyBuild hands a build's journals over to the sums.
func tallyBuild(b *journal.Build) tally.Build {
	out := tally.Build{Slug: b.Slug, Name: b.Front.Name.V, State: tally.State(b.Front.State.V), At: b.Front.At,
		Kit: tally.Kit{Price: b.Front.Kit.Price, Parts: b.Front.Kit.Parts, Decals: b.Front.Decals, From: b.Front.Kit.From.V,
			Obtained: source.Value[tally.Obtained]{V: tally.Obtained(b.Front.Kit.Obtained.V), At: b.Front.Kit.Obtained.At, Set: b.Front.Kit.Obtained.Set}}}
	if day := b.Front.Finished; day.Set {
		out.Finished = source.Value[time.Time]{V: day.V.Time, At: day.At, Set: true}
	}
	for _, s := range b.Front.Spent {
		out.Spent = append(out.Spent, tally.Spend{On: s.On.V, Price: s.Price})
	}
	out.Lamps, out.Resistors = lampRefs(b)
	for _, s := range b.Sittings {
		out.Sittings = append(out.Sittings, tallySitting(s))
	}
	return out
}

func tallySitting(s *journal.Sitting) tally.Sitting {
	f := &s.Front
	out := tally.Sitting{Slug: s.Slug, Title: s.Title(), At: f.At, Date: s.Date, Hours: f.Hours, Stage: f.Stage,
		Lit: f.Lit, Readings: len(f.Read), Closed: f.ClosedAreas(), Next: f.Next, Decals: decalsOf(f.Decals)}
	for _, a := range f.Apart {
		out.Apart = append(out.Apart, tally.Apart{On: a.Name.V, Hours: a.Value})
	}
	for _, p := range f.Parts {
		out.Parts = append(out.Parts, tally.PartEvent{Part: p.Part, Event: p.Event, Count: p.Count, To: p.To, Why: p.Why.V})
	}
	for _, x := range f.Spent {
		out.Spent = append(out.Spent, tally.Spend{On: x.On.V, Price: x.Price})
	}
	return out
}

// lampRefs returns the references of a build's lamps, D1, D2 … through all its
// circuits, and how many resistors its circuits take: one a branch, but where a
// driver or nothing at all stands in its place.
func lampRefs(b *journal.Build) (lamps []string, resistors int) {
	for _, c := range b.Front.Circuits {
		for _, branch := range c.Branches {
			if !branch.Driver.Current.Set && !branch.Resistor.V.None {
				resistors++
			}
			for range branch.Lamps {
				lamps = append(lamps, fmt.Sprintf("D%d", len(lamps)+1))
			}
		}
	}
	return lamps, resistors
}

func decalsOf(d journal.DecalWork) []tally.DecalEvent {
	var out []tally.DecalEvent
	for _, x := range []struct {
		event string
		count source.Value[int]
	}{{"applied", d.Applied}, {"failed", d.Failed}, {"left off", d.LeftOff}} {
		if x.count.Set && x.count.V > 0 {
			out = append(out, tally.DecalEvent{Event: source.Written(x.event, x.count.At), Count: x.count, Why: d.Why.V})
		}
	}
	return out
}

func partsOf(parts []journal.Part) []tally.Part {
	var out []tally.Part
	for _, p := range parts {
		out = append(out, tally.Part{Name: p.Part, What: p.What.V, Have: p.Have, Need: p.Need})
	}
	return out
}

func extrasOf(extras []journal.Extra) []tally.Extra {
	var out []tally.Extra
	for _, x := range extras {
		out = append(out, tally.Extra{What: x.What.V, Kind: x.Kind})
	}
	return out
}

func choicesOf(choices []journal.Choice) []tally.Choice {
	var out []tally.Choice
	for _, c := range choices {
		x := tally.Choice{Question: c.Question, Chosen: c.Chosen, Why: c.Why, Areas: c.Areas}
		for _, o := range c.Options {
			x.Options = append(x.Options, tally.Option{Name: o.Name, Photo: o.Photo.V})
		}
		out = append(out, x)
	}
	return out
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

// videoOf hands a film over; a chapter's time stands in its key and is read
// here, so that what is wrong with it is said at its place.
func videoOf(v *journal.Video) (tally.Video, source.Findings) {
	var found source.Findings
	out := tally.Video{Address: v.Address.V, Length: v.Length}
	for _, c := range v.Chapters {
		var at quantity.Stamp
		if err := at.UnmarshalText([]byte(c.Name.V)); err != nil {
			found.Add(ruleChapterTime.At(c.Name.At, `write minutes and seconds in quotes, like "2:40"`, "%v", err))
			continue
		}
		out.Chapters = append(out.Chapters, tally.Chapter{Start: source.Written(at, c.Name.At), Title: c.Value.V})
	}
	return out, found
}

// ruleChapterTime is broken by a chapter whose time cannot be read.
var ruleChapterTime = source.Rule{Name: "chapter-time", Severity: source.Stop, Reason: "A chapter without its time cannot be found in the film.", Source: "common practice, no source"}
