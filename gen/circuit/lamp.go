package circuit

import (
	"spruelight/gen/circuit/nodal"
	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

var (
	ruleLampCurve = &source.Rule{Name: "lamp-curve", Severity: source.Stop, Source: "W. Shockley, Bell Syst. Tech. J. 28 (1949) 435-489",
		Reason: "A lamp's current follows from its forward voltage; the points given must make a rising curve.",
		Keys:   "lamps <name>: forward"}
	ruleLampUnknown = &source.Rule{Name: "lamp-unknown", Severity: source.Stop, Source: arithmetic,
		Reason: "A lamp with neither forward voltage nor a known colour cannot be reckoned with.",
		Keys:   "build circuits[].branches[].lamps[]: lamp; lamps <name>: colour, forward"}
)

// readLamp fits a lamp's curve, filling in from the typical lamp of its colour
// what is not written.
func (p *plan) readLamp(in *Fitted, ref, branch string) LampResult {
	model, sheet := in.Lamp.V, &in.Type
	if model == "" {
		model = sheet.Colour.V + " lamp"
	}
	base, err := Typical(sheet.Colour.V)
	forward := sheet.known()
	if len(forward) == 0 {
		if err != nil {
			p.found.Add(ruleLampUnknown.At(in.Lamp.At,
				source.Say("write the lamp's forward voltage from its data sheet, like forward: 2.0 V @ 20 mA; "+
					"colours with a typical lamp are %s", source.Row(TypicalColours)), "lamp %q of %s: %v", model, branch, err))
			return LampResult{Declared: in}
		}
		forward = base.Forward
		p.assumed.add(source.Say("typical curve of a %s lamp", source.Word(ColourFamily(sheet.Colour.V))), model)
	}
	points := make([]quantity.Point, len(forward))
	for i, f := range forward {
		points[i] = f.V
	}
	curve, err := nodal.FitCurve(points)
	if err != nil {
		p.found.Add(ruleLampCurve.At(forward[len(forward)-1].At,
			"write points from the data sheet with rising current and voltage, like [2.75 V @ 2 mA, 3.2 V @ 20 mA]", "lamp %q: %v", model, err))
		return LampResult{Declared: in}
	}
	if curve.Assumed != "" {
		p.assumed.add(source.Word(curve.Assumed), model)
	}
	l := LampResult{
		Declared: in, Ref: ref, Model: in.Lamp.V, Place: in.Place.V, Area: in.Area, Colour: sheet.Colour.V, Curve: curve,
		Spread: max(sheet.Spread.V, -sheet.Spread.V), Rated: sheet.Rated.V, Limit: sheet.Limit.V, Reverse: sheet.Reverse.V,
		FullSize: FullSize(sheet.Diameter(), p.in.Scale),
	}
	p.fillLamp(&l, base, model)
	return l
}

// otherSpread is taken where neither the lamp nor its colour says more.
const otherSpread quantity.Volts = 0.2

func (p *plan) fillLamp(l *LampResult, base Lamp, model string) {
	if !l.Declared.Type.Spread.Set {
		l.Spread = otherSpread
		if base.Spread.V > 0 {
			l.Spread = base.Spread.V
		}
		p.assumed.add(source.Say("forward voltages up to %s apart from the curve", quantity.About(l.Spread)), model)
	}
	if l.Rated <= 0 {
		l.Rated = base.Rated.V
	}
	if l.Rated <= 0 || l.Limit > 0 && l.Rated > l.Limit {
		l.Rated = l.Limit
	}
	if l.Limit <= 0 && base.Limit.V > 0 {
		l.Limit = max(base.Limit.V, l.Rated)
		p.assumed.add(source.Say("absolute limit %s", l.Limit), model)
	}
	if l.Reverse <= 0 {
		l.Reverse = base.Reverse.V
	}
}
