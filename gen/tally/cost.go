package tally

import (
	"math"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// Balance is a budget in one currency against what was spent.
type Balance struct {
	Budget, Spent quantity.Money
	Left, Over    quantity.Money // one of them is zero
	Share         quantity.Share // spent of the budget
}

var ruleBudget = &source.Rule{Name: "over-budget", Severity: source.Note,
	Reason: "A budget helps only while one still knows where it stands.", Source: "arithmetic",
	Keys: "build: budget, spent; build kit: price, obtained; sitting: spent"}

// Balances compares budgets with a build's cost, currency by currency. What
// was spent in a currency without a budget is not compared with anything.
func Balances(budget []source.Value[quantity.Money], s Sum) ([]Balance, source.Findings) {
	var out []Balance
	var findings source.Findings
	for _, b := range budget {
		x := Balance{Budget: b.V, Spent: s.Outlay.Of(b.V.Currency)}
		left := b.V.Minor - x.Spent.Minor
		x.Left = quantity.Money{Minor: max(left, 0), Currency: b.V.Currency}
		x.Over = quantity.Money{Minor: max(-left, 0), Currency: b.V.Currency}
		if b.V.Minor > 0 {
			x.Share = quantity.Share(x.Spent.Amount() / b.V.Amount())
		}
		if x.Over.Minor > 0 {
			findings.Add(ruleBudget.At(b.At, "raise the budget, or spend no more", "%s spent of a budget of %s: %s over", x.Spent, b.V, x.Over))
		}
		out = append(out, x)
	}
	return out, findings
}

// Quote is what a commission comes to: before, from the expected hours; and
// so far, from those worked.
type Quote struct {
	Labour    quantity.Money // expected hours by the rate
	Materials quantity.Money
	Total     quantity.Money // what to quote
	Quoted    quantity.Money // what was quoted; Total where nothing is written
	Deposit   quantity.Money
	Balance   quantity.Money // due on delivery: quoted less deposit
	RealRate  *Rate          // what an hour really brought, once there are hours
	Says      source.Message
}

var (
	ruleCommissionMoney = &source.Rule{Name: "commission-currency", Severity: source.Warn,
		Reason: "A quote is in one currency: there is no rate of exchange in a journal.", Source: "arithmetic",
		Keys: "build commission: rate, materials, quoted, deposit"}
	ruleCommissionRate = &source.Rule{Name: "commission-below-rate", Severity: source.Note,
		Reason: "Knowing what an hour really brought is what makes the next quote better.", Source: "arithmetic",
		Keys: "build commission: rate, quoted"}
	ruleCommissionDeposit = &source.Rule{Name: "commission-deposit", Severity: source.Warn,
		Reason: "A deposit is a part of the price.", Source: "arithmetic",
		Keys: "build commission: deposit, quoted"}
	ruleCommissionEmpty = &source.Rule{Name: "commission-incomplete", Severity: source.Note,
		Reason: "A quote needs a rate and expected hours, or the price agreed on.", Source: "arithmetic",
		Keys: "build: commission; build commission: rate, hours, quoted"}
)

// QuoteFor works out a commission. It returns nil, with findings, where the
// figures given cannot make one.
func QuoteFor(c *Commission, s Sum) (*Quote, source.Findings) {
	var findings source.Findings
	currency, mixed := c.currency()
	if mixed != nil {
		findings.Add(ruleCommissionMoney.At(mixed.At, source.Say("write all amounts in %s", currency), "%s beside amounts in %s", mixed.V,
			currency))
		return nil, findings
	}
	if !c.Quoted.Set && !(c.Rate.Set && c.Hours.Set) {
		findings.Add(ruleCommissionEmpty.At(c.At, "add rate and hours, or quoted", "the commission cannot be worked out"))
		return nil, findings
	}
	money := func(minor int64) quantity.Money { return quantity.Money{Minor: minor, Currency: currency} }
	q := &Quote{Materials: money(c.Materials.V.Minor), Deposit: money(c.Deposit.V.Minor)}
	q.Labour = money(int64(math.Round(float64(c.Rate.V.Minor) * float64(c.Hours.V))))
	q.Total = money(q.Labour.Minor + q.Materials.Minor)
	q.Quoted = c.Quoted.Or(q.Total)
	q.Balance = money(max(q.Quoted.Minor-q.Deposit.Minor, 0))
	if q.Deposit.Minor > q.Quoted.Minor {
		findings.Add(ruleCommissionDeposit.At(c.Deposit.At, "write the deposit as a part of the price",
			"the deposit of %s is more than the price of %s", q.Deposit, q.Quoted))
	}
	q.addRealRate(s)
	if q.RealRate != nil && c.Rate.Set && s.State == Shelf && q.RealRate.Money.Minor < c.Rate.V.Minor {
		findings.Add(ruleCommissionRate.At(c.Rate.At, "quote more hours next time",
			"an hour brought %s, the rate is %s", q.RealRate.Money, c.Rate.V))
	}
	q.Says = q.says(s)
	return q, findings
}

// currency returns the commission's currency, and the first amount in another.
func (c *Commission) currency() (string, *source.Value[quantity.Money]) {
	currency := ""
	for _, m := range []*source.Value[quantity.Money]{&c.Rate, &c.Quoted, &c.Deposit, &c.Materials} {
		switch {
		case !m.Set:
		case currency == "":
			currency = m.V.Currency
		case currency != m.V.Currency:
			return currency, m
		}
	}
	return currency, nil
}

// addRealRate divides what is left of the price after materials by the hours.
func (q *Quote) addRealRate(s Sum) {
	if s.Hours <= 0 {
		return
	}
	spent := s.Outlay.Of(q.Quoted.Currency)
	earned := quantity.Money{Minor: q.Quoted.Minor - spent.Minor, Currency: q.Quoted.Currency}
	rate := rateOf(earned, source.Say("(%s − %s)", q.Quoted, spent), s.Hours)
	q.RealRate = &rate
}

func (q *Quote) says(s Sum) source.Message {
	text := source.Say("Quoted %s, of which %s as deposit; %s on delivery.", q.Quoted, q.Deposit, q.Balance)
	switch {
	case q.RealRate == nil:
		return text
	case s.State == Shelf:
		return source.Text(text, source.Say("An hour really brought %s.", q.RealRate.Money))
	}
	return source.Text(text, source.Say("If it were finished now, an hour would have brought %s.", q.RealRate.Money))
}
