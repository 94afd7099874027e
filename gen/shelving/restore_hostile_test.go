package shelving_test

import (
	"context"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"spruelight/gen/bag"
	"spruelight/gen/shelving"
)

// hostileBag makes a bag that is whole and valid, with our own tag, and holds
// what no archive of ours would.
func hostileBag(t *testing.T, slug string, more map[string]string) string {
	t.Helper()
	files := map[string]string{
		"sources/workshop.yaml":         "name: Theirs\ntheme: evil\nlengths: inches\n",
		"sources/builds/skiff/build.md": "---\nname: Skiff\nstate: bench\n---\n",
		"README.txt":                    "Read me.\n",
	}
	for name, text := range more {
		files[name] = text
	}
	var items []bag.Item
	for name, text := range files {
		items = append(items, bag.Bytes(name, []byte(text)))
	}
	name := filepath.Join(t.TempDir(), "bag.zip")
	info := []bag.Tag{{Label: "Internal-Sender-Identifier", Value: slug}}
	if err := bag.Write(context.Background(), name, items, info, bag.Options{}); err != nil {
		t.Fatal(err)
	}
	if rep, err := bag.Check(context.Background(), name); err != nil || !rep.Valid {
		t.Fatalf("%v, %v", err, rep.Faults)
	}
	return name
}

// A bag whose checksums are all right may still come from somebody who means
// harm: it brings back journals, stock and pictures, and nothing else.
func TestRestoreOfAHostileBag(t *testing.T) {
	name := hostileBag(t, "skiff", map[string]string{
		"sources/.git/config":                     "[core]\n\tfsmonitor = evil\n",
		"sources/.envrc":                          "evil",
		"sources/Makefile":                        "all: evil",
		"sources/mine/.hidden/x.css":              "evil",
		"sources/outlines/boat.svg":               "<svg/>",
		"sources/outlines/other.svg":              "<svg/>",
		"sources/shelf.yaml":                      "boat: {name: Boat, outline: {file: outlines/boat.svg}}\n",
		"sources/rack/lamps.yaml":                 "lamp: {colour: white}\n",
		"sources/rack/evil.yaml":                  "evil",
		"sources/rack/deep/lamps.yaml":            "evil",
		"sources/site/index.html":                 "evil",
		"sources/site/x.svg":                      "evil",
		"sources/wall/evil.md":                    "evil",
		"sources/sheet/page.html":                 "evil",
		"sources/evil/page.html":                  "evil",
		"sources/evil/evil.js":                    "evil",
		"sources/builds/skiff/run.sh":             "evil",
		"sources/builds/skiff/photos/x.html":      "evil",
		"sources/builds/skiff/deep/2026-01-01.md": "evil",
		"photos/evil.html":                        "evil",
		"sources/builds/skiff/.git/config":        "[core]\n\tfsmonitor = evil\n",
		"sources/builds/skiff/.vscode/tasks.json": "evil",
		"sources/builds/other/build.md":           "evil",
		"photos/.bashrc":                          "evil",
		"photos/a.jpg":                            "picture",
		"photos.csv":                              "file,kept\n../../../evil,site/x.jpg\n/etc/evil,site/x.jpg\n.profile,site/x.jpg\nC:/evil,site/x.jpg\nphotos/b.jpg,site/x.jpg\n",
		"site/x.jpg":                              "rendition",
		"home/evil":                               "evil",
	})
	dir := t.TempDir()
	shop := filepath.Join(dir, "shop")
	back, err := shelving.Restore(context.Background(), name, shop, false)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	err = filepath.WalkDir(dir, func(name string, e fs.DirEntry, err error) error {
		if err == nil && !e.IsDir() {
			rel, _ := filepath.Rel(shop, name)
			got = append(got, filepath.ToSlash(rel))
		}
		return err
	})
	want := []string{"builds/skiff/build.md", "builds/skiff/photos/a.jpg", "builds/skiff/photos/b.jpg", "outlines/boat.svg", "rack/lamps.yaml", "shelf.yaml", "workshop.yaml"}
	if err != nil || !slices.Equal(got, want) {
		t.Errorf("restored %q\nwant %q\n%v", got, want, err)
	}
	for _, at := range []string{"sources/.git/config", "sources/Makefile", "photos/.bashrc", "sources/builds/skiff/.vscode/tasks.json",
		"sources/site/index.html", "sources/site/x.svg", "sources/wall/evil.md", "sources/sheet/page.html", "sources/rack/evil.yaml", "sources/rack/deep/lamps.yaml",
		"sources/builds/skiff/run.sh", "sources/builds/skiff/photos/x.html", "sources/builds/other/build.md", "photos/evil.html", "home/evil", "sources/outlines/other.svg"} {
		if !slices.ContainsFunc(back.Notes, func(n string) bool { return strings.HasPrefix(n, at+" is left out") }) {
			t.Errorf("no note of %s: %q", at, back.Notes)
		}
	}
	settings, _ := os.ReadFile(filepath.Join(shop, "workshop.yaml"))
	if string(settings) != "name: Theirs\nlengths: inches\n" || !slices.ContainsFunc(back.Notes, func(n string) bool { return strings.HasPrefix(n, "the theme evil is left") }) {
		t.Errorf("the theme came along: %s; %q", settings, back.Notes)
	}
}

// The tag that names the build is no path.
func TestRestoreOfABuildWithAHostileName(t *testing.T) {
	for _, slug := range []string{"..", "../skiff", "/skiff", "a/b", `a\b`, "con", "Skiff", ".git", "wall", strings.Repeat("a", 65), "skiff "} {
		dir := t.TempDir()
		_, err := shelving.Restore(context.Background(), hostileBag(t, slug, nil), filepath.Join(dir, "shop"), false)
		if err == nil && slug != "skiff " || err != nil && !strings.Contains(err.Error(), "names no build") {
			t.Errorf("%q: %v", slug, err)
		}
		if entries, _ := os.ReadDir(dir); err != nil && len(entries) > 0 {
			t.Errorf("%q: something was written", slug)
		}
	}
}
