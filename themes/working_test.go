package themes_test

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"spruelight/testdata/example"
	"spruelight/testdata/view"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// Every mark on a page opens a working of that page, and every working has its
// mark; each ends on a value or shows a balance.
func TestWorkingsHaveTheirMarks(t *testing.T) {
	site := example.Site(t)
	mark, working := regexp.MustCompile(`popovertarget="(w\d+)"`), regexp.MustCompile(`<p popover id="(w\d+)">(.*)</p>`)
	for _, name := range []string{"lighting", "scale", "hours", "finish"} {
		text, err := os.ReadFile(filepath.Join(site, "marram", name+".html"))
		if err != nil {
			t.Fatal(err)
		}
		opens := map[string]int{}
		for _, m := range mark.FindAllStringSubmatch(string(text), -1) {
			opens[m[1]]++
		}
		shown := working.FindAllStringSubmatch(string(text), -1)
		if len(shown) == 0 || len(shown) != len(opens) {
			t.Errorf("%s: %d workings, %d marks", name, len(shown), len(opens))
		}
		for _, w := range shown {
			if opens[w[1]] != 1 || !strings.Contains(w[2], " = ") {
				t.Errorf("%s: %s has %d marks and says %s", name, w[1], opens[w[1]], w[2])
			}
		}
	}
}

// A working opens by key and by mouse, is in sight, and closes again.
func TestWorkingOpens(t *testing.T) {
	ctx := view.Tab(t)
	_, home := served(t)
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
