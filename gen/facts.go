package gen

import (
	"html/template"
	"time"

	"spruelight/gen/journal"
	"spruelight/gen/page"
	"spruelight/gen/site"
	"spruelight/gen/topic"
)

// facts are the build as its subjects take it.
func (w *work) facts() topic.Facts { return topic.Facts{Bench: w.run.bench(), Build: w.build} }

// desk is what the build's pages are laid out with. Cards are worked out without
// the build's own.
func (w *work) desk() topic.Desk {
	r := w.run
	d := topic.Desk{Words: r.words, Places: inSite{r}, Photos: inSite{r}, Keep: w.keep}
	if r.press != nil {
		d.Site = r.press.site
	}
	return d
}

func (r *run) bench() *topic.Bench {
	return &topic.Bench{Rack: &r.shop.Rack, Settings: &r.shop.Settings, Zone: r.shop.Zone, Now: r.now(), Today: r.today()}
}

// inSite answers what subjects ask of the site that they are part of.
type inSite struct{ *run }

func (r inSite) Text(body *journal.Body, dir, on string) template.HTML {
	return r.texts().HTML(body, dir, on)
}
func (r inSite) Page(file string) string            { return r.places.Page(file) }
func (r inSite) Technique(written string) page.Link { return r.techniqueLink(written) }
func (r inSite) Taken(file string) time.Time        { return r.photos.Of(file).Taken[file] }

func (r inSite) Picture(file, alt, caption, credit string) *page.Picture {
	return r.photos.Picture(file, alt, caption, credit)
}

func (r inSite) Build(slug string) *page.Link {
	other, ok := r.shop.Build(slug)
	if !ok || other.File == nil {
		return nil
	}
	return &page.Link{Name: other.Front.Name.V, Path: other.Slug + "/index.html"}
}

// texts prints the texts of this pass. While a build is drawn they show no
// drawings but its own.
func (r *run) texts() *site.Texts {
	t := &site.Texts{Places: r.places, Photos: r.photos, Hidden: &r.hidden}
	if r.press != nil {
		t.Book, t.Site = r.press.book, r.press.site
	}
	t.Drawings = func(slug string) []page.Drawing {
		w := r.bySlug[slug]
		switch {
		case r.making != nil && r.making.slug() == slug:
			return r.making.drawings
		case r.making != nil, w == nil:
			return nil
		}
		return r.drawn(w)
	}
	return t
}
