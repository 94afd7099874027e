package scale

import (
	"math"
	"strings"
	"testing"

	"spruelight/gen/quantity"
)

func scales(t testing.TB, texts ...string) (out []quantity.Scale) {
	for _, text := range texts {
		out = append(out, written[quantity.Scale](t, text).V)
	}
	return out
}

// Handbook arithmetic: the inch to the foot of ship modelling (chart of
// equivalents, shipmodelersdesktop.com), worked by proportion.
func TestConversions(t *testing.T) {
	s := scales(t, "1/72", "1/48", "1/4 in to the foot", "1/35", "1/700")
	for _, c := range []struct {
		got  quantity.Figure
		want float64
		unit string
	}{
		{ToModel(0.3048, s[2]), 0.00635, "m"}, // one foot is a quarter inch
		{ToModel(9.4, s[1]), 0.1958333, "m"},
		{ToReal(0.001, s[0]), 0.072, "m"}, // a 1 mm gap at 1/72
		{ToReal(0.204, s[1]), 9.792, "m"},
		{ToReal(0.38, s[4]), 266, "m"},
		{Between(0.1, s[0], s[1]), 0.15, "m"},
		{Enlargement(s[0], s[1]), 1.5, "share"},
		{Enlargement(s[1], s[0]), 0.6666667, "share"},
		{Enlargement(s[3], s[1]), 0.7291667, "share"}, // 35/48
		{AreaFactor(s[0], s[1]), 2.25, ""},
		{VolumeFactor(s[0], s[1]), 3.375, ""},
	} {
		if math.Abs(c.got.Value-c.want) > 1e-4*c.want || c.got.Unit != c.unit || c.got.Working.Empty() || c.got.Source == "" {
			t.Errorf("%s: %v %s (%s), want %v %s", c.got.Name, c.got.Value, c.got.Unit, c.got.Working, c.want, c.unit)
		}
	}
}

// There and back is where one began; one step equals two.
func TestConversionsAgree(t *testing.T) {
	r := newRandom(4)
	for range 2000 {
		a, b := quantity.Scale{Ratio: 1 + 999*r.Float64()}, quantity.Scale{Ratio: 1 + 999*r.Float64()}
		l := quantity.Metres(0.001 + r.Float64())
		if back := a.Model(a.Real(l)); math.Abs(float64(back-l)) > 1e-12 {
			t.Fatalf("%v comes back as %v", l, back)
		}
		direct := Between(l, a, b)
		if math.Abs(direct.Value-float64(b.Model(a.Real(l)))) > 1e-9*direct.Value {
			t.Fatalf("%v from %v to %v: %v", l, a, b, direct.Value)
		}
		if k := Enlargement(a, b).Value * Enlargement(b, a).Value; math.Abs(k-1) > 1e-12 {
			t.Fatalf("enlarging and reducing: %v", k)
		}
	}
}

func estimate(ratio, half float64) Estimate {
	return Estimate{Ratio: ratio, Span: Interval{ratio - half, ratio + half}}
}

