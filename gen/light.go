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

// Rules of handing circuits over.
var (
	ruleWireName = &source.Rule{Name: "wire-name", Severity: source.Stop, Source: "IEC 60028, ASTM B258",
		Reason: "Without the copper's size a wire has no resistance.",
		Keys:   "build circuits[].feed: wire; build circuits[].junctions[]: wire; build circuits[].branches[].lead: wire"}
	ruleLampName = &source.Rule{Name: "lamp-reference", Severity: source.Stop, Source: "IEC 81346-2 letter codes, common practice",
		Reason: "Lamps are known by one reference through the whole build: D1, D2 … in the order in which they are written.",
		Keys:   "build areas.<name>: encloses; build circuits[].fibres[]: from; sitting: lit"}
	ruleTwoLimits = &source.Rule{Name: "two-limiters", Severity: source.Stop, Source: "common practice, no source",
		Reason: "A branch has either a resistor or a driver.",
		Keys:   "build circuits[].branches[]: resistor, driver"}
	lightRules = []*source.Rule{ruleWireName, ruleLampName, ruleTwoLimits}
)

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
		in, found := w.handCircuit(c, next)
		if found.Stops() {
			w.found.Add(found...)
			next.Lamp = max(next.Lamp, 1) + lampsOf(c)
			continue
		}
		s, more := circuit.Solve(in)
		if next = s.Next; !s.Solved {
			next.Lamp = max(in.First.Lamp, 1) + lampsOf(c)
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
			inputs[at].Readings = append(inputs[at].Readings, circuit.Reading{At: r.At, Where: r.Where, Current: r.Current, Volts: r.Volts, Taken: s.Date.Format(time.DateOnly)})
		}
	}
	for i := range inputs {
		if len(inputs[i].Readings) > 0 {
			c := &w.light.circuits[i]
			c.solution, c.found = circuit.Solve(inputs[i])
		}
	}
}

// lampsOf counts the lamps of a circuit as written.
func lampsOf(c *journal.Circuit) int {
	n := 0
	for _, b := range c.Branches {
		n += len(b.Lamps)
	}
	return n
}

// handCircuit hands a circuit over with everything the rack knows of its parts.
func (w *work) handCircuit(c *journal.Circuit, first circuit.Refs) (circuit.Input, source.Findings) {
	shop := w.run.shop
	h := &handing{shop: shop}
	in := circuit.Input{Name: c.Name, Switch: circuit.Switch{Text: c.Switch}, Entry: c.Entry, Junction: c.First, First: first,
		Fuse: circuit.Fuse{Rated: c.Fuse.Rated, Resistance: c.Fuse.Resistance, Text: c.Fuse.Text}, Tolerance: shop.Settings.Tight}
	if !in.Name.At.Known() {
		in.Name.At = c.At
	}
	in.Series, _ = quantity.SeriesByName(shop.Settings.Series.V)
	if x := shop.Settings.Camera; x.Set {
		in.Camera = source.Written(quantity.Hours(float64(x.V)/3600), x.At)
	}
	if w.build.Front.Scale.Set {
		in.Scale = w.build.Front.Scale.V.Ratio
	}
	in.Supply = h.supply(c.Supply)
	in.Feed = h.run(&c.Feed)
	for i := range c.Junctions {
		j := &c.Junctions[i]
		in.Junctions = append(in.Junctions, circuit.Junction{Name: j.Name, From: j.From, Run: h.run(&j.Run)})
	}
	number := max(first.Lamp, 1)
	for i := range c.Branches {
		b := h.branch(&c.Branches[i])
		for k := range b.Lamps {
			ref := circuit.LampRef(number)
			number++
			b.Lamps[k].Area = w.areaAround(ref)
			h.fibres(c, ref, &b.Lamps[k])
		}
		in.Branches = append(in.Branches, b)
	}
	return in, h.found
}

// handing collects the findings of a hand-over.
type handing struct {
	shop  *journal.Workshop
	found source.Findings
}

