package output

import (
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"path"
	"path/filepath"
	"slices"
	"testing"

	"spruelight/testdata/outside"
)

// A long history of sites that come and go, guests that others add, change and
// remove, and runs that are cut off: after every finished run the folder holds
// the site and the guests, no more and no less.
func TestRandomHistory(t *testing.T) {
	steps := 150
	if os.Getenv("SPRUELIGHT_LONG") == "1" {
		steps = 3000
	}
	for name, system := range systems {
		t.Run(name, func(t *testing.T) {
			random := rand.New(rand.NewPCG(7, 11))
			h := history{dir: filepath.Join(outside.QuickDir(t), "site"), random: random, theirs: tree{}}
			for i := range steps {
				h.site = h.anySite()
				h.write(t, system, i)
				mustHold(t, h.dir, h.site.with(h.theirs))
				mustBeAlone(t, h.dir)
				if t.Failed() {
					t.Fatalf("step %d", i)
				}
				h.disturb(t)
			}
		})
	}
}

type history struct {
	dir    string
	random *rand.Rand
	site   tree // what was last asked for
	theirs tree // what others put there
}

// anySite returns a random site whose files do not collide with guests. Their
// folders do meet.
func (h *history) anySite() tree {
	site := tree{}
	for range h.random.IntN(12) {
		p := fmt.Sprintf("%c/%c/%d.html", 'a'+h.random.IntN(3), 'a'+h.random.IntN(3), h.random.IntN(3))
		if h.random.IntN(4) == 0 {
			p = fmt.Sprintf("%d.html", h.random.IntN(4))
		}
		site[p] = fmt.Sprint("ours ", h.random.IntN(3))
	}
	return site
}

// write writes the site, often after a run on another that was cut off.
func (h *history) write(t *testing.T, system faultyDisk, i int) {
	t.Helper()
	for range h.random.IntN(3) {
		cut := system
		cut.at, cut.err, cut.dead = 1+h.random.IntN(90), errKilled, true
		_, _ = writeOn(&cut, h.dir, h.anySite())
	}
	write := writeOn
	if h.random.IntN(2) == 0 {
		write = keepOn
	}
	if _, err := write(&system, h.dir, h.site); err != nil {
		t.Fatalf("step %d: %v", i, err)
	}
}

// disturb does what others do in the folder.
func (h *history) disturb(t *testing.T) {
	t.Helper()
	for range h.random.IntN(3) {
		p := fmt.Sprintf("%c/%c/%d.txt", 'a'+h.random.IntN(4), 'a'+h.random.IntN(4), h.random.IntN(3))
		if h.random.IntN(3) == 0 {
			p = path.Base(p)
		}
		h.theirs[p] = fmt.Sprint("theirs ", h.random.IntN(100))
		put(t, h.dir, tree{p: h.theirs[p]})
	}
	if keys := slices.Sorted(maps.Keys(h.theirs)); len(keys) > 0 && h.random.IntN(3) == 0 {
		p := keys[h.random.IntN(len(keys))]
		delete(h.theirs, p)
		if err := os.Remove(filepath.Join(h.dir, p)); err != nil {
			t.Fatal(err)
		}
	}
}

// The output folder is removed while a cut-off run still holds guests of it:
// they come back before anything else is done.
func TestFolderRemovedAfterACutOffRun(t *testing.T) {
	for at := 1; ; at++ {
		dir := prepare(t)
		cut := faultyDisk{at: at, err: errKilled, dead: true}
		_, _ = writeOn(&cut, dir, siteB)
		if cut.steps < at {
			return
		}
		kept := tree{}
		for name, left := range leftFolders(t, dir) {
			if name != filepath.Base(dir) {
				maps.Copy(kept, left)
			}
		}
		if err := os.RemoveAll(dir); err != nil {
			t.Fatal(err)
		}
		_, err := writeOn(&faultyDisk{}, dir, siteB)
		all := tree{}
		for _, left := range leftFolders(t, dir) {
			maps.Copy(all, left)
		}
		for _, p := range []string{".git/HEAD", "logs/1.txt"} {
			if _, held := kept[p]; held && all[p] != guests[p] {
				t.Fatalf("step %d, %s: %s of somebody else is lost (%v)", at, cut.last, p, err)
			}
		}
		if err == nil {
			mustBeAlone(t, dir)
		}
	}
}

// leftFolders returns every folder beside and including dir.
func leftFolders(t *testing.T, dir string) map[string]tree {
	t.Helper()
	left := map[string]tree{}
	entries, err := os.ReadDir(filepath.Dir(dir))
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if e.IsDir() {
			left[e.Name()] = read(t, filepath.Join(filepath.Dir(dir), e.Name()))
		}
	}
	return left
}
