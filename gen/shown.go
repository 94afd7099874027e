package gen

import (
	"io"
	"slices"
	"strings"
	"sync"

	"spruelight/gen/output"
	"spruelight/gen/page"
	"spruelight/gen/site"
	"spruelight/gen/source"
)

// Shown is a site in memory. Its files are made when they are asked for.
type Shown struct {
	run    *run
	looked *looked
}

// Paths returns the paths of all files, in order. All builds are drawn for it.
func (s *Shown) Paths() []string {
	r := s.run
	var paths []string
	add := func(files []output.File) {
		for _, f := range files {
			paths = append(paths, f.Path)
		}
	}
	for _, s := range r.theme.whole().Sheets {
		paths = append(paths, s.Path)
	}
	for _, w := range r.works {
		add(w.part.files)
		if len(w.build.Sittings) > 0 || w.build.Review != nil {
			paths = append(paths, w.facts().Place(site.FeedName))
		}
	}
	add(r.theme.front().files)
	for _, l := range r.wholeFiles() {
		paths = append(paths, l.Path)
	}
	slices.Sort(paths)
	return paths
}

// File returns the content at a path of the site. In place of a page whose
// template fails stands what is wrong with it.
func (s *Shown) File(name string) ([]byte, bool) {
	f, ok, found := s.fetch(name)
	if sheet := f.sheet; sheet != nil {
		s.looked.at(sheet)
	}
	if len(found) > 0 {
		return []byte("<!DOCTYPE html><title>theme</title><body><pre>" + page.Escape(found[0].Says.String()) + "</pre></body>"), true
	}
	if !ok || f.Open == nil {
		return f.Bytes, ok
	}
	r, err := f.Open()
	if err != nil {
		return nil, false
	}
	defer r.Close()
	data, err := io.ReadAll(r)
	return data, err == nil
}

// shownFile is a file of the site, with its sheet where it is a page.
type shownFile struct {
	output.File
	sheet *page.Sheet
}

// fetch returns a file of the site by its path, made now where it has to be.
func (s *Shown) fetch(name string) (f shownFile, ok bool, found source.Findings) {
	r := s.run
	slug, _, _ := strings.Cut(name, "/")
	if w := r.bySlug[slug]; w != nil {
		part := w.part.make()
		if f, ok, found = r.theme.among(part.sheets, part.files, &part.memo, name); ok {
			return f, ok, found
		}
		if name == w.facts().Place(site.FeedName) {
			f.Bytes, ok = r.house.FeedOf(w.ofSite(w.facts()), part.sheets)
			return f, ok, nil
		}
	}
	front := r.theme.front()
	if f, ok, found = r.theme.among(front.sheets, front.files, &front.memo, name); ok {
		return f, ok, found
	}
	list := r.house.Feeds(r.theme.whole)
	if strings.HasPrefix(name, page.IndexFolder) {
		list = r.theme.whole().IndexFiles()
	}
	for _, l := range list {
		if l.Path == name {
			f.Bytes, found = l.Make()
			return f, true, found
		}
	}
	return f, false, nil
}

// among finds a page or a file by its path.
func (t *theme) among(sheets []*page.Sheet, files []output.File, memo *printed, name string) (f shownFile, ok bool, found source.Findings) {
	if i := slices.IndexFunc(sheets, func(s *page.Sheet) bool { return s.Path == name }); i >= 0 {
		f.sheet = sheets[i]
		f.Bytes, found = memo.print(t, sheets[i])
		return f, true, found
	}
	if i := slices.IndexFunc(files, func(f output.File) bool { return f.Path == name }); i >= 0 {
		f.File = files[i]
		return f, true, nil
	}
	return f, false, nil
}

// printed keeps pages that were printed, by their sheets.
type printed struct {
	mu    sync.Mutex
	pages map[*page.Sheet]printedPage
}

type printedPage struct {
	site string
	text []byte
}

// print returns a page, printed at most once for a site.
func (m *printed) print(p *theme, sheet *page.Sheet) ([]byte, source.Findings) {
	m.mu.Lock()
	known, ok := m.pages[sheet]
	m.mu.Unlock()
	if ok && known.site == p.key {
		return known.text, nil
	}
	text, found := p.book.Print(p.site, sheet)
	if len(found) > 0 {
		return nil, found
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.pages == nil {
		m.pages = map[*page.Sheet]printedPage{}
	}
	m.pages[sheet] = printedPage{p.key, text}
	return text, nil
}
