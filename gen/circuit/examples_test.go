package circuit

import (
	"testing"

	"spruelight/gen/circuit/nodal"
	"spruelight/gen/quantity"
)

// flat is a lamp whose voltage hardly changes with its current: what
// arithmetic by hand takes a lamp to be.
func flat(volts, at float64) Fitted {
	l := Fitted{Lamp: written("example"), Type: Lamp{Colour: written("white")}}
	l.Type.Forward = append(l.Type.Forward, written(quantity.Point{Volts: quantity.Volts(volts), Amps: quantity.Amps(at)}))
	return l
}

func single(supply, current float64, lamps ...Fitted) Input {
	return Input{Supply: Supply{Volts: written(quantity.Volts(supply)), Kind: written("bench supply")}, Circuit: Circuit{Name: written("example"),
		Branches: []Branch{{Name: written("one"), Lamps: lamps, Current: written(quantity.Amps(current))}}}}
}

// Published worked examples: exact resistor and the preferred value above it.
func TestPublishedResistors(t *testing.T) {
	for _, c := range []struct {
		source       string
		supply, amps float64
		lamps        []Fitted
		exact, next  float64
		below        float64
	}{
		{"Wikipedia, LED circuit, example 1 (12 V, 1.8 V, 5 mA: 2040 ohm)", 12, 0.005, []Fitted{flat(1.8, 0.005)}, 2040, 2200, 2000},
		{"Wikipedia, LED circuit, example 1 (9 V, 1.8 V, 5 mA: 1440 ohm, rounded up to 1.5 k)", 9, 0.005, []Fitted{flat(1.8, 0.005)}, 1440, 1500, 1300},
		{"electronics.stackexchange.com 183308 (three of 3 V at 20 mA on 12 V: 150 ohm)", 12, 0.020, []Fitted{flat(3, 0.02), flat(3, 0.02), flat(3, 0.02)}, 150, 150, 130},
		{"electronics.stackexchange.com 40451 (three of 3.2 V at 20 mA on 12 V: 120 ohm)", 12, 0.020, []Fitted{flat(3.2, 0.02), flat(3.2, 0.02), flat(3.2, 0.02)}, 120, 120, 110},
		{"everything2.com, led (three of 3.6 V at 25 mA on 12 V: 48 ohm)", 12, 0.025, []Fitted{flat(3.6, 0.025), flat(3.6, 0.025), flat(3.6, 0.025)}, 48, 51, 47},
		{"offroaders.com, LED (2 V at 20 mA on 12 V: 10 V over the resistor, 500 ohm)", 12, 0.020, []Fitted{flat(2, 0.02)}, 500, 510, 470},
	} {
		in := single(c.supply, c.amps, c.lamps...)
		in.Branches[0].Lamps[0].Type.Limit = written(quantity.Amps(0.2)) // the examples know no limit
		for k := range in.Branches[0].Lamps {
			in.Branches[0].Lamps[k].Type.Limit = written(quantity.Amps(0.2))
		}
		s, found := Solve(in)
		if !s.Solved {
			t.Fatalf("%s: %v", c.source, found)
		}
		r := s.Branches[0].Resistor
		near(t, c.source+": exact", float64(r.Exact), c.exact, 1e-6*c.exact)
		near(t, c.source+": chosen", float64(r.Ohms), c.next, 1e-9)
		near(t, c.source+": below", float64(r.Below.Ohms), c.below, 1e-9)
	}
}

// Three whites on 12 V with 120 ohm, supply ±5 %, drop 3.0 to 3.4 V: 10 to
// 30 mA (trade reports, worked out by hand with constant drops). Real lamps
// give way a little, so ours lie within.
func TestTightString(t *testing.T) {
	in := single(12, 0.02, flat(3.2, 0.02), flat(3.2, 0.02), flat(3.2, 0.02))
	in.Supply.Tolerance = written(quantity.Share(0.05))
	in.Branches[0].Resistor = written(Limiter{Kind: Fixed, Ohms: 120, Tolerance: 1e-9})
	s, found := Solve(in)
	b := s.Branches[0]
	t.Logf("%.2f, %.2f to %.2f mA", b.Current.Nominal*1e3, b.Current.Low*1e3, b.Current.High*1e3)
	if b.Current.Low < 0.0095 || b.Current.Low > 0.0125 || b.Current.High < 0.0275 || b.Current.High > 0.0305 {
		t.Errorf("band %v", b.Current)
	}
	near(t, "nominal", float64(b.Current.Nominal), 0.02, 1e-7)
	if !has(found, ruleOverLimit) && b.Current.High > 0.03 {
		t.Error("above the limit without a finding")
	}
}

