package output

import (
	"bytes"
	"context"
	"errors"
	"io"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
)

// putAll puts every file of a site at once, each from a goroutine of its own.
func putAll(s Site, site tree) error {
	files := site.files()
	faults := make([]error, len(files))
	var group sync.WaitGroup
	for i, f := range files {
		group.Go(func() { faults[i] = s.Put(f) })
	}
	group.Wait()
	return errors.Join(faults...)
}

func begin(t *testing.T, dir string) *Writer {
	t.Helper()
	w := New(context.Background(), dir, Options{})
	t.Cleanup(w.Close)
	return w
}

// Files that come in any order from several goroutines give the same site, the
// same list and the same report as all of them at once.
func TestFilesFromManyGoroutines(t *testing.T) {
	one, other := filepath.Join(t.TempDir(), "site"), filepath.Join(t.TempDir(), "site")
	a, b := killSites()
	for _, site := range []tree{a, b, b} {
		w := begin(t, one)
		if err := putAll(w, site); err != nil {
			t.Fatal(err)
		}
		got, err := w.Swap()
		if err != nil {
			t.Fatal(err)
		}
		want := mustWrite(t, other, site)
		if got.Written != want.Written || got.Kept != want.Kept || got.Removed != want.Removed || got.Bytes != want.Bytes {
			t.Errorf("reports %+v, want %+v", got, want)
		}
		mustHold(t, one, site)
		mustBeAlone(t, one)
		x, errX := os.ReadFile(filepath.Join(one, ListName))
		y, errY := os.ReadFile(filepath.Join(other, ListName))
		if errX != nil || errY != nil || !bytes.Equal(x, y) {
			t.Errorf("lists differ (%v, %v)", errX, errY)
		}
	}
}

// Until the swap the former site stands, and without it nothing is left.
func TestNothingIsSwappedBeforeItsTime(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "site")
	mustWrite(t, dir, siteA)
	w := begin(t, dir)
	if err := putAll(w, siteB); err != nil {
		t.Fatal(err)
	}
	mustHold(t, dir, siteA)
	w.Close()
	mustHold(t, dir, siteA)
	mustBeAlone(t, dir)
	if err := w.Put(File{Path: "late.html"}); err == nil {
		t.Error("a closed site takes a file")
	}
	if _, err := w.Swap(); err == nil {
		t.Error("a closed site is swapped")
	}
	mustHold(t, dir, siteA)
	mustBeAlone(t, dir)
}

// A site that gets no file touches nothing, not even the folder above.
func TestNothingIsLookedAtBeforeTheFirstFile(t *testing.T) {
	above := filepath.Join(t.TempDir(), "a")
	w := begin(t, filepath.Join(above, "site"))
	w.Close()
	if _, err := os.Lstat(above); !os.IsNotExist(err) {
		t.Errorf("the folder above was made: %v", err)
	}
}

// After any failure there is no swap, though the caller goes on.
func TestFailureBarsTheSwap(t *testing.T) {
	broken := errors.New("the cache is gone")
	cases := map[string]struct {
		fail func(*Writer) error
		want string
	}{
		"content": {func(w *Writer) error {
			return w.Put(File{Path: "p.jpg", Open: func() (io.ReadCloser, error) { return nil, broken }})
		}, "the cache is gone"},
		"put twice":       {func(w *Writer) error { return w.Put(File{Path: "index.html"}) }, `"index.html" occurs twice`},
		"twins":           {func(w *Writer) error { return w.Put(File{Path: "Index.html"}) }, "differ only in case"},
		"file and folder": {func(w *Writer) error { return w.Put(File{Path: "builds"}) }, `is also the folder of "builds/marram/`},
		"leads out":       {func(w *Writer) error { return w.Put(File{Path: "../x"}) }, `has ".." in it`},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			dir := filepath.Join(t.TempDir(), "site")
			mustWrite(t, dir, siteA)
			w := begin(t, dir)
			if err := putAll(w, siteB); err != nil {
				t.Fatal(err)
			}
			if err := c.fail(w); err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("got %v, want %q", err, c.want)
			}
			if err := w.Put(File{Path: "next.html"}); err == nil {
				t.Error("the next file is taken")
			}
			if _, err := w.Swap(); err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("the swap ends with %v, want %q", err, c.want)
			}
			mustHold(t, dir, siteA)
			mustBeAlone(t, dir)
		})
	}
}

func TestCancelledBetweenPutAndSwap(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "site")
	mustWrite(t, dir, siteA)
	ctx, cancel := context.WithCancelCause(context.Background())
	w := New(ctx, dir, Options{})
	if err := putAll(w, siteB); err != nil {
		t.Fatal(err)
	}
	cancel(errors.New("enough"))
	if _, err := w.Swap(); err == nil || err.Error() != "enough" {
		t.Errorf("got %v", err)
	}
	mustHold(t, dir, siteA)
	mustBeAlone(t, dir)
}

