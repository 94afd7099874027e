package circuit

import (
	"strings"

	"spruelight/gen/quantity"
)

// brightFrom is the luminous intensity from which a lamp is uncomfortable to
// look into closely (common practice, no source).
const brightFrom quantity.Candelas = 5

// fastFlash is the rate in Hz above which flashing can provoke seizures
// (WCAG 2.2, 2.3.1: no more than three flashes in a second); from steadyFlash on
// it looks steady (common practice).
const fastFlash, steadyFlash = 3, 60

// cautions are the warnings that this supply and these lamps call for.
func cautions(supply *supplyPlan, branches []BranchResult) []string {
	var all []string
	add := func(when bool, text string) {
		if when {
			all = append(all, text)
		}
	}
	cell := supply.cell
	button := supply.kind == ButtonCell || strings.HasPrefix(cell, "CR") || strings.HasPrefix(cell, "LR4") || strings.HasPrefix(cell, "SR")
	lithium := strings.HasPrefix(cell, "ICR") || strings.HasPrefix(cell, "INR") || strings.Contains(cell, "LIPO") || strings.HasPrefix(cell, "18650") || strings.HasPrefix(cell, "14500")
	add(button, "Button cells burn through a child's gullet within two hours of being swallowed: close the holder with a screw, keep spares locked away, and go to hospital at once if one may have been swallowed.")
	add(lithium, "Lithium cells: use protected ones and the maker's charger, charge attended on something that cannot burn, never below 0 °C, and never glue one in where it cannot be reached.")
	add(supply.kind == PowerBank, "A power bank holds lithium cells: keep it outside the model, and follow its maker's instructions.")
	add(supply.kind.cells() && !lithium, "Take cells out of a model that is put away: they leak. Never mix old with new.")
	add(supply.kind == Adapter || supply.kind == USB, "Use an approved low-voltage adapter only. Anything on the mains side is for a licensed electrician under the local code.")
	flashing, bright := false, false
	for i := range branches {
		bp := &branches[i]
		flashing = flashing || bp.Control.Kind == Blink && bp.Control.Frequency > fastFlash && bp.Control.Frequency < steadyFlash
		for _, l := range bp.Lamps {
			rated := l.Declared.Type.Intensity.V
			at := rated.Candelas
			if rated.Amps > 0 && bp.Wanted > 0 {
				at *= quantity.Candelas(bp.Wanted / rated.Amps)
			}
			bright = bright || at >= brightFrom
		}
	}
	add(flashing, "Light that flashes more than three times a second can provoke seizures: warn viewers, and do not film it full frame.")
	add(bright, "Very bright lamps: do not look into them closely.")
	return all
}
