package tally

import (
	"strings"
	"testing"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

func mark(criterion string, m float64, why string) source.Entry[Mark] {
	return source.Entry[Mark]{Name: val(criterion), Value: Mark{Score: val(Score{Mark: m}), Why: val(why)}}
}

// way is a way to obtain a kit, as written.
func way(o Obtained) source.Value[string] { return val(string(o)) }

func boughtKit() Kit { return Kit{Obtained: way(ByPurchase), Price: price("92 EUR")} }

func input(marks ...source.Entry[Mark]) ReviewInput {
	return ReviewInput{Criteria: []Criterion{
		{Name: "fit", Weight: val(2.0), Stages: []string{"assembly"}, Problems: []string{"fit"}, Faults: []string{"gap"}, Log: LogFilled | LogWarped},
		{Name: "detail", Weight: val(1.0)},
		{Name: "decals", Weight: val(1.0), Log: LogDecals},
	}, Marks: marks, Kit: boughtKit(), Verdict: val("Worth it for the wheelhouse alone."), Sum: Sum{Sittings: 12, Hours: 41, State: Shelf}}
}

func TestOverallMarkIsTheWeightedMeanOfWhatWasAssessed(t *testing.T) {
	in := input(mark("fit", 8, "two gaps"), mark("detail", 6, "soft rivets"), source.Entry[Mark]{Name: val("decals"), Value: Mark{Score: val(Score{NotAssessed: true}), Why: val("painted on instead")}})
	r, findings := Judge(in)
	if len(findings) > 0 || r.Overall != nil {
		t.Errorf("no overall mark unless asked: %v, findings %v", r.Overall, findings)
	}
	in.Overall = true
	r, _ = Judge(in)
	// By hand: (2·8 + 1·6) / 3 = 7.333; decals count nowhere, least of all as zero.
	if r.Overall.Says.String() != "7.3 of 10" || r.Overall.Working.String() != "(2 × 8 + 1 × 6) / (2 + 1)" {
		t.Errorf("got %s = %s", r.Overall.Working, r.Overall.Says)
	}
	if r.Rows[0].Share != quantity.Share(2.0/3) || r.Rows[2].Share != 0 {
		t.Errorf("shares: %v and %v", r.Rows[0].Share, r.Rows[2].Share)
	}
	if got := r.Rows[2].Text(r.Best).String(); got != "not assessed" {
		t.Errorf("got %q", got)
	}
	if got := r.Rows[0].Text(r.Best).String(); got != "8 of 10" {
		t.Errorf("got %q", got)
	}
}

func TestNothingAssessedHasNoOverallMark(t *testing.T) {
	in := input()
	in.Overall = true
	if r, _ := Judge(in); r.Overall != nil {
		t.Errorf("got %v", r.Overall)
	}
}

func TestReviewFindings(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*ReviewInput)
		rules  string
	}{
		"a mark without a reason":          {func(in *ReviewInput) { in.Marks = source.Entries[Mark]{mark("fit", 8, "  ")} }, "mark-without-reason"},
		"a mark above the best":            {func(in *ReviewInput) { in.Marks = source.Entries[Mark]{mark("fit", 11, "wow")} }, "mark-range"},
		"a mark below zero":                {func(in *ReviewInput) { in.Marks = source.Entries[Mark]{mark("fit", -1, "ouch")} }, "mark-range"},
		"an unknown criterion":             {func(in *ReviewInput) { in.Marks = source.Entries[Mark]{mark("smell", 5, "of styrene")} }, "mark-criterion"},
		"marked twice":                     {func(in *ReviewInput) { in.Marks = source.Entries[Mark]{mark("fit", 5, "a"), mark("fit", 6, "b")} }, "mark-twice"},
		"no verdict":                       {func(in *ReviewInput) { in.Verdict = source.Value[string]{} }, "review-verdict"},
		"not said how it was obtained":     {func(in *ReviewInput) { in.Kit.Obtained = source.Value[string]{} }, "review-undisclosed"},
		"an unknown way to obtain":         {func(in *ReviewInput) { in.Kit.Obtained = val("swiped") }, "review-undisclosed"},
		"a sample from nobody":             {func(in *ReviewInput) { in.Kit.Obtained = way(AsSample) }, "review-sender"},
		"a negative weight":                {func(in *ReviewInput) { in.Criteria[0].Weight = val(-2.0) }, "criterion-weight"},
		"all weights zero":                 {func(in *ReviewInput) { in.Criteria = []Criterion{{Name: "fit", Weight: val(0.0)}} }, "criterion-weight"},
		"a first look that marks the fit":  {func(in *ReviewInput) { in.Sum = Sum{}; in.Marks = source.Entries[Mark]{mark("fit", 8, "dry fit")} }, "mark-in-first-look"},
		"a fault by another name":          {func(in *ReviewInput) { in.Faults = []Fault{{Kind: val("dent"), Shows: val(true)}} }, "fault-kind"},
		"a fault that may or may not show": {func(in *ReviewInput) { in.Faults = []Fault{{Kind: val("gap")}} }, "fault-shows"},
		"an empty phrase":                  {func(in *ReviewInput) { in.Texts = []source.Value[string]{val("It should build\n up Nicely.")} }, "empty-phrase"},
	} {
		in := input()
		c.change(&in)
		if _, findings := Judge(in); rules(findings) != c.rules {
			t.Errorf("%s: findings %q, want %q", name, rules(findings), c.rules)
		}
	}
}

