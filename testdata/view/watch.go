package view

import (
	"context"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// Do does actions in a tab, one after the other.
func Do(t testing.TB, ctx context.Context, actions ...Step) {
	t.Helper()
	for _, a := range actions {
		if err := chromedp.Do(ctx, a); err != nil {
			t.Fatal(err)
		}
	}
}

// Eval returns the value of a script in a tab, awaited where it is a promise.
func Eval[T any](t testing.TB, ctx context.Context, script string) T {
	t.Helper()
	v, err := chromedp.Run(ctx, chromedp.Evaluate[T](script, chromedp.EvalAwaitPromise))
	if err != nil {
		t.Fatalf("%v in %.100s", err, script)
	}
	return v
}

// Becomes waits until a script is true.
func Becomes(t testing.TB, ctx context.Context, script string) {
	t.Helper()
	for range 200 {
		if Eval[bool](t, ctx, script) {
			return
		}
		time.Sleep(20 * time.Millisecond)
	}
	t.Fatalf("never true: %s", script)
}

// Scheme emulates a reader's settings: a scheme, "light" or "dark", and whether
// the system forces its own colours.
func Scheme(scheme string, forced bool) Step {
	forces := "none"
	if forced {
		forces = "active"
	}
	return Media("", "prefers-color-scheme", scheme, "forced-colors", forces)
}

// Call calls a method of the browser's protocol whose answer is of no interest.
func Call[P, R any](method cdp.Command[P, R], params P) Step {
	return chromedp.Func(func(ctx context.Context, tab *chromedp.Target) error {
		_, err := cdp.Call(ctx, tab, method, params)
		return err
	})
}

// Watcher collects what a browser complains of, and the requests that leave
// the site's own address.
type Watcher struct {
	mu     sync.Mutex
	home   string
	former string // the address before, of which word may still come; "" for none
	list   []string
}

// Watch watches a tab on which a site is about to be opened.
func Watch(t testing.TB, ctx context.Context, home string) *Watcher {
	t.Helper()
	w := &Watcher{home: home}
	if err := chromedp.Listen(ctx, w.event); err != nil {
		t.Fatal(err)
	}
	Do(t, ctx, Call(network.Enable, network.EnableParams{}), Call(log.Enable, cdp.Empty{}))
	return w
}

// Move goes on to the site at another address. The browser's word of the last
// requests to the former one may come after.
func (w *Watcher) Move(home string) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.home, w.former = home, w.home
}

// thrown returns the words of what was thrown.
func thrown(o *runtime.RemoteObject) string {
	if o == nil {
		return ""
	}
	return o.Description
}

func (w *Watcher) event(event any) {
	w.mu.Lock()
	defer w.mu.Unlock()
	switch e := event.(type) {
	case *runtime.EventExceptionThrown:
		d := e.ExceptionDetails
		w.list = append(w.list, "exception: "+d.Text+" "+d.URL+" "+thrown(d.Exception))
	case *log.EventEntryAdded:
		if e.Entry.Level == "error" || e.Entry.Level == "warning" {
			w.list = append(w.list, string(e.Entry.Level)+": "+e.Entry.Text+" "+e.Entry.URL)
		}
	case *network.EventRequestWillBeSent:
		url, former := e.Request.URL, w.former != "" && strings.HasPrefix(e.Request.URL, w.former)
		if !strings.HasPrefix(url, w.home) && !former && !strings.HasPrefix(url, "data:") {
			w.list = append(w.list, "request to "+url)
		}
	}
}

// Take returns the complaints since the last call.
func (w *Watcher) Take() []string {
	w.mu.Lock()
	defer w.mu.Unlock()
	list := w.list
	w.list = nil
	return list
}
