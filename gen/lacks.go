package gen

import (
	"slices"
	"strings"

	"spruelight/gen/journal"
	"spruelight/gen/tally"
)

// lacks lists what was never written down of a build and would be missed by
// whoever repairs it: each as the end of a sentence, most important first.
func (w *work) lacks() []string {
	var out []string
	lack := func(when bool, what string) {
		if when {
			out = append(out, what)
		}
	}
	r := &w.build.Front.Repair
	lit := len(w.light.circuits) > 0
	lack(len(r.Open) == 0, "how to open it")
	if lit {
		lack(!w.plugKnown(), "plug and polarity")
		lack(len(r.DayOne) < len(w.light.circuits), "the current on day one"+of(w.without(func(c string) bool { _, ok := r.DayOne.Get(c); return !ok })))
		lack(len(r.Route) == 0, "the way of the wires")
		lack(w.wirePhotoName() == "", "a photo of the wire route")
		unread := w.unread()
		lack(len(unread) > 0, "meter readings"+of(unread))
		unlit := w.neverLit()
		lack(len(unlit) > 0, "whether these were ever seen to light: "+strings.Join(unlit, ", "))
	}
	if len(w.build.Front.Paint) > 0 {
		lack(len(w.build.Front.Mixes) == 0, "paint mixes for touching up")
		unlaid := w.neverLaid()
		lack(len(unlaid) > 0, "when the coats were laid"+of(unlaid))
	} else {
		lack(true, "which paints are on it")
	}
	lack(len(r.Spares) == 0, "where spares are kept")
	lack(w.record.Sum.State == tally.Shelf && w.run.buildCard(w).Lead == nil && len(w.build.PhotoNames()) == 0, "a photo")
	return out
}

// of adds names to a phrase.
func of(names []string) string {
	if len(names) == 0 {
		return ""
	}
	return " of " + strings.Join(names, ", ")
}

// without lists the circuits of which a fact is missing; none where it is
// missing of all.
func (w *work) without(missing func(string) bool) []string {
	var names []string
	for i := range w.light.circuits {
		if name := w.light.circuits[i].solution.Name; missing(name) {
			names = append(names, name)
		}
	}
	if len(names) == len(w.light.circuits) {
		return nil
	}
	return names
}

// plugKnown reports whether the plug of every circuit's supply is written.
// Loose cells have none.
func (w *work) plugKnown() bool {
	if w.build.Front.Repair.Plug.Set {
		return true
	}
	for i := range w.light.circuits {
		supply := &w.light.circuits[i].solution.Circuit.Supply
		if !supply.Cells.Set && !supply.Plug.Set {
			return false
		}
	}
	return true
}

// unread lists the branches of which no meter reading is recorded.
func (w *work) unread() []string {
	var names []string
	for i := range w.light.circuits {
		s := &w.light.circuits[i].solution
		for k := range s.Branches {
			b := &s.Branches[k]
			if !slices.ContainsFunc(w.build.Sittings, w.readsBranch(b.Name, b.Ref)) {
				names = append(names, b.Name)
			}
		}
	}
	return names
}

// neverLit lists the lamps that no sitting saw to light.
func (w *work) neverLit() []string {
	var refs []string
	for i := range w.light.circuits {
		for _, b := range w.light.circuits[i].solution.Branches {
			for _, l := range b.Lamps {
				if len(w.litOn(l.Ref)) == 0 {
					refs = append(refs, l.Ref)
				}
			}
		}
	}
	return refs
}

// neverLaid lists the areas with a planned coat that no sitting laid.
func (w *work) neverLaid() []string {
	var names []string
	for i := range w.finish.result.Areas {
		a := &w.finish.result.Areas[i]
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
func (w *work) readsBranch(name, ref string) func(*journal.Sitting) bool {
	return func(s *journal.Sitting) bool {
		return slices.ContainsFunc(s.Front.Read, func(r journal.Reading) bool {
			return strings.EqualFold(r.Where.V, name) || ref != "" && strings.EqualFold(r.Where.V, ref)
		})
	}
}
