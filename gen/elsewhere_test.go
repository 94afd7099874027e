package gen_test

import (
	"context"
	"io/fs"
	"maps"
	"path"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"spruelight/gen"
	"spruelight/gen/photo"
	"spruelight/gen/shelving"
	"spruelight/gen/source"
	"spruelight/themes"
)

// odd is the small workshop of these tests with more files in it.
func odd(t *testing.T, more ...string) fstest.MapFS {
	t.Helper()
	files := frail(t)
	for _, name := range more {
		files[name] = &fstest.MapFile{Data: files["builds/skiff/photos/a.jpg"].Data}
	}
	return files
}

// said are the findings of the rules about names, as "rule file:line: message".
func said(t *testing.T, content fs.FS) (all []string) {
	t.Helper()
	res, err := gen.Check(context.Background(), gen.Env{Content: content, Themes: themes.FS, Moment: moment, Photos: photo.MemoryCache()})
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range res.Findings {
		if strings.HasPrefix(f.Rule.Name, "name-") || f.Rule.Name == "stray-file" || f.Rule.Name == "unread-journal" || f.Severity() == source.Stop {
			all = append(all, f.Rule.Name+" "+f.At.Name()+": "+f.Says.String())
		}
	}
	return all
}

// Names that another system cannot store are found in the workshop.
func TestNamesThatDoNotTravel(t *testing.T) {
	const photos = "builds/skiff/photos/"
	for name, says := range map[string]string{
		photos + "CON.jpg":                         `has the name "CON.jpg" in it, which Windows keeps for a device`,
		photos + "aux.md":                          `"aux.md" in it, which Windows keeps for a device`,
		photos + "nul":                             "which Windows keeps for a device",
		photos + "Lpt9.tar.gz":                     "which Windows keeps for a device",
		photos + "com¹.jpg":                        "which Windows keeps for a device",
		photos + "a:b.jpg":                         "which Windows does not allow",
		photos + `a\b.jpg`:                         "which Windows does not allow",
		photos + "what?.jpg":                       "which Windows does not allow",
		photos + `say "hi".jpg`:                    "which Windows does not allow",
		photos + "a<b>|*.jpg":                      "which Windows does not allow",
		photos + "end.":                            "ends in a dot or space, which Windows cuts off",
		photos + "end ":                            "ends in a dot or space, which Windows cuts off",
		photos + " begin.jpg":                      "begins with a space",
		photos + "tab\there.jpg":                   "control character U+0009",
		photos + "line\nend.jpg":                   "control character U+000A",
		photos + "gpj\u202egnp.exe":                "invisible character U+202E",
		photos + "zero\u200bwidth.jpg":             "invisible character U+200B",
		photos + "~home.jpg":                       "begins with ~",
		photos + strings.Repeat("a", 170) + ".jpg": "the path is 194 characters long; some systems store no more than 176",
		photos + strings.Repeat("é", 128) + ".jpg": "more than 255 bytes",
		photos + "folder./x.jpg":                   "ends in a dot or space",
		"rack/lamps-a:b.yaml":                      "which Windows does not allow",
		"mine/COM7.css":                            "which Windows keeps for a device",
		"wall/con.md":                              "wall/con.md: this file's name cannot be part of an address",
		"builds/aux/build.md":                      "builds/aux: this folder's name cannot be part of an address",
		"builds/techniques/build.md":               "cannot be part of an address",
		"builds/skiff/2026-01-20-" + strings.Repeat("a", 70) + ".md": "is left out: its name is too long",
		"builds/skiff/2026-01-20.MD":                                 "is left out: its name does not end in .md",
		"Rack/lamps.yaml":                                            "Rack is not read where capitals count: its name is rack",
	} {
		got := said(t, odd(t, name))
		if !slices.ContainsFunc(got, func(s string) bool { return strings.Contains(s, says) }) {
			t.Errorf("%q: %q, want %q", name, got, says)
		}
	}
	for _, name := range []string{photos + "hull inside (2).jpg", photos + "Größe.jpg", photos + "写真.jpg", photos + "console.jpg", photos + ".hidden:x", photos + "a.b.c.jpg", "builds/skiff/notes/aux-lamp.txt"} {
		if got := said(t, odd(t, name)); len(got) > 0 {
			t.Errorf("%q: %q", name, got)
		}
	}
}

// Two names that are one file on another system are found, each pair once.
func TestNamesThatAreTwins(t *testing.T) {
	const photos = "builds/skiff/photos/"
	for _, c := range []struct {
		names []string
		says  string
	}{
		{[]string{photos + "A.jpg"}, "A.jpg and a.jpg are one file on some systems: they differ only in capitals or accents"},
		{[]string{photos + "n\u0303.jpg", photos + "\u00f1.jpg"}, "they differ only in how accents are stored (Unicode NFC and NFD)"},
		{[]string{photos + "straße.jpg", photos + "STRASSE.jpg"}, "they differ only in capitals or accents"},
		{[]string{"builds/skiff/Photos/b.jpg"}, "Photos and photos are one file on some systems"},
		{[]string{"mine/Mark.svg"}, "Mark.svg and mark.svg are one file"},
	} {
		got := said(t, odd(t, c.names...))
		if len(got) != 1 || !strings.Contains(got[0], "name-spelling") || !strings.Contains(got[0], c.says) {
			t.Errorf("%q: %q, want %q", c.names, got, c.says)
		}
	}
}

