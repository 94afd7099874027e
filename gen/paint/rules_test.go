package paint

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// scenario is a small story and the rules that must speak, no others.
type scenario struct {
	name string
	area Area
	more []Area
	want []string
}

// done gives an area a way to lay coats hours apart, beginning on the first at ten.
func done(a Area, gap time.Duration, coats ...Coat) Area {
	a.Planned = coats
	at := on(1, 10, 0)
	for _, c := range coats {
		a.Laid = append(a.Laid, Laid{Coat: c, At: w(c.Paint.V, "{coat: "+c.Paint.V+"}").At, When: at})
		at = at.Add(gap)
	}
	return a
}

func with(a Area, changes ...func(*Area)) Area {
	for _, change := range changes {
		change(&a)
	}
	return a
}

func treated(works ...Work) func(*Area) {
	return func(a *Area) {
		for _, x := range works {
			a.Treatments = append(a.Treatments, Treatment{What: w(x, x.String())})
		}
	}
}

func encloses(lamps ...string) func(*Area) {
	return func(a *Area) {
		for _, l := range lamps {
			a.Encloses = append(a.Encloses, word(l))
		}
	}
}

const days3 = 73 * time.Hour

// Rules of the trade: common practice, no source, but where a rule says otherwise.
var scenarios = []scenario{
	{name: "a sound outside", area: done(with(area("hull", Styrene), treated(Sanded, Washed)), days3,
		coat("grey-primer", Primer), coat("hull-grey", Base), coat("lacquer-gloss", Gloss), coat("decals", Decals), coat("gloss-clear", Seal), coat("umber", Wash), coat("matt-clear", Matt))},
	{name: "a sound lit inside", area: done(with(area("hull inside", Styrene), encloses("D1")), days3,
		coat("black", LightBlocking), coat("silver", LightBlocking), coat("white", LightBlocking))},

	{name: "straightened in hot water, painted unwashed", area: done(with(area("mast", Styrene), treated(Straightened)), days3, coat("grey-primer", Primer)), want: []string{"painted-unwashed"}},
	{name: "washed first, then straightened", area: done(with(area("mast", Styrene), treated(Washed, Straightened)), days3, coat("grey-primer", Primer)), want: []string{"painted-unwashed"}},
	{name: "straightened, washed, no primer", area: done(with(area("mast", Styrene), treated(Straightened, Washed)), days3, coat("hull-grey", Base)), want: []string{"primer-missing"}},
	{name: "sanded and not washed", area: done(with(area("hull", Styrene), treated(Sanded)), days3, coat("grey-primer", Primer)), want: []string{"painted-unwashed"}},
	{name: "washed after the first coat", area: with(done(area("hull", Styrene), days3, coat("grey-primer", Primer)), func(a *Area) {
		a.Treatments = []Treatment{{What: w(Sanded, "sanded"), When: on(1, 9, 0)}, {What: w(Washed, "washed"), When: on(1, 11, 0)}}
	}), want: []string{"painted-unwashed"}},
	{name: "one part straightened and another washed", area: with(done(area("hull", Styrene), days3, coat("grey-primer", Primer)), func(a *Area) {
		a.Treatments = []Treatment{{What: w(Straightened, "straightened"), Part: "B1"}, {What: w(Washed, "washed"), Part: "B3"}}
	}), want: []string{"painted-unwashed"}},
	{name: "one part straightened and washed", area: with(done(area("hull", Styrene), days3, coat("grey-primer", Primer)), func(a *Area) {
		a.Treatments = []Treatment{{What: w(Straightened, "straightened"), Part: "B1"}, {What: w(Washed, "washed"), Part: "B1"}}
	})},
	{name: "sanded between coats, long after the first", area: with(done(area("hull", Styrene), days3, coat("grey-primer", Primer)), func(a *Area) {
		a.Treatments = []Treatment{{What: w(Sanded, "sanded"), When: on(2, 9, 0)}}
	})},
	{name: "resin unwashed and unprimed", area: done(area("figure", Resin), days3, coat("hull-grey", Base)), want: []string{"primer-missing", "release-agent"}},
	{name: "resin washed and primed", area: done(with(area("figure", Resin), treated(Washed)), days3, coat("grey-primer", Primer))},
	{name: "resin primed before the log began", area: done(with(area("figure", Resin), treated(Washed, Primed)), days3, coat("hull-grey", Base))},
	{name: "etched rails unprimed", area: done(area("rails", PhotoEtch), days3, coat("hull-grey", Base)), want: []string{"primer-missing"}},
	{name: "printed part unprimed", area: done(with(area("crane", Printed), treated(Washed)), days3, coat("hull-grey", Base)), want: []string{"primer-missing"}},
	{name: "a planned coat without primer is warned of before it is laid", area: with(area("rails", PhotoEtch), func(a *Area) { a.Planned = plan(coat("hull-grey", Base)) }), want: []string{"primer-missing"}},

	{name: "lacquer over enamel, however old", area: done(area("deck", Styrene), 20*24*time.Hour, coat("deck-green", Base), coat("lacquer-gloss", Gloss)), want: []string{"lacquer-over-enamel"}},
	{name: "lacquer over enamel, planned only", area: with(area("deck", Styrene), func(a *Area) { a.Planned = plan(coat("deck-green", Base), coat("lacquer-gloss", Gloss)) }), want: []string{"lacquer-over-enamel"}},
	{name: "lacquer over oil under waterborne", area: done(area("deck", Styrene), 30*24*time.Hour, coat("umber", Base), coat("gloss-clear", Seal), coat("lacquer-gloss", Gloss)), want: []string{"lacquer-over-waterborne"}},
	{name: "lacquer over cured waterborne", area: done(area("deck", Styrene), days3, coat("black", Base), coat("lacquer-gloss", Gloss)), want: []string{"lacquer-over-waterborne"}},
	{name: "lacquer over waterborne of yesterday", area: done(area("deck", Styrene), 24*time.Hour, coat("black", Base), coat("lacquer-gloss", Gloss)), want: []string{"family-over-uncured", "lacquer-over-waterborne"}},
	{name: "lacquer over a cured oil wash", area: done(area("deck", Styrene), 4*24*time.Hour, coat("lacquer-gloss", Seal), coat("umber", Wash), coat("lacquer-gloss", Seal))},
	{name: "lacquer over an oil wash of yesterday", area: with(done(area("deck", Styrene), 30*time.Hour, coat("lacquer-gloss", Seal), coat("umber", Wash), coat("lacquer-gloss", Seal))), want: []string{"family-over-uncured"}},
	{name: "waterborne over lacquer after three hours", area: done(area("deck", Styrene), 3*time.Hour, coat("hull-grey", Base), coat("gloss-clear", Gloss))},
	{name: "waterborne over lacquer after one hour", area: done(area("deck", Styrene), time.Hour, coat("hull-grey", Base), coat("gloss-clear", Gloss)), want: []string{"family-over-uncured"}},
	{name: "waterborne over enamel of yesterday", area: done(area("deck", Styrene), 24*time.Hour, coat("deck-green", Base), coat("gloss-clear", Gloss)), want: []string{"family-over-uncured"}},
	{name: "waterborne over enamel of forty hours", area: done(area("deck", Styrene), 40*time.Hour, coat("deck-green", Base), coat("deck-green", PanelTone), coat("gloss-clear", Gloss)), want: []string{"family-over-uncured"}},
	{name: "recoated after twenty minutes", area: done(area("deck", Styrene), 20*time.Minute, coat("hull-grey", Base), coat("panel-grey", PanelTone)), want: []string{"recoat-too-soon"}},

	{name: "enamel wash over bare enamel", area: done(area("deck", Styrene), days3, coat("deck-green", Base), coat("grime", Wash)), want: []string{"wash-over-bare-enamel"}},
	{name: "oil wash over bare enamel, planned", area: with(area("deck", Styrene), func(a *Area) { a.Planned = plan(coat("deck-green", Base), coat("umber", Wash)) }), want: []string{"wash-over-bare-enamel"}},
	{name: "wash over sealed enamel", area: done(area("deck", Styrene), days3, coat("deck-green", Base), coat("gloss-clear", Seal), coat("grime", Wash))},
	{name: "wash over a fresh gloss coat", area: done(area("deck", Styrene), 12*time.Hour, coat("gloss-clear", Gloss), coat("grime", Wash)), want: []string{"wash-too-soon"}},

	{name: "decals over matt", area: done(area("hull", Styrene), days3, coat("matt-clear", Base), coat("decals", Decals), coat("gloss-clear", Seal)), want: []string{"decals-over-matt"}},
	{name: "decals over matt, planned", area: with(area("hull", Styrene), func(a *Area) {
		a.Planned = plan(coat("hull-grey", Base), coat("matt-clear", Matt), coat("decals", Decals), coat("gloss-clear", Seal))
	}), want: []string{"decals-over-matt"}},
	{name: "decals six hours after the gloss coat", area: with(done(area("hull", Styrene), 6*time.Hour, coat("lacquer-gloss", Gloss), coat("decals", Decals)), func(a *Area) {
		a.Planned = append(a.Planned, coat("gloss-clear", Seal))
	}), want: []string{"decals-too-soon"}},
	{name: "matt right over decals", area: done(area("hull", Styrene), days3, coat("lacquer-gloss", Gloss), coat("decals", Decals), coat("matt-clear", Matt)), want: []string{"matt-before-seal"}},
	{name: "sealed an hour after the decals", area: with(done(area("hull", Styrene), days3, coat("lacquer-gloss", Gloss), coat("decals", Decals), coat("gloss-clear", Seal)), func(a *Area) {
		a.Laid[2].When = a.Laid[1].When.Add(time.Hour)
	}), want: []string{"sealed-too-soon"}},
	{name: "decals never sealed", area: done(area("hull", Styrene), days3, coat("lacquer-gloss", Gloss), coat("decals", Decals)), want: []string{"decals-unsealed"}},

	{name: "lit and unblocked", area: with(area("hull inside", Styrene), encloses("D1", "D2")), want: []string{"lit-without-blocking"}},
	{name: "lit, blocked on the other face", area: with(area("hull inside", Styrene), func(a *Area) { encloses("D1")(a); a.OtherFace = word("hull outside") }),
		more: []Area{done(area("hull outside", Styrene), days3, coat("black", LightBlocking), coat("grey-primer", Primer))}, want: []string{"lacquer-over-waterborne"}},
	{name: "lit clear part needs none", area: with(area("windows", Clear), encloses("D1"))},
	{name: "white first, black last", area: done(with(area("hull inside", Styrene), encloses("D1")), days3, coat("white", LightBlocking), coat("black", LightBlocking)), want: []string{"light-blocking-order"}},
	{name: "light blocking over the colour", area: done(area("hull", Styrene), days3, coat("white", Base), coat("black", LightBlocking)), want: []string{"light-blocking-late"}},
	{name: "clear part tinted inside", area: done(with(area("port light", Clear), encloses("D7")), days3, coat("gloss-clear", ClearColour)), want: []string{"clear-painted-inside"}},
	{name: "clear part tinted outside", area: done(area("port light", Clear), days3, coat("gloss-clear", ClearColour))},
	{name: "clear part declared as lamp side", area: with(done(area("port light", Clear), days3, coat("gloss-clear", ClearColour)), func(a *Area) { a.Side = w(LampSide, "lamp side") }), want: []string{"clear-painted-inside"}},

	{name: "planned coat covered over", area: with(done(area("hull", Styrene), days3, coat("grey-primer", Primer), coat("hull-grey", Base), coat("panel-grey", PanelTone)), func(a *Area) {
		a.Laid = slices.Delete(slices.Clone(a.Laid), 1, 2)
	}), want: []string{"coat-skipped"}},
	{name: "laid and not planned", area: with(done(area("hull", Styrene), days3, coat("grey-primer", Primer), coat("hull-grey", Base)), func(a *Area) {
		a.Planned = a.Planned[:1]
	}), want: []string{"coat-unplanned"}},
	{name: "laid out of order", area: with(done(area("hull", Styrene), days3, coat("hull-grey", Base), coat("panel-grey", PanelTone)), func(a *Area) {
		a.Planned = plan(a.Planned[1], a.Planned[0])
	}), want: []string{"coat-out-of-order"}},
	{name: "no time of day", area: with(done(area("hull", Styrene), days3, coat("hull-grey", Base)), func(a *Area) { a.Laid[0].Assumed = true }), want: []string{"coat-without-hour"}},
	{name: "laid in the cold", area: with(done(area("hull", Styrene), days3, coat("hull-grey", Base)), func(a *Area) { a.Laid[0].Temperature = w[quantity.Celsius](7, "7 °C") }), want: []string{"too-cold-to-cure"}},

	{name: "leak not dealt with", area: with(area("roof", Styrene), func(a *Area) { a.Leaks = []Leak{{Where: word("seam")}} }), want: []string{"leak-open"}},
	{name: "leak with another word", area: with(area("roof", Styrene), func(a *Area) { a.Leaks = []Leak{{Where: word("seam"), Action: word("later")}} }), want: []string{"leak-open"}},
	{name: "leak accepted for no reason", area: with(area("roof", Styrene), func(a *Area) { a.Leaks = []Leak{{Where: word("seam"), Action: word("accepted")}} }), want: []string{"leak-accepted-without-reason"}},
	{name: "leaks dealt with", area: with(area("roof", Styrene), func(a *Area) {
		a.Leaks = []Leak{{Where: word("seam"), Action: word("sealed")}, {Where: word("vent"), Action: word("accepted"), Why: word("the prototype glows there too")}}
	})},
}

