package gen

import (
	"slices"
	"strings"

	"spruelight/gen/circuit"
	"spruelight/gen/journal"
	"spruelight/gen/paint"
	"spruelight/gen/quantity"
	"spruelight/gen/source"
	"spruelight/gen/topic"
	"spruelight/gen/topic/lighting"
)

// Where a value could not be read, or a name stands for nothing, nothing is said
// that rests on it: the finding about it stops the run, and what the sums make of
// the gap is no news. What stops is kept.

// withoutFollowers takes what rests on broken declarations out of what the
// subjects found: circuit by circuit, area by area, and the books as a whole.
func (s *sums) withoutFollowers(f topic.Facts, paints paint.Shelf) {
	dark := s.muteLight(f)
	s.muteFinish(f, paints, dark)
	if brokenSize(f.Build) {
		s.scale.Found = only(s.scale.Found)
	}
	muted := map[string]bool{"part-": brokenParts(f), "problem-": brokenProblems(f)}
	s.record.Found = slices.DeleteFunc(s.record.Found, func(x source.Finding) bool {
		for prefix, is := range muted {
			if is && follows(x) && strings.HasPrefix(x.Rule.Name, prefix) {
				return true
			}
		}
		return false
	})
}

// follows reports whether a finding may be left out at all.
func follows(f source.Finding) bool { return f.Severity() != source.Stop }

// only keeps what stops.
func only(found source.Findings) source.Findings {
	return slices.DeleteFunc(slices.Clone(found), follows)
}

// muteLight leaves out what is said of broken circuits, and of what lies across
// circuits where one is broken: readings, which may belong to it, and the heat of
// an area. It reports whether what closings want of lamps is not known for it.
func (s *sums) muteLight(f topic.Facts) bool {
	any := len(s.light.Circuits) < len(f.Front.Circuits) // one could not be handed over
	silent := map[string]bool{}
	for i := range s.light.Circuits {
		c := &s.light.Circuits[i]
		if !c.Found.Stops() && !brokenCircuit(f, &c.Solution.Circuit.Circuit) {
			continue
		}
		any = true
		for _, x := range c.Found {
			if follows(x) {
				silent[x.Key()] = true
			}
		}
		c.Found = only(c.Found)
	}
	for i := range f.Front.Circuits {
		any = any || brokenCircuit(f, &f.Front.Circuits[i])
	}
	for _, sitting := range f.Sittings {
		any = any || slices.ContainsFunc(sitting.Front.Read, func(r journal.Reading) bool { return r.Broken })
	}
	if !any {
		return slices.ContainsFunc(s.light.Found, func(x source.Finding) bool { return x.Rule == lighting.RuleLampName })
	}
	across := func(x source.Finding) bool {
		return follows(x) && slices.Contains(circuit.AcrossRules, x.Rule) ||
			x.Rule == lighting.RuleLampName && missingLamps(f)
	}
	for i := range s.light.Circuits {
		c := &s.light.Circuits[i]
		c.Found = slices.DeleteFunc(slices.Clone(c.Found), across)
	}
	s.light.Found = slices.DeleteFunc(s.light.Found, func(x source.Finding) bool { return silent[x.Key()] || across(x) })
	return true
}

// brokenCircuit reports whether something that a circuit is reckoned from could
// not be read or is not there: in its declaration or on the rack.
func brokenCircuit(f topic.Facts, c *circuit.Circuit) bool {
	if c.Broken {
		return true
	}
	if supply, ok := f.Rack.Supplies.Get(c.Supply.V); !ok || supply.Broken {
		return true
	}
	runs := []circuit.Run{c.Feed}
	for _, j := range c.Junctions {
		runs = append(runs, j.Run)
	}
	for _, b := range c.Branches {
		runs = append(runs, b.Lead)
		for _, l := range b.Lamps {
			if lamp, ok := f.Rack.Lamps.Get(l.Lamp.V); !ok || lamp.Broken {
				return true
			}
		}
	}
	return slices.ContainsFunc(runs, func(r circuit.Run) bool {
		wire, ok := f.Rack.Wire.Get(r.Wire.V)
		return ok && wire.Broken
	})
}

// missingLamps reports whether lamps of a circuit could not be read, so that
// those after them bear other numbers than they should.
func missingLamps(f topic.Facts) bool {
	return slices.ContainsFunc(f.Front.Circuits, func(c circuit.Circuit) bool { return c.Broken })
}

// muteFinish leaves out what is said of areas whose plan, coats or events are
// broken, and what closings want of lamps where a circuit is: dark.
func (s *sums) muteFinish(f topic.Facts, paints paint.Shelf, dark bool) {
	broken, all := brokenAreas(f, paints)
	silent := map[string]bool{}
	for i := range s.finish.Paint.Areas {
		a := &s.finish.Paint.Areas[i]
		mute := func(x source.Finding) bool {
			return follows(x) && (all || broken[a.Name] || dark && paint.OfLamps(x.Rule))
		}
		for _, x := range a.Findings {
			if mute(x) {
				silent[x.Key()] = true
			}
		}
		a.Findings = slices.DeleteFunc(slices.Clone(a.Findings), mute)
	}
	stirred := slices.ContainsFunc(f.Front.Mixes, func(m source.Entry[paint.Mix]) bool { return m.Value.Broken })
	for _, m := range f.Front.Mixes {
		for _, part := range m.Value.Parts {
			stirred = stirred || paints[part.Name.V] != nil && paints[part.Name.V].Broken
		}
	}
	counted := brokenSheets(f)
	mute := func(x source.Finding) bool {
		return silent[x.Key()] || follows(x) && (stirred && strings.HasPrefix(x.Rule.Name, "mix-") ||
			counted && strings.HasPrefix(x.Rule.Name, "decal-"))
	}
	s.finish.Found = slices.DeleteFunc(s.finish.Found, mute)
	s.finish.Paint.Findings = slices.DeleteFunc(s.finish.Paint.Findings, mute)
}

