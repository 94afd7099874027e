package topic

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// Heading begins a text with a capital letter.
func Heading(text string) string {
	first, size := utf8.DecodeRuneInString(text)
	return string(unicode.ToUpper(first)) + text[size:]
}

// Readable turns a rack's name into words: "grey-primer" is grey primer.
func Readable(name string) string { return strings.ReplaceAll(name, "-", " ") }
