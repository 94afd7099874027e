package gen

import (
	"context"
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
	printed *theme // of the last pass that opened a theme
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
		r.earlier = leave(s.last, changed, s.printed)
		s.printed = r.earlier.printed
	} else {
		s.printed = nil
	}
	r.read(ctx)
	r.reckon(ctx)
	r = r.free(ctx, site.Showing{Drafts: true})
	newPhotoStage(r).make(ctx)
	if !r.found.Stops() && ctx.Err() == nil && r.compose() {
		s.proof(r)
	}
	r.earlier, r.complete().earlier = nil, nil // or every pass would hold all before it
	if ctx.Err() != nil {
		return nil, nil, ctx.Err()
	}
	s.last = r
	settle(&r.found, r.complete().shop)
	if r.found.Stops() {
		return nil, r.found, nil
	}
	return &Shown{run: r, looked: &s.looked}, r.found, nil
}

// proof prints pages of the kinds that were looked at by templates that were
// just read, so that what fails in them is found before it is shown.
func (s *Session) proof(r *run) {
	if s.printed == nil || r.theme.book != s.printed.book {
		site := &Shown{run: r}
		for _, name := range s.looked.names() {
			_, _, found := site.fetch(name)
			r.theme.faults.Add(found...)
		}
	}
	s.printed = r.theme
	r.found.Add(r.theme.faults...)
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