// careless is a file system that does not tell capitals apart, and takes both
// forms of accents for one, as those of macOS and Windows.
type careless struct{ fstest.MapFS }

func (c careless) Open(name string) (fs.File, error) {
	stored := "."
	for part := range strings.SplitSeq(name, "/") {
		entries, err := fs.ReadDir(c.MapFS, stored)
		if err != nil {
			return nil, err
		}
		i := slices.IndexFunc(entries, func(e fs.DirEntry) bool { return source.Fold(e.Name()) == source.Fold(part) })
		if i < 0 && part != "." {
			return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrNotExist}
		}
		if part != "." {
			stored = path.Join(stored, entries[i].Name())
		}
	}
	return c.MapFS.Open(stored)
}

func (c careless) ReadFile(name string) ([]byte, error) {
	return fs.ReadFile(struct{ fs.FS }{c}, name)
}
func (c careless) Stat(name string) (fs.FileInfo, error) {
	return fs.Stat(struct{ fs.FS }{c}, name)
}
func (c careless) ReadDir(name string) ([]fs.DirEntry, error) {
	return fs.ReadDir(struct{ fs.FS }{c}, name)
}

// On a system that takes photos/A.JPG for photos/a.jpg the journal is told of
// it, at the place where the name is written, before it breaks elsewhere.
func TestPhotoNamedInAnotherSpelling(t *testing.T) {
	files := odd(t, "builds/skiff/photos/caf\u0065\u0301.jpg")
	files["builds/skiff/2026-01-18.md"] = &fstest.MapFile{Data: []byte("---\nstage: painting\nhours: 2 h\nphotos:\n  - {file: photos/A.JPG, alt: x}\n  - {file: photos/caf\u00e9.jpg, alt: y}\n  - {file: photos/a.jpg, alt: z}\n---\nEnded.\n")}
	got := said(t, careless{files})
	want := []string{
		"name-spelling builds/skiff/2026-01-18.md: the file is stored as photos/a.jpg, which differs in capitals or accents",
		"name-spelling builds/skiff/2026-01-18.md: the file is stored as photos/cafe\u0301.jpg, which differs in how accents are stored (Unicode NFC and NFD)",
	}
	if !slices.Equal(got, want) {
		t.Errorf("got  %q\nwant %q", got, want)
	}
	// Where capitals count, both photos are missing, and the same is said.
	got = said(t, files)
	for _, w := range want {
		if !slices.Contains(got, w) {
			t.Errorf("%q lacks %q", got, w)
		}
	}
}

// Whatever a keeper calls techniques, areas and circuits, the site's and the
// archive's files can be stored everywhere.
func TestNamesOfTheSiteTravel(t *testing.T) {
	files := frail(t)
	files["rack/supplies.yaml"] = &fstest.MapFile{Data: []byte("usb-5v: {kind: usb, volts: 5 V, tolerance: 5 %, limit: 500 mA}\n")}
	files["builds/skiff/build.md"] = &fstest.MapFile{Data: []byte(`---
name: Skiff
state: shelf
finished: 2026-01-18
scale: 1/48
kit: {obtained: bought}
measured: {length: 204 mm}
techniques: [nul, AUX, COM1, c, c++, "C#", "c.", straße, STRASSE, "caf` + "\u00e9" + `", "cafe` + "\u0301" + `", "a/b", "../x", "a:b", "` + strings.Repeat("long ", 40) + `", "日本", "...", "?"]
areas: {con: {material: styrene, encloses: [D1]}, "nul ": {material: styrene}}
circuits:
  - {name: aux, supply: usb-5v, branches: [{name: con, lamps: [{lamp: warm, at: x}], current: 2 mA, resistor: auto}]}
  - {name: "AUX", supply: usb-5v, branches: [{name: nul, lamps: [{lamp: warm, at: y}], current: 2 mA, resistor: auto}]}
  - {name: "../../x", supply: usb-5v, branches: [{name: "a:b", lamps: [{lamp: warm, at: z}], current: 2 mA, resistor: auto}]}
---
A skiff.
`)}
	env := gen.Env{Content: files, Themes: themes.FS, Moment: moment, Photos: photo.MemoryCache()}
	res, err := gen.Gather(context.Background(), env)
	if err != nil || res.Files == nil {
		t.Fatal(err, res.Findings)
	}
	if err := source.CheckPaths(slices.Collect(maps.Keys(contents(t, res.Files)))); err != nil {
		t.Error(err)
	}
	var paths []string
	for _, f := range res.Files {
		paths = append(paths, f.Path)
	}
	if err := source.CheckPaths(paths); err != nil {
		t.Error(err)
	}
	a, err := shelving.Shelve(context.Background(), env, "skiff", shelving.Options{Anyway: true})
	if err != nil || len(a.Items) == 0 {
		t.Fatal(err, a.Findings)
	}
	paths = nil
	for _, item := range a.Items {
		paths = append(paths, item.Path)
	}
	if err := source.CheckPaths(paths); err != nil {
		t.Error(err)
	}
}
