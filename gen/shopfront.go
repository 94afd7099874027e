package gen

import (
	"cmp"
	"slices"
	"strings"

	"spruelight/gen/output"
	"spruelight/gen/page"
	"spruelight/gen/site"
	"spruelight/gen/source"
	"spruelight/gen/topic/size"
)

// shopfront is what the workshop as a whole puts into the site, besides its builds.
type shopfront struct {
	sheets []*page.Sheet
	files  []output.File // drawings, and what the theme brings
	memo   printed
}

// roomPages are the pages of the workshop as a whole. Those with a name stand
// in the navigation, in this order, where the workshop has something for them.
var roomPages = []struct {
	name, path string
	has        func(*run) bool
	sheets     func(*run) []*page.Sheet
}{
	{"Line-up", size.LineupPath, func(r *run) bool { return site.HasLineup(r.house) }, func(r *run) []*page.Sheet { return site.LineupPages(r.house) }},
	{"Reviews", comparisonPath, hasReviews, comparisonPages},
	{"Techniques", site.TechniquesPath, hasTechniques, func(r *run) []*page.Sheet { return site.TechniquePages(r.house) }},
	{"Hours", hoursPath, hasHours, hoursPages},
	{"", "", func(r *run) bool { return len(r.shop.Wall) > 0 }, func(r *run) []*page.Sheet { return site.WallPages(r.shop.Wall, r.texts()) }},
}

// newShopfront draws what shows several builds and lists the workshop's own pages.
func (r *run) newShopfront() *shopfront {
	drawHours(r)
	front := &shopfront{sheets: []*page.Sheet{r.frontSheet(), r.searchSheet(), missingSheet(r.press.words)}}
	for _, p := range roomPages {
		if p.has(r) {
			front.sheets = append(front.sheets, p.sheets(r)...)
		}
	}
	for _, d := range r.house.Drawings {
		front.files = append(front.files, output.File{Path: d.Path, Bytes: d.File})
	}
	front.files = append(front.files, r.photos.Wall.Files()...)
	front.files = append(front.files, r.press.assets()...)
	return front
}

// nav lists the pages that every page links to at its head.
func (r *run) nav() []page.Link {
	var nav []page.Link
	for _, p := range roomPages {
		if p.name != "" && p.has(r) {
			nav = append(nav, page.Link{Name: r.press.words.Say(p.name), Path: p.path})
		}
	}
	nav = append(nav, site.WallNav(r.shop.Wall, r.places)...)
	return append(nav, page.Link{Name: r.press.words.Say("Search"), Path: searchPath, Note: "search"})
}

// late is a file of the site that is made only when it is wanted: what is
// written to disk wants all of them, the preview only those that are looked at.
type late struct {
	path string
	make func() ([]byte, source.Findings)
}

// wholeFiles are the workshop's own files that are made of all pages or texts.
func (r *run) wholeFiles() []late { return append(r.feeds(), r.indexFiles()...) }

// whole is the site as a whole: all pages, in the order of their paths.
type whole struct {
	sheets []*page.Sheet
	index  *page.Index
}

// newWhole lists all pages.
func (r *run) newWhole() *whole {
	all := &whole{}
	for _, w := range r.works {
		all.sheets = append(all.sheets, w.spread.make().sheets...)
	}
	all.sheets = append(all.sheets, r.press.front().sheets...)
	slices.SortFunc(all.sheets, func(a, b *page.Sheet) int { return cmp.Compare(a.Path, b.Path) })
	all.index = page.NewIndex(all.sheets)
	return all
}

func hasReviews(r *run) bool {
	return slices.ContainsFunc(r.works, func(w *work) bool { return w.review.Judged != nil })
}

func hasHours(r *run) bool {
	return slices.ContainsFunc(r.works, func(w *work) bool { return w.record.Sum.Sittings > 0 })
}

func hasTechniques(r *run) bool {
	return slices.ContainsFunc(r.works, func(w *work) bool {
		return slices.ContainsFunc(site.TechniquesOf(w.facts()), func(name string) bool { return strings.TrimSpace(name) != "" })
	})
}