func (h *handing) supply(name journal.Text) circuit.Supply {
	s, ok := h.shop.Rack.Supplies.Get(name.V)
	if !ok {
		return circuit.Supply{At: name.At, Name: name, Unknown: true} // the journal has said so
	}
	out := circuit.Supply{At: name.At, Name: name, Kind: s.Kind, Volts: s.Volts, Tolerance: s.Tolerance, Fresh: s.Fresh, Inside: s.Inside, Limit: s.Limit,
		Regulated: s.Regulated, Measured: s.Measured, Capacity: s.Capacity, Ends: s.Ends, AutoOff: s.AutoOff}
	if s.Cells.Set {
		out.Cells = source.Written(s.Cells.V.Type, s.Cells.At)
		out.InSeries = source.Written(s.Cells.V.Series, s.Cells.At)
		out.InParallel = source.Written(s.Cells.V.Parallel, s.Cells.At)
	}
	for _, d := range s.Discharge {
		out.Curve = append(out.Curve, source.Written(circuit.Depth{Volts: d.V.Volts, Used: d.V.Used}, d.At))
	}
	return out
}

// run hands a wire over: one on the rack, or a size.
func (h *handing) run(r *journal.Run) circuit.Run {
	c := r.Connector
	out := circuit.Run{At: r.At, Name: r.Wire, Length: r.Length, Colour: r.Colour,
		Connector: circuit.Connector{Kind: c.Kind, Place: c.Place, After: c.After, Resistance: c.Resistance}}
	if !r.Wire.Set {
		return out
	}
	if wire, ok := h.shop.Rack.Wire.Get(r.Wire.V); ok {
		out.Size = source.Written(quantity.WireSize{Copper: wire.Copper.V}, r.Wire.At)
		if !out.Colour.Set {
			out.Colour = wire.Colour
		}
		return out
	}
	var size quantity.WireSize
	if err := size.UnmarshalText([]byte(r.Wire.V)); err != nil {
		near := ""
		if name, ok := journal.Nearest(r.Wire.V, h.shop.Rack.Wire.Names()); ok {
			near = fmt.Sprintf("; did you mean %q?", name)
		}
		h.found.Add(ruleWireName.At(r.Wire.At, "write a gauge like 34 AWG, the copper's diameter like 0.2 mm, or a wire of rack/wire.yaml", "%q is neither a wire on the rack nor a size%s", r.Wire.V, near))
		return out
	}
	out.Size = source.Written(size, r.Wire.At)
	return out
}

func (h *handing) branch(b *journal.Branch) circuit.Branch {
	out := circuit.Branch{At: b.At, Name: b.Name, Junction: b.Junction, Parallel: b.Parallel, Current: b.Current, Lead: h.run(&b.Lead), Matched: b.Matched}
	if b.Name.At.Known() {
		out.At = b.Name.At
	}
	r := b.Resistor
	out.Resistor.At = r.At
	switch {
	case b.Driver.Current.Set:
		if r.Set {
			h.found.Add(ruleTwoLimits.At(r.At, "keep one of them", "branch %q has both a resistor and a driver", b.Name.V).With(b.Driver.At, "the driver"))
		}
		out.Resistor = source.Written(circuit.Resistor{Kind: circuit.Driver, Current: b.Driver.Current.V, Dropout: b.Driver.Dropout.V, Tolerance: b.Driver.Tolerance.V}, b.Driver.At)
	case r.V.None:
		out.Resistor = source.Written(circuit.Resistor{Kind: circuit.None}, r.At)
	case r.Set && !r.V.Auto:
		out.Resistor = source.Written(circuit.Resistor{Kind: circuit.Fixed, Ohms: r.V.Ohms, Rated: r.V.Rated, Tolerance: r.V.Tolerance}, r.At)
	}
	if c := b.Control; c.Set {
		out.Control = source.Written(circuit.Control{Kind: circuit.ControlKind(c.V.Kind), Frequency: c.V.Frequency, Period: c.V.Period, Duty: c.V.Duty}, c.At)
	}
	for i := range b.Lamps {
		out.Lamps = append(out.Lamps, h.lamp(&b.Lamps[i]))
	}
	return out
}

