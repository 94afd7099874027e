package gen

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"spruelight/gen/journal"
	"spruelight/gen/page"
	"spruelight/gen/site"
	"spruelight/gen/source"
	"spruelight/gen/tally"
	"spruelight/gen/topic"
	"spruelight/gen/topic/review"
)

// reviewWork is what the review topic works out of a build.
type reviewWork struct {
	judged     *tally.Review // nil where there is none to be seen
	disclosure tally.Disclosure
}

// reckonReview judges a build's review. It comes after the other topics, whose
// results are its evidence.
func reckonReview(w *work) {
	if w.tally.Kit.Obtained.Set {
		w.review.disclosure, _ = tally.Disclose(w.tally.Kit, w.build.Front.At)
	}
	v := w.build.Review
	if v == nil {
		return
	}
	judged, found := tally.Judge(w.reviewInput(v))
	w.review.judged, w.review.disclosure = &judged, judged.Disclosure
	w.found.Add(found...)
}

func (w *work) reviewInput(v *journal.Review) tally.ReviewInput {
	f, settings := &v.Front, &w.run.shop.Settings.Review
	in := tally.ReviewInput{At: v.File.Whole(), Best: settings.Best.V, Overall: settings.Overall.V, Criteria: criteriaOf(settings),
		Verdict: f.Verdict, Experience: f.Experience.V, Kit: w.tally.Kit, Sum: w.totals, Faults: faultsOf(f.Faults), Evidence: w.evidence(v)}
	if len(settings.Phrases) > 0 {
		in.Phrases = topic.Texts(settings.Phrases)
	}
	in.Texts = append([]source.Value[string]{f.Verdict}, slices.Concat(f.BuyIf, f.LeaveIf)...)
	for _, m := range f.Marks {
		score := m.Value.Score
		in.Marks = append(in.Marks, tally.Mark{Criterion: m.Name, NotAssessed: score.V.NotAssessed, Why: m.Value.Why,
			Mark: source.Value[float64]{V: score.V.Mark, At: score.At, Set: score.Set && !score.V.NotAssessed}})
		in.Texts = append(in.Texts, m.Value.Why)
	}
	in.Texts = append(in.Texts, v.Body.Written())
	return in
}

// criteriaOf returns a workshop's criteria. One that bears the name of a usual
// criterion keeps its question and its evidence, unless it names its own.
func criteriaOf(settings *journal.ReviewSettings) []tally.Criterion {
	var out []tally.Criterion
	for _, c := range settings.Criteria {
		x := tally.Criterion{Name: c.Name.V, Weight: c.Value.Weight}
		if i := slices.IndexFunc(tally.Criteria, func(u tally.Criterion) bool { return u.Name == c.Name.V }); i >= 0 {
			x = tally.Criteria[i]
			x.Weight = c.Value.Weight
		}
		x.Asks = c.Value.Asks.Or(x.Asks)
		if len(c.Value.Stages) > 0 {
			x.Stages = topic.Texts(c.Value.Stages)
		}
		if len(c.Value.Kinds) > 0 {
			x.Problems = topic.Texts(c.Value.Kinds)
		}
		out = append(out, x)
	}
	return out
}

func faultsOf(faults []journal.Fault) []tally.Fault {
	var out []tally.Fault
	for _, f := range faults {
		out = append(out, tally.Fault{Kind: f.Kind, Part: f.Part.V, Size: f.Size, Shows: f.Shows, Note: f.Note.V})
	}
	return out
}

// evidence gathers what the log can say to a review.
func (w *work) evidence(v *journal.Review) tally.EvidenceInput {
	in := tally.EvidenceInput{Sum: w.totals, Rows: w.record.rows, Faults: faultsOf(v.Front.Faults), Closings: w.record.closings}
	if len(w.scale.Judged.Believed) > 0 {
		in.Scale = strings.TrimSuffix(w.scale.Judged.Sentence, ".")
	}
	for _, s := range w.tally.Sittings {
		in.Events = append(in.Events, s.Parts...)
	}
	for _, s := range w.build.Sittings {
		in.Leaks += len(s.Front.Leaks)
	}
	for _, p := range w.build.Front.Problems {
		in.Problems = append(in.Problems, tally.ProblemBrief{Kind: p.Kind.V, Name: p.Name.Or(p.Symptom.V), Outcome: p.Outcome.V})
	}
	return in
}

func reviewPages(w *work) []*page.Sheet {
	r, v := w.run, w.build.Review
	if w.review.judged == nil {
		return nil
	}
	at := r.places.Page(v.File.Name)
	card := r.buildCard(w)
	data := review.Page{Build: card, Front: &v.Front, Title: reviewTitle(w), Result: *w.review.judged, Body: r.texts().HTML(v.Body, w.build.Dir, at)}
	if f := v.Front.Experience; f.Set {
		data.Experience = f.V
	}
	sheet := &page.Sheet{Path: at, Kind: "review", Title: data.Title, Lead: card.Lead, Updated: v.Front.Date.V.Time, Data: &data,
		Summary: strings.TrimSpace(w.run.words.Tell(w.review.disclosure.Sentence) + " " + v.Front.Verdict.V), Words: v.Front.Verdict.V + "\n" + v.Body.Text()}
	data.Schema = review.Schema(r.press.site, sheet, &data, r.words)
	return []*page.Sheet{sheet}
}

func reviewTitle(w *work) string {
	kit := cmp.Or(w.build.Front.Kit.Title.V, w.build.Front.Name.V)
	return w.build.Review.Front.Title.Or(w.run.press.words.Say("Review of %s", kit))
}

func reviewLeaves(w *work) []page.Leaf {
	j := w.review.judged
	if j == nil {
		return nil
	}
	say := w.run.press.words.Say
	kind := say("build review")
	if j.FirstLook {
		kind = say("first look")
	}
	return []page.Leaf{{Name: say("Review"), Path: w.place("review.html"), Facts: []string{kind, w.run.words.Tell(j.Disclosure.Label)}}}
}

// comparisonPath is where all reviews stand side by side.
const comparisonPath = "reviews.html"

// comparisonPages is the table of all reviewed kits.
func comparisonPages(r *run) []*page.Sheet {
	var data site.Comparison
	updated := time.Time{}
	for _, w := range r.works {
		j := w.review.judged
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
		data.Rows = append(data.Rows, site.ComparisonRow{Build: r.buildCard(w), Path: w.place("review.html"), Title: reviewTitle(w),
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

// reviewEntry is a build's review as an item of a feed, its disclosure before
// all else.
func (r *run) reviewEntry(w *work, at, base string) (page.Entry, bool) {
	v := w.build.Review
	if v == nil || w.review.judged == nil {
		return page.Entry{}, false
	}
	return page.Entry{Path: w.place("review.html"), Title: w.build.Front.Name.V + ": " + reviewTitle(w), Published: v.Front.Date.V.Time,
		Summary: v.Front.Verdict.V, Notice: r.words.Tell(w.review.disclosure.Sentence), HTML: v.Body.HTML(r.texts().Absolutely(v.Body, w.build.Dir, at, base))}, true
}
