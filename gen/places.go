package gen

import (
	"path"
	"slices"
	"strings"

	"spruelight/gen/journal"
	"spruelight/gen/page"
	"spruelight/gen/source"
	"spruelight/gen/tally"
)

// places says where each text of the workshop stands in the site.
type places map[string]place

// place is one text's page and the fragments that can be linked on it.
type place struct {
	path    string
	anchors []string
}

// placesOf lists the pages of all texts.
func placesOf(shop *journal.Workshop) places {
	p := places{"workshop.yaml": {path: "index.html"}}
	for _, leaf := range shop.Wall {
		p[leaf.File.Name] = place{"wall/" + leaf.Name + ".html", leaf.Body.Anchors()}
	}
	for _, b := range shop.Builds {
		if b.File == nil || b.Body == nil {
			continue
		}
		home := place{b.Slug + "/index.html", b.Body.Anchors()}
		p[b.File.Name], p[b.Dir] = home, home
		for _, s := range b.Sittings {
			p[s.File.Name] = place{b.Slug + "/" + s.Slug + ".html", s.Body.Anchors()}
		}
		if b.Review != nil {
			p[b.Review.File.Name] = place{b.Slug + "/review.html", b.Review.Body.Anchors()}
		}
	}
	return p
}

// addPlaces adds the pages that the sums have made: a text links to them by
// the name they have in the site, as in ../builds/marram/lighting.html.
func (r *run) addPlaces() {
	for _, w := range r.works {
		for _, name := range w.pageNames() {
			r.places[w.build.Dir+"/"+name] = place{path: w.place(name)}
		}
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
		{"scale.html", w.scale.sized()}, {repairName, w.repairable()},
	} {
		if p.is {
			names = append(names, p.name)
		}
	}
	return names
}

// find returns the site path that a link in a body leads to, with its fragment.
func (r *run) find(body *journal.Body, dest string) (string, bool) {
	file, fragment, ok := body.Resolve(dest)
	if !ok {
		return "", false
	}
	to, ok := r.places[file]
	if !ok {
		return r.photos.largest(file)
	}
	if fragment == "" {
		return to.path, true
	}
	return to.path + "#" + fragment, slices.Contains(to.anchors, fragment)
}

// checkLinks reports every relative link of every body that leads nowhere.
func (r *run) checkLinks() source.Findings {
	var found source.Findings
	check := func(b *journal.Body) {
		if b == nil {
			return
		}
		for _, l := range b.Links() {
			if _, absolute := journal.Scheme(l.Dest); absolute {
				continue
			}
			if _, ok := r.find(b, l.Dest); !ok && !r.hides(b, l.Dest) {
				found.Add(journal.BrokenLink(l, r.linkRemedy(b, l.Dest)))
			}
		}
	}
	for _, leaf := range r.shop.Wall {
		check(leaf.Body)
	}
	for _, b := range r.shop.Builds {
		check(b.Body)
		for _, s := range b.Sittings {
			check(s.Body)
		}
		if b.Review != nil {
			check(b.Review.Body)
		}
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
	if to, known := r.places[file]; known {
		if near, ok := journal.Nearest(fragment, to.anchors); ok {
			return "write #" + near
		}
		if len(to.anchors) == 0 {
			return "link to the page, without #" + fragment
		}
		return "link to one of its headings: #" + strings.Join(to.anchors, ", #")
	}
	var names []string
	for name := range r.places {
		if path.Dir(name) == path.Dir(file) {
			names = append(names, path.Base(name))
		}
	}
	slices.Sort(names)
	if near, ok := journal.Nearest(path.Base(file), names); ok {
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
