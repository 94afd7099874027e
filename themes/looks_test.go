package themes_test

import (
	"context"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"spruelight/testdata/effort"
	"spruelight/testdata/example"
	"spruelight/testdata/outside"
	"spruelight/testdata/view"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

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

// kinds are the kinds of pages that the example has.
var kinds = []string{"front", "build", "sitting", "lighting", "meter", "finish", "scale", "lineup", "parts", "problems", "choices", "review", "comparison",
	"hours", "allhours", "techniques", "technique", "repair", "entry", "search", "missing", "wall"}

// Every kind of page, at three widths, light and dark: no complaint of the
// browser, no sideways scroll, no layout shift of 0.05 or more. In short each
// kind is looked at once in each scheme, at widths that differ.
func TestEveryKindAtThreeWidthsInLightAndDark(t *testing.T) {
	ctx := view.Tab(t)
	site, home := served(t)
	pages := example.Kinds(t, site)
	for _, want := range kinds {
		if !slices.ContainsFunc(pages, func(p example.Page) bool { return p.Kind == want }) {
			t.Errorf("the example has no page of kind %s", want)
		}
	}
	lookAt(t, ctx, home, pages, "light", "dark")
}

// The theme lamplight holds to the same, and lays nothing over anything else.
func TestLamplight(t *testing.T) {
	ctx := view.Tab(t)
	site := example.Lamplight(t)
	lookAt(t, ctx, example.Serve(t, site), example.Kinds(t, site), "light")
}

// crossing lists what stands on a page over its neighbour: sections, cards and
// entries that follow one another must not overlap.
const crossing = `[...document.querySelectorAll("main section, main article, main figure, main header")].flatMap(e => {
	const n = e.nextElementSibling, a = e.getBoundingClientRect(), b = n?.getBoundingClientRect();
	const over = n && b.height && Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 2 && Math.min(a.right, b.right) - Math.max(a.left, b.left) > 2;
	const spills = [...e.children].some(c => c.getClientRects().length && getComputedStyle(c).position !== "absolute" && c.getBoundingClientRect().bottom > a.bottom + 2);
	return over || spills ? [e.tagName + "." + e.className + (spills ? " spills" : " lies over the next")] : []; })`

// lookAt opens pages at three widths in the reader's schemes.
func lookAt(t *testing.T, ctx context.Context, home string, pages []example.Page, schemes ...string) {
	t.Helper()
	w := view.Watch(t, ctx, home)
	for i, scheme := range schemes {
		view.Do(t, ctx, view.Scheme(scheme, false))
		for k, width := range []int64{320, 768, 1280} {
			view.Do(t, ctx, chromedp.EmulateViewport(width, 900), chromedp.Navigate("about:blank")) // or the first page would shift with the window
			for _, p := range effort.Share(pages, i+k, 3) {
				view.Do(t, ctx, chromedp.Navigate(home+p.Path))
				if view.Eval[bool](t, ctx, sideways) {
					t.Errorf("%s, %s, %d px: scrolls sideways", p.Path, scheme, width)
				}
				if v := view.Eval[shifted](t, ctx, shift); v.Sum >= 0.05 {
					t.Errorf("%s, %s, %d px: layout shift %.3f: %s", p.Path, scheme, width, v.Sum, strings.Join(v.What, "; "))
				}
				for _, c := range append(w.Take(), view.Eval[[]string](t, ctx, crossing)...) {
					t.Errorf("%s (%s), %s, %d px: %s", p.Path, p.Kind, scheme, width, c)
				}
			}
		}
	}
}

// A setting is how a reader has a browser set.
type setting struct {
	name, scheme  string
	forced, twice bool
	width         int64
}

var settings = []setting{
	{"every page", "light", false, false, 1280}, {"dark", "dark", false, false, 1280}, {"forced colours", "dark", true, false, 1280},
	{"320 px", "light", false, false, 320}, {"200 % text", "light", false, true, 1280},
}

// axe finds nothing on any kind of page: light, dark, forced colours, a narrow
// phone, and text at twice its size (WCAG 2.2 AA); and nothing on any page at all
// as it first opens. In short each kind is looked at in one of the settings.
func TestAxe(t *testing.T) {
	axe, err := os.ReadFile(outside.File(t, "AXE_JS"))
	if err != nil {
		t.Fatal(err)
	}
	ctx := view.Tab(t)
	site, home := served(t)
	for i, s := range settings {
		t.Run(s.name, func(t *testing.T) {
			view.Do(t, ctx, view.Scheme(s.scheme, s.forced), chromedp.EmulateViewport(s.width, 900))
			pages := effort.Share(paths(example.Kinds(t, site)), i, len(settings))
			if s.name == "every page" && effort.Whole() {
				pages = example.Files(t, site, ".html")
			}
			for _, name := range pages {
				view.Do(t, ctx, chromedp.Navigate(home+name))
				askAxe(t, ctx, string(axe), name, s.twice)
			}
		})
	}
}

// askAxe has axe look at the page that is open, its text at twice the size
// where asked for.
func askAxe(t *testing.T, ctx context.Context, axe, name string, twice bool) {
	t.Helper()
	const run = `axe.run(document, {runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]})
		.then(r => r.violations.map(v => v.id + ": " + v.help + " at " + v.nodes.map(n => n.target.join(" ")).slice(0, 3).join(", ")))`
	if twice {
		view.Eval[bool](t, ctx, `document.documentElement.style.setProperty("font-size", "200%"), true`)
		if view.Eval[bool](t, ctx, sideways) {
			t.Errorf("%s scrolls sideways", name)
		}
	}
	view.Eval[bool](t, ctx, axe+";true")
	for _, v := range view.Eval[[]string](t, ctx, run) {
		t.Errorf("%s: %s", name, v)
	}
}

// Searching by keyboard finds a lamp, a paint, a part and a word of a text,
// from a server and from disk.
func TestSearchFinds(t *testing.T) {
	view.Tab(t) // or nothing is assembled
	site, served := served(t)
	for _, home := range []string{served, "file://" + site + "/"} {
		ctx := view.Tab(t)
		w := view.Watch(t, ctx, home)
		view.Do(t, ctx, chromedp.Navigate(home+"search.html"))
		view.Becomes(t, ctx, `document.activeElement.id === "wanted"`)
		for _, c := range []struct{ wanted, path string }{
			{"saloon", "marram/"}, {"hull-grey", "marram/finish.html"}, {"bollard", "marram/parts.html"}, {"LIGHT blocking", "techniques/light-blocking.html"}, {"cairn", "cairnhead/"},
		} {
			view.Do(t, ctx, chromedp.KeyEvent(c.wanted))
			view.Becomes(t, ctx, fmt.Sprintf(`[...document.querySelectorAll(".search ol li a")].some(a => a.getAttribute("href").startsWith(%q))`, c.path))
			view.Do(t, ctx, chromedp.KeyEvent(kb.Escape))
			view.Becomes(t, ctx, `document.querySelectorAll(".search ol li").length === 0 && document.getElementById("wanted").value === ""`)
		}
		view.Do(t, ctx, chromedp.KeyEvent("zzzqqq"))
		view.Becomes(t, ctx, `document.querySelector(".search [role=status]").textContent === "Nothing found."`)
		view.Do(t, ctx, chromedp.KeyEvent(kb.Escape), chromedp.KeyEvent("lamp"))
		view.Becomes(t, ctx, `document.querySelectorAll(".search ol li a").length > 1`)
		view.Do(t, ctx, chromedp.KeyEvent(kb.ArrowDown), chromedp.KeyEvent(kb.ArrowDown))
		view.Becomes(t, ctx, `document.activeElement === document.querySelectorAll(".search ol li a")[1]`)
		view.Do(t, ctx, chromedp.KeyEvent(kb.ArrowUp), chromedp.KeyEvent(kb.ArrowUp))
		view.Becomes(t, ctx, `document.activeElement.id === "wanted"`)
		for _, c := range w.Take() {
			t.Errorf("%s: %s", home, c)
		}
	}
}
