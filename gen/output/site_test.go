package output

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
)

// A tree is what a folder holds: relative path to content. Links are "-> target".
type tree map[string]string

func (t tree) files() []File {
	var files []File
	for _, p := range slices.Sorted(maps.Keys(t)) {
		files = append(files, File{Path: p, Bytes: []byte(t[p])})
	}
	return files
}

// with returns the tree with others laid over it.
func (t tree) with(others ...tree) tree {
	all := maps.Clone(t)
	for _, o := range others {
		maps.Copy(all, o)
	}
	return all
}

// read returns everything in a folder except our list.
func read(t testing.TB, dir string) tree {
	t.Helper()
	got := tree{}
	err := filepath.WalkDir(dir, func(p string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		rel, _ := filepath.Rel(dir, p)
		if rel = filepath.ToSlash(rel); rel == ListName {
			return nil
		}
		if e.Type()&fs.ModeSymlink != 0 {
			to, err := os.Readlink(p)
			got[rel] = "-> " + to
			return err
		}
		data, err := os.ReadFile(p)
		got[rel] = string(data)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return got
}

func put(t testing.TB, dir string, files tree) {
	t.Helper()
	for p, text := range files {
		name := filepath.Join(dir, filepath.FromSlash(p))
		if err := os.MkdirAll(filepath.Dir(name), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
}

func mustWrite(t testing.TB, dir string, site tree) Report {
	t.Helper()
	rep, err := Write(context.Background(), dir, site.files(), Options{})
	if err != nil {
		t.Fatalf("writing: %v", err)
	}
	return rep
}

func mustHold(t testing.TB, dir string, want tree) {
	t.Helper()
	if got := read(t, dir); !maps.Equal(got, want) {
		t.Fatalf("%s holds\n  %v\nwant\n  %v", dir, got, want)
	}
}

// mustBeAlone checks that a run left nothing beside its target.
func mustBeAlone(t testing.TB, target string, others ...string) {
	t.Helper()
	entries, err := os.ReadDir(filepath.Dir(target))
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if e.Name() != filepath.Base(target) && !slices.Contains(others, e.Name()) {
			t.Errorf("%s was left beside %s", e.Name(), target)
		}
	}
}

var (
	siteA = tree{"index.html": "front A", "builds/marram/index.html": "marram A",
		"builds/marram/p.jpg": "photo", "style.css": "css", "old/gone.html": "gone"}
	siteB = tree{"index.html": "front B", "builds/marram/index.html": "marram B",
		"builds/marram/p.jpg": "photo", "style.css": "css", "new/here.html": "here"}
)

// killSites are large enough that staging, swapping and
// clearing away each take their time. Every tenth file is the same in both.
func killSites() (a, b tree) {
	a, b = tree{}, tree{}
	for i := range 300 {
		p := fmt.Sprintf("builds/%02d/%03d/index.html", i%7, i)
		a[p] = fmt.Sprintf("A %d %s", i, strings.Repeat("x", i*7))
		b[p] = a[p]
		if i%10 != 0 {
			b[p] = fmt.Sprintf("B %d %s", i, strings.Repeat("y", i*5))
		}
	}
	for i := range 40 {
		a[fmt.Sprintf("only-a/%d.html", i)] = fmt.Sprint("A ", i)
		b[fmt.Sprintf("only-b/%d.html", i)] = fmt.Sprint("B ", i)
	}
	return a, b
}

func TestWriteAndReplace(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "site")
	rep := mustWrite(t, dir, siteA)
	mustHold(t, dir, siteA)
	if rep.Written != 5 || rep.Kept != 0 || rep.Removed != 0 || rep.Bytes != 7+8+5+3+4 {
		t.Errorf("first run: %+v", rep)
	}
	rep = mustWrite(t, dir, siteB)
	mustHold(t, dir, siteB)
	if rep.Written != 3 || rep.Kept != 2 || rep.Removed != 1 || rep.Recovered || rep.Replaced != nil {
		t.Errorf("second run: %+v", rep)
	}
	mustBeAlone(t, dir)
	if _, err := os.Stat(filepath.Join(dir, "old")); !os.IsNotExist(err) {
		t.Errorf("the folder of a removed file is still there: %v", err)
	}
}

// stamps returns what must not change for a file that is kept.
func stamps(t testing.TB, dir string) map[string]fs.FileInfo {
	t.Helper()
	got := map[string]fs.FileInfo{}
	err := filepath.WalkDir(dir, func(p string, e fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		info, err := os.Lstat(p)
		rel, _ := filepath.Rel(dir, p)
		got[filepath.ToSlash(rel)] = info
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return got
}

func same(a, b fs.FileInfo) bool {
	return os.SameFile(a, b) && a.ModTime().Equal(b.ModTime()) && a.Mode() == b.Mode()
}

func TestKeptFilesKeepInodeAndTime(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "site")
	mustWrite(t, dir, siteA)
	before := stamps(t, dir)
	mustWrite(t, dir, siteB)
	after := stamps(t, dir)
	for _, p := range []string{"builds/marram/p.jpg", "style.css"} {
		if !same(before[p], after[p]) {
			t.Errorf("%s was rewritten", p)
		}
	}
}

func TestNothingChangedTouchesNothing(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "site")
	mustWrite(t, dir, siteA)
	put(t, dir, tree{"CNAME": "bench.example"})
	before := stamps(t, dir)
	for range 3 {
		rep := mustWrite(t, dir, siteA)
		if rep.Written != 0 || rep.Removed != 0 || rep.Bytes != 0 || rep.Kept != len(siteA) {
			t.Errorf("a run without changes reports %+v", rep)
		}
	}
	after := stamps(t, dir)
	if len(before) != len(after) {
		t.Fatalf("%d entries became %d", len(before), len(after))
	}
	for p := range before {
		if !same(before[p], after[p]) {
			t.Errorf("%q was touched", p)
		}
	}
	mustBeAlone(t, dir)
}

// A file of ours that somebody edits, cuts, deletes or turns into a link is
// found out and put right, though the list says that it is unchanged.
func TestDamageIsRepaired(t *testing.T) {
	damage := map[string]func(string) error{
		"edited, same size": func(p string) error { return os.WriteFile(p, []byte("FRONT A"), 0o666) },
		"cut":               func(p string) error { return os.Truncate(p, 2) },
		"cut, old time": func(p string) error {
			os.Truncate(p, 2)
			return os.Chtimes(p, time.Unix(1e9, 0), time.Unix(1e9, 0))
		},
		"deleted": os.Remove,
		"link": func(p string) error {
			os.Remove(p)
			return os.Symlink("style.css", p)
		},
	}
	for name, do := range damage {
		t.Run(name, func(t *testing.T) {
			dir := filepath.Join(t.TempDir(), "site")
			mustWrite(t, dir, siteA)
			if err := do(filepath.Join(dir, "index.html")); err != nil {
				t.Fatal(err)
			}
			rep := mustWrite(t, dir, siteA)
			mustHold(t, dir, siteA)
			if !slices.Equal(rep.Replaced, []string{"index.html"}) || rep.Written != 1 {
				t.Errorf("report: %+v", rep)
			}
		})
	}
}

// A copied site has younger files than its list. They are compared once; then
// the list is made younger, so that the next run need not read them.
func TestCopiedSiteIsComparedOnce(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "site")
	mustWrite(t, dir, siteA)
	old := time.Now().Add(-time.Hour)
	list := filepath.Join(dir, ListName)
	if err := os.Chtimes(list, old, old); err != nil {
		t.Fatal(err)
	}
	young := time.Now().Add(-time.Minute)
	for p := range siteA {
		if err := os.Chtimes(filepath.Join(dir, p), young, young); err != nil {
			t.Fatal(err)
		}
	}
	if rep := mustWrite(t, dir, siteA); rep.Written != 0 {
		t.Errorf("same bytes were written again: %+v", rep)
	}
	info, err := os.Stat(list)
	if err != nil || !info.ModTime().After(young) {
		t.Errorf("the list was left at %v, %v", info.ModTime(), err)
	}
}

func TestContentFromElsewhere(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "site")
	opened := 0
	photo := File{Path: "p.jpg", Size: 5}
	_, photo.Hash, _ = sumOf(strings.NewReader("photo"))
	photo.Open = func() (io.ReadCloser, error) {
		opened++
		return io.NopCloser(strings.NewReader("photo")), nil
	}
	for range 2 {
		if _, err := Write(context.Background(), dir, []File{photo}, Options{}); err != nil {
			t.Fatal(err)
		}
	}
	if opened != 1 {
		t.Errorf("a rendition of known sum was opened %d times, want once", opened)
	}
	mustHold(t, dir, tree{"p.jpg": "photo"})

	broken := errors.New("the cache is gone")
	cases := map[string]struct {
		file File
		want string
	}{
		"changes while read": {File{Path: "p.jpg", Size: 5, Hash: strings.Repeat("0", 64), Open: photo.Open}, "changed while it was read"},
		"cannot be opened":   {File{Path: "q.jpg", Open: func() (io.ReadCloser, error) { return nil, broken }}, "reading what becomes q.jpg: the cache is gone"},
		"breaks off": {File{Path: "q.jpg", Size: 9, Hash: strings.Repeat("0", 64), Open: func() (io.ReadCloser, error) {
			return io.NopCloser(io.MultiReader(strings.NewReader("pho"), brokenReader{broken})), nil
		}}, "reading what becomes q.jpg: the cache is gone"},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			_, err := Write(context.Background(), dir, []File{c.file}, Options{})
			if err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("got %v, want %q", err, c.want)
			}
			mustHold(t, dir, tree{"p.jpg": "photo"})
			mustBeAlone(t, dir)
		})
	}
}

