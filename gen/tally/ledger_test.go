package tally

import (
	"strings"
	"testing"

	"spruelight/gen/source"
)

// event is a part event in short: "lost 3".
type event struct {
	on    string
	part  string
	event Event
	count int
}

func build(state State, events ...event) Build {
	b := Build{State: state}
	for _, e := range events {
		b.Sittings = append(b.Sittings, Sitting{Slug: e.on, Date: day(e.on),
			Parts: []PartEvent{{Part: val(e.part), Event: val(string(e.event)), Count: val(e.count)}}})
	}
	return b
}

func part(name string, have, need int) Part {
	return Part{Name: val(name), Have: val(have), Need: val(need)}
}

func TestLedgerScenarios(t *testing.T) {
	const d1, d2, d3 = "2026-02-01", "2026-02-08", "2026-02-15"
	for _, c := range []struct {
		name                            string
		state                           State
		have, need                      int
		events                          []event
		left, toFit, spares, short, gap int
		rules                           string
	}{
		{"nothing happened yet", Bench, 5, 4, nil, 5, 4, 1, 0, 0, ""},
		{"six needed, eight packed, three lost", Bench, 8, 6,
			[]event{{d1, "C14", Lost, 1}, {d2, "C14", Lost, 1}, {d3, "C14", Lost, 1}}, 5, 6, 0, 1, 0, "part-short"},
		{"two of three turn up again", Bench, 8, 6,
			[]event{{d1, "C14", Lost, 3}, {d2, "C14", Found, 2}}, 7, 6, 1, 0, 0, ""},
		{"a spare used stands for one spoiled", Bench, 5, 4,
			[]event{{d1, "C14", SpareUsed, 1}}, 3, 3, 0, 0, 0, "part-no-spare"},
		{"broken, then replaced by the spare a week later", Bench, 5, 4,
			[]event{{d1, "C14", Broken, 1}, {d2, "C14", SpareUsed, 1}}, 3, 3, 0, 0, 0, "part-no-spare"},
		{"all fitted", Bench, 5, 4, []event{{d1, "C14", Used, 4}}, 1, 0, 1, 0, 0, ""},
		{"a fitted one came off and broke", Bench, 5, 4,
			[]event{{d1, "C14", Used, 4}, {d2, "C14", TakenOff, 1}, {d3, "C14", Broken, 1}}, 1, 1, 0, 0, 0, "part-no-spare"},
		{"more used than packed", Bench, 5, 4,
			[]event{{d1, "C14", Used, 4}, {d2, "C14", Elsewhere, 2}}, 0, 0, 0, 0, 1, "part-overdrawn"},
		{"one cast to make up for a loss", Bench, 4, 4,
			[]event{{d1, "C14", Lost, 1}, {d2, "C14", Made, 1}}, 4, 4, 0, 0, 0, ""},
		{"short in the box", Bench, 3, 4, nil, 3, 4, 0, 1, 0, "part-short-packed"},
		{"finished: what is needed is in place, logged or not", Shelf, 8, 6,
			[]event{{d1, "C14", Lost, 1}}, 1, 0, 1, 0, 0, ""},
		{"finished with fewer than needed", Shelf, 6, 6,
			[]event{{d1, "C14", Lost, 1}}, 0, 0, 0, 0, 1, "part-overdrawn"},
		{"found more than lost", Bench, 6, 6, []event{{d1, "C14", Found, 1}}, 6, 6, 0, 0, 0, "part-overdrawn"},
		{"filled parts stay where they are", Bench, 2, 2, []event{{d1, "C14", Filled, 2}}, 2, 2, 0, 0, 0, ""},
	} {
		rows, findings := Ledger(build(c.state, c.events...), []Part{part("C14", c.have, c.need)})
		r := rows[0]
		got := [...]int{r.Left, r.ToFit, r.Spares, r.Short, r.Missing}
		want := [...]int{c.left, c.toFit, c.spares, c.short, c.gap}
		if got != want {
			t.Errorf("%s: left, to fit, spares, short, missing: got %v, want %v", c.name, got, want)
		}
		if names := rules(findings); names != c.rules {
			t.Errorf("%s: findings %q, want %q", c.name, names, c.rules)
		}
	}
}

func rules(f source.Findings) string {
	var names []string
	for _, x := range f {
		names = append(names, x.Rule.Name)
	}
	return strings.Join(names, " ")
}

