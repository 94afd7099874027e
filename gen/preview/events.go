package preview

import (
	"fmt"
	"net/http"
	"sync"
	"time"
)

// mostClients is how many pages may listen at once; a browser that opens more
// shows the others without refreshing them.
const mostClients = 64

// heartbeat is how often a silent connection is tried, so that a closed page
// frees its place.
const heartbeat = 20 * time.Second

// clients are the open pages that listen for changes.
type clients struct {
	mu   sync.Mutex
	open map[chan uint64]bool
}

// join adds a page; ok is false where there are too many.
func (c *clients) join() (ch chan uint64, ok bool) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if len(c.open) >= mostClients {
		return nil, false
	}
	if c.open == nil {
		c.open = map[chan uint64]bool{}
	}
	ch = make(chan uint64, 1)
	c.open[ch] = true
	return ch, true
}

func (c *clients) leave(ch chan uint64) {
	c.mu.Lock()
	defer c.mu.Unlock()
	delete(c.open, ch)
}

// send tells every page the newest version. A page that has not taken the last
// one yet gets only the newest.
func (c *clients) send(version uint64) {
	c.mu.Lock()
	defer c.mu.Unlock()
	for ch := range c.open {
		select {
		case <-ch:
		default:
		}
		ch <- version
	}
}

// events streams versions to a page (server-sent events of the HTML standard).
func (s *Server) events(w http.ResponseWriter, r *http.Request) {
	ch, ok := s.clients.join()
	if !ok {
		http.Error(w, "too many pages are open", http.StatusServiceUnavailable)
		return
	}
	defer s.clients.leave(ch)
	w.Header().Set("Content-Type", "text/event-stream")
	control := http.NewResponseController(w)
	control.SetReadDeadline(time.Time{}) // the request has been read; the stream stays open
	write := func(format string, args ...any) bool {
		control.SetWriteDeadline(time.Now().Add(5 * time.Second))
		if _, err := fmt.Fprintf(w, format, args...); err != nil {
			return false
		}
		return control.Flush() == nil
	}
	s.mu.RLock()
	version := s.version
	s.mu.RUnlock()
	if !write("retry: 500\nevent: version\ndata: %d\n\n", version) {
		return
	}
	beat := time.NewTicker(heartbeat)
	defer beat.Stop()
	for {
		select {
		case <-r.Context().Done():
			return
		case v := <-ch:
			if !write("event: version\ndata: %d\n\n", v) {
				return
			}
		case <-beat.C:
			if !write(": still here\n\n") {
				return
			}
		}
	}
}
