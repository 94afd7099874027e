//go:build unix

package output

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// Sweep takes away what runs that no longer live left among the temporary
// files, with a lock or without, and nothing else.
func TestSweep(t *testing.T) {
	dir := t.TempDir()
	t.Setenv("TMPDIR", dir)
	t.Setenv("TMP", dir)
	put(t, dir, tree{"spruelight-restore-0123456789abcdef/texts/a": "x", "spruelight-restore-0123456789abcdef.lock": "",
		"spruelight-catalogue-12345/0/a": "x", "spruelight-restore-fedcba9876543210.lock": "", "spruelight-mine/a": "x", "other/a": "x"})
	if err := os.Symlink(filepath.Join(dir, "other"), filepath.Join(dir, "spruelight-restore-link")); err != nil {
		t.Skip("no symbolic links here: ", err)
	}
	live, remove, err := Scratch("restore")
	if err != nil {
		t.Fatal(err)
	}
	put(t, live, tree{"a": "x"})
	Sweep()
	name := filepath.Base(live)
	mustHold(t, dir, tree{"spruelight-mine/a": "x", "other/a": "x", "spruelight-restore-link": "-> " + filepath.Join(dir, "other"),
		name + "/a": "x", name + ".lock": ""})
	remove()
	mustHold(t, dir, tree{"spruelight-mine/a": "x", "other/a": "x", "spruelight-restore-link": "-> " + filepath.Join(dir, "other")})
}

// Tidy takes away what runs that no longer live staged in a folder; not what a
// run works on, nor what belongs to a site half exchanged, nor other files.
func TestTidy(t *testing.T) {
	dir := t.TempDir()
	const id = "0123456789abcdef"
	stays := tree{".site." + notePurpose: "{}", ".site.staging-" + id + "/index.html": "x", ".live.staging-" + id: "half",
		".a.lock": "somebody's own", "b.md": "x", ".c.staging-mine": "x"}
	put(t, dir, stays)
	put(t, dir, tree{".b.md.staging-" + id: "half", ".d.lock": "", ".e.lock-holder": "{}", ".f.staging-" + id + "/build.md": "x"})
	fl, err := tryLock(filepath.Join(dir, ".live.lock"))
	if err != nil || fl == nil {
		t.Fatal(err)
	}
	defer fl.Close()
	Tidy(dir, "b.md")
	if _, err := os.Lstat(filepath.Join(dir, ".d.lock")); err != nil {
		t.Errorf("more than was named: %v", err)
	}
	Tidy(dir)
	stays[".live.lock"] = ""
	mustHold(t, dir, stays)
}

// Where no flag chooses the place, none is advised.
func TestWithin(t *testing.T) {
	for _, cause := range []error{syscall.EROFS, fs.ErrPermission, syscall.ENOSPC} {
		err := Within(failed("a", "cannot be written", cause), "copy the workshop elsewhere")
		if strings.Contains(err.Error(), "--out") || !errors.Is(err, cause) {
			t.Errorf("%v", err)
		}
	}
	if err := Within(fs.ErrExist, "x"); err != fs.ErrExist {
		t.Errorf("%v", err)
	}
}
