package page

import (
	"io/fs"
	"testing"
	"testing/fstest"
	"time"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
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

// A template's own signs after spoken words are those of the language; elsewhere
// they stay.
func TestTemplatesTakeTheSignsOfTheLanguage(t *testing.T) {
	words := &Words{Language: "ja", tag: language.Japanese, point: ".", phrases: map[string]string{"Next": "次", "As of": "基準日："},
		joins: map[string]string{". ": "。", ", ": "、", ": ": "：", ".": "。"}}
	const text = `{{define "page"}}<p title="{{say "Next"}}: {{.Name}}">{{say "As of"}} {{.Name}}, x. {{say "Next"}}, {{if .Name}}{{say .Name}}{{end}}.</p><p>{{.Name}}: y</p>{{end}}`
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

// A moment in a drawing is short, on a page it is written out; a list takes the
// signs of the language.
func TestValuesFollowTheLanguage(t *testing.T) {
	at := time.Date(2026, 2, 14, 10, 30, 0, 0, time.UTC)
	for _, c := range []struct {
		language string
		value    any
		want     string
	}{
		{"es", quantity.ShortMoment(at), "14 feb 2026, 10:30"},
		{"es", quantity.Moment(at), "14 de febrero de 2026, 10:30"},
		{"ja", quantity.ShortMoment(at), "2026年2月14日、10:30"},
		{"ja", quantity.Hours(3.25), "3時間15分"},
		{"ja", source.Row([]string{"D1", "D2"}), "D1、D2"},
		{"de", source.And([]string{"D1", "D2", "D3"}), "D1, D2 und D3"},
	} {
		if got := words(t, c.language).Message(source.Say("%s", c.value)); got != c.want {
			t.Errorf("%s: %v\n got %q\nwant %q", c.language, c.value, got, c.want)
		}
	}
}

// Where the workshop measures in inches, every length in a message is: declared
// ones, worked-out ones, wires, and the ends of a range.
func TestLengthsInInches(t *testing.T) {
	for language, want := range map[string]string{"en": "7 in, 8.03 in, 2 ± 0.05 in, 34 AWG, 5 V", "de": "7 in, 8,03 in, 2 ± 0,05 in, 34 AWG, 5 V"} {
		w := words(t, language)
		w.PrintBy(quantity.Printer{Inches: true})
		limits := quantity.Measured{Value: 0.0508, Low: 0.04953, High: 0.05207}
		m := source.Say("%s", source.Row([]any{quantity.Metres(7 * 0.0254), quantity.About(quantity.Metres(0.204)), limits,
			quantity.WireSize{Copper: quantity.AWG(34), Text: "34 AWG"}, quantity.Volts(5)}))
		if got := w.Message(m); got != want {
			t.Errorf("%s: %q, want %q", language, got, want)
		}
	}
}
