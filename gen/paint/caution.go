package paint

import (
	"slices"

	"spruelight/gen/source"
)

// Caution is a short warning that belongs to something the build really uses.
type Caution struct {
	Subject source.Message
	Text    source.Message
	Source  string
}

const sheets = "The maker's data sheet and safety data sheet come first"

// familyCautions are the cautions by solvent family.
var familyCautions = map[Family]Caution{
	Waterborne: {Subject: source.Word("waterborne paint"), Source: practice,
		Text: source.Say("Spray mist is not for breathing either: air the room, wear a particle mask while spraying. %s.", source.Word(sheets))},
	Lacquer: {Subject: source.Word("lacquer"), Source: "from memory: NIOSH organic vapour with P95 to P100, EN 14387 A2P3",
		Text: source.Say("Fire and fumes: spray outdoors or in an extracted booth, with a mask for organic vapours and particles, gloves and "+
			"eye protection, no flame, spark or pilot light near. %s.", source.Word(sheets))},
	Enamel: {Subject: source.Word("enamel and white spirit"), Source: practice,
		Text: source.Say("Air the room well while the coat dries, not only while it is laid; wear gloves; "+
			"keep rags with white spirit in a closed metal tin. %s.", source.Word(sheets))},
	Oil: {Subject: source.Word("oil paint and its rags"), Source: practice,
		Text: source.Say("Rags with drying oil can catch fire by themselves: lay them out flat to dry, "+
			"or keep them in water in a closed metal tin. %s.", source.Word(sheets))},
	TwoPack: {Subject: source.Word("two-pack paint"), Source: "UK HSE, motor vehicle repair: isocyanate paint spraying",
		Text: source.Word("Hardeners with isocyanates are sprayed only in a booth and with air-fed breathing apparatus; filter masks do " +
			"not protect, and the mist stays after spraying. If you have neither, do not spray it.")},
}

var (
	hotWater = Caution{Subject: source.Word("hot water"),
		Source: "riplastics and Netzsch on polystyrene: softens from 80 to 105 °C; common practice",
		Text:   source.Word("Water for straightening is 60 to 80 °C and scalds: use tongs and a steady dish. Boiling water warps styrene.")}
	dust = Caution{Subject: source.Word("sanding resin and printed parts"), Source: practice,
		Text: source.Word("Avoid breathing any fine dust: sand wet, wear a fine-particle mask, wipe up instead of sweeping.")}
)

// cautions lists those that apply to what is used, each once.
func cautions(areas []AreaResult) []Caution {
	var out []Caution
	add := func(c Caution) {
		if !slices.ContainsFunc(out, func(o Caution) bool { return o.Subject.Form == c.Subject.Form }) {
			out = append(out, c)
		}
	}
	for _, f := range []Family{Waterborne, Oil, Enamel, Lacquer, TwoPack} {
		for i := range areas {
			for j := range areas[i].Rows {
				if p := areas[i].Rows[j].Paint; p != nil && p.Family.V == f {
					add(familyCautions[f])
				}
			}
		}
	}
	for i := range areas {
		a := areas[i].Area
		if a.last(Straightened) != nil {
			add(hotWater)
		}
		if a.last(Sanded) != nil && (a.Material.V == Resin || a.Material.V == Printed) {
			add(dust)
		}
	}
	return out
}
