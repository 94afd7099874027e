package quantity

// Formula is a sum as a reader could do it by hand, for the guide. Rooms
// declare theirs in a list; a test works each out anew from its words.
type Formula struct {
	Name   string   // "copper wire": unique, a heading of the guide
	Sum    string   // "R = ρ · l / A"
	Where  []string // "R: resistance of one wire, ohm"
	Source string   // standard, handbook or data sheet; else "common practice, no source"
	Note   string   // what it leaves out, or when it does not hold; may be ""
}

// Formulas are those of this package.
var Formulas = []Formula{
	{Name: "wire gauge", Sum: "d = 0.127 mm · 92^((36 − n) / 39)", Where: []string{"d: diameter of the bare copper, mm", "n: AWG number"}, Source: "ASTM B258"},
	{Name: "cross-section", Sum: "A = π/4 · d²", Where: []string{"A: cross-section of the copper, mm²", "d: its diameter, mm"}, Source: "geometry"},
	{Name: "preferred value", Sum: "R = the smallest value of the series that is not below the exact one", Where: []string{"the series: E12, E24 or E96, repeated in every decade"}, Source: "IEC 60063"},
	{Name: "length at a scale", Sum: "l = L / S", Where: []string{"l: length on the model", "L: length of the real thing", "S: the ratio: 48 for 1/48"}, Source: "proportion"},
	{Name: "inches to the foot", Sum: "i = 12 / S", Where: []string{"i: inches on the model for a real foot", "S: the ratio"}, Source: "12 inches to the foot"},
}
