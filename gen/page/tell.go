package page

import (
	"maps"
	"regexp"
	"slices"
	"strings"
	"time"
	"unicode/utf8"

	"spruelight/gen/quantity"
)

// The computing rooms speak English, in sentences with values in them. On a
// page of another language such a sentence is told by the words' sentences: its
// English form with {} in the places of the values, and the same in the
// language, {1} and {2} where the order differs. The values are told in turn:
// they may be words, times, days or sentences themselves.

// sentence is one form.
type sentence struct {
	pieces []string // what stands before, between and after the values
	to     string
}

// sentencesOf takes the forms with values apart, those with most words first,
// so that "closed on {}" never takes what "glued and closed on {}" means.
func sentencesOf(forms map[string]string) []sentence {
	var list []sentence
	for from, to := range forms {
		if strings.Contains(from, place) && to != "" {
			list = append(list, sentence{strings.Split(from, place), to})
		}
	}
	weight := func(s sentence) int { return len(strings.Join(s.pieces, "")) }
	slices.SortFunc(list, func(a, b sentence) int {
		if d := weight(b) - weight(a); d != 0 {
			return d
		}
		return strings.Compare(strings.Join(a.pieces, place), strings.Join(b.pieces, place))
	})
	return list
}

// loose reports whether a sentence is little more than two values, as "{} to {}"
// is. It would take apart many a text of the workshop's own, so it tells short
// values only: numbers, references.
func (s sentence) loose() bool {
	last := len(s.pieces) - 1
	return s.pieces[0] == "" && s.pieces[last] == "" && len(strings.Join(s.pieces, "")) < 7
}

// short reports whether values are such as a loose sentence may hold.
func short(values []string) bool {
	const code, number = 4, 12 // "R12+", "24 h (yours)"
	most := code
	if c := values[0][0]; c >= '0' && c <= '9' {
		most = number
	}
	return !slices.ContainsFunc(values, func(v string) bool { return utf8.RuneCountInString(v) > most })
}

// unended returns the sentences and phrases as they stand in the file, and those that end with a
// full stop without it too: sentences in a row are told one by one.
func unended(sentences, phrases map[string]string) map[string]string {
	all := map[string]string{}
	maps.Copy(all, phrases)
	maps.Copy(all, sentences)
	for from, to := range maps.Clone(all) {
		if bare, ended := strings.CutSuffix(from, "."); ended {
			if _, known := all[bare]; !known {
				all[bare] = strings.TrimRight(to, ".。")
			}
		}
	}
	return all
}

// place is where a value stands in a sentence.
const place = "{}"

// values matches a text with the sentence.
func (s sentence) values(text string) ([]string, bool) {
	last := len(s.pieces) - 1
	if !strings.HasPrefix(text, s.pieces[0]) || !strings.HasSuffix(text, s.pieces[last]) || len(text) < len(s.pieces[0])+len(s.pieces[last]) {
		return nil, false
	}
	rest := text[len(s.pieces[0]) : len(text)-len(s.pieces[last])]
	var values []string
	for _, piece := range s.pieces[1:last] {
		value, after, ok := strings.Cut(rest, piece)
		if !ok || value == "" {
			return nil, false
		}
		values, rest = append(values, value), after
	}
	whole := !slices.ContainsFunc(append(values, rest), func(v string) bool { return strings.Contains(v, ". ") })
	return append(values, rest), rest != "" && whole // a value is never the end of one sentence and the start of the next
}

// Tell says a sentence of a computing room in the language. What the words do
// not have stays as it is, with the language's decimal sign.
func (w *Words) Tell(text string) string {
	if w.Language == "en" || text == "" {
		return text
	}
	if told, ok := w.told.Load(text); ok {
		return told.(string)
	}
	spaced := strings.ReplaceAll(text, "\u00a0", " ")
	told := w.tell(spaced)
	if told == w.localised(spaced) { // nothing was found: its spaces stay what they were
		told = w.localised(text)
	}
	w.told.Store(text, told)
	return told
}

