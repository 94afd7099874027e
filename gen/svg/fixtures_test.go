package svg

import (
	"fmt"
	"math"
	"time"
)

// The charts below are the ones the tests draw. Their data is invented.

var stages = []string{"Assembly", "Lighting", "Masking", "Painting", "Weathering", "Decals", "Finishing", "Photography"}

func frame(id string, width float64) Frame {
	return Frame{ID: id, Title: "Chart " + id, Desc: "Invented data.", Lang: "en", Width: width, Empty: "Nothing logged yet"}
}

func hoursText(h float64) string {
	m := int(math.Round(h * 60))
	switch {
	case m%60 == 0:
		return fmt.Sprintf("%d h", m/60)
	case m < 60:
		return fmt.Sprintf("%d min", m)
	}
	return fmt.Sprintf("%d h %d min", m/60, m%60)
}

func stageBars(width float64) BarChart {
	c := BarChart{Frame: frame("hours", width), Label: "Stage", Value: "Hours"}
	for i, h := range []float64{14.5, 22.25, 6, 11.75, 8.5, 2.25, 1.5, 0.75} {
		c.Bars = append(c.Bars, Bar{Label: stages[i], Value: h, Text: hoursText(h), Fill: Fill(i)})
	}
	return c
}

func date(y int, m time.Month, d int) time.Time { return time.Date(y, m, d, 12, 0, 0, 0, time.UTC) }

func tickText(t time.Time, u Unit) string {
	switch u {
	case Hour:
		return t.Format("15:04")
	case Day:
		return t.Format("2 Jan")
	case Year:
		return t.Format("2006")
	}
	return t.Format("Jan 2006")
}

func hoursOverTime(width float64) LineChart {
	c := LineChart{Frame: frame("course", width), When: "Date", Value: "Hours so far", Named: "Milestone",
		Format: func(v float64) string { return fmt.Sprintf("%g h", v) }}
	sum, at := 0.0, date(2025, time.October, 3)
	for i := range 34 {
		sum += []float64{1.5, 2.25, 3, 0.75, 2, 4.5}[i*7%6]
		c.Points = append(c.Points, Datum{At(at), sum, at.Format("2006-01-02"), hoursText(sum)})
		at = at.AddDate(0, 0, []int{2, 5, 1, 9, 3, 12}[i*5%6])
	}
	from, to := date(2025, time.October, 3), at
	c.Ticks = TimeTicks(from, to, 6, tickText)
	for _, m := range []struct {
		t    time.Time
		name string
	}{
		{date(2025, time.October, 28), "Hull joined"},
		{date(2025, time.November, 20), "First lamp lit"},
		{date(2025, time.December, 1), "All strings measured, soak test of 24 h passed"},
		{date(2025, time.December, 6), "Hull inside closed"},
		{date(2026, time.February, 12), "Decals on"},
		{date(2026, time.March, 10), "Mounted on its base"},
	} {
		c.Marks = append(c.Marks, Mark{At(m.t), m.name, m.t.Format("2006-01-02")})
	}
	return c
}

func spendOverTime(width float64) LineChart {
	c := LineChart{Frame: frame("spend", width), When: "Date", Value: "EUR spent", Named: "Bought"}
	sum := 0.0
	for i, v := range []float64{92, 6.5, 14.2, 0, 31.9, 8.75, 4.4} {
		sum += v
		t := date(2025, time.October, 3).AddDate(0, 0, 23*i)
		c.Points = append(c.Points, Datum{At(t), sum, t.Format("2006-01-02"), fmt.Sprintf("%.2f EUR", sum)})
	}
	c.Ticks = TimeTicks(date(2025, time.October, 3), date(2026, time.February, 20), 5, tickText)
	return c
}

func monthly(width float64, months int) MonthChart {
	c := MonthChart{Frame: frame("months", width), Period: "Month", Total: "Total"}
	sums := make([]float64, len(stages))
	for j := range months {
		t := date(2025, time.August, 1).AddDate(0, j, 0)
		col := Column{Label: t.Format("January 2006"), Tick: t.Format("Jan"), Group: t.Format("2006")}
		total := 0.0
		for i := range stages {
			v := 0.0
			if d := float64(j)*8/float64(months) - float64(i); d > -1.5 && d < 2 {
				v = math.Round(4*math.Abs(3.1+2.7*math.Sin(float64(i*5+j*3)))) / 4
			}
			col.Values = append(col.Values, v)
			col.Texts = append(col.Texts, fmt.Sprintf("%g", v))
			total += v
			sums[i] += v
		}
		col.Total = fmt.Sprintf("%g", total)
		c.Columns = append(c.Columns, col)
	}
	for i, s := range stages {
		c.Series = append(c.Series, Series{Name: s, Total: hoursText(sums[i])})
	}
	return c
}

func curing(width float64) ClockChart {
	c := ClockChart{Frame: frame("curing", width), Row: "Coat", What: "State", From: "From", To: "To"}
	start := time.Date(2026, time.February, 14, 19, 30, 0, 0, time.UTC)
	window := func(from, to float64, label string, fill Role) Window {
		clock := func(h float64) (float64, string) {
			if math.IsInf(h, 0) {
				return h, ""
			}
			t := start.Add(time.Duration(h * float64(time.Hour)))
			return At(t), t.Format("2 Jan 15:04")
		}
		f, ft := clock(from)
		t, tt := clock(to)
		return Window{f, t, label, ft, tt, fill}
	}
	inf := math.Inf(1)
	c.Rows = []ClockRow{
		{"Black, first coat", "acrylic lacquer", []Window{window(0, 0.25, "wet", Fill5), window(0.25, 1, "touch dry", Fill2), window(1, inf, "may be recoated", Fill1)}},
		{"Silver", "enamel, light blocking", []Window{window(2, 8, "wet", Fill5), window(8, 26, "touch dry", Fill2), window(26, inf, "holds a mask", Fill1)}},
		{"White", "acrylic lacquer", []Window{window(27, 28, "touch dry", Fill2), window(28, 51, "may be recoated", Fill1), window(51, inf, "holds a mask", Fill3)}},
	}
	c.Ticks = TimeTicks(start, start.Add(56*time.Hour), 6, func(t time.Time, u Unit) string {
		if t.Hour() == 0 {
			return t.Format("2 Jan")
		}
		return t.Format("15:04")
	})
	now := start.Add(22 * time.Hour)
	c.Marks = []Mark{{At(now), "now", now.Format("2 Jan 15:04")}}
	return c
}

// namedDrawing is a drawing with the table of its chart.
type namedDrawing struct {
	name    string
	drawing *Drawing
	table   Table
}

// charts draws every kind of chart, wide and for a phone.
func charts() []namedDrawing {
	var all []namedDrawing
	for _, w := range []struct {
		suffix string
		width  float64
	}{{"", 600}, {"-phone", 320}} {
		add := func(name string, d *Drawing, t Table) {
			all = append(all, namedDrawing{name + w.suffix, d, t})
		}
		d, t := Bars(stageBars(w.width))
		add("bars", d, t)
		d, t = Steps(hoursOverTime(w.width))
		add("steps", d, t)
		d, t = Line(spendOverTime(w.width))
		add("line", d, t)
		d, t = Lanes(monthly(w.width, 10))
		add("lanes", d, t)
		d, t = Stacked(monthly(w.width, 10))
		add("stacked", d, t)
		d, t = Clock(curing(w.width))
		add("clock", d, t)
	}
	return all
}
