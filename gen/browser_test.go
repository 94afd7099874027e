package gen_test

import (
	"context"
	"net/http"
	"net/http/httptest"
	"strings"
	"sync"
	"testing"
	"time"

	"spruelight/testdata/outside"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// browser starts a headless Chromium that ends with the test.
func browser(t *testing.T) context.Context {
	t.Helper()
	options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(outside.Tool(t, "chromium")), chromedp.NoSandbox, chromedp.DisableGPU,
		chromedp.UserDataDir(t.TempDir()), chromedp.Flag("disable-quic", true), chromedp.Flag("disable-component-update", true))
	allocated, end := chromedp.NewExecAllocator(context.Background(), options...)
	t.Cleanup(end)
	ctx, done := chromedp.NewContext(allocated)
	t.Cleanup(done)
	ctx, stop := context.WithTimeout(ctx, 4*time.Minute)
	t.Cleanup(stop)
	err := chromedp.Do(ctx, chromedp.Func(func(ctx context.Context, tab *chromedp.Target) error {
		if _, err := cdp.Call(ctx, tab, network.Enable, network.EnableParams{}); err != nil {
			return err
		}
		_, err := cdp.Call(ctx, tab, log.Enable, cdp.Empty{})
		return err
	}))
	if err != nil {
		t.Fatal(err)
	}
	return ctx
}

// watcher collects what a browser complains of, and the requests that leave
// the site's own address.
type watcher struct {
	mu     sync.Mutex
	home   string
	former string // the address before, of which word may still come; "" for none
	list   []string
}

func watch(t *testing.T, ctx context.Context) *watcher {
	t.Helper()
	w := &watcher{}
	if err := chromedp.Listen(ctx, w.event); err != nil {
		t.Fatal(err)
	}
	return w
}

// thrown tells what was thrown.
func thrown(o *runtime.RemoteObject) string {
	if o == nil {
		return ""
	}
	return o.Description
}

func (w *watcher) event(event any) {
	w.mu.Lock()
	defer w.mu.Unlock()
	switch e := event.(type) {
	case *runtime.EventExceptionThrown:
		w.list = append(w.list, "exception: "+e.ExceptionDetails.Text+" "+e.ExceptionDetails.URL+" "+thrown(e.ExceptionDetails.Exception))
	case *log.EventEntryAdded:
		if e.Entry.Level == "error" || e.Entry.Level == "warning" {
			w.list = append(w.list, string(e.Entry.Level)+": "+e.Entry.Text+" "+e.Entry.URL)
		}
	case *network.EventRequestWillBeSent:
		if !strings.HasPrefix(e.Request.URL, w.home) && !(w.former != "" && strings.HasPrefix(e.Request.URL, w.former)) && !strings.HasPrefix(e.Request.URL, "data:") {
			w.list = append(w.list, "request to "+e.Request.URL)
		}
	}
}

// take returns the complaints since the last call.
func (w *watcher) take() []string {
	w.mu.Lock()
	defer w.mu.Unlock()
	list := w.list
	w.list = nil
	return list
}

// Every page opens in a real browser, from a server and from disk, without an
// error on its console, without a request to another address, and without
// sideways scroll on a narrow phone.
func TestEveryPageOpensInABrowser(t *testing.T) {
	ctx := browser(t)
	site := assembled(t)
	server := httptest.NewServer(http.FileServer(http.Dir(site)))
	defer server.Close()
	w := watch(t, ctx)
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(320, 640)); err != nil {
		t.Fatal(err)
	}
	for _, home := range []string{server.URL + "/", "file://" + site + "/"} {
		w.home = home
		for _, name := range files(t, site, ".html") {
			if err := chromedp.Do(ctx, chromedp.Navigate(home+name)); err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			wide, err := chromedp.Run(ctx, chromedp.Evaluate[bool](`document.documentElement.scrollWidth > document.documentElement.clientWidth`))
			if err != nil || wide {
				t.Errorf("%s: wider than a screen of 320 px (%v)", name, err)
			}
			for _, c := range w.take() {
				t.Errorf("%s: %s", home+name, c)
			}
		}
	}
}
