package circuit

import (
	"slices"
	"strings"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// supplyPlan is a supply with its defaults: a voltage behind a resistance.
type supplyPlan struct {
	kind     SupplyKind
	rated    quantity.Volts // as declared
	open     Band[quantity.Volts]
	inside   Band[quantity.Ohms] // low and high where cells differ
	limit    quantity.Amps
	cell     string // IEC type, or ""
	series   int
	parallel int
}

// cellType is what is known of a type of cell.
type cellType struct {
	volts  quantity.Volts
	fresh  quantity.Volts // unloaded
	ends   quantity.Volts
	inside Band[quantity.Ohms] // fresh: usual, best, worst
	limit  quantity.Amps       // 0: not named
	drain  *drain              // generic discharge
	source string
}

// Tolerances and the like for supplies that do not say.
const (
	usbTolerance     = 0.05 // USB 2.0, 7.2.2: 4.75 V to 5.25 V at a high-power port
	usbLimit         = 0.5  // A: USB 2.0, 7.2.1: five unit loads of 100 mA
	adapterTolerance = 0.05 // common practice, no source
	benchTolerance   = 0.01 // common practice, no source
	meterTolerance   = 0.01 // of a voltage the builder measured: common practice, no source
	mainsTolerance   = 0.10 // EN 50160: mains voltage ±10 %; an unregulated adapter follows it
	// Unregulated adapters sold as 12 V measure 17 to 20 V unloaded (trade
	// reports): 1.5 times as the usual case, 20/12 as the worst.
	unloadedUsual = 1.5
	unloadedWorst = 20.0 / 12
	freshOver     = 1.06 // fresh cells of unknown type over their nominal voltage, assumed
)

var (
	ruleSupplyVolts = &source.Rule{Name: "supply-volts", Severity: source.Stop, Source: arithmetic,
		Reason: "Without the supply's voltage nothing can be worked out.",
		Keys:   "build circuits[]: supply; supplies <name>: volts"}
	ruleSupplyValue = &source.Rule{Name: "supply-value", Severity: source.Stop, Source: arithmetic,
		Reason: "A value of the supply lies outside what can be.",
		Keys:   "supplies <name>: volts, fresh, measured, inside, capacity, ends, tolerance, limit, discharge"}
)

// readSupply settles the supply of a circuit.
func readSupply(circuit *Input, n *notes) supplyPlan {
	in, named := &circuit.Supply, circuit.Circuit.Supply
	var s supplyPlan
	s.kind = SupplyKind(in.Kind.V)
	if s.kind == "" {
		s.kind = Adapter
		if in.Cells.V.Type != "" {
			s.kind = Battery
		}
	}
	if !slices.Contains(SupplyKinds, string(s.kind)) {
		n.found.Add(ruleSupplyValue.At(in.Kind.At, source.Say("write one of %s", source.Row(SupplyKinds)), "%q is no kind of supply", in.Kind.V))
		return s
	}
	s.cell = strings.ToUpper(strings.TrimSpace(in.Cells.V.Type))
	s.series, s.parallel = max(in.Cells.V.Series, 1), max(in.Cells.V.Parallel, 1)
	cell, known := cellTypes[s.cell]
	s.rated = in.Volts.V
	if !in.Volts.Set {
		switch {
		case s.kind == USB || s.kind == PowerBank:
			s.rated = 5
		case known:
			s.rated = cell.volts * quantity.Volts(s.series)
		case circuit.Unknown:
			return s
		default:
			n.found.Add(ruleSupplyVolts.At(named.At, "add its voltage, like volts: 5 V", "supply %q has no voltage", named.V))
			return s
		}
		n.assumed.add(source.Say("supply of %s", s.rated))
	}
	if !(s.rated > 0) || s.rated > 1000 {
		n.found.Add(ruleSupplyValue.At(in.Volts.At, "write its voltage, like 5 V", "a supply of %v cannot light lamps", s.rated))
		return s
	}
	s.inside, s.limit = steadyBand(in.Inside.V), in.Limit.V
	s.openVolts(in, n)
	if !in.Inside.Set && known {
		times := quantity.Ohms(s.series) / quantity.Ohms(s.parallel)
		s.inside = Band[quantity.Ohms]{cell.inside.Nominal * times, cell.inside.Low * times, cell.inside.High * times}
		n.assumed.add(source.Say("inside resistance of the cells %s, %s to %s",
			quantity.About(s.inside.Nominal), quantity.About(s.inside.Low), quantity.About(s.inside.High)))
	}
	if !in.Limit.Set {
		s.usualLimit(n)
	}
	s.check(in, named, n)
	return s
}

// openVolts settles the unloaded voltage and how far it may stray.
func (s *supplyPlan) openVolts(in *Supply, n *notes) {
	around := func(v quantity.Volts, by quantity.Share) Band[quantity.Volts] {
		return Band[quantity.Volts]{v, v * quantity.Volts(1-by), v * quantity.Volts(1+by)}
	}
	loose := in.Regulated.Set && !in.Regulated.V
	switch {
	case loose:
		s.unregulated(in, n)
	case in.Measured.Set:
		s.open = around(in.Measured.V, quantity.Share(meterTolerance))
		n.assumed.add(source.Say("the measured %s is right within 1 %%", in.Measured.V))
	case s.kind.cells():
		s.open = around(s.rated, in.Tolerance.V)
		fresh := in.Fresh.V
		if !in.Fresh.Set {
			fresh = s.rated * freshOver
			if cell, known := cellTypes[s.cell]; known {
				fresh = cell.fresh * quantity.Volts(s.series)
			}
			n.assumed.add(source.Say("fresh cells give %s unloaded", quantity.About(fresh)))
		}
		s.open.High = max(s.open.High, fresh)
	default:
		by := in.Tolerance.V
		if !in.Tolerance.Set {
			by = map[SupplyKind]quantity.Share{USB: usbTolerance, PowerBank: usbTolerance, Bench: benchTolerance, Adapter: adapterTolerance}[s.kind]
			n.assumed.add(source.Say("supply voltage within %s", by))
		}
		s.open = around(s.rated, by)
		if s.kind == Adapter && !in.Regulated.Set {
			n.assumed.add(source.Word("the adapter is regulated: its unloaded voltage was not measured"))
		}
		s.open.High = max(s.open.High, in.Fresh.V)
	}
}

// unregulated reckons an adapter without regulator as its unloaded voltage
// behind the resistance that leaves its rated voltage at its rated current.
func (s *supplyPlan) unregulated(in *Supply, n *notes) {
	if v := in.Measured.V; in.Measured.Set {
		s.open = Band[quantity.Volts]{v, v * (1 - mainsTolerance), v * (1 + mainsTolerance)}
		n.assumed.add(source.Word("the mains, and with it the unregulated adapter, keep within 10 %"))
	} else {
		s.open = Band[quantity.Volts]{s.rated * unloadedUsual, s.rated, s.rated * unloadedWorst}
		n.assumed.add(source.Say("the unregulated adapter gives %s unloaded, at worst %s: measure it",
			quantity.About(s.open.Nominal), quantity.About(s.open.High)))
	}
	if !in.Inside.Set && s.limit > 0 && s.open.Nominal > s.rated {
		s.inside = steadyBand(quantity.Ohms(float64(s.open.Nominal-s.rated) / float64(s.limit)))
		n.assumed.add(source.Say("the adapter falls to its rated %s at its rated %s: %s inside",
			s.rated, s.limit, quantity.About(s.inside.Nominal)))
	}
}

// steadyBand is a value that does not vary.
func steadyBand[T ~float64](v T) Band[T] { return Band[T]{v, v, v} }

// usualLimit is what such a supply gives where nothing is written.
func (s *supplyPlan) usualLimit(n *notes) {
	cell := cellTypes[s.cell]
	switch {
	case s.kind == USB:
		s.limit = usbLimit
		n.assumed.add(source.Say("the USB port gives %s", s.limit))
	case cell.limit > 0:
		s.limit = cell.limit * quantity.Amps(s.parallel)
		n.assumed.add(source.Say("%s cells bear %s for long", s.cell, s.limit))
	}
}

// check finds values that no supply has.
func (s *supplyPlan) check(in *Supply, named source.Value[string], n *notes) {
	if in.Tolerance.V < 0 || in.Tolerance.V > 0.5 {
		n.found.Add(ruleSupplyValue.At(in.Tolerance.At, "write a tolerance from 0 % to 50 %",
			"a supply tolerance of %v cannot be", in.Tolerance.V))
	}
	if s.open.Low < 0 || !(s.open.Nominal > 0) || s.open.High > 2000 || s.inside.Low < 0 || s.inside.High > 1e6 {
		n.found.Add(ruleSupplyValue.At(named.At, "check its volts, fresh, measured and inside", "supply %q has values that cannot be", named.V))
	}
	if s.series > 100 || s.parallel > 100 {
		n.found.Add(ruleSupplyValue.At(in.Cells.At, "write at most 100 cells each way", "%d × %d cells cannot be", s.series, s.parallel))
	}
}

// pack names the cells of a supply: "3 × LR6", "2 × 3 × LR6".
func (s *supplyPlan) pack() source.Message {
	switch {
	case s.cell == "":
		return source.Word("cells")
	case s.parallel > 1:
		return source.Say("%d × %d × %s", s.parallel, s.series, s.cell)
	case s.series > 1:
		return source.Say("%d × %s", s.series, s.cell)
	}
	return source.Say("%s", s.cell)
}