func TestScenarios(t *testing.T) {
	for _, s := range scenarios {
		t.Run(strings.ReplaceAll(s.name, " ", "-"), func(t *testing.T) {
			got := rules(Check(&Build{Moment: on(1, 12, 0).AddDate(1, 0, 0), Paints: rack(), Areas: append([]Area{s.area}, s.more...)}).Findings)
			slices.Sort(got)
			if !slices.Equal(got, s.want) {
				t.Errorf("these speak: %v\nwant:        %v", got, s.want)
			}
		})
	}
}

// Every finding names its rule, its place and a way out.
func TestFindingsAreUsable(t *testing.T) {
	for _, s := range scenarios {
		for _, f := range Check(&Build{Moment: on(1, 12, 0).AddDate(1, 0, 0), Paints: rack(), Areas: append([]Area{s.area}, s.more...)}).Findings {
			switch {
			case !Known(f.Rule.Name), !f.At.Known(), f.Do.Empty():
				t.Errorf("%s: %+v", s.name, f)
			case strings.HasSuffix(f.Says.String(), "."), strings.Contains(f.Says.String(), "%!"), strings.Contains(f.Do.String(), "%!"):
				t.Errorf("%s: message %q, remedy %q", s.name, f.Says.String(), f.Do.String())
			}
		}
	}
}

