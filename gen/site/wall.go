package site

import (
	"io/fs"
	"iter"
	"path"
	"strings"

	"spruelight/gen/journal"
	"spruelight/gen/page"
	"spruelight/gen/source"
)

// mostFound is the length of a text, in bytes, up to which a search finds its
// words; of a longer free page, such as a reference, it finds the headings.
const mostFound = 16 << 10

// wallPages are the free pages.
func wallPages(wall []*journal.Leaf, texts *Texts) []*page.Sheet {
	var sheets []*page.Sheet
	for _, leaf := range wall {
		at := texts.Places.Page(leaf.File.Name)
		words := leaf.Body.Text()
		if len(words) > mostFound {
			words = leaf.Body.Headings()
		}
		sheets = append(sheets, &page.Sheet{Path: at, Kind: "wall", Title: leaf.Front.Title.V, Words: words, Group: leaf.Front.Group.V,
			Draft:   leaf.Marked,
			Summary: leaf.Front.Says.Or(leaf.Body.Summary(200)), Data: Wall{Body: texts.HTML(leaf.Body, "wall", at), Pages: group(wall, leaf,
				texts.Places)}})
	}
	return sheets
}

// group lists the pages of a free page's group, in their order; none where it
// has no group.
func group(wall []*journal.Leaf, leaf *journal.Leaf, places Places) []page.Link {
	var links []page.Link
	for _, l := range wall {
		if g := l.Front.Group; g.Set && g.V == leaf.Front.Group.V {
			links = append(links, page.Link{Name: l.Front.Title.V, Path: places.Page(l.File.Name)})
		}
	}
	return links
}

// wallNav are the entries of the free pages in the navigation: one for each
// page, and one for each group.
func wallNav(wall []*journal.Leaf, places Places) []page.Link {
	var nav []page.Link
	grouped := map[string]bool{}
	for _, leaf := range wall {
		link := page.Link{Name: leaf.Front.Title.V, Path: places.Page(leaf.File.Name)}
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

// ShownOnWall yields what the free pages show: the file's place in the workshop,
// and its name as it was written.
func ShownOnWall(wall []*journal.Leaf) iter.Seq2[string, journal.Text] {
	return func(yield func(string, journal.Text) bool) {
		for _, leaf := range wall {
			for _, p := range leaf.Body.Pictures() {
				if !yield(path.Join("wall", p.File.V), p.File) {
					return
				}
			}
		}
	}
}

// CheckWall reports pictures of free pages that are not there.
func CheckWall(content fs.FS, wall []*journal.Leaf) source.Findings {
	var found source.Findings
	for file, at := range ShownOnWall(wall) {
		if _, is := DrawingName(file); is {
			continue // looked for once it is drawn
		}
		found.Add(journal.CheckPicture(content, file, at)...)
	}
	return found
}

// DrawnOnWall lists the builds of which free pages show drawings.
func DrawnOnWall(wall []*journal.Leaf) map[string]bool {
	slugs := map[string]bool{}
	for file := range ShownOnWall(wall) {
		if at, is := DrawingName(file); is {
			slug, _, _ := strings.Cut(at, "/")
			slugs[slug] = true
		}
	}
	return slugs
}

// CheckDrawings reports drawings on free pages that were not drawn.
func (t *Texts) CheckDrawings(wall []*journal.Leaf) source.Findings {
	var found source.Findings
	for file, written := range ShownOnWall(wall) {
		at, is := DrawingName(file)
		if !is || t.drawing(file) != nil || t.Hidden.Has(file) {
			continue
		}
		var names []string
		for _, d := range t.drawingsAt(at) {
			names = append(names, path.Base(d.Path))
		}
		found.Add(journal.BrokenLink(journal.Link{At: written.At, Dest: written.V}, source.Say("write the name of a drawing of that build: %s",
			source.Row(names))))
	}
	return found
}
