package site

import (
	"cmp"
	"slices"
	"strings"

	"spruelight/gen/page"
	"spruelight/gen/topic/size"
)

// housePages are the pages of the workshop as a whole. Those with a name stand
// in the navigation, in this order, where the workshop has something for them.
var housePages = []struct {
	name, path string
	has        func(*House) bool
	sheets     func(*House) []*page.Sheet
}{
	{"Line-up", size.LineupPath, hasLineup, lineupPages},
	{"Reviews", comparisonPath, hasReviews, comparisonPages},
	{"Techniques", techniquesPath, hasTechniques, techniquePages},
	{"Hours", hoursPath, hasHours, hoursPages},
	{"", "", func(h *House) bool { return len(h.Wall) > 0 }, func(h *House) []*page.Sheet { return wallPages(h.Wall, h.Texts) }},
}

// Sheets lists the workshop's own pages, and keeps the drawings on them. The
// search asks for all pages when it is printed.
func (h *House) Sheets(all func() *AllPages) []*page.Sheet {
	missing := &page.Sheet{Path: "404.html", Kind: "missing", Title: h.Words.Say("Nothing stands here"), Aside: true}
	sheets := []*page.Sheet{frontSheet(h), searchSheet(h, all), missing}
	for _, p := range housePages {
		if p.has(h) {
			sheets = append(sheets, p.sheets(h)...)
		}
	}
	return sheets
}

// Nav lists the pages that every page links to at its head.
func (h *House) Nav() []page.Link {
	var nav []page.Link
	for _, p := range housePages {
		if p.name != "" && p.has(h) {
			nav = append(nav, page.Link{Name: h.Words.Say(p.name), Path: p.path})
		}
	}
	nav = append(nav, wallNav(h.Wall, h.Texts.Places)...)
	return append(nav, page.Link{Name: h.Words.Say("Search"), Path: SearchPath, Note: "search"})
}

// AllPages are all pages of the site, in the order of their paths.
type AllPages struct {
	Sheets []*page.Sheet
	index  *page.Index
}

// NewAllPages puts pages in order and prepares the search over them.
func NewAllPages(sheets []*page.Sheet) *AllPages {
	slices.SortFunc(sheets, func(a, b *page.Sheet) int { return cmp.Compare(a.Path, b.Path) })
	return &AllPages{sheets, page.NewIndex(sheets)}
}

func hasReviews(h *House) bool {
	return slices.ContainsFunc(h.Builds, func(b *Build) bool { return b.Judged.Judged != nil })
}

func hasHours(h *House) bool {
	return slices.ContainsFunc(h.Builds, func(b *Build) bool { return b.Record.Sum.Sittings > 0 })
}

func hasTechniques(h *House) bool {
	return slices.ContainsFunc(h.Builds, func(b *Build) bool {
		return slices.ContainsFunc(TechniquesOf(b.Facts), func(name string) bool { return strings.TrimSpace(name) != "" })
	})
}
