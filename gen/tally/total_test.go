package tally

import (
	"slices"
	"testing"
	"time"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// Shorthand of the tests in this package: values written nowhere in particular.
func val[T any](v T) source.Value[T] { return source.Written(v, source.Span{}) }

func day(text string) time.Time {
	t, err := time.Parse("2006-01-02", text)
	if err != nil {
		panic(err)
	}
	return t
}

func hours(text string) source.Value[quantity.Hours] {
	var h quantity.Hours
	if err := h.UnmarshalText([]byte(text)); err != nil {
		panic(err)
	}
	return val(h)
}

func money(text string) quantity.Money {
	var m quantity.Money
	if err := m.UnmarshalText([]byte(text)); err != nil {
		panic(err)
	}
	return m
}

func price(text string) source.Value[quantity.Money] { return val(money(text)) }

// skiff is a small build whose sums are worked by hand beside each check.
func skiff() Build {
	return Build{
		Slug: "skiff", Name: "Survey skiff", State: Bench,
		Kit: Kit{Price: price("92 EUR"), Obtained: way(ByPurchase), Parts: val(186)}, Decals: val(24),
		Lamps: []string{"D1", "D2", "D3"}, Resistors: 2,
		Spent: []Spend{{On: val("display base"), Price: price("18 EUR")}},
		Sittings: []Sitting{
			{Slug: "2026-02-14", Date: day("2026-02-14"), Hours: hours("3 h 20 min"), Stage: val("lighting"),
				Lit: []source.Value[string]{val("D1"), val("D2")}, Readings: 1,
				Spent: []Spend{{On: val("enamelled wire"), Price: price("6.50 EUR")}, {On: val("lamps"), Price: price("4 USD")}},
				Parts: []PartEvent{{Part: val("C14"), Event: val("spare used"), Count: val(1)}}},
			{Slug: "2026-01-31", Date: day("2026-01-31"), Hours: hours("40 min"), Stage: val("assembly"),
				Apart: source.Entries[source.Value[quantity.Hours]]{{Name: val("research"), Value: hours("2 h")}},
				Parts: []PartEvent{{Part: val("A3"), Event: val("broken")}, {Part: val("A4"), Event: val("used"), Count: val(6)}}},
			{Slug: "2026-02-14-decals", Date: day("2026-02-14"), Hours: hours("1 h"), Stage: val("decals"),
				Lit:    []source.Value[string]{val("D2"), val("D9")}, // D2 a second time, D9 is no lamp of this build
				Decals: DecalWork{Applied: val(5), Failed: val(1)}},
			{Slug: "2026-02-20", Date: day("2026-02-20"), Stage: val("assembly")},
		},
	}
}

func TestTotals(t *testing.T) {
	s := Totals(skiff(), []string{"assembly", "lighting", "masking", "decals"})
	for _, c := range []struct {
		name      string
		got, want any
	}{
		{"sittings", s.Sittings, 4},
		{"hours: 3 h 20 min + 40 min + 1 h", s.Hours.String(), "5 h"},
		{"one sitting has no hours", s.Unhoured, 1},
		{"first", s.First, day("2026-01-31")},
		{"last", s.Last, day("2026-02-20")},
		{"elapsed: 31 January to 20 February, both counted", s.Elapsed, 21},
		{"days at the bench: two sittings share a day", s.BenchDays, 3},
		{"cost: 92 + 18 + 6.50, dollars apart", s.Cost.String(), "116.50 EUR and 4 USD"},
		{"spent", s.Spent.String(), "24.50 EUR and 4 USD"},
		{"outlay of a bought kit", s.Outlay.String(), "116.50 EUR and 4 USD"},
		{"euros by hour: 116.50 / 5", s.PerHour[0].Money.String(), "23.30 EUR"},
		{"dollars by hour: 4 / 5", s.PerHour[1].Money.String(), "0.80 USD"},
		{"lit: D1 and D2, once each", s.Lit, 2},
		{"lamps", s.Lamps, 3},
		{"resistors", s.Resistors, 2},
		{"parts of the kit", s.Parts, 186},
		{"parts used: 6 and a spare", s.PartsUsed, 7},
		{"parts broken", s.PartsHurt, 1},
		{"decals applied", s.DecalsApplied, 5},
		{"decals failed", s.DecalsFailed, 1},
		{"readings", s.Readings, 1},
		{"running total on the last spend", s.ByStep[3].Total.String(), "116.50 EUR and 4 USD"},
	} {
		if c.got != c.want {
			t.Errorf("%s: got %v, want %v", c.name, c.got, c.want)
		}
	}
}

func TestTotalsBySlice(t *testing.T) {
	s := Totals(skiff(), []string{"assembly", "lighting", "masking", "decals"})
	for name, c := range map[string]struct{ got, want []Slice }{
		"stages in the workshop's order, empty ones left out": {s.ByStage, []Slice{
			{"assembly", "assembly", hours("40 min").V, 2, quantity.Share(hours("40 min").V / 5)},
			{"lighting", "lighting", hours("3 h 20 min").V, 1, quantity.Share(hours("3 h 20 min").V / 5)},
			{"decals", "decals", hours("1 h").V, 1, 0.2}}},
		"months": {s.ByMonth, []Slice{
			{"2026-01", "2026-01", hours("40 min").V, 1, quantity.Share(hours("40 min").V / 5)},
			{"2026-02", "2026-02", hours("4 h 20 min").V, 3, quantity.Share(hours("4 h 20 min").V / 5)}}},
		"research is shown apart": {s.Apart, []Slice{{"research", "research", 2, 1, 0}}},
	} {
		if len(c.got) != len(c.want) {
			t.Errorf("%s: got %v, want %v", name, c.got, c.want)
			continue
		}
		for i := range c.got {
			if c.got[i] != c.want[i] {
				t.Errorf("%s: got %v, want %v", name, c.got[i], c.want[i])
			}
		}
	}
	var order []string
	for _, x := range s.BySitting {
		order = append(order, x.Name)
	}
	if got := source.And(order).String(); got != "2026-01-31, 2026-02-14, 2026-02-14-decals and 2026-02-20" {
		t.Errorf("sittings out of order: %s", got)
	}
}

func TestASampleCostsTheBuilderNothing(t *testing.T) {
	b := skiff()
	b.Kit.Obtained = way(AsSample)
	s := Totals(b, nil)
	if got := s.Cost.String(); got != "116.50 EUR and 4 USD" {
		t.Errorf("cost to a reader: %s", got)
	}
	if got := s.Outlay.String(); got != "24.50 EUR and 4 USD" {
		t.Errorf("outlay of the builder: %s", got)
	}
}

func TestTotalsOfNothing(t *testing.T) {
	s := Totals(Build{State: Stash}, []string{"assembly"})
	if s.Elapsed != 0 || s.Hours != 0 || s.PerHour != nil || s.ByStage != nil || s.Cost.String() != "nothing" {
		t.Errorf("a build without sittings adds up to %+v", s)
	}
}

func TestAll(t *testing.T) {
	one := Totals(skiff(), nil)
	two := Totals(Build{Slug: "tower", State: Shelf, Kit: Kit{Price: price("40 EUR"), Parts: val(90)},
		Sittings: []Sitting{{Slug: "2025-11-02", Date: day("2025-11-02"), Hours: hours("5 h"), Stage: val("assembly")}}}, nil)
	stash := Totals(Build{Slug: "crawler", State: Stash, Kit: Kit{Price: price("10 EUR")}}, nil)
	o := All([]Sum{one, two, stash})
	for _, c := range []struct {
		name      string
		got, want any
	}{
		{"hours", o.Hours.String(), "10 h"},
		{"sittings", o.Sittings, 5},
		{"cost", o.Cost.String(), "166.50 EUR and 4 USD"},
		{"rate leaves the stash out: 156.50 / 10", o.PerHour[0].Money.String(), "15.65 EUR"},
		{"builds on the bench", o.Builds[Bench], 1},
		{"parts", o.Parts, 276},
		{"first day", o.First, day("2025-11-02")},
		{"last day", o.Last, day("2026-02-20")},
		{"months in order", o.ByMonth[0].Name, "2025-11"},
		{"months", len(o.ByMonth), 3},
		{"stages: the first build's order, then new ones", o.ByStage[0].Name, "assembly"},
		{"share of the first build", o.ByBuild[0].Share, quantity.Share(0.5)},
	} {
		if c.got != c.want {
			t.Errorf("%s: got %v, want %v", c.name, c.got, c.want)
		}
	}
}

func TestPurseNeverAddsCurrencies(t *testing.T) {
	p := Purse(nil).Add(money("3 USD"), money("1200 JPY"), money("0.50 USD"), money("2 EUR"))
	if got := p.String(); got != "2 EUR, 1200 JPY and 3.50 USD" {
		t.Errorf("got %s", got)
	}
	if got := p.Of("GBP").String(); got != "0 GBP" {
		t.Errorf("a currency that is not there: %s", got)
	}
	before := p.String()
	_ = p.Add(money("1 USD"))
	if p.String() != before {
		t.Error("Add changed the purse it was given")
	}
}

// The bench time grows day by day, whatever the order in which sittings are given.
func TestGrowth(t *testing.T) {
	var got []string
	for _, x := range Growth(skiff().Sittings) {
		got = append(got, x.Date.Format(time.DateOnly)+" "+x.Hours.String())
	}
	if want := []string{"2026-01-31 40 min", "2026-02-14 5 h", "2026-02-20 5 h"}; !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
}
