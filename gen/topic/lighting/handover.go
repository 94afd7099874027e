package lighting

import (
	"slices"
	"strings"

	"spruelight/gen/circuit"
	"spruelight/gen/journal"
	"spruelight/gen/quantity"
	"spruelight/gen/source"
	"spruelight/gen/topic"
)

// Rules are the rules of handing circuits over: what must be so before one can
// be solved.
var Rules = []*source.Rule{ruleWireName, RuleLampName, ruleTwoLimiters}

// handing makes circuits ready to be worked out: it looks up what they name on
// the rack and among the areas, and collects what is not there.
type handing struct {
	topic.Facts
	found source.Findings
}

// handOver hands a circuit of a build over with everything the rack knows of
// its parts. The declaration itself stays as it was read.
func handOver(f topic.Facts, c *circuit.Circuit, first circuit.Refs) (circuit.Input, source.Findings) {
	h := &handing{Facts: f}
	in := circuit.Input{Circuit: *c, First: first, Tolerance: f.Settings.Tight}
	in.Series, _ = quantity.SeriesByName(f.Settings.Series.V)
	if x := f.Settings.Camera; x.Set {
		in.Camera = source.Written(quantity.Hours(float64(x.V)/3600), x.At)
	}
	if scale := f.Front.Scale; scale.Set {
		in.Scale = scale.V.Ratio
	}
	known := false
	in.Supply, known = f.Rack.Supplies.Get(c.Supply.V)
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

var ruleTwoLimiters = &source.Rule{Name: "two-limiters", Severity: source.Stop, Source: "common practice, no source",
	Reason: "A branch has either a resistor or a driver.",
	Keys:   "build circuits[].branches[]: resistor, driver"}

// branch looks up the wire and the lamps of a branch; number is that of its
// first lamp.
func (h *handing) branch(b *circuit.Branch, number *int) {
	h.run(&b.Lead)
	if b.Driver.Current.Set && b.Resistor.Set {
		h.found.Add(ruleTwoLimiters.At(b.Resistor.At, "keep one of them",
			"branch %q has both a resistor and a driver", b.Name.V).With(b.Driver.At, "the driver"))
	}
	b.Lamps = slices.Clone(b.Lamps)
	for k := range b.Lamps {
		l := &b.Lamps[k]
		l.Type, _ = h.Rack.Lamps.Get(l.Lamp.V)
		l.Area = h.areaAround(circuit.LampRef(*number))
		*number++
	}
}

// run looks a wire up: one on the rack, or a size.
func (h *handing) run(r *circuit.Run) {
	if !r.Wire.Set {
		return
	}
	if wire, ok := h.Rack.Wire.Get(r.Wire.V); ok {
		r.Size = source.Written(quantity.WireSize{Copper: wire.Copper.V}, r.Wire.At)
		if !r.Colour.Set {
			r.Colour = wire.Colour
		}
		return
	}
	var size quantity.WireSize
	if err := size.UnmarshalText([]byte(r.Wire.V)); err != nil {
		h.found.Add(h.noWire(r.Wire))
		return
	}
	r.Size = source.Written(size, r.Wire.At)
}

var ruleWireName = &source.Rule{Name: "wire-name", Severity: source.Stop, Source: "IEC 60028, ASTM B258",
	Reason: "Without the copper's size a wire has no resistance.",
	Keys:   "build circuits[].feed: wire; build circuits[].junctions[]: wire; build circuits[].branches[].lead: wire"}

// noWire reports what is neither a wire on the rack nor a size.
func (h *handing) noWire(written journal.Text) source.Finding {
	const do, form = "write a gauge like 34 AWG, the copper's diameter like 0.2 mm, or a wire of rack/wire.yaml",
		"%q is neither a wire on the rack nor a size"
	if name, ok := journal.Nearest(written.V, h.Rack.Wire.Names()); ok {
		return ruleWireName.At(written.At, do, form+"; did you mean %q?", written.V, name)
	}
	return ruleWireName.At(written.At, do, form, written.V)
}

// areaAround names the area that encloses a lamp.
func (h *handing) areaAround(ref string) string {
	for _, a := range h.Front.Areas {
		for _, l := range a.Value.Encloses {
			if strings.EqualFold(l.V, ref) {
				return a.Name.V
			}
		}
	}
	return ""
}
