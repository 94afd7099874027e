package gen

import (
	"context"
	"fmt"
	"io"
	"sync"
	"time"

	"spruelight/gen/output"
	"spruelight/gen/page"
	"spruelight/gen/source"
)

// Session makes a site again and again as its files change, and does only
// what a change touches: builds whose folders did not change keep what was
// read, reckoned and drawn, and a page is printed when it is looked at.
type Session struct {
	env  Env
	last *run
	memo printed
}

// NewSession returns a session that has made nothing yet.
func NewSession(env Env) *Session { return &Session{env: env} }

// At sets the moment that clocks and embargoes go by.
func (s *Session) At(moment time.Time) { s.env.Moment = moment }

// Update makes the site after the named files of the workshop changed; nil
// means that anything may have. The site is nil when a finding forbids it.
// Updates must not overlap; the sites they return may be used at any time.
func (s *Session) Update(ctx context.Context, changed []string) (*Shown, source.Findings, error) {
	r := newRun(s.env)
	if s.last != nil && changed != nil {
		r.former = s.last.leave(changed)
	}
	r.read(ctx)
	r.reckon(ctx)
	r.takePhotos(ctx)
	ready := !r.found.Stops() && ctx.Err() == nil
	if ready {
		r.draw(ctx)
		ready = r.compose()
	}
	r.former = nil // or every pass would hold all before it
	if ctx.Err() != nil {
		return nil, nil, ctx.Err()
	}
	s.last = r
	r.settle()
	if !ready || r.found.Stops() {
		return nil, r.found, nil
	}
	s.memo.keep(r.press.sheets)
	return s.show(r), r.found, nil
}

// show puts the files of a pass into a map.
func (s *Session) show(r *run) *Shown {
	shown := &Shown{files: make(map[string]output.File, len(r.files)), late: make(map[string]func() ([]byte, source.Findings), len(r.late))}
	for _, f := range r.files {
		shown.files[f.Path] = f
	}
	for _, l := range r.late {
		shown.late[l.path] = l.make
	}
	site := fmt.Sprintf("%+v", *r.press.site)
	for _, sheet := range r.press.sheets {
		shown.late[sheet.Path] = func() ([]byte, source.Findings) { return s.memo.print(r.press, site, sheet) }
	}
	return shown
}

// Shown is a site in memory.
type Shown struct {
	files map[string]output.File
	late  map[string]func() ([]byte, source.Findings)
}

// Paths returns the paths of all files, in no order.
func (s *Shown) Paths() []string {
	paths := make([]string, 0, len(s.files)+len(s.late))
	for p := range s.files {
		paths = append(paths, p)
	}
	for p := range s.late {
		paths = append(paths, p)
	}
	return paths
}

// File returns the content at a path of the site. A page whose template fails
// is not there; the finding was part of the pass that made the theme's book.
func (s *Shown) File(path string) ([]byte, bool) {
	if make, ok := s.late[path]; ok {
		text, found := make()
		if len(found) > 0 {
			return []byte("<!DOCTYPE html><title>theme</title><body><pre>" + page.Escape(found[0].Message) + "</pre></body>"), true
		}
		return text, true
	}
	f, ok := s.files[path]
	if !ok {
		return nil, false
	}
	if f.Open == nil {
		return f.Bytes, true
	}
	r, err := f.Open()
	if err != nil {
		return nil, false
	}
	defer r.Close()
	data, err := io.ReadAll(r)
	return data, err == nil
}

// printed keeps pages that were printed, by their sheets.
type printed struct {
	mu    sync.Mutex
	pages map[*page.Sheet]printedPage
}

type printedPage struct {
	book *page.Book
	site string
	text []byte
}

// print returns a page, printed at most once for a book and a site.
func (m *printed) print(p *press, site string, sheet *page.Sheet) ([]byte, source.Findings) {
	m.mu.Lock()
	known, ok := m.pages[sheet]
	m.mu.Unlock()
	if ok && known.book == p.book && known.site == site {
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
	m.pages[sheet] = printedPage{p.book, site, text}
	return text, nil
}

// keep forgets the pages of sheets that are no longer part of the site.
func (m *printed) keep(sheets []*page.Sheet) {
	m.mu.Lock()
	defer m.mu.Unlock()
	fresh := make(map[*page.Sheet]printedPage, len(m.pages))
	for _, s := range sheets {
		if known, ok := m.pages[s]; ok {
			fresh[s] = known
		}
	}
	m.pages = fresh
}