func TestUndisclosedReviewsAreStopped(t *testing.T) {
	_, findings := Judge(ReviewInput{Verdict: val("fine")})
	if !findings.Stops() {
		t.Error("a review that hides how the kit was obtained must not be published")
	}
	if !strings.Contains(ruleUndisclosed.Source, "16 CFR 255.5") {
		t.Error("the rule does not name its law")
	}
}

func TestFirstLookAndBuildReviewAreToldApart(t *testing.T) {
	for _, c := range []struct {
		sum  Sum
		want string
	}{
		{Sum{}, "First look: nothing has been built yet"},
		{Sum{Sittings: 12, Hours: 41, State: Shelf}, "Build review, after 12 sittings and 41 h at the bench"},
		{Sum{Sittings: 1, Hours: 3.5, State: Bench}, "Build review, after 1 sitting and 3 h 30 min at the bench; the build is not finished"},
	} {
		in := input()
		in.Sum = c.sum
		if r, _ := Judge(in); r.Standing.String() != c.want || r.FirstLook != (c.sum.Sittings == 0) {
			t.Errorf("got %q, want %q", r.Standing, c.want)
		}
	}
}

func TestFaultsThatDoNotShowAreKeptApart(t *testing.T) {
	in := input()
	in.Faults = []Fault{
		{Kind: val("ejector-pin mark"), Part: val("B3"), Shows: val(false)},
		{Kind: val("sink mark"), Part: val("A1"), Shows: val(true)},
	}
	r, _ := Judge(in)
	if len(r.Showing) != 1 || r.Showing[0].Part.V != "A1" || len(r.Hidden) != 1 {
		t.Errorf("showing %v, hidden %v", r.Showing, r.Hidden)
	}
}

func TestEvidenceFromTheLog(t *testing.T) {
	in := EvidenceInput{
		Sum: Sum{ByStage: []Slice{{Name: "assembly", Hours: hours("12 h 30 min").V, Sittings: 5}}, DecalsApplied: 40, DecalsFailed: 2,
			Lamps: 6, Lit: 6, Kit: Purse{money("92 EUR")}, Spent: Purse{money("24.50 EUR")}},
		Events: []PartEvent{{Part: val("A3"), Event: val("filled"), Count: val(2)}, {Part: val("A7"), Event: val("filled")},
			{Part: val("B1"), Event: val("straightened")}, {Part: val("A3"), Event: val("filled")}},
		Rows:     []Row{{Broken: 1, SparesUsed: 1}},
		Problems: []ProblemBrief{{"fit", "step at the bow", "sanded flush"}, {"decals", "silvering", ""}},
		Faults: []Fault{{Kind: val("gap"), Part: val("A1 to A2"), Size: val(quantity.Metres(0.0004)), Shows: val(true)},
			{Kind: val("gap"), Part: val("inside"), Shows: val(false)}},
		Closings: []Closing{{"hull inside", day("2026-02-14"), 2}, {"mast", day("2026-02-15"), 0}},
		Leaks:    1,
		Scale:    source.Word("the box's 1/48 lies inside what the length says"),
	}
	for criterion, want := range map[string]string{
		"fit":             "12 h 30 min of assembly in 5 sittings; 4 parts needed filler: A3 and A7; 1 part had to be straightened: B1; gap on A1 to A2 (0.4 mm); problem: step at the bow – sanded flush",
		"decals":          "40 decals applied, 2 failed; problem: silvering",
		"engineering":     "1 part had to be straightened: B1; 1 part broken, 1 spare used",
		"room for lights": "6 lamps, 6 of them seen to light; 1 light leak found; hull inside closed over 2 lamps on 14 February 2026",
		"accuracy":        "the box's 1/48 lies inside what the length says",
		"value":           "the kit 92 EUR, besides it 24.50 EUR",
		"instructions":    "",
	} {
		for _, c := range Criteria {
			if c.Name == criterion {
				if got := (source.List{Of: source.Anys(in.For(c)), Sep: "; "}).String(); got != want {
					t.Errorf("%s: got  %s\nwant %s", criterion, got, want)
				}
			}
		}
	}
}

