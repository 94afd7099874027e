package gen

import (
	"strings"

	"spruelight/gen/page"
	"spruelight/gen/site"
	"spruelight/gen/source"
)

const searchPath = "search.html"

// mostListed is how many pages the list beneath the search holds; of a larger
// site it names the builds, whose own pages lead on.
const mostListed = 2000

// searchSheet is the search, and the list of all pages beneath it.
func (r *run) searchSheet() *page.Sheet {
	return &page.Sheet{Path: searchPath, Kind: "search", Title: r.press.words.Say("Search"), Aside: true,
		Data: page.Later(func() any { return r.press.whole().search() })}
}

// search lists all pages, by build.
func (all *whole) search() *site.Search {
	data := &site.Search{Chunk: page.Chunk, Shards: all.index.Shards()}
	number := map[string]int{"": 0}
	data.Groups = []site.Contents{{}} // the workshop's own pages stand first
	for _, s := range all.sheets {
		home := strings.HasSuffix(s.Path, "index.html")
		if s.Aside || len(all.sheets) > mostListed && s.Group != "" && !home {
			continue
		}
		n, ok := number[s.Group]
		if !ok {
			n = len(data.Groups)
			number[s.Group] = n
			data.Groups = append(data.Groups, site.Contents{Name: s.Group})
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

// indexFiles are the files of the search index.
func (r *run) indexFiles() []late {
	var files []late
	r.press.whole().index.Files(func(path string, make func() []byte) {
		files = append(files, late{path, func() ([]byte, source.Findings) { return make(), nil }})
	})
	return files
}

// searched adds to a build's sheets what a search should find on them beyond
// their texts: kit, lamps, paints, areas, parts.
func (w *work) searched(sheets []*page.Sheet) {
	f := &w.build.Front
	for _, s := range sheets {
		var list []string
		switch s.Kind {
		case "build":
			list = append(list, f.Kit.Maker.V, f.Kit.Title.V, f.Kit.Number.V, f.Scale.V.String())
			list = append(list, site.TechniquesOf(w.facts())...)
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
			list = append(list, w.paintNames()...)
			list = append(list, f.Areas.Names()...)
		case "parts":
			for _, row := range w.record.Rows {
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
