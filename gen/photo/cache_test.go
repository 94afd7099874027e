package photo

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/gofrs/flock"
)

// countingFS counts how often a photo is opened.
type countingFS struct {
	fs.FS
	opened int
}

func (c *countingFS) Open(name string) (fs.File, error) {
	c.opened++
	return c.FS.Open(name)
}

// Stat keeps fs.Stat from opening the file.
func (c *countingFS) Stat(name string) (fs.FileInfo, error) { return fs.Stat(c.FS, name) }

func entriesOf(t *testing.T, dir string) []string {
	t.Helper()
	list, err := filepath.Glob(filepath.Join(dir, "*.photo"))
	if err != nil {
		t.Fatal(err)
	}
	return list
}

func open(t *testing.T, dir string, most int64) *Cache {
	t.Helper()
	c, err := OpenCache(dir, "/workshop", most)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func TestCacheReuses(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "cache")
	data := asJPEG(t, bench(900, 600))
	photos := folder(map[string][]byte{"old/a.jpg": data, "new/b.jpg": data})
	run := func(name string, recipe Recipe, reused bool, opens int) Set {
		t.Helper()
		c := open(t, dir, 0)
		counted := &countingFS{FS: photos}
		set, err := c.Make(t.Context(), counted, name, recipe)
		if err != nil {
			t.Fatal(err)
		}
		if set.Reused != reused || counted.opened != opens {
			t.Errorf("%s: reused %v, want %v; opened %d times, want %d", name, set.Reused, reused, counted.opened, opens)
		}
		if err := c.Flush(); err != nil {
			t.Fatal(err)
		}
		return set
	}
	first := run("old/a.jpg", DefaultRecipe(), false, 1)
	second := run("old/a.jpg", DefaultRecipe(), true, 0) // nothing to do: not even read
	moved := run("new/b.jpg", DefaultRecipe(), true, 1)  // read once to know it by its content
	for i := range first.Renditions {
		a, _ := first.Renditions[i].Read()
		b, _ := second.Renditions[i].Read()
		c, _ := moved.Renditions[i].Read()
		if len(a) == 0 || !bytes.Equal(a, b) || !bytes.Equal(a, c) || int64(len(a)) != first.Renditions[i].Bytes ||
			hash(a) != first.Renditions[i].Hash {
			t.Errorf("rendition %d differs between runs", i)
		}
	}
	if first.Info != second.Info || first.Placeholder.DataURI() != second.Placeholder.DataURI() ||
		first.Placeholder.Colour != second.Placeholder.Colour {
		t.Errorf("the cache remembers %+v as %+v", first, second)
	}
	other := DefaultRecipe()
	other.Quality--
	run("new/b.jpg", other, false, 1)
	if n := len(entriesOf(t, dir)); n != 2 {
		t.Errorf("%d entries, want 2: one for each recipe", n)
	}
}

// A photo that was changed at the same size is seen by its time; one that was
// written a moment ago is not trusted by its time at all.
func TestCacheSeesChanges(t *testing.T) {
	dir := t.TempDir()
	root := t.TempDir()
	photos := os.DirFS(root)
	path := filepath.Join(root, "a.jpg")
	one, two := asJPEG(t, bench(400, 300)), asJPEG(t, bench(402, 300))
	one, two = padded(one, len(two)), padded(two, len(one))
	write := func(data []byte, at time.Time) {
		t.Helper()
		if err := os.WriteFile(path, data, 0o644); err != nil {
			t.Fatal(err)
		}
		if err := os.Chtimes(path, at, at); err != nil {
			t.Fatal(err)
		}
	}
	width := func() int {
		t.Helper()
		c := open(t, dir, 0)
		set, err := c.Make(t.Context(), photos, "a.jpg", DefaultRecipe())
		if err != nil {
			t.Fatal(err)
		}
		if err := c.Flush(); err != nil {
			t.Fatal(err)
		}
		return set.Info.Shown.Width
	}
	write(one, longAgo)
	if w := width(); w != 400 {
		t.Fatalf("width %d", w)
	}
	write(two, longAgo.Add(time.Hour))
	if w := width(); w != 402 {
		t.Errorf("a later change of the same size went unseen: width %d", w)
	}
	now := time.Now()
	write(one, now)
	width()
	write(two, now)
	if w := width(); w != 402 {
		t.Errorf("a change within the same tick went unseen: width %d", w)
	}
}

