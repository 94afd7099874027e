package topic

import (
	"unicode"
	"unicode/utf8"
)

// Heading begins a text with a capital letter.
func Heading(text string) string {
	first, size := utf8.DecodeRuneInString(text)
	return string(unicode.ToUpper(first)) + text[size:]
}
