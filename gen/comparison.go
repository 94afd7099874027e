package gen

import (
	"slices"
	"time"

	"spruelight/gen/page"
	"spruelight/gen/site"
	"spruelight/gen/topic"
	"spruelight/gen/topic/review"
)

// comparisonPath is where all reviews stand side by side.
const comparisonPath = "reviews.html"

// comparisonPages is the table of all reviewed kits.
func comparisonPages(r *run) []*page.Sheet {
	var data site.Comparison
	updated := time.Time{}
	for _, w := range r.works {
		j := w.review.Judged
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
		data.Rows = append(data.Rows, site.ComparisonRow{Build: r.buildCard(w), Path: w.place("review.html"), Title: review.Title(w.facts(), r.words),
			Date: w.build.Review.Front.Date.V.Time, Result: *j, Verdict: w.build.Review.Front.Verdict.V})
		updated = topic.Later(updated, w.build.Review.Front.Date.V.Time)
	}
	if len(data.Rows) == 0 {
		return nil
	}
	slices.SortStableFunc(data.Rows, func(a, b site.ComparisonRow) int { return b.Date.Compare(a.Date) })
	say := r.press.words.Say
	return []*page.Sheet{{Path: comparisonPath, Kind: "comparison", Title: say("Reviews"), Updated: updated, Data: data,
		Summary: say("Every kit reviewed on this bench, with how it came here, its marks and their reasons")}}
}
