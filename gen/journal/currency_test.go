package journal

import (
	"strings"
	"testing"
	"testing/fstest"

	"spruelight/gen/quantity"
)

// A sign means the workshop's currency where it is its sign; else it is a
// finding with the ways to write the amount.
func TestSignsOfCurrencies(t *testing.T) {
	for _, c := range []struct{ currency, price, want, remedy string }{
		{"EUR", "92 €", "92 EUR", ""},
		{"EUR", "€92", "92 EUR", ""},
		{"EUR", "92.50€", "92.50 EUR", ""},
		{"EUR", "92 EUR", "92 EUR", ""},
		{"EUR", "92 USD", "92 USD", ""},
		{"GBP", "£6.50", "6.50 GBP", ""},
		{"USD", "$6.50", "6.50 USD", ""},
		{"AUD", "$6.50", "6.50 AUD", ""},
		{"JPY", "¥1200", "1200 JPY", ""},
		{"CNY", "12.50 ¥", "12.50 CNY", ""},
		{"XCG", "12 XCG", "12 XCG", ""},
		{"", "49.90 DEM", "49.90 DEM", ""},
		{"EUR", "$6.50", "", "write 6.50 USD, 6.50 CAD or 6.50 AUD, or 6.50 EUR if"},
		{"USD", "6.50 €", "", "write 6.50 EUR, or 6.50 USD if"},
		{"", "6.50 €", "", "write 6.50 EUR, or say in workshop.yaml which currency is meant, like currency: EUR"},
		{"JPY", "¥12.50", "", "at most 0 decimals"},
		{"EUR", "6,50 €", "", "6.50"},
		{"EUR", "6.50 eur", "", "write EUR"},
		{"EUR", "6.50 euro", "", "three-letter code"},
	} {
		settings := "name: Bench\n"
		if c.currency != "" {
			settings += "currency: " + c.currency + "\n"
		}
		w, found := readAll(fstest.MapFS{"workshop.yaml": {Data: []byte(settings)},
			"builds/skiff/build.md": {Data: []byte("---\nname: Skiff\nstate: bench\nkit:\n  price: " + c.price + "\n---\n")}})
		price := w.Builds[0].Front.Kit.Price
		switch {
		case c.remedy == "" && (len(found) > 0 || !price.Set || price.V.String() != c.want):
			t.Errorf("%s in %q: %v, want %s; %v", c.price, c.currency, price.V, c.want, found)
		case c.remedy != "" && (len(found) != 1 || found[0].Rule != ruleValue || !strings.Contains(found[0].Do.String(), c.remedy)):
			t.Errorf("%s in %q: %v, want %q", c.price, c.currency, found, c.remedy)
		}
	}
}

// The workshop's currency is a code of ISO 4217.
func TestCurrencyOfTheWorkshop(t *testing.T) {
	for written, remedy := range map[string]string{"EUR": "", "JPY": "", "SLE": "", "HRK": "", "eur": "write EUR", "€": "write the code, like EUR",
		"$": "like USD, CAD or AUD", "Euro": "three-letter code", "XXX": "three-letter code", "EURO": "three-letter code", "E": "three-letter code"} {
		_, found := readAll(fstest.MapFS{"workshop.yaml": {Data: []byte("name: Bench\ncurrency: " + written + "\n")}})
		if remedy == "" && len(found) > 0 || remedy != "" && (len(found) != 1 || found[0].Rule != ruleValue || !strings.Contains(found[0].Do.String(), remedy)) {
			t.Errorf("%s: %v, want %q", written, found, remedy)
		}
	}
	if _, ok := quantity.MinorDigits("ABC"); ok {
		t.Error("ABC is no currency")
	}
}
