package wiring

import (
	"strings"

	"spruelight/gen/source"
	"spruelight/gen/svg"
)

// shades are the colours of insulation and of lamps, by their names in words.
// IEC 60757 names the wire colours; the shades are ours.
var shades = map[string]svg.Role{
	"black": svg.RGB(0x26, 0x26, 0x26), "brown": svg.RGB(0x7a, 0x4a, 0x22), "red": svg.RGB(0xd0, 0x2f, 0x24),
	"orange": svg.RGB(0xee, 0x82, 0x22), "yellow": svg.RGB(0xf2, 0xcf, 0x2b), "green": svg.RGB(0x2f, 0x93, 0x4a),
	"blue": svg.RGB(0x2f, 0x66, 0xc4), "violet": svg.RGB(0x80, 0x46, 0xa6), "purple": svg.RGB(0x80, 0x46, 0xa6),
	"grey": svg.RGB(0x8e, 0x8e, 0x8e), "gray": svg.RGB(0x8e, 0x8e, 0x8e), "white": svg.RGB(0xff, 0xff, 0xff),
	"pink": svg.RGB(0xf0, 0x9a, 0xb4), "turquoise": svg.RGB(0x35, 0xb5, 0xb0), "gold": svg.RGB(0xc9, 0xa1, 0x3b),
	"silver": svg.RGB(0xb4, 0xb8, 0xbc), "copper": svg.RGB(0xc4, 0x7a, 0x45), "enamel": svg.RGB(0xc4, 0x7a, 0x45),
	"natural": svg.RGB(0xee, 0xe8, 0xd8), "clear": svg.RGB(0xf2, 0xf2, 0xee), "transparent": svg.RGB(0xf2, 0xf2, 0xee),
	"warm white": svg.RGB(0xff, 0xe2, 0xb0), "cold white": svg.RGB(0xe6, 0xf1, 0xff), "cool white": svg.RGB(0xe6, 0xf1, 0xff),
	"amber": svg.RGB(0xff, 0xb3, 0x2e), "infrared": svg.RGB(0x6e, 0x1f, 0x1f), "ultraviolet": svg.RGB(0x9a, 0x6b, 0xe0),
}

// shade returns the colour that a word or a hex stands for: of the whole text,
// else of its last word that names one ("dark red", "warm-white"). Paper stands
// for what is not known.
func shade(text string) svg.Role {
	if r, err := svg.Hex(strings.TrimSpace(text)); err == nil {
		return r
	}
	name := strings.ToLower(strings.Join(strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == '-' || r == '_' }), " "))
	if r, ok := shades[name]; ok {
		return r
	}
	words := strings.Fields(name)
	for i := len(words) - 1; i >= 0; i-- {
		if r, ok := shades[words[i]]; ok {
			return r
		}
	}
	return svg.Paper
}

// pairColours returns the colours of the two wires of a pair, plus first:
// "red/black" and "red and black" name both, one colour stands for either.
func pairColours(text string) (plus, minus string) {
	for _, mark := range []string{"/", " and ", ",", "+", "&"} {
		if a, b, ok := strings.Cut(text, mark); ok && strings.TrimSpace(a) != "" && strings.TrimSpace(b) != "" {
			return strings.TrimSpace(a), strings.TrimSpace(b)
		}
	}
	return text, text
}

// colourText names the colours of a pair.
func colourText(text string) source.Message {
	plus, minus := pairColours(text)
	if plus == minus {
		return source.Word(plus)
	}
	return source.Say("%s/%s", source.Word(plus), source.Word(minus))
}