// Whatever is laid over whatever, in whatever order and at whatever time, the
// checks end, leave the build as it was, and say the same again.
func TestCheckTakesAnything(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 6))
	paints := append(rack(), Paint{Name: word("plain"), Colour: w(hex("#123456"), "")})
	paints[3].Sheet.RecoatUntil, paints[4].Sheet.RecoatUntil, paints[4].Sheet.RecoatAgain = hours(1), hours(2), hours(8)
	some := func(n int) Coat {
		p := paints[random.IntN(len(paints))].Name
		if random.IntN(6) == 0 {
			p = word([]string{"decals", "unknown"}[random.IntN(2)])
		}
		return Coat{Paint: p, For: w(Purpose(random.IntN(int(Matt)+1)), "for")}
	}
	for range 2000 {
		a := area("a", Material(random.IntN(int(Metal)+1)))
		for range random.IntN(3) {
			encloses("D1")(&a)
			a.Treatments = append(a.Treatments, Treatment{What: w(Work(random.IntN(int(Dipped)+1)), "work"), When: on(random.IntN(28)+1, 0, 0)})
		}
		for i := range random.IntN(6) {
			a.Planned = append(a.Planned, some(i))
		}
		for i := range random.IntN(8) {
			a.Laid = append(a.Laid, Laid{Coat: some(i), At: w(0, "laid").At, When: on(1+random.IntN(9), random.IntN(24), 0), Assumed: random.IntN(4) == 0})
		}
		if random.IntN(3) == 0 {
			closedOn(on(random.IntN(20)+1, 0, 0))(&a)
		}
		b := &Build{Moment: on(random.IntN(28)+1, 12, 0), Paints: paints, Areas: []Area{a}, Events: []Event{{Area: word("a"), Stage: Mask, When: on(5, 0, 0)}},
			Placed: []Placing{{Number: word("1"), Area: word("a"), When: on(random.IntN(9)+1, 20, 0)}}}
		laid := len(a.Laid)
		first, second := Check(b), Check(b)
		if len(b.Areas[0].Laid) != laid || !slices.Equal(rules(first.Findings), rules(second.Findings)) || len(first.Findings) != len(second.Findings) {
			t.Fatalf("%v, then %v; %d coats, then %d", rules(first.Findings), rules(second.Findings), laid, len(b.Areas[0].Laid))
		}
		Section("s", &first.Areas[0], nil, nil)
	}
}

