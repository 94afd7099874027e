package gen

import (
	"path"
	"slices"
	"strings"

	"spruelight/gen/journal"
	"spruelight/gen/page"
	"spruelight/gen/source"
	"spruelight/gen/tally"
	"spruelight/gen/topic/size"
)

// places says where each text of the workshop stands in the site.
type places struct {
	room   map[string]place
	builds map[string]map[string]place // by slug
}

// place is one text's page and the fragments that can be linked on it.
type place struct {
	path    string
	anchors []string
}

// findPlaces lists the pages of all texts.
func (r *run) findPlaces() places {
	p := places{room: map[string]place{"workshop.yaml": {path: "index.html"}}, builds: make(map[string]map[string]place, len(r.works))}
	for _, leaf := range r.shop.Wall {
		p.room[leaf.File.Name] = place{"wall/" + leaf.Name + ".html", leaf.Body.Anchors()}
	}
	for _, w := range r.works {
		p.builds[w.slug()] = w.places
	}
	return p
}

// placesOf lists the pages of a build's texts.
func placesOf(b *journal.Build) map[string]place {
	p := map[string]place{}
	if b.Body == nil {
		return p
	}
	home := place{b.Slug + "/index.html", b.Body.Anchors()}
	p[b.File.Name], p[b.Dir] = home, home
	for _, s := range b.Sittings {
		p[s.File.Name] = place{b.Slug + "/" + s.Slug + ".html", s.Body.Anchors()}
	}
	if b.Review != nil {
		p[b.Review.File.Name] = place{b.Slug + "/review.html", b.Review.Body.Anchors()}
	}
	return p
}

// addPlaces adds the pages that the sums have made: a text links to them by
// the name they have in the site, as in ../builds/marram/lighting.html.
func (w *work) addPlaces() {
	for _, name := range w.pageNames() {
		w.places[w.build.Dir+"/"+name] = place{path: w.place(name)}
	}
}

// pageNames are the pages of a build besides its texts.
func (w *work) pageNames() []string {
	var names []string
	for _, p := range []struct {
		name string
		is   bool
	}{
		{lightingName, len(w.solved()) > 0}, {meterName, len(w.solved()) > 0}, {finishName, len(w.finish.result.Areas) > 0},
		{"hours.html", w.totals.Sittings > 0}, {"parts.html", len(w.record.rows) > 0}, {"problems.html", len(w.record.problems) > 0},
		{"choices.html", len(w.record.decisions) > 0}, {"entry.html", w.tally.State == tally.Shelf},
		{size.File, w.scale.Sized()}, {repairName, w.repairable()},
	} {
		if p.is {
			names = append(names, p.name)
		}
	}
	return names
}

// at returns where a text stands.
func (p places) at(file string) (place, bool) {
	group := p.room
	if rest, ok := strings.CutPrefix(file, "builds/"); ok {
		slug, _, _ := strings.Cut(rest, "/")
		group = p.builds[slug]
	}
	to, ok := group[file]
	return to, ok
}

// path returns the site path of a text's page, "" where it has none.
func (p places) path(file string) string {
	to, _ := p.at(file)
	return to.path
}

// beside lists the names of texts in the folder of a file.
func (p places) beside(file string) []string {
	var names []string
	add := func(group map[string]place) {
		for name := range group {
			if path.Dir(name) == path.Dir(file) {
				names = append(names, path.Base(name))
			}
		}
	}
	add(p.room)
	for _, group := range p.builds {
		add(group)
	}
	slices.Sort(names)
	return names
}

// find returns the site path that a link in a body leads to, with its fragment.
func (r *run) find(body *journal.Body, dest string) (string, bool) {
	file, fragment, ok := body.Resolve(dest)
	if !ok {
		return "", false
	}
	to, ok := r.places.at(file)
	if !ok {
		return r.photos.largest(file)
	}
	if fragment == "" {
		return to.path, true
	}
	return to.path + "#" + fragment, slices.Contains(to.anchors, fragment)
}

// bodyLink is a link to a place of the workshop, with the text it stands in.
type bodyLink struct {
	journal.Link
	body *journal.Body
}

// linksOf lists the links of a body that stay in the workshop.
func linksOf(b *journal.Body) []bodyLink {
	var links []bodyLink
	if b == nil {
		return nil
	}
	for _, l := range b.Links() {
		if _, absolute := journal.Scheme(l.Dest); !absolute {
			links = append(links, bodyLink{l, b})
		}
	}
	return links
}

// checkLinks reports every link of every text that leads nowhere.
func (r *run) checkLinks() source.Findings {
	var found source.Findings
	check := func(links []bodyLink) {
		for _, l := range links {
			if _, ok := r.find(l.body, l.Dest); !ok && !r.hides(l.body, l.Dest) {
				found.Add(journal.BrokenLink(l.Link, r.linkRemedy(l.body, l.Dest)))
			}
		}
	}
	for _, leaf := range r.shop.Wall {
		check(linksOf(leaf.Body))
	}
	for _, w := range r.works {
		check(w.links)
	}
	return found
}

// hides reports whether a link leads to something under embargo: its words are
// printed without the link until then.
func (r *run) hides(b *journal.Body, dest string) bool {
	file, _, ok := b.Resolve(dest)
	return ok && (r.hidden.texts[file] || r.hidden.photos[file])
}

// linkRemedy suggests the text or heading that a broken link most likely meant.
func (r *run) linkRemedy(b *journal.Body, dest string) string {
	file, fragment, ok := b.Resolve(dest)
	if !ok {
		return "link to a file of the workshop by its path from this one"
	}
	if to, known := r.places.at(file); known {
		if near, ok := journal.Nearest(fragment, to.anchors); ok {
			return "write #" + near
		}
		if len(to.anchors) == 0 {
			return "link to the page, without #" + fragment
		}
		return "link to one of its headings: #" + strings.Join(to.anchors, ", #")
	}
	if near, ok := journal.Nearest(path.Base(file), r.places.beside(file)); ok {
		return "write " + strings.TrimSuffix(dest, path.Base(file)) + near
	}
	return "link to a sitting, a build.md, a review.md, a page of the build such as lighting.html, or a page of the wall, by its path from this file"
}

// into says how a body's links and pictures are written on a page.
func (r *run) into(b *journal.Body, dir, on string) journal.Into {
	return journal.Into{
		Link: func(dest string) (string, bool) {
			to, ok := r.find(b, dest)
			return page.Relative(on, to), ok
		},
		Picture: func(p journal.Picture) string {
			if d := r.drawingAt(path.Join(dir, p.File.V)); d != nil {
				return r.drawingHTML(d, p, on)
			}
			picture := r.pictureOf(p, dir)
			if picture == nil {
				return ""
			}
			return r.pictureHTML(picture, on, p.Inline)
		},
	}
}

// pictureOf returns a picture between the words of a body, nil where there is none.
func (r *run) pictureOf(p journal.Picture, dir string) *page.Picture {
	return r.photos.picture(path.Join(dir, p.File.V), p.Alt, p.Title, "")
}
