package site

import (
	"strings"

	"spruelight/gen/page"
	"spruelight/gen/source"
)

// Search is the search page: what the script must know, and all pages by build.
type Search struct {
	Shards, Chunk int
	Groups        []Contents
}

// Contents are the pages of a build, or of the workshop where Name is "".
type Contents struct {
	Name, Home string
	Links      []page.Link
}

// SearchPath is where the site is searched.
const SearchPath = "search.html"

// mostListed is how many pages the list beneath the search holds; of a larger
// site it names the builds, whose own pages lead on.
const mostListed = 2000

// searchSheet is the search, and the list of all pages beneath it.
func searchSheet(h *House, all func() *AllPages) *page.Sheet {
	return &page.Sheet{Path: SearchPath, Kind: "search", Title: h.Words.Say("Search"), Aside: true,
		Data: page.Later(func() any { return all().search() })}
}

// search lists all pages, by build.
func (all *AllPages) search() *Search {
	data := &Search{Chunk: page.Chunk, Shards: all.index.Shards()}
	number := map[string]int{"": 0}
	data.Groups = []Contents{{}} // the workshop's own pages stand first
	for _, s := range all.Sheets {
		home := strings.HasSuffix(s.Path, "index.html")
		if s.Aside || len(all.Sheets) > mostListed && s.Group != "" && !home {
			continue
		}
		n, ok := number[s.Group]
		if !ok {
			n = len(data.Groups)
			number[s.Group] = n
			data.Groups = append(data.Groups, Contents{Name: s.Group})
		}
		g := &data.Groups[n]
		if home && s.Group != "" {
			g.Home = s.Path
			continue
		}
		g.Links = append(g.Links, page.Link{Name: strings.TrimSuffix(s.Title, ": "+s.Group), Path: s.Path})
	}
	return data
}

// IndexFiles are the files of the search index.
func (all *AllPages) IndexFiles() []File {
	var files []File
	all.index.Files(func(path string, make func() []byte) {
		files = append(files, File{path, func() ([]byte, source.Findings) { return make(), nil }})
	})
	return files
}

// Searched adds to a build's sheets what a search should find on them beyond
// their texts: kit, lamps, paints, areas, parts.
func Searched(b *Build, paints []string, sheets []*page.Sheet) {
	f := &b.Front
	for _, s := range sheets {
		var list []string
		switch s.Kind {
		case "build":
			list = append(list, f.Kit.Maker.V, f.Kit.Title.V, f.Kit.Number.V, f.Scale.V.String())
			list = append(list, TechniquesOf(b.Facts)...)
		case "lighting":
			for _, c := range f.Circuits {
				list = append(list, c.Name.V, c.Supply.V)
				for _, b := range c.Branches {
					list = append(list, b.Name.V)
					for _, l := range b.Lamps {
						list = append(list, l.Lamp.V, l.Place.V)
					}
				}
			}
		case "finish":
			list = append(list, paints...)
			list = append(list, f.Areas.Names()...)
		case "parts":
			for _, row := range b.Record.Rows {
				list = append(list, row.Part, row.What)
			}
		}
		if s.Words == "" {
			s.Words = strings.Join(list, "\n")
		} else if len(list) > 0 {
			s.Words += "\n" + strings.Join(list, "\n")
		}
	}
}
