package quantity

import (
	"fmt"
	"math"
	"strings"

	"spruelight/gen/source"

	"golang.org/x/text/currency"
)

// Money is an amount in the smallest unit of a currency: cents for EUR.
type Money struct {
	Minor    int64
	Currency string // ISO 4217 code
}

// UnmarshalText reads "92 EUR", "EUR 92" or "6.50 EUR".
func (m *Money) UnmarshalText(text []byte) error {
	s := string(text)
	t := strings.TrimSpace(s)
	digits, code := splitNumber(t)
	if digits == "" && len(t) > 3 {
		code, digits = t[:3], strings.TrimSpace(t[3:])
	}
	code = strings.TrimSpace(code)
	if code == "" {
		return fault(s, t, "add the currency's code, like 92 EUR", "%s has no currency", quote(t))
	}
	places, ok := MinorDigits(code)
	if !ok {
		do := source.Word("write the three-letter code, like EUR")
		if _, known := MinorDigits(strings.ToUpper(code)); known {
			do = source.Say("write %s", strings.ToUpper(code))
		} else if of := CurrenciesOf(code); len(of) > 0 {
			do = source.Say("write the code, like %s", of[0])
		}
		return fault(s, code, do, "%s is not a currency code of ISO 4217", quote(code))
	}
	amount, err := number(digits, places)
	switch {
	case err != nil:
		return fault(s, t, pointed(digits, "write it like 92 EUR"), "%s is not an amount", quote(t))
	case amount < 0:
		return fault(s, t, "write a value of zero or more", "an amount cannot be negative")
	case amount != math.Trunc(amount) || amount > 1e15:
		return fault(s, digits, source.Say("write at most %d decimals", places), "%s is no whole number of the smallest unit of %s",
			quote(digits), code)
	}
	*m = Money{int64(amount), code}
	return nil
}

// Amount returns the money in the currency's main unit.
func (m Money) Amount() float64 {
	places, _ := MinorDigits(m.Currency)
	return float64(m.Minor) / math.Pow10(places)
}

// String prints "6.50 EUR", with the currency's own number of decimals.
func (m Money) String() string {
	places, _ := MinorDigits(m.Currency)
	if places == 0 {
		return fmt.Sprintf("%d %s", m.Minor, m.Currency)
	}
	unit := int64(math.Pow10(places))
	if m.Minor%unit == 0 {
		return fmt.Sprintf("%d %s", m.Minor/unit, m.Currency)
	}
	return fmt.Sprintf("%d.%0*d %s", m.Minor/unit, places, m.Minor%unit, m.Currency)
}

// MinorDigits returns how many decimals a currency has, and whether the code
// is one of ISO 4217, in use or withdrawn since 1999.
func MinorDigits(code string) (int, bool) {
	switch {
	case len(code) != 3 || strings.ToUpper(code) != code || strings.Contains(code, " "):
		return 0, false
	case strings.Contains(noDecimals, code):
		return 0, true
	case strings.Contains(threeDecimals, code):
		return 3, true
	case strings.Contains(twoDecimals, code):
		return 2, true
	case strings.HasPrefix(code, "X"): // metals, funds, codes for tests
		return 0, false
	}
	unit, err := currency.ParseISO(code)
	if err != nil {
		return 0, false
	}
	places, _ := currency.Standard.Rounding(unit)
	return places, true
}

// signs are what stands for currencies, with those that it may stand for: the
// narrow symbols of CLDR in English.
var signs = map[string]string{
	"€": "EUR",
	"£": "GBP FKP GIP SHP SSP SYP",
	"$": "USD CAD AUD NZD ARS BBD BMD BND BSD BZD CLP COP CUC CUP DOP FJD GYD HKD JMD KYD LRD MXN NAD SBD SGD SRD TTD TWD UYU XCD",
	"¥": "JPY CNY",
}

// CurrenciesOf returns the codes that a currency's sign may stand for, the
// commonest first; none where the text is no such sign.
func CurrenciesOf(sign string) []string { return strings.Fields(signs[sign]) }

// SplitSign cuts the sign of a currency off an amount, before or behind it: "€"
// and "12.50" of "12.50 €". The sign is "" where there is none.
func SplitSign(text string) (sign, amount string) {
	text = strings.TrimSpace(text)
	for _, sign := range []string{"€", "£", "$", "¥"} {
		if rest, ok := strings.CutPrefix(text, sign); ok {
			return sign, strings.TrimSpace(rest)
		}
		if rest, ok := strings.CutSuffix(text, sign); ok {
			return sign, strings.TrimSpace(rest)
		}
	}
	return "", text
}

// The active codes of ISO 4217 by their minor units (list as of 2024, from
// memory; funds and precious metals left out).
const (
	noDecimals    = "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF"
	threeDecimals = "BHD IQD JOD KWD LYD OMR TND"
	twoDecimals   = "AED AFN ALL AMD ANG AOA ARS AUD AWG AZN BAM BBD BDT BGN BMD BND BOB BRL BSD BTN BWP BYN BZD CAD CDF CHF CNY COP CRC CUP CVE CZK " +
		"DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD GTQ GYD HKD HNL HTG HUF IDR ILS INR IRR JMD KES KGS KHR KPW KYD KZT LAK LBP LKR LRD LSL " +
		"MAD MDL MGA MKD MMK MNT MOP MRU MUR MVR MWK MXN MYR MZN NAD NGN NIO NOK NPR NZD PAB PEN PGK PHP PKR PLN QAR RON RSD RUB SAR SBD SCR SDG SEK SGD SHP SLE " +
		"SOS SRD SSP STN SVC SYP SZL THB TJS TMT TOP TRY TTD TWD TZS UAH USD UYU UZS VED VES WST XCD XCG YER ZAR ZMW ZWG"
)
