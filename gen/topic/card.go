package topic

import (
	"slices"
	"time"

	"spruelight/gen/journal"
	"spruelight/gen/page"
	"spruelight/gen/tally"
)

// Card is a build in short.
type Card struct {
	Slug, Name, Path string        // folder, name, and place of its page
	Kit              tally.Kit     // as the build file has it
	Scale, Summary   string        // as the box has it; what it is in a sentence
	Lead             *page.Picture // the picture that stands for it, or nil
	Sum              tally.Sum     // hours, lamps, parts, cost
	Updated          time.Time     // day of what is newest in it
	Next             string        // the next step, on the bench
	NextPath         string        // the sitting that says it
	NextOld          bool          // a newer sitting names none
}

// NewCard sums a build up.
func NewCard(f Facts, handed tally.Build, sum tally.Sum, photos Photos) Card {
	front := &f.Front
	card := Card{Slug: f.Slug, Name: front.Name.V, Path: f.Place("index.html"), Kit: front.Kit, Scale: front.Scale.V.String(),
		Summary: front.Summary.Or(f.Body.Summary(200)), Lead: lead(f, photos), Sum: sum, Updated: f.Newest()}
	if step, ok := tally.NextStepOf(handed); ok {
		card.Next, card.NextPath, card.NextOld = step.Text, f.Place(step.Sitting+".html"), step.Overtaken
	}
	return card
}

// OnBench reports whether the build is in work.
func (c Card) OnBench() bool { return c.Sum.State == tally.Bench }

// lead returns the picture that stands for a build: the one it names, else the
// newest sitting's last.
func lead(f Facts, photos Photos) *page.Picture {
	if name := f.Front.Lead; name.Set {
		if full, ok := f.Inside(name.V); ok {
			return photos.Picture(full, AltOf(f, name.V), "", "")
		}
	}
	for _, s := range slices.Backward(f.Sittings) {
		for i := range slices.Backward(s.Front.Photos) {
			if picture := Standing(f, &s.Front.Photos[i], photos); picture != nil {
				return picture
			}
		}
	}
	return nil
}

// AltOf finds the words for a picture where a sitting shows it.
func AltOf(f Facts, file string) string {
	for _, s := range f.Sittings {
		for _, p := range s.Front.Photos {
			if p.Alt.Set && slices.ContainsFunc(p.Files(), func(t journal.Text) bool { return t.V == file }) {
				return p.Alt.V
			}
		}
	}
	return f.Front.Name.V
}

// Standing returns the picture of an entry that may stand for its sitting: of
// a pair the second, which shows what was reached.
func Standing(f Facts, p *journal.Photo, photos Photos) *page.Picture {
	files := p.Files()
	if len(files) == 0 {
		return nil
	}
	full, ok := f.Inside(files[len(files)-1].V)
	if !ok {
		return nil
	}
	return photos.Picture(full, p.Alt.V, "", "")
}

// SittingCard is a sitting in short.
type SittingCard struct {
	Build, Title, Path, Stage, Summary string        // its build's name, its own title, place, stage and first words
	Date                               time.Time     // of the sitting
	Hours                              string        // at the bench, or ""
	Lead                               *page.Picture // its first picture, or nil
	Number                             int           // its place among the build's sittings, from 1
}

// NewSittingCard sums the sitting of an index up.
func NewSittingCard(f Facts, i int, d Desk) SittingCard {
	s := f.Sittings[i]
	card := SittingCard{Build: f.Front.Name.V, Title: TitleOf(s, d.Words), Path: d.Places.Page(s.File.Name), Stage: s.Front.Stage.V,
		Date: s.Date, Summary: s.Body.Summary(180), Number: i + 1}
	if s.Front.Hours.Set {
		card.Hours = d.Words.Bench(s.Front.Hours.V)
	}
	for i := range s.Front.Photos {
		if card.Lead == nil {
			card.Lead = Standing(f, &s.Front.Photos[i], d.Photos)
		}
	}
	return card
}

// TitleOf is a sitting's title. One without a title bears its stage, which the
// words know.
func TitleOf(s *journal.Sitting, words *page.Words) string {
	if title := s.Title(); title != s.Front.Stage.V {
		return title
	}
	return words.Say(s.Front.Stage.V)
}
