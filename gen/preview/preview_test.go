package preview

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"spruelight/gen/source"
)

// pages is a site for tests.
type pages map[string]string

func (p pages) File(name string) ([]byte, bool) {
	text, ok := p[name]
	return []byte(text), ok
}

var rule = &source.Rule{Name: "r", Severity: source.Stop}

// serve starts a server over what build returns and gives its address.
func serve(t *testing.T, build Build) (*Server, string) {
	t.Helper()
	l, err := Listen(0)
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(context.Background())
	s := New(build, nil)
	s.Refresh(ctx, nil)
	done := make(chan error)
	go func() { done <- s.Serve(ctx, l) }()
	t.Cleanup(func() {
		stop()
		if err := <-done; err != nil {
			t.Errorf("the server ended with %v", err)
		}
	})
	return s, l.Addr().String()
}

func fixed(site pages) Build {
	return func(context.Context, []string) (Site, source.Findings, error) { return site, nil, nil }
}

// ask sends one request as it is, without a client's own clean-up.
func ask(t *testing.T, address, request string) (status int, body string) {
	t.Helper()
	conn, err := net.Dial("tcp", address)
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close()
	conn.SetDeadline(time.Now().Add(10 * time.Second))
	fmt.Fprint(conn, request)
	res, err := http.ReadResponse(bufio.NewReader(conn), nil)
	if err != nil {
		t.Fatalf("%q: %v", request, err)
	}
	defer res.Body.Close()
	text, _ := io.ReadAll(res.Body)
	return res.StatusCode, string(text)
}

// What is answered, and what is not: by method, host and path.
func TestRequests(t *testing.T) {
	_, address := serve(t, fixed(pages{"index.html": "<body>home</body>", "skiff/index.html": "<body>skiff</body>", "style.css": "x{}", "404.html": "<body>gone</body>"}))
	for _, c := range []struct {
		line, host string
		status     int
		says       string
	}{
		{"GET / HTTP/1.1", address, 200, "home"},
		{"GET /index.html HTTP/1.1", address, 200, "/-/bench.js"},
		{"GET /skiff/ HTTP/1.1", address, 200, "skiff"},
		{"GET /style.css HTTP/1.1", address, 200, "x{}"},
		{"HEAD / HTTP/1.1", address, 200, ""},
		{"GET /-/bench.js HTTP/1.1", address, 200, "EventSource"},
		{"GET /-/findings.json HTTP/1.1", address, 200, `"findings":[]`},
		{"GET /nowhere HTTP/1.1", address, 404, "gone"},
		{"GET /skiff HTTP/1.1", address, 404, "gone"},
		{"GET /../style.css HTTP/1.1", address, 404, "gone"},
		{"GET /skiff/../style.css HTTP/1.1", address, 404, "gone"},
		{"GET /%2e%2e/style.css HTTP/1.1", address, 404, "gone"},
		{"GET /..%5cstyle.css HTTP/1.1", address, 404, "gone"},
		{"GET //style.css HTTP/1.1", address, 404, "gone"},
		{"GET /style.css%00.html HTTP/1.1", address, 404, "gone"},
		{"GET /-/preview.go HTTP/1.1", address, 404, "not found"},
		{"POST / HTTP/1.1", address, 405, "only GET and HEAD"},
		{"PUT /style.css HTTP/1.1", address, 405, "only GET and HEAD"},
		{"OPTIONS * HTTP/1.1", address, 405, ""},
		{"GET / HTTP/1.1", "bench.example", 421, "127.0.0.1"},
		{"GET /-/findings.json HTTP/1.1", "bench.example", 421, "127.0.0.1"},
		{"GET / HTTP/1.1", "127.0.0.1", 421, "127.0.0.1"},
		{"GET / HTTP/1.1", "", 421, "127.0.0.1"},
	} {
		status, body := ask(t, address, c.line+"\r\nHost: "+c.host+"\r\nConnection: close\r\n\r\n")
		if status != c.status || c.line[:4] != "HEAD" && !strings.Contains(body, c.says) {
			t.Errorf("%s for host %q: %d %q, want %d with %q", c.line, c.host, status, body, c.status, c.says)
		}
	}
}

