package gen_test

import (
	"context"
	"encoding/json"
	"fmt"
	"io/fs"
	"maps"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"spruelight/gen"
	"spruelight/gen/output"
	"spruelight/testdata/outside"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// served serves the example from memory's copy on disk.
func served(t *testing.T) (site, home string) {
	t.Helper()
	site = assembled(t)
	server := httptest.NewServer(http.FileServer(http.Dir(site)))
	t.Cleanup(server.Close)
	return site, server.URL + "/"
}

// kinds returns one page of each kind, the largest.
func kinds(t *testing.T, site string) map[string]string {
	t.Helper()
	of, size := map[string]string{}, map[string]int{}
	kind := regexp.MustCompile(`<body class="kind-(\w+)"`)
	for _, name := range files(t, site, ".html") {
		text, err := os.ReadFile(filepath.Join(site, name))
		if err != nil {
			t.Fatal(err)
		}
		if m := kind.FindSubmatch(text); m != nil && len(text) > size[string(m[1])] {
			of[string(m[1])], size[string(m[1])] = name, len(text)
		}
	}
	return of
}

// media emulates a reader's settings: "dark", "forced-colors active".
func media(t *testing.T, ctx context.Context, scheme string, forced bool) {
	t.Helper()
	features := []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}, {Name: "forced-colors", Value: "none"}}
	if forced {
		features[1].Value = "active"
	}
	err := chromedp.Do(ctx, chromedp.Func(func(ctx context.Context, tab *chromedp.Target) error {
		_, err := cdp.Call(ctx, tab, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: features})
		return err
	}))
	if err != nil {
		t.Fatal(err)
	}
}

func do(t *testing.T, ctx context.Context, actions ...chromedp.Action[chromedp.Void]) {
	t.Helper()
	for _, a := range actions {
		if err := chromedp.Do(ctx, a); err != nil {
			t.Fatal(err)
		}
	}
}

func eval[T any](t *testing.T, ctx context.Context, script string) T {
	t.Helper()
	v, err := chromedp.Run(ctx, chromedp.Evaluate[T](script, chromedp.EvalAwaitPromise))
	if err != nil {
		t.Fatalf("%v in %.100s", err, script)
	}
	return v
}

// becomes waits until a script is true.
func becomes(t *testing.T, ctx context.Context, script string) {
	t.Helper()
	for range 200 {
		if eval[bool](t, ctx, script) {
			return
		}
		time.Sleep(20 * time.Millisecond)
	}
	t.Fatalf("never true: %s", script)
}

// shift sums the layout shifts of a page (Layout Instability API), and names
// what moved.
const shift = `new Promise(done => { let sum = 0, what = [];
	const box = r => [r.x, r.y, r.width, r.height].map(Math.round).join(" ");
	new PerformanceObserver(list => { for (const e of list.getEntries()) if (!e.hadRecentInput) { sum += e.value;
		what.push(...e.sources.map(s => (s.node?.outerHTML ?? "").slice(0, 60) + " from " + box(s.previousRect) + " to " + box(s.currentRect))); } }).observe({type: "layout-shift", buffered: true});
	setTimeout(() => done({Sum: sum, What: what}), 60); })`

type shifted struct {
	Sum  float64
	What []string
}

// Every kind of page, at three widths, light and dark: no complaint of the
// browser, no sideways scroll, no layout shift of 0.05 or more.
func TestEveryKindAtThreeWidthsInLightAndDark(t *testing.T) {
	site, home := served(t)
	pages := kinds(t, site)
	for _, want := range []string{"front", "build", "sitting", "lighting", "meter", "finish", "scale", "lineup", "parts", "problems", "choices", "review", "comparison",
		"hours", "allhours", "techniques", "technique", "repair", "entry", "search", "missing", "wall"} {
		if pages[want] == "" {
			t.Errorf("the example has no page of kind %s", want)
		}
	}
	lookAt(t, home, pages, "light", "dark")
}

// The theme lamplight holds to the same, and lays nothing over anything else.
func TestLamplight(t *testing.T) {
	site := lamplit(t)
	server := httptest.NewServer(http.FileServer(http.Dir(site)))
	defer server.Close()
	lookAt(t, server.URL+"/", kinds(t, site), "light")
}

// lamplit assembles the example in the theme lamplight.
func lamplit(t *testing.T) string {
	t.Helper()
	assembled(t)
	text, err := os.ReadFile("../content-example/workshop.yaml")
	if err != nil {
		t.Fatal(err)
	}
	env := exampleEnv(0)
	env.Content = overlaid{env.Content, fstest.MapFS{"workshop.yaml": {Data: []byte(strings.Replace(string(text), "theme: sheet", "theme: lamplight", 1))}}}
	res, err := gen.Gather(context.Background(), env)
	if err != nil || res.Files == nil {
		t.Fatal(err, res.Findings)
	}
	site := filepath.Join(t.TempDir(), "site")
	if _, err := output.Write(context.Background(), site, res.Files, output.Options{}); err != nil {
		t.Fatal(err)
	}
	return site
}

