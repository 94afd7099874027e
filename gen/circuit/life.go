package circuit

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// Power banks: their cells hold the printed capacity at 3.7 V and about 85 %
// of it reaches the socket (common practice, no source).
const (
	bankEfficiency = 0.85
	bankWorst      = 0.75
	bankBest       = 0.90
	bankSource     = "3.7 V × capacity × 85 % (75 to 90 %): common practice, no source"
)

// battery is a supply that empties, with everything for one whole supply.
type battery struct {
	name     source.Message
	curve    []Depth // of the whole supply
	drain    *drain  // nil: capacity does not depend on the load
	scale    float64 // of the drain's capacities
	capacity quantity.AmpHours
	parallel quantity.Amps
	ends     quantity.Volts
	fresh    quantity.Volts
	spread   float64
	swells   float64
	from     source.Message
}

// lifeSteps is the number of steps that a discharge is cut into; halving them
// changes the hours by less than one part in a thousand.
const lifeSteps = 100

// cellLife steps a circuit on cells through their discharge: at each step the
// circuit is solved with the cells' voltage and inside resistance there.
func cellLife(b *bench) *CellLife {
	p := b.plan
	if p.supply.kind == PowerBank {
		return bankLife(b.state())
	}
	if !p.supply.kind.cells() {
		return nil
	}
	cells, ok := readBattery(&p.in.Supply, &p.supply, &p.notes)
	if !ok {
		return nil
	}
	defer b.restore()
	usual := b.discharge(cells, 1, p.supply.inside.Nominal)
	short := b.discharge(cells, 1/cells.spread, p.supply.inside.High)
	long := b.discharge(cells, cells.spread, p.supply.inside.Low)
	if usual == nil || short == nil || long == nil {
		return nil
	}
	life := &CellLife{Cells: cells.name, Ends: cells.ends, Curve: cells.from, Steps: usual.steps, Draws: usual.draws}
	life.ToEnd = Band[quantity.Hours]{usual.end, min(short.end, usual.end), max(long.end, usual.end)}
	life.ToHalf = Band[quantity.Hours]{usual.half, short.half, long.half}
	if h := &life.ToHalf; h.Nominal > 0 { // a case that ends first keeps the light until then
		h.Low = min(cmp.Or(h.Low, life.ToEnd.Low), h.Nominal)
		h.High = max(cmp.Or(h.High, life.ToEnd.High), h.Nominal)
	}
	return life
}

// bankLife is the life of a power bank: what its cells hold, at 3.7 V, less
// what the converter loses, over what is drawn at its own voltage.
func bankLife(st *state) *CellLife {
	p := st.plan
	held, draws := p.in.Supply.Capacity.V, average(p.branches, st.op.Currents)
	if held <= 0 || draws <= 0 {
		return nil
	}
	hours := func(share float64) quantity.Hours {
		return quantity.Hours(bankHours.Of(bankLet(held, share, p.supply.rated, quantity.Amps(draws))))
	}
	return &CellLife{Cells: source.Word("power bank"), ToEnd: Band[quantity.Hours]{hours(bankEfficiency), hours(bankWorst), hours(bankBest)},
		Draws: quantity.Amps(draws), Curve: source.Word(bankSource)}
}

func bankLet(held quantity.AmpHours, share float64, at quantity.Volts, draws quantity.Amps) quantity.Let {
	return quantity.Let{"Q": held, "k": quantity.Share(share), "U": at, "I": draws}
}

// average is the current that branches draw over their controls' periods, in A.
func average(branches []BranchResult, currents []float64) float64 {
	sum := 0.0
	for i := range branches {
		sum += currents[i] * float64(branches[i].Control.Mean())
	}
	return sum
}

