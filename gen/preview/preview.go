// Package preview is the loopback server behind bench: it shows the site from
// memory, rebuilds it as files change, and tells open pages to show the change.
//
// It listens on this machine only, answers only requests that name this
// machine in their Host header (so that no page from elsewhere can read the
// journals through a name of its own), and serves nothing but the site.
package preview

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	"spruelight/gen/source"
)

// Site is a finished site in memory.
type Site interface {
	// File returns the content at a path of the site.
	File(path string) ([]byte, bool)
}

// Build makes the site anew after the named files of the workshop changed; nil
// means that anything may have. A site of nil keeps the last good one, and the
// findings say why.
type Build func(ctx context.Context, changed []string) (Site, source.Findings, error)

// Server serves a site and refreshes it.
type Server struct {
	build Build
	tell  func(source.Findings, time.Duration, error) // after every build; may be nil

	mu      sync.RWMutex
	site    Site
	found   source.Findings
	failed  error
	stale   bool // the site is older than the findings
	version uint64

	clients clients
	hosts   map[string]bool
	limits  limits
}

// limits are what one client may ask of the server.
type limits struct {
	header, read, write, idle time.Duration // for a request's header, all of it, an answer, and until the next request
	headerBytes               int
	connections               int // at once
}

// usual are generous for a browser, and short for somebody who dawdles on
// purpose.
var usual = limits{header: 5 * time.Second, read: 10 * time.Second, write: 30 * time.Second, idle: time.Minute, headerBytes: 16 << 10,
	connections: 256}

// New returns a server that makes its site by build.
func New(build Build, tell func(source.Findings, time.Duration, error)) *Server {
	return &Server{build: build, tell: tell, hosts: map[string]bool{}, limits: usual}
}

// Refresh makes the site anew and tells open pages.
func (s *Server) Refresh(ctx context.Context, changed []string) {
	began := time.Now()
	site, found, err := s.build(ctx, changed)
	s.mu.Lock()
	s.found, s.failed, s.stale = found, err, site == nil
	if site != nil {
		s.site = site
	}
	s.version++
	version := s.version
	s.mu.Unlock()
	took := time.Since(began)
	s.clients.send(version) // first: a terminal may be slow to print what was found
	if s.tell != nil {
		s.tell(found, took, err)
	}
}

// Listen opens a port on this machine alone; 0 takes any that is free.
func Listen(port int) (net.Listener, error) {
	l, err := net.Listen("tcp4", fmt.Sprintf("127.0.0.1:%d", port))
	if err != nil {
		return nil, fmt.Errorf("port %d cannot be used: %w; name another by --port", port, err)
	}
	return l, nil
}

// Serve answers requests until the context ends.
func (s *Server) Serve(ctx context.Context, l net.Listener) error {
	port := l.Addr().(*net.TCPAddr).Port
	for _, name := range []string{"127.0.0.1", "localhost"} {
		s.hosts[fmt.Sprintf("%s:%d", name, port)] = true
		if port == 80 { // browsers leave that one out
			s.hosts[name] = true
		}
	}
	server := &http.Server{
		Handler:           s,
		ReadHeaderTimeout: s.limits.header,
		ReadTimeout:       s.limits.read,
		WriteTimeout:      s.limits.write, // streams of events set their own
		IdleTimeout:       s.limits.idle,
		MaxHeaderBytes:    s.limits.headerBytes,

		DisableGeneralOptionsHandler: true,
		BaseContext:                  func(net.Listener) context.Context { return ctx },
	}
	var closing atomic.Bool
	stop := context.AfterFunc(ctx, func() {
		closing.Store(true)
		server.Close()
	})
	defer stop()
	err := server.Serve(newBounded(l, s.limits.connections))
	if closing.Load() && errors.Is(err, http.ErrServerClosed) {
		return nil
	}
	return err
}

// own is the folder of the server's own addresses; no build can be called so.
const own = "/-/"

// ServeHTTP answers one request.
func (s *Server) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	h := w.Header()
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("Cache-Control", "no-store")
	h.Set("Referrer-Policy", "no-referrer")
	h.Set("Cross-Origin-Resource-Policy", "same-origin")
	h.Set("X-Frame-Options", "SAMEORIGIN")
	switch {
	case !s.hosts[strings.ToLower(r.Host)]:
		http.Error(w, "this server answers to 127.0.0.1 and localhost only", http.StatusMisdirectedRequest)
	case r.Method != http.MethodGet && r.Method != http.MethodHead:
		h.Set("Allow", "GET, HEAD")
		http.Error(w, "only GET and HEAD are answered", http.StatusMethodNotAllowed)
	case strings.HasPrefix(r.URL.Path, own) && fromElsewhere(r):
		http.Error(w, "this is for the bench's own pages", http.StatusForbidden)
	case r.URL.Path == own+"events":
		s.events(w, r)
	case strings.HasPrefix(r.URL.Path, own):
		s.ownFile(w, r)
	default:
		s.page(w, r)
	}
}

// fromElsewhere reports whether a page of another address asks. It could not
// read the answer, but it could take up the places of those who listen.
func fromElsewhere(r *http.Request) bool {
	site := r.Header.Get("Sec-Fetch-Site") // Fetch Metadata Request Headers, W3C working draft
	return site == "cross-site" || site == "same-site"
}
