package circuit

import (
	"math"
	"testing"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// white is the warm white lamp of the design's own example.
func white() Fitted {
	l := Fitted{Lamp: written("warm-white-3mm")}
	l.Type.Colour = written("white")
	for _, p := range []quantity.Point{{Volts: 2.75, Amps: 0.002}, {Volts: 3.0, Amps: 0.010}, {Volts: 3.2, Amps: 0.020}} {
		l.Type.Forward = append(l.Type.Forward, written(p))
	}
	l.Type.Spread = written(quantity.Volts(0.2))
	l.Type.Rated = written(quantity.Amps(0.020))
	l.Type.Limit = written(quantity.Amps(0.030))
	l.Type.Reverse = written(quantity.Volts(5))
	return l
}

func usb() Supply {
	return Supply{Kind: written("usb"), Volts: written(quantity.Volts(5)), Tolerance: written(quantity.Share(0.05)), Limit: written(quantity.Amps(0.5))}
}

// driver is a constant-current driver.
func driver(current quantity.Amps, dropout quantity.Volts) Driver {
	return Driver{Current: written(current), Dropout: written(dropout)}
}

// cells is a row of cells.
func cells(row int, name string) source.Value[Cells] {
	return written(Cells{Type: name, Series: row, Parallel: 1})
}

func awg(n int, metres quantity.Metres) Run {
	return Run{Size: written(quantity.WireSize{Copper: quantity.AWG(n)}), Length: written(metres)}
}

// The main harness of the design document: two lamps on a shared feed.
func harness() Input {
	branch := func(name string, metres quantity.Metres) Branch {
		return Branch{Name: written(name), Lamps: []Fitted{white()}, Current: written(quantity.Amps(0.010)), Lead: awg(34, metres), Matched: written("saloon")}
	}
	return Input{Supply: usb(), Circuit: Circuit{
		Name: written("main harness"), Switch: written("slide switch in the base"),
		Feed: awg(28, 0.350), Branches: []Branch{branch("saloon fore", 0.180), branch("saloon aft", 0.210)},
	}}
}

func TestHarness(t *testing.T) {
	s, found := Solve(harness())
	for _, f := range found {
		t.Log(f.Rule.Name, f.Says.String())
	}
	if !s.Solved {
		t.Fatal("not solved")
	}
	for _, b := range s.Branches {
		t.Logf("%s %s %v I=%.4f mA U_R=%.4f lamp %.4f", b.Name, b.Ref, b.Resistor.Ohms, b.Current.Nominal*1e3, b.Resistor.Volts.Nominal, b.Lamps[0].Volts.Nominal)
		if b.Current.Nominal > b.Wanted || b.Current.Nominal < 0.9*b.Wanted {
			t.Errorf("%s: %v", b.Name, b.Current.Nominal)
		}
		// Ohm along the whole branch.
		j := s.Junctions[b.Junction]
		sum := b.Resistor.Volts.Nominal + b.Lamps[0].Volts.Nominal + b.Lead.Drop
		if math.Abs(float64(sum-(j.Plus.Nominal-j.Minus.Nominal))) > 1e-9 {
			t.Errorf("%s: volts do not add up: %v", b.Name, sum)
		}
	}
	t.Log(s.Assumed)
}
