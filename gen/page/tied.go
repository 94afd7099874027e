package page

import (
	"regexp"
	"strings"
)

// units are what a number on a page is never parted from at the end of a line.
// "in" is not among them: after a number it is as often a word as the inch.
var units = regexp.MustCompile(`(\d) (mm|cm|m|km|ft|mV|V|µA|mA|A|µW|mW|W|mAh|ohm|kohm|Ω|kΩ|MΩ|lx|mcd|lm|h|min|s|ms|Hz|kHz|g|kg|ml|K|°C|%|AWG|[A-Z]{3})([\s.,;:)·]|$)`)

// Tied returns a text whose numbers stay with their units and their limits when
// a line is broken: "204 mm", "1/46.1 ± 0.3". Only the spaces change.
func Tied(text string) string {
	if !strings.ContainsAny(text, "0123456789") {
		return text
	}
	text = units.ReplaceAllString(text, "$1\u00a0$2$3")
	return strings.ReplaceAll(text, " ± ", "\u00a0±\u00a0")
}
