package circuit

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"spruelight/gen/quantity"
)

// mast is a string of three on 12 V beside a single lamp, both on one feed.
func mast() Input {
	lamp := func() Fitted { l := white(); l.Type.Spread = written(quantity.Volts(0.1)); return l }
	return Input{Supply: Supply{Volts: written(quantity.Volts(12)), Kind: written("mains adapter"), Regulated: written(true), Limit: written(quantity.Amps(1))}, Circuit: Circuit{
		Name: written("mast"), Switch: written("slide switch"), Fuse: Fuse{Rated: written(quantity.Amps(0.5))}, Feed: awg(28, 0.4),
		Branches: []Branch{
			{Name: written("deck"), Lamps: []Fitted{lamp(), lamp(), lamp()}, Current: written(quantity.Amps(0.005)), Lead: awg(34, 0.2)},
			{Name: written("lantern"), Lamps: []Fitted{lamp()}, Current: written(quantity.Amps(0.005)), Lead: awg(34, 0.2)},
		},
	}}
}

func mustSolve(t *testing.T, in Input) Solution {
	t.Helper()
	s, found := Solve(in)
	if !s.Solved {
		t.Fatalf("not solved: %v", found)
	}
	return s
}

// References run in reading order, and a second circuit goes on from the first.
func TestReferences(t *testing.T) {
	s := mustSolve(t, mast())
	if s.Supply.Ref != "B1" || s.Fuse.Ref != "F1" || s.Switch.Ref != "S1" || s.Branches[0].Ref != "R1" || s.Branches[1].Ref != "R2" || s.Branches[1].Lamps[0].Ref != "D4" {
		t.Errorf("%s %s %s %s %s %s", s.Supply.Ref, s.Fuse.Ref, s.Switch.Ref, s.Branches[0].Ref, s.Branches[1].Ref, s.Branches[1].Lamps[0].Ref)
	}
	in := mast()
	in.First = s.Next
	two := mustSolve(t, in)
	if two.Branches[0].Lamps[0].Ref != "D5" || two.Branches[0].Ref != "R3" || two.Fuse.Ref != "F2" || two.Points[0].Number != len(s.Points)+1 {
		t.Errorf("second circuit: %s %s %s TP%d", two.Branches[0].Lamps[0].Ref, two.Branches[0].Ref, two.Fuse.Ref, two.Points[0].Number)
	}
}

// Opening a lamp of a string darkens the string and nothing else; shorting it
// raises the string's current by what its voltage was worth.
func TestFaults(t *testing.T) {
	s := mustSolve(t, mast())
	if len(s.Faults) != 8 {
		t.Fatalf("%d faults of 4 lamps", len(s.Faults))
	}
	for _, f := range s.Faults {
		if f.Lamp != "D2" {
			continue
		}
		switch f.Kind {
		case Open:
			if !slices.Equal(f.Dark, []string{"D1", "D3"}) || f.Hottest != 0 {
				t.Errorf("D2 open: dark %v, hottest %v", f.Dark, f.Hottest)
			}
		case Short:
			// Two lamps left of 2.87 V and the same resistor: (12 − 2·2.97) / 680.
			if len(f.Dark) != 0 || f.Hottest < 0.0085 || f.Hottest > 0.0098 {
				t.Errorf("D2 short: dark %v, hottest %v", f.Dark, f.Hottest)
			}
		}
	}
	side := mast()
	side.Branches[0].Parallel = written(true)
	side.Branches[0].Current = written(quantity.Amps(0.018))
	s = mustSolve(t, side)
	climbs := false
	for _, f := range s.Faults {
		climbs = climbs || f.Kind == Open && f.Branch == 0 && len(f.Over) == 2
	}
	if !climbs {
		t.Error("survivors beside a lamp that failed open do not climb above their rating")
	}
}

// Four lamps of 20 mA on one resistor: when one fails open the others take its
// part, 26 mA and a little (trade reports: from 20 to 27 mA).
func TestSurvivorsClimb(t *testing.T) {
	in := single(5, 0.020, flat(3, 0.02), flat(3, 0.02), flat(3, 0.02), flat(3, 0.02))
	in.Branches[0].Parallel = written(true)
	in.Branches[0].Resistor = written(Limiter{Kind: Fixed, Ohms: 25})
	s := mustSolve(t, in)
	for _, f := range s.Faults {
		if f.Kind == Open && (f.Hottest < 0.0245 || f.Hottest > 0.0275) {
			t.Errorf("%s open: %v", f.Lamp, f.Hottest)
		}
	}
}

