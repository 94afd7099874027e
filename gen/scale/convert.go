package scale

import (
	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// Every conversion is a Figure that carries its working. Lengths in and out
// are metres.

const byProportion = "proportion: model length = real length / ratio"

// ToModel returns how long a real length is on the model.
func ToModel(real quantity.Metres, s quantity.Scale) quantity.Figure {
	f := lengthFigure("model length", s.Model(real))
	f.Working = source.Say("%s / %s", real, ratioOf(s))
	return f
}

// ToReal returns how long a length of the model is in truth.
func ToReal(model quantity.Metres, s quantity.Scale) quantity.Figure {
	f := lengthFigure("real length", s.Real(model))
	f.Working = source.Say("%s × %s", model, ratioOf(s))
	return f
}

// Between returns how long a length of a model at one scale is at another.
func Between(length quantity.Metres, from, to quantity.Scale) quantity.Figure {
	f := lengthFigure("length at "+to.String(), quantity.Metres(float64(length)*from.Ratio/to.Ratio))
	f.Working = source.Say("%s × %s / %s", length, ratioOf(from), ratioOf(to))
	return f
}

// Enlargement returns how a drawing at one scale is to be copied to suit
// another: 150 % from 1/72 to 1/48.
func Enlargement(from, to quantity.Scale) quantity.Figure {
	return quantity.Figure{Symbol: "m", Name: "copy drawings at", Value: 100 * from.Ratio / to.Ratio, Unit: "%", Digits: 4,
		Working: source.Say("100 %% × %s / %s", ratioOf(from), ratioOf(to)), Source: byProportion}
}

// AreaFactor returns how much more paint or paper a model takes at another
// scale: areas go with the square.
func AreaFactor(from, to quantity.Scale) quantity.Figure {
	k := from.Ratio / to.Ratio
	return quantity.Figure{Name: "areas grow by the factor", Value: k * k, Digits: 3,
		Working: source.Say("(%s / %s)²", ratioOf(from), ratioOf(to)), Source: "areas go with the square of lengths"}
}

// VolumeFactor returns how much more resin a model takes at another scale:
// volumes go with the cube.
func VolumeFactor(from, to quantity.Scale) quantity.Figure {
	k := from.Ratio / to.Ratio
	return quantity.Figure{Name: "volumes grow by the factor", Value: k * k * k, Digits: 3,
		Working: source.Say("(%s / %s)³", ratioOf(from), ratioOf(to)), Source: "volumes go with the cube of lengths"}
}

func ratioOf(s quantity.Scale) quantity.Amount { return quantity.Amount{Value: s.Ratio, Digits: 6} }

// lengthFigure shows a length in millimetres, from ten metres on in metres.
func lengthFigure(name string, m quantity.Metres) quantity.Figure {
	f := quantity.Figure{Symbol: "l", Name: name, Value: m.Millimetres(), Unit: "mm", Digits: 4, Source: byProportion}
	if m >= 10 {
		f.Value, f.Unit = float64(m), "m"
	}
	return f
}