func TestRulesAreDeclaredWell(t *testing.T) {
	names := map[string]bool{}
	for _, r := range Rules {
		if names[r.Name] || r.Name != strings.ToLower(r.Name) || strings.ContainsAny(r.Name, " _") {
			t.Errorf("name %q is taken or badly formed", r.Name)
		}
		names[r.Name] = true
		if !strings.HasSuffix(r.Reason, ".") || r.Source == "" {
			t.Errorf("%s: reason %q, source %q", r.Name, r.Reason, r.Source)
		}
	}
}

// The finding points at the coat and shows the coat below beside it.
func TestFindingPointsAtTheCoat(t *testing.T) {
	r := check(done(area("deck", Styrene), days3, coat("deck-green", Base), coat("lacquer-gloss", Gloss)))
	f := find(t, r.Findings, "lacquer-over-enamel")
	if f.At.Text() != "lacquer-gloss" || len(f.Related) != 1 || f.Related[0].At.Text() != "deck-green" {
		t.Errorf("at %q, related %+v", f.At.Text(), f.Related)
	}
	if want := "deck: lacquer-gloss is a lacquer over deck-green, an enamel"; f.Says.String() != want {
		t.Errorf("%q, want %q", f.Says.String(), want)
	}
}

func silenced(rule, reason string) func(*Area) {
	return func(a *Area) { a.Silences = append(a.Silences, Silence{Rule: word(rule), Reason: word(reason)}) }
}

