package tally

import "spruelight/gen/quantity"

// The sums by which figures are made.
var (
	weekly = &quantity.Formula{Name: "pace", Sum: "p = h / (d / 7)", Unit: "h a week", Digits: 2,
		Where: []string{"p: bench hours a week", "h: hours of the last six weeks",
			"d: their days, or the days since the first sitting where that is later, a week at least"},
		Source: "six weeks: common practice, no source"}
	hourly = &quantity.Formula{Name: "cost of a bench hour", Sum: "r = C / h",
		Where: []string{"C: what was spent, kit included", "h: hours at the bench"}, Source: "arithmetic"}
	summed = &quantity.Formula{Name: "sum of hours", Sum: "h = Σh_i", Unit: "h",
		Where: []string{"h_i: bench hours of each stage"}, Source: "arithmetic"}
)

// Formulas are the sums of this room, for the guide.
var Formulas = []*quantity.Formula{
	weekly,
	hourly,
	summed,
	{Name: "hours left", Sum: "for each stage, what finished builds took less what was spent, never below nothing; the median of their sums", Where: []string{"the range named holds the middle half of the finished builds", "the error named is that of forecasting each finished build from the others"}, Source: "quartiles of finished builds; leave-one-out error"},
	{Name: "chance of a common cause", Sum: "P = Σ C(a+b, i) · C(c+d, a+c−i) / C(n, a+c)", Where: []string{"a, b: affected parts with and without the treatment", "c, d: sound parts with and without it", "n = a + b + c + d; the sum is over all counts i no likelier than a"}, Source: "Fisher's exact test, two-sided (Agresti, Statistical Science 7, 1992, section 2.1)"},
	{Name: "overall mark", Sum: "m = Σ w · m_i / Σ w", Where: []string{"m_i: marks of what was assessed", "w: their weights"}, Source: "weighted mean", Note: "What was not assessed counts nowhere; the mark is shown only where the workshop asks for it."},
	{Name: "quote", Sum: "Q = h · r + M", Where: []string{"h: hours expected", "r: rate of an hour", "M: materials"}, Source: "arithmetic"},
	{Name: "what an hour brought", Sum: "r = (Q − M) / h", Where: []string{"Q: price agreed on", "M: materials really spent", "h: hours really worked"}, Source: "arithmetic"},
}
