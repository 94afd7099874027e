package output

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// refused writes site B into dir and returns the message, with the folder of
// the test written as {tmp}.
func refused(t *testing.T, tmp, dir string, opts Options) string {
	t.Helper()
	_, err := Write(context.Background(), dir, siteB.files(), opts)
	if err == nil {
		t.Fatalf("writing to %s was not refused", dir)
	}
	return strings.ReplaceAll(err.Error(), tmp, "{tmp}")
}

func realTemp(t *testing.T) string {
	t.Helper()
	tmp, err := filepath.EvalSymlinks(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	return tmp
}

func TestFoldersThatAreNotOurs(t *testing.T) {
	cases := []struct {
		name string
		have tree
		want string
	}{
		{"files of others", tree{"diary.txt": "dear diary"}, "{tmp}/site: is not empty (it holds diary.txt), and what is in there was not written by spruelight; choose a new folder with --out; files moved into that one afterwards are kept"},
		{"many files", tree{"a": "", "b": "", "c": "", "d": ""}, "(it holds a, b, c and more)"},
		{"a damaged list", tree{ListName: "spruelight site 1\n", "x": ""}, "{tmp}/site/" + ListName + ": the list of written files is damaged: line 1 is not the closing line"},
		{"a foreign list", tree{ListName: "hello\n", "x": ""}, `line 1 is not "spruelight site 1"`},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			tmp := realTemp(t)
			dir := filepath.Join(tmp, "site")
			put(t, dir, c.have)
			before := stamps(t, dir)
			if got := refused(t, tmp, dir, Options{}); !strings.Contains(got, c.want) {
				t.Errorf("got  %s\nwant %s", got, c.want)
			}
			for p, info := range stamps(t, dir) {
				if !same(before[p], info) {
					t.Errorf("%s was touched", p)
				}
			}
			mustBeAlone(t, dir)
		})
	}
}

func TestEmptyFolderIsTaken(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "site")
	if err := os.Mkdir(dir, 0o750); err != nil {
		t.Fatal(err)
	}
	mustWrite(t, dir, siteA)
	mustHold(t, dir, siteA)
	info, err := os.Stat(dir)
	if err != nil || info.Mode().Perm() != 0o750 {
		t.Errorf("the folder's permissions became %v, %v", info.Mode(), err)
	}
	mustBeAlone(t, dir)
}

func TestMissingFoldersAboveAreMade(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "a", "b", "site")
	mustWrite(t, dir, siteA)
	mustHold(t, dir, siteA)
}

func TestGuestsInTheWay(t *testing.T) {
	cases := []struct {
		name  string
		guest tree
		want  string
	}{
		{"file for file", tree{"new/here.html": "theirs"}, "{tmp}/site/new/here.html: this file was not written by spruelight and is in the way of new/here.html of the new site; move or rename it, or choose another folder with --out"},
		{"same but for case", tree{"INDEX.HTML": "theirs"}, "{tmp}/site/INDEX.HTML: this file was not written by spruelight and is in the way of index.html of the new site"},
		{"file for folder", tree{"new": "theirs"}, "{tmp}/site/new: this file was not written by spruelight and is in the way of new/ of the new site"},
		{"folder for file", tree{"new/here.html/x": "theirs"}, "{tmp}/site/new/here.html: this folder was not written"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			tmp := realTemp(t)
			dir := filepath.Join(tmp, "site")
			mustWrite(t, dir, siteA)
			put(t, dir, c.guest)
			if got := refused(t, tmp, dir, Options{}); !strings.Contains(got, c.want) {
				t.Errorf("got  %s\nwant %s", got, c.want)
			}
			mustHold(t, dir, siteA.with(c.guest))
			mustBeAlone(t, dir)
		})
	}
}

// A folder of ours that becomes a file cannot take guests along.
func TestGuestInAFolderThatBecomesAFile(t *testing.T) {
	tmp := realTemp(t)
	dir := filepath.Join(tmp, "site")
	mustWrite(t, dir, tree{"a/b.html": "1"})
	put(t, dir, tree{"a/mine.txt": "mine"})
	_, err := Write(context.Background(), dir, tree{"a": "file"}.files(), Options{})
	const want = "a/mine.txt: this file was not written by spruelight and is in the way of a of the new site"
	if err == nil || !strings.Contains(err.Error(), want) {
		t.Errorf("got %v", err)
	}
	mustHold(t, dir, tree{"a/b.html": "1", "a/mine.txt": "mine"})
	if err := os.Remove(filepath.Join(dir, "a/mine.txt")); err != nil {
		t.Fatal(err)
	}
	mustWrite(t, dir, tree{"a": "file"})
	mustHold(t, dir, tree{"a": "file"})
	mustWrite(t, dir, tree{"a/b.html": "1"})
	mustHold(t, dir, tree{"a/b.html": "1"})
}

// What somebody made of a file of ours is theirs once the site drops that file.
func TestEditedFileThatTheSiteDropsIsKept(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "site")
	mustWrite(t, dir, siteA)
	put(t, dir, tree{"old/gone.html": "my own words"})
	mustWrite(t, dir, siteB)
	want := siteB.with(tree{"old/gone.html": "my own words"})
	mustHold(t, dir, want)
	mustWrite(t, dir, siteB)
	mustHold(t, dir, want)
}

