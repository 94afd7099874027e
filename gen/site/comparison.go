package site

import (
	"slices"
	"time"

	"spruelight/gen/page"
	"spruelight/gen/topic"
	"spruelight/gen/topic/review"
)

// comparisonPath is where all reviews stand side by side.
const comparisonPath = "reviews.html"

// comparisonPages is the table of all reviewed kits.
func comparisonPages(h *House) []*page.Sheet {
	var data Comparison
	updated := time.Time{}
	for _, b := range h.Builds {
		j := b.Judged.Judged
		if j == nil {
			continue
		}
		data.Best = j.Best
		if data.Criteria == nil {
			for _, row := range j.Rows {
				data.Criteria = append(data.Criteria, row.Criterion)
			}
		}
		data.Overall = data.Overall || j.Overall != nil
		data.Rows = append(data.Rows, ComparisonRow{Build: h.card(b), Path: b.Place("review.html"), Title: review.Title(b.Facts, h.Words),
			Date: b.Review.Front.Date.V.Time, Result: *j, Verdict: b.Review.Front.Verdict.V})
		updated = topic.Later(updated, b.Review.Front.Date.V.Time)
	}
	slices.SortStableFunc(data.Rows, func(a, b ComparisonRow) int { return b.Date.Compare(a.Date) })
	say := h.Words.Say
	return []*page.Sheet{{Path: comparisonPath, Kind: "comparison", Title: say("Reviews"), Updated: updated, Data: data,
		Summary: say("Every kit reviewed on this bench, with how it came here, its marks and their reasons")}}
}