// readBattery collects what is declared and known of the supply's cells.
func readBattery(in *Supply, s *supplyPlan, n *notes) (battery, bool) {
	cell, known := cellTypes[s.cell]
	c := battery{
		name: s.pack(), scale: 1, parallel: quantity.Amps(s.parallel), capacity: in.Capacity.V,
		fresh: s.open.High, spread: 1.2, swells: 1, ends: in.Ends.V,
	}
	switch {
	case known:
		c.drain, c.spread, c.swells = cell.drain, cell.drain.spread, cell.drain.swells
		c.curve, c.from = scaled(cell.drain.volts, quantity.Volts(s.series)), source.Word(cell.source)
		if in.Capacity.Set && in.Capacity.V > 0 {
			c.scale = float64(in.Capacity.V / cell.drain.capacity[0].held / quantity.AmpHours(s.parallel))
		}
		if !in.Ends.Set {
			c.ends = cell.ends * quantity.Volts(s.series)
		}
	case in.Capacity.V > 0:
		c.curve = scaled(alkaline, s.rated/1.5)
		c.from = source.Word("the shape of an alkaline cell's discharge, from memory")
		if !in.Ends.Set {
			c.ends = c.curve[len(c.curve)-1].Volts
		}
	default:
		n.assumed.add(source.Word("no hours are worked out: neither the type of cell nor its capacity is known"))
		return c, false
	}
	if len(in.Discharge) > 0 {
		return c, c.declaredCurve(in, n)
	}
	n.assumed.add(source.Say("generic discharge curve of the cells: %s", c.from))
	return c, true
}

// declaredCurve takes the discharge curve that the supply declares.
func (c *battery) declaredCurve(in *Supply, n *notes) bool {
	c.curve, c.from = nil, source.Word("declared")
	for i, d := range in.Discharge {
		rises := i > 0 && (d.V.Used <= c.curve[i-1].Used || d.V.Volts > c.curve[i-1].Volts)
		if rises || d.V.Used < 0 || d.V.Used > 1 || !(d.V.Volts > 0) {
			n.found.Add(ruleSupplyValue.At(d.At, "write points in order of use, like [9.5 V @ 0 %, 8.1 V @ 40 %, 6 V @ 100 %]",
				"the discharge curve must fall while the share used rises from %v to %v", quantity.Share(0), quantity.Share(1)))
			return false
		}
		c.curve = append(c.curve, d.V)
	}
	if !in.Ends.Set {
		c.ends = c.curve[len(c.curve)-1].Volts
	}
	return true
}

// volts returns the unloaded voltage when a share is used.
func (c *battery) volts(used float64) quantity.Volts {
	first, last := c.curve[0], c.curve[len(c.curve)-1]
	if used <= float64(first.Used) {
		return first.Volts
	}
	for k := 1; k < len(c.curve); k++ {
		a, b := c.curve[k-1], c.curve[k]
		if used <= float64(b.Used) {
			t := (used - float64(a.Used)) / float64(b.Used-a.Used)
			return a.Volts + quantity.Volts(t)*(b.Volts-a.Volts)
		}
	}
	return last.Volts
}

// holds returns the capacity of the whole supply at a current, in Ah.
func (c *battery) holds(i float64) float64 {
	if c.drain == nil {
		return float64(c.capacity)
	}
	return c.scale * float64(c.parallel) * float64(c.drain.capacityAt(quantity.Amps(i)/c.parallel))
}

// run of one discharge.
type discharged struct {
	steps     []CellStep
	end, half quantity.Hours
	draws     quantity.Amps
}

// discharge steps through one case: capacity times a factor, and an inside
// resistance when fresh that grows as the cells empty. Nil where a step has no
// solution or nothing is drawn.
func (b *bench) discharge(c battery, factor float64, inside quantity.Ohms) *discharged {
	var d discharged
	var fresh []float64
	hours, rate := 0.0, 0.0 // h, and h for each share used
	for k := 0; k <= lifeSteps; k++ {
		used := float64(k) / lifeSteps
		b.setInside(inside * quantity.Ohms(1+(c.swells-1)*used))
		open := min(c.volts(used), max(c.fresh, c.curve[0].Volts))
		o, ok := b.run(open)
		if !ok {
			return nil
		}
		draws := average(b.plan.branches, o.Currents)
		if k == 0 {
			fresh, d.draws = o.Currents, quantity.Amps(draws)
		}
		if !(draws > 1e-7) {
			break
		}
		next := factor * c.holds(draws) / draws
		if k > 0 {
			hours += (rate + next) / 2 / lifeSteps
		}
		rate = next
		step := CellStep{
			quantity.Hours(hours), open - quantity.Volts(o.Through[0]*b.inside), quantity.Amps(o.Through[0]), dimmest(o.Currents, fresh),
		}
		d.note(step, c.ends)
		if step.Volts <= c.ends {
			break
		}
	}
	if len(d.steps) == 0 {
		return nil
	}
	if d.end == 0 && d.steps[0].Volts > c.ends {
		d.end = d.steps[len(d.steps)-1].Hours
	}
	return &d
}

