package preview

import (
	"context"
	"testing"
	"time"

	"spruelight/gen/source"
	"spruelight/testdata/outside"

	"github.com/chromedp/chromedp"
)

// In a real browser a page is shown anew when it changes, and the findings lie
// over it, those that stop and those of its own build first: what keeps other
// addresses out lets the bench's own pages in.
func TestBenchInABrowser(t *testing.T) {
	chromium := outside.Tool(t, "chromium")
	body := "first words"
	s, address := serve(t, func(context.Context, []string) (Site, source.Findings, error) {
		found := func(name, says string, severity source.Severity) source.Finding {
			one := *rule
			one.Severity = severity
			return one.At(source.NewFile(name, "stat: bench\n").At(0, 4), "write state", "%s", says)
		}
		return pages{"skiff/index.html": "<!DOCTYPE html><html lang=en><title>x</title><body><p id=words>" + body + "</p></body></html>"},
			source.Findings{found("builds/a/a.md", "elsewhere first", source.Warn), found("builds/skiff/a.md", "no such key", source.Warn), found("rack.yaml", "a stop", source.Stop), found("rack.yaml", "a note", source.Note)}, nil
	})
	ctx, stop := chromedp.NewExecAllocator(context.Background(), append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath(chromium), chromedp.NoSandbox, chromedp.DisableGPU, chromedp.UserDataDir(t.TempDir()), chromedp.Flag("disable-quic", true), chromedp.Flag("disable-component-update", true))...)
	defer stop()
	ctx, stop = chromedp.NewContext(ctx)
	defer stop()
	ctx, stop = context.WithTimeout(ctx, 2*time.Minute)
	defer stop()
	if err := chromedp.Do(ctx, chromedp.Navigate("http://"+address+"/skiff/")); err != nil {
		t.Fatal(err)
	}
	says, err := chromedp.Run(ctx, chromedp.Poll[string](`(box => box && [...box.children].map(e => e.className + e.tagName + ": " + e.textContent).join("\n"))(document.querySelector(".bench-report"))`))
	want := "SUMMARY: 1 to look at here\nbench-finding stopDIV: rack.yaml:1:1: stop: a stop [r]    1 | stat: bench\n      | ^^^^do: write state\n" +
		"bench-finding warnDIV: builds/skiff/a.md:1:1: warn: no such key [r]    1 | stat: bench\n      | ^^^^do: write state\n" +
		"DETAILS: 1 elsewherebuilds/a/a.md:1:1: warn: elsewhere first [r]    1 | stat: bench\n      | ^^^^do: write state"
	if err != nil || says != want {
		t.Errorf("over the page stands %v\n%s\nwant\n%s", err, says, want)
	}
	body = "second words"
	s.Refresh(ctx, nil)
	for { // the page goes while it is looked at
		shown, err := chromedp.Run(ctx, chromedp.Evaluate[bool](`document.querySelector("#words")?.textContent === "second words"`))
		if err == nil && shown {
			return
		}
		if ctx.Err() != nil {
			t.Fatalf("the change is not shown: %v", err)
		}
		time.Sleep(50 * time.Millisecond)
	}
}