// The same string on an unregulated adapter that gives 17 to 20 V: 62 to 87 mA
// (worked out by hand with constant drops).
func TestLyingAdapter(t *testing.T) {
	for volts, want := range map[float64]float64{17: 0.062, 20: 0.087} {
		in := single(12, 0.02, flat(3.2, 0.02), flat(3.2, 0.02), flat(3.2, 0.02))
		in.Supply.Kind, in.Supply.Regulated, in.Supply.Measured = written("mains adapter"), written(false), written(quantity.Volts(volts))
		in.Branches[0].Resistor = written(Limiter{Kind: Fixed, Ohms: 120})
		s, found := Solve(in)
		got := float64(s.Branches[0].Current.Nominal)
		if got > want || got < 0.88*want { // lamps rise a little above their drop at 20 mA
			t.Errorf("at %g V: %.1f mA, by hand %.1f mA", volts, got*1e3, want*1e3)
		}
		if !has(found, ruleOverLimit) {
			t.Errorf("at %g V no finding says that the lamps die", volts)
		}
	}
}

// Wire: cirris.com's table for solid copper in ohm per 1,000 ft agrees within
// 0.1 %; the NBS handbook's rounded diameters within 3.5 %.
func TestWireTable(t *testing.T) {
	const thousandFeet = 304.8
	for awg, ohms := range map[int]float64{22: 16.14, 23: 20.36, 24: 25.67, 25: 32.37, 26: 40.81, 27: 51.47, 28: 64.90, 29: 81.83, 30: 103.20} {
		near(t, "cirris.com", float64(WireOhms(quantity.WireSize{Copper: quantity.AWG(awg)}, thousandFeet)), ohms, 1e-3*ohms)
	}
	for awg, ohms := range map[int]float64{22: 16.2, 24: 25.7, 26: 41.0, 28: 65.3, 30: 103.7, 32: 162.0, 34: 261.3, 36: 414.8, 38: 648.2, 40: 1079.2} {
		near(t, "NBS Handbook 100", float64(WireOhms(quantity.WireSize{Copper: quantity.AWG(awg)}, thousandFeet)), ohms, 0.035*ohms)
	}
	// calculatorlib.com: 5 A through 50 ft of 14 AWG, there and back: 1.26 V.
	near(t, "14 AWG", 5*float64(WireOhms(quantity.WireSize{Copper: quantity.AWG(14)}, 2*50*0.3048)), 1.26, 0.01)
	// 0.6 A through 1 m of 36 AWG loses 0.8 V (worked out by hand).
	near(t, "36 AWG", 0.6*float64(WireOhms(quantity.WireSize{Copper: quantity.AWG(36)}, 1)), 0.8, 0.02)
	// Factors of copper at 0, 40 and 60 °C by alpha = 0.00393 /K.
	w := quantity.WireSize{Copper: quantity.AWG(30)}
	for celsius, factor := range map[float64]float64{0: 0.9214, 40: 1.0786, 60: 1.1572} {
		near(t, "temperature", float64(WireOhmsAt(w, 1, quantity.Celsius(celsius))/WireOhms(w, 1)), factor, 5e-5)
	}
	if WireOhms(quantity.WireSize{}, 1) != 0 {
		t.Error("a wire without a size has resistance")
	}
}

// A resistor inside a model bears half its rating: 330 ohm at 15.074 mA turns
// 75 mW into heat, 60 % of 1/8 W, so 1/4 W is right.
func TestRating(t *testing.T) {
	heat := quantity.Watts(0.015074 * 0.015074 * 330)
	near(t, "heat", float64(heat), 0.07499, 1e-5)
	if r, ok := Rating(heat, heat); r != 0.25 || !ok {
		t.Errorf("rating %v %v", r, ok)
	}
	if r, ok := Rating(0.9, 0.9); r != 1 || ok {
		t.Errorf("0.9 W: %v %v", r, ok)
	}
	if r, _ := Rating(0.05, 0.2); r != 0.25 {
		t.Errorf("50 mW that may become 200 mW: %v", r)
	}
}

