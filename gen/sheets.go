package gen

import (
	"slices"
	"strings"
	"time"

	"spruelight/gen/journal"
	"spruelight/gen/page"
	"spruelight/gen/quantity"
	"spruelight/gen/scale"
	"spruelight/gen/site"
	"spruelight/gen/tally"
	"spruelight/gen/topic"
	"spruelight/gen/topic/log"
)

// buildSheets are all pages of a build: its own, its sittings, and those of
// the topics.
func (r *run) buildSheets(w *work) []*page.Sheet {
	var sheets []*page.Sheet
	var leaves []page.Leaf
	for _, t := range subjects {
		if t.part != nil {
			p := t.part(w)
			sheets, leaves = append(sheets, p.Sheets...), append(leaves, p.Leaves...)
		}
		if t.pages != nil {
			sheets = append(sheets, t.pages(w)...)
		}
		if t.leaves != nil {
			leaves = append(leaves, t.leaves(w)...)
		}
	}
	sheets = append(sheets, r.buildSheet(w, leaves))
	for i := range w.build.Sittings {
		sheets = append(sheets, r.sittingSheet(w, i))
	}
	w.searched(sheets)
	for _, s := range sheets {
		s.Group = w.build.Front.Name.V
		if s.Updated.IsZero() {
			s.Updated = w.facts().Newest()
		}
	}
	return sheets
}

func (r *run) buildSheet(w *work, leaves []page.Leaf) *page.Sheet {
	b := w.build
	at := w.place("index.html")
	card := r.buildCard(w)
	data := log.Build{Card: card, Front: &b.Front, Body: r.texts().HTML(b.Body, b.Dir, at), Leaves: leaves, Steps: r.stageSteps(w), Timeline: w.timeline}
	data.Size, data.Real = r.sizeText(w.scale.Piece.Model), r.sizeText(w.scale.Piece.Real)
	for _, name := range site.TechniquesOf(w.facts()) {
		data.Techniques = append(data.Techniques, r.house.Technique(name))
	}
	if len(b.Sittings) > 0 || b.Review != nil {
		data.Feed = w.place("atom.xml")
	}
	for i := range b.Sittings {
		data.Sittings = append(data.Sittings, r.sittingCard(w, i))
	}
	return &page.Sheet{Path: at, Kind: "build", Title: b.Front.Name.V, Summary: card.Summary, Lead: card.Lead, Data: data, Words: b.Body.Text()}
}

// buildCard sums a build up for other pages. While its own pages are made, all
// of them share one.
func (r *run) buildCard(w *work) topic.Card {
	if r.making != w {
		return topic.NewCard(w.facts(), w.tally, w.totals, r.pages())
	}
	if w.card == nil {
		card := topic.NewCard(w.facts(), w.tally, w.totals, r.pages())
		w.card = &card
	}
	return *w.card
}

// stageSteps says how far a build is, stage by stage.
func (r *run) stageSteps(w *work) []log.StageStep {
	if w.totals.State == tally.Stash {
		return nil
	}
	var steps []log.StageStep
	for _, name := range r.shop.Settings.StageNames() {
		step := log.StageStep{Name: r.press.words.Say(name), State: "open"}
		for _, s := range w.totals.ByStage {
			if s.Name == name && s.Sittings > 0 {
				step.State, step.Hours = "begun", r.press.words.Bench(s.Hours)
			}
		}
		if step.State == "open" && w.totals.State == tally.Shelf {
			continue // what a finished build did without
		}
		over := slices.ContainsFunc(w.build.Front.Over, func(t journal.Text) bool { return t.V == name })
		if over || step.State == "begun" && w.totals.State == tally.Shelf {
			step.State = "done"
		}
		steps = append(steps, step)
	}
	return steps
}

// sizeText prints the size of a thing as long, wide and high as is known.
func (r *run) sizeText(s scale.Size) string {
	say := r.press.words.Say
	var parts []string
	add := func(m quantity.Metres, word string) {
		if m > 0 {
			parts = append(parts, say(word, r.press.words.Tell(scale.LengthText(m, r.bench().Inches()))))
		}
	}
	add(s.Length, "%s long")
	add(s.Width, "%s wide")
	add(s.Height, "%s high")
	return strings.Join(parts, ", ")
}

