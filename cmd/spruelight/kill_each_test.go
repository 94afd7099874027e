//go:build linux && amd64

package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"spruelight/testdata/bigshop"
	"spruelight/testdata/camera"
	"spruelight/testdata/effort"
	"spruelight/testdata/outside"
)

// eachVerb is a verb to be killed before each of its writing calls.
type eachVerb struct {
	start func(t *testing.T, dir string) // lays out what the verb works on
	args  []string                       // relative to the folder
	there string                         // what must be whole once it is there; then a second run refuses
	keeps string                         // folder that must stay as it is, "" for none
}

// verbsThatWrite are all of them, on a workshop that is small.
var verbsThatWrite = map[string]eachVerb{
	"unbox a workshop": {start: func(t *testing.T, dir string) {}, args: []string{"unbox", "skiff", "--workshop", "out"}, there: "out/builds/skiff"},
	"unbox a build": {start: func(t *testing.T, dir string) { mustRunIn(t, dir, "unbox", "raft", "--workshop", "out") },
		args: []string{"unbox", "skiff", "--workshop", "out"}, there: "out/builds/skiff"},
	"sit": {start: sitStart, args: []string{"sit", "skiff", "--workshop", "out", "--at", "2026-02-14 21:00", "--photos", "camera"},
		there: "out/builds/skiff/2026-02-14.md", keeps: "camera"},
	"assemble":      {start: tinyShop, args: []string{"assemble", "shop", "--out", "out/site", "--at", "2026-02-14 21:00"}, keeps: "shop"},
	"assemble anew": {start: changedShop, args: []string{"assemble", "shop", "--out", "out/site", "--at", "2026-02-14 21:00"}, keeps: "shop"},
	"shelve": {start: tinyShop, args: []string{"shelve", bigshop.Slug(1), "--workshop", "shop", "--out", "out/bag", "--at", "2026-02-14 21:00"},
		there: "out/bag", keeps: "shop"},
	"shelve to zip": {start: tinyShop, args: []string{"shelve", bigshop.Slug(1), "--workshop", "shop", "--out", "out/bag.zip", "--at", "2026-02-14 21:00"},
		there: "out/bag.zip", keeps: "shop"},
	"restore": {start: restoreStart, args: []string{"shelve", "--restore", "bag", "out"}, there: "out/builds/" + bigshop.Slug(1), keeps: "bag"},
	"netlist": {start: tinyShop, args: []string{"reckon", "netlist", bigshop.Slug(1), "--workshop", "shop", "--out", "out"}, keeps: "shop"},
}

// Killed before each single call that writes, every verb leaves what was there,
// and the same call made again gives what an undisturbed one gives: every file,
// nothing beside, nothing among the temporary files, nothing unfinished in the
// cache.
func TestKilledAtEveryWrite(t *testing.T) {
	for name, v := range verbsThatWrite {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			v.test(t)
		})
	}
}

func (v eachVerb) test(t *testing.T) {
	top := outside.QuickDir(t)
	base := filepath.Join(top, "base")
	for _, sub := range []string{"tmp", "out"} {
		if err := os.MkdirAll(filepath.Join(base, sub), 0o755); err != nil {
			t.Fatal(err)
		}
	}
	v.start(t, base)
	os.RemoveAll(filepath.Join(base, "count"))
	fresh := func(i int) string {
		dir := filepath.Join(top, "run", fmt.Sprint(i)) // of the same length: the cache goes by the workshop's path
		if err := os.CopyFS(dir, os.DirFS(base)); err != nil {
			t.Fatal(err)
		}
		return dir
	}
	dir := fresh(1000)
	calls, _ := killedAt(t, dir, 0, v.args...)
	want := readTree(t, filepath.Join(dir, "out"))
	tries, killed := 0, 0
	for _, n := range everyCall(calls) {
		dir := fresh(1000 + n)
		kept := map[string]tree{}
		if v.keeps != "" {
			kept[v.keeps] = readTree(t, filepath.Join(dir, v.keeps))
		}
		_, cut := killedAt(t, dir, n, v.args...)
		tries++
		if cut {
			killed++
		}
		v.after(t, dir, want)
		for name, was := range kept {
			mustBe(t, name+" was touched", readTree(t, filepath.Join(dir, name)), was)
		}
		if t.Failed() {
			t.Fatalf("killed at write %d of %d; kept in %s", n, calls, dir)
		}
		os.RemoveAll(dir)
	}
	t.Logf("%d of %d writing calls tried, %d killed", tries, calls, killed)
	if killed < tries*2/3 {
		t.Error("too few runs were killed: the test is not testing")
	}
}