// A header of a megabyte is refused instead of read.
func TestHugeRequests(t *testing.T) {
	_, address := serve(t, fixed(pages{"index.html": "x"}))
	status, _ := ask(t, address, "GET / HTTP/1.1\r\nHost: "+address+"\r\nX: "+strings.Repeat("a", 40<<10)+"\r\n\r\n")
	if status != http.StatusRequestHeaderFieldsTooLarge {
		t.Errorf("status %d", status)
	}
}

// The server listens on the loopback address and no other.
func TestListensOnLoopbackOnly(t *testing.T) {
	l, err := Listen(0)
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	if ip := l.Addr().(*net.TCPAddr).IP; !ip.IsLoopback() {
		t.Errorf("listens on %v", ip)
	}
	if _, err := Listen(l.Addr().(*net.TCPAddr).Port); err == nil || !strings.Contains(err.Error(), "--port") {
		t.Errorf("a port in use gives %v", err)
	}
}

// A rebuild that fails keeps the last good site and says what is wrong; open
// pages are told of it.
func TestBrokenBuildKeepsTheLastGoodSite(t *testing.T) {
	broken := false
	s, address := serve(t, func(context.Context, []string) (Site, source.Findings, error) {
		if broken {
			file := source.NewFile("a.md", "stat: bench\n")
			return nil, source.Findings{rule.At(file.At(0, 4), "write state", "no such key")}, nil
		}
		return pages{"index.html": "<body>good</body>"}, nil, nil
	})
	res, err := http.Get("http://" + address + "/-/events")
	if err != nil {
		t.Fatal(err)
	}
	defer res.Body.Close()
	events := bufio.NewScanner(res.Body)
	next := func() string {
		for events.Scan() {
			if data, ok := strings.CutPrefix(events.Text(), "data: "); ok {
				return data
			}
		}
		return ""
	}
	if v := next(); v != "1" {
		t.Fatalf("first version %q", v)
	}
	broken = true
	s.Refresh(context.Background(), []string{"a.md"})
	if v := next(); v != "2" {
		t.Errorf("second version %q", v)
	}
	get := func(path string) string {
		_, body := ask(t, address, "GET "+path+" HTTP/1.1\r\nHost: "+address+"\r\nConnection: close\r\n\r\n")
		return body
	}
	if body := get("/"); !strings.Contains(body, "good") {
		t.Errorf("the page is %q", body)
	}
	if body := get("/-/findings.json"); !strings.Contains(body, `"stale":true`) || !strings.Contains(body, "a.md:1:1: stop: no such key") {
		t.Errorf("the findings are %s", body)
	}
	broken = false
	s.Refresh(context.Background(), nil)
	if body := get("/-/findings.json"); !strings.Contains(body, `"stale":false`) {
		t.Errorf("after mending, the findings are %s", body)
	}
}

// Only so many pages may listen at once.
func TestListenersAreBounded(t *testing.T) {
	var c clients
	for range mostClients {
		if _, ok := c.join(); !ok {
			t.Fatal("refused too early")
		}
	}
	if _, ok := c.join(); ok {
		t.Error("one too many was admitted")
	}
	c.send(1) // nobody reads: it must not block
	c.send(2)
}

