package care

import (
	"slices"
	"strings"

	"spruelight/gen/circuit"
	"spruelight/gen/journal"
	"spruelight/gen/source"
	"spruelight/gen/topic"
	"spruelight/gen/topic/finish"
)

// Lacks lists what was never written down of a build and would be missed by
// whoever repairs it: each as the end of a sentence, most important first.
func Lacks(f topic.Facts, in Seen) []source.Message {
	var out []source.Message
	lack := func(when bool, what source.Message) {
		if when {
			out = append(out, what)
		}
	}
	r := &f.Front.Repair
	lack(len(r.Open) == 0, source.Word("how to open it"))
	if len(in.Circuits) > 0 {
		lack(!plugKnown(f, in.Circuits), source.Word("plug and polarity"))
		lack(len(r.DayOne) < len(in.Circuits), dayOne(withoutDayOne(f, in.Circuits)))
		lack(len(r.Route) == 0, source.Word("the way of the wires"))
		lack(wirePhotoName(f) == "", source.Word("a photo of the wire route"))
		unread := unread(f, in.Circuits)
		lack(len(unread) > 0, source.Say("meter readings of %s", source.Row(unread)))
		unlit := neverLit(f, in.Circuits)
		lack(len(unlit) > 0, source.Say("whether these were ever seen to light: %s", source.Row(unlit)))
	}
	if len(f.Front.Paint) > 0 {
		lack(len(f.Front.Mixes) == 0, source.Word("paint mixes for touching up"))
		unlaid := neverLaid(in.Finish)
		lack(len(unlaid) > 0, source.Say("when the coats were laid of %s", source.Row(unlaid)))
	} else {
		lack(true, source.Word("which paints are on it"))
	}
	lack(len(r.Spares) == 0, source.Word("where spares are kept"))
	lack(finished(f) && len(f.PhotoNames()) == 0, source.Word("a photo"))
	return out
}

// dayOne is the missing current, of some circuits by name or of all.
func dayOne(names []string) source.Message {
	if len(names) == 0 {
		return source.Word("the current on day one")
	}
	return source.Say("the current on day one of %s", source.Row(names))
}

// withoutDayOne lists the circuits of which nobody wrote the current on day
// one; none where it is missing of all.
func withoutDayOne(f topic.Facts, circuits []*circuit.Solution) []string {
	var names []string
	for _, s := range circuits {
		if _, ok := f.Front.Repair.DayOne.Get(s.Name); !ok {
			names = append(names, s.Name)
		}
	}
	if len(names) == len(circuits) {
		return nil
	}
	return names
}

// plugKnown reports whether the plug of every circuit's supply is written.
// Loose cells have none.
func plugKnown(f topic.Facts, circuits []*circuit.Solution) bool {
	if f.Front.Repair.Plug.Set {
		return true
	}
	for _, s := range circuits {
		if supply := &s.Circuit.Supply; !supply.Cells.Set && !supply.Plug.Set {
			return false
		}
	}
	return true
}

// unread lists the branches of which no meter reading is recorded.
func unread(f topic.Facts, circuits []*circuit.Solution) []string {
	var names []string
	for _, s := range circuits {
		for k := range s.Branches {
			b := &s.Branches[k]
			if !slices.ContainsFunc(f.Sittings, readsBranch(b.Name, b.Ref)) {
				names = append(names, b.Name)
			}
		}
	}
	return names
}

// neverLit lists the lamps that no sitting saw to light.
func neverLit(f topic.Facts, circuits []*circuit.Solution) []string {
	var refs []string
	for _, s := range circuits {
		for _, b := range s.Branches {
			for _, l := range b.Lamps {
				if !everLit(f, l.Ref) {
					refs = append(refs, l.Ref)
				}
			}
		}
	}
	return refs
}

func everLit(f topic.Facts, ref string) bool {
	return slices.ContainsFunc(f.Sittings, func(s *journal.Sitting) bool {
		return slices.ContainsFunc(s.Front.Lit, func(l journal.Text) bool { return l.V == ref })
	})
}

// neverLaid lists the areas with a planned coat that no sitting laid.
func neverLaid(r *finish.Result) []string {
	var names []string
	for i := range r.Paint.Areas {
		a := &r.Paint.Areas[i]
		for k := range a.Rows {
			if len(a.Rows[k].Laid) == 0 {
				names = append(names, a.Name)
				break
			}
		}
	}
	return names
}

// readsBranch returns a test for sittings that measured a branch.
func readsBranch(name, ref string) func(*journal.Sitting) bool {
	return func(s *journal.Sitting) bool {
		return slices.ContainsFunc(s.Front.Read, func(r journal.Reading) bool {
			return strings.EqualFold(r.Where.V, name) || ref != "" && strings.EqualFold(r.Where.V, ref)
		})
	}
}
