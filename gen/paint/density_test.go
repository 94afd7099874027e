package paint

import (
	"slices"
	"testing"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// D = log10(I0/I) and T = 10^-D by definition (ISO 5-1:2009): density 1 passes
// a tenth, 2 a hundredth, 3 a thousandth; 1.2 and 0.9 add to 2.1, which passes
// 0.794 %.
func TestDensityByDefinition(t *testing.T) {
	for _, c := range []struct {
		without, with quantity.Lux
		want          float64
	}{{1000, 100, 1}, {1000, 10, 2}, {1000, 1, 3}, {1000, 1000, 0}, {1000, 500, 0.30103}, {10000, 1, 4}} {
		near(t, "density", Density(c.without, c.with), c.want, 1e-5)
	}
	for density, share := range map[float64]float64{0: 1, 1: 0.1, 2: 0.01, 3: 0.001, 4: 0.0001, 1.2 + 0.9: 0.00794} {
		near(t, "passing", float64(Passing(density)), share, 1e-5)
	}
}

func lux(v quantity.Lux) source.Value[quantity.Lux] { return w(v, v.String()) }

func lightTest(bare quantity.Lux, readings ...quantity.Lux) LightTest {
	test := LightTest{Where: word("hull side"), Bare: lux(bare), At: w(0, "light test").At}
	for i, r := range readings {
		test.Readings = append(test.Readings, LightTestReading{After: word([]string{"black", "silver", "white"}[i%3]), Lux: lux(r)})
	}
	return test
}

// 2000 lx bare, 40 lx after black, 10 after silver: log10(50) = 1.699 and
// log10(4) = 0.602, together 2.301; three are wanted, 0.699 are missing, which
// takes two more coats of 0.602.
func TestLightTestWorkedOut(t *testing.T) {
	test := lightTest(2000, 40, 10)
	b := test.Measure()
	near(t, "black", b.Coats[0].Density.Value, 1.69897, 1e-5)
	near(t, "silver", b.Coats[1].Density.Value, 0.60206, 1e-5)
	near(t, "total", b.Total.Value, 2.30103, 1e-5)
	near(t, "passing", b.Passing.Value, 0.005, 1e-11)
	near(t, "wanted", b.Wanted.Value, 2, 0)
	if b.Enough || !b.Target.Assumed || b.Target.Value != 3 {
		t.Errorf("enough %v, target %+v", b.Enough, b.Target)
	}
	find(t, b.Found, "light-blocking-thin")
}

// The room's own light is taken off every reading.
func TestDarkRoomIsTakenOff(t *testing.T) {
	test := lightTest(1005, 15)
	test.Dark = lux(5)
	near(t, "density", test.Measure().Total.Value, 2, 1e-12)
}

func TestLightTestLimits(t *testing.T) {
	below := lightTest(500, 20, 0)
	if b := below.Measure(); !b.AtLeast || !b.Coats[1].AtLeast || b.Enough {
		t.Errorf("%+v", b)
	} else {
		near(t, "at least", b.Total.Value, 2.69897, 1e-5) // 500 lx against the meter's 1 lx
		find(t, b.Found, "light-below-meter")
	}
	fine := lightTest(500, 20, 0)
	fine.Meter = lux(0.1)
	if b := fine.Measure(); !b.AtLeast || !b.Enough || len(b.Found) > 0 {
		t.Errorf("at least 3.7 is enough for 3: %+v", b)
	}
	brighter := lightTest(500, 600)
	find(t, brighter.Measure().Found, "light-reading")
	bright := lightTest(3)
	bright.Dark = lux(4)
	find(t, bright.Measure().Found, "light-reading")
	target := lightTest(10000, 5)
	target.Target = w(4.0, "4")
	if b := target.Measure(); b.Target.Assumed || b.Wanted.Value != 1 {
		t.Errorf("%+v", b)
	}
}

// Densities of coats add up to the density of all.
func FuzzLightTest(f *testing.F) {
	f.Add(2000.0, 40.0, 10.0, 0.0)
	f.Add(1.0, 0.0, -1.0, 2.0)
	f.Fuzz(func(t *testing.T, bare, one, two, dark float64) {
		test := lightTest(quantity.Lux(bare), quantity.Lux(one), quantity.Lux(two))
		test.Dark = lux(quantity.Lux(dark))
		b := test.Measure()
		sum := 0.0
		for _, c := range b.Coats {
			sum += c.Density.Value
		}
		if len(b.Coats) > 0 && !(sum >= 0 && sum < 700 && abs(sum-b.Total.Value) < 1e-6*max(1, sum)) {
			t.Errorf("coats add to %v, all together %v", sum, b.Total.Value)
		}
	})
}

func abs(v float64) float64 { return max(v, -v) }

func TestDecalLedger(t *testing.T) {
	sheets := source.Entries[[]Marking]{{Name: word("main sheet"), Value: []Marking{
		{Number: word("1"), What: word("name, port bow")}, {Number: word("2"), What: word("draught marks"), Count: w(4, "4")}, {Number: word("3"), What: word("spare"), Count: w(0, "0")}}}}
	counts, found := Ledger(sheets, []MarkingWork{
		{Number: word("2"), Count: w(2, "2")}, {Number: word("2"), Event: word("spoilt")}, {Number: word("1")}})
	want := []MarkCount{{"main sheet", "1", "name, port bow", 1, 1, 0, 0}, {"main sheet", "2", "draught marks", 4, 2, 1, 1}, {"main sheet", "3", "spare", 0, 0, 0, 0}}
	if !slices.Equal(counts, want) || len(found) > 0 {
		t.Errorf("%+v, %v", counts, found)
	}
	_, found = Ledger(sheets, []MarkingWork{{Number: word("1"), Count: w(2, "2")}, {Number: word("1")}, {Number: word("9")}})
	if got := rules(found); !slices.Equal(got, []string{"decal-overdrawn", "decal-unknown"}) || len(found) != 2 {
		t.Errorf("%v", found)
	}
}

// Decals that the ledger knows to be placed are checked against the gloss coat
// though no sitting logged a coat of decals.
func TestPlacingsAreCheckedAgainstCoats(t *testing.T) {
	a := done(area("hull", Styrene), days3, coat("hull-grey", Base), coat("matt-clear", Matt))
	b := &Build{Moment: on(28, 0, 0), Paints: rack(), Areas: []Area{a},
		Sheets: source.Entries[[]Marking]{{Name: word("sheet"), Value: []Marking{{Number: word("1")}}}},
		Placed: []MarkingWork{{Number: word("1"), Area: word("hull"), When: on(20, 12, 0)}}}
	find(t, Check(b).Findings, "decals-over-matt")
	// Where the sitting logged decals with their hour, that hour counts.
	b.Areas[0].Laid = append(b.Areas[0].Laid[:2], Laid{Coat: Coat{Paint: word("decals")}, At: w(0, "decals").At, When: on(20, 9, 0)})
	if n := len(Check(b).Areas[0].Area.Laid); n != 3 || len(b.Areas[0].Laid) != 3 {
		t.Errorf("%d coats, the placing was counted beside the coat of decals", n)
	}
}