func TestShortageIsSaidWhereItBegan(t *testing.T) {
	file := source.NewFile("builds/skiff/2026-02-08.md", "parts: [{part: C14, event: lost}]")
	b := build(Bench, event{"2026-02-01", "C14", Lost, 2}, event{"2026-02-08", "C14", Lost, 1}, event{"2026-02-15", "C14", Lost, 1})
	b.Sittings[1].Parts[0].Part.At = file.At(15, 3)
	_, findings := Ledger(b, []Part{part("C14", 8, 6)})
	if len(findings) != 1 || findings[0].At.Text() != "C14" || findings[0].At.Name() != file.Name {
		t.Fatalf("got %+v", findings)
	}
	if want := "4 of C14 left and 6 still to fit: 2 short"; findings[0].Says.String() != want {
		t.Errorf("got %q, want %q", findings[0].Says.String(), want)
	}
}

func TestSameEveningBreakAndReplacement(t *testing.T) {
	b := Build{State: Bench, Sittings: []Sitting{{Slug: "a", Date: day("2026-02-01"), Parts: []PartEvent{
		{Part: val("C14"), Event: val(string(SpareUsed))}, {Part: val("C14"), Event: val(string(Broken))}}}}}
	rows, _ := Ledger(b, []Part{part("C14", 5, 4)})
	if rows[0].Broken != 1 || rows[0].Implied != 0 {
		t.Errorf("one break and its spare count as %d broken, %d implied", rows[0].Broken, rows[0].Implied)
	}
}

func TestLedgerRefusesWhatItCannotCount(t *testing.T) {
	for name, c := range map[string]struct {
		event PartEvent
		rule  string
	}{
		"unknown word":  {PartEvent{Part: val("C14"), Event: val("eaten")}, "part-event"},
		"no parts":      {PartEvent{Part: val("C14"), Event: val("used"), Count: val(0)}, "part-count"},
		"negative":      {PartEvent{Part: val("C14"), Event: val("used"), Count: val(-2)}, "part-count"},
		"unlisted part": {PartEvent{Part: val("Z9"), Event: val("lost")}, "part-unlisted"},
	} {
		b := Build{State: Bench, Sittings: []Sitting{{Parts: []PartEvent{c.event}}}}
		rows, findings := Ledger(b, []Part{part("C14", 5, 4)})
		if rules(findings) != c.rule {
			t.Errorf("%s: findings %q, want %q", name, rules(findings), c.rule)
		}
		if rows[0].Left != 5 {
			t.Errorf("%s: it changed the count of C14 to %d", name, rows[0].Left)
		}
	}
	_, findings := Ledger(Build{}, []Part{part("C14", 5, 4), part("C14", 6, 4)})
	if rules(findings) != "part-twice" {
		t.Errorf("a part listed twice: findings %q", rules(findings))
	}
}

// Whatever is logged, nothing shown is below zero, and what there was is
// accounted for to the last part.
func FuzzLedgerBalances(f *testing.F) {
	f.Add(8, 6, []byte{3, 3, 3, 0, 1})
	f.Add(0, 0, []byte{4, 5, 6, 10, 9, 8, 7})
	f.Fuzz(func(t *testing.T, have, need int, events []byte) {
		b := Build{State: Bench}
		for i, e := range events {
			b.Sittings = append(b.Sittings, Sitting{Date: day("2026-01-01").AddDate(0, 0, i%400),
				Parts: []PartEvent{{Part: val("C14"), Event: val(string(Events[int(e)%len(Events)])), Count: val(1 + int(e)/len(Events)%4)}}})
		}
		have, need = have&0xff, need&0xff
		rows, _ := Ledger(b, []Part{part("C14", have, need)})
		r := rows[0]
		for _, n := range []int{r.Used, r.Broken, r.Lost, r.Left, r.Missing, r.ToFit, r.Spares, r.Short, r.Implied} {
			if n < 0 {
				t.Fatalf("below zero: %+v", r)
			}
		}
		if sum := r.Used + r.Broken + r.Lost + r.Elsewhere + r.Left - r.Missing; sum != r.Have+r.Got {
			t.Fatalf("%d accounted for of %d: %+v", sum, r.Have+r.Got, r)
		}
	})
}
