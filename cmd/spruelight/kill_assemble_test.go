//go:build unix

package main

import (
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"
	"time"

	"spruelight/testdata/bigshop"
	"spruelight/testdata/outside"
)

// twoShops writes two workshops that differ in every page, and returns their
// folders and their whole sites.
func twoShops(t *testing.T, dir string) (shops [2]string, sites [2]tree, took time.Duration) {
	t.Helper()
	for i := range shops {
		shops[i] = filepath.Join(dir, fmt.Sprint("shop-", i))
		if err := bigshop.Write(shops[i], bigshop.Size{Builds: 2 + i, Sittings: 3, Photos: 1}); err != nil {
			t.Fatal(err)
		}
		settings := filepath.Join(shops[i], "workshop.yaml")
		text := fmt.Sprintf("name: The Bench Number %d\ncurrency: EUR\n", i)
		if err := os.WriteFile(settings, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		whole := filepath.Join(dir, fmt.Sprint("whole-", i))
		took = mustRun(t, dir, assembleInto(shops[i], whole)...)
		sites[i] = readTree(t, whole)
	}
	return shops, sites, took
}

func assembleInto(shop, out string) []string {
	return []string{"assemble", shop, "--quiet", "--at", "2026-02-14 21:00", "--out", out}
}

// guest is a file that somebody else keeps in the site's folder.
const guest = "CNAME"

// twoSites is a site's folder that holds one of two sites.
type twoSites struct {
	dir, out string
	shops    [2]string
	sites    [2]tree
	kept     [2]stamped
	took     time.Duration
}

func newTwoSites(t *testing.T) *twoSites {
	t.Helper()
	s := &twoSites{dir: outside.QuickDir(t)}
	s.out = filepath.Join(s.dir, "www", "site")
	s.shops, s.sites, s.took = twoShops(t, s.dir)
	mustRun(t, s.dir, assembleInto(s.shops[0], s.out)...)
	if err := os.WriteFile(filepath.Join(s.out, guest), []byte("bench.example"), 0o644); err != nil {
		t.Fatal(err)
	}
	for i := range s.sites {
		s.sites[i][guest] = "bench.example"
		s.kept[i] = stamp(t, s.shops[i])
	}
	return s
}

// mustBeOne checks that the whole of one of the sites is there, and that the
// workshops are as they were.
func (s *twoSites) mustBeOne(t *testing.T) {
	t.Helper()
	if got := readTree(t, s.out); !maps.Equal(got, s.sites[0]) && !maps.Equal(got, s.sites[1]) {
		t.Errorf("a mixture: %s\nand: %s", differences(got, s.sites[0]), differences(got, s.sites[1]))
	}
	for _, k := range s.kept {
		k.mustStand(t)
	}
}

// Killed at any moment, assemble leaves the whole former or the whole new site,
// and the workshop as it was. The next run, even after a second kill, puts all
// in order, and the photo cache holds nothing torn: it gives the same site.
func TestAssembleKilledAtAnyMoment(t *testing.T) {
	s := newTwoSites(t)
	above := filepath.Dir(s.out)
	random := rand.New(rand.NewPCG(20260214, 12))
	whole := &phase{"", s.took}
	phases := []*phase{whole, {filepath.Join(above, ".site.staging-*"), 10 * time.Millisecond}, {filepath.Join(above, ".site.swap*"), 3 * time.Millisecond}}
	var met tally
	for i := range moments(9) {
		target := (i + 1) % 2
		args := assembleInto(s.shops[target], s.out)
		if i%4 == 0 { // the photos are made anew
			os.RemoveAll(filepath.Join(s.dir, "cache"))
		}
		in := phases[i%3]
		at := in.moment(random)
		cut := kill(t, at, program(s.dir, args...))
		in.learn(cut)
		met.note(cut, beside(t, above, "site"))
		s.mustBeOne(t)
		if i%5 == 4 { // the run that would put it right is killed too
			kill(t, whole.moment(random), program(s.dir, args...))
			s.mustBeOne(t)
		}
		mustRun(t, s.dir, args...)
		mustBe(t, "after the next run", readTree(t, s.out), s.sites[target])
		if names := beside(t, above, "site"); len(names) > 0 {
			t.Errorf("the next run leaves %q", names)
		}
		if t.Failed() {
			t.Fatalf("kill %d, %v after %q", i, at.after, at.sight)
		}
	}
	met.mustMeanSomething(t, ".site.staging-")
}
