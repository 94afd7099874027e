package page

import (
	"io/fs"
	"testing"
	"testing/fstest"

	"spruelight/themes"

	"golang.org/x/text/language"
)

// words are those of a language, by its file.
func words(t *testing.T, language string) *Words {
	t.Helper()
	folder, err := fs.Sub(themes.FS, "words")
	if err != nil {
		t.Fatal(err)
	}
	w, err := LoadWords(folder, language)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// tells holds what a language says to a table.
func tells(t *testing.T, w *Words, table map[string]string) {
	t.Helper()
	for says, want := range table {
		if got := w.Tell(says); got != want {
			t.Errorf("%s: %q\n got %q\nwant %q", w.Language, says, got, want)
		}
	}
}

// A sentence with few words of its own tells numbers and references, and leaves the
// workshop's words alone; a value never swallows the start of the next sentence.
func TestLooseSentencesLeaveOwnWordsAlone(t *testing.T) {
	forms := unended(map[string]string{"{} to {}": "{} bis {}", "{} with {}": "{} mit {}", "At {} a week.": "Bei {} je Woche.", "About {} left.": "Noch etwa {}."}, nil)
	w := &Words{Language: "de", tag: language.German, point: ",", gap: "\u00a0", forms: forms, sentences: sentencesOf(forms)}
	tells(t, w, map[string]string{
		"2.5 to 3 mA":                       "2,5 bis 3 mA",
		"L4+ with U1":                       "L4+ mit U1",
		"held with bare fingers":            "held with bare fingers",
		"base to the first junction":        "base to the first junction",
		"About 17 h left. At 2.5 h a week.": "Noch etwa 17\u00a0h. Bei 2,5 h je Woche.",
	})
}

// What is said in brackets behind a name is told; lines to write into a file and
// numbers within names stay as they are.
func TestNamesAndLinesStay(t *testing.T) {
	forms := map[string]string{"primer": "Grundierung", "planned": "geplant", "leak check": "Lichtleckprüfung", "like {}": "etwa {}"}
	w := &Words{Language: "de", tag: language.German, point: ",", dates: map[string]string{"day": "1"}, forms: forms, sentences: sentencesOf(forms)}
	tells(t, w, map[string]string{
		"grey (primer), planned; hull (0.9 mm)":   "grey (Grundierung), geplant; hull (0,9 mm)",
		"like {area: hull, leak check: [primer]}": "etwa {area: hull, leak check: [primer]}",
		"magnet-0.2 (0.2 mm)":                     "magnet-0.2 (0,2 mm)",
		"Sat 14 Feb 2026 10:30":                   "1, 10:30",
	})
}

// What stands between the parts of a text follows the language, and a text that
// the language says nothing of keeps its own.
func TestSignsFollowTheLanguage(t *testing.T) {
	forms := unended(map[string]string{"The coat is dry.": "塗膜は乾いています。", "It is late.": "遅くなりました。", "Junctions": "分岐点", "like {}": "{} のように書く"}, nil)
	w := &Words{Language: "ja", tag: language.Japanese, point: ",", phrases: map[string]string{"base": "基本色", "red": "赤"}, forms: forms, sentences: sentencesOf(forms),
		joins: map[string]string{". ": "。", ", ": "、", ": ": "：", ".": "。"}}
	tells(t, w, map[string]string{
		"The coat is dry. It is late.":  "塗膜は乾いています。遅くなりました。",
		"Junctions: 3, red":             "分岐点：3、赤",
		"quick, in the base":            "quick, in the base",
		"hull-grey (base)":              "hull-grey (基本色)",
		"like coats: [{coat: base, 1}]": "coats: [{coat: base, 1}] のように書く",
	})
}

// A template's own signs after spoken words are those of the language; elsewhere
// they stay.
func TestTemplatesTakeTheSignsOfTheLanguage(t *testing.T) {
	words := &Words{Language: "ja", tag: language.Japanese, point: ".", phrases: map[string]string{"Next": "次", "As of": "基準日："},
		joins: map[string]string{". ": "。", ", ": "、", ": ": "：", ".": "。"}}
	const text = `{{define "page"}}<p title="{{say "Next"}}: {{.Name}}">{{say "As of"}} {{.Name}}, x. {{say "Next"}}, {{if .Name}}{{tell .Name}}{{end}}.</p><p>{{.Name}}: y</p>{{end}}`
	b, found := NewBook(fstest.MapFS{"x.html": {Data: []byte(text)}}, words)
	if len(found) > 0 {
		t.Fatal(found)
	}
	got, found := b.Print(&Site{Name: "n"}, &Sheet{Path: "x.html", Kind: "x", Title: "t"})
	if len(found) > 0 {
		t.Fatal(found)
	}
	if want := `<p title="次：n">基準日：n, x. 次、n。</p><p>n: y</p>`; string(got) != want {
		t.Errorf("\n got %s\nwant %s", got, want)
	}
}

// A moment in a drawing is short, on a page it is written out.
func TestMomentsAreTold(t *testing.T) {
	for _, c := range []struct{ language, says, want string }{
		{"es", "14 Feb 2026 10:30", "14 feb 2026, 10:30"},
		{"es", "Sat 14 Feb 2026 10:30", "14 de febrero de 2026, 10:30"},
		{"ja", "14 Feb 2026 10:30", "2026年2月14日、10:30"},
		{"ja", "3 h 15 min", "3時間15分"},
	} {
		if got := words(t, c.language).Tell(c.says); got != c.want {
			t.Errorf("%s: %q\n got %q\nwant %q", c.language, c.says, got, c.want)
		}
	}
}
