package gen

import (
	"context"
	"fmt"
	"slices"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// ReckonCommission works out a build's commission for the bench alone, whether
// or not the site may show it: the quote, what is due, what an hour brought.
func ReckonCommission(ctx context.Context, env Env, slug string) (Answer, source.Findings, error) {
	r := newRun(env)
	r.ahead = true // hours under embargo are hours all the same
	r.read(ctx)
	r.reckon(ctx)
	i := slices.IndexFunc(r.works, func(w *work) bool { return w.slug() == slug })
	if i < 0 {
		return Answer{}, nil, r.shop.NoBuild(slug)
	}
	w := r.works[i]
	var found source.Findings
	for _, f := range r.found {
		if f.At.Name() == w.build.File.Name {
			found.Add(f)
		}
	}
	if w.build.Front.Commission == nil {
		return Answer{}, nil, fmt.Errorf("%s is no commission; add commission to its build.md, like {rate: 18 EUR, hours: 40 h, deposit: 200 EUR}", slug)
	}
	q := w.record.Quote
	if q == nil {
		return Answer{}, found, ctx.Err()
	}
	a := Answer{Says: []string{q.Says}}
	c := w.build.Front.Commission
	a.add(moneyFigure("labour", q.Labour, fmt.Sprintf("%s an hour × %s", c.Rate.V, c.Hours.V)),
		moneyFigure("materials, expected", q.Materials, ""),
		moneyFigure("quote", q.Total, fmt.Sprintf("%s + %s", q.Labour, q.Materials)),
		moneyFigure("agreed on", q.Quoted, ""),
		moneyFigure("deposit", q.Deposit, ""),
		moneyFigure("due on delivery", q.Balance, fmt.Sprintf("%s − %s", q.Quoted, q.Deposit)))
	if q.RealRate != nil {
		a.add(moneyFigure("an hour really brought", q.RealRate.Money, q.RealRate.Working))
	}
	return a, found, ctx.Err()
}

// moneyFigure shows an amount to its smallest unit.
func moneyFigure(name string, m quantity.Money, working string) quantity.Figure {
	return quantity.Figure{Name: name, Value: m.Amount(), Unit: m.Currency, Digits: 15, Working: working}
}
