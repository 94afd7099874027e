package gen

import (
	"slices"
	"strings"
	"sync"

	"spruelight/gen/output"
	"spruelight/gen/page"
	"spruelight/gen/site"
	"spruelight/gen/source"
)

// spread is what one build puts into the site: its pages, drawings and photos.
// It is made once, when the first of them is wanted, and holds for as long as
// nothing changes that it was made of.
type spread struct {
	mu     sync.Mutex
	work   *work // what it is made of; nil once it is made
	sheets []*page.Sheet
	files  []output.File // drawings and photos
	memo   printed

	drawings []page.Drawing
	shown    bool // a free page shows one of them

	book  *page.Book // by which pictures among words were printed
	marks string     // what it may say of other builds
	leads []string   // where its links led
}

// newSpread plans a build's part of the site.
func (r *run) newSpread(w *work) *spread {
	return &spread{work: w, book: r.press.book, marks: r.marks, leads: r.leads(w)}
}

// stands reports whether a spread of an earlier pass is still right: it was
// made, nothing that it says of other builds has changed, and its links lead
// where they led.
func (s *spread) stands(r *run, w *work) bool {
	if s == nil || !s.made() || s.book != r.press.book || s.marks != r.marks {
		return false
	}
	return slices.Equal(s.leads, r.leads(w))
}

func (s *spread) made() bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.work == nil
}

// make draws the build and lists its pages, unless that is done.
func (s *spread) make() *spread {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.work == nil {
		return s
	}
	w := *s.work // a copy: the next pass may be taking the build over
	w.drawing.Lock()
	defer w.drawing.Unlock()
	r := *w.run
	r.making, w.run = &w, &r
	for _, t := range subjects {
		if t.draw != nil {
			t.draw(&w)
		}
	}
	s.sheets = w.run.buildSheets(&w)
	s.files = append(w.drawingFiles(), w.photos.Files()...)
	s.drawings = w.drawings
	s.work = nil // or every spread would hold the pass that it was made in
	return s
}

// leads lists where the links of a build's texts lead.
func (r *run) leads(w *work) []string {
	var leads []string
	texts := r.texts()
	for _, l := range w.links {
		to, ok := texts.Find(l.Body, l.Dest)
		if !ok {
			to = "\x00" + to
		}
		leads = append(leads, to)
	}
	return leads
}

// printAll puts every file of a build into the site, and lets go of what only
// they needed: of a large workshop no more than a few builds are drawn at once.
// The error is of the site.
func (r *run) printAll(w *work, out output.Site) (found source.Findings, err error) {
	s := w.spread.make()
	for _, f := range s.files {
		if err := out.Put(f); err != nil {
			return found, err
		}
	}
	for _, sheet := range s.sheets {
		text, bad := r.press.book.Print(r.press.site, sheet)
		found.Add(bad...)
		if err := out.Put(output.File{Path: sheet.Path, Bytes: text}); err != nil {
			return found, err
		}
	}
	if text, ok := r.house.FeedOf(w.ofSite(), s.sheets); ok {
		if err := out.Put(output.File{Path: w.place(site.FeedName), Bytes: text}); err != nil {
			return found, err
		}
	}
	for _, sheet := range s.sheets {
		sheet.Data = nil
	}
	s.files = nil
	if !s.shown {
		s.drawings = nil
	}
	return found, nil
}

// shownFile is a file of the site, with its sheet where it is a page.
type shownFile struct {
	output.File
	sheet *page.Sheet
}

// fetch returns a file of the site by its path, made now where it has to be.
func (r *run) fetch(name string) (f shownFile, ok bool, found source.Findings) {
	slug, _, _ := strings.Cut(name, "/")
	if w := r.bySlug[slug]; w != nil {
		s := w.spread.make()
		if f, ok, found = r.among(s.sheets, s.files, &s.memo, name); ok {
			return f, ok, found
		}
		if name == w.place(site.FeedName) {
			f.Bytes, ok = r.house.FeedOf(w.ofSite(), s.sheets)
			return f, ok, nil
		}
	}
	front := r.press.front()
	if f, ok, found = r.among(front.sheets, front.files, &front.memo, name); ok {
		return f, ok, found
	}
	list := r.house.Feeds(r.press.whole)
	if strings.HasPrefix(name, page.IndexFolder) {
		list = r.press.whole().IndexFiles()
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
func (r *run) among(sheets []*page.Sheet, files []output.File, memo *printed, name string) (f shownFile, ok bool, found source.Findings) {
	if i := slices.IndexFunc(sheets, func(s *page.Sheet) bool { return s.Path == name }); i >= 0 {
		f.sheet = sheets[i]
		f.Bytes, found = memo.print(r.press, sheets[i])
		return f, true, found
	}
	if i := slices.IndexFunc(files, func(f output.File) bool { return f.Path == name }); i >= 0 {
		f.File = files[i]
		return f, true, nil
	}
	return f, false, nil
}

// paths lists the paths of all files of the site.
func (r *run) paths() []string {
	var paths []string
	add := func(files []output.File) {
		for _, f := range files {
			paths = append(paths, f.Path)
		}
	}
	for _, s := range r.press.whole().Sheets {
		paths = append(paths, s.Path)
	}
	for _, w := range r.works {
		add(w.spread.files)
		if len(w.build.Sittings) > 0 || w.build.Review != nil {
			paths = append(paths, w.place(site.FeedName))
		}
	}
	add(r.press.front().files)
	for _, l := range r.wholeFiles() {
		paths = append(paths, l.Path)
	}
	slices.Sort(paths)
	return paths
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
func (m *printed) print(p *press, sheet *page.Sheet) ([]byte, source.Findings) {
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
