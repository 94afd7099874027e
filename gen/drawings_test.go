package gen_test

import (
	"html"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

var (
	anID      = regexp.MustCompile(`\sid="([^"]*)"`)
	aFigure   = regexp.MustCompile(`(?s)<figure class="drawing[^"]*">.*?</figure>`)
	aDrawing  = regexp.MustCompile(`(?s)<svg class="drawing.*?</svg>`)
	theFile   = regexp.MustCompile(`<a href="([^"]+\.svg)">`)
	someTitle = regexp.MustCompile(`<title id="[^"]*">([^<]*)</title>`)
)

// Every drawing stands in its page as an element, named for readers who cannot
// see it, with a link to the same as a file of its own; every file of a drawing
// is linked from a page. No id stands twice on a page, no drawing brings a style.
func TestDrawingsStandInPagesAndBesideThem(t *testing.T) {
	site := assembled(t)
	linked := map[string]bool{}
	for _, name := range files(t, site, ".html") {
		text, err := os.ReadFile(filepath.Join(site, name))
		if err != nil {
			t.Fatal(err)
		}
		page := string(text)
		seen := map[string]bool{}
		for _, m := range anID.FindAllStringSubmatch(page, -1) {
			if seen[m[1]] {
				t.Errorf("%s: the id %s stands twice", name, m[1])
			}
			seen[m[1]] = true
		}
		figures := aFigure.FindAllString(page, -1)
		drawn := 0
		for _, f := range figures {
			all := aDrawing.FindAllString(f, -1)
			drawn += len(all)
			file := theFile.FindStringSubmatch(f)
			if len(all) == 0 || len(all) > 2 || file == nil {
				t.Errorf("%s: a figure with %d drawings and the link %v", name, len(all), file)
				continue
			}
			at := path.Join(path.Dir(filepath.ToSlash(name)), file[1])
			saved, err := os.ReadFile(filepath.Join(site, at))
			if err != nil {
				t.Error(err)
			}
			linked[at] = true
			for _, d := range all {
				title := someTitle.FindString(d)
				if title == "" || !strings.Contains(d, ` role="img" aria-labelledby="`) || strings.Contains(d, "<style") || strings.Contains(d, " style=") {
					t.Errorf("%s: a drawing without a name or with styles of its own: %.200s", name, d)
				}
				if m := someTitle.FindStringSubmatch(d); len(m) > 0 && !strings.Contains(string(saved), ">"+m[1]+"</title>") {
					t.Errorf("%s: %s holds another drawing than %s", name, at, m[1])
				}
			}
		}
		if n := len(aDrawing.FindAllString(page, -1)); n != drawn {
			t.Errorf("%s: %d drawings, %d of them in figures", name, n, drawn)
		}
		if strings.Contains(page, `src="drawings/`) || strings.Contains(page, `srcset="drawings/`) {
			t.Errorf("%s shows a drawing as a picture", name)
		}
	}
	for _, name := range files(t, site, ".svg") {
		if name = filepath.ToSlash(name); strings.Contains(name, "drawings/") && !linked[name] {
			t.Errorf("%s is linked from no page", name)
		}
	}
	if len(linked) < 40 {
		t.Errorf("only %d drawings", len(linked))
	}
}

// The loom is said in words too: every wire with its way, gauge, colour and length.
func TestLoomIsSaidInWords(t *testing.T) {
	text, err := os.ReadFile(filepath.Join(assembled(t), "marram", "lighting.html"))
	if err != nil {
		t.Fatal(err)
	}
	_, loom, _ := strings.Cut(html.UnescapeString(string(text)), `<section id="loom">`)
	loom, _, _ = strings.Cut(loom, "</section>")
	for _, row := range []string{
		"<th scope=\"row\">W1+, main harness</th><td>the base</td><td>keel block</td><td>28\u00a0AWG</td><td>red</td><td>350\u00a0mm</td>",
		`<th scope="row">L1−, main harness</th>`,
	} {
		if !strings.Contains(loom, row) {
			t.Errorf("the loom's table lacks %s", row)
		}
	}
}
