package view

import (
	"context"
	"os"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	"spruelight/testdata/outside"
)

// browser is a headless Chromium that the tests of one package share.
var browser struct {
	once   sync.Once
	ctx    context.Context
	err    error
	finish func()
}

// Main runs the tests of a package and closes the browser after them.
func Main(m *testing.M) {
	code := m.Run()
	Close()
	os.Exit(code)
}

// Close closes the browser, where a test has started it. It comes after the
// last test of a package.
func Close() {
	if browser.finish != nil {
		browser.finish()
	}
}

// Tab returns a tab of the package's browser with a profile of its own, which
// nothing another test did can reach. It closes with the test. Where there is
// no browser the test is skipped.
func Tab(t testing.TB) context.Context {
	t.Helper()
	start(t)
	tab, closeTab := chromedp.NewContext(browser.ctx, chromedp.WithNewBrowserContext())
	t.Cleanup(closeTab)
	ctx, stop := context.WithTimeout(tab, 8*time.Minute)
	t.Cleanup(stop)
	if err := chromedp.Do(ctx); err != nil {
		t.Fatal(err)
	}
	return ctx
}

// start starts the browser of the package where none runs yet.
func start(t testing.TB) {
	t.Helper()
	chromium := outside.Tool(t, "chromium")
	browser.once.Do(func() { startBrowser(chromium) })
	if browser.err != nil {
		t.Fatal(browser.err)
	}
}

// Page returns a fresh tab that shows a document from a file, or skips the test.
func Page(t testing.TB, name string, doc []byte, actions ...Step) context.Context {
	t.Helper()
	start(t)
	file := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(file, doc, 0o644); err != nil {
		t.Fatal(err)
	}
	tab, cancel := chromedp.NewContext(browser.ctx)
	t.Cleanup(cancel)
	ctx, cancelTime := context.WithTimeout(tab, time.Minute)
	t.Cleanup(cancelTime)
	Run(t, ctx, chromedp.Steps(append(actions, chromedp.Navigate("file://"+file))...))
	return ctx
}

// Step is something done in a tab.
type Step = chromedp.Action[chromedp.Void]

// Run does an action in a tab and returns its result.
func Run[T any](t testing.TB, ctx context.Context, action chromedp.Action[T]) T {
	t.Helper()
	v, err := chromedp.Run(ctx, action)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func startBrowser(path string) {
	opts := append([]chromedp.ExecAllocatorOption{}, chromedp.DefaultExecAllocatorOptions[:]...)
	opts = append(opts, chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.DisableGPU,
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-component-update", true))
	alloc, stopAlloc := chromedp.NewExecAllocator(context.Background(), opts...)
	ctx, stop := chromedp.NewContext(alloc)
	browser.ctx, browser.err = ctx, chromedp.Do(ctx)
	browser.finish = func() { stop(); stopAlloc() }
}

// Media emulates a medium ("screen", "print") and media features.
func Media(medium string, features ...string) Step {
	p := emulation.SetEmulatedMediaParams{Media: medium}
	for i := 0; i+1 < len(features); i += 2 {
		p.Features = append(p.Features, &emulation.MediaFeature{Name: features[i], Value: features[i+1]})
	}
	return chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		_, err := cdp.Call(ctx, t, emulation.SetEmulatedMedia, p)
		return err
	})
}
