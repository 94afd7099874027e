package gen

import (
	"context"
	"io"
	"time"

	"spruelight/gen/output"
	"spruelight/gen/source"
)

// Session makes a site again and again as its files change.
type Session struct {
	env Env
}

// NewSession returns a session that has made nothing yet.
func NewSession(env Env) *Session { return &Session{env: env} }

// At sets the moment that clocks and embargoes go by.
func (s *Session) At(moment time.Time) { s.env.Moment = moment }

// Shown is a site in memory.
type Shown struct {
	files map[string]output.File
}

// File returns the content at a path of the site.
func (s *Shown) File(path string) ([]byte, bool) {
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

// Update makes the site after the named files of the workshop changed; nil
// means that anything may have. The site is nil when a finding forbids it.
func (s *Session) Update(ctx context.Context, changed []string) (*Shown, source.Findings, error) {
	res, err := Assemble(ctx, s.env)
	if err != nil || res.Files == nil {
		return nil, res.Findings, err
	}
	shown := &Shown{files: make(map[string]output.File, len(res.Files))}
	for _, f := range res.Files {
		shown.files[f.Path] = f
	}
	return shown, res.Findings, nil
}
