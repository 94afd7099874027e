package circuit

import (
	"slices"
	"strings"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// brightFrom is the luminous intensity from which a lamp is uncomfortable to
// look into closely (common practice, no source).
const brightFrom quantity.Candelas = 5

// fastFlash is the rate in Hz above which flashing can provoke seizures
// (WCAG 2.2, 2.3.1: no more than three flashes in a second); from steadyFlash on
// it looks steady (common practice).
const fastFlash, steadyFlash = 3, 60

// cautions are the warnings that this supply and these lamps call for.
func cautions(supply *supplyPlan, branches []BranchResult) []source.Message {
	flashing, bright := false, false
	for i := range branches {
		c := branches[i].Control
		flashing = flashing || c.Kind == Blink && c.Frequency > fastFlash && c.Frequency < steadyFlash
		for k := range branches[i].Lamps {
			bright = bright || branches[i].Lamps[k].lightAt(branches[i].Wanted) >= brightFrom
		}
	}
	button := supply.kind == ButtonCell || supply.celled("CR", "LR4", "SR")
	lithium := supply.celled("ICR", "INR", "18650", "14500") || strings.Contains(supply.cell, "LIPO")
	var all []source.Message
	for _, c := range []struct {
		calls bool
		text  string
	}{
		{button, "Button cells burn through a child's gullet within two hours of being swallowed: " +
			"close the holder with a screw, keep spares locked away, and go to hospital at once if one may have been swallowed."},
		{lithium, "Lithium cells: use protected ones and the maker's charger, charge attended on something that cannot burn, " +
			"never below 0 °C, and never glue one in where it cannot be reached."},
		{supply.kind == PowerBank, "A power bank holds lithium cells: keep it outside the model, and follow its maker's instructions."},
		{supply.kind.cells() && !lithium, "Take cells out of a model that is put away: they leak. Never mix old with new."},
		{supply.kind == Adapter || supply.kind == USB, "Use an approved low-voltage adapter only. " +
			"Anything on the mains side is for a licensed electrician under the local code."},
		{flashing, "Light that flashes more than three times a second can provoke seizures: warn viewers, and do not film it full frame."},
		{bright, "Very bright lamps: do not look into them closely."},
	} {
		if c.calls {
			all = append(all, source.Word(c.text))
		}
	}
	return all
}

// celled reports whether the supply's cells are of a type that begins so.
func (s *supplyPlan) celled(types ...string) bool {
	return slices.ContainsFunc(types, func(t string) bool { return strings.HasPrefix(s.cell, t) })
}

// lightAt is a lamp's luminous intensity at a current; as declared where it is
// not said at which current.
func (l *LampResult) lightAt(i quantity.Amps) quantity.Candelas {
	rated := l.Declared.Type.Intensity.V
	if rated.Amps > 0 && i > 0 {
		return rated.Candelas * quantity.Candelas(i/rated.Amps)
	}
	return rated.Candelas
}
