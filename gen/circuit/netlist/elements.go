// Package netlist lists a worked-out circuit part by part, each between two
// named nodes: for the tables beside drawings, for checking what was drawn, and
// as a file for a simulator.
package netlist

import (
	"fmt"

	"spruelight/gen/circuit"
	"spruelight/gen/quantity"
)

// Kind is a kind of component.
type Kind string

// The kinds of element.
const (
	Source   Kind = "source" // the supply, with its inside resistance
	Fuse     Kind = "fuse"
	Switch   Kind = "switch"
	Wire     Kind = "wire" // one wire of a pair
	Plug     Kind = "plug" // one contact of a connector, at its wire's supply end
	Resistor Kind = "resistor"
	Driver   Kind = "driver"
	Lamp     Kind = "lamp"
)

// Element is one two-terminal component between two nodes of the netlist. From
// is the end nearer the supply's plus: a lamp's anode. Where a wire is not
// declared its two ends are one node and there is no element.
type Element struct {
	Kind     Kind
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
func Elements(s *circuit.Solution) []Element {
	var all []Element
	add := func(e Element) { all = append(all, e) }
	add(Element{Kind: Source, Ref: s.Supply.Ref, From: "supply", To: Ground, Ohms: s.Supply.Inside, Branch: -1, Junction: -1, Lamp: -1})
	at := "supply"
	if s.Fuse != nil {
		add(Element{Fuse, s.Fuse.Ref, at, "fused", s.Fuse.Ohms, -1, -1, -1})
		at = "fused"
	}
	if s.Switch != nil {
		add(Element{Switch, s.Switch.Ref, at, "switched", s.Switch.Ohms, -1, -1, -1})
		at = "switched"
	}
	plus, minus := junctionNodes(s)
	for k, j := range s.Junctions {
		from, back := at, Ground
		if k > 0 {
			from, back = plus[j.From], minus[j.From]
		}
		if plus[k] != from {
			ref, contact := fmt.Sprintf("W%d", k+1), j.Feed.Contact()
			if j.Feed.Plug != "" {
				there, here := fmt.Sprintf("x%dp", k+1), fmt.Sprintf("x%dm", k+1)
				add(Element{Plug, j.Feed.Plug + "+", from, there, contact, -1, k, -1})
				add(Element{Plug, j.Feed.Plug + "-", here, back, contact, -1, k, -1})
				from, back = there, here
			}
			add(Element{Wire, ref + "+", from, plus[k], j.Feed.Ohms/2 - contact, -1, k, -1})
			add(Element{Wire, ref + "-", minus[k], back, j.Feed.Ohms/2 - contact, -1, k, -1})
		}
	}
	for i := range s.Branches {
		all = append(all, branchElements(s, i, plus, minus)...)
	}
	return all
}

// junctionNodes names the nodes of every junction: one without a wire to it is
// the node that feeds it.
func junctionNodes(s *circuit.Solution) (plus, minus []string) {
	plus, minus = make([]string, len(s.Junctions)), make([]string, len(s.Junctions))
	var name func(k int)
	name = func(k int) {
		if plus[k] != "" {
			return
		}
		from, back := topNode(s), Ground
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
func topNode(s *circuit.Solution) string {
	switch {
	case s.Switch != nil:
		return "switched"
	case s.Fuse != nil:
		return "fused"
	}
	return "supply"
}

// branchElements lists a branch's components from plus to minus.
func branchElements(s *circuit.Solution, i int, plus, minus []string) []Element {
	b := &s.Branches[i]
	var all []Element
	at, step := plus[b.Junction], 0
	next := func() string { // the node below what comes next
		step++
		return fmt.Sprintf("b%dn%d", i+1, step)
	}
	add := func(kind Kind, ref string, ohms quantity.Ohms, lamp int) {
		to := next()
		all = append(all, Element{kind, ref, at, to, ohms, i, -1, lamp})
		at = to
	}
	lead := fmt.Sprintf("L%d", i+1)
	contact := b.Lead.Contact()
	if b.Lead.Plug != "" {
		add(Plug, b.Lead.Plug+"+", contact, -1)
	}
	if b.Lead.Ohms > 0 {
		add(Wire, lead+"+", b.Lead.Ohms/2-contact, -1)
	}
	switch b.Kind {
	case circuit.Auto, circuit.Fixed:
		add(Resistor, b.Ref, b.Resistor.Ohms, -1)
	case circuit.ConstantCurrent:
		add(Driver, b.Ref, 0, -1)
	}
	if b.Parallel {
		to := next()
		for k, l := range b.Lamps {
			all = append(all, Element{Lamp, l.Ref, at, to, 0, i, -1, k})
		}
		at = to
	} else {
		for k, l := range b.Lamps {
			add(Lamp, l.Ref, 0, k)
		}
	}
	if b.Lead.Ohms > 0 {
		add(Wire, lead+"-", b.Lead.Ohms/2-contact, -1)
	}
	if b.Lead.Plug != "" {
		add(Plug, b.Lead.Plug+"-", contact, -1)
	}
	for k := range all { // what comes last ends on the junction
		if all[k].To == at {
			all[k].To = minus[b.Junction]
		}
	}
	return all
}

// PointNodes returns the node of every test point, in the order of s.Points.
func PointNodes(s *circuit.Solution) []string {
	plus, minus := junctionNodes(s)
	nodes := make([]string, len(s.Points))
	for n := range s.Points {
		switch p := &s.Points[n]; p.Kind {
		case circuit.AtSupply:
			nodes[n] = "supply"
		case circuit.AtFuse:
			nodes[n] = "fused"
		case circuit.AtSwitch:
			nodes[n] = "switched"
		case circuit.AtPlus:
			nodes[n] = plus[p.Junction]
		case circuit.AtMinus:
			nodes[n] = minus[p.Junction]
		case circuit.AtLamp:
			for _, e := range branchElements(s, p.Branch, plus, minus) {
				if e.Kind == Lamp && e.Lamp == p.Lamp {
					nodes[n] = e.From
				}
			}
		}
	}
	return nodes
}