// overlaid is a file system with some files replaced.
type overlaid struct {
	fs.FS
	over fstest.MapFS
}

func (o overlaid) Open(name string) (fs.File, error) {
	if _, ok := o.over[name]; ok {
		return o.over.Open(name)
	}
	return o.FS.Open(name)
}

// crossing lists what stands on a page over its neighbour: sections, cards and
// entries that follow one another must not overlap.
const crossing = `[...document.querySelectorAll("main section, main article, main figure, main header")].flatMap(e => {
	const n = e.nextElementSibling, a = e.getBoundingClientRect(), b = n?.getBoundingClientRect();
	const over = n && b.height && Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 2 && Math.min(a.right, b.right) - Math.max(a.left, b.left) > 2;
	const spills = [...e.children].some(c => c.getClientRects().length && getComputedStyle(c).position !== "absolute" && c.getBoundingClientRect().bottom > a.bottom + 2);
	return over || spills ? [e.tagName + "." + e.className + (spills ? " spills" : " lies over the next")] : []; })`

// lookAt opens pages at three widths in the reader's schemes.
func lookAt(t *testing.T, home string, pages map[string]string, schemes ...string) {
	t.Helper()
	ctx := browser(t)
	w := watch(t, ctx)
	w.home = home
	for _, scheme := range schemes {
		media(t, ctx, scheme, false)
		for _, width := range []int64{320, 768, 1280} {
			do(t, ctx, chromedp.EmulateViewport(width, 900), chromedp.Navigate("about:blank")) // or the first page would shift with the window
			for kind, name := range pages {
				do(t, ctx, chromedp.Navigate(home+name))
				if eval[bool](t, ctx, `document.documentElement.scrollWidth > document.documentElement.clientWidth`) {
					t.Errorf("%s, %s, %d px: scrolls sideways", name, scheme, width)
				}
				if v := eval[shifted](t, ctx, shift); v.Sum >= 0.05 {
					t.Errorf("%s, %s, %d px: layout shift %.3f: %s", name, scheme, width, v.Sum, strings.Join(v.What, "; "))
				}
				for _, c := range append(w.take(), eval[[]string](t, ctx, crossing)...) {
					t.Errorf("%s (%s), %s, %d px: %s", name, kind, scheme, width, c)
				}
			}
		}
	}
}

// axe finds nothing on any kind of page: light, dark, forced colours, a narrow
// phone, and text at twice its size (WCAG 2.2 AA); and nothing on any page at all
// as it first opens.
func TestAxe(t *testing.T) {
	axe, err := os.ReadFile(outside.File(t, "AXE_JS"))
	if err != nil {
		t.Fatal(err)
	}
	site, home := served(t)
	settings := []struct {
		name, scheme  string
		forced, twice bool
		width         int64
	}{
		{"every page", "light", false, false, 1280}, {"dark", "dark", false, false, 1280}, {"forced colours", "dark", true, false, 1280},
		{"320 px", "light", false, false, 320}, {"200 % text", "light", false, true, 1280},
	}
	const run = `axe.run(document, {runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]})
		.then(r => r.violations.map(v => v.id + ": " + v.help + " at " + v.nodes.map(n => n.target.join(" ")).slice(0, 3).join(", ")))`
	for _, s := range settings {
		t.Run(s.name, func(t *testing.T) {
			ctx := browser(t)
			media(t, ctx, s.scheme, s.forced)
			do(t, ctx, chromedp.EmulateViewport(s.width, 900))
			pages := slices.Collect(maps.Values(kinds(t, site)))
			if s.name == "every page" {
				pages = files(t, site, ".html")
			}
			for _, name := range pages {
				do(t, ctx, chromedp.Navigate(home+name))
				if s.twice {
					eval[bool](t, ctx, `document.documentElement.style.setProperty("font-size", "200%"), true`)
					if eval[bool](t, ctx, `document.documentElement.scrollWidth > document.documentElement.clientWidth`) {
						t.Errorf("%s scrolls sideways", name)
					}
				}
				eval[bool](t, ctx, string(axe)+";true")
				for _, v := range eval[[]string](t, ctx, run) {
					t.Errorf("%s: %s", name, v)
				}
			}
		})
	}
}

