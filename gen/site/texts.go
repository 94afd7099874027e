package site

import (
	"html/template"
	"path"
	"regexp"
	"slices"
	"strings"

	"spruelight/gen/journal"
	"spruelight/gen/page"
	"spruelight/gen/source"
)

// Texts prints the texts of journals for pages and feeds: their links lead to
// where things stand, photos and drawings take their places among the words.
type Texts struct {
	Places   Places
	Photos   Photos
	Hidden   *Withheld
	Drawings func(slug string) []page.Drawing // of a build
	Book     *page.Book                       // nil before a theme is opened: nothing is printed then
	Site     *page.Site
}

// Find returns the site path that a link in a body leads to, with its fragment.
func (t *Texts) Find(body *journal.Body, dest string) (string, bool) {
	file, fragment, ok := body.Resolve(dest)
	if !ok {
		return "", false
	}
	to, ok := t.Places.At(file)
	if !ok {
		return t.Photos.Largest(file)
	}
	if fragment == "" {
		return to.Path, true
	}
	return to.Path + "#" + fragment, slices.Contains(to.Anchors, fragment)
}

// Link is a link to a place of the workshop, with the text it stands in.
type Link struct {
	journal.Link
	Body *journal.Body
}

// LinksOf lists the links of a body that stay in the workshop.
func LinksOf(b *journal.Body) []Link {
	var links []Link
	if b == nil {
		return nil
	}
	for _, l := range b.Links() {
		if _, absolute := journal.Scheme(l.Dest); !absolute {
			links = append(links, Link{l, b})
		}
	}
	return links
}

// CheckLinks reports every link that leads nowhere.
func (t *Texts) CheckLinks(links []Link) source.Findings {
	var found source.Findings
	for _, l := range links {
		if _, ok := t.Find(l.Body, l.Dest); !ok && !t.hides(l.Body, l.Dest) {
			found.Add(journal.BrokenLink(l.Link, t.linkRemedy(l.Body, l.Dest)))
		}
	}
	return found
}

// hides reports whether a link leads to something withheld: its words are printed
// without the link, and the whole workshop says whether it leads anywhere.
func (t *Texts) hides(b *journal.Body, dest string) bool {
	file, _, ok := b.Resolve(dest)
	return ok && t.Hidden.Has(file)
}

// linkRemedy suggests the text or heading that a broken link most likely meant.
func (t *Texts) linkRemedy(b *journal.Body, dest string) source.Message {
	file, fragment, ok := b.Resolve(dest)
	if !ok {
		return source.Word("link to a file of the workshop by its path from this one")
	}
	if to, known := t.Places.At(file); known {
		if near, ok := journal.Nearest(fragment, to.Anchors); ok {
			return source.Say("write #%s", near)
		}
		if len(to.Anchors) == 0 {
			return source.Say("link to the page, without #%s", fragment)
		}
		return source.Say("link to one of its headings: #%s", source.List{Of: source.Anys(to.Anchors), Sep: ", #"})
	}
	if near, ok := journal.Nearest(path.Base(file), t.Places.beside(file)); ok {
		return source.Say("write %s", strings.TrimSuffix(dest, path.Base(file))+near)
	}
	return source.Word("link to a sitting, a build.md, a review.md, a page of the build such as lighting.html, " +
		"or a page of the wall, by its path from this file")
}

// Into says how a body's links and pictures are written on a page.
func (t *Texts) Into(b *journal.Body, dir, on string) journal.Into {
	return journal.Into{
		Link: func(dest string) (string, bool) {
			to, ok := t.Find(b, dest)
			return page.Relative(on, to), ok
		},
		Picture: func(p journal.Picture) string {
			if d := t.drawing(path.Join(dir, p.File.V)); d != nil {
				return t.drawingHTML(d, p, on)
			}
			picture := t.pictureOf(p, dir)
			if picture == nil {
				return ""
			}
			return t.pictureHTML(picture, on, p.Inline)
		},
	}
}

// pictureOf returns a picture between the words of a body, nil where there is none.
func (t *Texts) pictureOf(p journal.Picture, dir string) *page.Picture {
	return t.Photos.Picture(path.Join(dir, p.File.V), p.Alt, p.Title, "")
}

// pictureHTML prints a picture between the words of a body.
func (t *Texts) pictureHTML(p *page.Picture, on string, inline bool) string {
	name := "figure"
	if inline {
		name = "picture"
	}
	text, found := t.Book.Fragment(name, t.Site, &page.Sheet{Path: on}, p, "half")
	if len(found) > 0 {
		return ""
	}
	return string(text)
}

// DrawingName returns the site path of a drawing that a text shows by the name
// ../builds/marram/drawings/loom.svg.
func DrawingName(file string) (string, bool) {
	rest, ok := strings.CutPrefix(file, "builds/")
	return rest, ok && path.Base(path.Dir(rest)) == "drawings" && strings.HasSuffix(rest, ".svg")
}

// drawingHTML prints a drawing between the words of a body, with its alt text
// beneath; among the words of a paragraph, where no figure may stand, it is
// left to its alt text.
func (t *Texts) drawingHTML(d *page.Drawing, p journal.Picture, on string) string {
	if p.Inline {
		return ""
	}
	slug, _, _ := strings.Cut(d.Path, "/")
	shown := *d
	shown.SVG, shown.Phone = setApart(d.SVG, slug), setApart(d.Phone, slug)
	text, found := t.Book.Fragment("drawing", t.Site, &page.Sheet{Path: on}, &shown, p.Alt)
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

// Absolutely is Into with whole addresses, for readers that know no base.
func (t *Texts) Absolutely(b *journal.Body, dir, on, base string) journal.Into {
	into := t.Into(b, dir, on)
	if base == "" {
		return into
	}
	return journal.Into{
		Link: func(dest string) (string, bool) {
			href, ok := into.Link(dest)
			return base + href, ok
		},
		Picture: func(p journal.Picture) string {
			return t.plainPicture(p, dir, base)
		},
	}
}

// plainPicture is a picture with a whole address, without the page's layout.
func (t *Texts) plainPicture(p journal.Picture, dir, base string) string {
	picture := t.pictureOf(p, dir)
	if picture == nil {
		return ""
	}
	f := picture.Near(1200)
	return page.Image(base+f.Path, picture.Alt, f.Width, f.Height)
}

// drawing returns the drawing that a picture in a text names; nil where there
// is none.
func (t *Texts) drawing(file string) *page.Drawing {
	at, is := DrawingName(file)
	if !is {
		return nil
	}
	list := t.drawingsAt(at)
	for i := range list {
		if list[i].Path == at {
			return &list[i]
		}
	}
	return nil
}

// drawingsAt returns the drawings of the build in whose folder a site path lies.
func (t *Texts) drawingsAt(at string) []page.Drawing {
	slug, _, _ := strings.Cut(at, "/")
	return t.Drawings(slug)
}

// HTML prints a body for the page at a path of the site.
func (t *Texts) HTML(b *journal.Body, dir, on string) template.HTML {
	return template.HTML(b.HTML(t.Into(b, dir, on)))
}