// everyCall are the calls before which to kill: all of them where every check is
// asked for, else some.
func everyCall(calls int) (list []int) {
	step := 1
	if !effort.Whole() && os.Getenv("SPRUELIGHT_LONG") == "" {
		step = max(1, calls/6)
	}
	for n := 1; n < calls; n += step {
		list = append(list, n)
	}
	return append(list, calls)
}

// after runs the verb again and looks at all that is there.
func (v eachVerb) after(t *testing.T, dir string, want tree) {
	t.Helper()
	whole := false
	if v.there != "" {
		_, err := os.Lstat(filepath.Join(dir, v.there))
		whole = err == nil
	}
	cmd := programIn(dir, v.args...)
	said, err := cmd.CombinedOutput()
	switch {
	case whole && (err == nil || !strings.Contains(string(said), "is there already")):
		t.Errorf("made over what is whole: %v %s", err, said)
	case !whole && err != nil:
		t.Errorf("the next run fails: %v\n%s", err, said)
	}
	got := readTree(t, filepath.Join(dir, "out"))
	mustBe(t, "after the next run", got, want)
	for _, sub := range []string{"tmp", "cache/spruelight/unfinished"} {
		if names := beside(t, filepath.Join(dir, sub)); len(names) > 0 {
			t.Errorf("the next run leaves %q in %s", names, sub)
		}
	}
}

// programIn is program with its folder for temporary files in dir, started there.
func programIn(dir string, args ...string) *exec.Cmd {
	cmd := program(dir, args...)
	cmd.Dir = dir
	cmd.Env = append(cmd.Env, "TMPDIR="+filepath.Join(dir, "tmp"))
	return cmd
}

func mustRunIn(t *testing.T, dir string, args ...string) {
	t.Helper()
	if out, err := programIn(dir, args...).CombinedOutput(); err != nil {
		t.Fatalf("%v: %v\n%s", args, err, out)
	}
}

// sitStart is a build, and a camera with three photos.
func sitStart(t *testing.T, dir string) {
	mustRunIn(t, dir, "unbox", "skiff", "--workshop", "out")
	for i := range 3 {
		name := filepath.Join(dir, "camera", fmt.Sprintf("IMG_%d.JPG", i))
		err := os.MkdirAll(filepath.Dir(name), 0o755)
		if err == nil {
			err = os.WriteFile(name, camera.Snap(t, fmt.Sprintf("2026:02:14 1%d:00:00", i)), 0o644)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
}

// tinyShop is a workshop with one finished build, in the folder shop.
func tinyShop(t *testing.T, dir string) {
	shop, slug := filepath.Join(dir, "shop"), bigshop.Slug(1)
	if err := bigshop.Write(shop, bigshop.Size{Builds: 2, Sittings: 1, Photos: 1}); err != nil {
		t.Fatal(err)
	}
	if err := os.RemoveAll(filepath.Join(shop, "builds", bigshop.Slug(0))); err != nil {
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
}

// changedShop is a workshop with its site, of which a page changed since.
func changedShop(t *testing.T, dir string) {
	tinyShop(t, dir)
	mustRunIn(t, dir, "assemble", "shop", "--out", "out/site", "--at", "2026-02-14 21:00")
	wall(t, filepath.Join(dir, "shop"), "Other words.")
}

// restoreStart is a bag.
func restoreStart(t *testing.T, dir string) {
	tinyShop(t, dir)
	mustRunIn(t, dir, "shelve", bigshop.Slug(1), "--workshop", "shop", "--out", "bag", "--at", "2026-02-14 21:00")
	if err := os.RemoveAll(filepath.Join(dir, "shop")); err != nil {
		t.Fatal(err)
	}
}
