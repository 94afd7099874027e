package themes_test

import (
	"context"
	"testing"

	"spruelight/testdata/effort"
	"spruelight/testdata/view"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
)

// shownPicture is a picture as a browser shows it, in CSS pixels.
type shownPicture struct {
	Wide    float64   // as drawn: more than its box where it is cut to fit, less where it does not fill it
	Chosen  float64   // width of the file that was loaded, in its own pixels
	Offered []float64 // widths of all files, smallest first
	Name    string
	First   bool // fetched with high priority
	Lazy    bool
	Top     float64 // of the box, from the top of the page
	Ground  bool    // a colour or a blurred picture stands behind it
	Ratio   float64 // its intrinsic height by its width, as the page says before the file has come
}

const shownPictures = `Promise.all([...document.querySelectorAll("picture img[srcset]")].map(async e => {
	const box = e.getBoundingClientRect(), top = box.top + scrollY, lazy = e.loading === "lazy", ratio = e.getAttribute("height") / e.getAttribute("width");
	e.loading = "eager";
	await e.decode();
	const fit = getComputedStyle(e).objectFit, full = box.height / ratio;
	return {Wide: fit === "cover" ? Math.max(box.width, full) : fit === "contain" ? Math.min(box.width, full) : box.width,
		Chosen: +e.srcset.split(", ").map(s => s.split(" ")).find(s => new URL(s[0], document.baseURI).href === e.currentSrc)[1].slice(0, -1),
		Offered: e.srcset.split(", ").map(s => +s.split(" ")[1].slice(0, -1)), Name: e.currentSrc.split("/").pop(), First: e.getAttribute("fetchpriority") === "high", Lazy: lazy, Top: top,
		Ground: !!e.closest(".ground").querySelector("img.blur, svg rect"), Ratio: ratio}; }))`

// What a browser loads fits what it shows: sharp on a phone of two pixels to
// each of CSS and on a desk of one, and never a size more than is needed.
func TestPicturesFitTheLayout(t *testing.T) {
	view.Tab(t) // or nothing is assembled
	_, home := served(t)
	type screen struct {
		wide    int64
		density float64
	}
	for _, screen := range effort.Of([]screen{{390, 2}, {1280, 1}}, []screen{{390, 2}, {768, 1}, {1280, 1}, {1280, 2}, {1920, 1}}) {
		ctx := view.Tab(t)
		view.Do(t, ctx, view.Call(emulation.SetDeviceMetricsOverride,
			emulation.SetDeviceMetricsOverrideParams{Width: screen.wide, Height: 844, DeviceScaleFactor: screen.density}))
		loaded := map[string]bool{} // a browser shows a large file that it has rather than load a small one
		for _, name := range []string{"index.html", "cairnhead/index.html", "cairnhead/2026-01-18-finished.html", "marram/2026-02-28-first-light.html", "marram/choices.html", "cairnhead/review.html", "lanternhouse/index.html", "techniques.html", "reviews.html", "marram/repair.html"} {
			view.Do(t, ctx, chromedp.Navigate(home+name))
			first := 0
			pictures := view.Eval[[]shownPicture](t, ctx, shownPictures)
			for _, p := range pictures {
				need := p.Wide * screen.density
				largest := p.Offered[len(p.Offered)-1]
				if p.Chosen < 0.85*need && p.Chosen < largest {
					t.Errorf("%s at %d px, density %g: %s is %.0f px wide, shown on %.0f", name, screen.wide, screen.density, p.Name, p.Chosen, need)
				}
				for _, smaller := range p.Offered {
					if smaller < p.Chosen && smaller > 1.35*need && !loaded[p.Name] {
						t.Errorf("%s at %d px, density %g: %s is %.0f px wide, shown on %.0f, where %.0f would do", name, screen.wide, screen.density, p.Name, p.Chosen, need, smaller)
					}
				}
				loaded[p.Name] = true
				if p.First {
					first++
				}
				if !p.Ground || !(p.Ratio > 0) || p.First == p.Lazy {
					t.Errorf("%s: %s has ground %v, ratio %g, high priority %v, lazy %v", name, p.Name, p.Ground, p.Ratio, p.First, p.Lazy)
				}
			}
			if first == 0 {
				t.Errorf("%s: no picture leads", name)
			}
		}
	}
}

// swipe draws one finger over the page.
func swipe(t *testing.T, ctx context.Context, from, to input.TouchPoint) {
	t.Helper()
	for _, e := range []input.DispatchTouchEventParams{
		{Type: "touchStart", TouchPoints: []*input.TouchPoint{&from}},
		{Type: "touchMove", TouchPoints: []*input.TouchPoint{&to}},
		{Type: "touchEnd", TouchPoints: []*input.TouchPoint{}},
	} {
		view.Do(t, ctx, view.Call(input.DispatchTouchEvent, e))
	}
}

// A finger drawn to the left leads to the next photo, to the right back to the
// last one; up or down, or hardly at all, it leads nowhere.
func TestViewerBySwipe(t *testing.T) {
	ctx := view.Tab(t)
	site, _ := served(t)
	view.Do(t, ctx, chromedp.EmulateViewport(390, 844), chromedp.Navigate("file://"+site+"/cairnhead/2025-11-08-harness.html"))
	view.Becomes(t, ctx, `!!document.querySelector("dialog.viewer")`)
	view.Eval[bool](t, ctx, `document.querySelector("a.zoom").click(), true`)
	view.Becomes(t, ctx, `document.querySelector(".viewer img").naturalWidth > 1000`)
	if out := view.Eval[[]string](t, ctx, `[...document.querySelectorAll(".viewer button, .viewer p, .viewer img")].filter(e => { const b = e.getBoundingClientRect(); return b.left < 0 || b.top < 0 || b.right > document.documentElement.getBoundingClientRect().right || b.bottom > innerHeight; }).map(e => e.className || e.tagName)`); len(out) > 0 {
		t.Errorf("cut off by the edge of the screen: %v", out)
	}
	view.Do(t, ctx, view.Call(emulation.SetTouchEmulationEnabled, emulation.SetTouchEmulationEnabledParams{Enabled: true, MaxTouchPoints: 2}))
	const at = `document.querySelector(".viewer .count").textContent.split("\u2009/")[0]`
	for _, move := range []struct {
		from, to input.TouchPoint
		want     string
	}{
		{input.TouchPoint{X: 300, Y: 300}, input.TouchPoint{X: 100, Y: 310}, "2"},
		{input.TouchPoint{X: 100, Y: 300}, input.TouchPoint{X: 300, Y: 290}, "1"},
		{input.TouchPoint{X: 200, Y: 300}, input.TouchPoint{X: 180, Y: 300}, "1"},
		{input.TouchPoint{X: 280, Y: 200}, input.TouchPoint{X: 200, Y: 500}, "1"},
		{input.TouchPoint{X: 300, Y: 300}, input.TouchPoint{X: 100, Y: 300}, "2"},
	} {
		swipe(t, ctx, move.from, move.to)
		if got := view.Eval[string](t, ctx, at); got != move.want {
			t.Errorf("from %.0f %.0f to %.0f %.0f: photo %s, want %s", move.from.X, move.from.Y, move.to.X, move.to.Y, got, move.want)
		}
	}
}
