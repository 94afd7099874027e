package paint

import "spruelight/gen/quantity"

// The sums by which figures are made.
var (
	density = &quantity.Formula{Name: "optical density", Sum: "D = log₁₀(E₀ / E)", Digits: 2,
		Where: []string{"D: density of a coat; those of several coats add", "E₀: light on the meter without the coat, lx, less the dark room's",
			"E: with it, lx, less the dark room's"}, Source: densitySource}
	lightThrough = &quantity.Formula{Name: "light that passes", Sum: "T = 10^(−D)", Unit: "share",
		Where: []string{"T: share of the light", "D: density of all coats"}, Source: "ISO 5-1:2009"}
	coatsWanted = &quantity.Formula{Name: "coats still wanted", Sum: "n = (D_w − D) / D_c, rounded up", Digits: 2,
		Where:  []string{"D_w: density wanted, 3 where nothing is written", "D: density reached", "D_c: density of the coat last laid"},
		Source: "densities add (ISO 5-1:2009), each coat taken to be like the last", Note: "3 is a suggestion without a source."}
	cold = &quantity.Formula{Name: "cold slows drying", Sum: "k = 2^((t₀ − t) / 10 °C), never below 1",
		Where: []string{"k: factor on every waiting time", "t₀: temperature at which the paint's times hold, 20 °C where nothing is written",
			"t: temperature of the bench, °C"}, Source: SlowSource}
)

// Formulas are the sums of this room, for the guide.
var Formulas = []*quantity.Formula{
	density,
	lightThrough,
	coatsWanted,
	cold,
	{Name: "mixing by ratio", Sum: "V_i = V · p_i / (p₁ + p₂ + …)", Where: []string{"V_i: volume of one paint", "V: volume of the cup", "p: parts of the ratio"}, Source: "proportion"},
	{Name: "drops", Sum: "n = V_i / 50 µl, rounded", Where: []string{"n: drops", "V_i: volume"}, Source: dropSource, Note: "Thinned paint drips smaller than water; count with the dropper that will be used again."},
	{Name: "colour to light", Sum: "v = ((c / 255 + 0.055) / 1.055)^2.4, and c / 255 / 12.92 for c up to 10", Where: []string{"v: linear light of a channel, 0 to 1", "c: the channel of the hex colour, 0 to 255"}, Source: "IEC 61966-2-1 (sRGB)"},
	{Name: "colour difference", Sum: "ΔE₀₀: CIEDE2000 of both colours in CIELAB under D65", Where: []string{"below 0.8: the same to the eye", "from 3.5 on: seen at once"}, Source: "ISO/CIE 11664-6; " + verdictSource},
	{Name: "lightening for scale", Sum: "v' = v + (1 − v) · w", Where: []string{"v: linear light of a channel", "w: share of white that the rule named gives for the scale"}, Source: "common practice, no source: the rules contradict one another, and one is used only where it is named"},
}