// note adds a step and, where it crosses the end voltage or half the light,
// the hour at which it did.
func (d *discharged) note(step CellStep, ends quantity.Volts) {
	if n := len(d.steps); n > 0 {
		before := d.steps[n-1]
		cross := func(was, is, at float64) quantity.Hours {
			return before.Hours + quantity.Hours((was-at)/(was-is))*(step.Hours-before.Hours)
		}
		if step.Volts <= ends {
			d.end = cross(float64(before.Volts), float64(step.Volts), float64(ends))
			step.Hours = d.end
		}
		if d.half == 0 && step.Light < 0.5 {
			if half := cross(float64(before.Light), float64(step.Light), 0.5); d.end == 0 || half < d.end {
				d.half = half
			}
		}
	}
	d.steps = append(d.steps, step)
}

// dimmest is the smallest share of its fresh current that a branch still has:
// a lamp's light goes with its current.
func dimmest(now, fresh []float64) quantity.Share {
	least := 1.0
	for i := range now {
		if fresh[i] > 0 {
			least = min(least, now[i]/fresh[i])
		}
	}
	return quantity.Share(least)
}

// SteadyLife returns how long cells or a power bank give a steady current: the
// capacity at that current over it, with the spread of such cells.
func SteadyLife(supply Supply, i quantity.Amps) (CellLife, error) {
	if !(i > 0) {
		return CellLife{}, fmt.Errorf("a current of %v empties nothing", i)
	}
	band := func(held, low, high float64) Band[quantity.Hours] {
		hours := quantity.Hours(held / float64(i))
		return Band[quantity.Hours]{hours, quantity.Hours(held * low / float64(i)), quantity.Hours(held * high / float64(i))}
	}
	if SupplyKind(supply.Kind.V) == PowerBank {
		at := func(share float64) quantity.Hours {
			return quantity.Hours(bankHours.Of(bankLet(supply.Capacity.V, share, supply.Volts.Or(5), i)))
		}
		hours := Band[quantity.Hours]{at(bankEfficiency), at(bankWorst), at(bankBest)}
		return CellLife{Cells: source.Word("power bank"), Draws: i, ToEnd: hours, Curve: source.Word(bankSource)}, nil
	}
	name := strings.ToUpper(supply.Cells.V.Type)
	c, ok := cellTypes[name]
	if !ok {
		return CellLife{}, fmt.Errorf("no data for a cell of type %q; known are %s",
			supply.Cells.V.Type, strings.Join(CellTypes(), ", "))
	}
	rows, row := max(supply.Cells.V.Parallel, 1), max(supply.Cells.V.Series, 1)
	held := float64(rows) * float64(c.drain.capacityAt(i/quantity.Amps(rows)))
	if supply.Capacity.V > 0 {
		held *= float64(supply.Capacity.V) / float64(c.drain.capacity[0].held)
	}
	named := supplyPlan{cell: name, series: row, parallel: rows}
	return CellLife{Cells: named.pack(), Draws: i, Ends: c.ends * quantity.Volts(row), Limit: c.limit * quantity.Amps(rows),
		ToEnd: band(held, 1/c.drain.spread, c.drain.spread), Curve: source.Word(c.source)}, nil
}

// CellTypes lists the types of cell with generic data, sorted.
func CellTypes() []string { return slices.Sorted(maps.Keys(cellTypes)) }
