package themes_test

import (
	"testing"

	"spruelight/testdata/effort"
	"spruelight/testdata/example"
	"spruelight/testdata/view"

	"github.com/chromedp/chromedp"
)

// papers are sheets with their width in CSS pixels (96 to the inch) between the
// margins of 13 mm that the style sheet asks for.
var papers = []struct {
	name  string
	width int64
}{{"A4", 794 - 2*49}, {"US Letter", 816 - 2*49}}

// clickables are what is of no use on paper and still shows.
const clickables = `[...document.querySelectorAll(".masthead nav, .chapters, .skip, .turn, .leaves, form, button:not(th button), input, .screenonly")].filter(e => e.checkVisibility()).map(e => e.tagName + "." + e.className)`

// pale are texts on paper that are not dark on light: their luminance (WCAG
// 2.2) is over that of mid grey, or something dark lies under them. Photos,
// drawings and the numbers of marks on a filled box are their own matter.
const pale = `(() => {
	const light = c => { const p = c.match(/[\d.]+/g).map((v, i) => c.startsWith("color") && i < 3 ? v * 255 : +v); if (p.length > 3 && p[3] === 0) return null;
		const l = p.slice(0, 3).map(v => v / 255).map(v => v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4); return 0.2126 * l[0] + 0.7152 * l[1] + 0.0722 * l[2]; };
	const out = [];
	for (const e of document.querySelectorAll("body, body *")) {
		if (e.closest("svg, pre, code, .box") || !e.checkVisibility()) continue;
		const s = getComputedStyle(e), under = light(s.backgroundColor);
		if (under !== null && under < 0.7) out.push(e.tagName + "." + e.className + " lies on " + s.backgroundColor);
		if ([...e.childNodes].some(n => n.nodeType === 3 && n.data.trim()) && light(s.color) > 0.18) out.push(e.tagName + "." + e.className + " is " + s.color);
	}
	return [...new Set(out)].slice(0, 5); })()`

// wide are things that reach over the edge of the paper.
const wide = `[...document.querySelectorAll("main *")].filter(e => !e.closest("svg") && e.checkVisibility() && e.getBoundingClientRect().right > innerWidth + 1).map(e => e.tagName + "." + e.className).slice(0, 3)`

// Every kind of page on paper, in both themes and with a dark screen: ink on
// white, nothing that is only for clicking, nothing over the edge. In short each
// kind is printed on one paper in one theme and on the other in the other.
func TestEveryKindOnPaper(t *testing.T) {
	ctx := view.Tab(t)
	view.Do(t, ctx, view.Media("print", "prefers-color-scheme", "dark"))
	for i, site := range []string{example.Site(t), example.Lamplight(t)} {
		home := example.Serve(t, site)
		for k, paper := range papers {
			view.Do(t, ctx, chromedp.EmulateViewport(paper.width, 1000))
			for _, p := range effort.Share(example.Kinds(t, site), i+k, 2) {
				view.Do(t, ctx, chromedp.Navigate(home+p.Path))
				for what, script := range map[string]string{"is for clicking": clickables, "is pale": pale, "is too wide": wide} {
					for _, found := range view.Eval[[]string](t, ctx, script) {
						t.Errorf("%s (%s) on %s: %s %s", p.Path, p.Kind, paper.name, found, what)
					}
				}
			}
		}
	}
}
