package gen

import (
	"context"
	"regexp"
	"strings"
	"testing"
)

// pageOf returns a page of a workshop's site, with the findings of the run.
func pageOf(t *testing.T, env Env, path string) (text string, found []string) {
	t.Helper()
	res, err := Gather(context.Background(), env)
	if err != nil || res.Files == nil {
		t.Fatalf("%v %v", err, res.Findings)
	}
	for _, f := range res.Findings {
		found = append(found, f.Rule.Name+": "+f.Says.String())
	}
	for _, f := range res.Files {
		if f.Path == path {
			return string(f.Bytes), found
		}
	}
	t.Fatalf("no %s in the site", path)
	return "", nil
}

// The day a photo was taken is shown where its sitting asks for it, and
// nowhere else; of the hour nothing is.
func TestDayTakenIsShownWhenAskedFor(t *testing.T) {
	files := map[string]string{
		"builds/skiff/build.md": "---\nname: Skiff\nstate: bench\n---\n",
		"builds/skiff/a.jpg":    string(snap(t, "2024:11:05 20:41:07")),
		"builds/skiff/b.jpg":    string(snap(t, "2024:11:06 03:12:09")),
		"builds/skiff/none.jpg": string(snap(t, "")),
	}
	dates := regexp.MustCompile(`<figcaption>.*</figcaption>`)
	for _, c := range []struct {
		front, want string
		found       string
	}{
		{"photos: [{file: a.jpg, alt: a, caption: One}]", `<figcaption><span class="says">One</span></figcaption>`, ""},
		{"photo dates: no\nphotos: [{file: a.jpg, alt: a}]", "", ""},
		{"photo dates: yes\nphotos: [{file: a.jpg, alt: a, caption: One}]", `<figcaption><span class="says">One</span> <span class="credit">Taken <time datetime="2024-11-05">5 November 2024</time></span></figcaption>`, ""},
		{"photo dates: yes\nphotos: [{file: a.jpg, alt: a}]", `<figcaption> <span class="credit">Taken <time datetime="2024-11-05">5 November 2024</time></span></figcaption>`, ""},
		{"photo dates: yes\nphotos: [{pair: [a.jpg, b.jpg], alt: a}]", `<figcaption> <span class="credit">before: Taken <time datetime="2024-11-05">5 November 2024</time></span> <span class="credit">after: Taken <time datetime="2024-11-06">6 November 2024</time></span></figcaption>`, ""},
		{"photo dates: yes\nphotos: [{pair: [a.jpg, a.jpg], alt: a}]", `<figcaption> <span class="credit">Taken <time datetime="2024-11-05">5 November 2024</time></span></figcaption>`, ""},
		{"photo dates: yes\nphotos: [{file: none.jpg, alt: a}]", "", `photo-undated: photo "none.jpg" does not say when it was taken, so no day is shown`},
		{"photos: [{file: none.jpg, alt: a}]", "", ""},
	} {
		files["builds/skiff/2026-02-10.md"] = "---\nstage: lighting\n" + c.front + "\n---\n"
		env := bench(t, "2026-02-20 12:00", files)
		text, found := pageOf(t, env, "skiff/2026-02-10.html")
		if got := strings.Join(dates.FindAllString(text, -1), ""); got != c.want {
			t.Errorf("%s\ngot  %s\nwant %s", c.front, got, c.want)
		}
		if strings.Contains(text, "20:41") || strings.Contains(text, "03:12") {
			t.Errorf("%s: the hour is on the page", c.front)
		}
		checked, err := Check(context.Background(), env)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range checked.Findings {
			found = append(found, f.Rule.Name+": "+f.Says.String())
		}
		want := ""
		if c.found != "" { // by assemble and by dryfit
			want = c.found + c.found
		}
		undated := ""
		for _, f := range found {
			if strings.HasPrefix(f, "photo-undated") {
				undated += f
			}
		}
		if undated != want {
			t.Errorf("%s\nfound %q, want %q", c.front, undated, want)
		}
	}
}