// padded returns a JPEG with a comment appended behind its end, so that two
// pictures have files of one size.
func padded(jpeg []byte, size int) []byte {
	if len(jpeg) >= size {
		return jpeg
	}
	return append(bytes.Clone(jpeg), make([]byte, size-len(jpeg))...)
}

func TestDamagedEntryIsMadeAgain(t *testing.T) {
	photos := folder(map[string][]byte{"a.jpg": asJPEG(t, bench(500, 400))})
	flip := func(at func(int) int) func([]byte) []byte {
		return func(b []byte) []byte { b[at(len(b))] ^= 1; return b }
	}
	for name, damage := range map[string]func([]byte) []byte{
		"first byte":     flip(func(int) int { return 0 }),
		"description":    flip(func(int) int { return 200 }),
		"last rendition": flip(func(n int) int { return n - 10 }),
		"cut short":      func(b []byte) []byte { return b[:len(b)-1] },
		"empty":          func([]byte) []byte { return nil },
		"too long":       func(b []byte) []byte { return append(b, 0) },
		"removed":        nil,
	} {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			c := open(t, dir, 0)
			good, err := c.Make(t.Context(), photos, "a.jpg", DefaultRecipe())
			if err != nil {
				t.Fatal(err)
			}
			entry := entriesOf(t, dir)[0]
			whole, err := os.ReadFile(entry)
			if err != nil {
				t.Fatal(err)
			}
			if damage == nil {
				err = os.Remove(entry)
			} else {
				err = os.WriteFile(entry, damage(bytes.Clone(whole)), 0o644)
			}
			if err != nil {
				t.Fatal(err)
			}
			// Both the set of before and one asked for now give the true bytes.
			again, err := c.Make(t.Context(), photos, "a.jpg", DefaultRecipe())
			if err != nil {
				t.Fatal(err)
			}
			for _, set := range []Set{good, again} {
				for _, r := range set.Renditions {
					if b, err := r.Read(); err != nil || hash(b) != r.Hash {
						t.Errorf("rendition %s: %v", r.Size, err)
					}
				}
			}
			if mended, err := os.ReadFile(entry); err != nil || !bytes.Equal(mended, whole) {
				t.Errorf("the entry was not mended: %v", err)
			}
		})
	}
}

func TestCacheIsPruned(t *testing.T) {
	dir := t.TempDir()
	files := map[string][]byte{}
	for i, name := range []string{"a.jpg", "b.jpg", "c.jpg", "d.jpg"} {
		files[name] = asJPEG(t, bench(300+i, 300))
	}
	photos := folder(files)
	at := time.Now()
	session := func(most int64, names ...string) *Cache {
		t.Helper()
		c := open(t, dir, most)
		c.now = func() time.Time { return at }
		for _, name := range names {
			at = at.Add(2 * time.Hour)
			if _, err := c.Make(t.Context(), photos, name, DefaultRecipe()); err != nil {
				t.Fatal(err)
			}
		}
		if err := c.Flush(); err != nil {
			t.Fatal(err)
		}
		return c
	}
	session(0, "a.jpg", "b.jpg", "c.jpg")
	for _, e := range entriesOf(t, dir) {
		if err := os.Chtimes(e, at, at); err != nil {
			t.Fatal(err)
		}
	}
	session(0, "a.jpg") // a is now the latest used
	stranger := filepath.Join(dir, "keep me.photo")
	if err := os.WriteFile(stranger, []byte("x"), 0o644); err != nil {
		t.Fatal(err)
	}
	one, err := os.Stat(entriesOf(t, dir)[0])
	if err != nil {
		t.Fatal(err)
	}
	session(one.Size()*5/2, "d.jpg") // room for two: a, used latest, and d
	c := open(t, dir, 0)
	for name, want := range map[string]bool{"a.jpg": true, "b.jpg": false, "c.jpg": false, "d.jpg": true} {
		content := hash(files[name])
		_, _, err := c.describe(job{recipe: DefaultRecipe()}.entry(content))
		if (err == nil) != want {
			t.Errorf("%s is kept: %v, want %v", name, err == nil, want)
		}
	}
	if _, err := os.Stat(stranger); err != nil {
		t.Errorf("a file that is not ours was removed: %v", err)
	}
}

