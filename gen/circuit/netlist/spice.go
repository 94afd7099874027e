package netlist

import (
	"fmt"
	"strconv"
	"strings"

	"spruelight/gen/circuit"
	"spruelight/gen/circuit/nodal"
)

// SPICE writes the circuit as a SPICE netlist that finds its operating
// point: every lamp a diode model at 27 °C, every wire a resistor, a part
// without resistance a source of 0 V, a driver a behavioural current source.
// The option epsmin keeps ngspice from lifting saturation currents below 1e-28
// A to that value, which would let blue and white lamps conduct too early;
// pivrel makes its elimination choose larger pivots, without which it was seen
// to leave 14 mV over a source of 0 V.
func SPICE(s *circuit.Solution) string {
	var b strings.Builder
	fmt.Fprintf(&b, "* %s\n", oneLine(s.Name, "circuit"))
	fmt.Fprintf(&b, ".options temp=27 tnom=27 reltol=1e-7 pivrel=0.1 gmin=1e-15 epsmin=1e-280\n")
	models := map[string]string{}
	var declared []string
	for _, e := range Elements(s) {
		switch e.Kind {
		case Source:
			writeSource(&b, s, e)
		case Lamp:
			l := s.Branches[e.Branch].Lamps[e.Lamp]
			is, n, rs := l.Curve.SPICE()
			line := fmt.Sprintf("D(IS=%s N=%s RS=%s)", number(is), number(n), number(rs))
			name, known := models[line]
			if !known {
				name = fmt.Sprintf("LAMP%d", len(models)+1)
				models[line] = name
				declared = append(declared, fmt.Sprintf("* %s\n.model %s %s\n", oneLine(l.Model, l.Colour+" lamp"), name, line))
			}
			fmt.Fprintf(&b, "%s %s %s %s\n", e.Ref, e.From, e.To, name)
		case Driver:
			r := &s.Branches[e.Branch].Resistor
			fmt.Fprintf(&b, "B%s %s %s I=min(%s,max(0,V(%s,%s))/%s)\n", e.Ref, e.From, e.To,
				number(float64(r.Set)), e.From, e.To, number(max(float64(r.Dropout)/float64(r.Set), nodal.LeastOhms)))
		default:
			writeOhms(&b, e)
		}
	}
	for _, m := range declared {
		b.WriteString(m)
	}
	b.WriteString(".op\n.end\n")
	return b.String()
}

func writeSource(b *strings.Builder, s *circuit.Solution, e Element) {
	inner := e.From
	if e.Ohms > 0 {
		inner = "inner"
		fmt.Fprintf(b, "R%s inner %s %s\n", e.Ref, e.From, number(float64(e.Ohms)))
	}
	fmt.Fprintf(b, "V%s %s %s DC %s\n", e.Ref, inner, e.To, number(float64(s.Supply.Open.Nominal)))
}

// writeOhms writes a resistance; one of nothing as a source of 0 V, which is
// a wire to SPICE. Resistors keep their reference, all else gets the letter
// that SPICE goes by in front.
func writeOhms(b *strings.Builder, e Element) {
	ref := strings.NewReplacer("+", "p", "-", "m").Replace(e.Ref)
	switch {
	case e.Ohms == 0:
		fmt.Fprintf(b, "V%s %s %s DC 0\n", ref, e.From, e.To)
	case e.Kind == Resistor:
		fmt.Fprintf(b, "%s %s %s %s\n", ref, e.From, e.To, number(float64(e.Ohms)))
	default:
		fmt.Fprintf(b, "R%s %s %s %s\n", ref, e.From, e.To, number(float64(e.Ohms)))
	}
}

// number writes a value so that SPICE reads the same one back.
func number(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }

// oneLine keeps a name from breaking out of a comment.
func oneLine(name, other string) string {
	name = strings.Join(strings.Fields(name), " ")
	if name == "" {
		name = other
	}
	return strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7f {
			return ' '
		}
		return r
	}, name)
}