// The meter card goes from the supply to the lamps, each point with its band.
func TestPoints(t *testing.T) {
	s := mustSolve(t, mast())
	var where []string
	for k, p := range s.Points {
		where = append(where, p.Where.String())
		if p.Number != k+1 || p.Volts.Low > p.Volts.Nominal || p.Volts.High < p.Volts.Nominal {
			t.Errorf("%+v", p)
		}
	}
	want := []string{"supply plus", "after fuse F1", "after switch S1", "first junction, plus", "deck, between R1 and D1", "deck, between D1 and D2", "deck, between D2 and D3", "lantern, between R2 and D4"}
	if !slices.Equal(where, want) {
		t.Errorf("points %q", where)
	}
	for _, b := range s.Branches {
		if b.Current.Low >= b.Current.Nominal || b.Current.High <= b.Current.Nominal {
			t.Errorf("%s: %v", b.Name, b.Current)
		}
	}
}

// Readings made up from a solved fault are traced back to that fault, within
// a meter's error: the likeliest cause is named from the pattern.
func TestDiagnosis(t *testing.T) {
	amps := func(where string, i quantity.Amps) Reading {
		return Reading{Where: written(where), Current: written(i)}
	}
	volts := func(where string, v quantity.Volts) Reading { return Reading{Where: written(where), Volts: written(v)} }
	for _, c := range []struct {
		name     string
		readings []Reading
		cause    string
	}{
		{"all as expected", []Reading{amps("deck", 0.0048), amps("lantern", 0.0049)}, ""},
		{"the string dead, its middle lamp has the whole supply over it", []Reading{amps("deck", 0), volts("D2", 12), amps("lantern", 0.0049)}, "D2 open, fitted the wrong way round"},
		{"the string dead, no voltage below the first lamp", []Reading{amps("deck", 0), volts("TP5", 12), volts("TP6", 0)}, "D1 open"},
		{"a dead string and nothing else measured", []Reading{amps("deck", 0), amps("lantern", 0.0049)}, "open"},
		{"two lamps left in the string", []Reading{amps("deck", 0.0091), volts("D3", 0)}, "D3 short"},
		{"ten times the resistor", []Reading{amps("lantern", 0.00052), amps("deck", 0.0048)}, "R2 is 20k instead of 2k0"},
		{"another resistor", []Reading{amps("lantern", 0.0027), amps("deck", 0.0048)}, "R2 is 3k3 instead of 2k0"},
		{"everything dim", []Reading{volts("supply", 10.2), amps("deck", 0.0026), amps("lantern", 0.0041)}, "the supply gives about 10."},
		{"everything bright", []Reading{volts("supply", 15), amps("lantern", 0.0067), amps("deck", 0.0090)}, "the supply gives about 15."},
		{"everything dark", []Reading{volts("TP1", 0), amps("deck", 0), amps("lantern", 0)}, "no supply"},
		{"nonsense", []Reading{amps("deck", 0.02), amps("lantern", 0.0001), volts("TP1", 12)}, "no single fault"},
	} {
		in := mast()
		in.Readings = c.readings
		s, found := Solve(in)
		if len(s.Judged) != len(c.readings) {
			t.Errorf("%s: %d readings judged, findings %v", c.name, len(s.Judged), found)
		}
		if c.cause == "" {
			if len(s.Verdicts) > 0 || has(found, ruleReading) {
				t.Errorf("%s: %+v", c.name, s.Verdicts)
			}
			continue
		}
		if len(s.Verdicts) != 1 || !strings.Contains(s.Verdicts[0].Cause.String(), c.cause) || !has(found, ruleReading) {
			t.Errorf("%s: %+v", c.name, s.Verdicts)
		}
	}
	in := mast()
	in.Supply = Supply{Kind: written("battery"), Cells: cells(8, "LR6")}
	in.Readings = []Reading{amps("lantern", 0.0038), amps("deck", 0.0017), volts("supply", 9.6)}
	s, _ := Solve(in)
	if len(s.Verdicts) != 1 || !strings.HasPrefix(s.Verdicts[0].Cause.String(), "flat cells") {
		t.Errorf("flat cells: %+v", s.Verdicts)
	}
	in.Readings = []Reading{{Where: written("deck"), Current: written(quantity.Amps(0.005)), Volts: written(quantity.Volts(1))}, volts("TP99", 3), amps("nowhere", 0.1)}
	if s, found := Solve(in); !has(found, ruleReadingPlace) || len(s.Judged) != 0 {
		t.Errorf("bad places: %v %v", s.Judged, rulesOf(found))
	}
}

