// Package log is the topic of what was done and when: the page of a build, and
// those of its sittings.
package log

import (
	"slices"
	"time"

	"spruelight/gen/journal"
	"spruelight/gen/page"
	"spruelight/gen/source"
	"spruelight/gen/tally"
	"spruelight/gen/topic"
)

// Seen is what a build's page shows of the other subjects.
type Seen struct {
	Leaves     []page.Leaf   // further pages of the build
	Timeline   *page.Drawing // hours by month and stage; nil for a short build
	Size, Real string        // of the model and of the real thing, "" where unknown
}

// feedName is the name of a build's own feed.
const feedName = "atom.xml"

// Pages lays out a build's page and those of its sittings.
func Pages(f topic.Facts, in Seen, d topic.Desk) topic.Part {
	cards := make([]topic.SittingCard, len(f.Sittings))
	for i := range cards {
		cards[i] = topic.NewSittingCard(f, i, d)
	}
	sheets := []*page.Sheet{buildSheet(f, in, cards, d)}
	for i := range f.Sittings {
		sheets = append(sheets, sittingSheet(f, i, cards, d))
	}
	return topic.Part{Sheets: append(sheets, draftSheets(f, d)...)}
}

// drafts are the build's drafts as its sittings, where they are shown.
func drafts(f topic.Facts) topic.Facts {
	b := *f.Build
	b.Sittings = f.Drafts
	return topic.Facts{Bench: f.Bench, Build: &b}
}

// draftCards sums the drafts up. They have no place among the sittings.
func draftCards(f topic.Facts, d topic.Desk) []topic.SittingCard {
	cards := make([]topic.SittingCard, len(f.Drafts))
	for i := range cards {
		cards[i] = topic.NewSittingCard(drafts(f), i, d)
		cards[i].Number = 0
	}
	return cards
}

// draftSheets are the pages of drafts: what a sitting's page will be.
func draftSheets(f topic.Facts, d topic.Desk) []*page.Sheet {
	cards := draftCards(f, d)
	sheets := make([]*page.Sheet, len(cards))
	for i := range cards {
		s := sittingSheet(drafts(f), i, cards, d)
		data := s.Data.(Sitting)
		data.Number, data.Of, data.Earlier, data.Later = 0, 0, nil, nil
		s.Data, s.Draft = data, true
		sheets[i] = s
	}
	return sheets
}

func buildSheet(f topic.Facts, in Seen, cards []topic.SittingCard, d topic.Desk) *page.Sheet {
	at := f.Place("index.html")
	data := Build{Card: d.Card, Front: &f.Front, Body: d.Places.Text(f.Body, f.Dir, at), Leaves: in.Leaves, Sittings: cards,
		Drafts: draftCards(f, d), Steps: stageSteps(f, d), Size: in.Size, Real: in.Real, Timeline: in.Timeline}
	tags := slices.Clone(f.Front.Techniques)
	for _, s := range f.Sittings {
		tags = append(tags, s.Front.Tags...)
	}
	data.Techniques = techniques(tags, d)
	if len(f.Sittings) > 0 || f.Review != nil {
		data.Feed = f.Place(feedName)
	}
	return &page.Sheet{Path: at, Kind: "build", Title: d.Card.Name, Summary: d.Card.Summary, Lead: d.Card.Lead,
		Data: data, Words: f.Body.Text()}
}

// techniques are links to techniques, each once, however often and in whatever
// spelling they are named.
func techniques(tags []source.Value[string], d topic.Desk) []page.Link {
	var links []page.Link
	for _, t := range tags {
		link := d.Places.Technique(t.V)
		if !slices.ContainsFunc(links, func(l page.Link) bool { return l.Path == link.Path }) {
			links = append(links, link)
		}
	}
	return links
}

// stageSteps says how far a build is, stage by stage.
func stageSteps(f topic.Facts, d topic.Desk) []StageStep {
	sum := &d.Card.Sum
	if sum.State == tally.Stash {
		return nil
	}
	var steps []StageStep
	for _, name := range f.Settings.StageNames() {
		step := StageStep{Name: d.Words.Say(name), State: "open"}
		for _, s := range sum.ByStage {
			if s.Name == name && s.Sittings > 0 {
				step.State, step.Hours = "begun", d.Words.Bench(s.Hours)
			}
		}
		if step.State == "open" && sum.State == tally.Shelf {
			continue // what a finished build did without
		}
		over := slices.ContainsFunc(f.Front.Over, func(t journal.Text) bool { return t.V == name })
		if over || step.State == "begun" && sum.State == tally.Shelf {
			step.State = "done"
		}
		steps = append(steps, step)
	}
	return steps
}

func sittingSheet(f topic.Facts, i int, cards []topic.SittingCard, d topic.Desk) *page.Sheet {
	s, title := f.Sittings[i], cards[i].Title
	at := d.Places.Page(s.File.Name)
	data := Sitting{Build: d.Card, Front: &s.Front, Title: title, Date: s.Date, Body: d.Places.Text(s.Body, f.Dir, at),
		Techniques: techniques(s.Front.Tags, d), Number: i + 1, Of: len(f.Sittings)}
	for i := range s.Front.Photos {
		if picture := photoOf(f, &s.Front.Photos[i], s.Front.Dated.V, d); picture != nil {
			data.Photos = append(data.Photos, picture)
		}
	}
	if i > 0 {
		data.Earlier = &cards[i-1]
	}
	if i+1 < len(cards) {
		data.Later = &cards[i+1]
	}
	sheet := &page.Sheet{Path: at, Kind: "sitting", Title: title, Summary: s.Body.Summary(200),
		Updated: s.Date, Data: data, Words: s.Body.Text()}
	if len(data.Photos) > 0 {
		sheet.Lead = data.Photos[0]
	}
	return sheet
}

// photoOf returns a journal's photo as a page shows it, with the day it was
// taken where that is wanted.
func photoOf(f topic.Facts, p *journal.Photo, dated bool, d topic.Desk) *page.Picture {
	var two []*page.Picture
	for i, file := range p.Files() {
		full, ok := f.Inside(file.V)
		if !ok {
			return nil
		}
		picture := d.Photos.Picture(full, p.Alt.V, p.Caption.V, p.Credit.V)
		if picture == nil {
			return nil
		}
		if len(p.Pair) == 2 {
			picture.Name = d.Words.Say([]string{"before", "after"}[i])
			if len(p.Names) == 2 {
				picture.Name = p.Names[i].V
			}
			picture.Alt = p.Alt.V + ": " + picture.Name
		}
		if taken := d.Photos.Taken(full); dated && !taken.IsZero() {
			picture.Taken = time.Date(taken.Year(), taken.Month(), taken.Day(), 0, 0, 0, 0, time.UTC)
		}
		two = append(two, picture)
	}
	if len(two) == 0 {
		return nil
	}
	if len(two) == 2 {
		two[0].After = two[1]
	}
	for _, m := range p.Marks {
		two[0].Marks = append(two[0].Marks, page.CallOut{X: m.Where.V.X * 100, Y: m.Where.V.Y * 100, Says: m.Says.V})
	}
	return two[0]
}
