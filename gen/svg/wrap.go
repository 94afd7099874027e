package svg

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// Wrap breaks text into lines no wider than width at a size and font. It breaks
// at spaces, after hyphens and slashes, and between ideographs; a word that is
// wider than a whole line is broken inside. Empty text gives no lines.
func Wrap(text string, width, size float64, f Font) []string {
	m := fonts[f.valid()]
	var lines []string
	line := ""
	for _, piece := range pieces(CleanText(text)) {
		if measureClean(strings.TrimRight(line+piece, " "), size, m) <= width {
			line += piece
			continue
		}
		if line != "" {
			lines = append(lines, strings.TrimRight(line, " "))
		}
		line = piece
		for measureClean(strings.TrimRight(line, " "), size, m) > width {
			n := fitting(line, width, size, m)
			if n == len(line) {
				break
			}
			lines = append(lines, line[:n])
			line = line[n:]
		}
	}
	if line = strings.TrimRight(line, " "); line != "" {
		lines = append(lines, line)
	}
	return lines
}

// pieces cuts text where a line may end; spaces stay at the end of a piece.
func pieces(text string) []string {
	var out []string
	start := 0
	before := rune(0)
	for i, r := range text {
		if i > start && breakable(before, r) {
			out = append(out, text[start:i])
			start = i
		}
		before = r
	}
	if start < len(text) {
		out = append(out, text[start:])
	}
	return out
}

// breakable reports whether a line may end between two characters. It is the
// small part of Unicode Annex 14 that labels need.
func breakable(a, b rune) bool {
	switch {
	case b == ' ' || unicode.In(b, unicode.Mn, unicode.Me, unicode.Cf):
		return false
	case a == ' ':
		return true
	case (a == '-' || a == '/' || a == '\u2010') && unicode.IsLetter(b):
		return true
	}
	return (solid(a) || solid(b)) && !strings.ContainsRune("、。，．！？）」』】〉》ーぁぃぅぇぉっゃゅょァィゥェォッャュョ,.!?)]}%", b) &&
		!strings.ContainsRune("（「『【〈《([{", a)
}

// solid reports whether a character is set solid, so that a line may break beside it.
func solid(r rune) bool {
	return unicode.In(r, unicode.Han, unicode.Hiragana, unicode.Katakana) || r >= 0x3000 && r <= 0x303F || r >= 0xFF00 && r <= 0xFF60
}

// fitting returns how many bytes of a word fit into the width, at least one
// character with the marks that belong to it.
func fitting(word string, width, size float64, m *metrics) int {
	n := 0
	for i, r := range word {
		end := i + utf8.RuneLen(r)
		if n > 0 && unicode.In(r, unicode.Mn, unicode.Me, unicode.Cf) {
			n = end
			continue
		}
		if n > 0 && measureClean(word[:end], size, m) > width {
			break
		}
		n = end
	}
	return n
}

// Shorten returns text cut to a width with an ellipsis at its end, and whether
// anything was cut. Callers that cut keep the full text in the table below.
func Shorten(text string, width, size float64, f Font) (string, bool) {
	text = CleanText(text)
	m := fonts[f.valid()]
	if measureClean(text, size, m) <= width {
		return text, false
	}
	room := width - measureClean("…", size, m)
	n := fitting(text, room, size, m)
	return strings.TrimRight(text[:n], " ,;:-–") + "…", true
}

// ShortenLines wraps text to a width and keeps at most a number of lines, the
// last one ending in an ellipsis where more would follow.
func ShortenLines(text string, width, size float64, f Font, most int) []string {
	lines := Wrap(text, width, size, f)
	if most < 1 || len(lines) <= most {
		return lines
	}
	rest := strings.Join(lines[most-1:], " ")
	last, _ := Shorten(rest, width, size, f)
	return append(lines[:most-1:most-1], last)
}