// A silenced rule keeps its finding and carries the reason, for this area only.
func TestSilencePrintsItsReason(t *testing.T) {
	const reason = "the maker's etching primer is already on the fret"
	quiet := with(done(area("rails", PhotoEtch), days3, coat("hull-grey", Base)), silenced("primer-missing", reason))
	loud := done(area("ladders", PhotoEtch), days3, coat("hull-grey", Base))
	r := check(quiet, loud)
	if f := find(t, r.Areas[0].Findings, "primer-missing"); f.Silenced != reason {
		t.Errorf("silenced with %q", f.Silenced)
	}
	if f := find(t, r.Areas[1].Findings, "primer-missing"); f.Silenced != "" {
		t.Errorf("the other area is silenced too: %q", f.Silenced)
	}
	var b strings.Builder
	if err := (source.Style{}).Print(&b, r.Areas[0].Findings[0]); err != nil || !strings.Contains(b.String(), reason) {
		t.Errorf("printed: %s", b.String())
	}
	if n := r.Findings.Count(source.Warn); n != 1 {
		t.Errorf("%d unsilenced warnings, want the other area's", n)
	}
}

func TestSilencesThatAreWrong(t *testing.T) {
	unprimed := done(area("rails", PhotoEtch), days3, coat("hull-grey", Base))
	for _, s := range []struct {
		rule, reason string
		want         []string
	}{
		{"primer-missing", " ", []string{"primer-missing", "silence-without-reason"}},
		{"primer-mising", "because", []string{"primer-missing", "silence-unknown-rule"}},
		{"decals-over-matt", "because", []string{"primer-missing", "silence-idle"}},
		{"finish-word", "because", []string{"primer-missing", "silence-of-stop"}},
	} {
		got := rules(check(with(unprimed, silenced(s.rule, s.reason))).Findings)
		slices.Sort(got)
		if !slices.Equal(got, s.want) {
			t.Errorf("%s, %q: %v, want %v", s.rule, s.reason, got, s.want)
		}
	}
}

// Recoating in the gap of a paint's windows, and after its only window.
func TestRecoatWindowsOnTheModel(t *testing.T) {
	paints := rack()
	p := &paints[4] // hull-grey
	p.Sheet.Wait[Recoat], p.Sheet.RecoatUntil, p.Sheet.RecoatAgain = hours(0.5), hours(2), hours(8)
	for _, c := range []struct {
		after time.Duration
		want  []string
	}{{time.Hour, nil}, {4 * time.Hour, []string{"recoat-in-gap"}}, {9 * time.Hour, nil}, {10 * time.Minute, []string{"recoat-too-soon"}}} {
		a := done(area("hull", Styrene), c.after, coat("hull-grey", Base), coat("panel-grey", PanelTone))
		if got := rules(Check(&Build{Moment: on(20, 0, 0), Paints: paints, Areas: []Area{a}}).Findings); !slices.Equal(got, c.want) {
			t.Errorf("after %s: %v, want %v", c.after, got, c.want)
		}
	}
	p.Sheet.RecoatAgain = source.Value[quantity.Hours]{}
	a := done(area("hull", Styrene), 9*time.Hour, coat("hull-grey", Base), coat("panel-grey", PanelTone))
	if got := rules(Check(&Build{Moment: on(20, 0, 0), Paints: paints, Areas: []Area{a}}).Findings); !slices.Equal(got, []string{"recoat-too-late"}) {
		t.Errorf("after the only window: %v", got)
	}
}

