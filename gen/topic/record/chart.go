package record

import (
	"slices"
	"strings"
	"time"

	"spruelight/gen/chart"
	"spruelight/gen/page"
	"spruelight/gen/quantity"
	"spruelight/gen/source"
	"spruelight/gen/svg"
	"spruelight/gen/tally"
	"spruelight/gen/topic"
)

// Widths of charts: for a desk and for a phone.
const (
	deskWidth  = 560
	phoneWidth = 330
)

// sumChart is a chart of the sums that can be drawn at any width.
type sumChart struct {
	id, title, desc string
	draw            func(chart.Frame, *page.Words) (*svg.Drawing, svg.Table)
}

// drawn draws the chart at both widths and keeps what comes out.
func (c sumChart) drawn(words *page.Words, keep topic.Keeper) page.Drawing {
	at := func(suffix string, width float64) (*svg.Drawing, svg.Table) {
		return c.draw(chart.Frame{ID: c.id + suffix, Title: c.title, Desc: c.desc, Lang: words.Language, Width: width,
			Empty: words.Say("nothing yet")}, words)
	}
	desk, table := at("", deskWidth)
	phone, _ := at("-narrow", phoneWidth)
	return *keep(c.id, table, desk, phone)
}

// charts draws a build's hours and spending.
func (r *Result) charts(f topic.Facts, d topic.Desk) []page.Drawing {
	if r.Sum.Sittings == 0 {
		return nil
	}
	say, name := d.Words.Say, f.Front.Name.V
	var charts []sumChart
	if r.Sum.Hours > 0 {
		charts = append(charts, sumChart{"hours-by-stage", say("Hours by stage"), say("A bar for each stage of %s", name), r.stageChart},
			sumChart{"hours-so-far", say("Hours so far"), say("How the bench time of %s grew", name), r.hoursChart})
	}
	for _, m := range r.Sum.Cost {
		charts = append(charts, sumChart{"spent-" + strings.ToLower(m.Currency), say("Spent so far, %s", m.Currency),
			say("How the cost of %s grew, the kit included", name),
			func(f chart.Frame, words *page.Words) (*svg.Drawing, svg.Table) {
				return r.spendChart(m.Currency, f, words)
			}})
	}
	var drawings []page.Drawing
	for _, c := range charts {
		drawings = append(drawings, c.drawn(d.Words, d.Keep))
	}
	return drawings
}

// DrawMonths draws the hours of all builds by month.
func DrawMonths(sums []tally.Sum, words *page.Words, keep topic.Keeper) page.Drawing {
	c := sumChart{"hours-by-month", words.Say("Hours by month"), words.Say("A column for each month, with a part for each build"),
		func(f chart.Frame, words *page.Words) (*svg.Drawing, svg.Table) { return monthsChart(sums, f, words) }}
	return c.drawn(words, keep)
}

// stageChart shows a build's hours by stage.
func (r *Result) stageChart(f chart.Frame, words *page.Words) (*svg.Drawing, svg.Table) {
	bars := chart.Bars{Frame: f, Label: words.Say("Stage"), Value: words.Say("Hours")}
	for _, x := range r.Sum.ByStage {
		bars.Bars = append(bars.Bars, chart.Bar{Label: words.Say(x.Title), Value: float64(x.Hours), Text: hoursText(x.Hours, words)})
	}
	return bars.Draw()
}

// hoursChart shows how a build's bench time grew, sitting by sitting.
func (r *Result) hoursChart(f chart.Frame, words *page.Words) (*svg.Drawing, svg.Table) {
	steps := chart.Steps{Frame: f, When: words.Say("Date"), Value: words.Say("Hours"), Format: amounts("h", 4, words)}
	for _, x := range tally.Growth(r.Build.Sittings) {
		steps.Points = append(steps.Points,
			chart.Datum{At: x.Date, Value: float64(x.Hours), Label: words.Day(x.Date), Text: hoursText(x.Hours, words)})
	}
	if len(steps.Points) > 0 {
		steps.Ticks = ticks(r.Sum.First, r.Sum.Last, words)
	}
	return steps.Draw()
}

