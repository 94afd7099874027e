package tally

import (
	"math"
	"math/bits"
	"strings"
	"testing"

	"spruelight/gen/source"
)

func names(text string) []source.Value[string] {
	var out []source.Value[string]
	for _, name := range strings.Fields(text) {
		out = append(out, val(name))
	}
	return out
}

func treated(name, on string) source.Entry[Treatment] {
	return source.Entry[Treatment]{Name: val(name), Value: Treatment{On: names(on)}}
}

// crazed is the example of the guide: nine parts, one mix, two crazed.
func crazed() Problem {
	can := treated("primed from the new can", "B2 B5")
	can.Value.Instead = val("primed from the old can")
	return Problem{
		Name: val("crazing on the deck houses"), Symptom: val("crazed"),
		Affected: names("B2 B5"), Sound: names("B1 B3 B4 B6 B7 B8 B9"),
		Treatments: source.Entries[Treatment]{
			treated("painted with the same mix", "B1 B2 B3 B4 B5 B6 B7 B8 B9"),
			treated("cast in resin", "B2 B5"),
			can,
			treated("washed", "B1 B3 B4"),
		},
	}
}

func TestTwoSuspectsThatCannotBeToldApart(t *testing.T) {
	r, findings := Isolate(crazed())
	if len(findings) > 0 {
		t.Errorf("findings: %v", findings)
	}
	want := "Of 9 parts painted with the same mix, B2 and B5 crazed; only those two were cast in resin, and only those two were primed from the new can. " +
		"By chance alone this would come about once in 36 (Fisher's exact test, P = 0.028); with 3 comparisons made, allow for 0.083. " +
		"Try one part cast in resin and primed from the old can to tell the two apart: if it shows the same, suspect “cast in resin”; if it stays sound, “primed from the new can”."
	if r.Says.String() != want {
		t.Errorf("got  %s\nwant %s", r.Says, want)
	}
	if p := r.Suspects[0].P; math.Abs(p-1.0/36) > 1e-12 { // 1 / C(9,2)
		t.Errorf("P = %v, want 1/36", p)
	}
}

func TestATestSettlesIt(t *testing.T) {
	p := crazed()
	p.Tests = []Trial{
		{Piece: val("sprue end"), Treatments: []source.Value[string]{val("cast in resin"), val("primed from the old can")}, Affected: val(false)},
		{Piece: val("planned"), Treatments: []source.Value[string]{val("washed")}},
	}
	r, findings := Isolate(p)
	if len(findings) > 0 {
		t.Errorf("findings: %v", findings)
	}
	if len(r.Suspects) != 1 || r.Suspects[0].Says().String() != "primed from the new can" || r.Next != nil {
		t.Errorf("after the test: %+v", r.Suspects)
	}
	if len(r.Sound) != 8 {
		t.Errorf("the test piece is not counted, or a planned one is: %v", r.Sound)
	}
}

func TestOneTreatedPartAmongManySoundOnes(t *testing.T) {
	r, _ := Isolate(Problem{Symptom: val("lifted under tape"), Affected: names("A1"), Sound: names("A2 A3 A4 A5 A6 A7 A8 A9 A10 A11 A12 A13"),
		Treatments: source.Entries[Treatment]{treated("straightened in hot water", "A1"), treated("sanded", "A1 A2 A3 A4")}})
	if len(r.Suspects) != 1 || r.Carries {
		t.Fatalf("one part proves nothing, yet: %+v", r)
	}
	want := "Of 13 parts, A1 lifted under tape; only that one was straightened in hot water. So few parts do not carry a proof: chance alone would do this once in 13."
	if r.Says.String() != want {
		t.Errorf("got  %s\nwant %s", r.Says, want)
	}
}

func TestPairsAreSuspectedWhenNoSingleTreatmentIs(t *testing.T) {
	r, _ := Isolate(Problem{Symptom: val("wrinkled"), Affected: names("C1 C2 C3"), Sound: names("C4 C5 C6 C7 C8"),
		Treatments: source.Entries[Treatment]{
			treated("sprayed with lacquer", "C1 C2 C3 C4 C5"),
			treated("undercoated with enamel", "C1 C2 C3 C6 C7"),
		}})
	if !r.Pairs || len(r.Suspects) != 1 || r.Suspects[0].Says().String() != "sprayed with lacquer and undercoated with enamel" {
		t.Fatalf("got %+v", r.Suspects)
	}
	if !strings.Contains(r.Says.String(), "only those three were both sprayed with lacquer and undercoated with enamel") {
		t.Error(r.Says)
	}
}

func TestWhatWasLeftUndoneIsASuspectToo(t *testing.T) {
	r, _ := Isolate(Problem{Symptom: val("peeled"), Affected: names("C1 C2"), Sound: names("C3 C4 C5 C6"),
		Treatments: source.Entries[Treatment]{treated("washed", "C3 C4 C5 C6")}})
	if len(r.Suspects) != 1 || r.Suspects[0].Says().String() != "not washed" {
		t.Fatalf("got %+v", r.Suspects)
	}
}

