package site

import (
	"fmt"
	"path"
	"slices"
	"time"

	"spruelight/gen/journal"
	"spruelight/gen/source"
	"spruelight/gen/tally"
)

// Showing says what of the withheld is shown all the same.
type Showing struct {
	Drafts    bool // marked and counted nowhere
	Embargoed bool
}

// Withheld are the files of the workshop that the site must not mention yet.
type Withheld struct {
	texts   map[string]journal.Text // journals by their paths, with the key that holds each back
	photos  map[string]bool         // paths of photos that only those show
	folders map[string]bool         // of builds that are withheld whole
	touched map[string]bool         // folders of builds of which something is withheld
	marked  bool                    // something is shown as a draft
	Ends    []time.Time             // when each embargo ends
	Until   []string                // what is under embargo, and until when
}

// Withhold returns the workshop without what is under embargo and without
// drafts, so that no page, sum, feed or drawing made of it can know of them. The
// workshop itself stays as it is, and a build that nothing is taken out of is
// the same in both. The notes list what is held back.
func Withhold(shop *journal.Workshop, now time.Time, show Showing) (*journal.Workshop, Withheld, source.Findings) {
	h := holding{now: now, show: show, out: Withheld{texts: map[string]journal.Text{}, photos: map[string]bool{}, folders: map[string]bool{},
		touched: map[string]bool{}}}
	free := *shop
	free.Builds, free.Wall = nil, nil
	for _, b := range shop.Builds {
		if b.File != nil && h.until("the build", b.Slug, b.Front.Embargo, b.File.Name) {
			h.out.folders[b.Dir], h.out.touched[b.Dir] = true, true
		}
	}
	for _, b := range shop.Builds {
		if !h.out.folders[b.Dir] {
			free.Builds = append(free.Builds, h.build(b))
		}
	}
	for _, leaf := range shop.Wall {
		if held, marked := h.draft("the page", leaf.Name, leaf.Front.Draft, leaf.File.Name); marked {
			leaf = &journal.Leaf{Name: leaf.Name, File: leaf.File, Front: leaf.Front, Body: leaf.Body, Marked: true}
			free.Wall = append(free.Wall, leaf)
		} else if !held {
			free.Wall = append(free.Wall, leaf)
		}
	}
	return &free, h.out, h.found
}

// Any reports whether anything is withheld or marked.
func (s *Withheld) Any() bool { return len(s.texts) > 0 || len(s.touched) > 0 || s.marked }

// Has reports whether a file of the workshop is withheld, or lies in the folder
// of a build that is.
func (s *Withheld) Has(file string) bool {
	if _, text := s.texts[file]; text || s.photos[file] {
		return true
	}
	for dir := file; dir != "." && dir != "/"; dir = path.Dir(dir) {
		if s.folders[dir] {
			return true
		}
	}
	return false
}

// Touches reports whether something is taken out of a build, or it is withheld whole.
func (s *Withheld) Touches(b *journal.Build) bool { return s.touched[b.Dir] }

// Published reports what was in the site before and is withheld now: feeds and
// caches may keep it. Places are those of the whole workshop; had knows the
// files of the site as it was.
func (s *Withheld) Published(places Places, had func(path string) bool) source.Findings {
	var found source.Findings
	for file, key := range s.texts {
		if at := places.Page(file); at != "" && had(at) {
			found.Add(tally.RulePublished.At(key.At, source.Word("what was out cannot be called back; tell whoever must know"),
				"%s was in the site and is taken out of it; feed readers, search engines and caches may keep it", at))
		}
	}
	return found
}

// holding is the work of taking out what is withheld.
type holding struct {
	now   time.Time
	show  Showing
	out   Withheld
	found source.Findings
}