func (w *Words) tell(text string) string {
	if to := w.forms[text]; to != "" {
		return to
	}
	if to := w.phrases[text]; to != "" {
		return to
	}
	if told, ok := w.tellTime(text); ok {
		return told
	}
	for _, s := range w.sentences {
		if values, ok := s.values(text); ok && !s.loose() {
			return w.put(s, values)
		}
	}
	if bare, ended := strings.CutSuffix(text, "."); ended && !strings.Contains(bare, ". ") {
		if told := w.Tell(bare); told != bare {
			return w.ended(told) + w.Join(".")
		}
	}
	if strings.ContainsAny(text, "[{") { // lines to write into a file: its keys are English
		return text
	}
	for _, between := range []string{". ", "; ", ", ", " · ", ": "} {
		if parts := strings.Split(text, between); len(parts) > 1 {
			return w.tellEach(parts, between)
		}
	}
	if name, said, ok := bracketed(text); ok {
		if told := w.Tell(said); told != said {
			return w.Tell(name) + " (" + told + ")"
		}
	}
	for _, s := range w.sentences {
		if values, ok := s.values(text); ok && short(values) {
			return w.put(s, values)
		}
	}
	return w.localised(text)
}

// tellEach tells the parts of a text one by one.
func (w *Words) tellEach(parts []string, between string) string {
	found := false
	for i, part := range parts {
		parts[i] = w.Tell(part)
		found = found || parts[i] != w.localised(part) || w.phrases[part] != ""
	}
	if sign := w.Join(between); found && sign != between {
		for i := range parts[:len(parts)-1] {
			parts[i] = w.ended(parts[i])
		}
		between = sign
	}
	if found && w.wide && (between == "; " || between == ": ") {
		between = "\u00a0" + between
	}
	return strings.Join(parts, between)
}

// ended takes the language's full stop from the end of a text, where another
// sign follows.
func (w *Words) ended(text string) string {
	if stop := w.Join("."); stop != "." {
		return strings.TrimSuffix(text, stop)
	}
	return text
}

// bracketed takes a text with something said in brackets at its end apart.
func bracketed(text string) (name, said string, ok bool) {
	rest, ended := strings.CutSuffix(text, ")")
	name, said, ok = strings.Cut(rest, " (")
	return name, said, ended && ok && name != "" && !strings.ContainsAny(said, "()")
}

// put writes values into a sentence of the language.
func (w *Words) put(s sentence, values []string) string {
	pairs := make([]string, 0, 4*len(values))
	for i, v := range values {
		told := w.Tell(v)
		pairs = append(pairs, "{"+string(rune('1'+i))+"}", told)
	}
	to := s.to
	for i := range values {
		to = strings.Replace(to, place, "{"+string(rune('1'+i))+"}", 1)
	}
	return strings.NewReplacer(pairs...).Replace(to)
}

var (
	benchTime = regexp.MustCompile(`^(?:\d+ d )?(?:\d+ h)?(?: ?\d+ min)?$`)
	// stamps are the ways in which the rooms write a moment or a day.
	stamps = []struct {
		layout string
		clock  bool
	}{{"Mon 2 Jan 2006 15:04", true}, {inDrawings, true}, {"2 January 2006", false}, {"2 Jan 2006", false}, {"January 2006", false}, {"2006-01-02 15:04", true}, {"2006-01-02", false}}
)

// inDrawings is how a drawing writes a moment, where there is little room.
const inDrawings = "2 Jan 2006 15:04"

// tellTime tells a day, a moment or a time at the bench.
func (w *Words) tellTime(text string) (string, bool) {
	for _, s := range stamps {
		if t, err := time.Parse(s.layout, text); err == nil {
			switch {
			case s.layout == "January 2006":
				return w.Month(t), true
			case s.layout == inDrawings:
				return w.ShortMoment(t), true
			case s.clock:
				return w.Day(t) + w.Join(", ") + t.Format("15:04"), true
			}
			return w.Day(t), true
		}
	}
	if benchTime.MatchString(text) {
		var h quantity.Hours
		if h.UnmarshalText([]byte(text)) == nil {
			return w.Bench(h), true
		}
	}
	return "", false
}
