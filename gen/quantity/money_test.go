package quantity

import (
	"slices"
	"strings"
	"testing"

	"golang.org/x/text/currency"
	"golang.org/x/text/language"
	"golang.org/x/text/message"
)

// The signs stand for the currencies of which they are the narrow symbol in
// English by CLDR, as golang.org/x/text has it.
func TestSignsAreThoseOfCLDR(t *testing.T) {
	print := message.NewPrinter(language.English)
	by := map[string][]string{}
	letters := "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
	for _, a := range letters {
		for _, b := range letters {
			for _, c := range letters {
				code := string([]rune{a, b, c})
				unit, err := currency.ParseISO(code)
				if err != nil {
					continue
				}
				sign := print.Sprint(currency.NarrowSymbol(unit))
				by[sign] = append(by[sign], code)
				if _, known := MinorDigits(code); !known && code[0] != 'X' {
					t.Errorf("%s is a code of ISO 4217", code)
				}
			}
		}
	}
	for sign := range signs {
		got := CurrenciesOf(sign)
		slices.Sort(got)
		if !slices.Equal(got, by[sign]) {
			t.Errorf("%s: %v, CLDR has %v", sign, got, by[sign])
		}
	}
}

func TestSplitSign(t *testing.T) {
	for text, want := range map[string]string{"12 €": "€|12", "€12.50": "€|12.50", " $ 3 ": "$|3", "3¥": "¥|3", "£": "£|", "12 EUR": "|12 EUR", "": "|"} {
		if sign, amount := SplitSign(text); sign+"|"+amount != want {
			t.Errorf("%q: %s and %s", text, sign, amount)
		}
	}
	if len(CurrenciesOf("EUR")) > 0 || !strings.HasPrefix(strings.Join(CurrenciesOf("$"), " "), "USD") {
		t.Error("signs and codes are mixed up")
	}
}
