package circuit

import (
	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// warmest is the temperature up to which a styrene shell keeps its shape, and
// room what it starts from, both in °C.
const warmest, room = 50, 22

// unknownHeat is what a shell of unknown size is trusted with, in W: half of
// what took a 0.5 m shell to 57 °C.
const unknownHeat = 5

var ruleHeat = &source.Rule{Name: "area-heat", Severity: source.Warn,
	Source: "AZoM (50 °C in use); 57 °C was measured at 11 W in a 0.5 m shell",
	Reason: "Polystyrene creeps well below its softening near 95 °C; about 50 °C is its limit in use.",
	Keys:   "build areas.<name>: volume, encloses"}

// HeatAreas sums over circuits the heat that lamps and their limiters set free
// in each area, on average, and finds areas that grow too warm. Where a
// resistor sits is not declared, so it is counted with its lamps.
func HeatAreas(areas []Area, solutions []*Solution) ([]AreaHeat, []source.Finding) {
	var all []AreaHeat
	var found []source.Finding
	for _, a := range areas {
		h := AreaHeat{Name: a.Name.V, Volume: a.Volume.V}
		for _, s := range solutions {
			h.parts = append(h.parts, s.heatIn(a.Name.V)...)
		}
		for _, part := range h.parts {
			h.Heat += part
		}
		h.Rise = Rise(h.Heat, h.Volume)
		all = append(all, h)
		switch {
		case h.Volume > 0 && room+h.Rise > warmest:
			found = append(found, ruleHeat.At(a.Name.At, "less current, fewer lamps, resistors outside the shell, or vents",
				"area %q takes %s in %v: about %.0f °C inside", h.Name, quantity.About(h.Heat), h.Volume, room+h.Rise))
		case h.Volume <= 0 && h.Heat > unknownHeat:
			found = append(found, ruleHeat.At(a.Name.At, "write its volume, like volume: 0.4 l, for an estimate; less current, or vents",
				"area %q takes %s", h.Name, quantity.About(h.Heat)))
		}
	}
	return all, found
}

// heatIn is the average heat of each of a circuit's lamps in an area, with its
// share of the limiter before it.
func (s *Solution) heatIn(area string) []quantity.Watts {
	var all []quantity.Watts
	for _, b := range s.Branches {
		mean := quantity.Watts(b.Control.Mean())
		for _, l := range b.Lamps {
			if l.Area == area && area != "" {
				all = append(all, mean*(l.Power+b.Resistor.Heat.Nominal/quantity.Watts(len(b.Lamps))))
			}
		}
	}
	return all
}

// Rise estimates by how many kelvin a closed shell warms, taking it as a cube:
// heat over surface and what passes through it. Still air inside and outside in
// series give about 3 W/(m²·K) (handbook values, from memory); the one measured
// shell, 57 °C at 11 W in 0.5 m, gave less, so 2 is reckoned with. Zero where the volume is unknown.
func Rise(heat quantity.Watts, volume quantity.Litres) float64 {
	if volume <= 0 {
		return 0
	}
	return shellRise.Of(shellLet(heat, volume))
}

func shellLet(heat quantity.Watts, volume quantity.Litres) quantity.Let {
	return quantity.Let{"P": heat, "V": quantity.Amount{Value: float64(volume) / 1000, Unit: "m³"}}
}

// Figures are the heat and the warming with their working.
func (h *AreaHeat) Figures() []quantity.Figure {
	all := []quantity.Figure{heats.Figure("heat", quantity.Let{"P_i": quantity.Each(h.parts)})}
	if h.Volume > 0 {
		all = append(all, shellRise.Figure("warmer by about", shellLet(h.Heat, h.Volume)))
	}
	return all
}
