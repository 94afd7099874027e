package finish

import (
	"slices"
	"strings"
	"time"

	"spruelight/gen/circuit"
	"spruelight/gen/journal"
	"spruelight/gen/paint"
	"spruelight/gen/quantity"
	"spruelight/gen/source"
	"spruelight/gen/topic"
)

// readied notes what was looked at before closing; a later note replaces an
// earlier one.
func (g *gathering) readied(s *journal.Sitting, r journal.Readied) {
	a := g.area(r.Area.V)
	if a == nil || a.Closing.Closed.Set && g.startOf(s).After(a.Closing.Closed.V) {
		return // of a closed area there is nothing left to look at
	}
	for _, c := range r.Checks {
		if c.Set {
			a.Closing.Checks = append(a.Closing.Checks, paint.DoneCheck{Check: c.V, When: g.startOf(s)})
		}
	}
	for _, note := range []struct{ to, from *journal.Text }{
		{&a.Closing.Soak, &r.Soak}, {&a.Closing.Wiggle, &r.Wiggle}, {&a.Closing.Routed, &r.Wires}, {&a.Closing.Photo, &r.Photo},
	} {
		if note.from.Set {
			*note.to = *note.from
		}
	}
}

// lit is the electrical side of an area: its lamps, when each was seen to
// light, what was measured on their branches, and where the wires leave.
func (g *gathering) lit(a *paint.Area) paint.Closing {
	var out paint.Closing
	var entries []string
	number := 0
	for _, c := range g.Front.Circuits {
		for i := range c.Branches {
			branch := &c.Branches[i]
			refs := lampRefs(branch, &number)
			if !g.inside(a, branch, refs, &out) {
				continue
			}
			out.Readings = append(out.Readings, g.lastReading(branch, refs, g.shut(a.Name.V)))
			out.Unreachable = append(out.Unreachable, leadText(branch))
			if c.Entry.Set && !slices.Contains(entries, c.Entry.V) {
				entries = append(entries, c.Entry.V)
				out.Entry = c.Entry
			}
		}
	}
	if len(entries) > 1 {
		out.Entry.V = strings.Join(entries, " and ")
	}
	return out
}

// lampRefs are the references of a branch's lamps; number is that of the lamp
// before it.
func lampRefs(b *circuit.Branch, number *int) []string {
	refs := make([]string, len(b.Lamps))
	for i := range refs {
		*number++
		refs[i] = circuit.LampRef(*number)
	}
	return refs
}

// inside adds the lamps of a branch that an area encloses, and reports whether
// there are any.
func (g *gathering) inside(a *paint.Area, b *circuit.Branch, refs []string, out *paint.Closing) bool {
	before := len(out.Lamps)
	for i, ref := range refs {
		if slices.ContainsFunc(a.Encloses, func(v journal.Text) bool { return v.V == ref }) {
			lamp := paint.EnclosedLamp{Ref: ref, At: b.Lamps[i].Place.V, Lit: g.litOn(ref)}
			out.Lamps = append(out.Lamps, lamp)
		}
	}
	return len(out.Lamps) > before
}

// shut is when an area was first glued shut; zero while it is open.
func (g *gathering) shut(area string) time.Time {
	for _, s := range g.Sittings {
		for _, c := range s.Front.Closed {
			if c.Area.V == area {
				return g.At(s, c.When, topic.EndOfDay)
			}
		}
	}
	return time.Time{}
}

// litOn lists when a lamp was seen to light.
func (g *gathering) litOn(ref string) []time.Time {
	var out []time.Time
	for _, s := range g.Sittings {
		for _, l := range s.Front.Lit {
			if l.V == ref {
				out = append(out, g.startOf(s))
			}
		}
	}
	return out
}

func leadText(b *circuit.Branch) source.Message {
	parts := []any{source.Say("lead of %s", b.Name.V)}
	if b.Lead.Wire.Set {
		parts = append(parts, b.Lead.Wire.V)
	}
	if b.Lead.Length.Set {
		parts = append(parts, b.Lead.Length.V)
	}
	return source.Say("%s", source.Row(parts))
}

// lastReading is the last one taken on a branch or at one of its lamps, judged
// against the band that was worked out for it; one that could not be judged,
// for want of an operating point, counts as it was written. What was read after
// the area was shut proves nothing of how it was closed.
func (g *gathering) lastReading(b *circuit.Branch, refs []string, shut time.Time) paint.EnclosedReading {
	out := paint.EnclosedReading{At: b.Name.V}
	for _, s := range g.Sittings {
		for _, r := range s.Front.Read {
			if r.Where.V != b.Name.V && !slices.Contains(refs, r.Where.V) {
				continue
			}
			if !shut.IsZero() && g.startOf(s).After(shut) {
				out.Late = r.At
				continue
			}
			out.Within, out.Band = true, source.Message{}
			switch {
			case r.Current.Set:
				out.Text = source.Say("%s", r.Current.V)
			case r.Volts.Set:
				out.Text = source.Say("%s", r.Volts.V)
			}
			if j := g.judged(r.At); j != nil {
				low, high := quantity.Ends(quantity.Amount{Value: j.Expected.Low, Unit: j.Unit}, quantity.Amount{Value: j.Expected.High, Unit: j.Unit})
				out.Within = j.Within
				if j.Expected.Low != 0 || j.Expected.High != 0 {
					out.Band = source.Say("%s to %s", low, high)
				}
			}
		}
	}
	return out
}