func TestPairs(t *testing.T) {
	skiff := Member{Name: "skiff", Estimates: []Estimate{estimate(46.1, 0.3)}}
	box := Member{Name: "boat", Estimates: []Estimate{estimate(48, 0)}, Stated: true}
	wide := Member{Name: "crane", Estimates: []Estimate{estimate(47, 2)}}
	liner := Member{Name: "liner", Estimates: []Estimate{estimate(458, 1), estimate(441, 1)}}
	other := Member{Name: "tug", Estimates: []Estimate{estimate(441.5, 1)}}
	for _, c := range []struct {
		a, b   Member
		share  Answer
		larger string
		text   string
	}{
		{skiff, wide, Yes, "", "may share one scale"},
		{box, wide, Yes, "", "may share one scale"},
		// 48/46.4 = 1.0345, 48/45.8 = 1.0480
		{skiff, box, No, "skiff", "skiff is too large by 3 to 5 %"},
		{box, skiff, No, "skiff", "skiff is too large by 3 to 5 %"},
		{liner, other, Depends, "tug", "depending on whose sizes one believes; else tug is too large by 3 to 4 %"},
	} {
		p := pair(c.a, c.b)
		if p.Share != c.share || p.Larger != c.larger || !strings.HasSuffix(p.Text.String(), c.text) {
			t.Errorf("%s and %s: %v, %q, %q", c.a.Name, c.b.Name, p.Share, p.Larger, p.Text)
		}
	}
	// 458/46.1 = 9.93
	if p := pair(skiff, liner); p.Text.String() != "skiff is too large by a factor of 9.9" || p.Near() {
		t.Errorf("%q", p.Text)
	}
	near, far := Split(Pairs([]Member{skiff, box, liner, other, wide}))
	if len(near) != 4 || len(far) != 6 || near[0].Share != Yes || near[2].Share != Depends || near[3].Share != No ||
		far[0].Off.Low > far[5].Off.Low {
		t.Errorf("near %v, far %v", near, far)
	}
	if n := len(Pairs([]Member{skiff, box, wide, liner})); n != 6 {
		t.Errorf("%d pairs of four", n)
	}
}

// A house of 9.2 m beside a model at 1/46.1: it must be 199.6 mm; 1/45 makes it
// 2.4 % too large (46.1/45 = 1.0244), 1/48 4.0 % too small (46.1/48 = 0.9604).
func TestStandBeside(t *testing.T) {
	c := StandBeside(9.2, estimate(46.1, 0.3))
	if math.Abs(c.Wanted.Millimetres()-199.566) > 0.001 {
		t.Errorf("wanted %v", c.Wanted)
	}
	var got []string
	for _, o := range c.Offers {
		got = append(got, o.Scale.String()+" "+o.Text().String())
	}
	want := "1/45 2 % too large, 1/48 4 % too small, 1/43 7 % too large, 1/50 8 % too small"
	if strings.Join(got, ", ") != want {
		t.Errorf("got %v", got)
	}
	if exact := StandBeside(9.2, Stated(quantity.Scale{Ratio: 72})).Offers[0]; exact.Text().String() != "exact" || exact.Scale.Ratio != 72 {
		t.Errorf("%+v", exact)
	}
}

// Two boxes print 1/35. The crew of one are giants: 56 mm is 1.96 m at 1/35,
// and an adult only between 1.525/0.0565 = 27.0 and 1.870/0.0555 = 33.7. The
// crawler lies between 7.55/0.218 = 34.6 and 7.65/0.214 = 35.7.
func TestCrewOfGiants(t *testing.T) {
	box := written[quantity.Scale](t, "1/35")
	keeper, _ := MemberOf(Judge(Model{Name: "keeper", Box: box, Figures: []Figure{{Height: measured(t, "56 mm")}}}))
	crawler, _ := MemberOf(Judge(Model{Name: "crawler", Box: box, Measured: lengths(t, "length 216 mm ± 2 mm"),
		Accounts: []Account{account(t, "box side", "length 7.6 m")}}))
	p := pair(crawler, keeper)
	if !keeper.Crew || p.Share != No || p.Larger != "keeper" || p.Text.String() != "keeper is too large by 3 to 32 %" {
		t.Errorf("%+v: %s", keeper, p.Text)
	}
	fitting, _ := MemberOf(Judge(Model{Name: "crew", Box: box, Figures: []Figure{{Height: measured(t, "50 mm")}}}))
	if fitting.Crew || !fitting.Stated || pair(crawler, fitting).Share != Yes {
		t.Errorf("%+v", fitting)
	}
}

// Rules are named once, and say why and by what source.
func TestRules(t *testing.T) {
	seen := map[string]bool{}
	for _, r := range Rules {
		if r.Name == "" || r.Reason == "" || r.Source == "" || seen[r.Name] {
			t.Errorf("rule %+v", r)
		}
		seen[r.Name] = true
	}
}