// Changes are reported together, once files lie still; hidden files, editors'
// leavings and skipped folders are not reported; new folders are watched.
func TestWatch(t *testing.T) {
	dir := t.TempDir()
	for _, d := range []string{"builds/skiff", "site", ".git"} {
		os.MkdirAll(filepath.Join(dir, d), 0o755)
	}
	ctx, stop := context.WithCancel(context.Background())
	changes := make(chan []string, 100)
	done := make(chan error)
	go func() {
		done <- Watch(ctx, dir, []string{filepath.Join(dir, "site")}, func(names []string) { changes <- names })
	}()
	write := func(name string) {
		t.Helper()
		full := filepath.Join(dir, name)
		os.MkdirAll(filepath.Dir(full), 0o755)
		if err := os.WriteFile(full, []byte(time.Now().String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	// Nothing tells when the watch has begun but its first report.
	for begun := false; !begun; {
		write("workshop.yaml")
		select {
		case <-changes:
			begun = true
		case <-time.After(200 * time.Millisecond):
		}
	}
	settle := func() (all []string) {
		for {
			select {
			case names := <-changes:
				all = append(all, names...)
			case <-time.After(300 * time.Millisecond):
				slices.Sort(all)
				return slices.Compact(all)
			}
		}
	}
	settle()
	write("builds/skiff/2026-02-14.md")
	write("builds/skiff/.hidden.swp")
	write("builds/skiff/backup~")
	write("site/index.html")
	write(".git/index")
	if got := settle(); !slices.Equal(got, []string{"builds/skiff/2026-02-14.md"}) {
		t.Errorf("reported %q", got)
	}
	os.MkdirAll(filepath.Join(dir, "builds/new"), 0o755)
	settle()
	write("builds/new/build.md")
	if got := settle(); !slices.Contains(got, "builds/new/build.md") {
		t.Errorf("in a new folder, reported %q", got)
	}
	// Editors save beside a file and rename over it; folders come by copies and
	// moves, are renamed and go.
	write("builds/skiff/draft~")
	os.Rename(filepath.Join(dir, "builds/skiff/draft~"), filepath.Join(dir, "builds/skiff/2026-02-14.md"))
	if got := settle(); !slices.Equal(got, []string{"builds/skiff/2026-02-14.md"}) {
		t.Errorf("saved by rename, reported %q", got)
	}
	os.Rename(filepath.Join(dir, "builds/new"), filepath.Join(dir, "builds/newer"))
	if got := settle(); !slices.Contains(got, "builds/new") || !slices.Contains(got, "builds/newer") {
		t.Errorf("of a renamed folder, reported %q", got)
	}
	write("builds/newer/build.md")
	if got := settle(); !slices.Equal(got, []string{"builds/newer/build.md"}) {
		t.Errorf("in a renamed folder, reported %q", got)
	}
	write("elsewhere~/photos/a.jpg")
	settle()
	os.Rename(filepath.Join(dir, "elsewhere~"), filepath.Join(dir, "builds/moved"))
	if got := settle(); !slices.Contains(got, "builds/moved") {
		t.Errorf("of a folder moved in, reported %q", got)
	}
	write("builds/moved/photos/b.jpg")
	if got := settle(); !slices.Equal(got, []string{"builds/moved/photos/b.jpg"}) {
		t.Errorf("in a folder moved in, reported %q", got)
	}
	os.RemoveAll(filepath.Join(dir, "builds/moved"))
	if got := settle(); !slices.Contains(got, "builds/moved") {
		t.Errorf("of a folder that went, reported %q", got)
	}
	os.Remove(filepath.Join(dir, "builds/newer/build.md"))
	if got := settle(); !slices.Equal(got, []string{"builds/newer/build.md"}) {
		t.Errorf("of a file that went, reported %q", got)
	}
	stop()
	if err := <-done; err != nil && !errors.Is(err, context.Canceled) {
		t.Error(err)
	}
}

// Until there is a first good site every address says so, and why.
func TestBeforeTheFirstGoodSite(t *testing.T) {
	_, address := serve(t, func(context.Context, []string) (Site, source.Findings, error) {
		return nil, source.Findings{rule.At(source.NewFile("a.md", "x\n").At(0, 1), "", "no such key")}, nil
	})
	for path, want := range map[string]string{"/": "The site is being made.", "/skiff/": "The site is being made.", "/-/findings.json": `"stale":true,"empty":true`} {
		if _, body := ask(t, address, "GET "+path+" HTTP/1.1\r\nHost: "+address+"\r\nConnection: close\r\n\r\n"); !strings.Contains(body, want) {
			t.Errorf("%s answers %s", path, body)
		}
	}
}