func TestMaskingAndHandlingBeforeTheirTime(t *testing.T) {
	a := done(area("hull", Styrene), 14*time.Hour, coat("grey-primer", Primer), coat("hull-grey", Base)) // 10:00 and 00:00
	event := func(s Stage, when time.Time) []Event { return []Event{{Area: word("hull"), Stage: s, When: when}} }
	for _, c := range []struct {
		name   string
		events []Event
		want   []string
	}{
		{"masked after ten hours", event(Mask, on(2, 10, 0)), []string{"masked-too-soon"}},
		{"masked to the minute", event(Mask, on(3, 0, 0)), nil},
		{"handled after half an hour", event(Handle, on(2, 0, 30)), []string{"handled-too-soon"}},
		{"handled after an hour", event(Handle, on(2, 1, 0)), nil},
		{"masked between the coats", event(Mask, on(1, 23, 0)), nil},
		{"another area", []Event{{Area: word("deck"), Stage: Mask, When: on(2, 1, 0)}}, nil},
	} {
		r := Check(&Build{Moment: on(20, 0, 0), Paints: rack(), Areas: []Area{a}, Events: c.events})
		if got := rules(r.Findings); !slices.Equal(got, c.want) {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
}

func TestPaintTimesThatContradict(t *testing.T) {
	p := rack()[4]
	p.Sheet.Wait[Handle], p.Sheet.Wait[Mask], p.Sheet.RecoatUntil, p.Sheet.RecoatAgain = hours(30), hours(24), hours(3), hours(2)
	found := Check(&Build{Paints: []Paint{p}}).Findings
	if len(found) != 2 || found[0].Rule.Name != "times-out-of-order" || found[1].Rule.Name != "times-out-of-order" {
		t.Errorf("%+v", found)
	}
}

// "acrylic" alone may be either; the trade insists that it is resolved.
func TestWordsOfTheRack(t *testing.T) {
	for text, want := range map[string]Family{"waterborne acrylic": Waterborne, "acrylic lacquer": Lacquer, "Lacquer": Lacquer, "enamel": Enamel, "oil": Oil, "two-pack": TwoPack, "2k": TwoPack} {
		if got, found := ReadFamily(word(text)); got.V != want || len(found) > 0 {
			t.Errorf("%q: %v, %v", text, got.V, found)
		}
	}
	for text, rule := range map[string]string{"acrylic": "acrylic-ambiguous", " Acrylic": "acrylic-ambiguous", "gouache": "finish-word", "": "finish-word"} {
		got, found := ReadFamily(word(text))
		if got.Set || len(found) != 1 || found[0].Rule.Name != rule || found[0].Severity() != source.Stop {
			t.Errorf("%q: %+v, %+v", text, got, found)
		}
	}
	for _, f := range FamilyWords() {
		if _, found := ReadFamily(word(f)); len(found) > 0 {
			t.Errorf("the guide lists %q, which does not read", f)
		}
	}
	for _, p := range PurposeWords() {
		if _, found := ReadPurpose(word(p)); len(found) > 0 {
			t.Errorf("the guide lists %q, which does not read", p)
		}
	}
	for note, want := range map[string]Work{"washed in soapy water": Washed, "Straightened in hot  water": Straightened, "sanded, 800 grit": Sanded} {
		if got, ok := FindWork(note); !ok || got != want {
			t.Errorf("%q: %v, %v", note, got, ok)
		}
	}
	if got, ok := FindWork("washed-out colours"); ok {
		t.Errorf("read as %v", got)
	}
	if _, found := ReadMaterial(word("plywood")); len(found) != 1 || !strings.Contains(found[0].Do.String(), "photo-etch") {
		t.Errorf("%+v", found)
	}
	if v, found := ReadMaterial(source.Value[string]{}); v.Set || found != nil {
		t.Error("what is not written is no mistake")
	}
}