// What somebody does to a kept file while the new site is made is not taken
// over as if it were ours.
func TestKeptFileThatChangesBeforeTheSwap(t *testing.T) {
	changes := map[string]func(string) error{
		"edited":  func(p string) error { return os.WriteFile(p, []byte("CSS"), 0o666) },
		"removed": os.Remove,
	}
	for name, change := range changes {
		t.Run(name, func(t *testing.T) {
			dir := filepath.Join(t.TempDir(), "site")
			mustWrite(t, dir, siteA)
			w := begin(t, dir)
			if err := putAll(w, siteB); err != nil {
				t.Fatal(err)
			}
			if err := change(filepath.Join(dir, "style.css")); err != nil {
				t.Fatal(err)
			}
			_, err := w.Swap()
			if err == nil || !strings.HasSuffix(err.Error(), "style.css: was changed while the new site was being made; run again") {
				t.Errorf("got %v", err)
			}
			mustBeAlone(t, dir)
			if rep := mustWrite(t, dir, siteB); !slices.Equal(rep.Replaced, []string{"style.css"}) {
				t.Errorf("the next run reports %+v", rep)
			}
			mustHold(t, dir, siteB)
		})
	}
}

func sumText(text string) string {
	_, sum, _ := sumOf(strings.NewReader(text))
	return sum
}

func TestKeep(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "site")
	mustWrite(t, dir, siteA)
	put(t, dir, tree{"index.html": "FRONT A", "theirs.css": "css"})
	before := stamps(t, dir)
	w := begin(t, dir)
	for _, c := range []struct {
		path, text string
		kept       bool
	}{
		{"style.css", "css", true},
		{"builds/marram/p.jpg", "another photo", false},
		{"index.html", "front A", false}, // edited since
		{"index.html", "FRONT A", false}, // not what was written
		{"theirs.css", "css", false},
		{"nowhere.css", "css", false},
		{"../site/style.css", "css", false},
	} {
		err := w.Keep(c.path, sumText(c.text))
		if c.kept && err != nil || !c.kept && !errors.Is(err, ErrNotKept) {
			t.Errorf("%s as %q: %v", c.path, c.text, err)
		}
	}
	for _, p := range []string{"index.html", "builds/marram/p.jpg"} {
		if err := w.Put(File{Path: p, Bytes: []byte(siteA[p])}); err != nil {
			t.Fatal(err)
		}
	}
	rep, err := w.Swap()
	if err != nil {
		t.Fatal(err)
	}
	if rep.Kept != 2 || rep.Written != 1 || rep.Removed != 2 || !slices.Equal(rep.Replaced, []string{"index.html"}) {
		t.Errorf("report: %+v", rep)
	}
	want := tree{"index.html": "front A", "builds/marram/p.jpg": "photo", "style.css": "css", "theirs.css": "css"}
	mustHold(t, dir, want)
	mustBeAlone(t, dir)
	for p, after := range stamps(t, dir) {
		if (p == "style.css" || p == "theirs.css") && !same(before[p], after) {
			t.Errorf("%s is not the same file any more", p)
		}
	}
}

// A file that is kept counts like one that was put.
func TestKeptAndPut(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "site")
	mustWrite(t, dir, siteA)
	w := begin(t, dir)
	if err := w.Keep("style.css", sumText("css")); err != nil {
		t.Fatal(err)
	}
	if err := w.Put(File{Path: "style.css", Bytes: []byte("other")}); err == nil || !strings.Contains(err.Error(), "occurs twice") {
		t.Errorf("got %v", err)
	}
}

func TestMemory(t *testing.T) {
	var m Memory
	if err := putAll(&m, siteA); err != nil {
		t.Fatal(err)
	}
	if err := m.Keep("style.css", sumText("css")); !errors.Is(err, ErrNotKept) {
		t.Errorf("keeps: %v", err)
	}
	got := tree{}
	for _, f := range m.Files() {
		got[f.Path] = string(f.Bytes)
	}
	if rep, err := m.Swap(); err != nil || rep.Written != len(siteA) || !maps.Equal(got, siteA) {
		t.Errorf("holds %v, %+v, %v", got, rep, err)
	}
	if !slices.IsSortedFunc(m.Files(), func(a, b File) int { return strings.Compare(a.Path, b.Path) }) {
		t.Error("not in order")
	}
	if err := m.Put(File{Path: "STYLE.css"}); err == nil {
		t.Error("takes what a folder could not hold")
	}
}
