package site

import (
	"strings"
	"time"

	"spruelight/gen/journal"
	"spruelight/gen/source"
	"spruelight/gen/tally"
)

// Withheld are the files and photos that the site must not mention yet.
type Withheld struct {
	texts  map[string]bool // workshop paths of sittings and reviews
	photos map[string]bool // workshop paths of photos that only those show
	Ends   []time.Time     // when each embargo ends
}

// Withhold takes everything under embargo out of builds, so that no page, sum,
// feed or drawing after it can know of it. The notes list what is kept.
func Withhold(builds []*journal.Build, now time.Time) (Withheld, source.Findings) {
	s := Withheld{texts: map[string]bool{}, photos: map[string]bool{}}
	var found source.Findings
	for _, b := range builds {
		found.Add(s.build(b, now)...)
	}
	return s, found
}

// Has reports whether a text or a photo of the workshop is withheld.
func (s *Withheld) Has(file string) bool { return s.texts[file] || s.photos[file] }

// HasPhoto reports whether a photo of the workshop is withheld.
func (s *Withheld) HasPhoto(file string) bool { return s.photos[file] }

// Holds reports whether something of a build is withheld.
func (s *Withheld) Holds(b *journal.Build) bool {
	for name := range s.texts {
		if strings.HasPrefix(name, b.Dir+"/") {
			return true
		}
	}
	return false
}

func (s *Withheld) build(b *journal.Build, now time.Time) source.Findings {
	zone := now.Location()
	var found source.Findings
	held := func(what, name string, at journal.Val[journal.Moment], file string) bool {
		until := source.Value[time.Time]{V: at.V.In(zone), At: at.At, Set: at.Set}
		kept, notes := tally.HeldBack([]tally.Embargoed{{What: what, Name: name, Until: until}}, now)
		found.Add(notes...)
		if len(kept) > 0 {
			s.texts[file] = true
			s.Ends = append(s.Ends, until.V)
		}
		return len(kept) > 0
	}
	var free []*journal.Sitting
	for _, x := range b.Sittings {
		if held("the sitting", b.Slug+"/"+x.Slug, x.Front.Embargo, x.File.Name) {
			s.hide(b, x.PhotoNames())
		} else {
			free = append(free, x)
		}
	}
	b.Sittings = free
	if v := b.Review; v != nil && held("the review of", b.Slug, v.Front.Embargo, v.File.Name) {
		s.hide(b, v.Body.PhotoNames())
		b.Review = nil
	}
	s.reveal(b)
	return found
}

// hide marks photos as not to be shown.
func (s *Withheld) hide(b *journal.Build, names []string) {
	for _, name := range names {
		if full, ok := b.Inside(name); ok {
			s.photos[full] = true
		}
	}
}

// reveal unmarks photos that a free text shows too, and takes those still
// hidden from where build.md names them: its lead and its choices.
func (s *Withheld) reveal(b *journal.Build) {
	names := b.Body.PhotoNames()
	for _, x := range b.Sittings {
		names = append(names, x.PhotoNames()...)
	}
	if b.Review != nil {
		names = append(names, b.Review.Body.PhotoNames()...)
	}
	for _, name := range names {
		if full, ok := b.Inside(name); ok {
			delete(s.photos, full)
		}
	}
	drop := func(name *journal.Text) {
		if full, ok := b.Inside(name.V); ok && s.photos[full] {
			*name = journal.Text{}
		}
	}
	drop(&b.Front.Lead)
	drop(&b.Front.Repair.Photo)
	for i := range b.Front.Choices {
		for j := range b.Front.Choices[i].Options {
			drop(&b.Front.Choices[i].Options[j].Photo)
		}
	}
}
