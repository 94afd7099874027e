package scale

import (
	"spruelight/gen/quantity"
)

// Every conversion is a Figure that carries its working. Lengths in and out
// are metres.

const byProportion = "proportion: model length = real length / ratio"

// ToModel returns how long a real length is on the model.
func ToModel(real quantity.Metres, s quantity.Scale) quantity.Figure {
	return lengthOnModel.Figure("model length", quantity.Let{"L": real, "S": ratio(s)})
}

// ToReal returns how long a length of the model is in truth.
func ToReal(model quantity.Metres, s quantity.Scale) quantity.Figure {
	return lengthInTruth.Figure("real length", quantity.Let{"l": model, "S": ratio(s)})
}

// Between returns how long a length of a model at one scale is at another.
func Between(length quantity.Metres, from, to quantity.Scale) quantity.Figure {
	return lengthBetween.Figure("length at "+to.String(), quantity.Let{"l₁": length, "S₁": ratio(from), "S₂": ratio(to)})
}

// Enlargement returns how a drawing at one scale is to be copied to suit
// another: 150 % from 1/72 to 1/48.
func Enlargement(from, to quantity.Scale) quantity.Figure {
	return copying.Figure("copy drawings at", quantity.Let{"S₁": ratio(from), "S₂": ratio(to)})
}

// AreaFactor returns how much more paint or paper a model takes at another
// scale: areas go with the square.
func AreaFactor(from, to quantity.Scale) quantity.Figure {
	return areas.Figure("areas grow by the factor", quantity.Let{"S₁": ratio(from), "S₂": ratio(to)})
}

// VolumeFactor returns how much more resin a model takes at another scale:
// volumes go with the cube.
func VolumeFactor(from, to quantity.Scale) quantity.Figure {
	return volumes.Figure("volumes grow by the factor", quantity.Let{"S₁": ratio(from), "S₂": ratio(to)})
}

// ratio is a scale's ratio with the digits that a scale has.
func ratio(s quantity.Scale) quantity.Amount { return quantity.Amount{Value: s.Ratio, Digits: 6} }
