package themes_test

import (
	"testing"

	"spruelight/testdata/view"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// A working opens by key and by mouse, is in sight, and closes again; nothing
// of it is on paper.
func TestWorkingOpens(t *testing.T) {
	_, home := served(t)
	ctx := view.Tab(t)
	for _, width := range []int64{390, 1440} {
		view.Do(t, ctx, chromedp.EmulateViewport(width, 800), chromedp.Navigate(home+"marram/lighting.html"))
		view.Becomes(t, ctx, `document.readyState === "complete"`)
		view.Becomes(t, ctx, `(() => { const b = document.querySelector(".how"); b.scrollIntoView({block: "center"}); b.focus();
			return b.getAttribute("aria-label") === "How this was calculated" && document.activeElement === b })()`)
		view.Do(t, ctx, chromedp.KeyEvent(kb.Enter))
		view.Becomes(t, ctx, `(() => { const r = document.querySelector("#w1:popover-open")?.getBoundingClientRect();
			return !!r && r.width > 100 && r.top >= 0 && r.left >= 0 && r.bottom <= innerHeight + 1 && r.right <= innerWidth + 1 })()`)
		view.Do(t, ctx, chromedp.KeyEvent(kb.Escape))
		view.Becomes(t, ctx, `!document.querySelector(":popover-open") && document.activeElement.matches(".how")`)
		view.Becomes(t, ctx, `(document.querySelector(".how").click(), !!document.querySelector("#w1:popover-open"))`)
		view.Do(t, ctx, chromedp.KeyEvent(kb.Escape))
	}
}