// A white lamp straight on a coin cell lights, although its "3.2 V" says no:
// 9.370, 7.499 and 5.417 mA from 3.0 V at 10, 20 and 40 ohm inside, 0.2287 mA
// from 2.5 V at 20 ohm. The four come from an independent calculation with an
// ideality of 2; two of them give a and c, all four must come back.
func TestLampOnCoinCell(t *testing.T) {
	made := nodal.Curve{A: 2.56622, B: 2 * nodal.Thermal, C: 23.94}
	lamp := flat(3, 0.01)
	lamp.Type.Forward = nil
	for _, i := range []quantity.Amps{0.0002, 0.002, 0.01, 0.02} {
		lamp.Type.Forward = append(lamp.Type.Forward, written(quantity.Point{Volts: made.Volts(i), Amps: i}))
	}
	for _, c := range []struct{ volts, inside, amps float64 }{{3, 10, 9.370e-3}, {3, 20, 7.499e-3}, {3, 40, 5.417e-3}, {2.5, 20, 0.2287e-3}} {
		in := single(c.volts, 0.005, lamp)
		in.Supply = Supply{Kind: written("battery"), Volts: written(quantity.Volts(c.volts)), Inside: written(quantity.Ohms(c.inside)), Cells: cells(1, "CR2032")}
		in.Branches[0].Resistor = written(Limiter{Kind: None})
		s, found := Solve(in)
		near(t, "current", float64(s.Branches[0].Current.Nominal), c.amps, 1.5e-3*c.amps)
		if over := c.amps > 0.003; has(found, ruleSupplyLimit) != over {
			t.Errorf("%+v: over the cell's 3 mA: %v, findings %v", c, over, rulesOf(found))
		}
		if has(found, ruleNoLimiter) {
			t.Errorf("%+v: %v", c, rulesOf(found))
		}
	}
}

// Constant current: AA at 100 mA 26 h, at 500 mA 3.2 h, at 250 mA 8.12 h
// between the two (capacities read off makers' graphs by kurokatta.org);
// 9 V at 25 mA with 550 mAh 22 h; CR2032 at 0.19 mA with 235 mAh 1,237 h
// (Energizer handbook 12006-A).
func TestSteadyLife(t *testing.T) {
	for _, c := range []struct {
		cell  string
		amps  quantity.Amps
		hours float64
		share float64
	}{{"LR6", 0.1, 26, 1e-9}, {"LR6", 0.5, 3.2, 1e-9}, {"LR6", 0.25, 8.12, 1e-3}, {"6LR61", 0.025, 22, 1e-9}, {"CR2032", 0.00019, 1237, 1e-3}} {
		life, err := SteadyLife(Supply{Cells: cells(1, c.cell)}, c.amps)
		if err != nil {
			t.Error(err)
		}
		near(t, c.cell, float64(life.ToEnd.Nominal), c.hours, c.share*c.hours)
	}
	if _, err := SteadyLife(Supply{Cells: cells(1, "LR99")}, 0.1); err == nil {
		t.Error("an unknown cell has a life")
	}
	if _, err := SteadyLife(Supply{Cells: cells(1, "LR6")}, 0); err == nil {
		t.Error("no current empties a cell")
	}
}

// Illuminator bundle: 75 strands of 0.5 mm behind 5 mm at 75 % packing
// (worked out by hand); a 5 mm lamp in 1/24 is a 12 cm lamp.
func TestFibreAndSize(t *testing.T) {
	if n := Strands(0.005, 0.0005); n != 75 {
		t.Errorf("%d strands", n)
	}
	if Strands(0, 1) != 0 || Strands(1, 0) != 0 {
		t.Error("strands without a size")
	}
	near(t, "full size", float64(FullSize(0.005, 24)), 0.12, 1e-12)
}
