package gen

import (
	"slices"
	"strings"
	"time"

	"spruelight/gen/journal"
	"spruelight/gen/page"
	"spruelight/gen/quantity"
	"spruelight/gen/scale"
	"spruelight/gen/tally"
)

// buildSheets are all pages of a build: its own, its sittings, and those of
// the topics.
func (r *run) buildSheets(w *work) []*page.Sheet {
	var sheets []*page.Sheet
	var leaves []page.Leaf
	for _, t := range topics {
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
			s.Updated = w.newest()
		}
	}
	return sheets
}

func (r *run) buildSheet(w *work, leaves []page.Leaf) *page.Sheet {
	b := w.build
	at := w.place("index.html")
	card := r.buildCard(w)
	data := page.Build{Card: card, Front: &b.Front, Body: r.body(b.Body, b.Dir, at), Leaves: leaves, Steps: r.stageSteps(w), Timeline: w.timeline}
	data.Size, data.Real = r.sizeText(w.scale.piece.Model), r.sizeText(w.scale.piece.Real)
	for _, name := range w.techniques() {
		data.Techniques = append(data.Techniques, r.techniqueLink(name))
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
func (r *run) buildCard(w *work) page.BuildCard {
	if r.making != w {
		return r.newBuildCard(w)
	}
	if w.card == nil {
		card := r.newBuildCard(w)
		w.card = &card
	}
	return *w.card
}

func (r *run) newBuildCard(w *work) page.BuildCard {
	f := &w.build.Front
	card := page.BuildCard{Slug: w.build.Slug, Name: f.Name.V, Path: w.place("index.html"), Kit: f.Kit, Scale: f.Scale.V.String(),
		Summary: f.Summary.Or(w.build.Body.Summary(200)), Lead: r.lead(w), Sum: w.totals, Updated: w.newest()}
	if step, ok := tally.NextStepOf(w.tally); ok {
		card.Next, card.NextPath, card.NextOld = step.Text, w.place(step.Sitting+".html"), step.Overtaken
	}
	return card
}

// lead returns the picture that stands for a build: the one it names, else the
// newest sitting's last.
func (r *run) lead(w *work) *page.Picture {
	if name := w.build.Front.Lead; name.Set {
		if full, ok := w.build.Inside(name.V); ok {
			return r.photos.picture(full, w.altOf(name.V), "", "")
		}
	}
	for _, s := range slices.Backward(w.build.Sittings) {
		for i := range slices.Backward(s.Front.Photos) {
			if picture := r.standing(w.build, &s.Front.Photos[i]); picture != nil {
				return picture
			}
		}
	}
	return nil
}

// altOf finds the words for a picture where a sitting shows it.
func (w *work) altOf(file string) string {
	for _, s := range w.build.Sittings {
		for _, p := range s.Front.Photos {
			if p.Alt.Set && slices.ContainsFunc(p.Files(), func(t journal.Text) bool { return t.V == file }) {
				return p.Alt.V
			}
		}
	}
	return w.build.Front.Name.V
}

// stageSteps says how far a build is, stage by stage.
func (r *run) stageSteps(w *work) []page.StageStep {
	if w.totals.State == tally.Stash {
		return nil
	}
	var steps []page.StageStep
	for _, name := range r.shop.Settings.StageNames() {
		step := page.StageStep{Name: r.press.words.Say(name), State: "open"}
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
			parts = append(parts, say(word, r.press.words.Tell(scale.LengthText(m, r.inches()))))
		}
	}
	add(s.Length, "%s long")
	add(s.Width, "%s wide")
	add(s.Height, "%s high")
	return strings.Join(parts, ", ")
}

// titleOf is a sitting's title. One without a title bears its stage, which the
// words know.
func (r *run) titleOf(s *journal.Sitting) string {
	if title := s.Title(); title != s.Front.Stage.V {
		return title
	}
	return r.press.words.Say(s.Front.Stage.V)
}

// sittingCard sums a sitting up: for its build, and for the sittings before and
// after it.
func (r *run) sittingCard(w *work, i int) page.SittingCard {
	if r.making != w {
		return r.newSittingCard(w, i)
	}
	for n := len(w.cards); n <= i; n++ {
		w.cards = append(w.cards, r.newSittingCard(w, n))
	}
	return w.cards[i]
}

func (r *run) newSittingCard(w *work, i int) page.SittingCard {
	s := w.build.Sittings[i]
	card := page.SittingCard{Build: w.build.Front.Name.V, Title: r.titleOf(s), Path: r.places.path(s.File.Name), Stage: s.Front.Stage.V,
		Date: s.Date, Summary: s.Body.Summary(180), Number: i + 1}
	if s.Front.Hours.Set {
		card.Hours = r.press.words.Bench(s.Front.Hours.V)
	}
	for i := range s.Front.Photos {
		if card.Lead == nil {
			card.Lead = r.standing(w.build, &s.Front.Photos[i])
		}
	}
	return card
}

func (r *run) sittingSheet(w *work, i int) *page.Sheet {
	s := w.build.Sittings[i]
	at := r.places.path(s.File.Name)
	data := page.Sitting{Build: r.buildCard(w), Front: &s.Front, Title: r.titleOf(s), Date: s.Date, Body: r.body(s.Body, w.build.Dir, at),
		Number: i + 1, Of: len(w.build.Sittings)}
	for i := range s.Front.Photos {
		if picture := r.photoOf(w.build, &s.Front.Photos[i], s.Front.Dated.V); picture != nil {
			data.Photos = append(data.Photos, picture)
		}
	}
	data.Techniques = r.techniqueLinks(s.Front.Tags)
	if i > 0 {
		card := r.sittingCard(w, i-1)
		data.Earlier = &card
	}
	if i+1 < len(w.build.Sittings) {
		card := r.sittingCard(w, i+1)
		data.Later = &card
	}
	sheet := &page.Sheet{Path: at, Kind: "sitting", Title: r.titleOf(s), Summary: s.Body.Summary(200), Updated: s.Date, Data: data, Words: s.Body.Text()}
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
		picture := r.photos.picture(full, p.Alt.V, p.Caption.V, p.Credit.V)
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
		if taken := r.photos.of(full).taken[full]; dated && !taken.IsZero() {
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

// standing returns the picture of an entry that may stand for its sitting: of
// a pair the second, which shows what was reached.
func (r *run) standing(b *journal.Build, p *journal.Photo) *page.Picture {
	files := p.Files()
	if len(files) == 0 {
		return nil
	}
	full, ok := b.Inside(files[len(files)-1].V)
	if !ok {
		return nil
	}
	return r.photos.picture(full, p.Alt.V, "", "")
}

// frontOrder is the order in which builds stand on the front page.
var frontOrder = []tally.State{tally.Bench, tally.SetAside, tally.Shelf, tally.Stash}

// mostLatest is how many of the newest sittings the front page shows.
const mostLatest = 6

func (r *run) frontSheet() *page.Sheet {
	var sums []tally.Sum
	byState := map[tally.State][]page.BuildCard{}
	for _, w := range r.works {
		sums = append(sums, w.totals)
		state := w.totals.State
		byState[state] = append(byState[state], r.buildCard(w))
	}
	data := page.Front{Total: tally.All(sums)}
	for _, state := range frontOrder {
		if cards := byState[state]; len(cards) > 0 {
			slices.SortStableFunc(cards, func(a, b page.BuildCard) int { return b.Updated.Compare(a.Updated) })
			data.Groups = append(data.Groups, page.Group{State: state, Builds: cards})
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
