package page

import (
	"fmt"
	"io/fs"
	"strconv"
	"strings"
	"time"

	"spruelight/gen/quantity"
	"spruelight/gen/source"

	"github.com/goccy/go-yaml"
	"golang.org/x/text/feature/plural"
	"golang.org/x/text/language"
	"golang.org/x/text/message"
	"golang.org/x/text/number"
)

// Words are the words of the interface in one language. A key is the English
// phrase itself, so that templates read as they will look; a phrase that a
// language lacks is shown in English.
type Words struct {
	Language string
	tag      language.Tag
	phrases  map[string]string
	counted  map[string]map[string]string // word → CLDR plural category → form
	months   []string
	short    []string
	dates    map[string]string
	joins    map[string]string // what stands between the parts of a text, where it is not as in English
	printer  *message.Printer
	point    string            // between the whole and the decimals
	gap      string            // between a number and the word it counts
	pause    string            // between two sentences
	values   quantity.Printer  // by the workshop's choices
	fast     *strings.Replacer // makes spaces beside signs no-break ones; nil: none
	wide     bool              // a colon stands after a space

}

// wordsFile is a file of words: <language>.yaml.
type wordsFile struct {
	Months  []string                     `yaml:"months"`  // as they stand in a date
	Short   []string                     `yaml:"short"`   // for axes of charts
	Dates   map[string]string            `yaml:"dates"`   // {d} day, {m} month's name, {s} its short name, {n} its number, {y} year; first: the first of a month
	Joins   map[string]string            `yaml:"joins"`   // ", " and its like, where the language has signs of its own
	Gap     *string                      `yaml:"gap"`     // between a number and the word it counts, where it is no no-break space
	Pause   *string                      `yaml:"pause"`   // between two sentences, where it is no space
	Fast    []string                     `yaml:"fast"`    // signs with the spaces beside them that never end a line: " :"
	Counted map[string]map[string]string `yaml:"counted"` // forms by CLDR plural category
	Phrases map[string]string            `yaml:"phrases"`
}

// LoadWords reads <language>.yaml from a folder of words.
func LoadWords(folder fs.FS, lang string) (*Words, error) {
	text, err := fs.ReadFile(folder, lang+".yaml")
	if err != nil {
		return nil, fmt.Errorf("no words for the language %q: %w", lang, err)
	}
	var file wordsFile
	if err := yaml.UnmarshalWithOptions(text, &file, yaml.Strict()); err != nil {
		return nil, fmt.Errorf("%s.yaml: %w", lang, err)
	}
	if len(file.Months) != 12 || len(file.Short) != 12 {
		return nil, fmt.Errorf("%s.yaml: %d months and %d short ones; twelve are wanted", lang, len(file.Months), len(file.Short))
	}
	tag := language.Make(lang)
	w := &Words{Language: lang, tag: tag, phrases: file.Phrases, counted: file.Counted, months: file.Months, short: file.Short,
		dates: file.Dates, joins: file.Joins, printer: message.NewPrinter(tag), gap: "\u00a0", pause: source.Pause}
	if file.Gap != nil {
		w.gap = *file.Gap
	}
	if file.Pause != nil {
		w.pause = *file.Pause
	}
	w.fasten(file.Fast)
	w.spacedAll(file.Phrases)
	w.point = strings.Trim(w.printer.Sprint(number.Decimal(1.5)), "15")
	return w, nil
}

// PrintBy has values printed by the workshop's choices.
func (w *Words) PrintBy(p quantity.Printer) { w.values = p }

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

// Has reports whether the language has a phrase; English is its own.
func (w *Words) Has(phrase string) bool {
	return w.Language == "en" || w.phrases[phrase] != ""
}

// HasCounted reports whether the language has a counted word.
func (w *Words) HasCounted(word string) bool { return w.counted[word]["other"] != "" }

// categories are the names of CLDR's plural categories.
var categories = map[plural.Form]string{plural.Other: "other", plural.Zero: "zero", plural.One: "one", plural.Two: "two",
	plural.Few: "few", plural.Many: "many"}

