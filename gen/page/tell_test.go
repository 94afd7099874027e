package page

import (
	"testing"

	"golang.org/x/text/language"
)

// A sentence with few words of its own tells numbers and references, and leaves the
// workshop's words alone; a value never swallows the start of the next sentence.
func TestLooseSentencesLeaveOwnWordsAlone(t *testing.T) {
	forms := unended(map[string]string{"{} to {}": "{} bis {}", "{} with {}": "{} mit {}", "At {} a week.": "Bei {} je Woche.", "About {} left.": "Noch etwa {}."})
	w := &Words{Language: "de", tag: language.German, point: ",", forms: forms, sentences: sentencesOf(forms)}
	for says, want := range map[string]string{
		"2.5 to 3 mA":                       "2,5 bis 3 mA",
		"L4+ with U1":                       "L4+ mit U1",
		"held with bare fingers":            "held with bare fingers",
		"base to the first junction":        "base to the first junction",
		"About 17 h left. At 2.5 h a week.": "Noch etwa 17\u00a0h. Bei 2,5 h je Woche.",
	} {
		if got := w.Tell(says); got != want {
			t.Errorf("%q\n got %q\nwant %q", says, got, want)
		}
	}
}

// What is said in brackets behind a name is told; lines to write into a file and
// numbers within names stay as they are.
func TestNamesAndLinesStay(t *testing.T) {
	forms := map[string]string{"primer": "Grundierung", "planned": "geplant", "leak check": "Lichtleckprüfung", "like {}": "etwa {}"}
	w := &Words{Language: "de", tag: language.German, point: ",", forms: forms, sentences: sentencesOf(forms)}
	for says, want := range map[string]string{
		"grey (primer), planned; hull (0.9 mm)":   "grey (Grundierung), geplant; hull (0,9 mm)",
		"like {area: hull, leak check: [primer]}": "etwa {area: hull, leak check: [primer]}",
		"magnet-0.2 (0.2 mm)":                     "magnet-0.2 (0,2 mm)",
		"14 Feb 2026 10:30":                       "1, 10:30",
	} {
		w.dates = map[string]string{"day": "1"}
		if got := w.Tell(says); got != want {
			t.Errorf("%q\n got %q\nwant %q", says, got, want)
		}
	}
}
