package gen_test

import (
	"context"
	"net/http"
	"net/http/httptest"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// paper is a sheet's width in CSS pixels (96 to the inch) between the margins
// of 13 mm that the style sheet asks for.
var paper = map[string]int64{"A4": 794 - 2*49, "US Letter": 816 - 2*49}

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
// white, nothing that is only for clicking, nothing over the edge.
func TestEveryKindOnPaper(t *testing.T) {
	ctx := browser(t)
	site, home := served(t)
	lamplight := lamplit(t)
	server := httptest.NewServer(http.FileServer(http.Dir(lamplight)))
	defer server.Close()
	for home, pages := range map[string]map[string]string{home: kinds(t, site), server.URL + "/": kinds(t, lamplight)} {
		for name, width := range paper {
			err := chromedp.Do(ctx, chromedp.Func(func(ctx context.Context, tab *chromedp.Target) error {
				_, err := cdp.Call(ctx, tab, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print", Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: "dark"}}})
				return err
			}))
			if err != nil {
				t.Fatal(err)
			}
			do(t, ctx, chromedp.EmulateViewport(width, 1000))
			for kind, page := range pages {
				do(t, ctx, chromedp.Navigate(home+page))
				for what, script := range map[string]string{"is for clicking": clickables, "is pale": pale, "is too wide": wide} {
					for _, found := range eval[[]string](t, ctx, script) {
						t.Errorf("%s (%s) on %s: %s %s", page, kind, name, found, what)
					}
				}
			}
		}
	}
}
