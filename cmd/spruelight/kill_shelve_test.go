//go:build unix

package main

import (
	"context"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"spruelight/gen/bag"
	"spruelight/testdata/bigshop"
	"spruelight/testdata/outside"
)

// finishedShop writes a workshop with one finished build.
func finishedShop(t *testing.T, dir string) (shop, slug string) {
	t.Helper()
	shop, slug = filepath.Join(dir, "shop"), bigshop.Slug(1)
	if err := bigshop.Write(shop, bigshop.Size{Builds: 2, Sittings: 3, Photos: 2}); err != nil {
		t.Fatal(err)
	}
	name := filepath.Join(shop, "builds", slug, "build.md")
	text, err := os.ReadFile(name)
	if err == nil {
		err = os.WriteFile(name, []byte(strings.Replace(string(text), "state: shelf", "state: shelf\nfinished: 2026-01-18", 1)), 0o644)
	}
	if err != nil {
		t.Fatal(err)
	}
	return shop, slug
}

// readBag returns a bag as its bytes, whether folder or zip.
func readBag(t *testing.T, name string) tree {
	t.Helper()
	if rep, err := bag.Check(context.Background(), name); err != nil || !rep.Valid {
		t.Errorf("%s is no whole bag: %v %v", filepath.Base(name), err, rep.Faults)
	}
	return readTree(t, name)
}

// Killed at any moment, shelve leaves a whole archive under the final name or
// nothing, and the workshop as it was; the next run clears away what was half
// done.
func TestShelveKilledAtAnyMoment(t *testing.T) {
	for _, name := range []string{"bag", "bag.zip"} {
		t.Run(name, func(t *testing.T) {
			dir := outside.QuickDir(t)
			shop, slug := finishedShop(t, dir)
			kept := stamp(t, shop)
			shelve := func(out string) []string {
				return []string{"shelve", slug, "--workshop", shop, "--quiet", "--at", "2026-02-14 21:00", "--out", out}
			}
			whole := filepath.Join(dir, "whole", name)
			took := mustRun(t, dir, shelve(whole)...)
			want := readBag(t, whole)
			above := filepath.Join(dir, "archive")
			out := filepath.Join(above, name)
			random := rand.New(rand.NewPCG(8493, uint64(len(name))))
			phases := []*phase{{"", took}, {filepath.Join(above, "."+name+".staging-*"), 2 * time.Millisecond}}
			var met tally
			for i := range moments(4) {
				in := phases[i%2]
				at := in.moment(random)
				cut := kill(t, at, program(dir, shelve(out)...))
				in.learn(cut)
				met.note(cut, beside(t, above, name))
				kept.mustStand(t)
				if _, err := os.Lstat(out); err == nil {
					mustBe(t, "the archive", readBag(t, out), want)
					mustRefuse(t, dir, "is there already, and is not touched", shelve(out)...)
				} else {
					mustRun(t, dir, shelve(out)...)
				}
				mustBe(t, "after the next run", readBag(t, out), want)
				if names := beside(t, above, name); len(names) > 0 {
					t.Errorf("the next run leaves %q", names)
				}
				if err := os.RemoveAll(above); err != nil || t.Failed() {
					t.Fatalf("kill %d, %v after %q: %v", i, at.after, at.sight, err)
				}
			}
			met.mustMeanSomething(t, "."+name+".staging-")
		})
	}
}

// mustRefuse runs the program, which must fail with exit code 1 and say why.
func mustRefuse(t *testing.T, dir, says string, args ...string) {
	t.Helper()
	cmd := program(dir, args...)
	said, _ := cmd.CombinedOutput()
	if code := cmd.ProcessState.ExitCode(); code != 1 || !strings.Contains(string(said), says) {
		t.Errorf("%v: exit code %d, want 1; it says %q, want %q", args, code, said, says)
	}
}

// Killed at any moment, restoring leaves the whole build or none of it, and
// never half a file; the next run finishes.
func TestRestoreKilledAtAnyMoment(t *testing.T) {
	dir := outside.QuickDir(t)
	shop, slug := finishedShop(t, dir)
	name := filepath.Join(dir, "bag")
	mustRun(t, dir, "shelve", slug, "--workshop", shop, "--quiet", "--out", name)
	restore := func(to string) []string { return []string{"shelve", "--restore", name, to, "--quiet"} }
	whole := filepath.Join(dir, "whole")
	took := mustRun(t, dir, restore(whole)...)
	want := readTree(t, whole)
	random := rand.New(rand.NewPCG(8493, 3))
	back := filepath.Join(dir, "back")
	phases := []*phase{{"", took}, {back, 5 * time.Millisecond}}
	var met tally
	for i := range moments(4) {
		in := phases[i%2]
		at := in.moment(random)
		cut := kill(t, at, program(dir, restore(back)...))
		in.learn(cut)
		met.note(cut, nil)
		mustBePart(t, back, want)
		if _, err := os.Lstat(filepath.Join(back, "builds", slug)); err == nil {
			mustRefuse(t, dir, "is there already, and is not touched", restore(back)...)
		} else {
			mustRun(t, dir, restore(back)...)
		}
		mustBe(t, "after the next run", readTree(t, back), want)
		if err := os.RemoveAll(back); err != nil || t.Failed() {
			t.Fatalf("kill %d, %v after %q: %v", i, at.after, at.sight, err)
		}
	}
	met.mustMeanSomething(t, "")
}

// mustBePart checks that all in a folder that is not hidden is as in want.
func mustBePart(t *testing.T, dir string, want tree) {
	t.Helper()
	if _, err := os.Lstat(dir); err != nil {
		return
	}
	for p, text := range readTree(t, dir) {
		hidden := strings.Contains("/"+p, "/.") && p != "."
		if whole, ok := want[p]; !hidden && (!ok || whole != text) {
			t.Errorf("%s is no file of the whole, or half of one", p)
		}
	}
}
