package gen_test

import (
	"bytes"
	"context"
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"spruelight/gen/output"
	"spruelight/testdata/outside"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// trap is put before each page's own scripts: it notes every sign that a
// string has run.
const trap = `
window.ran = (...what) => { (window.__ran ??= []).push("ran " + what.join(" ")); };
for (const name of ["alert", "confirm", "prompt", "print", "open", "eval"]) window[name] = (...what) => window.ran(name, ...what);
navigator.sendBeacon = () => window.ran("beacon");
addEventListener("securitypolicyviolation", (e) => window.ran("policy kept", e.violatedDirective, e.blockedURI));
addEventListener("beforeunload", () => localStorage.setItem("left", location.href));
`

// provoke does what a reader might: it hovers, focuses, opens and clicks, and
// then lists what ran and which addresses lead to another scheme.
const provoke = `(() => {
  for (const e of document.querySelectorAll("*")) for (const name of ["mouseover", "mouseenter", "focus", "blur", "toggle", "animationstart", "begin", "load", "error", "input", "click"]) e.dispatchEvent(new Event(name));
  const list = window.__ran ?? [];
  for (const e of document.querySelectorAll("a, area, form, [src], [href]")) for (const key of ["href", "src", "action", "xlink:href"]) {
    const written = e.getAttribute(key);
    if (written === null || written.startsWith("data:image/") && e.localName === "img") continue;
    const to = new URL(written, location.href);
    if (!["http:", "https:", "mailto:", "file:"].includes(to.protocol)) list.push("leads to " + written);
    else if (to.origin !== location.origin && to.protocol !== "mailto:" && !(e.localName === "a" || e.localName === "link" && e.rel === "canonical")) list.push("loads " + written);
  }
  return list.join("; ");
})()`

var policyTag = regexp.MustCompile(`<meta http-equiv="Content-Security-Policy"[^>]*>`)

// serve serves a site from memory, with or without its pages' own policies.
func serve(t *testing.T, files []output.File, policy bool) string {
	t.Helper()
	byPath := map[string][]byte{}
	for _, f := range files {
		if f.Open == nil {
			byPath["/"+f.Path] = f.Bytes
		}
	}
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		text, ok := byPath[r.URL.Path]
		switch ext := path.Ext(r.URL.Path); {
		case ext == ".jpg" || ext == ".ico":
			return // they carry no text
		case !ok:
			http.NotFound(w, r)
			return
		case ext == ".html" && !policy:
			text = policyTag.ReplaceAll(text, nil)
			fallthrough
		case ext == ".html":
			w.Header().Set("Content-Type", "text/html")
		case ext == ".svg":
			w.Header().Set("Content-Type", "image/svg+xml")
		case ext == ".js":
			w.Header().Set("Content-Type", "text/javascript")
		case ext == ".css":
			w.Header().Set("Content-Type", "text/css")
		}
		w.Write(text)
	}))
	t.Cleanup(server.Close)
	return server.URL + "/"
}

var quarterFill *filled

// quarter is the example filled from a quarter of the strings on, made once.
func quarter(t *testing.T) *filled {
	t.Helper()
	if quarterFill == nil {
		base, words, list, bodies := hostileFill(t)
		quarterFill = fill(t, base, words, list, bodies, len(list)/4)
	}
	return quarterFill
}

// Every page and every drawing of a workshop full of hostile words opens in a
// browser, once as published and once without its policy, and nothing runs:
// escaping holds alone. The search finds hostile words and shows them as words.
func TestNoWordRunsInABrowser(t *testing.T) {
	ctx := browser(t)
	f := quarter(t)
	w := watch(t, ctx)
	err := chromedp.Do(ctx, chromedp.Func(func(ctx context.Context, tab *chromedp.Target) error {
		_, err := cdp.Call(ctx, tab, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: trap})
		return err
	}))
	if err != nil {
		t.Fatal(err)
	}
	opened := 0
	for _, policy := range []bool{true, false} {
		w.move(serve(t, f.res.Files, policy))
		for _, file := range f.res.Files {
			ext := path.Ext(file.Path)
			if ext != ".html" && (ext != ".svg" || policy) {
				continue
			}
			opened++
			w.open(t, ctx, file.Path)
		}
		w.search(t, ctx)
	}
	t.Logf("%d pages and drawings opened", opened)
}