type brokenReader struct{ err error }

func (b brokenReader) Read([]byte) (int, error) { return 0, b.err }

func TestCancelledRunLeavesTheFormerSite(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "site")
	mustWrite(t, dir, siteA)
	ctx, cancel := context.WithCancel(context.Background())
	files := siteB.files()
	last := &files[len(files)-1]
	data := last.Bytes
	_, last.Hash, _ = sumOf(bytes.NewReader([]byte("other")))
	last.Size = 5
	last.Open = func() (io.ReadCloser, error) {
		cancel() // in the middle of staging
		return io.NopCloser(bytes.NewReader(data)), nil
	}
	if _, err := Write(ctx, dir, files, Options{}); err == nil {
		t.Fatal("a cancelled run reports success")
	}
	mustHold(t, dir, siteA)
	mustBeAlone(t, dir)
}

// The same site is the same bytes, list included, whatever the order of files.
func TestDeterministic(t *testing.T) {
	one, two := filepath.Join(t.TempDir(), "site"), filepath.Join(t.TempDir(), "elsewhere")
	mustWrite(t, one, siteB)
	mustWrite(t, two, siteA)
	files := siteB.files()
	slices.Reverse(files)
	if _, err := Write(context.Background(), two, files, Options{}); err != nil {
		t.Fatal(err)
	}
	a, errA := os.ReadFile(filepath.Join(one, ListName))
	b, errB := os.ReadFile(filepath.Join(two, ListName))
	if errA != nil || errB != nil || !bytes.Equal(a, b) {
		t.Errorf("lists differ (%v, %v):\n%s\n%s", errA, errB, a, b)
	}
}
