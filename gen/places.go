package gen

import (
	"path"
	"slices"
	"strings"

	"spruelight/gen/journal"
	"spruelight/gen/page"
	"spruelight/gen/source"
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
	return "link to a sitting, a build.md, a review.md or a page of the wall by its path from this file"
}

// into says how a body's links and pictures are written on a page.
func (r *run) into(b *journal.Body, dir, on string) journal.Into {
	return journal.Into{
		Link: func(dest string) (string, bool) {
			to, ok := r.find(b, dest)
			return page.Relative(on, to), ok
		},
		Picture: func(p journal.Picture) string {
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
