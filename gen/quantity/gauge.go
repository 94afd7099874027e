package quantity

import (
	"fmt"
	"strings"

	"spruelight/gen/source"
)

// gaugeNames are the model railway sizes whose ratio an open standard gives.
//
// Sources: NEM 010, edition 2011 (MOROP), table 1, where H0 and 0 are written
// with a zero; NMRA S-1.2 (from memory but for HO, which is 3.5 mm to the
// foot), where HO and O are written with the letter.
var gaugeNames = []struct {
	name, standard string
	ratio          float64
}{
	{"Z", "NEM", 220}, {"N", "NEM", 160}, {"TT", "NEM", 120}, {"H0", "NEM", 87}, {"S", "NEM", 64}, {"0", "NEM", 45},
	{"I", "NEM", 32}, {"II", "NEM", 22.5}, {"III", "NEM", 16}, {"V", "NEM", 11}, {"VII", "NEM", 8}, {"X", "NEM", 5.5},
	{"Z", "NMRA", 220}, {"N", "NMRA", 160}, {"TT", "NMRA", 120}, {"HO", "NMRA", 304.8 / 3.5}, {"S", "NMRA", 64}, {"O", "NMRA", 48},
}

// narrowGauges are the letters that NEM 010 puts after a name for a narrower
// track; they leave the scale as it is.
const narrowGauges = "meip"

// gaugeRatio returns the ratio of a size such as "N", "H0", "H0e", "O NMRA" or
// "0 gauge (NEM)". Known is false where the text names none; where two
// standards disagree and none is named, it returns a fault.
func gaugeRatio(text string) (ratio float64, known bool, err *Error) {
	fields := strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(" \t()", r) })
	name, standard := "", ""
	for _, field := range fields {
		switch {
		case strings.EqualFold(field, "gauge"):
		case field == "NEM" || field == "NMRA":
			standard = field
		case name == "":
			name = field
		default:
			return 0, false, nil
		}
	}
	if ambiguous := name == "O" || name == "0"; ambiguous && standard == "" {
		return 0, true, fault(text, strings.TrimSpace(text), "write O NMRA, 0 NEM, or the ratio",
			"%s is 1/48 by NMRA S-1.2 and 1/45 by NEM 010", quote(name))
	}
	for _, g := range gaugeNames {
		if standard != "" && g.standard != standard {
			continue
		}
		if name == g.name || standard != "" && strings.ReplaceAll(name, "O", "0") == strings.ReplaceAll(g.name, "O", "0") {
			return g.ratio, true, nil
		}
		if rest, ok := strings.CutPrefix(name, g.name); ok && g.standard == "NEM" && len(rest) == 1 && strings.Contains(narrowGauges, rest) {
			return g.ratio, true, nil
		}
	}
	return 0, false, nil
}

// figureHeight reports whether a text is a length alone, as the height of a
// figure is named in the trade ("28 mm"), which gives no ratio.
func figureHeight(text string) error {
	var m Metres
	if m.UnmarshalText([]byte(text)) != nil {
		return nil
	}
	return fault(text, text, "write the ratio, like 1/56, or a length to the foot",
		"%s is the height of a figure, not a ratio", quote(text))
}

// tidyScale brings the ways in which a scale is written to those that
// Scale.UnmarshalText reads: "1/72nd scale", "3 mm/ft", "1/4\" = 1'-0\"".
func tidyScale(text string) string {
	t := strings.TrimSpace(text)
	t = strings.TrimSpace(trimFold(t, " scale"))
	for _, ending := range []string{"th", "nd", "rd", "st"} {
		if rest, ok := strings.CutSuffix(t, ending); ok && endsInDigit(rest) {
			t = rest
		}
	}
	for _, foot := range []string{"/ft", "/foot", " per ft", " per foot"} {
		if rest, ok := strings.CutSuffix(t, foot); ok {
			t = rest + " to the foot"
		}
	}
	return strings.NewReplacer("'-", "' ", "′-", "′ ").Replace(t)
}

func trimFold(text, ending string) string {
	if n := len(text) - len(ending); n > 0 && strings.EqualFold(text[n:], ending) {
		return text[:n]
	}
	return text
}

func endsInDigit(text string) bool {
	return text != "" && text[len(text)-1] >= '0' && text[len(text)-1] <= '9'
}

// Fraction gives the scale as inches to the foot where that is a fraction of
// an inch in 32nds, or of 12 ("1/6 in to the foot"), and else as a decimal.
func (s Scale) Fraction() source.Message {
	inches := s.InchesToTheFoot()
	text := fmt.Stringer(Amount{Value: inches, Digits: 4})
	for _, below := range []float64{1, 2, 4, 8, 16, 32, 3, 6, 12} {
		if n := inches * below; n >= 0.5 && near(n, float64(int(n+0.5))) {
			text = source.Say("%d/%d", int(n+0.5), int(below))
			if below == 1 {
				text = source.Say("%d", int(n+0.5))
			}
			break
		}
	}
	return source.Say("%s in to the foot", text)
}

func near(a, b float64) bool { return a-b < 1e-9*b && b-a < 1e-9*b }