func TestNothingSeparates(t *testing.T) {
	r, _ := Isolate(Problem{Symptom: val("silvered"), Noun: val("decal"), Affected: names("1 2 3"), Sound: names("4 5 6"),
		Treatments: source.Entries[Treatment]{treated("laid on a matt coat", "1 2 4"), treated("from sheet two", "3 5 6")}})
	if len(r.Suspects) != 0 {
		t.Fatalf("got %+v", r.Suspects)
	}
	// By hand: 2 of 3 against 1 of 3 has P = (9+9+1+1)/20 = 1.
	want := "Of 6 decals, 1, 2 and 3 silvered; no treatment, single or in pairs, sets them apart. The nearest is laid on a matt coat: 2 of 3 affected and 1 of 3 sound (P = 1 by Fisher's exact test)."
	if r.Says.String() != want {
		t.Errorf("got  %s\nwant %s", r.Says, want)
	}
}

func TestIsolationFindings(t *testing.T) {
	for name, c := range map[string]struct {
		problem Problem
		rules   string
	}{
		"nothing to compare": {Problem{Affected: names("A1")}, "problem-no-comparison"},
		"on both sides":      {Problem{Affected: names("A1 A2"), Sound: names("A2 A3")}, "problem-both"},
		"a stranger":         {Problem{Affected: names("A1"), Sound: names("A2"), Treatments: source.Entries[Treatment]{treated("washed", "A1 Z9")}}, "problem-stranger"},
		"a test of something else": {Problem{Affected: names("A1"), Sound: names("A2"),
			Tests: []Trial{{Piece: val("x"), Treatments: names("boiled"), Affected: val(true)}}}, "problem-test"},
		"a test on a counted part": {Problem{Affected: names("A1"), Sound: names("A2"),
			Tests: []Trial{{Piece: val("A1"), Affected: val(true)}}}, "problem-test"},
	} {
		if _, findings := Isolate(c.problem); rules(findings) != c.rules {
			t.Errorf("%s: findings %q, want %q", name, rules(findings), c.rules)
		}
	}
}

// For n single suspects no plan can do with fewer pieces than the logarithm of
// n to base two; ours never needs more, and its outcomes part all n.
func TestNextTestIsTheSmallest(t *testing.T) {
	for n := 2; n <= maxFactors; n++ {
		var suspects []Suspect
		for i := range n {
			suspects = append(suspects, Suspect{Factors: []Factor{{Treatment: &source.Entry[Treatment]{Name: val(string(rune('a' + i)))}}}})
		}
		test := next(suspects)
		if want := bits.Len(uint(n - 1)); len(test.Pieces) != want {
			t.Errorf("%d suspects: %d pieces, want %d", n, len(test.Pieces), want)
		}
		outcomes := map[string]bool{}
		for i := range n {
			var code strings.Builder
			for _, p := range test.Pieces {
				code.WriteByte("01"[count(p.Blames, i)])
			}
			outcomes[code.String()] = true
		}
		if len(outcomes) != n {
			t.Errorf("%d suspects: only %d outcomes", n, len(outcomes))
		}
	}
}

func count(list []int, x int) int {
	n := 0
	for _, y := range list {
		if y == x {
			n++
		}
	}
	return n
}

// A suspect is exactly what its definition says, whatever the table.
func FuzzSuspectsSeparate(f *testing.F) {
	f.Add(uint16(0b11), uint16(0b11), uint16(0b1010), uint16(0b1100))
	f.Fuzz(func(t *testing.T, affected, a, b, c uint16) {
		var p Problem
		had := []uint16{a, b, c}
		p.Treatments = source.Entries[Treatment]{treated("a", ""), treated("b", ""), treated("c", "")}
		for i := range 9 {
			name := val(string(rune('p' + i)))
			if affected>>i&1 == 1 {
				p.Affected = append(p.Affected, name)
			} else {
				p.Sound = append(p.Sound, name)
			}
			for j := range had {
				if had[j]>>i&1 == 1 {
					p.Treatments[j].Value.On = append(p.Treatments[j].Value.On, name)
				}
			}
		}
		r, _ := Isolate(p)
		for _, x := range r.Suspects {
			for i := range 9 {
				has := true
				for _, factor := range x.Factors {
					had := had[factor.Treatment.Name.V[0]-'a']>>i&1 == 1
					has = has && had != factor.Without
				}
				if has != (affected>>i&1 == 1) {
					t.Fatalf("%s does not separate the parts: %+v", x.Says(), p)
				}
			}
		}
		if r.Next != nil && len(r.Next.Pieces) == 0 {
			t.Fatal("a next test without a piece")
		}
	})
}

// The most treatments that are compared, none of which separates the parts:
// every pair is tried.
func BenchmarkIsolate(b *testing.B) {
	p := Problem{Symptom: val("crazed"), Affected: names("a0 a1 a2 a3"), Sound: names("s0 s1 s2 s3 s4 s5 s6 s7")}
	for i := range maxTreatments {
		on := "a0 a1 a2 a3 s" + string(rune('0'+i%8))
		p.Treatments = append(p.Treatments, treated("t"+string(rune('A'+i)), on+" s7"))
	}
	for b.Loop() {
		Isolate(p)
	}
}
