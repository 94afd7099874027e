package wiring

import (
	"strings"

	"spruelight/gen/circuit"
	"spruelight/gen/circuit/netlist"
	"spruelight/gen/source"
	"spruelight/gen/svg"
)

// DiagramTable says in words what the diagram shows: every part with its value,
// where it sits and what its two ends are joined to.
func DiagramTable(s circuit.Solution, print svg.Printer) svg.Table {
	t := svg.Table{}
	for _, head := range []string{"Part", "What", "Value", "Where", "From", "To"} {
		t.Head = append(t.Head, print.Print(source.Word(head)))
	}
	if !s.Solved {
		return t
	}
	s = named(s, print)
	elements := netlist.Elements(&s)
	ends := nodeNames(&s, elements)
	for _, e := range elements {
		what, value, where := describeElement(&s, e)
		t.Rows = append(t.Rows, []string{minusSign(e.Ref), print.Print(what), print.Print(value), print.Print(where),
			print.Print(ends[e.From]), print.Print(ends[e.To])})
	}
	return t
}

// nodeNames names the nodes of the netlist: by a test point where there is one,
// else by what they are, else by the parts that meet there.
func nodeNames(s *circuit.Solution, elements []netlist.Element) map[string]source.Message {
	meet := map[string][]string{}
	for _, e := range elements {
		meet[e.From] = append(meet[e.From], minusSign(e.Ref))
		meet[e.To] = append(meet[e.To], minusSign(e.Ref))
	}
	names := map[string]source.Message{}
	for node, refs := range meet {
		switch len(refs) {
		case 1:
			names[node] = as(refs[0])
		case 2:
			names[node] = source.Say("%s with %s", refs[0], refs[1])
		default:
			names[node] = source.Say("%s with %s", refs[0], source.Say("%s with %s", refs[1], "…"))
		}
	}
	for k := range s.Junctions {
		if node := netlist.MinusNode(k); !names[node].Empty() {
			names[node] = source.Say("%s, return", s.JunctionName(k))
		}
	}
	names[netlist.Ground] = source.Word("supply minus")
	for k, node := range netlist.PointNodes(s) {
		names[node] = source.Say("point %d", s.Points[k].Number)
	}
	return names
}

// describeElement names a part, its value and its place in words.
func describeElement(s *circuit.Solution, e netlist.Element) (what, value, where source.Message) {
	switch e.Kind {
	case netlist.Source:
		return source.Word("supply"), joined(voltsText(s.Supply.Open.Nominal), as(s.Supply.Name)), source.Word(s.Circuit.Supply.Kind.V)
	case netlist.Fuse:
		return source.Word("fuse"), fuseText(s), source.Message{}
	case netlist.Switch:
		return source.Word("switch"), as(s.Switch.Text), source.Message{}
	case netlist.Plug:
		run, _ := runOf(s, e)
		return source.Word("connector"), as(run.Connector.Kind.V), as(run.Connector.Place.V)
	case netlist.Resistor:
		r := s.Branches[e.Branch].Resistor
		return source.Word("resistor"), joined(ohmsText(r.Ohms), ratingText(r.Rating)), as(s.Branches[e.Branch].Name)
	case netlist.Driver:
		return source.Word("constant-current driver"), ampsText(s.Branches[e.Branch].Resistor.Set), as(s.Branches[e.Branch].Name)
	case netlist.Lamp:
		l := &s.Branches[e.Branch].Lamps[e.Lamp]
		places := []source.Message{as(l.Place)}
		for _, f := range l.Fibres {
			places = append(places, fibreText(f))
		}
		return kindOfLamp(l.Colour), joined(lampModel(l), ampsText(l.Current.Nominal)), joined(places...)
	}
	run, name := runOf(s, e)
	return source.Word("wire"), joined(lengthText(run.Length.V), wireText(run, source.Word(colourOf(run, e.Ref)))), as(name)
}

// kindOfLamp is a lamp by the colour of its light.
func kindOfLamp(colour string) source.Message {
	if colour == "" {
		return source.Word("lamp")
	}
	return source.Word(colour + " lamp")
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

// minusSign writes a wire's reference with a true minus.
func minusSign(ref string) string { return strings.Replace(ref, "-", "−", 1) }
