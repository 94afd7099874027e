package gen

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

// feedName is the name of a build's feed.
const feedName = "atom.xml"

// feeds are the Atom feed of the workshop, the JSON feed, and the site map.
func (r *run) feeds() []late {
	p := r.press
	feeds := []late{
		{"atom.xml", func() ([]byte, source.Findings) {
			return page.Atom(p.site, "atom.xml", p.site.Name, r.entries("atom.xml", "")), nil
		}},
		{"feed.json", func() ([]byte, source.Findings) {
			return page.JSONFeed(p.site, "feed.json", p.site.Name, r.entries("feed.json", p.site.Address)), nil
		}},
	}
	if p.site.Address != "" {
		feeds = append(feeds, late{"sitemap.xml", func() ([]byte, source.Findings) { return page.SiteMap(p.site, p.whole().sheets), nil }})
	}
	return feeds
}

// buildFeed is the Atom feed of a build; ok is false where it has none.
func (r *run) buildFeed(w *work) (text []byte, ok bool) {
	if len(w.build.Sittings) == 0 && w.build.Review == nil {
		return nil, false
	}
	return page.Atom(r.press.site, w.place(feedName), w.build.Front.Name.V, r.buildEntries(w)), true
}

// entries are the newest sittings and reviews, newest first, as a feed at a
// path shows them: with relative addresses, or with whole ones where base is set.
func (r *run) entries(at, base string) []page.Entry {
	var entries []page.Entry
	for _, w := range r.works {
		if e, ok := r.reviewEntry(w, at, base); ok {
			entries = append(entries, e)
		}
	}
	for _, x := range r.newestSittings(mostEntries) {
		s := x.work.build.Sittings[x.number]
		entries = append(entries, r.sittingEntry(x.work, x.number, s.Body.HTML(r.texts().Absolutely(s.Body, x.work.build.Dir, at, base)), x.work.build.Front.Name.V+": "))
	}
	return newestEntries(entries)
}

// buildEntries are the newest entries of one build. Their feed stands beside
// the pages, so that the texts as printed there serve again.
func (r *run) buildEntries(w *work) []page.Entry {
	var entries []page.Entry
	if e, ok := r.reviewEntry(w, w.place("atom.xml"), ""); ok {
		entries = append(entries, e)
	}
	first := max(0, len(w.build.Sittings)-mostEntries)
	for _, sheet := range w.spread.sheets {
		if data, ok := sheet.Data.(log.Sitting); ok && data.Number > first {
			entries = append(entries, r.sittingEntry(w, data.Number-1, string(data.Body), ""))
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

func (r *run) sittingEntry(w *work, i int, html, before string) page.Entry {
	s := w.build.Sittings[i]
	e := page.Entry{Path: r.places.Page(s.File.Name), Title: before + s.Title(), Published: s.Date, Summary: s.Body.Summary(240), HTML: html}
	if w.record.Obtained.Due {
		e.Notice = r.words.Tell(w.record.Obtained.Sentence)
	}
	if card := r.sittingCard(w, i); card.Lead != nil {
		e.Image = (&page.View{Site: r.press.site}).Absolute(card.Lead.Near(800).Path)
	}
	return e
}

// reviewEntry is a build's review as an item of a feed, its disclosure before
// all else.
func (r *run) reviewEntry(w *work, at, base string) (page.Entry, bool) {
	v := w.build.Review
	if v == nil || w.review.Judged == nil {
		return page.Entry{}, false
	}
	return page.Entry{Path: w.place("review.html"), Title: w.build.Front.Name.V + ": " + review.Title(w.facts(), r.words), Published: v.Front.Date.V.Time,
		Summary: v.Front.Verdict.V, Notice: r.words.Tell(w.record.Obtained.Sentence), HTML: v.Body.HTML(r.texts().Absolutely(v.Body, w.build.Dir, at, base))}, true
}
