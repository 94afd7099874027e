package preview

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"io/fs"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"spruelight/gen"
	"spruelight/gen/photo"
	"spruelight/gen/source"
	"spruelight/testdata/bigshop"
	"spruelight/themes"
)

// Whoever names another host is not answered: a page from elsewhere whose name
// leads to this machine must not read the journals.
func TestHosts(t *testing.T) {
	_, address := serve(t, fixed(pages{"index.html": "<body>home</body>"}))
	_, port, _ := net.SplitHostPort(address)
	for _, c := range []struct {
		line, hosts string // header lines
		status      int
	}{
		{"GET / HTTP/1.1", "Host: 127.0.0.1:" + port, 200},
		{"GET / HTTP/1.1", "Host: localhost:" + port, 200},
		{"GET / HTTP/1.1", "Host: LOCALHOST:" + port, 200},
		{"GET http://127.0.0.1:" + port + "/ HTTP/1.1", "Host: 127.0.0.1:" + port, 200},
		{"GET / HTTP/1.1", "Host: 127.0.0.1", 421},
		{"GET / HTTP/1.1", "Host: localhost", 421},
		{"GET / HTTP/1.1", "Host: 127.0.0.1:1", 421},
		{"GET / HTTP/1.1", "Host: [::1]:" + port, 421}, // nobody listens there
		{"GET / HTTP/1.1", "Host: [::ffff:127.0.0.1]:" + port, 421},
		{"GET / HTTP/1.1", "Host: 127.1:" + port, 421},
		{"GET / HTTP/1.1", "Host: 2130706433:" + port, 421},
		{"GET / HTTP/1.1", "Host: 0.0.0.0:" + port, 421},
		{"GET / HTTP/1.1", "Host: localhost.:" + port, 421},
		{"GET / HTTP/1.1", "Host: localhost.bench.example:" + port, 421},
		{"GET / HTTP/1.1", "Host: 127.0.0.1:" + port + ".bench.example", 421},
		{"GET / HTTP/1.1", "Host: bench.example:" + port, 421},
		{"GET / HTTP/1.1", "Host: bench.example:" + port + "\r\nX-Forwarded-Host: 127.0.0.1:" + port, 421},
		{"GET http://bench.example/ HTTP/1.1", "Host: 127.0.0.1:" + port, 421},
		{"GET / HTTP/1.1", "Host:", 421},
		{"GET / HTTP/1.1", "X: no host at all", 400},
		{"GET / HTTP/1.0", "X: no host at all", 421},
		{"GET / HTTP/1.1", "Host: 127.0.0.1:" + port + "\r\nHost: bench.example", 400},
		{"GET / HTTP/1.1", "Host: a b", 400},
	} {
		status, body := ask(t, address, c.line+"\r\n"+c.hosts+"\r\nConnection: close\r\n\r\n")
		if status != c.status || status != 200 && strings.Contains(body, "home") {
			t.Errorf("%s, %q: %d %q, want %d", c.line, c.hosts, status, body, c.status)
		}
	}
}

// At port 80 a browser leaves the port out.
func TestHostWithoutPort(t *testing.T) {
	s := New(fixed(pages{}), nil)
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if err := s.Serve(ctx, &deaf{80, make(chan bool)}); err != nil {
		t.Fatal(err)
	}
	if !s.hosts["localhost"] || !s.hosts["127.0.0.1:80"] || s.hosts[""] {
		t.Errorf("%v", s.hosts)
	}
}

// deaf is a listener that nobody calls.
type deaf struct {
	port   int
	closed chan bool
}

func (d *deaf) Accept() (net.Conn, error) { <-d.closed; return nil, net.ErrClosed }
func (d *deaf) Close() error              { close(d.closed); return nil }
func (d *deaf) Addr() net.Addr            { return &net.TCPAddr{IP: net.IPv4(127, 0, 0, 1), Port: d.port} }

