package site

import (
	"path"
	"slices"
	"strings"

	"spruelight/gen/journal"
)

// Places says where each text of the workshop stands in the site.
type Places struct {
	room   map[string]Place            // of the workshop's own texts
	builds map[string]map[string]Place // by slug
}

// Place is one text's page and the fragments that can be linked on it.
type Place struct {
	Path    string
	Anchors []string
}

// NewPlaces lists the pages of all texts: those of the builds by their slugs,
// as PlacesOf has them.
func NewPlaces(wall []*journal.Leaf, builds map[string]map[string]Place) Places {
	p := Places{room: map[string]Place{"workshop.yaml": {Path: "index.html"}}, builds: builds}
	for _, leaf := range wall {
		p.room[leaf.File.Name] = Place{"wall/" + leaf.Name + ".html", leaf.Body.Anchors()}
	}
	return p
}

// PlacesOf lists the pages of a build's texts.
func PlacesOf(b *journal.Build) map[string]Place {
	p := map[string]Place{}
	if b.Body == nil {
		return p
	}
	home := Place{b.Slug + "/index.html", b.Body.Anchors()}
	p[b.File.Name], p[b.Dir] = home, home
	for _, s := range slices.Concat(b.Sittings, b.Drafts) {
		p[s.File.Name] = Place{b.Slug + "/" + s.Slug + ".html", s.Body.Anchors()}
	}
	if b.Review != nil {
		p[b.Review.File.Name] = Place{b.Slug + "/review.html", b.Review.Body.Anchors()}
	}
	return p
}

// At returns where a text stands.
func (p Places) At(file string) (Place, bool) {
	group := p.room
	if rest, ok := strings.CutPrefix(file, "builds/"); ok {
		slug, _, _ := strings.Cut(rest, "/")
		group = p.builds[slug]
	}
	to, ok := group[file]
	return to, ok
}

// Page returns the site path of a text's page, "" where it has none.
func (p Places) Page(file string) string {
	to, _ := p.At(file)
	return to.Path
}

// beside lists the names of texts in the folder of a file.
func (p Places) beside(file string) []string {
	var names []string
	add := func(group map[string]Place) {
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