func TestDisclosureSentences(t *testing.T) {
	for _, c := range []struct {
		kit   Kit
		want  string
		label string
		due   bool
	}{
		{Kit{Obtained: way(AsSample), From: val("Halden Model Works"), Price: price("92 EUR")}, "Halden Model Works sent this kit free of charge for review. It sells for 92 EUR.", "free review sample", true},
		{Kit{Obtained: way(AsSample), From: val("the maker")}, "The maker sent this kit free of charge for review.", "free review sample", true},
		{Kit{Obtained: way(AsGift), From: val("a friend")}, "This kit was a gift from a friend.", "gift", true},
		{Kit{Obtained: way(AsGift)}, "This kit was a gift.", "gift", true},
		{Kit{Obtained: way(AsCommission)}, "The client supplied the kit and pays for the work.", "commissioned build", true},
		{Kit{Obtained: way(AtDiscount), From: val("The shop")}, "The shop sold this kit to the reviewer at a discount.", "bought at a discount", true},
		{Kit{Obtained: way(AsLoan), From: val("A club")}, "A club lent this kit for review; it goes back.", "kit on loan", true},
		{boughtKit(), "The reviewer bought this kit for 92 EUR.", "bought by the reviewer", false},
		{Kit{Obtained: way(AsSample), From: val("100% Models")}, "100% Models sent this kit free of charge for review.", "free review sample", true},
	} {
		d, _ := Disclose(c.kit, source.Span{})
		if d.Sentence.String() != c.want || d.Due != c.due || d.Label.String() != c.label {
			t.Errorf("got %+v, want %q", d, c.want)
		}
	}
}

func TestEmptyPhrasesAreFoundWhereTheyStand(t *testing.T) {
	file := source.NewFile("review.md", "Crisp, and it should\n  build up nicely. You can’t go wrong. Nobody recommended highly.\nIt does not disappointment.")
	findings := CheckPhrases([]source.Value[string]{source.Written(file.Text, file.At(0, len(file.Text)))}, nil)
	var places []string
	for _, f := range findings {
		places = append(places, f.At.Text())
	}
	if got := strings.Join(places, "|"); got != "should\n  build up nicely|can’t go wrong" {
		t.Errorf("got %q", got)
	}
	if got := CheckPhrases([]source.Value[string]{val("it falls together")}, []string{}); len(got) != 0 {
		t.Errorf("an empty list finds %v", got)
	}
	if got := CheckPhrases([]source.Value[string]{val("a gem of a kit")}, []string{"gem of a kit"}); len(got) != 1 {
		t.Errorf("the workshop's own phrase: %v", got)
	}
}

func FuzzFindPhrase(f *testing.F) {
	f.Add("it should build up nicely", "build up")
	f.Add("é\xff build", "build")
	f.Fuzz(func(t *testing.T, text, phrase string) {
		last := 0
		for _, m := range findPhrase(text, phrase) {
			if m.start < last || m.end <= m.start || m.end > len(text) {
				t.Fatalf("%q in %q: %+v", phrase, text, m)
			}
			last = m.end
		}
	})
}