// What a run that was cut off left unfinished goes at the next run of any verb;
// what a run that lives has its lock on stays.
func TestSweepLeavesTheLivingAlone(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{"dead", "alive"} {
		if err := writeWhole(filepath.Join(dir, unfinished, name), []byte("half")); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.RemoveAll(filepath.Join(dir, unfinished, unfinished)); err != nil {
		t.Fatal(err)
	}
	held := flock.New(filepath.Join(dir, unfinished, "alive.lock"))
	if free, err := held.TryLock(); err != nil || !free {
		t.Fatal(free, err)
	}
	Sweep(dir)
	entries, err := os.ReadDir(filepath.Join(dir, unfinished))
	if err != nil || len(entries) != 2 || entries[0].Name() != "alive" {
		t.Errorf("left %v, %v", entries, err)
	}
	held.Close()
	Sweep(dir)
	if entries, _ = os.ReadDir(filepath.Join(dir, unfinished)); len(entries) != 0 {
		t.Errorf("left %v", entries)
	}
}

// However small the bound, what a session asked for is there when it is read,
// which comes after Flush; the next session gives up what it does not need.
func TestPruningSparesThisSession(t *testing.T) {
	dir := t.TempDir()
	files := map[string][]byte{"a.jpg": asJPEG(t, bench(300, 300)), "b.jpg": asJPEG(t, bench(310, 300))}
	session := func(entries int, names ...string) {
		t.Helper()
		c := open(t, dir, 1)
		counted := &countingFS{FS: folder(files)}
		var sets []Set
		for _, name := range names {
			set, err := c.Make(t.Context(), counted, name, DefaultRecipe())
			if err != nil {
				t.Fatal(err)
			}
			sets = append(sets, set)
		}
		if err := c.Flush(); err != nil {
			t.Fatal(err)
		}
		before := counted.opened
		for _, set := range sets {
			if _, err := set.Renditions[0].Read(); err != nil {
				t.Error(err)
			}
		}
		if counted.opened != before {
			t.Errorf("%v: photos were worked on twice", names)
		}
		if n := len(entriesOf(t, dir)); n != entries {
			t.Errorf("%v: %d entries left, want %d", names, n, entries)
		}
	}
	session(2, "a.jpg", "b.jpg")
	session(2, "a.jpg", "b.jpg")
	session(1, "b.jpg")
}

// The folder may vanish between two calls.
func TestCacheFolderMayBeDeleted(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "cache")
	photos := folder(map[string][]byte{"a.jpg": asJPEG(t, bench(300, 300))})
	c := open(t, dir, 0)
	for range 2 {
		set, err := c.Make(t.Context(), photos, "a.jpg", DefaultRecipe())
		if err != nil {
			t.Fatal(err)
		}
		if err := os.RemoveAll(dir); err != nil {
			t.Fatal(err)
		}
		if _, err := set.Renditions[0].Read(); err != nil {
			t.Error(err)
		}
		if err := os.RemoveAll(dir); err != nil {
			t.Fatal(err)
		}
		if err := c.Flush(); err != nil {
			t.Error(err)
		}
	}
}

