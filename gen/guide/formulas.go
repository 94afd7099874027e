package guide

import (
	"spruelight/gen/circuit"
	"spruelight/gen/paint"
	"spruelight/gen/quantity"
	"spruelight/gen/scale"
	"spruelight/gen/tally"
)

// FormulaSet is the formulas of one subject.
type FormulaSet struct {
	Title    string
	Formulas []*quantity.Formula
}

// FormulaSets lists every formula of the guide by subject.
func FormulaSets() []FormulaSet {
	return []FormulaSet{
		{"Lengths, wire and preferred values", quantity.Formulas},
		{"Lighting", circuit.Formulas},
		{"Finish", paint.Formulas},
		{"Scale", scale.Formulas},
		{"Hours, cost, causes and marks", tally.Formulas},
	}
}