// move goes on to the site at another address. The browser's word of the last
// requests to the former one may come after.
func (w *watcher) move(home string) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.home, w.former = home, w.home
}

// open opens a page of the site and reports what runs on it.
func (w *watcher) open(t *testing.T, ctx context.Context, name string) {
	t.Helper()
	if err := chromedp.Do(ctx, chromedp.Navigate(w.home+name)); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	what, err := chromedp.Run(ctx, chromedp.Evaluate[string](provoke))
	if err != nil || what != "" {
		t.Errorf("%s: %s (%v)", name, what, err)
	}
	at, err := chromedp.Run(ctx, chromedp.Evaluate[string]("location.href"))
	if err != nil || at != w.home+name {
		t.Errorf("%s led to %s (%v)", name, at, err)
	}
	for _, c := range w.take() {
		t.Errorf("%s: %s", name, c)
	}
}

// search looks for words that stand in hostile strings.
func (w *watcher) search(t *testing.T, ctx context.Context) {
	t.Helper()
	do(t, ctx, chromedp.Navigate(w.home+"search.html"))
	for _, wanted := range []string{"script", "ran", "onerror"} {
		eval[bool](t, ctx, fmt.Sprintf(`(() => { document.querySelector(".search ol").replaceChildren(); const i = document.querySelector(".search input"); i.value = %q; i.dispatchEvent(new Event("input", {bubbles: true})); return true; })()`, wanted))
		becomes(t, ctx, `document.querySelectorAll(".search ol li a").length > 1`)
		if what := eval[string](t, ctx, provoke); what != "" {
			t.Errorf("search for %s: %s", wanted, what)
		}
	}
	for _, c := range w.take() {
		t.Errorf("search: %s", c)
	}
}

// The trap catches what does run, or the test above would prove nothing.
func TestTheTrapCatches(t *testing.T) {
	ctx := browser(t)
	err := chromedp.Do(ctx, chromedp.Func(func(ctx context.Context, tab *chromedp.Target) error {
		_, err := cdp.Call(ctx, tab, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: trap})
		return err
	}))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ markup, want string }{
		{`<script>ran()</script>`, "ran"}, {`<img src=x.jpg onerror="ran(1)">`, "ran"}, {`<p onmouseover="ran(2)">x`, "ran 2"}, {`<script>alert(3)</script>`, "alert 3"},
		{`<a href="javascript:ran()">x</a>`, "leads to javascript"}, {`<svg><a xlink:href="data:text/html,x">x</a></svg>`, "leads to data"}, {`<img src="//other.example/x.png">`, "loads //other"},
		{`<meta http-equiv="Content-Security-Policy" content="script-src 'none'"><p>x<script>ran()</script>`, "policy kept script-src"}, {`<p>x`, ""},
	} {
		home := serve(t, []output.File{{Path: "a.html", Bytes: []byte("<!DOCTYPE html><title>x</title>" + c.markup)}}, true)
		do(t, ctx, chromedp.Navigate(home+"a.html"))
		if got := eval[string](t, ctx, provoke); !strings.Contains(got, c.want) || c.want == "" && got != "" {
			t.Errorf("%s: %q, want %q", c.markup, got, c.want)
		}
	}
}

// The pages full of hostile words are as valid as others, by the Nu checker.
func TestHostileWordsStayValid(t *testing.T) {
	java, jar := outside.Tool(t, "java"), outside.File(t, "VNU_JAR")
	f := quarter(t)
	dir := t.TempDir()
	for _, kind := range []string{"html", "svg"} {
		args := []string{"-Xss8m", "-jar", jar, "--errors-only", "--" + kind, "--filterpattern", `Resource violates Content Security Policy.*`}
		for _, file := range f.res.Files {
			if path.Ext(file.Path) == "."+kind {
				name := filepath.Join(dir, filepath.FromSlash(file.Path))
				os.MkdirAll(filepath.Dir(name), 0o755)
				if err := os.WriteFile(name, file.Bytes, 0o644); err != nil {
					t.Fatal(err)
				}
				args = append(args, name)
			}
		}
		if out, err := exec.Command(java, args...).CombinedOutput(); err != nil {
			lines := bytes.Split(out, []byte("\n"))
			t.Errorf("%s: %v: %d lines\n%s", kind, err, len(lines), bytes.Join(lines[:min(len(lines), 20)], []byte("\n")))
		}
	}
}
