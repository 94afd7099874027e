package paint

import (
	"slices"
	"strings"
	"testing"
	"time"

	"spruelight/gen/source"
)

// readyToClose is an area of which every point is met.
func readyToClose() Area {
	a := done(with(area("hull inside", Styrene), encloses("D1", "D2")), days3, coat("black", LightBlocking), coat("silver", LightBlocking), coat("white", LightBlocking))
	a.Closing = Closing{
		Lamps: []EnclosedLamp{
			{Ref: "D1", At: "saloon ceiling fore", Lit: []time.Time{on(9, 20, 0)}},
			{Ref: "D2", At: "saloon ceiling aft", Lit: []time.Time{on(9, 20, 0)}}},
		Readings: []EnclosedReading{{At: "saloon fore", Band: source.Word("9.1 to 10.3 mA"), Text: source.Word("9.6 mA"), Within: true}},
		Checks:   []DoneCheck{{BeforePrimer, on(10, 20, 0)}, {AfterPrimer, on(12, 20, 0)}},
		Soak:     word("24 h"), Wiggle: word("all wires moved"), Entry: word("mounting rod"), Routed: word("mounting rod"), Photo: word("photos/inside.jpg"),
		Unreachable: []source.Message{source.Word("resistor R1")},
	}
	return a
}

func closedOn(when time.Time) func(*Area) {
	return func(a *Area) { a.Closing.Closed = w(when, "hull inside") }
}

func TestClosingCard(t *testing.T) {
	cases := []struct {
		name   string
		change func(*Area)
		rule   string
		says   string
	}{
		{"a lamp never lit", func(a *Area) { a.Closing.Lamps[1].Lit = nil }, "closed-lamp-unlit", "D2 never seen to light"},
		{"a lamp lit only afterwards", func(a *Area) { a.Closing.Lamps[0].Lit = []time.Time{on(25, 0, 0)} }, "closed-lamp-unlit", "D1 never seen to light"},
		{"lamps unknown to the circuits", func(a *Area) { a.Closing.Lamps = nil }, "closed-lamp-unlit", "none of the lamps inside is in a circuit"},
		{"a reading outside its band", func(a *Area) { a.Closing.Readings[0].Within = false }, "closed-without-reading", "saloon fore reads 9.6 mA, the band is 9.1 to 10.3 mA"},
		{"nothing measured", func(a *Area) { a.Closing.Readings[0].Text = source.Message{} }, "closed-without-reading", "not measured: saloon fore"},
		{"a blocking coat missing", func(a *Area) { a.Laid = a.Laid[:2] }, "closed-blocking-incomplete", "not laid: white"},
		{"white laid the evening before", func(a *Area) { a.Laid[2].When = on(19, 20, 0) }, "closed-uncured", "white cures until Sun 22 Feb 2026 20:00"},
		{"a leak left open", func(a *Area) { a.Leaks = []Leak{{Where: word("seam")}} }, "closed-leak-open", "neither sealed nor accepted: seam"},
		{"no look after primer", func(a *Area) { a.Closing.Checks = a.Closing.Checks[:1] }, "closed-leak-check-missing", "not after primer"},
		{"looked only after closing", func(a *Area) { a.Closing.Checks[1].When = on(21, 0, 0) }, "closed-leak-check-missing", "not after primer"},
		{"no soak", func(a *Area) { a.Closing.Soak = source.Value[string]{} }, "closed-without-soak", "no soak test is noted"},
		{"no wiggle", func(a *Area) { a.Closing.Wiggle = word("  ") }, "closed-without-wiggle", "no wiggle test is noted"},
		{"wires by another way", func(a *Area) { a.Closing.Routed = word("stern tube") }, "closed-wires-not-out", "led out by stern tube, the circuit says mounting rod"},
		{"wires still inside", func(a *Area) { a.Closing.Routed = source.Value[string]{} }, "closed-wires-not-out", "not led out by mounting rod"},
		{"no photo", func(a *Area) { a.Closing.Photo = source.Value[string]{} }, "closed-without-photo", "no photo of the inside is named"},
	}
	sound := check(with(readyToClose(), closedOn(on(20, 20, 0))))
	if got := rules(sound.Findings); len(got) > 0 || sound.Areas[0].Card.Open() != 0 {
		t.Fatalf("everything is done, yet %v speak and %d points are open", got, sound.Areas[0].Card.Open())
	}
	for _, c := range cases {
		t.Run(strings.ReplaceAll(c.name, " ", "-"), func(t *testing.T) {
			a := readyToClose()
			c.change(&a)
			open := Check(&Build{Moment: on(20, 20, 0), Paints: rack(), Areas: []Area{a}})
			if n := open.Areas[0].Card.Open(); n != 1 {
				t.Errorf("before closing %d points are open, want one", n)
			}
			if slices.Contains(rules(open.Findings), c.rule) {
				t.Errorf("%s speaks before anything was closed", c.rule)
			}
			r := check(with(a, closedOn(on(20, 20, 0))))
			if f := find(t, r.Findings, c.rule); !strings.HasSuffix(f.Says.String(), c.says) || f.Severity() != source.Warn || f.At.Text() != "hull inside" {
				t.Errorf("%q at %q, want it to end in %q", f.Says.String(), f.At.Text(), c.says)
			}
		})
	}
}

func TestCoatsCannotFollowTheClosing(t *testing.T) {
	a := with(readyToClose(), closedOn(on(20, 20, 0)))
	a.Laid = append(a.Laid, lay("white", LightBlocking, on(21, 9, 0)))
	if f := find(t, check(a).Findings, "coat-after-closing"); f.At.Text() != "{coat: white}" {
		t.Errorf("at %q", f.At.Text())
	}
	outside := with(done(area("hull", Styrene), days3, coat("grey-primer", Primer)), closedOn(on(1, 1, 0)))
	if has(rules(check(outside).Findings), "coat-after-closing") {
		t.Error("the outside of a closed shell is painted")
	}
}

// What nobody can reach afterwards is on the card.
func TestClosingCardListsTheUnreachable(t *testing.T) {
	card := check(readyToClose()).Areas[0].Card
	want := []string{"lamp D1, saloon ceiling fore", "lamp D2, saloon ceiling aft", "resistor R1", "coat black", "coat silver", "coat white"}
	if !slices.EqualFunc(card.Unreachable, want, func(m source.Message, text string) bool { return m.String() == text }) {
		t.Errorf("%q", card.Unreachable)
	}
}

// An area without lamps needs no lamps, readings or leak checks, but a photo.
func TestClosingWithoutLamps(t *testing.T) {
	a := with(done(area("keel", Styrene), days3, coat("grey-primer", Primer)), closedOn(on(20, 0, 0)))
	if got := rules(check(a).Findings); !slices.Equal(got, []string{"closed-without-photo"}) {
		t.Errorf("%v", got)
	}
}

// Every closing point says how a sitting notes it, for the area.
func TestPointsSayHowTheyAreNoted(t *testing.T) {
	card := check(readyToClose()).Areas[0].Card
	seen := map[string]bool{}
	for _, p := range card.Points {
		if p.note == "" || strings.Contains(p.note, "%") || seen[p.note] {
			t.Errorf("%s is noted by %q", p.Rule.Name, p.note)
		}
		seen[p.note] = true
	}
	if len(card.Points) != 10 {
		t.Errorf("%d points", len(card.Points))
	}
}
