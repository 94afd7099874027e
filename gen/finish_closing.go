package gen

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

// handReadied hands over what was looked at before closing; a later note
// replaces an earlier one.
func (w *work) handReadied(s *journal.Sitting, r journal.Readied) {
	a := w.area(r.Area.V)
	if a == nil {
		return
	}
	var found source.Findings
	for _, c := range r.Checks {
		if check := read(paint.ReadLeakCheck, c, &found); check.Set {
			a.Closing.Checks = append(a.Closing.Checks, paint.DoneCheck{Check: check.V, When: w.facts().At(s, journal.Val[quantity.Clock]{}, topic.StartOfDay)})
		}
	}
	w.found.Add(found...)
	for _, note := range []struct{ to, from *journal.Text }{{&a.Closing.Soak, &r.Soak}, {&a.Closing.Wiggle, &r.Wiggle}, {&a.Closing.Routed, &r.Wires}, {&a.Closing.Photo, &r.Photo}} {
		if note.from.Set {
			*note.to = *note.from
		}
	}
}

// handClosing hands over the electrical side of an area: its lamps, when each
// was seen to light, what was measured on their branches, and where the wires
// leave.
func (w *work) handClosing(a *journal.Area) paint.Closing {
	var out paint.Closing
	var entries []string
	number := 0
	for _, c := range w.build.Front.Circuits {
		for i := range c.Branches {
			branch := &c.Branches[i]
			inside := false
			var refs []string
			for _, l := range branch.Lamps {
				number++
				ref := circuit.LampRef(number)
				refs = append(refs, ref)
				at := slices.IndexFunc(a.Encloses, func(v journal.Text) bool { return v.V == ref })
				if at < 0 {
					continue
				}
				inside = true
				out.Lamps = append(out.Lamps, paint.EnclosedLamp{Ref: ref, At: l.Place.V, Written: a.Encloses[at].At, Lit: w.litOn(ref)})
			}
			if !inside {
				continue
			}
			out.Readings = append(out.Readings, w.readingOf(branch, refs))
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

// litOn lists when a lamp was seen to light.
func (w *work) litOn(ref string) []time.Time {
	var out []time.Time
	for _, s := range w.build.Sittings {
		for _, l := range s.Front.Lit {
			if l.V == ref {
				out = append(out, w.facts().At(s, journal.Val[quantity.Clock]{}, topic.StartOfDay))
			}
		}
	}
	return out
}

func leadText(b *circuit.Branch) string {
	text := "lead of " + b.Name.V
	if b.Lead.Wire.Set {
		text += ", " + b.Lead.Wire.V
	}
	if b.Lead.Length.Set {
		text += ", " + b.Lead.Length.V.String()
	}
	return text
}

// readingOf returns the last reading taken on a branch or at one of its lamps,
// judged against the band that the light topic worked out; one that could not
// be judged, for want of an operating point, counts as it was written.
func (w *work) readingOf(b *circuit.Branch, refs []string) paint.EnclosedReading {
	out := paint.EnclosedReading{At: b.Name.V, Where: b.Name.At}
	for _, s := range w.build.Sittings {
		for _, r := range s.Front.Read {
			if r.Where.V != b.Name.V && !slices.Contains(refs, r.Where.V) {
				continue
			}
			out.Where, out.Within, out.Band = r.At, true, source.Message{}
			switch {
			case r.Current.Set:
				out.Text = source.Say("%s", r.Current.V)
			case r.Volts.Set:
				out.Text = source.Say("%s", r.Volts.V)
			}
			if j := w.judged(r.At); j != nil {
				low, high := quantity.Amount{Value: j.Expected.Low, Digits: 3}, quantity.Amount{Value: j.Expected.High, Unit: j.Unit, Digits: 3}
				out.Within = j.Within
				if low.Value != 0 || high.Value != 0 {
					out.Band = source.Say("%s to %s", low, high)
				}
			}
		}
	}
	return out
}

// judged returns what the light topic says of the reading at a place.
func (w *work) judged(at source.Span) *circuit.JudgedReading {
	for i := range w.light.circuits {
		judged := w.light.circuits[i].solution.Judged
		for k := range judged {
			if judged[k].Reading.At == at {
				return &judged[k]
			}
		}
	}
	return nil
}
