package gen

import (
	"slices"

	"spruelight/gen/page"
	"spruelight/gen/site"
	"spruelight/gen/tally"
	"spruelight/gen/topic"
	"spruelight/gen/topic/record"
)

// hoursPath is the page of the whole workshop's hours.
const hoursPath = "hours.html"

// hoursPages is the page of the whole workshop's hours.
func hoursPages(r *run) []*page.Sheet {
	var sums []tally.Sum
	var data site.AllHours
	for _, w := range r.works {
		sums = append(sums, w.record.Sum)
		if w.record.Sum.Hours > 0 {
			data.Builds = append(data.Builds, r.buildCard(w))
		}
	}
	data.Total = tally.All(sums, r.shop.Settings.StageNames()...)
	if data.Total.Sittings == 0 {
		return nil
	}
	slices.SortStableFunc(data.Builds, func(a, b topic.Card) int { return int(b.Sum.Hours.Minutes() - a.Sum.Hours.Minutes()) })
	data.Charts = r.charts
	words := r.press.words
	return []*page.Sheet{{Path: hoursPath, Kind: "allhours", Title: words.Say("Hours"), Updated: data.Total.Last, Data: data,
		Summary: words.Bench(data.Total.Hours) + words.Join(", ") + words.Count(data.Total.Sittings, "sitting")}}
}

// drawHours draws the hours of all builds by month.
func drawHours(r *run) {
	var sums []tally.Sum
	for _, w := range r.works {
		sums = append(sums, w.record.Sum)
	}
	if tally.All(sums).Hours > 0 {
		r.charts = append(r.charts, record.DrawMonths(sums, r.words, r.house.Keep))
	}
}
