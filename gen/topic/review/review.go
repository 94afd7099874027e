// Package review is the topic of what a builder makes of a kit: the review judged
// against the log, and its page.
package review

import (
	"cmp"
	"slices"
	"strings"

	"spruelight/gen/journal"
	"spruelight/gen/page"
	"spruelight/gen/source"
	"spruelight/gen/tally"
	"spruelight/gen/topic"
	"spruelight/gen/topic/record"
)

// Result is what came of judging a build's review.
type Result struct {
	topic.Outcome
	Judged *tally.Review // nil where there is none to be seen
}

// file is the name of the page.
const file = "review.html"

// Reckon judges a build's review. Its evidence is the build's record and a
// sentence on its scale, empty where nothing was measured.
func Reckon(f topic.Facts, log *record.Result, scale source.Message) Result {
	if f.Review == nil {
		return Result{}
	}
	judged, found := tally.Judge(inputOf(f, log, scale))
	return Result{Outcome: topic.Outcome{Found: found}, Judged: &judged}
}

func inputOf(f topic.Facts, log *record.Result, scale source.Message) tally.ReviewInput {
	front, settings := &f.Review.Front, &f.Settings.Review
	in := tally.ReviewInput{At: f.Review.File.Whole(), Best: settings.Best.V, Overall: settings.Overall.V, Criteria: Criteria(settings),
		Verdict: front.Verdict, Experience: front.Experience.V, Kit: log.Build.Kit, Sum: log.Sum, Marks: front.Marks, Faults: front.Faults,
		Evidence: evidence(f, log, scale)}
	if len(settings.Phrases) > 0 {
		in.Phrases = topic.Texts(settings.Phrases)
	}
	in.Texts = append([]source.Value[string]{front.Verdict}, slices.Concat(front.BuyIf, front.LeaveIf)...)
	for _, m := range front.Marks {
		in.Texts = append(in.Texts, m.Value.Why)
	}
	in.Texts = append(in.Texts, f.Review.Body.Written())
	return in
}

// Criteria returns a workshop's criteria. One that bears the name of a usual
// criterion keeps its question and its evidence, unless it names its own.
func Criteria(settings *journal.ReviewSettings) []tally.Criterion {
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

// evidence gathers what the log can say to a review.
func evidence(f topic.Facts, log *record.Result, scale source.Message) tally.EvidenceInput {
	in := tally.EvidenceInput{Sum: log.Sum, Rows: log.Rows, Faults: f.Review.Front.Faults, Closings: log.Closings,
		Scale: scale}
	for _, s := range log.Build.Sittings {
		in.Events = append(in.Events, s.Parts...)
	}
	for _, s := range f.Sittings {
		in.Leaks += len(s.Front.Leaks)
	}
	for _, p := range f.Front.Problems {
		in.Problems = append(in.Problems, tally.ProblemBrief{Kind: p.Kind.V, Name: p.Name.Or(p.Symptom.V), Outcome: p.Outcome.V})
	}
	return in
}

// Title is the title of a build's review.
func Title(f topic.Facts, words *page.Words) string {
	kit := cmp.Or(f.Front.Kit.Title.V, f.Front.Name.V)
	return f.Review.Front.Title.Or(words.Say("Review of %s", kit))
}

// Pages lays out the page of a build's review.
func Pages(f topic.Facts, r *Result, d topic.Desk) topic.Part {
	if r.Judged == nil {
		return topic.Part{}
	}
	front, words := &f.Review.Front, d.Words
	at := d.Places.Page(f.Review.File.Name)
	data := Page{Build: d.Card, Front: front, Title: Title(f, words), Experience: front.Experience.V, Result: *r.Judged,
		Body: d.Places.Text(f.Review.Body, f.Dir, at)}
	sheet := &page.Sheet{Path: at, Kind: "review", Title: data.Title, Draft: f.ReviewMarked, Lead: d.Card.Lead, Updated: front.Date.V.Time,
		Data:    &data,
		Summary: strings.TrimSpace(words.Message(r.Judged.Disclosure.Sentence) + " " + front.Verdict.V),
		Words:   front.Verdict.V + "\n" + f.Review.Body.Text()}
	data.Schema = Schema(d.Site, sheet, &data, words)
	kind := words.Say("build review")
	if r.Judged.FirstLook {
		kind = words.Say("first look")
	}
	leaf := page.Leaf{Name: words.Say("Review"), Path: f.Place(file), Facts: []string{kind, words.Message(r.Judged.Disclosure.Label)}}
	return topic.Part{Sheets: []*page.Sheet{sheet}, Leaves: []page.Leaf{leaf}}
}
