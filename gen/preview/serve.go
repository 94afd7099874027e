package preview

import (
	"bytes"
	"embed"
	"encoding/json"
	"fmt"
	"mime"
	"net/http"
	"path"
	"strings"

	"spruelight/gen/source"
)

// page answers with a file of the site.
func (s *Server) page(w http.ResponseWriter, r *http.Request) {
	s.mu.RLock()
	site := s.site
	s.mu.RUnlock()
	name, ok := siteName(r.URL.Path)
	if site == nil {
		s.send(w, r, http.StatusServiceUnavailable, "waiting.html", []byte(waiting))
		return
	}
	if ok {
		if data, found := site.File(name); found {
			s.send(w, r, http.StatusOK, name, data)
			return
		}
	}
	data, found := site.File("404.html")
	if !found {
		data = []byte("<!DOCTYPE html><title>Nothing here</title><body>Nothing stands here.</body>")
	}
	s.send(w, r, http.StatusNotFound, "404.html", data)
}

// waiting is shown until there is a first good site.
const waiting = `<!DOCTYPE html><html lang="en"><head><meta charset="utf-8"><title>At the bench</title></head><body><p>The site is being made. What stands in its way is listed below.</p></body></html>`

// siteName turns the path of a request into a path of the site. There are no
// folders to list: an address that ends in a slash means the page in it.
func siteName(address string) (string, bool) {
	if !strings.HasPrefix(address, "/") || strings.ContainsAny(address, "\\\x00") {
		return "", false
	}
	name := strings.TrimPrefix(address, "/")
	if name == "" || strings.HasSuffix(name, "/") {
		name += "index.html"
	}
	return name, path.Clean(name) == name && !strings.HasPrefix(name, "..")
}

// send writes a file; pages get the script that watches for changes.
func (s *Server) send(w http.ResponseWriter, r *http.Request, status int, name string, data []byte) {
	kind := mime.TypeByExtension(path.Ext(name))
	switch path.Ext(name) {
	case ".html":
		kind = "text/html; charset=utf-8"
		data = withScript(data)
	case ".xml":
		kind = "application/xml"
	case "":
		kind = "application/octet-stream"
	}
	w.Header().Set("Content-Type", kind)
	w.Header().Set("Content-Length", fmt.Sprint(len(data)))
	w.WriteHeader(status)
	if r.Method != http.MethodHead {
		w.Write(data)
	}
}

// withScript puts the bench's own script and style at a page's end. They come
// from the same address, so the page's own policy admits them.
func withScript(page []byte) []byte {
	at := bytes.LastIndex(page, []byte("</body>"))
	if at < 0 {
		return page
	}
	const tags = `<script src="` + own + `bench.js" defer></script>` + "\n"
	out := make([]byte, 0, len(page)+len(tags))
	out = append(out, page[:at]...)
	out = append(out, tags...)
	return append(out, page[at:]...)
}

//go:embed bench.js bench.css
var ownFiles embed.FS

// ownFile answers with the bench's script, its style or the findings.
func (s *Server) ownFile(w http.ResponseWriter, r *http.Request) {
	switch name := strings.TrimPrefix(r.URL.Path, own); name {
	case "bench.js", "bench.css":
		data, _ := ownFiles.ReadFile(name)
		s.send(w, r, http.StatusOK, name, data)
	case "findings.json":
		data, err := json.Marshal(s.report())
		if err != nil {
			http.Error(w, "the findings cannot be written", http.StatusInternalServerError)
			return
		}
		s.send(w, r, http.StatusOK, name, data)
	default:
		http.NotFound(w, r)
	}
}

// report is what a page shows over itself.
type report struct {
	Version  uint64         `json:"version"`
	Stale    bool           `json:"stale"`           // the page is the last good one, not the newest
	Empty    bool           `json:"empty,omitempty"` // there is no page yet
	Failed   string         `json:"failed,omitempty"`
	Findings []shownFinding `json:"findings"`
}

// shownFinding is a finding as the page's script gets it.
type shownFinding struct {
	File     string          `json:"file"`
	Severity source.Severity `json:"severity"`
	Text     string          `json:"text"` // as printed in the terminal
}

func (s *Server) report() report {
	s.mu.RLock()
	defer s.mu.RUnlock()
	out := report{Version: s.version, Stale: s.stale, Empty: s.site == nil, Findings: []shownFinding{}}
	if s.failed != nil {
		out.Failed = s.failed.Error()
	}
	for _, f := range s.found {
		if f.Severity() == source.Note || f.Silenced != "" {
			continue
		}
		var text strings.Builder
		source.Style{}.Print(&text, f)
		out.Findings = append(out.Findings, shownFinding{f.At.Name(), f.Severity(), text.String()})
	}
	return out
}