// A cache that cannot be written costs nothing but the next run's time.
func TestCacheThatCannotBeWritten(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "cache")
	c := open(t, dir, 0)
	if err := os.RemoveAll(dir); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(dir, nil, 0o644); err != nil { // a file where the folder was
		t.Fatal(err)
	}
	photos := folder(map[string][]byte{"a.jpg": asJPEG(t, bench(300, 300))})
	for i := range 2 {
		set, err := c.Make(t.Context(), photos, "a.jpg", DefaultRecipe())
		if err != nil || set.Reused != (i == 1) {
			t.Fatalf("%v, reused %v", err, set.Reused)
		}
		if _, err := set.Renditions[0].Read(); err != nil {
			t.Error(err)
		}
	}
	if err := c.Flush(); err == nil {
		t.Error("Flush says nothing")
	}
}

// Workers and processes may share a cache: the same photo under many names is
// made once in a process, and two processes do not disturb each other.
func TestCacheIsShared(t *testing.T) {
	dir := t.TempDir()
	files := map[string][]byte{}
	same := asJPEG(t, bench(400, 300))
	for i := range 12 {
		files[fmt.Sprintf("%d.jpg", i)] = same
		files[fmt.Sprintf("%d-own.jpg", i)] = asJPEG(t, bench(300+i, 200))
	}
	photos := folder(files)
	var made atomic.Int64
	var group sync.WaitGroup
	for range 2 { // two processes
		c := open(t, dir, 0)
		for i := range 12 {
			group.Go(func() {
				for _, name := range []string{fmt.Sprintf("%d.jpg", i), fmt.Sprintf("%d-own.jpg", i)} {
					set, err := c.Make(t.Context(), photos, name, DefaultRecipe())
					if err != nil {
						t.Error(err)
						return
					}
					if !set.Reused {
						made.Add(1)
					}
					for _, r := range set.Renditions {
						if _, err := r.Read(); err != nil {
							t.Error(err)
						}
					}
				}
				if err := c.Flush(); err != nil {
					t.Error(err)
				}
			})
		}
	}
	group.Wait()
	if n := len(entriesOf(t, dir)); n != 13 {
		t.Errorf("%d entries, want 13", n)
	}
	if n := made.Load(); n > 26 {
		t.Errorf("%d photos made by two processes, want 26 at most", n)
	}
}

// A run that was called off leaves nothing half made.
func TestCancelled(t *testing.T) {
	dir := t.TempDir()
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	_, err := open(t, dir, 0).Make(ctx, folder(map[string][]byte{"a.jpg": asJPEG(t, bench(300, 300))}), "a.jpg", DefaultRecipe())
	if !errors.Is(err, context.Canceled) || len(entriesOf(t, dir)) != 0 {
		t.Errorf("%v, %d entries", err, len(entriesOf(t, dir)))
	}
}

// BenchmarkNothingToDo asks for 1000 photos that the cache has.
func BenchmarkNothingToDo(b *testing.B) {
	root := b.TempDir()
	for i := range 1000 {
		path := filepath.Join(root, fmt.Sprintf("%d.jpg", i))
		if err := os.WriteFile(path, asJPEG(b, bench(40+i%100, 40+i/100)), 0o644); err != nil {
			b.Fatal(err)
		}
		if err := os.Chtimes(path, longAgo, longAgo); err != nil {
			b.Fatal(err)
		}
	}
	dir := b.TempDir()
	run := func() {
		c, err := OpenCache(dir, root, 0)
		if err != nil {
			b.Fatal(err)
		}
		for i := range 1000 {
			if _, err := c.Make(b.Context(), os.DirFS(root), fmt.Sprintf("%d.jpg", i), DefaultRecipe()); err != nil {
				b.Fatal(err)
			}
		}
		if err := c.Flush(); err != nil {
			b.Fatal(err)
		}
	}
	run()
	for b.Loop() {
		run()
	}
}
