package circuit

import (
	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// figure makes a Figure of a value and its band, both in the unit given by
// scale.
func figure[T ~float64](symbol, name string, b Band[T], scale float64, unit string) quantity.Figure {
	f := quantity.Figure{Symbol: symbol, Name: name, Value: float64(b.Nominal) * scale, Unit: unit, Digits: 3}
	if b.Low != b.High {
		f.Low, f.High = float64(b.Low)*scale, float64(b.High)*scale
	}
	return f
}

// plain makes a Figure of a value without a band.
func plain(symbol, name string, value float64, unit string, digits int, working source.Message, from string) quantity.Figure {
	return quantity.Figure{Symbol: symbol, Name: name, Value: value, Unit: unit, Digits: digits, Working: working, Source: from}
}

// totalFigures are the sums over the circuit, for the page's heading.
func (s *Solution) totalFigures() []quantity.Figure {
	t := &s.Total
	all := []quantity.Figure{figure("I", "total current, every lamp on", t.Current, 1e3, "mA")}
	all[0].Working = source.Say("sum over %d branches", len(s.Branches))
	all[0].Source = "Kirchhoff's current law, modified nodal analysis"
	if t.Average < t.Current.Nominal*(1-1e-9) {
		all = append(all, plain("Ī", "average current", float64(t.Average)*1e3, "mA", 3,
			source.Word("each branch's current times its mean over the control's period"), arithmetic))
	}
	watts := func(symbol, name string, w quantity.Watts, working source.Message) {
		v, unit := quantity.Prefixed(float64(w), "W")
		all = append(all, plain(symbol, name, v, unit, 3, working, arithmetic))
	}
	watts("P", "power from the supply", t.Power, source.Say("%s × %s", inVolts(s.Supply.Open.Nominal), inAmps(t.Current.Nominal)))
	watts("P_R", "heat in resistors and drivers", t.Limiters, source.Word("sum of volts × current over each"))
	watts("P_W", "heat in wires", t.Wires, source.Word("sum of current² × resistance"))
	all = append(all, plain("η", "share that reaches the lamps", float64(t.Efficiency)*100, "%", 2,
		source.Say("%s / %s", inWatts(t.Lamps), inWatts(t.Power)), arithmetic))
	if s.Supply.Limit > 0 {
		all = append(all, plain("I/I_max", "share of the supply's limit in use", float64(s.Supply.Used)*100, "%", 2,
			source.Say("%s / %s", inAmps(t.Current.Nominal), inAmps(s.Supply.Limit)), arithmetic))
	}
	return all
}

// Figures are the numbers of a branch for its row on the page, working beside
// each: wanted and actual current, resistor, headroom.
func (b *BranchResult) Figures() []quantity.Figure {
	var all []quantity.Figure
	if b.Wanted > 0 {
		all = append(all, plain("I_w", "wanted current", float64(b.Wanted)*1e3, "mA", 3, source.Message{}, "declared"))
		if all[0].Assumed = b.Assumed; b.Assumed {
			all[0].Source = "2 to 5 mA suit most lamps inside a model: " + practice
		}
	}
	i := figure("I", "current", b.Current, 1e3, "mA")
	i.Working = source.Word("operating point of the whole circuit")
	i.Source = "modified nodal analysis; corners over resistor tolerance, lamp spread and supply"
	all = append(all, i)
	if b.Kind.resistor() {
		var working source.Message
		if b.Kind == Auto {
			working = source.Say("exactly %s ohm, next value up", quantity.Amount{Value: float64(b.Resistor.Exact), Digits: 4})
		}
		all = append(all, plain("R", "resistor", float64(b.Resistor.Ohms), "ohm", 3, working, "IEC 60063"))
	}
	if b.Kind != None {
		v := figure("U_R", "volts over the limiter", b.Resistor.Volts, 1, "V")
		v.Working, v.Source = source.Say("%s × %s", inAmps(b.Current.Nominal), b.Resistor.Ohms), "Ohm's law"
		p := figure("P_R", "heat in it", b.Resistor.Heat, 1e3, "mW")
		p.Working, p.Source = source.Say("%s × %s", inVolts(b.Resistor.Volts.Nominal), inAmps(b.Current.Nominal)), arithmetic
		all = append(all, v, p, plain("U_R/U", "headroom", float64(b.Headroom)*100, "%", 2,
			source.Word("volts over the limiter / supply under load"), practice+" (20 to 25 % wanted)"))
	}
	return all
}
