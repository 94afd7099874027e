package circuit

import (
	"spruelight/gen/quantity"
)

// totalFigures are the sums over the circuit, for the page's heading.
func (s *Solution) totalFigures() []quantity.Figure {
	t := &s.Total
	var now, mean []quantity.Amps
	var limiters, wires []quantity.Watts
	for i := range s.Branches {
		b := &s.Branches[i]
		now, mean = append(now, b.Current.Nominal), append(mean, b.Average)
		limiters, wires = append(limiters, b.Resistor.Heat.Nominal), append(wires, b.Lead.Heat)
	}
	for _, j := range s.Junctions {
		wires = append(wires, j.Feed.Heat)
	}
	total := currents.Figure("total current, every lamp on", quantity.Let{"I_b": quantity.Each(now)})
	total.Low, total.High = ends(t.Current)
	all := []quantity.Figure{total}
	if t.Average < t.Current.Nominal*(1-1e-9) {
		all = append(all, meanCurrent.Figure("average current", quantity.Let{"I_b": quantity.Each(mean)}))
	}
	all = append(all,
		supplied.Figure("power from the supply", quantity.Let{"U": s.Supply.Open.Nominal, "I": t.Current.Nominal}),
		heats.Figure("heat in resistors and drivers", quantity.Let{"P_i": quantity.Each(limiters)}),
		heats.Figure("heat in wires", quantity.Let{"P_i": quantity.Each(wires)}),
		efficiency.Figure("share that reaches the lamps", quantity.Let{"P_L": t.Lamps, "P": t.Power}))
	if s.Supply.Limit > 0 {
		all = append(all, used.Figure("share of the supply's limit in use", quantity.Let{"I": t.Current.Nominal, "I_max": s.Supply.Limit}))
	}
	return all
}

// ends are those of a band for a figure, both zero where it has none.
func ends[T ~float64](b Band[T]) (low, high float64) {
	if b.Low == b.High {
		return 0, 0
	}
	return float64(b.Low), float64(b.High)
}

// Figures are the numbers of a branch for its row on the page, working beside
// each: wanted and actual current, resistor, headroom.
func (b *BranchResult) Figures(s *Solution) []quantity.Figure {
	var all []quantity.Figure
	if b.Wanted > 0 {
		wanted := quantity.FigureOf("wanted current", b.Wanted)
		wanted.Symbol, wanted.Source = "I_w", "declared"
		if wanted.Assumed = b.Assumed; b.Assumed {
			wanted.Source = "2 to 5 mA suit most lamps inside a model: " + practice
		}
		all = append(all, wanted)
	}
	all = append(all, b.solved(s))
	if r := &b.Resistor; b.Kind.resistor() {
		fit := quantity.FigureOf("resistor", r.Ohms)
		if b.Kind == Auto && r.Exact > 0 {
			fit.Working = b.Exactly().Then(r.Ohms, s.series.Name).Working
		}
		fit.Symbol, fit.Source = "R", "IEC 60063"
		over := overResistor.Figure("volts over the limiter", quantity.Let{"I": b.Current.Nominal, "R": r.Ohms})
		over.Low, over.High = ends(r.Volts)
		all = append(all, fit, over)
	}
	if r := &b.Resistor; b.Kind != None {
		heat := limiterHeat.Figure("heat in it", quantity.Let{"U_R": r.Volts.Nominal, "I": b.Current.Nominal})
		heat.Low, heat.High = ends(r.Heat)
		all = append(all, heat, headroom.Figure("headroom", quantity.Let{"U_R": r.Volts.Nominal, "U": s.Supply.Terminal.Nominal}))
	}
	return all
}

// Exactly is the resistor that would give just the wanted current, of a branch
// whose resistor is chosen.
func (b *BranchResult) Exactly() quantity.Figure {
	return exactResistor.Figure("exact resistor", b.exactLet(b.Resistor.At))
}

// solved is the current of a branch. It has no closed form: where a resistor
// sets it, the balance at the solution shows that it is right.
func (b *BranchResult) solved(s *Solution) quantity.Figure {
	i := quantity.FigureOf("current", b.Current.Nominal)
	i.Symbol, i.Source = "I", "modified nodal analysis; corners over resistor tolerance, lamp spread and supply"
	i.Low, i.High = ends(b.Current)
	if !b.Kind.resistor() {
		return i
	}
	var drops []quantity.Volts
	for k := range b.Lamps {
		if drops = append(drops, b.Lamps[k].Volts.Nominal); b.Parallel {
			break
		}
	}
	j := &s.Junctions[b.Junction]
	return balance.Balance(i, quantity.Let{"U": j.Plus.Nominal - j.Minus.Nominal, "I": b.Current.Nominal, "R": b.Resistor.Ohms,
		"R_l": b.Lead.Ohms, "V": quantity.Each(drops)})
}
