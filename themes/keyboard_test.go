package themes_test

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"

	"spruelight/testdata/effort"
	"spruelight/testdata/example"
	"spruelight/testdata/view"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// stops are what the keyboard is to reach on a page, in its order: all that can
// be used, and lists that scroll.
const stops = `(() => { const can = "a[href], button, input, select, textarea, summary, [tabindex='0']";
	window.listed = [...document.querySelectorAll(can)].filter(e => e.tabIndex >= 0 && !e.disabled && e.checkVisibility({visibilityProperty: true}));
	window.called = e => e.tagName + " " + (e.getAttribute("aria-label") ?? e.textContent).trim().slice(0, 40);
	const top = document.createElement("a"); top.tabIndex = -1; document.body.prepend(top); top.focus(); top.remove(); // whatever had the focus
	return window.listed.length; })()`

// stopped tells of the element that has the focus: its place among the stops, and
// what is wrong with how it is shown: a ring of at least 2 px and 3:1 (WCAG 2.2,
// 1.4.11 and 2.4.7), in sight and under nothing else (2.4.11).
const stopped = `(() => { const e = document.activeElement;
	if (!e || e === document.body || e === document.documentElement) return {At: -1};
	const out = {At: window.listed.indexOf(e), Name: window.called(e), Faults: []}, style = getComputedStyle(e);
	if (!e.matches(":focus-visible") || style.outlineStyle === "none" || parseFloat(style.outlineWidth) < 2) out.Faults.push("no ring: " + style.outline);
	const light = c => { if (!c.startsWith("rgb")) throw new Error("a colour as " + c); const [r, g, b] = c.match(/[\d.]+/g).map(v => v / 255).map(v => v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4); return 0.2126 * r + 0.7152 * g + 0.0722 * b; };
	let ground = e.parentElement;
	while (ground && /^rgba.*, 0\)$/.test(getComputedStyle(ground).backgroundColor)) ground = ground.parentElement;
	const a = light(style.outlineColor), b = light(ground ? getComputedStyle(ground).backgroundColor : "rgb(255, 255, 255)"), ratio = (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
	if (!(ratio >= 3)) out.Faults.push("its ring has a contrast of " + ratio.toFixed(2));
	const boxes = [...e.getClientRects()], box = boxes.find(r => r.width > 0 && r.height > 0 && r.top < innerHeight && r.bottom > 0 && r.left < innerWidth && r.right > 0);
	if (!box) out.Faults.push("out of sight at " + boxes.map(r => [r.left, r.top, r.width, r.height].map(Math.round)).join("; "));
	else {
		const y = Math.min(Math.max(box.top + Math.min(box.height, 40) / 2, 0), innerHeight - 1);
		const over = [0.1, 0.5, 0.9].map(part => document.elementFromPoint(Math.min(Math.max(box.left + part * box.width, 0), innerWidth - 1), y)); // of a pair with a slider one side shows in part
		if (over.every(o => o && o !== e && !e.contains(o) && !o.contains(e))) out.Faults.push("under " + over.map(window.called).join(", "));
	}
	return out; })()`

type stop struct {
	At     int
	Name   string
	Faults []string
}

// The keyboard reaches all that can be used on every kind of page, in the order
// of the page, and shows where it is; on a desk and on a phone, light and dark.
// In short each kind is walked through in one of the three.
func TestKeyboardReachesEverything(t *testing.T) {
	ctx := view.Tab(t)
	site, home := served(t)
	dark := example.Lamplight(t)
	for i, c := range []struct {
		name, site, home, scheme string
		width                    int64
	}{
		{"sheet, light, on a desk", site, home, "light", 1280}, {"sheet, dark, on a phone", site, home, "dark", 360},
		{"lamplight, on a desk", dark, example.Serve(t, dark), "light", 1280},
	} {
		t.Run(c.name, func(t *testing.T) {
			view.Do(t, ctx, view.Scheme(c.scheme, false), chromedp.EmulateViewport(c.width, 800))
			for _, p := range effort.Share(example.Kinds(t, c.site), i, 3) {
				view.Do(t, ctx, chromedp.Navigate(c.home+p.Path))
				view.Becomes(t, ctx, `document.readyState === "complete"`)
				walk(t, ctx, p.Kind+": "+p.Path)
			}
		})
	}
}

