package gen

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"spruelight/gen/circuit"
	"spruelight/gen/journal"
	"spruelight/gen/page"
	"spruelight/gen/paint"
	"spruelight/gen/quantity"
	"spruelight/gen/source"
	"spruelight/gen/topic/lighting"
)

// lightWork is what the light topic works out of one build.
type lightWork struct {
	circuits []litCircuit
	areas    []circuit.AreaHeat
	loom     *page.Drawing    // of all circuits; nil where none could be worked out
	rings    []lighting.Rings // of every value of resistor
}

// litCircuit is one circuit of a build, worked out and drawn.
type litCircuit struct {
	solution circuit.Solution
	found    source.Findings
	diagram  *page.Drawing // nil where there is no operating point
}

// reckonLight works out every circuit of a build. References run on from one
// circuit to the next. Readings name test points, so the circuits are worked
// out before it is known to which one a reading belongs, and those that have
// readings once more with them.
func reckonLight(w *work) {
	w.checkLampNames()
	var inputs []circuit.Input
	var handed []source.Findings
	var next circuit.Refs
	for i := range w.build.Front.Circuits {
		c := &w.build.Front.Circuits[i]
		in, found := handCircuit(c, w.build, &w.run.shop.Rack, &w.run.shop.Settings, next)
		if found.Stops() {
			w.found.Add(found...)
			next.Lamp = max(next.Lamp, 1) + c.Lamps()
			continue
		}
		s, more := circuit.Solve(in)
		if next = s.Next; !s.Solved {
			next.Lamp = max(in.First.Lamp, 1) + c.Lamps()
		}
		inputs, handed = append(inputs, in), append(handed, found)
		w.light.circuits = append(w.light.circuits, litCircuit{solution: s, found: more})
	}
	w.readMeter(inputs)
	for i := range w.light.circuits {
		c := &w.light.circuits[i]
		c.found = append(handed[i], c.found...)
		w.found.Add(c.found...)
	}
	w.heatAreas()
}

// readMeter gives every reading to the circuit that knows its place, or else
// to the first, which says that it does not.
func (w *work) readMeter(inputs []circuit.Input) {
	if len(inputs) == 0 {
		return
	}
	for _, s := range w.build.Sittings {
		for _, r := range s.Front.Read {
			at := max(slices.IndexFunc(w.light.circuits, func(c litCircuit) bool { return c.solution.Knows(r.Where.V) }), 0)
			inputs[at].Readings = append(inputs[at].Readings, circuit.Reading{
				At: r.At, Where: r.Where, Current: r.Current, Volts: r.Volts, Taken: s.Date.Format(time.DateOnly),
			})
		}
	}
	for i := range inputs {
		if len(inputs[i].Readings) > 0 {
			c := &w.light.circuits[i]
			c.solution, c.found = circuit.Solve(inputs[i])
		}
	}
}

// handing makes circuits ready to be worked out: it looks up what they name on
// the rack and among the areas, and collects what is not there.
type handing struct {
	rack  *journal.Rack
	areas source.Entries[paint.Area]
	found source.Findings
}

// handCircuit hands a circuit of a build over with everything the rack knows of
// its parts. The declaration itself stays as it was read.
func handCircuit(c *circuit.Circuit, b *journal.Build, rack *journal.Rack, settings *journal.Settings, first circuit.Refs) (
	circuit.Input, source.Findings,
) {
	h := &handing{rack: rack, areas: b.Front.Areas}
	in := circuit.Input{Circuit: *c, First: first, Tolerance: settings.Tight}
	in.Series, _ = quantity.SeriesByName(settings.Series.V)
	if x := settings.Camera; x.Set {
		in.Camera = source.Written(quantity.Hours(float64(x.V)/3600), x.At)
	}
	if scale := b.Front.Scale; scale.Set {
		in.Scale = scale.V.Ratio
	}
	known := false
	in.Supply, known = rack.Supplies.Get(c.Supply.V)
	in.Unknown = !known // the journal has said so
	h.run(&in.Feed)
	in.Junctions = slices.Clone(c.Junctions)
	for i := range in.Junctions {
		h.run(&in.Junctions[i].Run)
	}
	number := max(first.Lamp, 1)
	in.Branches = slices.Clone(c.Branches)
	for i := range in.Branches {
		h.branch(&in.Branches[i], &number)
	}
	return in, h.found
}