// Every single fault of every lamp in a few circuits, read off the solved
// fault at all places of the card, is named or among the named.
func TestEveryFaultIsFound(t *testing.T) {
	in := mast()
	p := newPlan(&in)
	b := newBench(p)
	b.chooseResistors()
	s := mustSolve(t, mast())
	for i := range p.branches {
		for k := range p.branches[i].Lamps {
			for _, kind := range []FaultKind{Open, Short} {
				st, ok := b.failed(i, k, kind, map[faultCase]*state{})
				if !ok {
					t.Fatal("not solved")
				}
				hurt := mast()
				for _, point := range s.Points {
					v := st.at(&point)
					hurt.Readings = append(hurt.Readings, Reading{Where: written(fmt.Sprintf("TP%d", point.Number)), Volts: written(quantity.Volts(v))})
				}
				for n, br := range s.Branches {
					hurt.Readings = append(hurt.Readings, Reading{Where: written(br.Name), Current: written(quantity.Amps(st.op.Currents[n]))})
				}
				got := mustSolve(t, hurt)
				ref := p.branches[i].Lamps[k].Ref
				if len(got.Verdicts) != 1 || !strings.HasPrefix(got.Verdicts[0].Cause.String(), ref+" "+string(kind)) {
					t.Errorf("%s %s: %+v", ref, kind, got.Verdicts)
				}
			}
		}
	}
}

// Matched lamps: equal ones do not show, a fifth apart does; where intensities
// are declared those are compared.
func TestMatched(t *testing.T) {
	in := harness()
	s := mustSolve(t, in)
	if len(s.Matched) != 1 || s.Matched[0].Shows || s.Matched[0].Ratio > 1.01 || s.Matched[0].Worst < 1.1 || s.Matched[0].ByLight {
		t.Errorf("%+v", s.Matched)
	}
	in.Branches[1].Current.V = 0.0082
	if s = mustSolve(t, in); !s.Matched[0].Shows {
		t.Errorf("%+v", s.Matched[0])
	}
	for k, mcd := range []quantity.Candelas{1.0, 1.25} {
		in.Branches[k].Lamps[0].Type.Intensity = written(quantity.Brightness{Candelas: mcd, Amps: 0.02})
	}
	if s = mustSolve(t, in); s.Matched[0].Shows || !s.Matched[0].ByLight {
		t.Errorf("dimmer current on the brighter lamp: %+v", s.Matched[0])
	}
}

// Average and peak: a blinking lamp counts at its duty, a fade at 29 %.
func TestControls(t *testing.T) {
	in := harness()
	in.Branches[0].Control = written(Control{Kind: Blink, Frequency: 1.2, Duty: 0.2})
	in.Branches[1].Control = written(Control{Kind: Fade, Period: 4.0 / 3600})
	s := mustSolve(t, in)
	near(t, "blink", float64(s.Branches[0].Average/s.Branches[0].Current.Nominal), 0.2, 1e-12)
	near(t, "fade", float64(s.Branches[1].Average/s.Branches[1].Current.Nominal), 0.2898, 1e-4)
	near(t, "total", float64(s.Total.Average), float64(s.Branches[0].Average+s.Branches[1].Average), 1e-15)
}