// walk presses Tab from the top of a page to its end.
func walk(t *testing.T, ctx context.Context, page string) {
	t.Helper()
	wanted, next := view.Eval[int](t, ctx, stops), 0
	for range wanted + 50 { // a browser stops at lists that scroll, too
		view.Do(t, ctx, chromedp.KeyEvent(kb.Tab))
		s := view.Eval[stop](t, ctx, stopped)
		for _, f := range s.Faults {
			t.Errorf("%s: %s: %s", page, s.Name, f)
		}
		switch {
		case s.At < 0 && s.Name == "": // past the last one
			if next != wanted {
				t.Errorf("%s: %d of %d stops reached; the next would be %s", page, next, wanted, view.Eval[string](t, ctx, fmt.Sprintf("window.called(window.listed[%d])", next)))
			}
			return
		case s.At < 0:
			continue
		case s.At != next:
			t.Errorf("%s: after %d stops comes %s, which is number %d", page, next, s.Name, s.At+1)
			return
		}
		next++
	}
	t.Errorf("%s: no end after %d stops", page, next)
}

// The photo viewer opens, turns and closes by keyboard, and gives the focus
// back; from a server and from disk.
func TestViewerByKeyboard(t *testing.T) {
	ctx := view.Tab(t)
	site, served := served(t)
	for _, home := range []string{served, "file://" + site + "/"} {
		view.Do(t, ctx, chromedp.Navigate(home+"cairnhead/2025-11-08-harness.html"))
		view.Becomes(t, ctx, `!!document.querySelector("dialog.viewer")`)
		view.Eval[bool](t, ctx, `document.querySelector("a.zoom").focus(), true`)
		view.Do(t, ctx, chromedp.KeyEvent(kb.Enter))
		view.Becomes(t, ctx, `document.querySelector("dialog.viewer").open && document.querySelector("dialog.viewer").contains(document.activeElement)`)
		view.Becomes(t, ctx, `document.querySelector(".viewer img").naturalWidth > 1000`)
		if says := view.Eval[[]string](t, ctx, `[...document.querySelectorAll(".viewer button")].map(b => b.getAttribute("aria-label"))`); !slices.Equal(says, []string{"Photo before", "Next photo", "Close"}) {
			t.Errorf("the buttons say %q", says)
		}
		before := view.Eval[string](t, ctx, `document.querySelector(".viewer img").src`)
		view.Do(t, ctx, chromedp.KeyEvent(kb.ArrowRight))
		view.Becomes(t, ctx, fmt.Sprintf(`document.querySelector(".viewer img").src !== %q`, before))
		view.Do(t, ctx, chromedp.KeyEvent(kb.ArrowLeft))
		view.Becomes(t, ctx, fmt.Sprintf(`document.querySelector(".viewer img").src === %q`, before))
		if alt := view.Eval[string](t, ctx, `document.querySelector(".viewer img").alt`); alt == "" {
			t.Error("the viewer shows a photo without its alt text")
		}
		view.Do(t, ctx, chromedp.KeyEvent(kb.Escape))
		view.Becomes(t, ctx, `!document.querySelector("dialog.viewer").open && document.activeElement === document.querySelector("a.zoom")`)
	}
}

// The slider of a pair moves by keyboard and uncovers the second picture;
// without script both stand side by side.
func TestSliderByKeyboard(t *testing.T) {
	ctx := view.Tab(t)
	_, home := served(t)
	page := home + "cairnhead/2026-01-18-finished.html"
	view.Do(t, ctx, chromedp.EmulateViewport(1280, 900), chromedp.Navigate(page))
	view.Becomes(t, ctx, `!!document.querySelector(".pair input[type=range]")`)
	const cut = `getComputedStyle(document.querySelectorAll(".pair .side")[1]).clipPath`
	before := view.Eval[string](t, ctx, cut)
	view.Eval[bool](t, ctx, `document.querySelector(".pair input").focus(), true`)
	view.Do(t, ctx, chromedp.KeyEvent(kb.ArrowRight), chromedp.KeyEvent(kb.ArrowRight))
	view.Becomes(t, ctx, `document.querySelector(".pair input").value === "52"`)
	if after := view.Eval[string](t, ctx, cut); after == before || !strings.Contains(after, "52%") {
		t.Errorf("the cut went from %s to %s", before, after)
	}
	off := view.Call(emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
	view.Do(t, ctx, off, chromedp.Navigate(page))
	side := func(i int) []float64 {
		return view.Eval[[]float64](t, ctx, fmt.Sprintf(`(r => [r.left, r.right])(document.querySelectorAll(".pair .side")[%d].getBoundingClientRect())`, i))
	}
	if one, two := side(0), side(1); one[1] > two[0] {
		t.Errorf("without script the pictures lie over each other: %v and %v", one, two)
	}
}
