package shelving_test

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"spruelight/gen"
	"spruelight/gen/bag"
	"spruelight/gen/output"
	"spruelight/gen/photo"
	"spruelight/gen/shelving"
	"spruelight/testdata/outside"
	"spruelight/themes"
)

// moment is when the example is shelved in tests.
var moment = time.Date(2026, 3, 15, 12, 0, 0, 0, time.UTC)

// renditions are the photos that were made, kept for all tests.
var renditions *photo.Cache

func TestMain(m *testing.M) { os.Exit(runWithCache(m)) }

func runWithCache(m *testing.M) int {
	dir, err := os.MkdirTemp("", "spruelight-shelving")
	if err == nil {
		defer os.RemoveAll(dir)
		renditions, err = photo.OpenCache(dir, "example", photo.DefaultCacheBytes)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	return m.Run()
}

// shelveEnv opens a workshop for shelving, at a fixed moment and with the cache
// of all tests.
func shelveEnv(t *testing.T, dir string) gen.Env {
	t.Helper()
	root, err := os.OpenRoot(dir)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { root.Close() })
	return gen.Env{Content: root.FS(), Themes: themes.FS, Moment: moment, Photos: renditions, Version: "test"}
}

const exampleDir = "../../content-example"

// shelved puts a build of the example into a bag.
func shelved(t *testing.T, slug, dst string, opts shelving.Options) *shelving.Archive {
	t.Helper()
	a, err := shelving.Shelve(context.Background(), shelveEnv(t, exampleDir), slug, opts)
	if err != nil {
		t.Fatal(err)
	}
	if a.Findings.Stops() {
		t.Fatalf("findings of severity stop: %v", a.Findings)
	}
	if err := a.Write(context.Background(), dst); err != nil {
		t.Fatal(err)
	}
	return a
}

// finishedBuilds are the builds of the example that stand on the shelf.
var finishedBuilds = []string{"cairnhead", "lanternhouse", "pumphouse"}

// A restored build assembles to the same bytes as the pages in its archive, and
// back in the workshop it came from, to the same site as before.
func TestRestoredBuildGivesTheSamePages(t *testing.T) {
	for _, slug := range finishedBuilds {
		t.Run(slug, func(t *testing.T) {
			dir := t.TempDir()
			name := filepath.Join(dir, slug+".zip")
			shelved(t, slug, name, shelving.Options{})

			unpacked := filepath.Join(dir, "site")
			if _, err := bag.Restore(context.Background(), name, unpacked, func(at string) string {
				rest, _ := strings.CutPrefix(at, "site/")
				if rest == at {
					return ""
				}
				return rest
			}); err != nil {
				t.Fatal(err)
			}
			shop := filepath.Join(dir, "workshop")
			back, err := shelving.Restore(context.Background(), name, shop, false)
			if err != nil || !back.Report.Valid || len(back.Notes) > 0 {
				t.Fatalf("%+v, %v", back, err)
			}
			again := siteOf(t, shop)
			for at := range again {
				if at == "sitemap.xml" {
					delete(again, at)
				}
			}
			sameFiles(t, contentsOf(t, unpacked), again)

			old := filepath.Join(dir, "old")
			if err := os.CopyFS(old, withoutBuild(slug)); err != nil {
				t.Fatal(err)
			}
			if back, err = shelving.Restore(context.Background(), name, old, false); err != nil || len(back.Wrote) != 1 {
				t.Fatalf("into the old workshop: %+v, %v", back, err)
			}
			sameFiles(t, siteOf(t, exampleDir), siteOf(t, old))
		})
	}
}