func TestLinks(t *testing.T) {
	tmp := realTemp(t)
	elsewhere := filepath.Join(tmp, "drive", "www")
	if err := os.MkdirAll(elsewhere, 0o777); err != nil {
		t.Fatal(err)
	}
	dir := filepath.Join(tmp, "site")
	if err := os.Symlink(elsewhere, dir); err != nil {
		t.Skip("no symbolic links here: ", err)
	}
	mustWrite(t, dir, siteA)
	mustWrite(t, dir, siteB)
	mustHold(t, elsewhere, siteB)
	mustBeAlone(t, elsewhere)
	if to, err := os.Readlink(dir); err != nil || to != elsewhere {
		t.Errorf("the link became %q, %v", to, err)
	}

	// A folder inside that became a link leads nowhere we would write to.
	outside := filepath.Join(tmp, "outside")
	put(t, outside, tree{"index.html": "not ours"})
	if err := os.RemoveAll(filepath.Join(elsewhere, "builds")); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(outside, filepath.Join(elsewhere, "builds")); err != nil {
		t.Fatal(err)
	}
	if got := refused(t, tmp, dir, Options{}); !strings.Contains(got, "{tmp}/drive/www/builds: this file was not written by spruelight") {
		t.Errorf("got %s", got)
	}
	mustHold(t, outside, tree{"index.html": "not ours"})

	dangling := filepath.Join(tmp, "dangling")
	if err := os.Symlink(filepath.Join(tmp, "nowhere"), dangling); err != nil {
		t.Fatal(err)
	}
	const want = "{tmp}/dangling: is a link to {tmp}/nowhere, which does not exist; make that folder, or remove the link"
	if got := refused(t, tmp, dangling, Options{}); got != want {
		t.Errorf("got %s", got)
	}
}

func TestKeptApart(t *testing.T) {
	tmp := realTemp(t)
	shop := filepath.Join(tmp, "shop")
	put(t, shop, tree{"workshop.yaml": "name: x", "builds/marram/build.md": "words", "wall/about.md": "words"})
	if err := os.Symlink(shop, filepath.Join(tmp, "alias")); err != nil {
		t.Skip("no symbolic links here: ", err)
	}
	opts := Options{Forbid: []string{filepath.Join(shop, "builds"), filepath.Join(shop, "wall"), filepath.Join(shop, "theme")}, Workshop: shop}
	cases := []struct{ dir, want string }{
		{"shop", "{tmp}/shop: the output is or holds {tmp}/shop/builds, whose files must not be touched; choose another folder with --out"},
		{"shop/builds", "is or holds {tmp}/shop/builds"},
		{"shop/builds/marram", "lies inside {tmp}/shop/builds"},
		{"shop/builds/new/site", "lies inside {tmp}/shop/builds"},
		{"alias/builds/new", "lies inside {tmp}/shop/builds"},
		{"shop/site/../wall", "is or holds {tmp}/shop/wall"},
		{"shop/theme", "is or holds {tmp}/shop/theme"}, // does not exist yet
		{"shop/theme/x", "lies inside {tmp}/shop/theme"},
		{".", "is or holds"},
	}
	for _, c := range cases {
		dir := filepath.Join(tmp, "shop") + "/../" + c.dir
		if got := refused(t, tmp, dir, opts); !strings.Contains(got, strings.TrimPrefix(c.want, "{tmp}/shop: ")) {
			t.Errorf("%s\n got %s\nwant %s", c.dir, got, c.want)
		}
	}
	if got := refused(t, tmp, shop, Options{Workshop: shop}); !strings.Contains(got, "is or holds {tmp}/shop, whose") {
		t.Errorf("the workshop itself: %s", got)
	}
	mustHold(t, shop, tree{"workshop.yaml": "name: x", "builds/marram/build.md": "words", "wall/about.md": "words"})
	if _, err := Write(context.Background(), filepath.Join(shop, "site"), siteA.files(), opts); err != nil {
		t.Errorf("a site inside the workshop is refused: %v", err)
	}
}

func TestPlacesThatCannotBe(t *testing.T) {
	tmp := realTemp(t)
	put(t, tmp, tree{"file": "x"})
	readOnly := filepath.Join(tmp, "frozen")
	if err := os.Mkdir(readOnly, 0o555); err != nil {
		t.Fatal(err)
	}
	cases := map[string]string{
		"":                               "output folder: has no name",
		"/":                              "/: is the top of a drive or mount",
		filepath.Join(tmp, "file"):       "{tmp}/file: is a file, not a folder",
		filepath.Join(tmp, "file", "in"): "{tmp}/file/in: cannot be found: not a directory",
		readOnly:                         "{tmp}/frozen: is read-only",
	}
	for dir, want := range cases {
		if got := refused(t, tmp, dir, Options{}); !strings.Contains(got, want) {
			t.Errorf("%q: got %s, want %s", dir, got, want)
		}
	}
}

func TestBadFiles(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "site")
	cases := []struct {
		file File
		want string
	}{
		{File{Path: "../x"}, `file path "../x" has ".." in it`},
		{File{Path: ListName}, "kept for the list"},
		{File{Path: strings.ToUpper(ListName)}, "kept for the list"},
		{File{Path: "x", Hash: "abc"}, "not a SHA-256"},
	}
	for _, c := range cases {
		if _, err := Write(context.Background(), dir, []File{c.file}, Options{}); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%+v: got %v, want %q", c.file, err, c.want)
		}
	}
	if _, err := os.Lstat(dir); !os.IsNotExist(err) {
		t.Errorf("the folder was made all the same: %v", err)
	}
}