// until reports whether an embargo holds something back.
func (h *holding) until(what, name string, at journal.Val[journal.Moment], file string) bool {
	if h.show.Embargoed {
		return false
	}
	until := source.Value[time.Time]{V: at.V.In(h.now.Location()), At: at.At, Set: at.Set}
	kept, notes := tally.HeldBack([]tally.Embargoed{{What: what, Name: name, Until: until}}, h.now)
	h.found.Add(notes...)
	if len(kept) > 0 {
		h.out.texts[file] = journal.Text{At: at.At}
		h.out.Ends = append(h.out.Ends, until.V)
		h.out.Until = append(h.out.Until, fmt.Sprintf("%s %s, until %s", what, name, until.V.Format("2006-01-02 15:04 MST")))
	}
	return len(kept) > 0
}

// draft reports whether something is held back as a draft, or shown as one.
func (h *holding) draft(what, name string, is journal.Val[bool], file string) (held, marked bool) {
	if !is.V {
		return false, false
	}
	h.found.Add(tally.Draft(what, name, is.At))
	if h.show.Drafts {
		h.out.marked = true
		return false, true
	}
	h.out.texts[file] = journal.Text{At: is.At}
	return true, false
}

// build returns a build without what is withheld: itself where nothing is.
func (h *holding) build(b *journal.Build) *journal.Build {
	free := *b
	free.Sittings = nil
	changed := false
	for _, x := range b.Sittings {
		name := b.Slug + "/" + x.Slug
		held := h.until("the sitting", name, x.Front.Embargo, x.File.Name)
		draft, marked := h.draft("the sitting", name, x.Front.Draft, x.File.Name)
		switch {
		case held || draft:
			h.hide(b, x.PhotoNames())
		case marked:
			free.Drafts = append(free.Drafts, x)
		default:
			free.Sittings = append(free.Sittings, h.unnamed(x, &changed))
			continue
		}
		changed = true
	}
	if v := b.Review; v != nil {
		held := h.until("the review of", b.Slug, v.Front.Embargo, v.File.Name)
		draft, marked := h.draft("the review of", b.Slug, v.Front.Draft, v.File.Name)
		if held || draft {
			h.hide(b, v.Body.PhotoNames())
			free.Review = nil
		}
		free.ReviewMarked = marked && !held
		changed = changed || held || draft || marked
	}
	if !changed {
		return b
	}
	h.out.touched[b.Dir] = true
	h.reveal(&free)
	return &free
}

// unnamed returns a sitting that does not name a build which is withheld whole
// as the one that got a part.
func (h *holding) unnamed(s *journal.Sitting, changed *bool) *journal.Sitting {
	names := func(to journal.Text) bool { return to.Set && h.out.folders[path.Join("builds", to.V)] }
	out := s
	for i := range s.Front.Parts {
		if !names(s.Front.Parts[i].To) {
			continue
		}
		if out == s {
			own := *s
			own.Front.Parts = slices.Clone(s.Front.Parts)
			out, *changed = &own, true
		}
		out.Front.Parts[i].To = journal.Text{}
	}
	return out
}

// hide marks photos as not to be shown.
func (h *holding) hide(b *journal.Build, names []journal.Text) {
	for _, name := range names {
		if full, ok := b.Inside(name.V); ok {
			h.out.photos[full] = true
		}
	}
}

// reveal unmarks photos that a free text shows too, and takes those still
// hidden from where build.md names them: its lead, its choices, its repair sheet.
func (h *holding) reveal(b *journal.Build) {
	names := b.Body.PhotoNames()
	for _, x := range slices.Concat(b.Sittings, b.Drafts) {
		names = append(names, x.PhotoNames()...)
	}
	if b.Review != nil {
		names = append(names, b.Review.Body.PhotoNames()...)
	}
	for _, name := range names {
		if full, ok := b.Inside(name.V); ok {
			delete(h.out.photos, full)
		}
	}
	drop := func(name *journal.Text) {
		if full, ok := b.Inside(name.V); ok && h.out.photos[full] {
			*name = journal.Text{}
		}
	}
	drop(&b.Front.Lead)
	drop(&b.Front.Repair.Photo)
	b.Front.Choices = slices.Clone(b.Front.Choices)
	for i := range b.Front.Choices {
		options := slices.Clone(b.Front.Choices[i].Options)
		b.Front.Choices[i].Options = options
		for j := range options {
			drop(&options[j].Photo)
		}
	}
}
