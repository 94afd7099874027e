package gen

import (
	"html/template"
	"iter"
	"path"
	"regexp"
	"spruelight/gen/site"
	"strings"

	"spruelight/gen/journal"
	"spruelight/gen/page"
	"spruelight/gen/source"
)

// mostFound is the length of a text, in bytes, up to which a search finds its
// words; of a longer free page, such as a reference, it finds the headings.
const mostFound = 16 << 10

// wallPages are the free pages.
func wallPages(r *run) []*page.Sheet {
	var sheets []*page.Sheet
	for _, leaf := range r.shop.Wall {
		at := r.places.path(leaf.File.Name)
		words := leaf.Body.Text()
		if len(words) > mostFound {
			words = leaf.Body.Headings()
		}
		sheets = append(sheets, &page.Sheet{Path: at, Kind: "wall", Title: leaf.Front.Title.V, Words: words, Group: leaf.Front.Group.V,
			Summary: leaf.Front.Says.Or(leaf.Body.Summary(200)), Data: site.Wall{Body: r.body(leaf.Body, "wall", at), Pages: r.group(leaf)}})
	}
	return sheets
}

// group lists the pages of a free page's group, in their order; none where it
// has no group.
func (r *run) group(leaf *journal.Leaf) []page.Link {
	var links []page.Link
	for _, l := range r.shop.Wall {
		if g := l.Front.Group; g.Set && g.V == leaf.Front.Group.V {
			links = append(links, page.Link{Name: l.Front.Title.V, Path: r.places.path(l.File.Name)})
		}
	}
	return links
}

// wallNav are the entries of the free pages in the navigation: one for each
// page, and one for each group.
func (r *run) wallNav() []page.Link {
	var nav []page.Link
	grouped := map[string]bool{}
	for _, leaf := range r.shop.Wall {
		link := page.Link{Name: leaf.Front.Title.V, Path: r.places.path(leaf.File.Name)}
		if g := leaf.Front.Group.V; g != "" {
			if grouped[g] {
				continue
			}
			grouped[g] = true
			link.Name = g
		}
		nav = append(nav, link)
	}
	return nav
}

// shownOnWall yields what the free pages show: the file's place in the workshop,
// and its name as it was written.
func (r *run) shownOnWall() iter.Seq2[string, journal.Text] {
	return func(yield func(string, journal.Text) bool) {
		for _, leaf := range r.shop.Wall {
			for _, p := range leaf.Body.Pictures() {
				if !yield(path.Join("wall", p.File.V), p.File) {
					return
				}
			}
		}
	}
}

// checkWall reports pictures of free pages that are not there.
func (r *run) checkWall() source.Findings {
	var found source.Findings
	for file, at := range r.shownOnWall() {
		if _, is := drawingName(file); is {
			continue // looked for once it is drawn
		}
		found.Add(journal.CheckPicture(r.env.Content, file, at)...)
	}
	return found
}

// checkShownDrawings reports drawings on free pages that were not drawn.
func (r *run) checkShownDrawings() source.Findings {
	var found source.Findings
	for file, written := range r.shownOnWall() {
		at, is := drawingName(file)
		if !is {
			continue
		}
		slug, _, _ := strings.Cut(at, "/")
		if w := r.bySlug[slug]; w != nil {
			w.spread.shown = true
		}
		if r.drawingAt(file) == nil {
			found.Add(journal.BrokenLink(journal.Link{At: written.At, Dest: written.V}, "write the name of a drawing of that build: "+strings.Join(r.drawnFor(at), ", ")))
		}
	}
	return found
}

// drawingName returns the site path of a drawing that a text shows by the name
// ../builds/marram/drawings/loom.svg.
func drawingName(file string) (string, bool) {
	rest, ok := strings.CutPrefix(file, "builds/")
	return rest, ok && path.Base(path.Dir(rest)) == "drawings" && strings.HasSuffix(rest, ".svg")
}

// drawnFor lists the drawings of the build whose folder a site path names.
func (r *run) drawnFor(at string) []string {
	var names []string
	for _, d := range r.drawingsOf(at) {
		names = append(names, path.Base(d.Path))
	}
	return names
}

// drawingAt returns the drawing that a picture in a text names; nil where there
// is none.
func (r *run) drawingAt(file string) *page.Drawing {
	at, is := drawingName(file)
	if !is {
		return nil
	}
	list := r.drawingsOf(at)
	for i := range list {
		if list[i].Path == at {
			return &list[i]
		}
	}
	return nil
}

// drawingsOf returns the drawings of the build in whose folder a site path lies.
// While a build is drawn its texts show no drawings but its own.
func (r *run) drawingsOf(at string) []page.Drawing {
	slug, _, _ := strings.Cut(at, "/")
	w := r.bySlug[slug]
	switch {
	case r.making != nil && r.making.slug() == slug:
		return r.making.drawings
	case r.making != nil, w == nil:
		return nil
	}
	return r.drawn(w)
}

// drawingHTML prints a drawing between the words of a body, with its alt text
// beneath; among the words of a paragraph, where no figure may stand, it is
// left to its alt text.
func (r *run) drawingHTML(d *page.Drawing, p journal.Picture, on string) string {
	if p.Inline {
		return ""
	}
	slug, _, _ := strings.Cut(d.Path, "/")
	shown := *d
	shown.SVG, shown.Phone = setApart(d.SVG, slug), setApart(d.Phone, slug)
	text, found := r.press.book.Fragment("drawing", r.press.site, &page.Sheet{Path: on}, &shown, p.Alt)
	if len(found) > 0 {
		return ""
	}
	return string(text)
}

// markedIDs matches what names or points to an element of a drawing.
var markedIDs = regexp.MustCompile(`(\b(?:id|aria-labelledby)=")([^"]*)|((?:href="|url\()#)([^")]*)`)

// setApart puts a build's name before the names of a drawing's elements, since
// a page may show the looms of two builds.
func setApart(markup template.HTML, slug string) template.HTML {
	return template.HTML(markedIDs.ReplaceAllStringFunc(string(markup), func(m string) string {
		g := markedIDs.FindStringSubmatch(m)
		words := strings.Fields(g[2] + g[4])
		for i := range words {
			words[i] = slug + "-" + words[i]
		}
		return g[1] + g[3] + strings.Join(words, " ")
	}))
}