// Only two methods are answered.
func TestMethods(t *testing.T) {
	_, address := serve(t, fixed(pages{"index.html": "<body>home</body>"}))
	for _, method := range []string{"POST", "PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "CONNECT", "PROPFIND", "get", "GETT"} {
		for _, path := range []string{"/", "/-/events", "/-/findings.json", "/nowhere"} {
			status, body := ask(t, address, method+" "+path+" HTTP/1.1\r\nHost: "+address+"\r\nConnection: close\r\n\r\n")
			if status != http.StatusMethodNotAllowed && status != http.StatusBadRequest || strings.Contains(body, "home") {
				t.Errorf("%s %s: %d %q", method, path, status, body)
			}
		}
	}
}

// Nothing but the files of the site is served: no folder is listed, and no way
// of writing a path leads out of the site, to the workshop's own files, or to
// the disk.
func TestNoWayOut(t *testing.T) {
	dir := t.TempDir()
	if err := bigshop.Write(dir, bigshop.Size{Builds: 1, Sittings: 2, Photos: 1}); err != nil {
		t.Fatal(err)
	}
	secrets := map[string]string{".git/config": "SECRET", "notes.txt": "SECRET", "builds/build-0000/.hidden.md": "SECRET", "site/index.html": "SECRET"}
	for name, text := range secrets {
		full := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(full), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(full, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	root, err := os.OpenRoot(dir)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { root.Close() })
	session := gen.NewSession(gen.Env{Content: root.FS(), Themes: themes.FS, Moment: time.Now(), Photos: photo.MemoryCache()})
	_, address := serve(t, func(ctx context.Context, changed []string) (Site, source.Findings, error) {
		site, found, err := session.Update(ctx, changed)
		return site, found, err
	})
	get := func(path string) (int, string) {
		return ask(t, address, "GET "+path+" HTTP/1.1\r\nHost: "+address+"\r\nConnection: close\r\n\r\n")
	}
	if status, _ := get("/build-0000/"); status != 200 {
		t.Fatalf("the site itself: %d", status)
	}
	paths := []string{
		"/build-0000", "/build-0000/photos/", "/build-0000/photos", "/wall/", "/-/", "/-", "/-/../index.html",
		"/..", "/../", "/.", "/./", "/./index.html", "//", "//index.html", "///etc/passwd", "/etc/passwd",
		"/../etc/passwd", "/../../../../../../etc/passwd", "/build-0000/../../etc/passwd", "/build-0000/../index.html",
		"/%2e%2e/%2e%2e/etc/passwd", "/%2e%2e%2f%2e%2e%2fetc%2fpasswd", "/..%2f..%2fetc/passwd", "/%252e%252e%252fetc%252fpasswd",
		"/..%5c..%5cwindows%5cwin.ini", "/%5c%5cserver%5cshare", `/..\..\windows\win.ini`, `/\etc\passwd`,
		"/c:/windows/win.ini", "/C:%5cwindows%5cwin.ini", "/c:%2fwindows%2fwin.ini", "/%2f%2fserver/share", "/%3f%3f/c:/x",
		"/%c0%ae%c0%ae/%c0%ae%c0%ae/etc/passwd", "/%c0%af..%c0%afetc%c0%afpasswd", "/%uff0e%uff0e/etc/passwd", "/..%ef%bc%8fetc%ef%bc%8fpasswd",
		"/index.html%00", "/index.html%00.jpg", "/%00", "/index.html%20", "/index.html.", "/index.html::$DATA", "/index.html/", "/index.html/..",
		"/INDEX.HTML", "/con", "/nul", "/aux.html", "/proc/self/environ", "/dev/zero", "/..;/", "/build-0000/..;/x", "/%0d%0aX: y",
		"/.spruelight-site", "/.git/HEAD", "/themes/sheet/_page.html", "/index.html~", "/-/preview.go", "/-/../preview.go", "/-/bench.js/", "/-/%62ench.go", "/" + strings.Repeat("a/", 4000),
	}
	err = filepath.WalkDir(dir, func(name string, e fs.DirEntry, err error) error {
		if rel, _ := filepath.Rel(dir, name); err == nil && rel != "." && rel != "site/index.html" {
			paths = append(paths, "/"+filepath.ToSlash(rel))
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	for _, path := range paths {
		status, body := get(path)
		if status != http.StatusNotFound && status != http.StatusBadRequest || strings.Contains(body, "SECRET") || strings.Contains(body, "root:") {
			t.Errorf("GET %.80s: %d %.200q", path, status, body)
		}
	}
	if _, body := get("/"); strings.Contains(body, "SECRET") {
		t.Error("the site on the disk is served")
	}
}

// hurried serves with short limits.
func hurried(t *testing.T, site pages, l limits) string {
	t.Helper()
	listener, err := Listen(0)
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(context.Background())
	s := New(fixed(site), nil)
	s.limits = l
	s.Refresh(ctx, nil)
	done := make(chan error)
	go func() { done <- s.Serve(ctx, listener) }()
	t.Cleanup(func() {
		stop()
		if err := <-done; err != nil {
			t.Error(err)
		}
	})
	return listener.Addr().String()
}

// Whoever sends a request drop by drop, or never, is cut off, and keeps nobody
// else waiting for good: a test that hangs has failed.
func TestSlowRequests(t *testing.T) {
	short := limits{header: 200 * time.Millisecond, read: 400 * time.Millisecond, write: time.Second, idle: 300 * time.Millisecond, headerBytes: 16 << 10, connections: 20}
	address := hurried(t, pages{"index.html": "<body>home</body>"}, short)
	var held []net.Conn
	for i := range short.connections * 2 {
		conn, err := net.Dial("tcp", address)
		if err != nil {
			t.Fatal(err)
		}
		defer conn.Close()
		switch i % 3 {
		case 0: // says nothing
		case 1:
			fmt.Fprint(conn, "GET / HTTP/1.1\r\nHost: "+address+"\r\nX: ")
		case 2:
			fmt.Fprint(conn, "POST / HTTP/1.1\r\nHost: "+address+"\r\nContent-Length: 1000000\r\n\r\nx")
		}
		held = append(held, conn)
	}
	if status, body := ask(t, address, "GET / HTTP/1.1\r\nHost: "+address+"\r\nConnection: close\r\n\r\n"); status != 200 || !strings.Contains(body, "home") {
		t.Errorf("an honest request is answered %d %q", status, body)
	}
	for _, conn := range held {
		conn.SetReadDeadline(time.Now().Add(20 * time.Second))
		if _, err := io.Copy(io.Discard, conn); err != nil && os.IsTimeout(err) {
			t.Fatal("a slow request is kept open")
		}
	}
}

// A reader that takes nothing does not hold an answer for ever.
func TestSlowReader(t *testing.T) {
	short := usual
	short.write = 300 * time.Millisecond
	short.connections = 1
	address := hurried(t, pages{"index.html": "<body>" + strings.Repeat("x", 32<<20) + "</body>", "a.txt": "a"}, short)
	conn, err := net.Dial("tcp", address)
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close()
	fmt.Fprint(conn, "GET / HTTP/1.1\r\nHost: "+address+"\r\n\r\n")
	if status, _ := ask(t, address, "GET /a.txt HTTP/1.1\r\nHost: "+address+"\r\nConnection: close\r\n\r\n"); status != 200 {
		t.Errorf("the next request is answered %d", status)
	}
}

// Huge headers are refused, huge bodies are not read.
func TestHugeHeadersAndBodies(t *testing.T) {
	_, address := serve(t, fixed(pages{"index.html": "x"}))
	for _, c := range []struct {
		name, request string
		status        int
	}{
		{"address", "GET /" + strings.Repeat("a", 64<<10) + " HTTP/1.1\r\nHost: " + address + "\r\n\r\n", 431},
		{"one header", "GET / HTTP/1.1\r\nHost: " + address + "\r\nX: " + strings.Repeat("a", 64<<10) + "\r\n\r\n", 431},
		{"many headers", "GET / HTTP/1.1\r\nHost: " + address + "\r\n" + strings.Repeat("X: y\r\n", 10<<10) + "\r\n", 431},
		{"body that is announced", "GET / HTTP/1.1\r\nHost: " + address + "\r\nContent-Length: 1099511627776\r\nConnection: close\r\n\r\nx", 200},
		{"body of a POST", "POST / HTTP/1.1\r\nHost: " + address + "\r\nContent-Length: 1099511627776\r\nConnection: close\r\n\r\nx", 405},
		{"chunks", "POST / HTTP/1.1\r\nHost: " + address + "\r\nTransfer-Encoding: chunked\r\nConnection: close\r\n\r\nFFFFFFF\r\nx", 405},
		{"two lengths", "GET / HTTP/1.1\r\nHost: " + address + "\r\nContent-Length: 1\r\nContent-Length: 2\r\n\r\nx", 400},
		{"length below nothing", "GET / HTTP/1.1\r\nHost: " + address + "\r\nContent-Length: -1\r\n\r\n", 400},
		{"no request", "\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03\r\n\r\n", 400},
	} {
		if status, _ := ask(t, address, c.request); status != c.status {
			t.Errorf("%s: %d, want %d", c.name, status, c.status)
		}
	}
}

// Only so many pages listen at once; the place of one that goes is free again.
// A page of another address gets none.
func TestEventStreamsAreBounded(t *testing.T) {
	_, address := serve(t, fixed(pages{"index.html": "x"}))
	listen := func(more string) (net.Conn, int) {
		conn, err := net.Dial("tcp", address)
		if err != nil {
			t.Fatal(err)
		}
		conn.SetDeadline(time.Now().Add(20 * time.Second))
		fmt.Fprint(conn, "GET /-/events HTTP/1.1\r\nHost: "+address+"\r\n"+more+"\r\n")
		res, err := http.ReadResponse(bufio.NewReader(conn), nil)
		if err != nil {
			t.Fatal(err)
		}
		return conn, res.StatusCode
	}
	for _, from := range []string{"cross-site", "same-site"} {
		if conn, status := listen("Sec-Fetch-Site: " + from + "\r\n"); status != http.StatusForbidden {
			t.Errorf("%s: %d", from, status)
		} else {
			conn.Close()
		}
	}
	var open []net.Conn
	defer func() {
		for _, conn := range open {
			conn.Close()
		}
	}()
	for range mostClients {
		conn, status := listen("Sec-Fetch-Site: same-origin\r\n")
		if open = append(open, conn); status != 200 {
			t.Fatalf("page %d: %d", len(open), status)
		}
	}
	conn, status := listen("")
	if open = append(open, conn); status != http.StatusServiceUnavailable {
		t.Errorf("one page too many: %d", status)
	}
	if status, _ := ask(t, address, "GET / HTTP/1.1\r\nHost: "+address+"\r\nConnection: close\r\n\r\n"); status != 200 {
		t.Errorf("pages are no longer shown: %d", status)
	}
	open[0].Close()
	for began := time.Now(); ; time.Sleep(10 * time.Millisecond) {
		conn, status := listen("")
		if open = append(open, conn); status == 200 {
			return
		}
		if time.Since(began) > 15*time.Second {
			t.Fatal("a place that was given back is not free")
		}
	}
}

// Every answer keeps other addresses out.
func TestAnswersAreForThisAddressOnly(t *testing.T) {
	_, address := serve(t, fixed(pages{"index.html": "x"}))
	for _, path := range []string{"/", "/nowhere", "/-/findings.json"} {
		res, err := http.Get("http://" + address + path)
		if err != nil {
			t.Fatal(err)
		}
		res.Body.Close()
		for name, want := range map[string]string{"Cross-Origin-Resource-Policy": "same-origin", "X-Frame-Options": "SAMEORIGIN", "X-Content-Type-Options": "nosniff", "Cache-Control": "no-store", "Access-Control-Allow-Origin": ""} {
			if got := res.Header.Get(name); got != want {
				t.Errorf("%s: %s: %q, want %q", path, name, got, want)
			}
		}
	}
}
