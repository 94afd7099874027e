package circuit

import (
	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// WireOhms returns the resistance of a solid copper wire at 20 °C. For a pair
// there and back give twice its length.
func WireOhms(size quantity.WireSize, length quantity.Metres) quantity.Ohms {
	area := size.Area()
	if !(area > 0) {
		return 0
	}
	return quantity.Ohms(copperWire.Of(quantity.Let{"l": length, "A": square(size)}))
}

// WireOhmsAt returns it at a temperature.
func WireOhmsAt(size quantity.WireSize, length quantity.Metres, at quantity.Celsius) quantity.Ohms {
	return quantity.Ohms(warmCopper.Of(quantity.Let{"R₂₀": WireOhms(size, length), "t": at}))
}

// square is a wire's cross-section.
func square(size quantity.WireSize) quantity.Amount {
	return quantity.Amount{Value: size.Area(), Unit: "mm²"}
}

// Figures are a run's resistance and what is lost in it, with their working.
func (r *RunResult) Figures() []quantity.Figure {
	there := quantity.Let{"l": 2 * r.Run.Length.V, "A": square(r.Run.Size.V)}
	ohms := copperWire.Figure("resistance there and back", there)
	if contacts := r.Ohms - quantity.Ohms(ohms.Value); contacts > 1e-9 {
		there["R_c"] = contacts
		ohms = runOhms.Figure(ohms.Name, there)
	}
	return []quantity.Figure{ohms, wireDrop.Figure("lost in it", quantity.Let{"I": r.Current, "R": r.Ohms})}
}

var ruleConnector = &source.Rule{Name: "connector-value", Severity: source.Warn, Source: arithmetic,
	Reason: "A connector parts its wire somewhere between the two ends, by a contact of some milliohms.",
	Keys: "build circuits[].feed: connector; build circuits[].feed.connector: kind, after, resistance; " +
		"build circuits[].junctions[]: connector; build circuits[].junctions[].connector: kind, after, resistance; " +
		"build circuits[].branches[].lead: connector; build circuits[].branches[].lead.connector: kind, after, resistance"}

// contact checks a run's connector and returns the resistance of one contact.
func (p *plan) contact(r *Run) quantity.Ohms {
	c := &r.Connector
	if c.After.Set && (c.After.V < 0 || c.After.V > r.Length.V) {
		p.found.Add(ruleConnector.At(c.After.At, "measure along the wire from the supply's side",
			"the connector sits %v along a wire of %v", c.After.V, r.Length.V))
		c.After = source.Value[quantity.Metres]{}
	}
	if c.Resistance.Set && !(c.Resistance.V >= 0 && c.Resistance.V <= mostContact) {
		p.found.Add(ruleConnector.At(c.Resistance.At, "write the resistance of one contact, like 20 mohm",
			"a contact of %v cannot be", c.Resistance.V))
		c.Resistance = source.Value[quantity.Ohms]{}
	}
	return c.Resistance.V
}

// mostContact is a contact so bad that it is none.
const mostContact = 1000.0

// NoWire begins the assumption about runs of which nothing is written.
const NoWire = "no wire is written, so none is reckoned with"

var ruleRunIncomplete = &source.Rule{Name: "run-incomplete", Severity: source.Warn, Source: "IEC 60028, ASTM B258",
	Reason: "A wire's resistance needs both its size and its length.",
	Keys: "build circuits[].feed: wire, length; build circuits[].junctions[]: wire, length; " +
		"build circuits[].branches[].lead: wire, length"}

// run works out a pair of wires, saying so where only half of it is written.
func (p *plan) run(r Run, what source.Message) RunResult {
	switch {
	case r.Size.Set && r.Length.Set:
		ohms := WireOhms(r.Size.V, 2*r.Length.V)
		if r.Length.V < 0 || !(ohms < 1e6) {
			p.found.Add(ruleBranchValue.At(r.Length.At, "write the length one way, like 180 mm", "a wire of %v cannot be", r.Length.V))
			return RunResult{Run: r}
		}
		ohms += 2 * p.contact(&r)
		return RunResult{Run: r, Ohms: ohms}
	case r.Size.Set:
		p.found.Add(ruleRunIncomplete.At(r.Size.At, "add the length one way, like length: 180 mm", "the wire of %s has no length", what))
	case r.Length.Set:
		p.found.Add(ruleRunIncomplete.At(r.Length.At, "add the wire, like wire: 34 AWG", "the length of %s names no wire", what))
	default:
		p.assumed.add(source.Word(NoWire), what)
	}
	return RunResult{Run: r}
}

// Contact is the resistance of one contact of the run's connector.
func (r RunResult) Contact() quantity.Ohms {
	if r.Plug == "" {
		return 0
	}
	return r.Run.Connector.Resistance.V
}

// Plugged lists the runs that a connector parts, with where they lead from and
// to, in the order of their references.
func (s *Solution) Plugged() []PluggedRun {
	var all []PluggedRun
	for k, j := range s.Junctions {
		var from source.Message
		if k > 0 {
			from = s.JunctionName(j.From)
		}
		if j.Feed.Plug != "" {
			all = append(all, PluggedRun{j.Feed, from, s.JunctionName(k)})
		}
	}
	for _, b := range s.Branches {
		if b.Lead.Plug != "" {
			all = append(all, PluggedRun{b.Lead, s.JunctionName(b.Junction), source.Say("%s", b.Name)})
		}
	}
	return all
}

// PluggedRun is a run with a connector in it. From is empty for the supply.
type PluggedRun struct {
	RunResult
	From, To source.Message
}
