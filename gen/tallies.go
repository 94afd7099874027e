package gen

import (
	"fmt"
	"time"

	"spruelight/gen/journal"
	"spruelight/gen/source"
	"spruelight/gen/tally"
)

// reckonTally adds up a build's hours, days, money and parts.
func reckonTally(w *work) {
	w.tally = tallyBuild(w.build)
	w.totals = tally.Totals(w.tally, w.run.shop.Settings.StageNames())
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
		Lit: f.Lit, Readings: len(f.Read), Closed: f.ClosedAreas(), Next: f.Next}
	for _, x := range f.Spent {
		out.Spent = append(out.Spent, tally.Spend{On: x.On.V, Price: x.Price})
	}
	return out
}

// lampRefs returns the references of a build's lamps, D1, D2 … through all its
// circuits, and the number of their resistors: one a branch.
func lampRefs(b *journal.Build) (lamps []string, resistors int) {
	for _, c := range b.Front.Circuits {
		for _, branch := range c.Branches {
			resistors++
			for range branch.Lamps {
				lamps = append(lamps, fmt.Sprintf("D%d", len(lamps)+1))
			}
		}
	}
	return lamps, resistors
}
