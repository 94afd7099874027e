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

// A bag may be valid and yet hold names that not every system can store, or
// that are one file on another system: one would be lost there. Its check warns
// of them; restoring brings back what can be stored, and names the rest.
func TestRestoreTakesCareOfNames(t *testing.T) {
	for _, c := range []struct{ name, other, why string }{
		{"data/a", "data/a:b", `"a:b" has one of the characters`},
		{"data/a", "data/con", "device"},
		{"data/a", "data/b.", "ends in a dot"},
		{"data/a", "data/e\x1b[31m", "control character"},
		{"data/Bow.jpg", "data/bow.jpg", "differ only in case or accents"},
		{"data/n\u0303.txt", "data/\u00d1.txt", "differ only in case or accents"},
		{"data/A/x", "data/a/y", "differ only in case or accents"},
		{"data/STRASSE", "data/straße", "differ only in case or accents"},
	} {
		b := bagCase{files: map[string]string{c.name: "alpha", c.other: "beta"}}
		b.complete("")
		b.fillIn(t)
		out := filepath.Join(t.TempDir(), "out")
		rep, err := Restore(ctx, b.asZip(t), out, nil)
		if err != nil || !rep.Valid || len(rep.Left) != 1 || !strings.Contains(rep.Left[0], c.why) || len(rep.Advice) != 1 ||
			!strings.Contains(rep.Advice[0].Says, "restoring it needs care") {
			t.Errorf("%q: %v, %+v", c.other, err, rep)
		}
		if got := readFolder(t, out); len(got) != 1 || got[strings.TrimPrefix(c.name, "data/")] != "alpha" {
			t.Errorf("%q: restored %q", c.other, got)
		}
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
