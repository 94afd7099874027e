package gen

import (
	"time"

	"spruelight/gen/journal"
	"spruelight/gen/page"
	"spruelight/gen/site"
	"spruelight/gen/topic"
)

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
		h.Builds = append(h.Builds, w.ofSite(w.facts()))
	}
	h.Shelf = site.ReckonShelf(h.Bench, r.shop.Shelf, h.Builds)
	return h
}

// texts prints the texts of this pass.
func (r *run) texts() *site.Texts {
	t := &site.Texts{Places: r.places, Photos: r.photos, Hidden: &r.hidden}
	if r.theme != nil {
		t.Book, t.Site = r.theme.book, r.theme.site
	}
	t.Drawings = func(slug string) []page.Drawing {
		if w := r.bySlug[slug]; w != nil {
			return w.part.make().drawings
		}
		return nil
	}
	return t
}