// So does any other build, finished or not, one with planted pictures among
// its own, and one in a theme of the workshop, where that is asked for.
func TestRestoredAloneIsTheSame(t *testing.T) {
	shop := filepath.Join(t.TempDir(), "shop")
	if err := os.CopyFS(shop, withoutBuild("none")); err != nil {
		t.Fatal(err)
	}
	planted, err := os.ReadFile("../photo/testdata/planted/all.jpg")
	if err == nil {
		err = os.WriteFile(filepath.Join(shop, "builds", "marram", "photos", "planted.jpg"), planted, 0o644)
	}
	journal := filepath.Join(shop, "builds", "marram", "build.md")
	text, e := os.ReadFile(journal)
	if err == nil {
		err = errors.Join(e, os.WriteFile(journal, append(text, "\n![four fields of colour](photos/planted.jpg)\n"...), 0o644))
	}
	if err == nil {
		err = os.CopyFS(filepath.Join(shop, "mine"), os.DirFS("../../themes/sheet"))
	}
	if err != nil {
		t.Fatal(err)
	}
	settings := filepath.Join(shop, "workshop.yaml")
	said, err := os.ReadFile(settings)
	if err != nil {
		t.Fatal(err)
	}
	own := regexp.MustCompile(`(?m)^theme:.*\n`).ReplaceAllString(string(said), "") + "theme: mine\n"
	for _, c := range []struct {
		slug, settings string
		withTheme      bool
	}{{"marram", string(said), false}, {"dunnock", string(said), false}, {"pumphouse", own, true}} {
		if err := os.WriteFile(settings, []byte(c.settings), 0o644); err != nil {
			t.Fatal(err)
		}
		env := shelveEnv(t, shop)
		env.Moment = allSeen
		a, err := shelving.Shelve(context.Background(), env, c.slug, shelving.Options{Anyway: true})
		if err != nil {
			t.Fatal(err)
		}
		dir := t.TempDir()
		name, back := filepath.Join(dir, "bag"), filepath.Join(dir, "back")
		if err := a.Write(context.Background(), name); err != nil {
			t.Fatal(err)
		}
		got, err := shelving.Restore(context.Background(), name, back, c.withTheme)
		if err != nil || len(got.Notes) > 0 {
			t.Fatalf("%s: %+v, %v", c.slug, got, err)
		}
		env = shelveEnv(t, back)
		env.Moment = allSeen
		again := siteIn(t, env)
		delete(again, "sitemap.xml")
		sameFiles(t, contentsOf(t, filepath.Join(name, "data", "site")), again)
	}
}

// allSeen is when nothing of the example is under embargo.
var allSeen = time.Date(2026, 4, 2, 12, 0, 0, 0, time.UTC)

// siteOf assembles a workshop.
func siteOf(t *testing.T, dir string) map[string]string {
	t.Helper()
	return siteIn(t, shelveEnv(t, dir))
}

func siteIn(t *testing.T, env gen.Env) map[string]string {
	t.Helper()
	var site output.Memory
	res, err := gen.Assemble(context.Background(), env, &site)
	if err != nil || res.Findings.Stops() {
		t.Fatalf("%v, %v", err, res.Findings)
	}
	out := map[string]string{}
	for _, f := range site.Files() {
		out[f.Path] = f.Hash
		if f.Open == nil {
			out[f.Path] = string(f.Bytes)
		}
	}
	return out
}