func (h *handing) lamp(f *journal.Fitted) circuit.Lamp {
	out := circuit.Lamp{At: f.Lamp.At, Model: f.Lamp, Place: f.Place, Shows: f.Shows}
	l, ok := h.shop.Rack.Lamps.Get(f.Lamp.V)
	if !ok {
		return out
	}
	out.Colour, out.Size, out.Forward, out.Spread, out.Rated, out.Limit, out.Reverse, out.Bright, out.Source =
		l.Colour, lampSize(l.Size), given(l.Forward), l.Spread, l.Rated, l.Limit, l.Reverse, l.Intensity, l.Source.V
	return out
}

// packages are the lengths of chip packages named by their size in hundredths
// of an inch (IEC 61188-5-2; EIA).
var packages = map[string]quantity.Metres{"0402": 0.001, "0603": 0.0016, "0805": 0.002, "1206": 0.0032, "2835": 0.0035, "3528": 0.0035, "5050": 0.005}

// lampSize reads the size of a lamp: a length, or the name of a package.
func lampSize(size journal.Text) source.Value[quantity.Metres] {
	if m, ok := packages[strings.TrimSpace(size.V)]; ok {
		return source.Written(m, size.At)
	}
	var m quantity.Metres
	if !size.Set || m.UnmarshalText([]byte(size.V)) != nil {
		return source.Value[quantity.Metres]{}
	}
	return source.Written(m, size.At)
}

// fibres hands over the bundles that a lamp feeds.
func (h *handing) fibres(c *journal.Circuit, ref string, lamp *circuit.Lamp) {
	for _, f := range c.Fibres {
		if strings.EqualFold(f.From.V, ref) {
			lamp.Fibres = append(lamp.Fibres, circuit.Fibre{At: f.At, Count: f.Count, Size: f.Size, Length: f.Length, Place: f.Place})
		}
	}
}

// areaAround names the area that encloses a lamp.
func (w *work) areaAround(ref string) string {
	for _, a := range w.build.Front.Areas {
		for _, l := range a.Value.Encloses {
			if strings.EqualFold(l.V, ref) {
				return a.Name.V
			}
		}
	}
	return ""
}

// given leaves out points that could not be read: that was reported.
func given(points []journal.Val[quantity.Point]) []journal.Val[quantity.Point] {
	return slices.DeleteFunc(slices.Clone(points), func(p journal.Val[quantity.Point]) bool { return !p.Set })
}

// checkLampNames holds the references that are written (in areas, bundles and
// sittings) against the lamps that there are.
func (w *work) checkLampNames() {
	last := 0
	for i := range w.build.Front.Circuits {
		last += lampsOf(&w.build.Front.Circuits[i])
	}
	check := func(ref journal.Text, from, to int) {
		n, err := strconv.Atoi(strings.TrimPrefix(strings.ToUpper(ref.V), "D"))
		if !ref.Set || err == nil && n >= from && n <= to && strings.HasPrefix(strings.ToUpper(ref.V), "D") {
			return
		}
		remedy := "the build has no lamps; give it circuits"
		if strings.ContainsAny(ref.V, ",;") {
			remedy = "write several as a list: [" + strings.Join(strings.FieldsFunc(ref.V, func(r rune) bool { return strings.ContainsRune(",; ", r) }), ", ") + "]"
			w.found.Add(ruleLampName.At(ref.At, remedy, "%q is not one lamp", ref.V))
			return
		}
		if to >= from {
			remedy = fmt.Sprintf("write one of %s to %s", circuit.LampRef(from), circuit.LampRef(to))
			if from == to {
				remedy = "write " + circuit.LampRef(from)
			}
		}
		w.found.Add(ruleLampName.At(ref.At, remedy, "there is no lamp %q", ref.V))
	}
	first := 1
	for i := range w.build.Front.Circuits {
		c := &w.build.Front.Circuits[i]
		for _, f := range c.Fibres {
			check(f.From, first, first+lampsOf(c)-1)
		}
		first += lampsOf(c)
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
