package gen

import (
	"spruelight/gen/journal"
	"spruelight/gen/page"
	"spruelight/gen/site"
	"spruelight/gen/topic"
	"time"
)

// facts are the build as its subjects take it.
func (w *work) facts() topic.Facts { return topic.Facts{Bench: w.run.bench, Build: w.build} }

// desk is what the build's pages are laid out with. Only while they are laid out
// does it hold the build's card.
func (w *work) desk() topic.Desk {
	r := w.run
	h := r.pages()
	d := topic.Desk{Words: r.words, Places: h, Photos: h, Keep: w.keep}
	if r.theme != nil {
		d.Site = r.theme.site
	}
	if r.current == w {
		d.Card = r.buildCard(w)
	}
	return d
}

// newBench is what all builds of a workshop share at the moment of a run.
func newBench(env Env, shop *journal.Workshop) *topic.Bench {
	now := shop.Clock(env.Moment, env.Wall)
	y, m, d := now.Date()
	return &topic.Bench{Rack: &shop.Rack, Settings: &shop.Settings, Zone: shop.Zone, Now: now, Today: time.Date(y, m, d, 0, 0, 0, 0, time.UTC)}
}

// newHouse is the workshop as a whole, before a theme is opened.
func (r *run) newHouse() *site.House {
	h := &site.House{Bench: r.bench, Wall: r.shop.Wall, Words: r.words, Texts: r.texts()}
	for _, w := range r.works {
		h.Builds = append(h.Builds, w.ofSite())
	}
	h.Shelf = site.ReckonShelf(h.Bench, r.shop.Shelf, h.Builds)
	return h
}

// pages is the house for the pages of the build that is being made, if any.
func (r *run) pages() *site.House {
	h := *r.house
	h.Texts = r.texts()
	return &h
}

// texts prints the texts of this pass. While a build is drawn they show no
// drawings but its own.
func (r *run) texts() *site.Texts {
	t := &site.Texts{Places: r.places, Photos: r.photos, Hidden: &r.hidden}
	if r.theme != nil {
		t.Book, t.Site = r.theme.book, r.theme.site
	}
	t.Drawings = func(slug string) []page.Drawing {
		w := r.bySlug[slug]
		switch {
		case r.current != nil && r.current.slug() == slug:
			return r.current.drawings
		case r.current != nil, w == nil:
			return nil
		}
		return r.drawn(w)
	}
	return t
}

// buildCard sums a build up for other pages. While its own pages are made, all
// of them share one.
func (r *run) buildCard(w *work) topic.Card {
	if r.current != w {
		return topic.NewCard(w.facts(), w.record.Build, w.record.Sum, r.pages())
	}
	if w.card == nil {
		card := topic.NewCard(w.facts(), w.record.Build, w.record.Sum, r.pages())
		w.card = &card
	}
	return *w.card
}

// ofSite is what the pages over builds know of the build.
func (w *work) ofSite() *site.Build {
	return &site.Build{Facts: w.facts(), Record: &w.record, Size: &w.scale, Judged: &w.review}
}
