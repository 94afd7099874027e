package gen

import (
	"context"
	"io"
	"maps"
	"slices"
	"sync"
	"time"

	"spruelight/gen/page"
	"spruelight/gen/site"
	"spruelight/gen/source"
)

// Session makes a site again and again as its files change, and does only
// what a change touches: builds whose folders did not change keep what was
// read and reckoned, and a build is drawn and printed when it is looked at.
type Session struct {
	env     Env
	last    *run
	printed *press // of the last pass that opened a theme
	looked  looked
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
		r.former = s.last.leave(changed, s.printed)
		s.printed = r.former.printed
	} else {
		s.printed = nil
	}
	r.read(ctx)
	r.reckon(ctx)
	r.photoStage().make(ctx)
	if !r.found.Stops() && ctx.Err() == nil && r.compose() {
		s.proof(r)
	}
	r.former = nil // or every pass would hold all before it
	if ctx.Err() != nil {
		return nil, nil, ctx.Err()
	}
	s.last = r
	settle(&r.found, r.shop)
	if r.found.Stops() {
		return nil, r.found, nil
	}
	return &Shown{run: r, looked: &s.looked}, r.found, nil
}

// proof prints pages of the kinds that were looked at by templates that were
// just read, so that what fails in them is found before it is shown.
func (s *Session) proof(r *run) {
	if s.printed == nil || r.press.book != s.printed.book {
		for _, name := range s.looked.names() {
			_, _, found := r.fetch(name)
			r.press.faults.Add(found...)
		}
	}
	s.printed = r.press
	r.found.Add(r.press.faults...)
}

// looked names the page of each kind that was looked at last.
type looked struct {
	mu     sync.Mutex
	byKind map[string]string
}

// at notes a page. That of the search is left out: it lists all others.
func (l *looked) at(s *page.Sheet) {
	if s.Path == site.SearchPath {
		return
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.byKind == nil {
		l.byKind = map[string]string{}
	}
	l.byKind[s.Kind] = s.Path
}

func (l *looked) names() []string {
	l.mu.Lock()
	defer l.mu.Unlock()
	return slices.Sorted(maps.Values(l.byKind))
}

// Shown is a site in memory. Its files are made when they are asked for.
type Shown struct {
	run    *run
	looked *looked
}

// Paths returns the paths of all files, in order. All builds are drawn for it.
func (s *Shown) Paths() []string { return s.run.paths() }

// File returns the content at a path of the site. In place of a page whose
// template fails stands what is wrong with it.
func (s *Shown) File(name string) ([]byte, bool) {
	f, ok, found := s.run.fetch(name)
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
