package site

import (
	"slices"

	"spruelight/gen/page"
	"spruelight/gen/tally"
	"spruelight/gen/topic"
	"spruelight/gen/topic/record"
)

// hoursPath is the page of the whole workshop's hours.
const hoursPath = "hours.html"

// hoursPages is the page of the whole workshop's hours.
func hoursPages(h *House) []*page.Sheet {
	var data AllHours
	for _, b := range h.Builds {
		if b.Record.Sum.Hours > 0 {
			data.Builds = append(data.Builds, h.card(b))
		}
	}
	data.Total = tally.All(h.sums(), h.Settings.StageNames()...)
	slices.SortStableFunc(data.Builds, func(a, b topic.Card) int { return int(b.Sum.Hours.Minutes() - a.Sum.Hours.Minutes()) })
	if data.Total.Hours > 0 {
		data.Charts = append(data.Charts, record.DrawMonths(h.sums(), h.Words, h.Keep))
	}
	words := h.Words
	return []*page.Sheet{{Path: hoursPath, Kind: "allhours", Title: words.Say("Hours"), Updated: data.Total.Last, Data: data,
		Summary: words.Bench(data.Total.Hours) + words.Join(", ") + words.Count(data.Total.Sittings, "sitting")}}
}