// Count returns a number with its word: "3 sittings". The form is the one of
// CLDR's plural category for whole numbers.
func (w *Words) Count(n int, word string) string {
	forms, ok := w.counted[word]
	if !ok {
		forms = map[string]string{"one": word, "other": word + "s"}
	}
	form, ok := forms[categories[plural.Cardinal.MatchPlural(w.tag, n, 0, 0, 0, 0)]]
	if !ok {
		form = forms["other"]
	}
	return w.Number(float64(n), 0) + w.gap + form
}

// Number writes a number with at most so many decimals, by the rules of CLDR.
func (w *Words) Number(v float64, decimals int) string {
	if n := int(v); v == float64(n) && n >= 0 && n < 1000 { // the same in all of the languages
		return strconv.Itoa(n)
	}
	return w.printer.Sprint(number.Decimal(v, number.MaxFractionDigits(decimals)))
}

// Day writes a calendar day.
func (w *Words) Day(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return w.date(t, "day")
}

// Month writes a month and its year.
func (w *Words) Month(t time.Time) string { return w.date(t, "month") }

// MonthShort writes a month's short name.
func (w *Words) MonthShort(t time.Time) string { return w.short[t.Month()-1] }

// DayShort writes a day of a known year, as axes do.
func (w *Words) DayShort(t time.Time) string { return w.date(t, "short") }

// Join returns what the language sets between two parts of a text, or at its
// end, where English has this.
func (w *Words) Join(english string) string {
	if own := w.joins[english]; own != "" {
		return own
	}
	return english
}

func (w *Words) date(t time.Time, form string) string {
	year, month, day := t.Date()
	out := make([]byte, 0, 32)
	for rest := w.dates[form]; rest != ""; {
		mark := byte(0)
		if rest[0] == '{' && len(rest) > 2 && rest[2] == '}' {
			mark = rest[1]
		}
		switch mark {
		case 'd':
			if first := w.dates["first"]; day == 1 && first != "" {
				out = append(out, first...)
			} else {
				out = strconv.AppendInt(out, int64(day), 10)
			}
		case 'm':
			out = append(out, w.months[month-1]...)
		case 's':
			out = append(out, w.short[month-1]...)
		case 'n':
			out = strconv.AppendInt(out, int64(month), 10)
		case 'y':
			out = strconv.AppendInt(out, int64(year), 10)
		default:
			out, rest = append(out, rest[0]), rest[1:]
			continue
		}
		rest = rest[len("{d}"):]
	}
	return string(out)
}

// Figure writes a number with its unit, rounded to its digits.
func (w *Words) Figure(f quantity.Figure) string { return w.amount(f.Amount()) }

// amount writes a worked-out value; times as the language writes them, and
// units in words ("h a week", "of 10") in its words.
func (w *Words) amount(a quantity.Amount) string {
	if clock, by := quantity.InHours(a.Unit); clock {
		text := w.clock(quantity.Hours(a.Value).Parts(a.Digits))
		if by != "" {
			text = w.Say("%s"+by, text)
		}
		return text
	}
	if strings.Contains(a.Unit, " ") {
		return w.Message(source.Say("%s "+a.Unit, quantity.Amount{Value: a.Value, Digits: a.Digits}))
	}
	text, _ := w.values.Print(a)
	return w.localised(text)
}

// Value writes a value of any room with its unit, as the one printer does.
func (w *Words) Value(v any) string { return fmt.Sprint(w.value(v)) }

// Money writes an amount with its currency.
func (w *Words) Money(m quantity.Money) string { return w.localised(m.String()) }

// Range writes a figure's band.
func (w *Words) Range(f quantity.Figure) string { return w.Message(f.Band()) }

// localised puts the language's decimal sign into a plain number text. A number
// within a name, as in magnet-0.2, stays as it is.
func (w *Words) localised(text string) string {
	if w.point == "." {
		return text
	}
	out := []byte(text)
	for i := 1; i+1 < len(out); i++ {
		if out[i] == '.' && digit(out[i-1]) && digit(out[i+1]) && !named(text[:i]) {
			out[i] = w.point[0]
		}
	}
	return w.spaced(string(out))
}

// named reports whether the number at the end of a text is part of a name.
func named(text string) bool {
	before := strings.TrimRight(text, "0123456789")
	name, joined := strings.CutSuffix(before, "-")
	return joined && name != "" && (name[len(name)-1]|0x20 >= 'a' && name[len(name)-1]|0x20 <= 'z')
}

func digit(c byte) bool { return c >= '0' && c <= '9' }
