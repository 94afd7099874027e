package gen

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"path"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"spruelight/gen/source"
	"spruelight/themes"
)

// composed is a workshop with all its pages listed, its photos left out.
func composed(t *testing.T, env Env) *run {
	t.Helper()
	env.Themes, env.Moment = themes.FS, time.Date(2026, 3, 15, 21, 0, 0, 0, time.UTC)
	r := newRun(env)
	r.read(context.Background())
	r.reckon(context.Background())
	if !r.compose() {
		t.Fatal(r.found)
	}
	return r
}

// The pages of builds that a text may link to are those that are printed.
func TestPagesThatCanBeLinkedTo(t *testing.T) {
	r := composed(t, Env{Content: os.DirFS("../content-example")})
	for _, w := range r.works {
		named := append(w.pageNames(w.facts()), "index.html")
		for _, s := range w.build.Sittings {
			named = append(named, s.Slug+".html")
		}
		if w.build.Review != nil {
			named = append(named, "review.html")
		}
		var printed []string
		for _, s := range w.part.make().sheets {
			printed = append(printed, path.Base(s.Path))
		}
		slices.Sort(named)
		slices.Sort(printed)
		if !slices.Equal(named, printed) {
			t.Errorf("%s: can be linked to %v, printed are %v", w.slug(), named, printed)
		}
	}
}

// The wall of a small workshop: groups, drawings and pictures of free pages.
func TestWall(t *testing.T) {
	page := func(front, body string) *fstest.MapFile {
		return &fstest.MapFile{Data: []byte("---\n" + front + "\n---\n" + body + "\n")}
	}
	shop := fstest.MapFS{
		"workshop.yaml":         {Data: []byte("name: Bench\n")},
		"rack/lamps.yaml":       {Data: []byte("white: {colour: white, forward: 3 V @ 20 mA}\n")},
		"rack/supplies.yaml":    {Data: []byte("usb: {kind: usb, volts: 5 V}\n")},
		"builds/skiff/build.md": page("name: Skiff\nstate: bench\ncircuits: [{name: c, supply: usb, branches: [{name: b, lamps: [white]}]}]", "A skiff."),
		"wall/about.md":         page("title: About", "Us."),
		"wall/two.md":           page("title: Two\ngroup: Guide\norder: 20", "[lighting](../builds/skiff/lighting.html) and [none](../builds/skiff/finish.html)\n\n![The loom](../builds/skiff/drawings/loom.svg)"),
		"wall/one.md":           page("title: One\ngroup: Guide\norder: 10", "![The boom](../builds/skiff/drawings/boom.svg)\n\n![gone](photos/gone.jpg)\n\n![far](../../far.jpg)"),
	}
	r := newRun(Env{Content: shop, Themes: themes.FS})
	r.read(context.Background())
	r.reckon(context.Background())
	var said []string
	for _, f := range r.found {
		if strings.HasPrefix(f.At.Name(), "wall/") {
			said = append(said, fmt.Sprintf("%s %s %s", f.At.Name(), f.Rule.Name, f.Do.String()))
		}
	}
	slices.Sort(said)
	want := []string{
		"wall/one.md outside-folder copy the picture into a build's folder or into wall/photos",
		"wall/one.md photo-missing copy the picture there, or correct the name",
		"wall/two.md broken-link link to a sitting, a build.md, a review.md, a page of the build such as lighting.html, or a page of the wall, by its path from this file",
	}
	if !slices.Equal(said, want) {
		t.Errorf("findings:\n%s\nwant:\n%s", strings.Join(said, "\n"), strings.Join(want, "\n"))
	}

	shop["wall/one.md"] = page("title: One\ngroup: Guide\norder: 10", "![The boom](../builds/skiff/drawings/boom.svg)")
	r = composed(t, Env{Content: shop})
	if i := slices.IndexFunc(r.found, func(f source.Finding) bool { return strings.Contains(f.Says.String(), "boom.svg") }); i < 0 || !strings.Contains(r.found[i].Do.String(), "loom.svg") {
		t.Errorf("the missing drawing is not said, or not which there are: %v", r.found)
	}
	var nav []string
	for _, l := range r.theme.site.Nav {
		nav = append(nav, l.Name+" "+l.Path)
	}
	if got := strings.Join(nav, ", "); !strings.Contains(got, "Guide wall/one.html, About wall/about.html, Search") {
		t.Errorf("navigation: %s", got)
	}
	for _, s := range r.theme.whole().Sheets {
		if s.Path != "wall/two.html" {
			continue
		}
		text, found := r.theme.book.Print(r.theme.site, s)
		for _, part := range []string{`<a href="../skiff/lighting.html">lighting</a>`, "and none", `id="skiff-loom-title"`, `aria-labelledby="skiff-loom-title skiff-loom-desc"`, "<figcaption><span>The loom",
			`<a href="one.html" aria-current="true">Guide</a>`, `<nav class="chapters" aria-label="Guide">`, `<a href="two.html" aria-current="page">Two</a>`} {
			if len(found) > 0 || !strings.Contains(string(text), part) {
				t.Errorf("the page lacks %s (%v)", part, found)
			}
		}
	}
}

// A search finds the guide by its words and the reference by its headings, and
// its index stays small enough to be loaded on a phone.
func TestSearchFindsTheGuide(t *testing.T) {
	r := composed(t, Env{Content: os.DirFS("../content-example")})
	size, all := 0, ""
	for _, file := range r.theme.whole().IndexFiles() {
		text, _ := file.Make()
		size += len(text)
		all += string(text)
	}
	if size > 150_000 {
		t.Errorf("the index has %d bytes", size)
	}
	pages := regexp.MustCompile(`searchPages\(0,(.*)\);`).FindStringSubmatch(all)
	var list [][4]string
	if err := json.Unmarshal([]byte(pages[1]), &list); err != nil {
		t.Fatal(err)
	}
	for word, page := range map[string]string{"lampshade": "wall/guide-light-blocking.html", "caliper": "wall/guide-scale.html", "headroom": "wall/reference-rules.html",
		"recoat": "wall/reference-rack.html", "mapping": ""} {
		found := regexp.MustCompile(`"` + word + `":\[([^\]]*)\]`).FindStringSubmatch(all)
		var at []string
		if found != nil {
			for i, n := range strings.Split(found[1], ",") {
				if i%2 == 0 {
					k, _ := strconv.Atoi(n)
					at = append(at, list[k][0])
				}
			}
		}
		if page != "" && !slices.Contains(at, page) {
			t.Errorf("%s is found on %v, want %s among them", word, at, page)
		}
		if page == "" && slices.Contains(at, "wall/reference-build.html") {
			t.Errorf("%s, a word of the reference's text, is in the index", word)
		}
	}
}
