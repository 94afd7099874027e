package circuit

// nodeVolts returns the nominal voltage of every node of Elements but ground,
// to ground.
func (s *Solution) nodeVolts() map[string]float64 {
	volts := map[string]float64{"supply": float64(s.Supply.Terminal.Nominal)}
	at := volts["supply"]
	for _, c := range []struct {
		contact *Contact
		node    string
	}{{s.Fuse, "fused"}, {s.Switch, "switched"}} {
		if c.contact != nil {
			at -= float64(c.contact.Drop)
			volts[c.node] = at
		}
	}
	for _, e := range s.Elements() {
		if e.Branch < 0 && e.Kind == WireElement {
			j := s.Junctions[e.Junction]
			plugged, drop := j.Feed.Plug != "", float64(j.Feed.Current)*float64(e.Ohms)
			if e.Ref[len(e.Ref)-1] == '+' {
				volts[e.To] = float64(j.Plus.Nominal)
				if plugged {
					volts[e.From] = volts[e.To] + drop
				}
				continue
			}
			volts[e.From] = float64(j.Minus.Nominal)
			if plugged {
				volts[e.To] = volts[e.From] - drop
			}
		}
	}
	for i := range s.Branches {
		s.branchVolts(i, volts)
	}
	return volts
}

// branchVolts goes along a branch from plus and notes the voltage after each
// element; the last ends on its junction.
func (s *Solution) branchVolts(i int, volts map[string]float64) {
	b := &s.Branches[i]
	at := float64(s.Junctions[b.Junction].Plus.Nominal)
	plus, minus := s.junctionNodes("")
	for _, e := range s.branchElements(i, plus, minus) {
		switch e.Kind {
		case WireElement, PlugElement:
			at -= float64(b.Lead.Current) * float64(e.Ohms)
		case LampElement:
			if b.Parallel && e.Lamp > 0 {
				continue
			}
			at -= float64(b.Lamps[e.Lamp].Volts.Nominal)
		default:
			at -= float64(b.Resistor.Volts.Nominal)
		}
		if e.To != minus[b.Junction] {
			volts[e.To] = at
		}
	}
}