// contentsOf reads a folder. Renditions are known by the hash in their names.
func contentsOf(t *testing.T, dir string) map[string]string {
	t.Helper()
	out := map[string]string{}
	err := fs.WalkDir(os.DirFS(dir), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := os.ReadFile(filepath.Join(dir, name))
		out[name] = string(data)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func sameFiles(t *testing.T, want, got map[string]string) {
	t.Helper()
	for name, content := range want {
		other, ok := got[name]
		switch {
		case !ok:
			t.Errorf("%s is missing", name)
		case isText(name) && other != content:
			t.Errorf("%s differs", name)
		}
	}
	for name := range got {
		if _, ok := want[name]; !ok {
			t.Errorf("%s is new", name)
		}
	}
}

func isText(name string) bool {
	return slices.Contains([]string{".html", ".xml", ".css", ".svg", ".js", ".json"}, path.Ext(name))
}

// withoutBuild is the example without one build and without its made site.
func withoutBuild(slug string) fs.FS { return hiding{os.DirFS(exampleDir), path.Join("builds", slug)} }

type hiding struct {
	fs.FS
	hidden string
}

func (h hiding) ReadDir(name string) ([]fs.DirEntry, error) {
	list, err := fs.ReadDir(h.FS, name)
	return slices.DeleteFunc(list, func(d fs.DirEntry) bool {
		full := path.Join(name, d.Name())
		return full == h.hidden || full == "site" || full == "scenes"
	}), err
}

// links are the places that a page leads to or loads.
var links = regexp.MustCompile(`(?:href|src|srcset)="([^"]*)"`)

// Every link of an archive's pages leads to a file of the archive, or, where
// the author wrote a web address, to that; canonical addresses load nothing.
func TestArchivedPagesStandByThemselves(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "bag")
	shelved(t, "cairnhead", dir, shelving.Options{})
	site := filepath.Join(dir, "data", "site")
	for name, text := range contentsOf(t, site) {
		if path.Ext(name) != ".html" {
			continue
		}
		for _, line := range strings.Split(text, "\n") {
			if strings.Contains(line, `rel="canonical"`) {
				continue
			}
			for _, m := range links.FindAllStringSubmatch(line, -1) {
				for _, part := range strings.Split(m[1], ", ") {
					to, _, _ := strings.Cut(strings.Fields(part + " ")[0], "#")
					if to == "" || strings.HasPrefix(to, "data:") {
						continue
					}
					if strings.Contains(to, "://") {
						if !strings.HasPrefix(to, "https://video.example/") {
							t.Errorf("%s leads to %s", name, to)
						}
						continue
					}
					if _, err := os.Stat(filepath.Join(site, path.Dir(name), filepath.FromSlash(to))); err != nil {
						t.Errorf("%s leads to %s, which is not in the archive", name, to)
					}
				}
			}
		}
	}
	for _, other := range []string{"marram", "dunnock", "pumphouse"} {
		if _, err := os.Stat(filepath.Join(site, other)); err == nil {
			t.Errorf("the archive holds pages of %s", other)
		}
	}
}

// The same build gives the same bytes, in a folder's files and in a zip, when
// no date is asked for; with a date only that differs.
func TestArchivesAreTheSameEveryTime(t *testing.T) {
	dir := t.TempDir()
	var zips []string
	for _, name := range []string{"one/lantern.zip", "two/lantern.zip"} { // the name is that of the folder in it
		shelved(t, "lanternhouse", filepath.Join(dir, name), shelving.Options{Undated: true})
		data, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		zips = append(zips, string(data))
	}
	if zips[0] != zips[1] {
		t.Error("two archives of one build differ")
	}
	info, err := bag.Info(filepath.Join(dir, "one", "lantern.zip"))
	if err != nil || slices.ContainsFunc(info, func(tag bag.Tag) bool { return tag.Label == "Bagging-Date" }) {
		t.Errorf("a date where none was asked for: %v, %v", info, err)
	}
}

// sha512sum finds every file as its manifest says.
func TestArchiveBySha512sum(t *testing.T) {
	sum := outside.Tool(t, "sha512sum")
	dir := filepath.Join(t.TempDir(), "bag")
	shelved(t, "pumphouse", dir, shelving.Options{})
	for _, manifest := range []string{"manifest-sha512.txt", "tagmanifest-sha512.txt"} {
		cmd := exec.Command(sum, "--check", "--quiet", "--strict", manifest)
		cmd.Dir = dir
		if out, err := cmd.CombinedOutput(); err != nil {
			t.Errorf("%s: %v\n%s", manifest, err, out)
		}
	}
}

// Every picture with a place, a number and an owner in every corner comes into
// the archive without, also one that no page shows and one of the theme; the
// table and bag-info say of each what was taken out. What is asked to stay does.
func TestArchivedPhotosSayNothing(t *testing.T) {
	shop := filepath.Join(t.TempDir(), "shop")
	if err := os.CopyFS(shop, withoutBuild("none")); err != nil {
		t.Fatal(err)
	}
	photos := filepath.Join(shop, "builds", "cairnhead", "photos")
	const marks = "Quillhaven|QH-7731-X|Ada Feathers"
	for _, suffix := range []string{".jpg", ".png", ".webp", ".heic"} {
		data, err := os.ReadFile("../photo/testdata/planted/all" + suffix)
		if err == nil {
			err = os.WriteFile(filepath.Join(photos, "planted"+suffix), data, 0o644)
		}
		if err == nil && suffix == ".jpg" {
			err = os.WriteFile(filepath.Join(photos, "finished-dusk.jpg"), data, 0o644)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	for _, c := range []struct {
		opts  shelving.Options
		says  string // of the JPEG, in the table
		whole string // in bag-info
		left  int    // pictures of the archive with a mark
	}{
		{shelving.Options{}, "places removed: 9; serial numbers and owners removed: ", "maker's notes dropped", 0},
		{shelving.Options{KeepCamera: true}, "places removed: ", "serial numbers and owners kept", 5},
		{shelving.Options{KeepLocation: true}, "serial numbers and owners removed: ", "places kept", 5},
		{shelving.Options{KeepLocation: true, KeepCamera: true}, "kept as it was", "originals as they were", 5},
		{shelving.Options{Renditions: true}, "the original is left out", "renditions as the pages show them", 0},
	} {
		a, err := shelving.Shelve(context.Background(), shelveEnv(t, shop), "cairnhead", c.opts)
		if err != nil {
			t.Fatal(err)
		}
		dir := filepath.Join(t.TempDir(), "bag")
		if err := a.Write(context.Background(), dir); err != nil {
			t.Fatal(err)
		}
		files := contentsOf(t, dir)
		marked := 0
		for name, content := range files {
			if photo.IsKept(name) && regexp.MustCompile(marks).MatchString(content) {
				marked++
			}
		}
		if marked != c.left {
			t.Errorf("%+v: %d pictures with a mark, want %d", c.opts, marked, c.left)
		}
		row := regexp.MustCompile(`(?m)^photos/planted.jpg,.*$`).FindString(files["data/photos.csv"])
		if !strings.Contains(row, c.says) {
			t.Errorf("%+v: the table says %q", c.opts, row)
		}
		if info := strings.Join(strings.Fields(files["bag-info.txt"]), " "); !strings.Contains(info, c.whole) {
			t.Errorf("%+v: bag-info says %s", c.opts, info)
		}
		rows := strings.Count(files["data/photos.csv"], "\n") - 1
		if all := len(a.Cleaned) + strings.Count(files["data/photos.csv"], "nothing to remove"); c.opts == (shelving.Options{}) && all != rows {
			t.Errorf("%d pictures, of which something is said of %d", rows, all)
		}
	}
}

// exiftool finds nothing in the archive of planted pictures, pages included.
func TestArchivedPhotosByExiftool(t *testing.T) {
	exiftool := outside.Tool(t, "exiftool")
	shop := filepath.Join(t.TempDir(), "shop")
	if err := os.CopyFS(shop, withoutBuild("none")); err != nil {
		t.Fatal(err)
	}
	for _, suffix := range []string{".jpg", ".png", ".webp", ".heic"} {
		data, err := os.ReadFile("../photo/testdata/planted/all" + suffix)
		if err == nil {
			err = os.WriteFile(filepath.Join(shop, "builds", "cairnhead", "photos", "planted"+suffix), data, 0o644)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	dir := filepath.Join(t.TempDir(), "bag")
	a, err := shelving.Shelve(context.Background(), shelveEnv(t, shop), "cairnhead", shelving.Options{})
	if err == nil {
		err = a.Write(context.Background(), dir)
	}
	if err != nil {
		t.Fatal(err)
	}
	ask := func(at string) string {
		out, _ := exec.Command(exiftool, "-r", "-q", "-m", "-a", "-G1", "-ee", "-s", "-*GPS*", "-*Location*", "-*City*", "-*Serial*", "-*Owner*",
			"-*MakerNote*", "--File:all", "--EXIF:SubjectLocation", "-ext", "jpg", "-ext", "png", "-ext", "webp", "-ext", "heic", at).Output()
		return string(out)
	}
	if found := ask(shop); !strings.Contains(found, "Quillhaven") {
		t.Fatalf("nothing was planted: %s", found)
	}
	if found := ask(dir); strings.Contains(found, "]") {
		t.Errorf("still there:\n%s", found)
	}
}

// What is not finished, or not sound, is refused; --anyway shelves it and says
// so in the bag.
func TestShelveRefuses(t *testing.T) {
	_, err := shelving.Shelve(context.Background(), shelveEnv(t, exampleDir), "marram", shelving.Options{})
	var not *shelving.NotFinished
	if !errors.As(err, &not) {
		t.Errorf("a build on the bench: %v", err)
	}
	if _, err := shelving.Shelve(context.Background(), shelveEnv(t, exampleDir), "marrem", shelving.Options{}); err == nil || !strings.Contains(err.Error(), "did you mean \"marram\"?") {
		t.Errorf("a build that is not there: %v", err)
	}
	a, err := shelving.Shelve(context.Background(), shelveEnv(t, exampleDir), "marram", shelving.Options{Anyway: true, Embargoed: true})
	if err != nil {
		t.Fatal(err)
	}
	said := false
	for _, tag := range a.Info {
		said = said || tag.Label == "Shelved-Anyway" && strings.Contains(tag.Value, "state: bench")
	}
	if !said {
		t.Errorf("bag-info does not say that it is not finished: %v", a.Info)
	}
}

// A run that is cut off leaves nothing under the final name.
func TestShelveCutOff(t *testing.T) {
	a, err := shelving.Shelve(context.Background(), shelveEnv(t, exampleDir), "pumphouse", shelving.Options{})
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"bag", "bag.zip"} {
		ctx, stop := context.WithCancel(context.Background())
		stop()
		dst := filepath.Join(t.TempDir(), name)
		if err := a.Write(ctx, dst); err == nil {
			t.Errorf("%s: written all the same", name)
		}
		if _, err := os.Lstat(dst); !errors.Is(err, fs.ErrNotExist) {
			t.Errorf("%s: something is left", name)
		}
	}
}

// Restoring touches nothing that is there: an entry of the rack stays as it is,
// what is missing comes in a file of its own, and a second time is refused.
func TestRestoreTouchesNothing(t *testing.T) {
	dir := t.TempDir()
	name := filepath.Join(dir, "bag")
	shelved(t, "pumphouse", name, shelving.Options{})
	shop := filepath.Join(dir, "shop")
	mine := map[string]string{
		"workshop.yaml":    "name: Another bench\n",
		"rack/lamps.yaml":  "# mine\nwarm-white-3mm: {colour: warm white, forward: [3.0 V @ 10 mA]}\n",
		"rack/paints.yaml": "other: {kind: enamel}\n",
	}
	for at, text := range mine {
		os.MkdirAll(filepath.Dir(filepath.Join(shop, at)), 0o755)
		if err := os.WriteFile(filepath.Join(shop, at), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	back, err := shelving.Restore(context.Background(), name, shop, false)
	if err != nil {
		t.Fatal(err)
	}
	for at, text := range mine {
		if data, _ := os.ReadFile(filepath.Join(shop, at)); string(data) != text {
			t.Errorf("%s was touched", at)
		}
	}
	if !slices.Contains(back.Wrote, "rack/paints-pumphouse.yaml") || !slices.Contains(back.Wrote, "rack/supplies.yaml") || slices.Contains(back.Wrote, "rack/lamps-pumphouse.yaml") {
		t.Errorf("wrote %v", back.Wrote)
	}
	if notes := strings.Join(back.Notes, "\n"); !strings.Contains(notes, "warm-white-3mm is there already") || !strings.Contains(notes, "workshop.yaml is there already") {
		t.Errorf("notes %q", notes)
	}
	if res, err := gen.Check(context.Background(), shelveEnv(t, shop)); err != nil || res.Findings.Stops() {
		t.Errorf("the restored workshop does not read: %v, %v", err, res.Findings)
	}
	before := contentsOf(t, shop)
	if _, err := shelving.Restore(context.Background(), name, shop, false); err == nil {
		t.Error("restored over itself")
	}
	if after := contentsOf(t, shop); len(after) != len(before) {
		t.Error("a refused restore wrote something")
	}
}

// A damaged bag is not restored, and nothing is left behind.
func TestRestoreRefusesADamagedBag(t *testing.T) {
	dir := t.TempDir()
	name := filepath.Join(dir, "bag")
	shelved(t, "pumphouse", name, shelving.Options{})
	if err := os.WriteFile(filepath.Join(name, "data", "README.txt"), []byte("changed"), 0o644); err != nil {
		t.Fatal(err)
	}
	shop := filepath.Join(dir, "shop")
	back, err := shelving.Restore(context.Background(), name, shop, false)
	if err != nil || back.Report.Valid || len(back.Report.Faults) == 0 {
		t.Errorf("%+v, %v", back, err)
	}
	if _, err := os.Lstat(shop); !errors.Is(err, fs.ErrNotExist) {
		t.Error("something is left")
	}
}

// Without the originals the build comes back all the same, its renditions in
// their places.
func TestRestoreFromRenditions(t *testing.T) {
	dir := t.TempDir()
	name := filepath.Join(dir, "bag.zip")
	a := shelved(t, "cairnhead", name, shelving.Options{Renditions: true})
	if !slices.Contains(a.Lacks, "the original photos") {
		t.Errorf("lacks %v", a.Lacks)
	}
	for _, item := range a.Items {
		if strings.HasPrefix(item.Path, "photos/") {
			t.Errorf("%s is an original", item.Path)
		}
	}
	back, err := shelving.Restore(context.Background(), name, filepath.Join(dir, "shop"), false)
	if err != nil || len(back.Notes) != 1 {
		t.Fatalf("%+v, %v", back, err)
	}
	siteOf(t, filepath.Join(dir, "shop"))
}

// The contents page leads to the pages of each bag, also from a folder whose
// name needs escaping, and says which bag is damaged.
func TestCatalogue(t *testing.T) {
	dir := t.TempDir()
	shelved(t, "pumphouse", filepath.Join(dir, "pump house #1"), shelving.Options{})
	shelved(t, "lanternhouse", filepath.Join(dir, "lantern.zip"), shelving.Options{})
	shelved(t, "cairnhead", filepath.Join(dir, "cairn"), shelving.Options{})
	if err := os.Remove(filepath.Join(dir, "cairn", "data", "README.txt")); err != nil {
		t.Fatal(err)
	}
	out := filepath.Join(dir, "catalogue")
	c, err := shelving.Catalogue(context.Background(), themes.FS, "spruelight test", dir, out)
	if err != nil {
		t.Fatal(err)
	}
	if c.Models != 3 || len(c.Broken) != 1 || !strings.Contains(c.Broken[0], "cairn") {
		t.Errorf("%d models, broken %v", c.Models, c.Broken)
	}
	for _, f := range c.Files {
		if f.Path != "index.html" {
			continue
		}
		for _, want := range []string{`href="../pump%20house%20%231/data/site/pumphouse/index.html"`, `href="../lantern.zip"`, "every checksum agrees", "damaged", "README.txt"} {
			if !strings.Contains(string(f.Bytes), want) {
				t.Errorf("the page does not hold %q", want)
			}
		}
	}
}
