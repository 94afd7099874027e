package gen_test

import (
	"context"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"testing/fstest"

	"spruelight/gen"
	"spruelight/gen/photo"
	"spruelight/gen/source"
	"spruelight/testdata/effort"
	"spruelight/themes"
)

// spy notes every name that is opened of a workshop.
type spy struct {
	fs.FS
	mu    sync.Mutex
	names []string
}

func (s *spy) Open(name string) (fs.File, error) {
	s.mu.Lock()
	s.names = append(s.names, name)
	s.mu.Unlock()
	return s.FS.Open(name)
}

// waysOut are names that lead, or on some system would lead, out of a folder,
// to a device, or to another file than the one they show.
var waysOut = []string{
	"../secret.jpg", "../../secret.jpg", "../../../secret.jpg", "photos/../../secret.jpg", "photos/../../../secret.jpg", "./../secret.jpg", "..", ".", "photos/..", "../../../../../../../../etc/passwd",
	"/secret.jpg", "/etc/passwd", "//host/share/a.jpg", `\\host\share\a.jpg`, `\secret.jpg`, `..\secret.jpg`, `..\..\secret.jpg`, `photos\a.jpg`, `photos\..\..\..\secret.jpg`,
	`C:\secret.jpg`, "C:secret.jpg", "c:/secret.jpg", `\\?\C:\secret.jpg`, `\\.\pipe\a`, "photos/a.jpg:stream", "photos/a.jpg::$DATA",
	"CON", "nul", "NUL.jpg", "photos/aux.jpg", "COM1", "LPT9.jpg", "CONIN$", "photos/a.jpg.", "photos./a.jpg", "photos/a.jpg...",
	"%2e%2e/secret.jpg", "..%2fsecret.jpg", "..%5csecret.jpg", "%2e%2e%2f%2e%2e%2fsecret.jpg", "..;/secret.jpg", "..%c0%afsecret.jpg",
	"\uff0e\uff0e/secret.jpg", "..\u2215secret.jpg", "..\u2044secret.jpg", "..\uff0fsecret.jpg", ".\u200b./secret.jpg", "\u2025/secret.jpg", "photos/a\u200b.jpg", "photos/\u0430.jpg", "photos/a.jp\u0261",
	"photos/\u202egpj.a", "photos/a.jpg\x00", "photos/a.jpg\x00.png", "photos/\x01a.jpg", "photos/a.jpg\n../secret.jpg",
	"~/secret.jpg", "~root/.ssh/id_rsa", "$HOME/secret.jpg", "%USERPROFILE%/secret.jpg", "file:///etc/passwd", "file:../secret.jpg", "photos/*", "photos/[a].jpg", "photos/?.jpg", "|id", "`id`", "$(id)",
}

// Each place in which a journal names a file: no name opens anything outside
// its folder, and each gets a finding where it stands. In short every way out is
// tried for photos, and some for the other places.
func TestNamesCannotLeaveTheirFolders(t *testing.T) {
	secrets := []string{"secret.jpg", "builds/secret.jpg", "id", "etc/passwd"}
	link := func(name string) string { return strings.NewReplacer("\n", " ", "\\", `\\`).Replace(name) }
	for _, place := range []struct {
		kind, file, from string
		few              bool
		to               func(name string) string
	}{
		{"photo", "builds/skiff/2026-02-14.md", "file: photos/a.jpg", false, func(n string) string { return "file: " + inQuotes(n) }},
		{"pair", "builds/skiff/2026-02-14.md", "photos: [{file: photos/a.jpg, alt: a lamp, caption: The lamp, credit: a guest, marks: [{at: 42 % 31 %, says: here}]}]", true, func(n string) string {
			return "photos: [{pair: [photos/a.jpg, " + inQuotes(n) + "], alt: a}]"
		}},
		{"photo before closing", "builds/skiff/2026-02-14.md", "lit: [D1]", true, func(n string) string {
			return "before closing: [{area: hull inside, photo: " + inQuotes(n) + "}]"
		}},
		{"lead", "builds/skiff/build.md", "lead: photos/a.jpg", true, func(n string) string { return "lead: " + inQuotes(n) }},
		{"repair sheet", "builds/skiff/build.md", "lead: photos/a.jpg", true, func(n string) string { return "repair: {photo: " + inQuotes(n) + "}" }},
		{"choice", "builds/skiff/build.md", "options: [stowed,", true, func(n string) string { return "options: [{option: stowed, photo: " + inQuotes(n) + ", alt: a}," }},
		{"outline", "builds/skiff/build.md", "lead: photos/a.jpg", false, func(n string) string { return "outline: " + inQuotes(n) }},
		{"outline on the shelf", "shelf.yaml", "scale: 1/72,", false, func(n string) string { return "scale: 1/72, outline: " + inQuotes(n) + "," }},
		{"picture in a text", "builds/skiff/2026-02-14.md", "Lit *well*.", false, func(n string) string { return "![a](<" + link(n) + ">)" }},
		{"link in a text", "wall/about.md", "Us.", true, func(n string) string { return "[a](<" + link(n) + ">)" }},
		{"theme", "workshop.yaml", "currency: EUR", false, func(n string) string { return "currency: EUR\ntheme: " + inQuotes(n) }},
	} {
		for i, name := range waysOut {
			if i%effort.Of(6, 4) > 0 && place.few || i%effort.Of(3, 1) > 0 && place.kind != "photo" { // these go by the rule of the photo
				continue
			}
			shop := smallShop()
			for _, secret := range secrets {
				shop[secret] = &fstest.MapFile{Data: []byte("secret")}
			}
			before := string(shop[place.file].Data)
			text := strings.Replace(before, place.from, place.to(name), 1)
			if text == before {
				t.Fatalf("%s: nothing changes", place.kind)
			}
			shop[place.file] = &fstest.MapFile{Data: []byte(text)}
			eye := &spy{FS: shop}
			res, err := gen.Check(context.Background(), gen.Env{Content: eye, Themes: themes.FS, Moment: moment, Workers: 1, Photos: photo.MemoryCache(), Version: "test"})
			if err != nil {
				t.Fatal(err)
			}
			for _, opened := range eye.names {
				if slices.Contains(secrets, opened) || !fs.ValidPath(opened) || path.Clean(opened) != opened {
					t.Errorf("%s %q opens %q", place.kind, name, opened)
				}
			}
			said := slices.ContainsFunc(res.Findings, func(f source.Finding) bool {
				return f.At.Name() == place.file && f.Severity() >= source.Warn && !f.Do.Empty() && !strings.HasPrefix(f.Rule.Name, "closed-") && f.Rule.Name != "chapter-too-few"
			})
			if !said {
				t.Errorf("%s %q: nothing is said", place.kind, name)
			}
		}
	}
}

