package circuit

import (
	"math"
	"testing"

	"spruelight/gen/quantity"
)

// white is the warm white lamp of the design's own example.
func white() Lamp {
	l := Lamp{}
	l.Model = written("warm-white-3mm")
	l.Colour = written("white")
	for _, p := range []quantity.Point{{Volts: 2.75, Amps: 0.002}, {Volts: 3.0, Amps: 0.010}, {Volts: 3.2, Amps: 0.020}} {
		l.Forward = append(l.Forward, written(p))
	}
	l.Spread = written(quantity.Volts(0.2))
	l.Rated = written(quantity.Amps(0.020))
	l.Limit = written(quantity.Amps(0.030))
	l.Reverse = written(quantity.Volts(5))
	return l
}

func usb() Supply {
	return Supply{Name: written("usb-5v"), Kind: written("usb"), Volts: written(quantity.Volts(5)), Tolerance: written(quantity.Share(0.05)), Limit: written(quantity.Amps(0.5))}
}

func awg(n int, metres quantity.Metres) Run {
	return Run{Size: written(quantity.WireSize{Copper: quantity.AWG(n)}), Length: written(metres)}
}

// The main harness of the design document: two lamps on a shared feed.
func harness() Input {
	branch := func(name string, metres quantity.Metres) Branch {
		return Branch{Name: written(name), Lamps: []Lamp{white()}, Current: written(quantity.Amps(0.010)), Lead: awg(34, metres), Matched: written("saloon")}
	}
	return Input{
		Name: written("main harness"), Supply: usb(), Switch: Switch{Text: written("slide switch in the base")},
		Feed: awg(28, 0.350), Branches: []Branch{branch("saloon fore", 0.180), branch("saloon aft", 0.210)},
	}
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
