package scale

import (
	"math"
	"strings"
	"testing"

	"spruelight/gen/quantity"
)

// Two real subjects with published sizes, worked by hand.
//
// Hubble Space Telescope: HubbleSite (Space Telescope Science Institute for
// NASA), quick facts: length 43.5 ft (13.2 m), maximum diameter 14 ft (4.2 m).
// NASA's own figures elsewhere: 13.3 m (43.5 feet).
// Space Shuttle orbiter: 122.2 ft long, 56.67 ft high, span 78.06 ft (the
// space agency's figures, read at today.com/id/8514406).
func TestRealSubjectsAtUsualScales(t *testing.T) {
	for _, c := range []struct {
		subject, real string
		ratio, mm     float64
		working       string
	}{
		{"telescope length", "13.2 m", 72, 183.333, "13200 / 72"},
		{"telescope length", "13.2 m", 48, 275, "13200 / 48"},
		{"telescope length", "43.5 ft", 72, 184.15, "43.5 × 304.8 / 72 = 13258.8 / 72"},
		{"telescope diameter", "14 ft", 48, 88.9, "14 × 6.35: a quarter inch to the foot"},
		{"orbiter length", "122.2 ft", 144, 258.65667, "122.2 × 304.8 / 144 = 37246.56 / 144"},
		{"orbiter span", "78.06 ft", 144, 165.227, "78.06 × 304.8 / 144 = 23792.688 / 144"},
		{"orbiter height", "56.67 ft", 72, 239.903, "56.67 × 304.8 / 72 = 17273.016 / 72"},
	} {
		var real quantity.Metres
		if err := real.UnmarshalText([]byte(c.real)); err != nil {
			t.Fatal(err)
		}
		got := ToModel(real, quantity.Scale{Ratio: c.ratio})
		if math.Abs(got.Value*1000-c.mm) > 0.0006 || got.Unit != "m" {
			t.Errorf("%s at 1/%v: got %v %s, want %v mm (%s)", c.subject, c.ratio, got.Value, got.Unit, c.mm, c.working)
		}
	}
}

// A model of the telescope 184 mm long: one published length makes it 1/71.7,
// the other 1/72.3; both allow 1/72, and neither is dropped.
func TestTwoSourcesThatAgreeWithinRounding(t *testing.T) {
	j := Judge(Model{Name: "telescope", Box: written[quantity.Scale](t, "1/72"), Measured: lengths(t, "length 184 mm ± 0.5 mm"),
		Accounts: []Account{account(t, "HubbleSite", "length 13.2 m"), account(t, "NASA", "length 13.3 m")}})
	if j.Disputed || len(j.Believed) != 2 || rules(j.Findings) != "" {
		t.Fatalf("disputed %v, %d accounts, findings %s", j.Disputed, len(j.Believed), rules(j.Findings))
	}
	// 13200/184 = 71.739; limits 13150/184.5 = 71.274 and 13250/183.5 = 72.207.
	first := j.Believed[0]
	if math.Abs(first.Estimate.Ratio-71.739) > 0.001 || math.Abs(first.Estimate.Span.Low-71.274) > 0.001 ||
		math.Abs(first.Estimate.Span.High-72.207) > 0.001 {
		t.Errorf("estimate %+v", first.Estimate)
	}
	if got := first.Estimate.Text().String(); got != "1/71.7 ± 0.5" {
		t.Errorf("text %q", got)
	}
	if !first.Implied[0].RealAssumed || first.Implied[0].ModelAssumed {
		t.Error("the limits of the real length are assumed, those of the model are not")
	}
	if !strings.HasPrefix(j.Sentence.String(), "The box's 1/72 holds") {
		t.Error(j.Sentence)
	}
}