// Symbolic links are followed inside the workshop and nowhere else.
func TestLinksStayInTheWorkshop(t *testing.T) {
	dir, elsewhere := t.TempDir(), t.TempDir()
	write := func(base, name string, data []byte) {
		full := filepath.Join(base, filepath.FromSlash(name))
		os.MkdirAll(filepath.Dir(full), 0o755)
		if err := os.WriteFile(full, data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	picture := smallShop()["builds/skiff/photos/a.jpg"].Data
	write(elsewhere, "private.jpg", picture)
	write(elsewhere, "private.md", []byte("---\nstage: lighting\n---\nprivate words\n"))
	write(elsewhere, "tug/build.md", []byte("---\nname: private words\nstate: stash\n---\n"))
	write(elsewhere, "private.svg", []byte(`<svg xmlns="http://www.w3.org/2000/svg"><path d="M0 0h9v5z"/></svg>`))
	write(elsewhere, "look/sheet.css", []byte("/* private words */"))
	for _, c := range []struct {
		name, link, to string // to: relative to the link, or a name in the folder elsewhere after a colon
		file, from, as string // a change to one file that names the link
		refused        bool
	}{
		{"a photo of this build", "builds/skiff/photos/b.jpg", "a.jpg", "builds/skiff/2026-02-14.md", "photos/a.jpg", "photos/b.jpg", false},
		{"a photo of another folder of the workshop", "builds/skiff/photos/b.jpg", "../../../shared.jpg", "builds/skiff/2026-02-14.md", "photos/a.jpg", "photos/b.jpg", false},
		{"a photo elsewhere", "builds/skiff/photos/b.jpg", ":private.jpg", "builds/skiff/2026-02-14.md", "photos/a.jpg", "photos/b.jpg", true},
		{"a photo elsewhere, by a way up", "builds/skiff/photos/b.jpg", "../../../../../../../../../../../../etc/hostname", "builds/skiff/2026-02-14.md", "photos/a.jpg", "photos/b.jpg", true},
		{"a folder of photos elsewhere", "builds/skiff/more", ":", "builds/skiff/2026-02-14.md", "photos/a.jpg", "more/private.jpg", true},
		{"a link to itself", "builds/skiff/photos/b.jpg", "b.jpg", "builds/skiff/2026-02-14.md", "photos/a.jpg", "photos/b.jpg", true},
		{"a sitting elsewhere", "builds/skiff/2026-02-15.md", ":private.md", "", "", "", true},
		{"a build elsewhere", "builds/launch", ":tug", "", "", "", true},
		{"a page of the wall elsewhere", "wall/more.md", ":private.md", "", "", "", true},
		{"a file of the rack elsewhere", "rack/wire.yaml", ":private.md", "", "", "", true},
		{"an outline elsewhere", "tug.svg", ":private.svg", "shelf.yaml", "scale: 1/72,", "scale: 1/72, outline: tug.svg,", true},
		{"a theme elsewhere", "look", ":look", "workshop.yaml", "currency: EUR", "currency: EUR\ntheme: look", true},
	} {
		t.Run(c.name, func(t *testing.T) {
			shop := filepath.Join(dir, strings.ReplaceAll(c.name, " ", "-"))
			for name, file := range smallShop() {
				data := string(file.Data)
				if name == c.file {
					data = strings.Replace(data, c.from, c.as, 1)
				}
				write(shop, name, []byte(data))
			}
			write(shop, "shared.jpg", picture)
			to := c.to
			if name, out := strings.CutPrefix(to, ":"); out {
				to = filepath.Join(elsewhere, name)
			}
			if err := os.Symlink(to, filepath.Join(shop, c.link)); err != nil {
				t.Skipf("this system makes no symbolic links: %v", err)
			}
			root, err := os.OpenRoot(shop)
			if err != nil {
				t.Fatal(err)
			}
			defer root.Close()
			res, err := gen.Gather(context.Background(), gen.Env{Content: root.FS(), Themes: themes.FS, Moment: moment, Workers: 1, Photos: photo.MemoryCache(), Version: "test"})
			if err != nil {
				t.Fatal(err)
			}
			for _, f := range res.Files {
				if strings.Contains(string(f.Bytes), "private words") {
					t.Errorf("%s holds what lies elsewhere", f.Path)
				}
			}
			var says []string
			for _, f := range res.Findings {
				if f.Severity() == source.Stop {
					says = append(says, fmt.Sprintf("%s: %s; %s", f.Rule.Name, f.Says.String(), f.Do.String()))
				}
			}
			if c.refused != (len(says) > 0) {
				t.Errorf("refused: %v, %v", len(says) > 0, says)
			}
		})
	}
}
