package tally

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"spruelight/gen/source"
)

// EmptyPhrases are phrases that say nothing of a kit, for a workshop that
// keeps no list of its own (common practice, no source).
var EmptyPhrases = []string{
	"should build up nicely", "builds up nicely", "should build into", "looks the part",
	"highly recommended", "a must have", "a must-have", "cannot go wrong", "can't go wrong",
	"falls together", "speaks for itself", "what more could you want", "a welcome addition",
	"no complaints", "does not disappoint", "doesn't disappoint", "second to none",
}

var ruleEmptyPhrase = &source.Rule{Name: "empty-phrase", Severity: source.Note,
	Reason: "Such a phrase fits any kit. What was measured, counted or seen tells a reader more.", Source: "common practice, no source",
	Keys: "review: verdict, buy it if, leave it if; review marks.<name>: why; workshop review: empty phrases"}

// CheckPhrases notes the empty phrases in prose, each at its place. A nil list
// means EmptyPhrases; an empty one, none.
func CheckPhrases(texts []source.Value[string], phrases []string) source.Findings {
	if phrases == nil {
		phrases = EmptyPhrases
	}
	var findings source.Findings
	for _, text := range texts {
		written := text.V
		if text.At.Known() {
			written = text.At.Text() // as written, so that offsets hold
		}
		for _, phrase := range phrases {
			for _, m := range findPhrase(written, phrase) {
				at := text.At
				if at.Known() {
					at = at.Within(m.start, m.end-m.start)
				}
				findings.Add(ruleEmptyPhrase.At(at, "say what was measured, counted or seen instead", "%q says nothing of this kit", phrase))
			}
		}
	}
	return findings
}

type match struct{ start, end int }

// findPhrase finds a phrase as whole words, whatever its case, with any white
// space between its words: prose breaks its lines where it likes.
func findPhrase(text, phrase string) []match {
	words := strings.Fields(phrase)
	if len(words) == 0 {
		return nil
	}
	var found []match
	for at := 0; at < len(text); {
		if end, ok := phraseAt(text, at, words); ok && boundary(text, at, end) {
			found = append(found, match{at, end})
			at = end
			continue
		}
		_, size := utf8.DecodeRuneInString(text[at:])
		at += size
	}
	return found
}

// phraseAt reports where the words end that begin at an offset.
func phraseAt(text string, at int, words []string) (end int, ok bool) {
	for i, word := range words {
		if i > 0 {
			rest := strings.TrimLeftFunc(text[at:], unicode.IsSpace)
			if len(rest) == len(text[at:]) {
				return 0, false
			}
			at = len(text) - len(rest)
		}
		for _, want := range word {
			got, size := utf8.DecodeRuneInString(text[at:])
			if size == 0 || fold(got) != fold(want) {
				return 0, false
			}
			at += size
		}
	}
	return at, true
}

// fold makes letters of either case, and both apostrophes, alike.
func fold(r rune) rune {
	if r == '’' {
		return '\''
	}
	return unicode.ToLower(r)
}

// boundary reports that no letter or digit touches a stretch of text.
func boundary(text string, start, end int) bool {
	before, _ := utf8.DecodeLastRuneInString(text[:start])
	after, _ := utf8.DecodeRuneInString(text[end:])
	wordy := func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }
	return !(start > 0 && wordy(before)) && !(end < len(text) && wordy(after))
}
