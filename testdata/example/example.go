// Package example assembles the example workshop once for all tests of a
// package, and keeps the photos made for it.
//
// It lives under testdata so that no pattern such as ./... builds it into the
// program; only tests import it.
package example

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"
	"testing/fstest"
	"time"

	"spruelight/gen"
	"spruelight/gen/output"
	"spruelight/gen/photo"
	"spruelight/testdata/effort"
	"spruelight/themes"
)

// Moment is when the example is assembled in tests.
var Moment = time.Date(2026, 3, 15, 12, 0, 0, 0, time.UTC)

// Content is the folder of the example workshop.
var Content = func() string {
	_, file, _, _ := runtime.Caller(0)
	return filepath.Join(filepath.Dir(file), "..", "..", "content-example")
}()

var made struct {
	mu     sync.Mutex
	dir    string            // holds the cache of photos and the sites
	photos *photo.Cache      // nil before the first run
	sites  map[string]string // by theme
}

// Main runs the tests of a package and removes afterwards what was assembled.
// Each of last is called before that.
func Main(m *testing.M, last ...func()) {
	code := m.Run()
	for _, end := range last {
		end()
	}
	if made.dir != "" {
		os.RemoveAll(made.dir)
	}
	os.Exit(code)
}

// folder returns the folder of what is made, with its cache of photos.
func folder() (string, *photo.Cache, error) {
	if made.dir == "" {
		dir, err := os.MkdirTemp("", "spruelight-example")
		if err != nil {
			return "", nil, err
		}
		made.dir, made.sites = dir, map[string]string{}
	}
	if made.photos == nil {
		cache, err := photo.OpenCache(filepath.Join(made.dir, "cache"), "example", photo.DefaultCacheBytes)
		if err != nil {
			return "", nil, err
		}
		made.photos = cache
	}
	return made.dir, made.photos, nil
}

// Photos returns the photos made for the example, kept for all tests.
func Photos(t testing.TB) *photo.Cache {
	t.Helper()
	made.mu.Lock()
	defer made.mu.Unlock()
	_, cache, err := folder()
	if err != nil {
		t.Fatal(err)
	}
	return cache
}

// Env is the example as it lies in the repository, worked on by so many
// workers, 0 for as many as there are cores.
func Env(t testing.TB, workers int) gen.Env {
	t.Helper()
	return gen.Env{Content: os.DirFS(Content), Themes: themes.FS, Moment: Moment, Workers: workers, Photos: Photos(t), Version: "test"}
}

// Site returns the folder of the example's site, which tests only read.
func Site(t testing.TB) string {
	t.Helper()
	return in(t, "sheet")
}

// Lamplight returns the folder of the example's site in the theme lamplight.
func Lamplight(t testing.TB) string {
	t.Helper()
	return in(t, "lamplight")
}

// in assembles the example in a theme, once.
func in(t testing.TB, theme string) string {
	t.Helper()
	env := Env(t, 0)
	made.mu.Lock()
	defer made.mu.Unlock()
	if site, ok := made.sites[theme]; ok {
		return site
	}
	site, err := write(env, theme)
	if err != nil {
		t.Fatal(err)
	}
	made.sites[theme] = site
	return site
}

func write(env gen.Env, theme string) (string, error) {
	content, err := Changed(env.Content, "theme: sheet", "theme: "+theme)
	if err != nil {
		return "", err
	}
	env.Content = content
	var files output.Memory
	res, err := gen.Assemble(context.Background(), env, &files)
	if err != nil {
		return "", err
	}
	if res.Findings.Stops() {
		return "", fmt.Errorf("no site: %v", res.Findings)
	}
	site := filepath.Join(made.dir, "site-"+theme)
	_, err = output.Write(context.Background(), site, files.Files(), output.Options{})
	return site, err
}

// Changed is a workshop in whose settings a text is replaced.
func Changed(content fs.FS, from, to string) (fs.FS, error) {
	text, err := fs.ReadFile(content, "workshop.yaml")
	if err != nil {
		return nil, err
	}
	if !strings.Contains(string(text), from) {
		return nil, errors.New("workshop.yaml does not say " + from)
	}
	return Overlaid{content, fstest.MapFS{"workshop.yaml": {Data: []byte(strings.Replace(string(text), from, to, 1))}}}, nil
}

// Overlaid is a file system with some files replaced.
type Overlaid struct {
	fs.FS
	Over fstest.MapFS
}

// Open opens a file, that of Over first.
func (o Overlaid) Open(name string) (fs.File, error) {
	if _, ok := o.Over[name]; ok {
		return o.Over.Open(name)
	}
	return o.FS.Open(name)
}

// Files returns a site's files with an ending, relative to it, in order.
func Files(t testing.TB, site, ending string) []string {
	t.Helper()
	var list []string
	err := filepath.WalkDir(site, func(name string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() && strings.HasSuffix(name, ending) {
			rel, _ := filepath.Rel(site, name)
			list = append(list, filepath.ToSlash(rel))
		}
		return err
	})
	if err != nil || len(list) == 0 {
		t.Fatalf("no %s in the site (%v)", ending, err)
	}
	return list
}

// Page is one page of a site and its kind.
type Page struct{ Kind, Path string }

var kind = regexp.MustCompile(`<body class="kind-(\w+)"`)

// Kinds returns one page of each kind, the largest, in short the smallest, in
// the order of the kinds.
func Kinds(t testing.TB, site string) []Page {
	t.Helper()
	of, best := map[string]string{}, map[string]int{}
	for _, name := range Files(t, site, ".html") {
		text, err := os.ReadFile(filepath.Join(site, name))
		if err != nil {
			t.Fatal(err)
		}
		m, rank := kind.FindSubmatch(text), effort.Of(-len(text), len(text))
		if m == nil {
			continue
		}
		if kind := string(m[1]); of[kind] == "" || rank > best[kind] {
			of[kind], best[kind] = name, rank
		}
	}
	var pages []Page
	for kind, name := range of {
		pages = append(pages, Page{kind, name})
	}
	slices.SortFunc(pages, func(a, b Page) int { return strings.Compare(a.Kind, b.Kind) })
	return pages
}

// Serve serves a site by HTTP for the length of a test and returns its address.
func Serve(t testing.TB, site string) string {
	t.Helper()
	server := httptest.NewServer(http.FileServer(http.Dir(site)))
	t.Cleanup(server.Close)
	return server.URL + "/"
}