// sittingCard sums a sitting up: for its build, and for the sittings before and
// after it.
func (r *run) sittingCard(w *work, i int) topic.SittingCard {
	if r.making != w {
		return topic.NewSittingCard(w.facts(), i, w.desk())
	}
	for n := len(w.cards); n <= i; n++ {
		w.cards = append(w.cards, topic.NewSittingCard(w.facts(), n, w.desk()))
	}
	return w.cards[i]
}

func (r *run) sittingSheet(w *work, i int) *page.Sheet {
	s := w.build.Sittings[i]
	at := r.places.Page(s.File.Name)
	data := log.Sitting{Build: r.buildCard(w), Front: &s.Front, Title: topic.TitleOf(s, r.press.words), Date: s.Date, Body: r.texts().HTML(s.Body, w.build.Dir, at),
		Number: i + 1, Of: len(w.build.Sittings)}
	for i := range s.Front.Photos {
		if picture := r.photoOf(w.build, &s.Front.Photos[i], s.Front.Dated.V); picture != nil {
			data.Photos = append(data.Photos, picture)
		}
	}
	for _, t := range s.Front.Tags {
		if link := r.house.Technique(t.V); !slices.Contains(data.Techniques, link) {
			data.Techniques = append(data.Techniques, link)
		}
	}
	if i > 0 {
		card := r.sittingCard(w, i-1)
		data.Earlier = &card
	}
	if i+1 < len(w.build.Sittings) {
		card := r.sittingCard(w, i+1)
		data.Later = &card
	}
	sheet := &page.Sheet{Path: at, Kind: "sitting", Title: topic.TitleOf(s, r.press.words), Summary: s.Body.Summary(200), Updated: s.Date, Data: data, Words: s.Body.Text()}
	if len(data.Photos) > 0 {
		sheet.Lead = data.Photos[0]
	}
	return sheet
}

// photoOf returns a journal's photo as a page shows it, with the day it was
// taken where that is wanted.
func (r *run) photoOf(b *journal.Build, p *journal.Photo, dated bool) *page.Picture {
	var two []*page.Picture
	for i, file := range p.Files() {
		full, ok := b.Inside(file.V)
		if !ok {
			return nil
		}
		picture := r.photos.Picture(full, p.Alt.V, p.Caption.V, p.Credit.V)
		if picture == nil {
			return nil
		}
		if len(p.Pair) == 2 {
			picture.Name = r.press.words.Say([]string{"before", "after"}[i])
			if len(p.Names) == 2 {
				picture.Name = p.Names[i].V
			}
			picture.Alt = p.Alt.V + ": " + picture.Name
		}
		if taken := r.photos.Of(full).Taken[full]; dated && !taken.IsZero() {
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

// frontOrder is the order in which builds stand on the front page.
var frontOrder = []tally.State{tally.Bench, tally.SetAside, tally.Shelf, tally.Stash}

// mostLatest is how many of the newest sittings the front page shows.
const mostLatest = 6

func (r *run) frontSheet() *page.Sheet {
	var sums []tally.Sum
	byState := map[tally.State][]topic.Card{}
	for _, w := range r.works {
		sums = append(sums, w.totals)
		state := w.totals.State
		byState[state] = append(byState[state], r.buildCard(w))
	}
	data := site.Front{Total: tally.All(sums)}
	for _, state := range frontOrder {
		if cards := byState[state]; len(cards) > 0 {
			slices.SortStableFunc(cards, func(a, b topic.Card) int { return b.Updated.Compare(a.Updated) })
			data.Groups = append(data.Groups, site.Group{State: state, Builds: cards})
		}
	}
	for _, x := range r.newestSittings(mostLatest) {
		data.Latest = append(data.Latest, r.sittingCard(x.work, x.number))
	}
	site := r.press.site
	return &page.Sheet{Path: "index.html", Kind: "front", Title: site.Name, Summary: site.About, Updated: site.Updated, Data: data}
}

// oneSitting is a sitting by its build and its number there.
type oneSitting struct {
	work   *work
	number int
}

// newestSittings returns so many of the newest sittings, newest first.
func (r *run) newestSittings(most int) []oneSitting {
	var list []oneSitting
	for _, w := range r.works {
		for i := range w.build.Sittings {
			list = append(list, oneSitting{w, i})
		}
	}
	slices.SortStableFunc(list, func(a, b oneSitting) int {
		return b.work.build.Sittings[b.number].Date.Compare(a.work.build.Sittings[a.number].Date)
	})
	return list[:min(len(list), most)]
}
