package preview

import (
	"context"
	"strings"
	"testing"
	"time"

	"spruelight/gen/source"
	"spruelight/testdata/outside"

	"github.com/chromedp/chromedp"
)

// In a real browser a page is shown anew when it changes, and the findings lie
// over it: what keeps other addresses out lets the bench's own pages in.
func TestBenchInABrowser(t *testing.T) {
	chromium := outside.Tool(t, "chromium")
	body := "first words"
	s, address := serve(t, func(context.Context, []string) (Site, source.Findings, error) {
		file := source.NewFile("a.md", "stat: bench\n")
		return pages{"index.html": "<!DOCTYPE html><html lang=en><title>x</title><body><p id=words>" + body + "</p></body></html>"}, source.Findings{rule.At(file.At(0, 4), "write state", "no such key")}, nil
	})
	ctx, stop := chromedp.NewExecAllocator(context.Background(), append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath(chromium), chromedp.NoSandbox, chromedp.DisableGPU, chromedp.UserDataDir(t.TempDir()), chromedp.Flag("disable-quic", true), chromedp.Flag("disable-component-update", true))...)
	defer stop()
	ctx, stop = chromedp.NewContext(ctx)
	defer stop()
	ctx, stop = context.WithTimeout(ctx, 2*time.Minute)
	defer stop()
	if err := chromedp.Do(ctx, chromedp.Navigate("http://"+address+"/")); err != nil {
		t.Fatal(err)
	}
	says, err := chromedp.Run(ctx, chromedp.Poll[string](`document.querySelector(".bench-report")?.textContent`))
	if err != nil || !strings.Contains(says, "no such key") {
		t.Errorf("over the page stands %q, %v", says, err)
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
