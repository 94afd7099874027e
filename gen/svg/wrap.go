package svg

import (
	"strings"
	"unicode"
)

// Wrap breaks text into lines no wider than width at a size and font. It breaks
// at spaces, after hyphens and slashes, and between ideographs; a word that is
// wider than a whole line is broken inside. Empty text gives no lines.
func Wrap(text string, width, size float64, f Font) []string {
	m := fonts[f.valid()]
	text = CleanText(text)
	var lines []string
	emit := func(line string) {
		if line = strings.TrimRight(line, " "); line != "" {
			lines = append(lines, line)
		}
	}
	start, used := 0, 0.0 // of the current line
	from := 0
	for _, to := range breaks(text) {
		piece := text[from:to]
		whole := measureClean(piece, size, m)
		shown := measureClean(strings.TrimRight(piece, " "), size, m)
		if used+shown > width+rounding {
			emit(text[start:from])
			start, used = from, 0
			for shown > width+rounding {
				n := fitting(text[start:to], width, size, m)
				if start+n >= to {
					break
				}
				emit(text[start : start+n])
				cut := measureClean(text[start:start+n], size, m)
				start, whole, shown = start+n, whole-cut, shown-cut
			}
		}
		used += whole
		from = to
	}
	emit(text[start:])
	return lines
}

// breaks returns the offsets at which a line may end; spaces stay with the line
// before. The last is the end of the text.
func breaks(text string) []int {
	var out []int
	before := rune(0)
	for i, r := range text {
		if i > 0 && breakable(before, r) {
			out = append(out, i)
		}
		before = r
	}
	return append(out, len(text))
}

// breakable reports whether a line may end between two characters. It is the
// small part of Unicode Annex 14 that labels need.
func breakable(a, b rune) bool {
	switch {
	case b == ' ' || joins(b):
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
	g := gauge{m: m}
	used := 0.0
	for i, r := range word {
		w := g.advance(r) * size * widthFactor
		if i > 0 && !joins(r) && used+w > width {
			return i
		}
		used += w
	}
	return len(word)
}

// rounding is the width, in units, by which a text may exceed its room, so that
// sums of the same widths in another order count as the same.
const rounding = 1e-6

// Shorten returns text cut to a width with an ellipsis at its end, and whether
// anything was cut. Callers that cut keep the full text in the table below.
func Shorten(text string, width, size float64, f Font) (string, bool) {
	text = CleanText(text)
	m := fonts[f.valid()]
	if measureClean(text, size, m) <= width+rounding {
		return text, false
	}
	room := width - measureClean("…", size, m)
	n := fitting(text, room, size, m)
	if measureClean(text[:n], size, m) > room { // not even one character
		n = 0
	}
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
