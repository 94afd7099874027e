package svg

import (
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// A token is markup or the name of an element or attribute. Only constants of
// this package become tokens, so no text from outside can be written raw.
type token string

// writer is the only place where markup is put together.
type writer struct{ b []byte }

func (w *writer) raw(t token)   { w.b = append(w.b, t...) }
func (w *writer) open(t token)  { w.b = append(append(w.b, '<'), t...) }
func (w *writer) close(t token) { w.b = append(append(append(w.b, "</"...), t...), '>') }

// attr writes an attribute with its value escaped.
func (w *writer) attr(name token, value string) {
	w.b = append(append(append(w.b, ' '), name...), `="`...)
	w.b = appendEscaped(w.b, value)
	w.b = append(w.b, '"')
}

// num writes an attribute that is one number.
func (w *writer) num(name token, v float64) {
	w.b = append(append(append(w.b, ' '), name...), `="`...)
	w.b = append(appendNumber(w.b, v), '"')
}

// point writes two attributes that are a place.
func (w *writer) point(x, y token, p Point) {
	w.num(x, p.X)
	w.num(y, p.Y)
}

func (w *writer) box(b Box) {
	w.num("x", b.X)
	w.num("y", b.Y)
	w.num("width", b.W)
	w.num("height", b.H)
}

// text writes character data, escaped.
func (w *writer) text(s string) { w.b = appendEscaped(w.b, s) }

// biggest is the largest coordinate that is printed. Renderers keep coordinates
// in single precision, which beyond this no longer holds the second decimal;
// nothing sensible is ever that far out.
const biggest = 1e5

// appendNumber writes a number with at most two decimals, no trailing zeros and
// no negative zero: the one number format of every drawing. What is not a
// finite number becomes 0, what is beyond biggest is cut to it.
func appendNumber(b []byte, v float64) []byte {
	if math.IsNaN(v) {
		v = 0
	}
	v = max(-biggest, min(biggest, v))
	hundredths := int64(math.Round(v * 100))
	if hundredths < 0 {
		b = append(b, '-')
		hundredths = -hundredths
	}
	b = strconv.AppendInt(b, hundredths/100, 10)
	switch rest := hundredths % 100; {
	case rest == 0:
		return b
	case rest%10 == 0:
		return append(b, '.', byte('0'+rest/10))
	default:
		return append(b, '.', byte('0'+rest/10), byte('0'+rest%10))
	}
}

// rounded returns the number that appendNumber writes.
func rounded(v float64) float64 {
	if math.IsNaN(v) {
		return 0
	}
	return math.Round(max(-biggest, min(biggest, v))*100) / 100
}

// appendNumbers writes numbers with a space between them.
func appendNumbers(b []byte, numbers ...float64) []byte {
	for i, v := range numbers {
		if i > 0 {
			b = append(b, ' ')
		}
		b = appendNumber(b, v)
	}
	return b
}

// appendEscaped writes text so that it is safe as character data and inside
// double quotes, in XML and in HTML. Characters that neither allows are left out.
func appendEscaped(b []byte, s string) []byte {
	for i := 0; i < len(s); {
		c := s[i]
		if c < utf8.RuneSelf {
			i++
			b = appendEscapedASCII(b, c)
			continue
		}
		r, n := utf8.DecodeRuneInString(s[i:])
		if !(r == utf8.RuneError && n == 1) && allowed(r) {
			b = append(b, s[i:i+n]...)
		}
		i += n
	}
	return b
}

func appendEscapedASCII(b []byte, c byte) []byte {
	switch c {
	case '&':
		return append(b, "&amp;"...)
	case '<':
		return append(b, "&lt;"...)
	case '>':
		return append(b, "&gt;"...)
	case '"':
		return append(b, "&#34;"...)
	case '\'':
		return append(b, "&#39;"...)
	}
	if allowed(rune(c)) {
		return append(b, c)
	}
	return b
}

// allowed reports whether a character may stand in XML 1.0 (section 2.2, Char)
// and is not one of those that HTML calls an error: the controls and the
// noncharacters. Tab and line ends pass.
func allowed(r rune) bool {
	switch {
	case r == '\t' || r == '\n' || r == '\r':
		return true
	case r < 0x20, r >= 0x7F && r <= 0x9F: // C0 and C1 controls
		return false
	case r >= 0xD800 && r <= 0xDFFF: // surrogates
		return false
	case r >= 0xFDD0 && r <= 0xFDEF, r&0xFFFE == 0xFFFE: // noncharacters
		return false
	}
	return r <= unicode.MaxRune
}

// CleanText returns text as it is drawn: without characters that may not be
// printed, with every run of white space as one space, none at the ends. A no-break
// space is kept. Measure and Text work on this form.
func CleanText(s string) string {
	if isClean(s) {
		return s
	}
	var b strings.Builder
	space := false
	for i, r := range s {
		switch {
		case r == ' ' || r == '\t' || r == '\n' || r == '\r' || r == '\f' || r == '\v' || r == '\u2028' || r == '\u2029':
			space = b.Len() > 0
			continue
		case !allowed(r), r == utf8.RuneError && !strings.HasPrefix(s[i:], "\uFFFD"):
			continue
		}
		if space {
			b.WriteByte(' ')
			space = false
		}
		b.WriteRune(r)
	}
	return b.String()
}

// isClean reports, quickly, whether printable ASCII is clean already.
func isClean(s string) bool {
	if s == "" || s[0] == ' ' || s[len(s)-1] == ' ' {
		return s == ""
	}
	for i := range len(s) {
		if s[i] < ' ' || s[i] > '~' || s[i] == ' ' && s[i-1] == ' ' {
			return false
		}
	}
	return true
}

// identifier returns a valid id or class name made from s: letters, digits,
// hyphen and underscore of ASCII are kept, every run of others becomes a hyphen,
// and a leading digit gets a letter before it.
func identifier(s string) string {
	b := make([]byte, 0, len(s))
	for i := range len(s) {
		c := s[i]
		switch {
		case c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c == '_':
			b = append(b, c)
		case len(b) > 0 && b[len(b)-1] != '-':
			b = append(b, '-')
		}
	}
	for len(b) > 0 && b[len(b)-1] == '-' {
		b = b[:len(b)-1]
	}
	if len(b) > 0 && b[0] >= '0' && b[0] <= '9' {
		b = append([]byte{'n'}, b...)
	}
	return string(b)
}

// joinClass returns class names, made valid, in one attribute value.
func joinClass(first, more string) string {
	if more == "" {
		return first
	}
	var b strings.Builder
	b.WriteString(first)
	for c := range strings.FieldsSeq(more) {
		if c = identifier(c); c == "" {
			continue
		}
		if b.Len() > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(c)
	}
	return b.String()
}
