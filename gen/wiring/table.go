package wiring

import (
	"fmt"
	"strings"

	"spruelight/gen/circuit"
	"spruelight/gen/circuit/netlist"
	"spruelight/gen/svg"
)

// DiagramTable says in words what the diagram shows: every part with its value,
// where it sits and what its two ends are joined to.
func DiagramTable(s circuit.Solution, tell svg.Teller) svg.Table {
	t := svg.Table{}
	for _, head := range []string{"Part", "What", "Value", "Where", "From", "To"} {
		t.Head = append(t.Head, tell.Say(head))
	}
	if !s.Solved {
		return t
	}
	s = named(s, tell)
	elements := netlist.Elements(&s)
	ends := nodeNames(&s, elements)
	for _, e := range elements {
		what, value, where := describeElement(&s, e, tell)
		t.Rows = append(t.Rows, []string{minusSign(e.Ref), tell.Say(what), value, where, tell.Say(ends[e.From]), tell.Say(ends[e.To])})
	}
	return t
}

// nodeNames names the nodes of the netlist: by a test point where there is one,
// else by what they are, else by the parts that meet there.
func nodeNames(s *circuit.Solution, elements []netlist.Element) map[string]string {
	meet := map[string][]string{}
	for _, e := range elements {
		meet[e.From] = append(meet[e.From], minusSign(e.Ref))
		meet[e.To] = append(meet[e.To], minusSign(e.Ref))
	}
	names := map[string]string{}
	for node, refs := range meet {
		if len(refs) > 2 {
			refs = append(refs[:2:2], "…")
		}
		names[node] = strings.Join(refs, " with ")
	}
	for k, j := range s.Junctions {
		if node := netlist.MinusNode(k); names[node] != "" {
			names[node] = j.Name + ", return"
		}
	}
	names[netlist.Ground] = "supply minus"
	for k, node := range netlist.PointNodes(s) {
		names[node] = fmt.Sprintf("point %d", s.Points[k].Number)
	}
	return names
}

// describeElement names a part, its value and its place in words.
func describeElement(s *circuit.Solution, e netlist.Element, tell svg.Teller) (what, value, where string) {
	switch e.Kind {
	case netlist.Source:
		return "supply", joinWords(tell.Say(voltsText(s.Supply.Open.Nominal)), s.Supply.Name), tell.Say(s.Circuit.Supply.Kind.V)
	case netlist.Fuse:
		return "fuse", fuseText(s), ""
	case netlist.Switch:
		return "switch", s.Switch.Text, ""
	case netlist.Plug:
		run, _ := runOf(s, e)
		return "connector", run.Connector.Kind.V, run.Connector.Place.V
	case netlist.Resistor:
		r := s.Branches[e.Branch].Resistor
		return "resistor", joinWords(tell.Say(ohmsText(r.Ohms)), tell.Say(ratingText(r.Rating))), s.Branches[e.Branch].Name
	case netlist.Driver:
		return "constant-current driver", tell.Say(ampsText(s.Branches[e.Branch].Resistor.Set)), s.Branches[e.Branch].Name
	case netlist.Lamp:
		l := &s.Branches[e.Branch].Lamps[e.Lamp]
		where = l.Place
		for _, f := range l.Fibres {
			where = joinWords(where, tell.Say(fibreText(f)))
		}
		return strings.TrimSpace(l.Colour + " lamp"), joinWords(lampName(l, tell), tell.Say(ampsText(l.Current.Nominal))), where
	}
	run, where := runOf(s, e)
	return "wire", joinWords(tell.Say(lengthText(run.Length.V)), wireText(run, tell.Say(colourOf(run, e.Ref)))), where
}

// runOf returns the pair of wires that a wire belongs to and where it leads.
func runOf(s *circuit.Solution, e netlist.Element) (circuit.Run, string) {
	if e.Branch >= 0 {
		return s.Branches[e.Branch].Lead.Run, s.Branches[e.Branch].Name
	}
	return s.Junctions[e.Junction].Feed.Run, s.Junctions[e.Junction].Name
}

// colourOf returns the colour of one wire of a pair by the sign of its reference.
func colourOf(r circuit.Run, ref string) string {
	plus, minus := pairColours(r.Colour.V)
	if strings.HasSuffix(ref, "-") {
		return minus
	}
	return plus
}

// joinWords puts a comma between what is not empty.
func joinWords(words ...string) string {
	kept := words[:0:0]
	for _, w := range words {
		if w != "" {
			kept = append(kept, w)
		}
	}
	return strings.Join(kept, ", ")
}

// minusSign writes a wire's reference with a true minus.
func minusSign(ref string) string { return strings.Replace(ref, "-", "−", 1) }
