package tally

import (
	"time"

	"spruelight/gen/quantity"
	"spruelight/gen/svg"
)

// Captions are the words and date forms of the charts, in the reader's language.
type Captions struct {
	Stage, Hours, Date, Spent, Sitting, On, Month, Total string
	Day, DayShort, MonthYear, MonthShort                 func(time.Time) string
	Title                                                func(stage string) string
	Money                                                func(quantity.Money) string
}

// English are the captions of a site in English.
var English = Captions{
	Stage: "Stage", Hours: "Hours", Date: "Date", Spent: "Spent so far", Sitting: "Sitting", On: "On", Month: "Month", Total: "Total",
	Day:        func(t time.Time) string { return t.Format("2 January 2006") },
	DayShort:   func(t time.Time) string { return t.Format("2 Jan") },
	MonthYear:  func(t time.Time) string { return t.Format("January 2006") },
	MonthShort: func(t time.Time) string { return t.Format("Jan") },
	Title:      func(stage string) string { return stage },
	Money:      quantity.Money.String,
}

// StageChart shows a build's hours by stage.
func StageChart(s Sum, f svg.Frame, c Captions) (*svg.Drawing, svg.Table) {
	chart := svg.BarChart{Frame: f, Label: c.Stage, Value: c.Hours}
	for _, x := range s.ByStage {
		chart.Bars = append(chart.Bars, svg.Bar{Label: c.Title(x.Title), Value: float64(x.Hours), Text: WholeMinutes(x.Hours)})
	}
	return svg.Bars(chart)
}

// HoursChart shows how a build's bench time grew, sitting by sitting.
func HoursChart(s Sum, sittings []Sitting, f svg.Frame, c Captions) (*svg.Drawing, svg.Table) {
	chart := svg.LineChart{Frame: f, When: c.Date, Value: c.Hours, Format: plainHours}
	total := quantity.Hours(0)
	for _, x := range byDay(inOrder(sittings)) {
		total = tidy(total + x.Hours)
		chart.Points = append(chart.Points, svg.Datum{X: svg.At(x.Date), Y: float64(total), Label: c.Day(x.Date), Text: WholeMinutes(total)})
	}
	if len(chart.Points) > 0 {
		chart.Ticks = c.ticks(s.First, s.Last)
	}
	return svg.Steps(chart)
}

func plainHours(v float64) string { return quantity.Round(v, 4) + " h" }

// daily is the bench time of one day.
type daily struct {
	Date  time.Time
	Hours quantity.Hours
}

func byDay(sittings []Sitting) []daily {
	var out []daily
	for _, s := range sittings {
		if n := len(out); n > 0 && out[n-1].Date.Equal(s.Date) {
			out[n-1].Hours += s.Hours.V
			continue
		}
		out = append(out, daily{s.Date, s.Hours.V})
	}
	return out
}

// SpendChart shows how a build's cost grew in one currency. What was bought
// for the build as a whole stands at the first sitting's day.
func SpendChart(s Sum, currency string, f svg.Frame, c Captions) (*svg.Drawing, svg.Table) {
	chart := svg.LineChart{Frame: f, When: c.Date, Value: c.Spent, Named: c.On,
		Format: func(v float64) string { return quantity.Round(v, 6) + " " + currency }}
	add := func(day time.Time, total quantity.Money) {
		point := svg.Datum{X: svg.At(day), Y: total.Amount(), Label: c.Day(day), Text: c.Money(total)}
		if n := len(chart.Points); n > 0 && chart.Points[n-1].X == point.X {
			chart.Points[n-1] = point
		} else {
			chart.Points = append(chart.Points, point)
		}
	}
	if !s.First.IsZero() {
		add(s.First, quantity.Money{Currency: currency})
		for _, x := range s.ByStep {
			if x.Price.Currency == currency {
				add(later(x.Date, s.First), x.Total.Of(currency))
			}
		}
		add(s.Last, s.Cost.Of(currency))
		chart.Ticks = c.ticks(s.First, s.Last)
	}
	return svg.Steps(chart)
}

// ticks places round dates on a time axis.
func (c Captions) ticks(from, to time.Time) []svg.Tick {
	return svg.TimeTicks(from, to, 5, func(t time.Time, unit svg.Unit) string {
		switch {
		case unit >= svg.Year:
			return t.Format("2006")
		case unit >= svg.Month:
			return c.MonthShort(t) + t.Format(" 2006")
		}
		return c.DayShort(t)
	})
}

// MonthsChart shows the hours of several builds by month, one series a build;
// months without a sitting are drawn empty.
func MonthsChart(sums []Sum, f svg.Frame, c Captions) (*svg.Drawing, svg.Table) {
	chart := svg.MonthChart{Frame: f, Period: c.Month, Total: c.Total}
	o := All(sums)
	var begun []Sum
	for _, s := range sums {
		if s.Hours > 0 {
			begun = append(begun, s)
			chart.Series = append(chart.Series, svg.Series{Name: s.Name, Total: WholeMinutes(s.Hours)})
		}
	}
	if len(begun) == 0 {
		return svg.Stacked(chart)
	}
	last := time.Date(o.Last.Year(), o.Last.Month(), 1, 0, 0, 0, 0, time.UTC)
	for m := time.Date(o.First.Year(), o.First.Month(), 1, 0, 0, 0, 0, time.UTC); !m.After(last); m = m.AddDate(0, 1, 0) {
		column := svg.Column{Label: c.MonthYear(m), Tick: c.MonthShort(m), Group: m.Format("2006")}
		whole := quantity.Hours(0)
		for _, s := range begun {
			h := hoursOf(s.ByMonth, m.Format("2006-01"))
			column.Values = append(column.Values, float64(h))
			column.Texts = append(column.Texts, WholeMinutes(h))
			whole += h
		}
		column.Total = WholeMinutes(whole)
		chart.Columns = append(chart.Columns, column)
	}
	return svg.Stacked(chart)
}

func later(a, b time.Time) time.Time {
	if b.After(a) {
		return b
	}
	return a
}

func hoursOf(slices []Slice, name string) quantity.Hours {
	for _, x := range slices {
		if x.Name == name {
			return x.Hours
		}
	}
	return 0
}
