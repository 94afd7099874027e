package circuit

import (
	"fmt"

	"spruelight/gen/quantity"
)

// ElementKind is a kind of component in the netlist.
type ElementKind string

// The kinds of element.
const (
	SourceElement   ElementKind = "source" // the supply, with its inside resistance
	FuseElement     ElementKind = "fuse"
	SwitchElement   ElementKind = "switch"
	WireElement     ElementKind = "wire" // one wire of a pair
	PlugElement     ElementKind = "plug" // one contact of a connector, at its wire's supply end
	ResistorElement ElementKind = "resistor"
	DriverElement   ElementKind = "driver"
	LampElement     ElementKind = "lamp"
)

// Element is one two-terminal component between two nodes of the netlist. From
// is the end nearer the supply's plus: a lamp's anode. Where a wire is not
// declared its two ends are one node and there is no element.
type Element struct {
	Kind     ElementKind
	Ref      string // D1, R1 …; wires: W1+ and W1- (feed), W2+ … (further feeds), L1+ … (leads); contacts: X1+ and X1-
	From, To string
	Ohms     quantity.Ohms // all but lamps and drivers; the source's inside resistance
	Branch   int           // index, -1 outside branches
	Junction int           // index of the junction that a feed's wire leads to, else -1
	Lamp     int           // index within its branch, else -1
}

// Ground is the node of the supply's minus.
const Ground = "0"

// PlusNode and MinusNode name the two nodes of a junction.
func PlusNode(junction int) string  { return fmt.Sprintf("j%dp", junction+1) }
func MinusNode(junction int) string { return fmt.Sprintf("j%dm", junction+1) }

// Elements lists the circuit's components in reading order: supply, fuse,
// switch, feeds, then branch by branch from plus to minus.
func (s *Solution) Elements() []Element {
	var all []Element
	add := func(e Element) { all = append(all, e) }
	add(Element{Kind: SourceElement, Ref: s.Supply.Ref, From: "supply", To: Ground, Ohms: s.Supply.Inside, Branch: -1, Junction: -1, Lamp: -1})
	at := "supply"
	if s.Fuse != nil {
		add(Element{FuseElement, s.Fuse.Ref, at, "fused", s.Fuse.Ohms, -1, -1, -1})
		at = "fused"
	}
	if s.Switch != nil {
		add(Element{SwitchElement, s.Switch.Ref, at, "switched", s.Switch.Ohms, -1, -1, -1})
		at = "switched"
	}
	plus, minus := s.junctionNodes(at)
	for k, j := range s.Junctions {
		from, back := at, Ground
		if k > 0 {
			from, back = plus[j.From], minus[j.From]
		}
		if plus[k] != from {
			ref, contact := fmt.Sprintf("W%d", k+1), j.Feed.contact()
			if j.Feed.Plug != "" {
				there, here := fmt.Sprintf("x%dp", k+1), fmt.Sprintf("x%dm", k+1)
				add(Element{PlugElement, j.Feed.Plug + "+", from, there, contact, -1, k, -1})
				add(Element{PlugElement, j.Feed.Plug + "-", here, back, contact, -1, k, -1})
				from, back = there, here
			}
			add(Element{WireElement, ref + "+", from, plus[k], j.Feed.Ohms/2 - contact, -1, k, -1})
			add(Element{WireElement, ref + "-", minus[k], back, j.Feed.Ohms/2 - contact, -1, k, -1})
		}
	}
	for i := range s.Branches {
		all = append(all, s.branchElements(i, plus, minus)...)
	}
	return all
}

// junctionNodes names the nodes of every junction: one without a wire to it is
// the node that feeds it.
func (s *Solution) junctionNodes(top string) (plus, minus []string) {
	plus, minus = make([]string, len(s.Junctions)), make([]string, len(s.Junctions))
	var name func(k int)
	name = func(k int) {
		if plus[k] != "" {
			return
		}
		from, back := top, Ground
		if k > 0 {
			name(s.Junctions[k].From)
			from, back = plus[s.Junctions[k].From], minus[s.Junctions[k].From]
		}
		plus[k], minus[k] = PlusNode(k), MinusNode(k)
		if s.Junctions[k].Feed.Ohms == 0 {
			plus[k], minus[k] = from, back
		}
	}
	for k := range s.Junctions {
		name(k)
	}
	return plus, minus
}

// topNode is the node that the feed starts from.
func (s *Solution) topNode() string {
	switch {
	case s.Switch != nil:
		return "switched"
	case s.Fuse != nil:
		return "fused"
	}
	return "supply"
}

// branchElements lists a branch's components from plus to minus.
func (s *Solution) branchElements(i int, plus, minus []string) []Element {
	b := &s.Branches[i]
	var all []Element
	at, step := plus[b.Junction], 0
	next := func() string { // the node below what comes next
		step++
		return fmt.Sprintf("b%dn%d", i+1, step)
	}
	add := func(kind ElementKind, ref string, ohms quantity.Ohms, lamp int) {
		to := next()
		all = append(all, Element{kind, ref, at, to, ohms, i, -1, lamp})
		at = to
	}
	lead := fmt.Sprintf("L%d", i+1)
	contact := b.Lead.contact()
	if b.Lead.Plug != "" {
		add(PlugElement, b.Lead.Plug+"+", contact, -1)
	}
	if b.Lead.Ohms > 0 {
		add(WireElement, lead+"+", b.Lead.Ohms/2-contact, -1)
	}
	switch b.Kind {
	case Auto, Fixed:
		add(ResistorElement, b.Ref, b.Resistor.Ohms, -1)
	case ConstantCurrent:
		add(DriverElement, b.Ref, 0, -1)
	}
	if b.Parallel {
		to := next()
		for k, l := range b.Lamps {
			all = append(all, Element{LampElement, l.Ref, at, to, 0, i, -1, k})
		}
		at = to
	} else {
		for k, l := range b.Lamps {
			add(LampElement, l.Ref, 0, k)
		}
	}
	if b.Lead.Ohms > 0 {
		add(WireElement, lead+"-", b.Lead.Ohms/2-contact, -1)
	}
	if b.Lead.Plug != "" {
		add(PlugElement, b.Lead.Plug+"-", contact, -1)
	}
	for k := range all { // what comes last ends on the junction
		if all[k].To == at {
			all[k].To = minus[b.Junction]
		}
	}
	return all
}

// contact is the resistance of one contact of the run's connector.
func (r RunResult) contact() quantity.Ohms {
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
		from := ""
		if k > 0 {
			from = s.Junctions[j.From].Name
		}
		if j.Feed.Plug != "" {
			all = append(all, PluggedRun{j.Feed, from, j.Name})
		}
	}
	for _, b := range s.Branches {
		if b.Lead.Plug != "" {
			all = append(all, PluggedRun{b.Lead, s.Junctions[b.Junction].Name, b.Name})
		}
	}
	return all
}

// PluggedRun is a run with a connector in it. From is empty for the supply.
type PluggedRun struct {
	RunResult
	From, To string
}
