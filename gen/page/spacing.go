package page

import (
	"regexp"
	"slices"
	"strings"
)

// A language may set no-break spaces beside its signs, as French does before a
// colon. Its file of words says beside which, and is itself written with plain
// spaces, as one types them; they are made fast here.

// fasten makes ready to make spaces fast that stand so beside a sign: " :".
func (w *Words) fasten(beside []string) {
	if len(beside) == 0 {
		return
	}
	var pairs []string
	for _, sign := range beside {
		pairs = append(pairs, sign, strings.ReplaceAll(sign, " ", "\u00a0"))
	}
	w.fast, w.wide = strings.NewReplacer(pairs...), slices.Contains(beside, " :")
}

// spaced makes the spaces of a text in the language fast.
func (w *Words) spaced(text string) string {
	if w.fast == nil {
		return text
	}
	return w.fast.Replace(text)
}

// beforeVerb is a space before the place of a value, taken for one before a per
// cent sign.
var beforeVerb = regexp.MustCompile(`([^«])\x{a0}(%(?:\[\d\])?[.\d]*[a-zA-Z])`)

// spacedAll does so with every text of a file of words; its keys are English.
func (w *Words) spacedAll(texts map[string]string) {
	for key, text := range texts {
		if fast := w.spaced(text); fast != text {
			fast = beforeVerb.ReplaceAllString(fast, "$1 $2")
			texts[key] = beforeVerb.ReplaceAllString(fast, "$1 $2") // of two in a row the first pass takes one
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
	if !w.wide {
		return text
	}
	return afterValue.ReplaceAll(text, []byte("${1}\u00a0${2}"))
}