// Searching by keyboard finds a lamp, a paint, a part and a word of a text,
// from a server and from disk.
func TestSearchFinds(t *testing.T) {
	ctx := browser(t)
	site, served := served(t)
	w := watch(t, ctx)
	for _, home := range []string{served, "file://" + site + "/"} {
		w.home = home
		do(t, ctx, chromedp.Navigate(home+"search.html"))
		becomes(t, ctx, `document.activeElement.id === "wanted"`)
		for _, c := range []struct{ wanted, path string }{
			{"saloon", "marram/"}, {"hull-grey", "marram/finish.html"}, {"bollard", "marram/parts.html"}, {"LIGHT blocking", "techniques/light-blocking.html"}, {"cairn", "cairnhead/"},
		} {
			do(t, ctx, chromedp.KeyEvent(c.wanted))
			becomes(t, ctx, fmt.Sprintf(`[...document.querySelectorAll(".search ol li a")].some(a => a.getAttribute("href").startsWith(%q))`, c.path))
			do(t, ctx, chromedp.KeyEvent(kb.Escape))
			becomes(t, ctx, `document.querySelectorAll(".search ol li").length === 0 && document.getElementById("wanted").value === ""`)
		}
		do(t, ctx, chromedp.KeyEvent("zzzqqq"))
		becomes(t, ctx, `document.querySelector(".search [role=status]").textContent === "Nothing found."`)
		do(t, ctx, chromedp.KeyEvent(kb.Escape), chromedp.KeyEvent("lamp"))
		becomes(t, ctx, `document.querySelectorAll(".search ol li a").length > 1`)
		do(t, ctx, chromedp.KeyEvent(kb.ArrowDown), chromedp.KeyEvent(kb.ArrowDown))
		becomes(t, ctx, `document.activeElement === document.querySelectorAll(".search ol li a")[1]`)
		do(t, ctx, chromedp.KeyEvent(kb.ArrowUp), chromedp.KeyEvent(kb.ArrowUp))
		becomes(t, ctx, `document.activeElement.id === "wanted"`)
		for _, c := range w.take() {
			t.Errorf("%s: %s", home, c)
		}
	}
}

// The index of the example stays under 150 kB, the script under 15 kB, a build's
// page with style and drawings, photos aside, under 60 kB, and any page with drawings under 200 kB.
func TestWeights(t *testing.T) {
	site := assembled(t)
	size := func(names ...string) (sum int64) {
		for _, name := range names {
			info, err := os.Stat(filepath.Join(site, name))
			if err != nil {
				t.Fatal(err)
			}
			sum += info.Size()
		}
		return sum
	}
	index, _ := filepath.Glob(filepath.Join(site, "search", "*.js"))
	sum := int64(0)
	for _, name := range index {
		rel, _ := filepath.Rel(site, name)
		sum += size(rel)
	}
	if sum == 0 || sum > 150_000 {
		t.Errorf("the search index is %d bytes", sum)
	}
	if n := size("script.js"); n > 15_000 {
		t.Errorf("the script is %d bytes", n)
	}
	for _, build := range []string{"marram", "cairnhead", "pumphouse", "lanternhouse", "dunnock"} {
		text, err := os.ReadFile(filepath.Join(site, build, "index.html"))
		if err != nil {
			t.Fatal(err)
		}
		if n := int64(len(text)) + size("style.css"); n > 60_000 {
			t.Errorf("%s weighs %d bytes", build, n)
		}
	}
	for _, name := range files(t, site, ".html") {
		text, err := os.ReadFile(filepath.Join(site, name))
		if n := len(text); err != nil || n > 200_000 && strings.Contains(string(text), `class="drawing"`) {
			t.Errorf("%s weighs %d bytes (%v)", name, n, err)
		}
	}
}

// The JSON feed is one by JSON Feed 1.1, newest first, with whole addresses,
// and a disclosure before all else where one is due.
func TestJSONFeed(t *testing.T) {
	text, err := os.ReadFile(filepath.Join(assembled(t), "feed.json"))
	if err != nil {
		t.Fatal(err)
	}
	var feed struct {
		Version, Title, Home_Page_URL, Feed_URL string
		Items                                   []struct {
			ID, URL, Title, Content_HTML, Summary, Date_Published string
		}
	}
	if err := json.Unmarshal(text, &feed); err != nil {
		t.Fatal(err)
	}
	if feed.Version != "https://jsonfeed.org/version/1.1" || feed.Title == "" || feed.Feed_URL != "https://bench.example/feed.json" || len(feed.Items) == 0 {
		t.Errorf("%+v", feed)
	}
	if !slices.IsSortedFunc(feed.Items, func(a, b struct {
		ID, URL, Title, Content_HTML, Summary, Date_Published string
	}) int {
		return strings.Compare(b.Date_Published, a.Date_Published)
	}) {
		t.Error("the newest entry does not stand first")
	}
	relative := regexp.MustCompile(`(?:src|href)="(?:[^h#]|h[^t])`)
	for _, item := range feed.Items {
		if item.ID == "" || item.Content_HTML == "" || !strings.HasPrefix(item.URL, "https://bench.example/") {
			t.Errorf("%s: id, url or content is missing", item.Title)
		}
		if _, err := time.Parse(time.RFC3339, item.Date_Published); err != nil {
			t.Error(err)
		}
		if m := relative.FindString(item.Content_HTML); m != "" {
			t.Errorf("%s: relative address %s", item.Title, m)
		}
		if strings.Contains(item.URL, "/marram/") && !strings.HasPrefix(item.Content_HTML, "<p><strong>") {
			t.Errorf("%s: a review sample, and the disclosure does not come first: %.60s", item.Title, item.Content_HTML)
		}
	}
}
