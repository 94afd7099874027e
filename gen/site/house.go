// Package site holds what is over builds: where each thing stands in the site,
// what is withheld, the photos, and the pages, feeds and search of the workshop
// as a whole.
package site

import (
	"html/template"
	"path"
	"slices"
	"strings"
	"time"

	"spruelight/gen/journal"
	"spruelight/gen/page"
	"spruelight/gen/svg"
	"spruelight/gen/tally"
	"spruelight/gen/topic"
	"spruelight/gen/topic/record"
	"spruelight/gen/topic/review"
	"spruelight/gen/topic/size"
)

// Build is what the pages over builds know of one.
type Build struct {
	topic.Facts
	Record *record.Result
	Size   *size.Result
	Judged *review.Result
}

// House is the workshop as a whole.
type House struct {
	*topic.Bench
	Wall   []*journal.Leaf
	Builds []*Build // in the order of their slugs
	Shelf  Shelf
	Texts  *Texts
	Words  *page.Words

	Drawings []page.Drawing // of the pages over builds, once those are laid out
}

// Site is what every page says of the workshop.
func (h *House) Site() *page.Site { return h.Texts.Site }

// NewSite is what every page says of the workshop, made by a program for a
// theme's colour schemes.
func (h *House) NewSite(program, scheme string) *page.Site {
	settings := h.Settings
	s := &page.Site{Name: settings.Name.V, About: settings.About.V, Keeper: settings.Keeper.V, Language: settings.Language.Or("en"),
		Program: program, Scheme: scheme, Nav: h.Nav()}
	if a := settings.Address; a.Set {
		s.Address = strings.TrimSuffix(a.V, "/") + "/"
	}
	for _, b := range h.Builds {
		s.Updated = topic.Later(s.Updated, b.Newest())
	}
	return s
}

// sums are the totals of all builds.
func (h *House) sums() []tally.Sum {
	sums := make([]tally.Sum, len(h.Builds))
	for i, b := range h.Builds {
		sums[i] = b.Record.Sum
	}
	return sums
}

// Finished are the totals of the finished builds.
func (h *House) Finished() []tally.Sum {
	return slices.DeleteFunc(h.sums(), func(s tally.Sum) bool { return s.State != tally.Shelf })
}

// card sums a build up.
func (h *House) card(b *Build) topic.Card {
	return topic.NewCard(b.Facts, b.Record.Build, b.Record.Sum, h)
}

// sittingCard sums the sitting of an index up.
func (h *House) sittingCard(b *Build, i int) topic.SittingCard {
	return topic.NewSittingCard(b.Facts, i, topic.Desk{Words: h.Words, Places: h, Photos: h})
}

// Keep takes a drawing of several builds as part of a page and as a file.
func (h *House) Keep(name string, words svg.Table, layouts ...*svg.Drawing) *page.Drawing {
	out := Drawn(path.Join("drawings", name+".svg"), h.Words.Language, words, layouts)
	if out != nil {
		h.Drawings = append(h.Drawings, *out)
	}
	return out
}

// Drawn makes a drawing in its layouts part of a page: those for a desk and,
// where there is one, for a phone. Without any there is no drawing: nil.
func Drawn(file, language string, words svg.Table, layouts []*svg.Drawing) *page.Drawing {
	if layouts[0] == nil {
		return nil
	}
	for _, d := range layouts {
		d.Lang = language
	}
	return page.NewDrawing(file, words, layouts)
}

// Text prints a body for the page at a path of the site.
func (h *House) Text(body *journal.Body, dir, on string) template.HTML {
	return h.Texts.HTML(body, dir, on)
}

// Page returns the site path of a text's page, "" where it has none.
func (h *House) Page(file string) string { return h.Texts.Places.Page(file) }

// Build leads to a build, nil where there is none of the slug.
func (h *House) Build(slug string) *page.Link {
	i, ok := slices.BinarySearchFunc(h.Builds, slug, func(b *Build, slug string) int { return strings.Compare(b.Slug, slug) })
	if !ok {
		return nil
	}
	return &page.Link{Name: h.Builds[i].Front.Name.V, Path: h.Builds[i].Place("index.html")}
}

// Technique leads to the page of a technique, however a journal writes it.
func (h *House) Technique(written string) page.Link { return TechniqueLink(h.Settings, written) }

// Picture returns a photo as a page shows it; nil where there is none.
func (h *House) Picture(file, alt, caption, credit string) *page.Picture {
	return h.Texts.Photos.Picture(file, alt, caption, credit)
}

// Taken returns when its camera says a photo was taken; zero where it does not.
func (h *House) Taken(file string) time.Time { return h.Texts.Photos.Of(file).Taken[file] }
