package circuit

import (
	"fmt"

	"spruelight/gen/quantity"
)

// figure makes a Figure of a value and its band.
func figure[T ~float64](symbol, name string, b Band[T]) quantity.Figure {
	f := quantity.FigureOf(name, b.Nominal)
	if f.Symbol = symbol; b.Low != b.High {
		f.Low, f.High = float64(b.Low), float64(b.High)
	}
	return f
}

// plain makes a Figure of a value without a band.
func plain[T ~float64](symbol, name string, value T, working, source string) quantity.Figure {
	f := quantity.FigureOf(name, value)
	f.Symbol, f.Working, f.Source = symbol, working, source
	return f
}

// totalFigures are the sums over the circuit, for the page's heading.
func (s *Solution) totalFigures() []quantity.Figure {
	t := &s.Total
	all := []quantity.Figure{figure("I", "total current, every lamp on", t.Current)}
	all[0].Working = fmt.Sprintf("sum over %d branches", len(s.Branches))
	all[0].Source = "Kirchhoff's current law, modified nodal analysis"
	if t.Average < t.Current.Nominal*(1-1e-9) {
		all = append(all, plain("Ī", "average current", t.Average,
			"each branch's current times its mean over the control's period", arithmetic))
	}
	watts := func(symbol, name string, w quantity.Watts, working string) {
		all = append(all, plain(symbol, name, w, working, arithmetic))
	}
	watts("P", "power from the supply", t.Power, fmt.Sprintf("%s × %s", quantity.About(s.Supply.Open.Nominal), quantity.About(t.Current.Nominal)))
	watts("P_R", "heat in resistors and drivers", t.Limiters, "sum of volts × current over each")
	watts("P_W", "heat in wires", t.Wires, "sum of current² × resistance")
	all = append(all, plain("η", "share that reaches the lamps", t.Efficiency,
		fmt.Sprintf("%s / %s", quantity.About(t.Lamps), quantity.About(t.Power)), arithmetic))
	if s.Supply.Limit > 0 {
		all = append(all, plain("I/I_max", "share of the supply's limit in use", s.Supply.Used,
			fmt.Sprintf("%s / %s", quantity.About(t.Current.Nominal), quantity.About(s.Supply.Limit)), arithmetic))
	}
	return all
}

// Figures are the numbers of a branch for its row on the page, working beside
// each: wanted and actual current, resistor, headroom.
func (b *BranchResult) Figures() []quantity.Figure {
	var all []quantity.Figure
	if b.Wanted > 0 {
		all = append(all, plain("I_w", "wanted current", b.Wanted, "", "declared"))
		if all[0].Assumed = b.Assumed; b.Assumed {
			all[0].Source = "2 to 5 mA suit most lamps inside a model: " + practice
		}
	}
	i := figure("I", "current", b.Current)
	i.Working = "operating point of the whole circuit"
	i.Source = "modified nodal analysis; corners over resistor tolerance, lamp spread and supply"
	all = append(all, i)
	if b.Kind.resistor() {
		working := ""
		if b.Kind == Auto {
			working = fmt.Sprintf("exactly %s, next value up", quantity.About(b.Resistor.Exact))
		}
		all = append(all, plain("R", "resistor", b.Resistor.Ohms, working, "IEC 60063"))
	}
	if b.Kind != None {
		v := figure("U_R", "volts over the limiter", b.Resistor.Volts)
		v.Working, v.Source = fmt.Sprintf("%s × %s", quantity.About(b.Current.Nominal), b.Resistor.Ohms), "Ohm's law"
		p := figure("P_R", "heat in it", b.Resistor.Heat)
		p.Working, p.Source = fmt.Sprintf("%s × %s", quantity.About(b.Resistor.Volts.Nominal), quantity.About(b.Current.Nominal)), arithmetic
		all = append(all, v, p, plain("U_R/U", "headroom", b.Headroom,
			"volts over the limiter / supply under load", practice+" (20 to 25 % wanted)"))
	}
	return all
}
