package page

import (
	"regexp"
	"strings"
)

// French sets a no-break space before a colon, a semicolon, a question or
// exclamation mark, a closing guillemet and a per cent sign, and after an opening
// guillemet (Imprimerie nationale, Lexique des règles typographiques). The file of
// words is written with plain spaces, as one types them; they are made fast here.

var frenchSpaces = strings.NewReplacer(" :", "\u00a0:", " ;", "\u00a0;", " ?", "\u00a0?", " !", "\u00a0!", " »", "\u00a0»", "« ", "«\u00a0", " %", "\u00a0%")

// spaced makes the spaces of a language's text fast.
func spaced(lang, text string) string {
	if lang != "fr" {
		return text
	}
	return frenchSpaces.Replace(text)
}

// beforeVerb is a space before the place of a value, taken for one before a per
// cent sign.
var beforeVerb = regexp.MustCompile(`([^«])\x{a0}(%(?:\[\d\])?[.\d]*[a-zA-Z])`)

// spacedAll does so with every text of a file of words; its keys are English.
func spacedAll(lang string, texts map[string]string) {
	for key, text := range texts {
		if fast := spaced(lang, text); fast != text {
			texts[key] = beforeVerb.ReplaceAllString(fast, "$1 $2")
		}
	}
}

// afterValue is a colon or semicolon with which the text of a template goes on
// after a value, over brackets and the end of its element.
var afterValue = regexp.MustCompile(`^((?:\)|\]|</(?:strong|em|small|a|code)>)*)([:;](?:\s|</))`)

// Headed names what a page says of a build, in front of the build's name.
func (w *Words) Headed(what, name string) string {
	return what + w.sign(": ") + name
}

// punctuated writes the text of a template as the language sets its signs.
func (w *Words) punctuated(text []byte) []byte {
	if w.Language != "fr" {
		return text
	}
	return afterValue.ReplaceAll(text, []byte("${1}\u00a0${2}"))
}
