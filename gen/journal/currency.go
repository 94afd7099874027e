package journal

import (
	"slices"
	"strings"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// currency returns the code of the workshop's own currency, "" where it has none
// that is known.
func (w *Workshop) currency() string {
	code := w.Settings.Currency.V
	if _, ok := quantity.MinorDigits(code); !ok {
		return ""
	}
	return code
}

// checkCurrency reports a currency that is no code of ISO 4217.
func (w *Workshop) checkCurrency() source.Findings {
	c := w.Settings.Currency
	if !c.Set || w.currency() != "" {
		return nil
	}
	do := source.Word("write the three-letter code of ISO 4217, like EUR")
	code := strings.ToUpper(strings.TrimSpace(c.V))
	if _, ok := quantity.MinorDigits(code); ok {
		do = source.Say("write %s", code)
	} else if of := quantity.CurrenciesOf(code); len(of) > 0 {
		do = source.Say("write the code, like %s", source.Or(some(of)))
	}
	return source.Findings{ruleValue.At(c.At, do, "%q is no currency code of ISO 4217", c.V)}
}

// coined writes an amount with a currency's sign by the workshop's code, where
// the sign may mean that, and reports one that may not.
func (d *decoder) coined(text string, at source.Span) (string, bool) {
	sign, amount := quantity.SplitSign(text)
	if sign == "" {
		return text, true
	}
	of := quantity.CurrenciesOf(sign)
	if slices.Contains(of, d.currency) {
		return amount + " " + d.currency, true
	}
	var ways []string
	for _, code := range some(of) {
		ways = append(ways, amount+" "+code)
	}
	do := source.Say("write %s, or say in workshop.yaml which currency is meant, like currency: %s", source.Or(ways), of[0])
	says := source.Say("%q is no amount in a currency: the workshop names none", text)
	if d.currency != "" {
		do = source.Say("write %s, or %s %s if the workshop's currency is meant", source.Or(ways), amount, d.currency)
		says = source.Say("%q is no amount in the workshop's currency, which is %s", text, d.currency)
	}
	d.add(source.Finding{Rule: ruleValue, At: at, Says: says, Do: do})
	return "", false
}

// some returns the first few of a list.
func some(list []string) []string { return list[:min(len(list), 3)] }
