package themes_test

import (
	"testing"

	"spruelight/testdata/effort"
	"spruelight/testdata/example"
	"spruelight/testdata/view"

	"github.com/chromedp/chromedp"
)

func TestMain(m *testing.M) { example.Main(m, view.Close) }

// served is the example's site and its address on a server.
func served(t *testing.T) (site, home string) {
	t.Helper()
	site = example.Site(t)
	return site, example.Serve(t, site)
}

// paths are the addresses of pages.
func paths(pages []example.Page) []string {
	var list []string
	for _, p := range pages {
		list = append(list, p.Path)
	}
	return list
}

const sideways = `document.documentElement.scrollWidth > document.documentElement.clientWidth`

// Every page opens in a real browser, from a server and from disk, without an
// error on its console, without a request to another address, and without
// sideways scroll on a narrow phone. In short it is one page of each kind from a
// server, and every third page from disk.
func TestEveryPageOpensInABrowser(t *testing.T) {
	view.Tab(t) // or nothing is assembled
	site, server := served(t)
	every := example.Files(t, site, ".html")
	for home, pages := range map[string][]string{
		server:                 effort.Of(paths(example.Kinds(t, site)), every),
		"file://" + site + "/": effort.Share(every, 0, 3),
	} {
		ctx := view.Tab(t)
		w := view.Watch(t, ctx, home)
		view.Do(t, ctx, chromedp.EmulateViewport(320, 640))
		for _, name := range pages {
			view.Do(t, ctx, chromedp.Navigate(home+name))
			if view.Eval[bool](t, ctx, sideways) {
				t.Errorf("%s: wider than a screen of 320 px", name)
			}
			for _, c := range w.Take() {
				t.Errorf("%s: %s", home+name, c)
			}
		}
	}
}