// hoursText is a time at the bench as a chart has it.
func hoursText(h quantity.Hours, words *page.Words) string {
	return words.Message(source.Say("%s", tally.WholeMinutes(h)))
}

// amounts prints the values of an axis.
func amounts(unit string, digits int, words *page.Words) func(float64) string {
	return func(v float64) string {
		return words.Message(source.Say("%s", quantity.Amount{Value: v, Unit: unit, Digits: digits}))
	}
}

// spendChart shows how a build's cost grew in one currency. What was bought
// for the build as a whole stands at the first sitting's day.
func (r *Result) spendChart(currency string, f chart.Frame, words *page.Words) (*svg.Drawing, svg.Table) {
	s := &r.Sum
	steps := chart.Steps{Frame: f, When: words.Say("Date"), Value: words.Say("Spent so far"),
		Format: amounts(currency, 6, words)}
	add := func(day time.Time, total quantity.Money) {
		point := chart.Datum{At: day, Value: total.Amount(), Label: words.Day(day), Text: words.Money(total)}
		if n := len(steps.Points); n > 0 && steps.Points[n-1].At.Equal(day) {
			steps.Points[n-1] = point
		} else {
			steps.Points = append(steps.Points, point)
		}
	}
	if !s.First.IsZero() {
		add(s.First, quantity.Money{Currency: currency})
		for _, x := range s.ByStep {
			if x.Price.Currency == currency {
				add(topic.Later(x.Date, s.First), x.Total.Of(currency))
			}
		}
		add(s.Last, s.Cost.Of(currency))
		steps.Ticks = ticks(s.First, s.Last, words)
	}
	return steps.Draw()
}

// ticks places round dates on a time axis.
func ticks(from, to time.Time, words *page.Words) []chart.Tick {
	return chart.Ticks(from, to, 5, func(t time.Time, unit chart.Unit) string {
		switch {
		case unit >= chart.Year:
			return t.Format("2006")
		case unit >= chart.Month:
			return words.MonthShort(t) + t.Format(" 2006")
		}
		return words.DayShort(t)
	})
}

// monthsChart shows the hours of several builds by month, one series a build;
// months without a sitting are drawn empty.
func monthsChart(sums []tally.Sum, f chart.Frame, words *page.Words) (*svg.Drawing, svg.Table) {
	begun := slices.DeleteFunc(slices.Clone(sums), func(s tally.Sum) bool { return s.Hours <= 0 })
	months := chart.Months{Frame: f, Period: words.Say("Month"), Total: words.Say("Total")}
	for _, s := range begun {
		months.Series = append(months.Series, chart.Series{Name: s.Name, Total: hoursText(s.Hours, words)})
	}
	if len(begun) == 0 {
		return months.Stacked()
	}
	all := tally.All(sums)
	for _, m := range monthsOf(all.First, all.Last) {
		column := chart.Column{Label: words.Month(m), Tick: words.MonthShort(m), Group: m.Format("2006")}
		whole := quantity.Hours(0)
		for _, s := range begun {
			h := tally.HoursOf(s.ByMonth, m.Format("2006-01"))
			column.Values = append(column.Values, float64(h))
			column.Texts = append(column.Texts, hoursText(h, words))
			whole += h
		}
		column.Total = hoursText(whole, words)
		months.Columns = append(months.Columns, column)
	}
	return months.Stacked()
}

// monthsOf lists the months from one day to another, each by its first day.
func monthsOf(first, last time.Time) []time.Time {
	if first.IsZero() {
		return nil
	}
	var months []time.Time
	begin := func(t time.Time) time.Time { return time.Date(t.Year(), t.Month(), 1, 0, 0, 0, 0, time.UTC) }
	for m := begin(first); !m.After(last); m = m.AddDate(0, 1, 0) {
		months = append(months, m)
	}
	return months
}
