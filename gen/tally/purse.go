package tally

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"spruelight/gen/quantity"
)

// Purse is money in one or more currencies, in the order of their codes, each
// once. It is never one number: there is no rate of exchange in a journal.
type Purse []quantity.Money

// Add returns the purse with money added to its own currency.
func (p Purse) Add(more ...quantity.Money) Purse {
	sum := slices.Clone(p)
	for _, m := range more {
		i, found := slices.BinarySearchFunc(sum, m, func(a, b quantity.Money) int { return cmp.Compare(a.Currency, b.Currency) })
		if found {
			sum[i].Minor += m.Minor
		} else {
			sum = slices.Insert(sum, i, m)
		}
	}
	return sum
}

// Of returns the amount in a currency, zero where the purse has none.
func (p Purse) Of(currency string) quantity.Money {
	for _, m := range p {
		if m.Currency == currency {
			return m
		}
	}
	return quantity.Money{Currency: currency}
}

// String prints "92 EUR and 6.50 USD", or "nothing".
func (p Purse) String() string {
	if len(p) == 0 {
		return "nothing"
	}
	parts := make([]string, len(p))
	for i, m := range p {
		parts[i] = m.String()
	}
	return list(parts, "and")
}

// Rate is money by the hour, rounded to the currency's smallest unit.
type Rate struct {
	Money   quantity.Money
	Working string // "116.50 EUR / 5 h"
	Figure  quantity.Figure
}

// perHour divides each currency by the hours; nothing without hours.
func perHour(p Purse, h quantity.Hours) []Rate {
	if h <= 0 {
		return nil
	}
	var rates []Rate
	for _, m := range p {
		rate := rateOf(m, m.String(), h)
		rate.Figure = hourly.FigureIn(m.Currency, "cost of a bench hour", quantity.Let{"C": m, "h": h})
		rates = append(rates, rate)
	}
	return rates
}

func rateOf(m quantity.Money, working string, h quantity.Hours) Rate {
	hourly := quantity.Money{Minor: int64(math.Round(float64(m.Minor) / float64(h))), Currency: m.Currency}
	return Rate{Money: hourly, Working: working + " / " + WholeMinutes(h)}
}

// list joins names as a sentence does: "a, b and c".
func list(names []string, word string) string {
	switch n := len(names); n {
	case 0:
		return ""
	case 1:
		return names[0]
	default:
		return strings.Join(names[:n-1], ", ") + " " + word + " " + names[n-1]
	}
}
