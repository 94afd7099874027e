package page

import "testing"

func TestTied(t *testing.T) {
	for text, want := range map[string]string{
		"204 mm long, 67 mm wide":     "204\u00a0mm long, 67\u00a0mm wide",
		"105.70 EUR":                  "105.70\u00a0EUR",
		"1/35, measures 1/35.1 ± 0.4": "1/35, measures 1/35.1\u00a0±\u00a00.4",
		"3 h 20 min":                  "3\u00a0h 20\u00a0min",
		"it is 4 % too large":         "it is 4\u00a0% too large",
		"about once in 66 (P 0.015)":  "about once in 66 (P 0.015)",
		"2 masked areas":              "2 masked areas", // no unit
		"no number":                   "no number",
	} {
		if got := Tied(text); got != want {
			t.Errorf("Tied(%q) = %q, want %q", text, got, want)
		}
	}
}