// Cells: the hours agree with capacity over current where the current hardly
// changes; cells side by side last longer, a declared curve is followed, and
// lamps close to the cells' voltage fade before the end.
func TestCellLife(t *testing.T) {
	in := mast()
	in.Supply = Supply{Kind: written("battery"), Cells: cells(8, "LR6")}
	in.Branches = in.Branches[1:]
	in.Branches[0].Driver = driver(0.1, 0.5) // 100 mA: 2.6 Ah
	in.Branches[0].Lamps[0].Type.Limit = written(quantity.Amps(0.2))
	s := mustSolve(t, in)
	near(t, "AA at 100 mA", float64(s.Cells.ToEnd.Nominal), 26, 0.5)
	if s.Cells.Cells.String() != "8 × LR6" || s.Cells.ToEnd.Low >= s.Cells.ToEnd.Nominal || s.Cells.ToEnd.High <= s.Cells.ToEnd.Nominal || s.Cells.ToHalf.Nominal != 0 {
		t.Errorf("%+v", s.Cells)
	}
	in.Supply.Cells.V.Parallel = 2
	if two := mustSolve(t, in); two.Cells.ToEnd.Nominal < 2*s.Cells.ToEnd.Nominal {
		t.Errorf("two rows of cells give %v, one %v", two.Cells.ToEnd.Nominal, s.Cells.ToEnd.Nominal)
	}
	in = single(4.5, 0.005, white())
	in.Supply = Supply{Kind: written("battery"), Cells: cells(3, "LR6")}
	s = mustSolve(t, in)
	if h := s.Cells.ToHalf; !(h.Nominal > 0 && h.Nominal < s.Cells.ToEnd.Nominal) {
		t.Errorf("white on 4.5 V: half light after %v, end after %v", h, s.Cells.ToEnd)
	}
	declared := single(9, 0.005, white())
	declared.Supply = Supply{Kind: written("battery"), Volts: written(quantity.Volts(9)), Capacity: written(quantity.AmpHours(0.5)), Ends: written(quantity.Volts(6))}
	for _, d := range []Depth{{9.5, 0}, {8, 0.5}, {6, 1}} {
		declared.Supply.Discharge = append(declared.Supply.Discharge, written(d))
	}
	s = mustSolve(t, declared)
	if h := float64(s.Cells.ToEnd.Nominal); h < 95 || h > 135 { // 500 mAh at about 4.6 mA
		t.Errorf("declared curve: %v", s.Cells.ToEnd)
	}
	declared.Supply.Discharge[2].V.Volts = 8.5
	if _, found := Solve(declared); !has(found, ruleSupplyValue) {
		t.Errorf("a rising discharge curve passes: %v", rulesOf(found))
	}
	// Halving the steps hardly changes the hours: the sum has converged.
	bank := harness()
	bank.Supply = Supply{Kind: written("power bank"), Capacity: written(quantity.AmpHours(10))}
	s = mustSolve(t, bank)
	// 3.7 V × 10 Ah × 85 % / (5 V × 19.9 mA).
	near(t, "power bank", float64(s.Cells.ToEnd.Nominal), 3.7*10*0.85/(5*0.01994), 1)
}

// Cautions come with what calls for them and only then.
func TestCautions(t *testing.T) {
	for _, c := range []struct {
		supply Supply
		words  string
	}{
		{Supply{Kind: written("battery"), Cells: cells(1, "CR2032")}, "Button cells"},
		{Supply{Kind: written("power bank")}, "lithium"},
		{Supply{Kind: written("mains adapter"), Volts: written(quantity.Volts(12))}, "licensed electrician"},
		{Supply{Kind: written("battery"), Cells: cells(3, "LR6")}, "leak"},
		{Supply{Kind: written("battery"), Cells: cells(1, "18650"), Volts: written(quantity.Volts(3.7))}, "protected"},
	} {
		in := harness()
		in.Supply = c.supply
		s, _ := Solve(in)
		if text := fmt.Sprint(s.Cautions); !strings.Contains(text, c.words) || strings.Contains(text, "seizures") {
			t.Errorf("%s: %q", c.supply.Kind.V, text)
		}
		in.Branches[0].Control = written(Control{Kind: Blink, Frequency: 5, Duty: 0.5})
		if s, _ = Solve(in); !strings.Contains(fmt.Sprint(s.Cautions), "seizures") {
			t.Error("fast flashing draws no caution")
		}
	}
}

// What nobody wrote is listed as assumed, once, with whom it concerns.
func TestAssumed(t *testing.T) {
	in := Input{Supply: Supply{Kind: written("usb")}, Circuit: Circuit{Name: written("bare"), Branches: []Branch{
		{Name: written("fore"), Lamps: []Fitted{{Type: Lamp{Colour: written("red")}}}}, {Name: written("aft"), Lamps: []Fitted{{Type: Lamp{Colour: written("red")}}}}}}}
	s := mustSolve(t, in)
	text := fmt.Sprint(s.Assumed)
	for _, want := range []string{"supply of 5 V", "supply voltage within 5 %", "the USB port gives 500 mA", "wanted current 5 mA (fore, aft)", "typical curve of a red lamp (red lamp)", "E24", "no wire is written"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not among the assumptions:\n%s", want, text)
		}
	}
	if s.Branches[0].Wanted != 0.005 || !s.Branches[0].Assumed {
		t.Errorf("wanted %v", s.Branches[0].Wanted)
	}
}
