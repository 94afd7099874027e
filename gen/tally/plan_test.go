package tally

import (
	"testing"
	"time"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

func TestHeldBack(t *testing.T) {
	zone := time.FixedZone("CET", 3600)
	nine := time.Date(2026, 3, 1, 9, 0, 0, 0, zone)
	things := []Embargoed{
		{What: "sitting", Name: "skiff/2026-02-14", Until: val(nine)},
		{What: "sitting", Name: "skiff/2026-02-15"},
		{What: "review", Name: "skiff", Until: val(nine.Add(time.Hour))},
	}
	for _, c := range []struct {
		name string
		now  time.Time
		held int
	}{
		{"a second before", nine.Add(-time.Second), 2},
		{"at the very moment", nine, 1},
		{"the same moment in another zone", time.Date(2026, 3, 1, 8, 0, 0, 0, time.UTC), 1},
		{"nine o'clock in London is an hour late", time.Date(2026, 3, 1, 9, 0, 0, 0, time.UTC), 0},
		{"long after", nine.AddDate(1, 0, 0), 0},
	} {
		held, findings := HeldBack(things, c.now)
		if len(held) != c.held || len(findings) != c.held {
			t.Errorf("%s: %d held back with %d findings, want %d", c.name, len(held), len(findings), c.held)
		}
	}
	_, findings := HeldBack(things[:1], nine.AddDate(0, 0, -1))
	if want := "sitting skiff/2026-02-14 is held back until 2026-03-01 09:00 CET"; findings[0].Says.String() != want || findings.Stops() {
		t.Errorf("got %q", findings[0].Says.String())
	}
}

func jib(chosen, why string) Choice {
	c := Choice{Question: val("crane jib"), Options: []Option{{Name: val("stowed")}, {Name: val("swung out")}}, Areas: names("deck")}
	if chosen != "" {
		c.Chosen, c.Why = val(chosen), val(why)
	}
	return c
}

func TestDecisions(t *testing.T) {
	deck := []Closing{{Area: "deck", Date: day("2026-02-14")}}
	for _, c := range []struct {
		name   string
		choice Choice
		closed []Closing
		state  State
		open   bool
		says   string
		rules  string
	}{
		{"decided, still open", jib("swung out", "carries the lamp"), nil, Bench, true, "can still be changed until deck is closed", ""},
		{"decided and closed", jib("swung out", "carries the lamp"), deck, Bench, false, "fixed since deck was closed on 14 February 2026", ""},
		{"undecided and closed", jib("", ""), deck, Bench, false, "fixed since deck was closed on 14 February 2026", "choice-undecided"},
		{"undecided", jib("", ""), nil, Bench, true, "can still be changed until deck is closed", ""},
		{"no such option", jib("sideways", "why not"), nil, Bench, true, "can still be changed until deck is closed", "choice-option"},
		{"no reason", jib("stowed", ""), nil, Bench, true, "can still be changed until deck is closed", "choice-why"},
		{"finished", jib("stowed", "flat box"), nil, Shelf, false, "fixed: the model is finished", ""},
		{"one option", Choice{Question: val("mast"), Options: []Option{{Name: val("up")}}}, nil, Bench, true, "can still be changed", "choice-options"},
	} {
		got, findings := Decisions([]Choice{c.choice}, c.closed, c.state)
		if got[0].Open != c.open || got[0].Says.String() != c.says || rules(findings) != c.rules {
			t.Errorf("%s: open %v, %q, findings %q", c.name, got[0].Open, got[0].Says, rules(findings))
		}
	}
}

func TestBudgetByCurrency(t *testing.T) {
	s := Totals(skiff(), nil) // 116.50 EUR and 4 USD
	balances, findings := Balances([]source.Value[quantity.Money]{price("150 EUR"), price("3 USD"), price("10 GBP")}, s)
	for i, want := range []struct{ left, over string }{{"33.50 EUR", "0 EUR"}, {"0 USD", "1 USD"}, {"10 GBP", "0 GBP"}} {
		if balances[i].Left.String() != want.left || balances[i].Over.String() != want.over {
			t.Errorf("%s: left %s, over %s", balances[i].Budget, balances[i].Left, balances[i].Over)
		}
	}
	if rules(findings) != "over-budget" || findings[0].Says.String() != "4 USD spent of a budget of 3 USD: 1 USD over" {
		t.Errorf("got %v", findings)
	}
}

func TestCommission(t *testing.T) {
	c := &Commission{Rate: price("18 EUR"), Hours: hours("40 h"), Materials: price("60 EUR"), Deposit: price("200 EUR")}
	q, findings := QuoteFor(c, Sum{})
	// By hand: 40 × 18 = 720, with materials 780; 580 are due on delivery.
	if len(findings) > 0 || q.Total.String() != "780 EUR" || q.Balance.String() != "580 EUR" || q.Labour.String() != "720 EUR" || q.RealRate != nil {
		t.Errorf("got %+v, findings %v", q, findings)
	}
	// Finished after 50 h with 80 EUR of materials: (780 − 80) / 50 = 14 an hour.
	done := Sum{State: Shelf, Hours: 50, Outlay: Purse{money("80 EUR")}}
	q, findings = QuoteFor(c, done)
	if q.RealRate.Money.String() != "14 EUR" || rules(findings) != "commission-below-rate" {
		t.Errorf("real rate %s, findings %q", q.RealRate.Money, rules(findings))
	}
	if want := "Quoted 780 EUR, of which 200 EUR as deposit; 580 EUR on delivery. An hour really brought 14 EUR."; q.Says.String() != want {
		t.Errorf("got %s", q.Says)
	}
	c.Quoted = price("900 EUR")
	if q, _ = QuoteFor(c, done); q.RealRate.Money.String() != "16.40 EUR" || q.Balance.String() != "700 EUR" {
		t.Errorf("with a price agreed on: %+v", q)
	}
}

func TestCommissionFindings(t *testing.T) {
	for name, c := range map[string]struct {
		commission Commission
		rules      string
	}{
		"two currencies":        {Commission{Rate: price("18 EUR"), Quoted: price("900 USD")}, "commission-currency"},
		"nothing to go by":      {Commission{Rate: price("18 EUR")}, "commission-incomplete"},
		"deposit above price":   {Commission{Quoted: price("100 EUR"), Deposit: price("120 EUR")}, "commission-deposit"},
		"a price alone is fine": {Commission{Quoted: price("100 EUR")}, ""},
	} {
		if _, findings := QuoteFor(&c.commission, Sum{}); rules(findings) != c.rules {
			t.Errorf("%s: findings %q, want %q", name, rules(findings), c.rules)
		}
	}
}

func TestNextStep(t *testing.T) {
	sitting := func(on, next string) Sitting { return Sitting{Slug: on, Date: day(on), Next: val(next)} }
	for _, c := range []struct {
		name  string
		build Build
		want  NextStep
	}{
		{"of the newest sitting, whatever the order", Build{State: Bench, Sittings: []Sitting{sitting("2026-02-14", "close the hull"), sitting("2026-02-01", "solder D3")}},
			NextStep{"close the hull", "2026-02-14", day("2026-02-14"), false}},
		{"of an older one where the newest names none", Build{State: SetAside, Sittings: []Sitting{sitting("2025-10-01", "mask"), sitting("2025-10-08", " ")}},
			NextStep{"mask", "2025-10-01", day("2025-10-01"), true}},
		{"a finished build has none", Build{State: Shelf, Sittings: []Sitting{sitting("2026-02-20", "dust it")}}, NextStep{}},
		{"nothing written", Build{State: Bench}, NextStep{}},
	} {
		if got, _ := NextStepOf(c.build); got != c.want {
			t.Errorf("%s: got %+v, want %+v", c.name, got, c.want)
		}
	}
}

func TestOutOfTheBox(t *testing.T) {
	cast := []Row{{Part: "C14", Entries: []Entry{{Event: Made}, {Event: Made}}}}
	for _, c := range []struct {
		name      string
		lamps     int
		kitLights bool
		extras    []Extra
		rows      []Row
		still     bool
		says      string
	}{
		{"as packed", 0, false, nil, nil, true, "Counts as out of the box."},
		{"the kit brings its lamps", 3, true, nil, nil, true, "Counts as out of the box."},
		{"lamps added", 3, false, nil, nil, false, "No longer out of the box: 3 lamps added."},
		{"several reasons", 1, false, []Extra{{What: val("turned brass masts"), Kind: val("aftermarket")}}, cast, false,
			"No longer out of the box: 1 lamp added, turned brass masts (aftermarket) and C14 replaced by own work."},
	} {
		got, findings := JudgeOutOfBox(c.lamps, c.kitLights, c.extras, c.rows)
		if got.Still != c.still || got.Says.String() != c.says || len(findings) > 0 {
			t.Errorf("%s: got %+v %v", c.name, got, findings)
		}
	}
	if _, findings := JudgeOutOfBox(0, false, []Extra{{What: val("magic"), Kind: val("spell")}}, nil); rules(findings) != "extra-kind" {
		t.Errorf("findings %q", rules(findings))
	}
}