// brokenAreas are the areas of which something could not be read; all of them
// where it is not known which area is meant.
func brokenAreas(f topic.Facts, paints paint.Shelf) (areas map[string]bool, all bool) {
	b := breakage{f, paints, map[string]bool{}, false}
	b.plan()
	for _, s := range f.Sittings {
		b.sitting(s)
	}
	return b.areas, b.all
}

// breakage gathers the areas of which something could not be read.
type breakage struct {
	topic.Facts
	paints paint.Shelf
	areas  map[string]bool
	all    bool
}

// known reports whether all that is needed is known of a coat's paint.
func (b *breakage) known(coat string) bool {
	if m, ok := b.Front.Mixes.Get(coat); ok {
		return !m.Broken
	}
	p := b.paints[coat]
	return p != nil && !p.Broken || coat == paint.Decals.String()
}

// hit notes the area of something that is broken.
func (b *breakage) hit(broken bool, area source.Value[string]) {
	if !broken {
		return
	}
	if _, ok := b.Front.Areas.Get(area.V); ok && area.Set {
		b.areas[area.V] = true
	} else {
		b.all = true
	}
}

func (b *breakage) plan() {
	for _, a := range b.Front.Areas {
		b.hit(a.Value.Broken, a.Name)
	}
	for _, stack := range b.Front.Paint {
		for i := range stack.Value {
			c := &stack.Value[i]
			b.hit(c.Broken || !b.known(c.Paint.V), stack.Name)
		}
		_, ok := b.Front.Areas.Get(stack.Name.V)
		b.all = b.all || !ok // which area has no plan now is not known
	}
}

func (b *breakage) sitting(s *journal.Sitting) {
	for i := range s.Front.Coats {
		c := &s.Front.Coats[i]
		b.hit(c.Broken || !b.known(c.Coat.V), c.Area)
	}
	for _, touched := range slices.Concat(s.Front.Masked, s.Front.Handled) {
		b.hit(touched.Broken, touched.Area)
	}
	for _, r := range s.Front.Ready {
		b.hit(r.Broken, r.Area)
	}
	for _, c := range s.Front.Closed {
		b.hit(c.Broken, c.Area)
	}
	for _, l := range s.Front.Leaks {
		b.hit(l.Broken && l.Area.Set, l.Area)
	}
	for _, t := range s.Front.Tests {
		b.hit(t.Broken, t.Area)
	}
	b.all = b.all || s.Body == nil // a sitting that could not be read may have done anything
}

// brokenParts reports whether a counted part, or what became of one, could not be
// read.
func brokenParts(f topic.Facts) bool {
	for _, p := range f.Front.Parts {
		if p.Broken {
			return true
		}
	}
	for _, s := range f.Sittings {
		for _, e := range s.Front.Parts {
			if e.Broken {
				return true
			}
		}
		if s.Body == nil {
			return true
		}
	}
	return false
}

// brokenProblems reports whether a problem, or the parts that it is about, could
// not be read.
func brokenProblems(f topic.Facts) bool {
	for _, p := range f.Front.Problems {
		if p.Broken {
			return true
		}
	}
	return brokenParts(f)
}

// brokenSheets reports whether a marking of a decal sheet, or where one went,
// could not be read.
func brokenSheets(f topic.Facts) bool {
	for _, sheet := range f.Front.Sheets {
		if slices.ContainsFunc(sheet.Value, func(m paint.Marking) bool { return m.Broken }) {
			return true
		}
	}
	return slices.ContainsFunc(f.Sittings, func(s *journal.Sitting) bool {
		return slices.ContainsFunc(s.Front.Markings, func(m paint.MarkingWork) bool { return m.Broken })
	})
}

// brokenSize reports whether a length of the model or of the real thing could not
// be read.
func brokenSize(b *journal.Build) bool {
	f := &b.Front
	unread := slices.ContainsFunc(f.Measured, func(e source.Entry[journal.Val[quantity.Measured]]) bool { return !e.Value.Set })
	return unread || f.Scale.At.Known() && !f.Scale.Set || f.Display.Broken || f.Outline.Broken ||
		slices.ContainsFunc(f.Subject, func(s journal.Subject) bool { return s.Broken })
}

// withoutFollowersOfSize takes what rests on sizes that could not be read out of
// what was found over all models: a line-up, a cabinet.
func withoutFollowersOfSize(found source.Findings, builds []*journal.Build) source.Findings {
	broken := map[string]bool{}
	for _, b := range builds {
		if b.File != nil && brokenSize(b) {
			broken[b.File.Name] = true
		}
	}
	return slices.DeleteFunc(found, func(x source.Finding) bool {
		return follows(x) && (broken[x.At.Name()] || len(broken) > 0 && strings.HasPrefix(x.Rule.Name, "cabinet-"))
	})
}
