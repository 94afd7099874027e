package quantity

import "testing"

func TestPortionReadsPartsDropsAndVolumes(t *testing.T) {
	for text, want := range map[string]Portion{"3": {3, InParts}, "1 part": {1, InParts}, "12 drops": {12, InDrops}, "1 drop": {1, InDrops}, "1.5 ml": {0.0015, InLitres}} {
		got, err := read[Portion](text)
		if err != nil || got != want {
			t.Errorf("%q: got %v (%v), want %v", text, got, err, want)
		}
		if again, err := read[Portion](got.String()); err != nil || again != got {
			t.Errorf("%q prints as %q, which reads as %v (%v)", text, got, again, err)
		}
	}
	for _, text := range []string{"", "ml", "-3 drops", "3 mm", "3 V", "1e400 drops"} {
		if got, err := read[Portion](text); err == nil {
			t.Errorf("%q: read as %v, want a refusal", text, got)
		}
	}
}

// A portion comes from a person's file: no text may break it.
func FuzzPortion(f *testing.F) {
	for _, seed := range []string{"3 parts", "12 drops", "1.5 ml"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if p, err := read[Portion](text); err == nil && !(p.Number >= 0) {
			t.Errorf("%q: portion %v", text, p)
		}
	})
}

// Light meters show fractions of a lux, never millilux.
func TestLuxPrintsAsMetersDo(t *testing.T) {
	for text, want := range map[string]string{"0.9 lx": "0.9 lx", "1850 lux": "1850 lx", "2 klx": "2000 lx"} {
		if v, err := read[Lux](text); err != nil || v.String() != want {
			t.Errorf("%q: %s (%v), want %s", text, v, err, want)
		}
	}
}
