package desk

import (
	"context"
	"fmt"

	"spruelight/gen"
	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// Commission works out a build's commission for the bench alone, whether
// or not the site may show it: the quote, what is due, what an hour brought.
func Commission(ctx context.Context, env gen.Env, slug string) (Answer, source.Findings, error) {
	b, err := gen.Reckon(ctx, env, slug) // hours under embargo are hours all the same
	if err != nil {
		return Answer{}, nil, err
	}
	var found source.Findings
	for _, f := range b.Found {
		if f.At.Name() == b.Build.File.Name {
			found.Add(f)
		}
	}
	c := b.Build.Front.Commission
	if c == nil {
		return Answer{}, nil, fmt.Errorf("%s is no commission; "+
			"add commission to its build.md, like {rate: 18 EUR, hours: 40 h, deposit: 200 EUR}", slug)
	}
	q := b.Quote
	if q == nil {
		return Answer{}, found, ctx.Err()
	}
	a := Answer{Says: []source.Message{q.Says}}
	a.add(moneyFigure("labour", q.Labour, source.Say("%s an hour × %s", c.Rate.V, c.Hours.V)),
		moneyFigure("materials, expected", q.Materials, source.Message{}),
		moneyFigure("quote", q.Total, source.Say("%s + %s", q.Labour, q.Materials)),
		moneyFigure("agreed on", q.Quoted, source.Message{}),
		moneyFigure("deposit", q.Deposit, source.Message{}),
		moneyFigure("due on delivery", q.Balance, source.Say("%s − %s", q.Quoted, q.Deposit)))
	if q.RealRate != nil {
		a.add(moneyFigure("an hour really brought", q.RealRate.Money, q.RealRate.Working))
	}
	return a, found, ctx.Err()
}

// moneyFigure shows an amount to its smallest unit.
func moneyFigure(name string, m quantity.Money, working source.Message) quantity.Figure {
	return quantity.Figure{Name: name, Value: m.Amount(), Unit: m.Currency, Digits: 15, Working: working}
}
