package paint

import (
	"slices"
	"testing"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// portions are those of a mix.
type portions = source.Entries[source.Value[quantity.Portion]]

func part(what, amount string) source.Entry[source.Value[quantity.Portion]] {
	var p quantity.Portion
	if err := p.UnmarshalText([]byte(amount)); err != nil {
		panic(err)
	}
	return source.Entry[source.Value[quantity.Portion]]{Name: word(what), Value: w(p, amount)}
}

// 2:1:3 in a cup of 12 ml is 4, 2 and 6 ml.
func TestRatioOfSeveralParts(t *testing.T) {
	p := ByRatio(quantity.Mix{2, 1, 3}, []string{"paint", "retarder"}, 12e-3, 0)
	for i, want := range []Poured{{"paint", 1.0 / 3, 4e-3, 80, true}, {"retarder", 1.0 / 6, 2e-3, 40, true}, {"part 3", 0.5, 6e-3, 120, true}} {
		got := p.Portions[i]
		near(t, want.What, float64(got.Volume), float64(want.Volume), 1e-12)
		near(t, want.What, float64(got.Share), float64(want.Share), 1e-12)
		if got.What != want.What || got.Drops != want.Drops || !got.Known {
			t.Errorf("%+v, want %+v", got, want)
		}
	}
	if !p.Drop.Assumed || p.Drop.Text() != "50 µl" || p.Drop.Range() != "45 to 55 µl" { // USP 32, chapter 1101: 45 to 55 mg of water
		t.Errorf("%+v", p.Drop)
	}
	near(t, "error of whole drops", p.Worst.Value, 0, 1e-9)
}

// Volumes always add up to the cup, and whole drops say how far they are off.
func TestMixAddsUp(t *testing.T) {
	for _, ratio := range []quantity.Mix{{1, 1.5}, {1, 7}, {3, 1, 1, 0.5}, {0, 1}, {1000, 1}} {
		p := ByRatio(ratio, nil, 3e-3, 30e-6)
		var volume quantity.Litres
		for _, x := range p.Portions {
			volume += x.Volume
		}
		near(t, ratio.String(), float64(volume), 3e-3, 1e-15)
	}
	p := ByRatio(quantity.Mix{1, 7}, nil, 0.5e-3, 0) // 1.25 and 8.75 drops: 1 and 9
	if p.Portions[0].Drops != 1 || p.Portions[1].Drops != 9 {
		t.Errorf("%+v", p.Portions)
	}
	near(t, "1/10 against 1/8", p.Worst.Value, 2.5, 1e-9)
}

func TestRecordedMix(t *testing.T) {
	m := Mix{Name: word("faded hull"), Parts: portions{part("hull-grey", "12 drops"), part("panel-grey", "6 drops"), part("thinner", "0.9 ml")}}
	p := m.Pour(0, 0)
	near(t, "as recorded", float64(p.Total), 1.8e-3, 1e-12)
	near(t, "share of thinner", float64(p.Portions[2].Share), 0.5, 1e-12)
	again := m.Pour(9e-3, 0)
	near(t, "hull-grey in 9 ml", float64(again.Portions[0].Volume), 3e-3, 1e-12)

	parts := Mix{Name: word("x"), Parts: portions{part("a", "3 parts"), part("b", "1")}}
	if p := parts.Pour(0, 0); p.Known || p.Portions[0].Known || p.Portions[0].Share != 0.75 {
		t.Errorf("parts alone have no volume: %+v", p)
	}
	mixed := Mix{Name: word("x"), Parts: portions{part("a", "3 parts"), part("b", "2 ml")}}
	find(t, mixed.Pour(0, 0).Found, "mix-of-measures")
	few := Mix{Name: word("x"), Parts: portions{part("a", "20 drops"), part("b", "1 drop")}}
	find(t, few.Pour(0, 0).Found, "mix-small-drop-count")
	none := Mix{Name: word("x"), Parts: portions{part("a", "0 drops")}}
	if p := none.Pour(1e-3, 0); len(p.Portions) != 0 {
		t.Errorf("%+v", p)
	}
}

// A mix is a paint with the family of its paints and the slowest of their times.
func TestMixIsAPaint(t *testing.T) {
	paints := Shelf{}
	for _, p := range rack() {
		paints[p.Name.V] = &p
	}
	paints["panel-grey"].Measured.MaskAfter = hours(40)
	paints["hull-grey"].RecoatUntil, paints["panel-grey"].RecoatUntil = hours(6), hours(3)
	m := Mix{Name: word("faded hull"), Parts: portions{part("hull-grey", "2"), part("panel-grey", "1"), part("thinner", "3")}}
	p, found := m.Paint(paints)
	if p.Family.V != Lacquer || p.MaskAfter.V != 40 || p.RecoatUntil.V != 3 || len(found) > 0 {
		t.Errorf("%+v, %v", p, found)
	}
	bad := Mix{Name: word("x"), Parts: portions{part("hull-grey", "2"), part("black", "1")}}
	_, found = bad.Paint(paints)
	if f := find(t, found, "mix-of-families"); f.At.Text() != "black" {
		t.Errorf("at %q", f.At.Text())
	}
}

// The published tables of each rule, and nothing outside them.
func TestLightening(t *testing.T) {
	for _, c := range []struct {
		rule  string
		ratio float64
		want  float64 // per cent of white
	}{{"7-10-15", 32, 7}, {"7-10-15", 48, 10}, {"7-10-15", 72, 15}, {"7-10-15", 40, 8.5}, {"halved", 32, 16}, {"halved", 48, 24}, {"halved", 72, 36}, {"15-25-33", 32, 15}, {"15-25-33", 48, 25}, {"15-25-33", 72, 33}} {
		rule, ok := FindLightening(c.rule)
		if !ok {
			t.Fatal(c.rule)
		}
		got, ok := rule.Lighten(rgb(0x40, 0x40, 0x40), c.ratio)
		if !ok {
			t.Errorf("%s says nothing at 1/%v", c.rule, c.ratio)
		}
		near(t, c.rule, got.White.Value, c.want, 1e-9)
	}
	gentle, _ := FindLightening("7-10-15")
	for _, ratio := range []float64{24, 144} {
		if _, ok := gentle.Lighten(Colour{}, ratio); ok {
			t.Errorf("the rule was given for 1/32 to 1/72, not for 1/%v", ratio)
		}
	}
	if _, ok := FindLightening("none"); ok {
		t.Error("there is no such rule")
	}
	// Black with 15 % of white light has luminance 0.15, in sRGB #6c6c6c: 0.15 = ((v+0.055)/1.055)^2.4, v = 0.4245 = 108/255.
	if got, _ := gentle.Lighten(Colour{}, 72); got.To != rgb(108, 108, 108) {
		t.Errorf("black at 1/72: %s", got.To)
	}
	if got, _ := gentle.Lighten(rgb(255, 255, 255), 72); got.To != rgb(255, 255, 255) {
		t.Errorf("white at 1/72: %s", got.To)
	}
}

// A lamp through clear paint: plain clear changes nothing, red takes green and
// blue away, two coats more than one, and none of it brightens.
func TestLitColour(t *testing.T) {
	white, red := rgb(255, 255, 255), rgb(200, 20, 20)
	if got := Lit(white, white, 3); got.Colour != white || got.Passing.Value < 99.999 {
		t.Errorf("through plain clear: %+v", got)
	}
	one, two := Lit(white, red, 1), Lit(white, red, 2)
	if one.Colour.R != 255 || one.Colour.G <= two.Colour.G || two.Passing.Value >= one.Passing.Value || one.Estimate == "" {
		t.Errorf("one coat %+v, two coats %+v", one, two)
	}
	if got := Lit(white, red, 2); got.Colour.G != (Linear{1, LinearOf(red).G / LinearOf(red).R, 0}).Colour().G {
		t.Errorf("two single passes are the swatch's double pass: %s", got.Colour)
	}
	if got := Lit(Colour{}, red, 1); got.Passing.Value != 0 {
		t.Errorf("a dark lamp: %+v", got)
	}
}

// Thresholds: 0.8 and 1.8 by Paravina and others (2015), 3.5 by Mokrzycki and Tatol (2011).
func TestVerdicts(t *testing.T) {
	grey := func(v uint8) Colour { return rgb(v, v, v) }
	for _, c := range []struct {
		one, two Colour
		verdict  Verdict
		match    bool
	}{{grey(128), grey(128), Same, true}, {grey(128), grey(129), Same, true}, {grey(128), grey(131), Subtle, true}, {grey(128), grey(133), Subtle, false}, {grey(128), grey(150), Distinct, false}, {rgb(255, 0, 0), rgb(0, 255, 0), Distinct, false}} {
		got := Compare(c.one, c.two)
		if got.Verdict != c.verdict || got.Match != c.match {
			t.Errorf("%s and %s: ΔE00 %.2f, %s, match %v", c.one, c.two, got.Difference.Value, got.Verdict, got.Match)
		}
	}
}

func TestMeetings(t *testing.T) {
	hull := done(area("hull", Styrene), days3, coat("grey-primer", Primer), coat("hull-grey", Base), coat("panel-grey", PanelTone))
	deck := done(area("deck", Styrene), days3, coat("deck-green", Base))
	hull.Meets, deck.Meets = []source.Value[string]{word("deck")}, []source.Value[string]{word("hull"), word("nowhere")}
	r := check(hull, deck)
	var got []string
	for _, a := range r.Areas {
		for _, m := range a.Meets {
			got = append(got, a.Name+": "+m.Mine+" / "+m.With+": "+m.Other+" "+m.Verdict.String())
		}
	}
	want := []string{"hull: hull-grey / hull: panel-grey clear difference", "hull: hull-grey / deck: deck-green clear difference", "hull: panel-grey / deck: deck-green clear difference"}
	if !slices.Equal(got, want) {
		t.Errorf("%q", got)
	}
}

// Cautions appear for what is used and for nothing else.
func TestCautions(t *testing.T) {
	subjects := func(areas ...Area) (out []string) {
		for _, c := range check(areas...).Cautions {
			out = append(out, c.Subject.Form)
			if c.Text.Empty() || c.Source == "" {
				t.Errorf("%+v", c)
			}
		}
		return out
	}
	if got := subjects(area("hull", Styrene)); len(got) != 0 {
		t.Errorf("nothing used: %q", got)
	}
	a := with(done(area("hull", Resin), days3, coat("grey-primer", Primer), coat("gloss-clear", Gloss)), treated(Straightened, Sanded, Washed))
	if got, want := subjects(a), []string{"waterborne paint", "lacquer", "hot water", "sanding resin and printed parts"}; !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
	if got := subjects(done(area("hull", Styrene), days3, coat("hardener-clear", Gloss))); !slices.Equal(got, []string{"two-pack paint"}) {
		t.Errorf("%q", got)
	}
}
