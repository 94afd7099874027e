package page

import (
	"fmt"
	"io/fs"
	"strings"
	"time"

	"spruelight/gen/quantity"

	"github.com/goccy/go-yaml"
	"golang.org/x/text/language"
	"golang.org/x/text/message"
	"golang.org/x/text/number"
)

// Words are the words of the interface in one language. A key is the English
// phrase itself, so that templates read as they will look; a phrase that a
// language lacks is shown in English.
type Words struct {
	Language string
	phrases  map[string]string
	plurals  map[string]plural
	months   []string
	dates    map[string]string
	printer  *message.Printer
}

// plural holds the forms of a counted word: one and other, as CLDR names them.
type plural struct {
	One   string `yaml:"one"`
	Other string `yaml:"other"`
}

// LoadWords reads <language>.yaml from a folder of words.
func LoadWords(folder fs.FS, lang string) (*Words, error) {
	text, err := fs.ReadFile(folder, lang+".yaml")
	if err != nil {
		return nil, fmt.Errorf("no words for the language %q: %w", lang, err)
	}
	var file struct {
		Months  []string          `yaml:"months"`
		Dates   map[string]string `yaml:"dates"`
		Counted map[string]plural `yaml:"counted"`
		Phrases map[string]string `yaml:"phrases"`
	}
	if err := yaml.UnmarshalWithOptions(text, &file, yaml.Strict()); err != nil {
		return nil, fmt.Errorf("%s.yaml: %w", lang, err)
	}
	if len(file.Months) != 12 {
		return nil, fmt.Errorf("%s.yaml: %d months; twelve are wanted", lang, len(file.Months))
	}
	tag := language.Make(lang)
	return &Words{Language: lang, phrases: file.Phrases, plurals: file.Counted, months: file.Months, dates: file.Dates,
		printer: message.NewPrinter(tag)}, nil
}

// Say returns a phrase in the language, with values put in the places of its
// %s in their order (or by %[1]s).
func (w *Words) Say(phrase string, values ...any) string {
	text, ok := w.phrases[phrase]
	if !ok || text == "" {
		text = phrase
	}
	if len(values) == 0 {
		return text
	}
	return fmt.Sprintf(text, values...)
}

// Count returns a number with its word: "3 sittings".
func (w *Words) Count(n int, word string) string {
	forms, ok := w.plurals[word]
	if !ok {
		forms = plural{One: word, Other: word + "s"}
	}
	form := forms.Other
	if n == 1 && forms.One != "" {
		form = forms.One
	}
	return w.Number(float64(n), 0) + "\u00a0" + form
}

// Number writes a number with at most so many decimals, by the rules of CLDR.
func (w *Words) Number(v float64, decimals int) string {
	return w.printer.Sprint(number.Decimal(v, number.MaxFractionDigits(decimals)))
}

// Day writes a calendar day, Month a month of a year.
func (w *Words) Day(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return w.date(t, "day")
}

// Month writes a month and its year.
func (w *Words) Month(t time.Time) string { return w.date(t, "month") }

func (w *Words) date(t time.Time, form string) string {
	return strings.NewReplacer("{d}", fmt.Sprint(t.Day()), "{m}", w.months[t.Month()-1], "{n}", fmt.Sprint(int(t.Month())), "{y}", fmt.Sprint(t.Year())).Replace(w.dates[form])
}

// Figure writes a number with its unit, rounded to its digits.
func (w *Words) Figure(f quantity.Figure) string {
	return w.localised(f.Text())
}

// Range writes a figure's band.
func (w *Words) Range(f quantity.Figure) string { return w.localised(f.Range()) }

// localised puts the language's decimal sign into a plain number text.
func (w *Words) localised(text string) string {
	sign := w.printer.Sprint(number.Decimal(0.5))
	if strings.Contains(sign, ",") {
		return strings.ReplaceAll(text, ".", ",")
	}
	return text
}
