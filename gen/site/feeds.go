package site

import (
	"slices"
	"strings"

	"spruelight/gen/page"
	"spruelight/gen/source"
	"spruelight/gen/topic/log"
	"spruelight/gen/topic/review"
)

// mostEntries is how many entries a feed holds.
const mostEntries = 30

// FeedName is the name of a build's feed.
const FeedName = "atom.xml"

// File is a file of the site that is made only when it is wanted: what is
// written to disk wants all of them, the bench only those that are looked at.
type File struct {
	Path string
	Make func() ([]byte, source.Findings)
}

// Feeds are the Atom feed of the workshop, the JSON feed, and the site map.
func (h *House) Feeds(all func() *AllPages) []File {
	site := h.Site()
	file := func(path string, text func() []byte) File {
		return File{path, func() ([]byte, source.Findings) { return text(), nil }}
	}
	feeds := []File{
		file("atom.xml", func() []byte { return page.Atom(site, "atom.xml", site.Name, h.entries("atom.xml", "")) }),
		file("feed.json", func() []byte {
			return page.JSONFeed(site, "feed.json", site.Name, h.entries("feed.json", site.Address))
		}),
	}
	if site.Address != "" {
		feeds = append(feeds, file("sitemap.xml", func() []byte { return page.SiteMap(site, all().Sheets) }))
	}
	return feeds
}

// FeedOf is the Atom feed of a build, of whose pages the texts serve again; ok
// is false where it has none.
func (h *House) FeedOf(b *Build, sheets []*page.Sheet) (text []byte, ok bool) {
	if len(b.Sittings) == 0 && b.Review == nil {
		return nil, false
	}
	return page.Atom(h.Site(), b.Place(FeedName), b.Front.Name.V, h.entriesOf(b, sheets)), true
}

// entries are the newest sittings and reviews, newest first, as a feed at a
// path shows them: with relative addresses, or with whole ones where base is set.
func (h *House) entries(at, base string) []page.Entry {
	var entries []page.Entry
	for _, b := range h.Builds {
		if e, ok := h.reviewEntry(b, at, base); ok {
			entries = append(entries, e)
		}
	}
	for _, x := range h.newestSittings(mostEntries) {
		b, s := x.build, x.build.Sittings[x.number]
		html := s.Body.HTML(h.Texts.Absolutely(s.Body, b.Dir, at, base))
		entries = append(entries, h.sittingEntry(b, x.number, html, b.Front.Name.V+": "))
	}
	return newestEntries(entries)
}

// entriesOf are the newest entries of one build.
func (h *House) entriesOf(b *Build, sheets []*page.Sheet) []page.Entry {
	var entries []page.Entry
	if e, ok := h.reviewEntry(b, b.Place(FeedName), ""); ok {
		entries = append(entries, e)
	}
	first := max(0, len(b.Sittings)-mostEntries)
	for _, sheet := range sheets {
		if data, ok := sheet.Data.(log.Sitting); ok && data.Number > first {
			entries = append(entries, h.sittingEntry(b, data.Number-1, string(data.Body), ""))
		}
	}
	return newestEntries(entries)
}

func newestEntries(entries []page.Entry) []page.Entry {
	slices.SortStableFunc(entries, func(a, b page.Entry) int {
		if c := b.Published.Compare(a.Published); c != 0 {
			return c
		}
		return strings.Compare(a.Path, b.Path)
	})
	return entries[:min(len(entries), mostEntries)]
}

func (h *House) sittingEntry(b *Build, i int, html, before string) page.Entry {
	s := b.Sittings[i]
	e := page.Entry{Path: h.Page(s.File.Name), Title: before + s.Title(), Published: s.Date, Summary: s.Body.Summary(240), HTML: html}
	if b.Record.Obtained.Due {
		e.Notice = h.Words.Message(b.Record.Obtained.Sentence)
	}
	if card := h.sittingCard(b, i); card.Lead != nil {
		e.Image = (&page.View{Site: h.Site()}).Absolute(card.Lead.Near(800).Path)
	}
	return e
}

// reviewEntry is a build's review as an item of a feed, its disclosure before
// all else.
func (h *House) reviewEntry(b *Build, at, base string) (page.Entry, bool) {
	v := b.Review
	if v == nil || b.Judged.Judged == nil {
		return page.Entry{}, false
	}
	return page.Entry{Path: b.Place("review.html"), Title: b.Front.Name.V + ": " + review.Title(b.Facts, h.Words),
		Published: v.Front.Date.V.Time,
		Summary:   v.Front.Verdict.V, Notice: h.Words.Message(b.Record.Obtained.Sentence),
		HTML: v.Body.HTML(h.Texts.Absolutely(v.Body, b.Dir, at, base))}, true
}
