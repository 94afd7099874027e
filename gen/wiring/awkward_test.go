package wiring

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"testing"

	"spruelight/gen/circuit"

	"spruelight/testdata/readback"
)

// hundred is a circuit of 100 branches on ten junctions.
func hundred() circuit.Input {
	in := skiff()
	in.Branches, in.Junctions = nil, nil
	for k := range 9 {
		in.Junctions = append(in.Junctions, circuit.Junction{Name: written(fmt.Sprintf("deck %d", k+2)), Run: awg(30, 100, "red/black")})
	}
	for k := range 100 {
		junction := ""
		if k >= 10 {
			junction = fmt.Sprintf("deck %d", k/10+1)
		}
		b := branchOf(fmt.Sprintf("branch %d", k+1), junction, awg(34, 120, "red/black"), lampOf("white-0603", "white", fmt.Sprintf("porthole %d", k+1)))
		b.Resistor = written(circuit.Limiter{Kind: circuit.Fixed, Ohms: 470})
		in.Branches = append(in.Branches, b)
	}
	return in
}

// BenchmarkDiagram draws 100 branches, layout and bytes.
func BenchmarkDiagram(b *testing.B) {
	s := solved(b, hundred())
	for b.Loop() {
		Diagram("d", s, nil).File()
	}
}

func BenchmarkLoom(b *testing.B) {
	s := []circuit.Solution{solved(b, hundred())}
	for b.Loop() {
		Loom("l", s, Wide, nil).File()
	}
}

// wellFormed parses a file to its end.
func wellFormed(file []byte) error {
	d := xml.NewDecoder(bytes.NewReader(file))
	for {
		if _, err := d.Token(); errors.Is(err, io.EOF) {
			return nil
		} else if err != nil {
			return err
		}
	}
}

// FuzzWellFormed: whatever stands in names, places and colours, both drawings
// are well-formed, and the diagram still shows its circuit.
func FuzzWellFormed(f *testing.F) {
	f.Add("saloon", "ceiling <fore> & \"aft\"", "red/black", 720.0, uint8(3))
	f.Add("D1", "R1", "#f", 0.0, uint8(0))
	f.Add("\x00\xff", "船首 e\u0301 \u202e", "/", -1.0, uint8(9))
	f.Add("WWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWW", "", "and", 1e9, uint8(255))
	f.Fuzz(func(t *testing.T, name, place, colour string, width float64, lamps uint8) {
		in := lantern()
		in.Name, in.Entry, in.Junction = written(name), written(place), written(name+" keel")
		in.Switch, in.Circuit.Supply = written(place), written(name)
		in.Feed = awg(28, 100, colour)
		b := &in.Branches[0]
		b.Name = written(name)
		for range lamps % 12 {
			b.Lamps = append(b.Lamps, lampOf(name, "red", place))
		}
		b.Parallel = written(lamps%2 == 0)
		s, _ := circuit.Solve(in)
		if !s.Solved {
			t.Skip("a circuit without an operating point has no diagram")
		}
		d := DiagramFor(name, s, width, nil)
		for _, file := range [][]byte{d.File(), Loom(place, []circuit.Solution{s}, width, nil).File()} {
			if err := wellFormed(file); err != nil {
				t.Fatal(err)
			}
		}
		r, err := readback.Read(d.File())
		if err == nil {
			_, err = r.Netlist()
		}
		if err != nil {
			t.Fatal(err)
		}
	})
}
