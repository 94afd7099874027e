package record

import (
	"fmt"

	"spruelight/gen/chart"
	"spruelight/gen/page"
	"spruelight/gen/quantity"
	"spruelight/gen/svg"
	"spruelight/gen/topic"
)

// A build is long, and gets a timeline, from so many months and sittings on;
// of a very long one the last months are drawn.
const (
	longMonths   = 3
	longSittings = 6
	mostMonths   = 36

	timelineWidth = 720 // on a desk, and on paper
)

// Timeline draws when which stage of a long build was worked on, for the build's
// page; nil for a short one.
func Timeline(f topic.Facts, r *Result, d topic.Desk) *page.Drawing {
	months := monthsOf(r.Sum.First, r.Sum.Last)
	months = months[max(0, len(months)-mostMonths):]
	if len(f.Sittings) < longSittings || len(months) < longMonths {
		return nil
	}
	words := d.Words
	hours := map[string]map[string]quantity.Hours{}
	for _, s := range f.Sittings {
		stage := s.Front.Stage.V
		if hours[stage] == nil {
			hours[stage] = map[string]quantity.Hours{}
		}
		hours[stage][s.Date.Format("2006-01")] += s.Front.Hours.V
	}
	at := func(suffix string, width float64) (*svg.Drawing, svg.Table) {
		lanes := chart.Months{Frame: chart.Frame{ID: "time_line" + suffix, Title: words.Say("Month by month"), Lang: words.Language, Width: width,
			Desc: words.Say("For each stage, the hours of every month")}, Period: words.Say("Month"), Total: words.Say("Hours")}
		for i, m := range months {
			column := chart.Column{Label: words.Month(m), Tick: words.MonthShort(m), Group: fmt.Sprint(m.Year())}
			whole := quantity.Hours(0)
			for _, s := range r.Sum.ByStage {
				h := hours[s.Name][m.Format("2006-01")]
				whole += h
				column.Values = append(column.Values, float64(h))
				column.Texts = append(column.Texts, words.Bench(h))
				if i == 0 {
					lanes.Series = append(lanes.Series, chart.Series{Name: words.Say(s.Name), Total: words.Bench(s.Hours)})
				}
			}
			column.Total = words.Bench(whole)
			lanes.Columns = append(lanes.Columns, column)
		}
		return lanes.Lanes()
	}
	desk, text := at("", timelineWidth)
	phone, _ := at("-narrow", topic.PhoneWidth)
	return d.Keep("timeline", text, desk, phone)
}