// branch looks up the wire and the lamps of a branch; number is that of its
// first lamp.
func (h *handing) branch(b *circuit.Branch, number *int) {
	h.run(&b.Lead)
	if b.Driver.Current.Set && b.Resistor.Set {
		h.found.Add(circuit.RuleTwoLimiters.At(b.Resistor.At, "keep one of them",
			"branch %q has both a resistor and a driver", b.Name.V).With(b.Driver.At, "the driver"))
	}
	b.Lamps = slices.Clone(b.Lamps)
	for k := range b.Lamps {
		l := &b.Lamps[k]
		l.Type, _ = h.rack.Lamps.Get(l.Lamp.V)
		l.Area = areaAround(h.areas, circuit.LampRef(*number))
		*number++
	}
}

// run looks a wire up: one on the rack, or a size.
func (h *handing) run(r *circuit.Run) {
	if !r.Wire.Set {
		return
	}
	if wire, ok := h.rack.Wire.Get(r.Wire.V); ok {
		r.Size = source.Written(quantity.WireSize{Copper: wire.Copper.V}, r.Wire.At)
		if !r.Colour.Set {
			r.Colour = wire.Colour
		}
		return
	}
	var size quantity.WireSize
	if err := size.UnmarshalText([]byte(r.Wire.V)); err != nil {
		near := ""
		if name, ok := journal.Nearest(r.Wire.V, h.rack.Wire.Names()); ok {
			near = fmt.Sprintf("; did you mean %q?", name)
		}
		h.found.Add(circuit.RuleWireName.At(r.Wire.At, "write a gauge like 34 AWG, the copper's diameter like 0.2 mm, or a wire of rack/wire.yaml",
			"%q is neither a wire on the rack nor a size%s", r.Wire.V, near))
		return
	}
	r.Size = source.Written(size, r.Wire.At)
}

// areaAround names the area that encloses a lamp.
func areaAround(areas source.Entries[paint.Area], ref string) string {
	for _, a := range areas {
		for _, l := range a.Value.Encloses {
			if strings.EqualFold(l.V, ref) {
				return a.Name.V
			}
		}
	}
	return ""
}

// checkLampNames holds the references that are written (in areas, bundles and
// sittings) against the lamps that there are.
func (w *work) checkLampNames() {
	last := 0
	for i := range w.build.Front.Circuits {
		last += w.build.Front.Circuits[i].Lamps()
	}
	check := func(ref journal.Text, from, to int) {
		n, err := strconv.Atoi(strings.TrimPrefix(strings.ToUpper(ref.V), "D"))
		if !ref.Set || err == nil && n >= from && n <= to && strings.HasPrefix(strings.ToUpper(ref.V), "D") {
			return
		}
		remedy := "the build has no lamps; give it circuits"
		if strings.ContainsAny(ref.V, ",;") {
			remedy = "write several as a list: [" + strings.Join(strings.FieldsFunc(ref.V, func(r rune) bool { return strings.ContainsRune(",; ", r) }), ", ") + "]"
			w.found.Add(circuit.RuleLampName.At(ref.At, remedy, "%q is not one lamp", ref.V))
			return
		}
		if to >= from {
			remedy = fmt.Sprintf("write one of %s to %s", circuit.LampRef(from), circuit.LampRef(to))
			if from == to {
				remedy = "write " + circuit.LampRef(from)
			}
		}
		w.found.Add(circuit.RuleLampName.At(ref.At, remedy, "there is no lamp %q", ref.V))
	}
	first := 1
	for i := range w.build.Front.Circuits {
		c := &w.build.Front.Circuits[i]
		for _, f := range c.Fibres {
			check(f.From, first, first+c.Lamps()-1)
		}
		first += c.Lamps()
	}
	for _, a := range w.build.Front.Areas {
		for _, ref := range a.Value.Encloses {
			check(ref, 1, last)
		}
	}
	for _, s := range w.build.Sittings {
		for _, ref := range s.Front.Lit {
			check(ref, 1, last)
		}
	}
}

// heatAreas adds up over all circuits the heat set free in each area.
func (w *work) heatAreas() {
	var solutions []*circuit.Solution
	for i := range w.light.circuits {
		if s := &w.light.circuits[i].solution; s.Solved {
			solutions = append(solutions, s)
		}
	}
	var areas []circuit.Area
	for _, a := range w.build.Front.Areas {
		if len(a.Value.Encloses) > 0 {
			areas = append(areas, circuit.Area{Name: a.Name, Volume: a.Value.Volume})
		}
	}
	heat, found := circuit.HeatAreas(areas, solutions)
	w.light.areas = heat
	w.found.Add(found...)
}
