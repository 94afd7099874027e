package bag

import (
	"errors"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestRestore(t *testing.T) {
	for _, name := range []string{"marram", "marram.zip"} {
		dir := t.TempDir()
		bag, out := filepath.Join(dir, name), filepath.Join(dir, "out")
		if err := Write(ctx, bag, items(marram), marramInfo, Options{}); err != nil {
			t.Fatal(err)
		}
		rep, err := Restore(ctx, bag, out, nil)
		if err != nil || !rep.Valid {
			t.Fatalf("%v, %+v", err, rep)
		}
		if got := readFolder(t, out); !maps.Equal(got, marram) {
			t.Errorf("restored %v", got)
		}
		if _, err := Restore(ctx, bag, out, nil); !errors.Is(err, fs.ErrExist) {
			t.Errorf("restored over what was there: %v", err)
		}
		sources := func(p string) string {
			rest, ok := strings.CutPrefix(p, "source/builds/")
			if !ok {
				return ""
			}
			return rest
		}
		if _, err := Restore(ctx, bag, filepath.Join(dir, "builds"), sources); err != nil {
			t.Fatal(err)
		}
		want := map[string]string{"marram/build.md": marram["source/builds/marram/build.md"]}
		if got := readFolder(t, filepath.Join(dir, "builds")); !maps.Equal(got, want) {
			t.Errorf("restored %v", got)
		}
		mustBeAlone(t, dir, name, "out", "builds")
	}
}

func TestRestoreNothingFromABadBag(t *testing.T) {
	dir := t.TempDir()
	bag := filepath.Join(dir, "bag")
	if err := Write(ctx, bag, items(marram), nil, Options{}); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(bag, "data", "empty"), []byte("no more"), 0o666); err != nil {
		t.Fatal(err)
	}
	rep, err := Restore(ctx, bag, filepath.Join(dir, "out"), nil)
	if err != nil || rep.Valid || len(rep.Faults) != 2 {
		t.Errorf("%v, %v", err, rep.Faults)
	}
	mustBeAlone(t, dir, "bag")
}

// A bag may be valid and yet hold names that not every system can store.
func TestRestoreOddNames(t *testing.T) {
	c := bagCase{files: map[string]string{"data/a:b": "alpha", "data/con": "beta"}}
	c.complete("")
	c.fillIn(t)
	dir := t.TempDir()
	rep, err := Restore(ctx, c.asZip(t), filepath.Join(dir, "out"), nil)
	if err == nil || !rep.Valid || !strings.Contains(err.Error(), `"a:b" has one of the characters`) ||
		!strings.Contains(err.Error(), "device") {
		t.Errorf("%v, %+v", err, rep)
	}
	mustBeAlone(t, dir)
}

// A bag may be valid and hold names that are one file on another system: one of
// them would be lost there, so neither is restored. Its check warns of them.
func TestRestoreTwins(t *testing.T) {
	for _, names := range [][2]string{{"data/Bow.jpg", "data/bow.jpg"}, {"data/n\u0303.txt", "data/\u00d1.txt"},
		{"data/A/x", "data/a/y"}, {"data/straße", "data/STRASSE"}} {
		c := bagCase{files: map[string]string{names[0]: "alpha", names[1]: "beta"}}
		c.complete("")
		c.fillIn(t)
		dir := t.TempDir()
		rep, err := Restore(ctx, c.asZip(t), filepath.Join(dir, "out"), nil)
		if err == nil || !rep.Valid || !strings.Contains(err.Error(), "differ only in case or accents") {
			t.Errorf("%q: %v, %+v", names, err, rep)
		}
		mustBeAlone(t, dir)
	}
}

// Before version 1.0 each file need be in one manifest only; all are restored.
func TestRestoreOldBag(t *testing.T) {
	c := readCase(t, `old
-- bagit.txt --
BagIt-Version: 0.97
Tag-File-Character-Encoding: UTF-8
-- data/a.txt --
alpha
-- data/b.txt --
beta
-- manifest-md5.txt --
{{md5 data/a.txt}}  data/a.txt
-- manifest-sha512.txt --
{{sha512 data/b.txt}}  data/b.txt
`)
	out := filepath.Join(t.TempDir(), "out")
	if rep, err := Restore(ctx, c.asFolder(t), out, nil); err != nil || !rep.Valid {
		t.Fatalf("%v, %+v", err, rep)
	}
	want := map[string]string{"a.txt": "alpha\n", "b.txt": "beta\n"}
	if got := readFolder(t, out); !maps.Equal(got, want) {
		t.Errorf("restored %v", got)
	}
}
