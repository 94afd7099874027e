package circuit

import (
	"math"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// warmest is the temperature up to which a styrene shell keeps its shape, and
// room what it starts from, both in °C.
const warmest, room = 50, 22

// unknownHeat is what a shell of unknown size is trusted with, in W: half of
// what took a 0.5 m shell to 57 °C.
const unknownHeat = 5

// shellLoss is the heat that passes from the air in a small closed shell to the
// room, in W/(m²·K). Still air inside and outside in series give about 3
// (handbook values, from memory); the one measured shell, 57 °C at 11 W in
// 0.5 m, gave less, so 2 is reckoned with.
const shellLoss = 2

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
			h.Heat += s.heatIn(a.Name.V)
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

// heatIn is the average heat of a circuit's lamps in an area and of the
// limiters before them.
func (s *Solution) heatIn(area string) quantity.Watts {
	sum := quantity.Watts(0)
	for _, b := range s.Branches {
		mean := quantity.Watts(b.Control.Mean())
		for _, l := range b.Lamps {
			if l.Area == area && area != "" {
				sum += mean * (l.Power + b.Resistor.Heat.Nominal/quantity.Watts(len(b.Lamps)))
			}
		}
	}
	return sum
}

// Rise estimates by how many kelvin a closed shell warms, taking it as a cube:
// heat over surface and shellLoss. Zero where the volume is unknown.
func Rise(heat quantity.Watts, volume quantity.Litres) float64 {
	if volume <= 0 {
		return 0
	}
	side := math.Cbrt(float64(volume) / 1000)
	return float64(heat) / (shellLoss * 6 * side * side)
}
