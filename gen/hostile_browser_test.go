package gen_test

import (
	"bytes"
	"context"
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"spruelight/gen/output"
	"spruelight/testdata/effort"
	"spruelight/testdata/outside"
	"spruelight/testdata/view"

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

// quarter is the example filled from a quarter of the strings on, in short from
// the first, as the other tests have it.
func quarter(t *testing.T) *filled {
	t.Helper()
	return filledFrom(t, effort.Of(0, 1), 4)
}

// sample are the pages and drawings of a site: all of them, in short the largest
// page of each kind and every fourth drawing.
func sample(files []output.File) []output.File {
	all := slices.DeleteFunc(slices.Clone(files), func(f output.File) bool { return path.Ext(f.Path) != ".html" && path.Ext(f.Path) != ".svg" })
	if effort.Whole() {
		return all
	}
	slices.SortStableFunc(all, func(a, b output.File) int { return len(b.Bytes) - len(a.Bytes) })
	seen, drawings := map[string]bool{}, 0
	return slices.DeleteFunc(all, func(f output.File) bool {
		if path.Ext(f.Path) == ".svg" {
			drawings++
			return drawings%4 != 1
		}
		kind := string(kindOfPage.Find(f.Bytes))
		twice := seen[kind]
		seen[kind] = true
		return twice
	})
}

var kindOfPage = regexp.MustCompile(`<body class="kind-\w+"`)

// Every page and every drawing of a workshop full of hostile words opens in a
// browser, once as published and once without its policy, and nothing runs:
// escaping holds alone. The search finds hostile words and shows them as words.
// In short it is a page of each kind and some drawings.
func TestNoWordRunsInABrowser(t *testing.T) {
	ctx := view.Tab(t)
	f := quarter(t)
	w := view.Watch(t, ctx, "about:blank")
	view.Do(t, ctx, view.Call(page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: trap}))
	opened := 0
	for _, policy := range []bool{true, false} {
		home := serve(t, f.res.Files, policy)
		w.Move(home)
		for _, file := range sample(f.res.Files) {
			if path.Ext(file.Path) == ".svg" && policy {
				continue
			}
			opened++
			open(t, ctx, home, file.Path)
			for _, c := range w.Take() {
				t.Errorf("%s: %s", file.Path, c)
			}
		}
		search(t, ctx, home)
		for _, c := range w.Take() {
			t.Errorf("search: %s", c)
		}
	}
	if opened < 50 {
		t.Errorf("only %d pages and drawings were opened", opened)
	}
	t.Logf("%d pages and drawings opened", opened)
}

// open opens a page of the site and reports what runs on it.
func open(t *testing.T, ctx context.Context, home, name string) {
	t.Helper()
	view.Do(t, ctx, chromedp.Navigate(home+name))
	if what := view.Eval[string](t, ctx, provoke); what != "" {
		t.Errorf("%s: %s", name, what)
	}
	if at := view.Eval[string](t, ctx, "location.href"); at != home+name {
		t.Errorf("%s led to %s", name, at)
	}
}

// search looks for words that stand in hostile strings.
func search(t *testing.T, ctx context.Context, home string) {
	t.Helper()
	view.Do(t, ctx, chromedp.Navigate(home+"search.html"))
	for _, wanted := range []string{"script", "ran", "onerror"} {
		view.Eval[bool](t, ctx, fmt.Sprintf(`(() => { document.querySelector(".search ol").replaceChildren();
			const i = document.querySelector(".search input"); i.value = %q; i.dispatchEvent(new Event("input", {bubbles: true})); return true; })()`, wanted))
		view.Becomes(t, ctx, `document.querySelectorAll(".search ol li a").length > 1`)
		if what := view.Eval[string](t, ctx, provoke); what != "" {
			t.Errorf("search for %s: %s", wanted, what)
		}
	}
}

// The trap catches what does run, or the test above would prove nothing.
func TestTheTrapCatches(t *testing.T) {
	ctx := view.Tab(t)
	view.Do(t, ctx, view.Call(page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: trap}))
	for _, c := range []struct{ markup, want string }{
		{`<script>ran()</script>`, "ran"}, {`<img src=x.jpg onerror="ran(1)">`, "ran"}, {`<p onmouseover="ran(2)">x`, "ran 2"}, {`<script>alert(3)</script>`, "alert 3"},
		{`<a href="javascript:ran()">x</a>`, "leads to javascript"}, {`<svg><a xlink:href="data:text/html,x">x</a></svg>`, "leads to data"}, {`<img src="//other.example/x.png">`, "loads //other"},
		{`<meta http-equiv="Content-Security-Policy" content="script-src 'none'"><p>x<script>ran()</script>`, "policy kept script-src"}, {`<p>x`, ""},
	} {
		home := serve(t, []output.File{{Path: "a.html", Bytes: []byte("<!DOCTYPE html><title>x</title>" + c.markup)}}, true)
		view.Do(t, ctx, chromedp.Navigate(home+"a.html"))
		if got := view.Eval[string](t, ctx, provoke); !strings.Contains(got, c.want) || c.want == "" && got != "" {
			t.Errorf("%s: %q, want %q", c.markup, got, c.want)
		}
	}
}

// The pages full of hostile words are as valid as others, by the Nu checker.
func TestHostileWordsStayValid(t *testing.T) {
	outside.File(t, "VNU_JAR")
	f := quarter(t)
	dir := t.TempDir()
	for _, kind := range []string{"html", "svg"} {
		var names []string
		for _, file := range sample(f.res.Files) {
			if path.Ext(file.Path) == "."+kind {
				name := filepath.Join(dir, filepath.FromSlash(file.Path))
				os.MkdirAll(filepath.Dir(name), 0o755)
				if err := os.WriteFile(name, file.Bytes, 0o644); err != nil {
					t.Fatal(err)
				}
				names = append(names, name)
			}
		}
		out, err := view.Nu(t, kind, names, "--errors-only", "--filterpattern", `Resource violates Content Security Policy.*`)
		if err != nil {
			lines := bytes.Split(out, []byte("\n"))
			t.Errorf("%s: %v: %d lines\n%s", kind, err, len(lines), bytes.Join(lines[:min(len(lines), 20)], []byte("\n")))
		}
	}
}
