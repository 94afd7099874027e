package tally

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
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
	return p.listed().String()
}

// listed is the money of a purse that is not empty, as a sentence has it.
func (p Purse) listed() source.List { return source.And(p) }

// Rate is money by the hour, rounded to the currency's smallest unit.
type Rate struct {
	Money   quantity.Money
	Working source.Message // "116.50 EUR / 5 h"
	Figure  quantity.Figure
}

// perHour divides each currency by the hours; nothing without hours.
func perHour(p Purse, h quantity.Hours) []Rate {
	if h <= 0 {
		return nil
	}
	var rates []Rate
	for _, m := range p {
		rate := rateOf(m, m, h)
		rate.Figure = hourly.FigureIn(m.Currency, "cost of a bench hour", quantity.Let{"C": m, "h": h})
		rates = append(rates, rate)
	}
	return rates
}

func rateOf(m quantity.Money, working fmt.Stringer, h quantity.Hours) Rate {
	hourly := quantity.Money{Minor: int64(math.Round(float64(m.Minor) / float64(h))), Currency: m.Currency}
	return Rate{Money: hourly, Working: source.Say("%s / %s", working, WholeMinutes(h))}
}