// The trade's own case: a kit printed 1/350 that comes out 1/441 or 1/458,
// depending on which length one believes. Invented lengths with those ratios.
func TestDisputedSizesStaySideBySide(t *testing.T) {
	j := Judge(Model{Name: "liner", Box: written[quantity.Scale](t, "1/350"), Measured: lengths(t, "length 655 mm ± 0.5 mm"),
		Accounts: []Account{account(t, "the yard's plan", "length 300.0 m ± 0.5 m"), account(t, "the fan's book", "length 288.9 m ± 0.5 m")}})
	if !j.Disputed || rules(j.Findings) != "scale-off-box scale-off-box scale-disputed" {
		t.Fatalf("disputed %v, findings %s", j.Disputed, rules(j.Findings))
	}
	want := "The box says 1/350, the model measures 1/458 ± 1 by the yard's plan or 1/441 ± 1 by the fan's book: the box is wrong whichever one believes."
	if j.Sentence.String() != want {
		t.Errorf("got  %s\nwant %s", j.Sentence, want)
	}
	if j.Best.Ratio != j.Believed[0].Estimate.Ratio {
		t.Error("the first account is gone by, never the middle of both")
	}
}

func TestVerdicts(t *testing.T) {
	box := written[quantity.Scale](t, "1/48")
	skiff := []Account{account(t, "designer's sheet", "length 9.4 m; beam 3.1 m")}
	for _, c := range []struct {
		name            string
		m               Model
		sentence, rules string
	}{
		{"nothing", Model{}, "Nothing is known of its scale", ""},
		{"box alone", Model{Box: box}, "The box says 1/48; no measured length has a real one beside it", ""},
		{"skiff", Model{Name: "skiff", Box: box, Measured: lengths(t, "length 204 mm ± 0.5 mm; beam 67 mm ± 0.5 mm"), Accounts: skiff},
			"The box says 1/48, the model measures 1/46.1 ± 0.3: it is 4 % too large for its box.", "scale-off-box"},
		{"true to the box", Model{Name: "skiff", Box: box, Measured: lengths(t, "length 195.8 mm ± 0.5 mm"), Accounts: skiff},
			"The box's 1/48 holds: the model measures 1/48.0 ± 0.4.", ""},
		{"out of proportion", Model{Name: "skiff", Box: box, Measured: lengths(t, "length 204 mm ± 0.5 mm; beam 60 mm ± 0.5 mm"), Accounts: skiff},
			"The box says 1/48, but the model's lengths do not agree on a scale: by designer's sheet length 1/46.1 ± 0.4, beam 1/52 ± 1; their weighted mean is 1/47 ± 3.", "scale-lengths-disagree"},
		{"slip of the unit", Model{Name: "skiff", Box: box, Measured: lengths(t, "length 20.4 mm ± 0.5 mm"), Accounts: skiff},
			"it is 90 % too small for its box", "scale-far-off"},
		{"no box", Model{Measured: lengths(t, "length 204 mm ± 0.5 mm"), Accounts: skiff}, "The model is 1/46.1 ± 0.4; the box names no scale.", ""},
		{"unpaired", Model{Box: box, Measured: lengths(t, "mast 204 mm ± 0.5 mm"), Accounts: skiff}, "this is not tested", "scale-length-unpaired"},
		{"zero", Model{Box: box, Measured: lengths(t, "length 0 mm"), Accounts: skiff}, "this is not tested", "scale-length-zero"},
	} {
		j := Judge(c.m)
		if !strings.Contains(j.Sentence.String(), c.sentence) || !strings.Contains(rules(j.Findings), c.rules) || c.rules == "" && len(j.Findings) > 0 {
			t.Errorf("%s: got %q [%s], want %q [%s]", c.name, j.Sentence, rules(j.Findings), c.sentence, c.rules)
		}
		for _, f := range j.Findings {
			if !f.At.Known() {
				t.Errorf("%s: %s stands nowhere", c.name, f.Rule.Name)
			}
		}
	}
}

func TestEstimateText(t *testing.T) {
	for _, c := range []struct {
		ratio, half float64
		want        string
	}{
		{457.9821, 1.1, "1/458 ± 1"}, {46.08, 0.36, "1/46.1 ± 0.4"}, {48, 0.01, "1/48.0 ± 0.1"}, {1234, 23, "1/1230 ± 20"},
		{72, 0.94, "1/72.0 ± 0.9"}, {72.4, 0.96, "1/72 ± 1"}, {350.4, 9.6, "1/350 ± 10"},
	} {
		e := Estimate{Ratio: c.ratio, Span: Interval{c.ratio - c.half, c.ratio + c.half}}
		if e.Text().String() != c.want {
			t.Errorf("%v ± %v: got %s, want %s", c.ratio, c.half, e.Text(), c.want)
		}
	}
}
