package gen

import (
	"time"

	"spruelight/gen/journal"
	"spruelight/gen/source"
	"spruelight/gen/tally"
)

// now is the moment of the run in the workshop's time zone.
func (r *run) now() time.Time {
	m, zone := r.env.Moment, r.shop.Zone
	if r.env.Wall {
		return time.Date(m.Year(), m.Month(), m.Day(), m.Hour(), m.Minute(), m.Second(), 0, zone)
	}
	return m.In(zone)
}

// today is the run's calendar day, at midnight UTC as all days are.
func (r *run) today() time.Time {
	y, m, d := r.now().Date()
	return time.Date(y, m, d, 0, 0, 0, 0, time.UTC)
}

// until returns the moment at which a site that was just made changes by
// itself, as clocks run on, embargoes end and days pass; the moment of the run
// where that is at once.
func (r *run) until() time.Time {
	if r.env.Wall {
		return time.Date(9999, 1, 1, 0, 0, 0, 0, time.UTC)
	}
	now := r.now()
	y, m, d := now.Date()
	until := time.Date(y, m, d+1, 0, 0, 0, 0, now.Location())
	for _, w := range r.works {
		if w.ticking() {
			return now
		}
	}
	for _, ends := range r.hidden.ends {
		if ends.Before(until) {
			until = ends
		}
	}
	return until
}

// secrets are the files and photos that the site must not mention yet.
type secrets struct {
	texts  map[string]bool // workshop paths of sittings and reviews
	photos map[string]bool // workshop paths of photos that only those show
	ends   []time.Time     // when each embargo ends
}

// withhold takes everything under embargo out of the model, so that no page,
// sum, feed or drawing after it can know of it. The notes list what is kept.
func withhold(works []*work, now time.Time) (secrets, source.Findings) {
	s := secrets{texts: map[string]bool{}, photos: map[string]bool{}}
	var found source.Findings
	for _, w := range works {
		if !w.kept && w.build.File != nil { // a build that holds anything back is read anew
			found.Add(s.build(w.build, now)...)
		}
	}
	return s, found
}

func (s *secrets) build(b *journal.Build, now time.Time) source.Findings {
	zone := now.Location()
	var found source.Findings
	held := func(what, name string, at journal.Val[journal.Moment], file string) bool {
		until := source.Value[time.Time]{V: at.V.In(zone), At: at.At, Set: at.Set}
		kept, notes := tally.HeldBack([]tally.Embargoed{{What: what, Name: name, Until: until}}, now)
		found.Add(notes...)
		if len(kept) > 0 {
			s.texts[file] = true
			s.ends = append(s.ends, until.V)
		}
		return len(kept) > 0
	}
	var free []*journal.Sitting
	for _, x := range b.Sittings {
		if held("the sitting", b.Slug+"/"+x.Slug, x.Front.Embargo, x.File.Name) {
			s.hide(b, sittingPhotos(x))
		} else {
			free = append(free, x)
		}
	}
	b.Sittings = free
	if v := b.Review; v != nil && held("the review of", b.Slug, v.Front.Embargo, v.File.Name) {
		s.hide(b, bodyPhotos(v.Body))
		b.Review = nil
	}
	s.reveal(b)
	return found
}

// hide marks photos as not to be shown.
func (s *secrets) hide(b *journal.Build, names []string) {
	for _, name := range names {
		if full, ok := b.Inside(name); ok {
			s.photos[full] = true
		}
	}
}

// reveal unmarks photos that a free text shows too, and takes those still
// hidden from where build.md names them: its lead and its choices.
func (s *secrets) reveal(b *journal.Build) {
	names := bodyPhotos(b.Body)
	for _, x := range b.Sittings {
		names = append(names, sittingPhotos(x)...)
	}
	if b.Review != nil {
		names = append(names, bodyPhotos(b.Review.Body)...)
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

func sittingPhotos(s *journal.Sitting) []string {
	names := bodyPhotos(s.Body)
	for _, p := range s.Front.Photos {
		for _, file := range p.Files() {
			names = append(names, file.V)
		}
	}
	return names
}

func bodyPhotos(b *journal.Body) []string {
	var names []string
	if b != nil {
		for _, p := range b.Pictures() {
			names = append(names, p.File.V)
		}
	}
	return names
}
