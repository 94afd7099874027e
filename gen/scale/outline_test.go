package scale

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"spruelight/gen/source"
	"spruelight/gen/svg"
)

func outline(text string) (svg.Path, []source.Finding) {
	return ReadOutline(source.NewFile("outline.svg", text))
}

const opening = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 60">`

func TestOutlinesThatAreTaken(t *testing.T) {
	for name, c := range map[string]struct {
		text string
		box  svg.Box
	}{
		"plain":         {opening + `<path d="M0 0H100V60H0Z"/></svg>`, svg.Box{W: 100, H: 60}},
		"no namespace":  {`<svg><path d="M0 0H100V60H0Z"/></svg>`, svg.Box{W: 100, H: 60}},
		"with a prefix": {`<s:svg xmlns:s="http://www.w3.org/2000/svg"><s:path d="M0 0H100V60H0Z"/></s:svg>`, svg.Box{W: 100, H: 60}},
		"as saved by a drawing program": {`<?xml version="1.0" encoding="UTF-8" standalone="no"?><!-- made by hand -->
			` + opening + `<title>A skiff</title><defs id="d1"/><g transform="translate(10,20)" style="fill:#000;stroke:none"><desc>hull</desc><path id="p" fill="#123" stroke-width="2" d="m 0,0 h 100 v 60 h -100 z"/></g></svg>`,
			svg.Box{X: 10, Y: 20, W: 100, H: 60}},
		"transforms from the inside out": {opening + `<g transform="scale(2)"><path transform="translate(5 0) rotate(90)" d="M0 0H100V60H0Z"/></g></svg>`, svg.Box{X: -110, W: 120, H: 200}},
		"matrix and skew":                {opening + `<path transform="matrix(1 0 0 2 0 0) skewX(45)" d="M0 0H10V10H0Z"/></svg>`, svg.Box{W: 20, H: 20}},
	} {
		path, found := outline(c.text)
		if len(found) > 0 {
			t.Errorf("%s: %s: %s", name, found[0].Rule.Name, found[0].Says.String())
			continue
		}
		b := path.Box()
		if math.Abs(b.X-c.box.X)+math.Abs(b.Y-c.box.Y)+math.Abs(b.W-c.box.W)+math.Abs(b.H-c.box.H) > 1e-9 {
			t.Errorf("%s: box %+v, want %+v", name, b, c.box)
		}
	}
}

// hostile are outlines that are refused, each with its rule and the text that
// the caret stands under.
func hostile() map[string]struct{ text, rule, marked string } {
	shape := `<path d="M0 0H100V60H0Z"/>`
	return map[string]struct{ text, rule, marked string }{
		"script":               {opening + `<script>alert(1)</script>` + shape + `</svg>`, "outline-refused", "<script>"},
		"handler":              {opening + `<path d="M0 0H1V1Z" onload="alert(1)"/></svg>`, "outline-refused", "onload"},
		"handler on the root":  {`<svg xmlns="http://www.w3.org/2000/svg" ONLOAD="x">` + shape + `</svg>`, "outline-refused", "ONLOAD"},
		"picture":              {opening + `<image href="https://elsewhere.example/a.png"/>` + shape + `</svg>`, "outline-refused", "<image "},
		"use":                  {opening + `<use href="#a"/>` + shape + `</svg>`, "outline-refused", "<use "},
		"link":                 {opening + `<a href="https://elsewhere.example/">` + shape + `</a></svg>`, "outline-refused", "<a "},
		"reference on a path":  {`<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink"><path xlink:href="#x" d="M0 0H1V1Z"/></svg>`, "outline-refused", "href"},
		"paint from elsewhere": {opening + `<path fill="url(https://elsewhere.example/#p)" d="M0 0H1V1Z"/></svg>`, "outline-refused", "fill"},
		"paint, disguised":     {opening + `<path style="fill:u\72l(//elsewhere.example)" d="M0 0H1V1Z"/></svg>`, "outline-refused", "style"},
		"style sheet":          {opening + `<style>@import url(//elsewhere.example)</style>` + shape + `</svg>`, "outline-refused", "<style>"},
		"sheet by instruction": {`<?xml-stylesheet href="a.css"?>` + opening + shape + `</svg>`, "outline-refused", "<?xml-stylesheet"},
		"text":                 {opening + `<text>hello</text>` + shape + `</svg>`, "outline-refused", "<text>"},
		"loose text":           {opening + `hello` + shape + `</svg>`, "outline-refused", "hello"},
		"other document":       {opening + `<foreignObject><p xmlns="http://www.w3.org/1999/xhtml">x</p></foreignObject>` + shape + `</svg>`, "outline-refused", "<foreignObject>"},
		"other language":       {`<svg xmlns="http://www.w3.org/2000/svg" xmlns:i="urn:other"><i:view/>` + shape + `</svg>`, "outline-refused", "<i:view"},
		"animation":            {opening + `<path d="M0 0H1V1Z"><animate attributeName="d"/></path></svg>`, "outline-refused", "<animate "},
		"hidden in defs":       {opening + `<defs><path d="M0 0H1V1Z"/></defs>` + shape + `</svg>`, "outline-refused", "<path "},
		"rectangle":            {opening + `<rect width="3" height="4"/></svg>`, "outline-refused", "<rect "},
		"document type":        {`<!DOCTYPE svg [<!ENTITY a "b">]>` + opening + shape + `</svg>`, "outline-refused", "<!DOCTYPE"},
		"entity":               {opening + `<title>&a;</title>` + shape + `</svg>`, "outline-refused", ""},
		"two paths":            {opening + shape + shape + `</svg>`, "outline-path", `<path d="M0 0H100V60H0Z"/>`},
		"no path":              {opening + `</svg>`, "outline-path", ""},
		"a bad path":           {opening + `<path d="M0 0 L5 x"/></svg>`, "outline-path", "x"},
		"a line":               {opening + `<path d="M0 0H100"/></svg>`, "outline-path", ""},
		"a bad transform":      {opening + `<path transform="turn(3)" d="M0 0H1V1Z"/></svg>`, "outline-path", "transform"},
		"HTML":                 {`<html><body/></html>`, "outline-refused", "<html>"},
		"not closed":           {opening + shape, "outline-form", ""},
		"empty":                {``, "outline-path", ""},
		"not XML":              {`GIF89a<`, "outline-form", ""},
		"other characters":     {`<?xml version="1.0" encoding="ISO-8859-1"?>` + opening + shape + `</svg>`, "outline-form", ""},
		"deep":                 {opening + strings.Repeat("<g>", 40) + shape + strings.Repeat("</g>", 40) + `</svg>`, "outline-refused", "<g>"},
		"huge":                 {opening + `<path d="` + strings.Repeat("M0 0", MaxOutlineBytes/4) + `"/></svg>`, "outline-form", ""},
	}
}

// Everything that is more than one shape is refused, at its place.
func TestOutlinesThatAreRefused(t *testing.T) {
	for name, c := range hostile() {
		path, found := outline(c.text)
		if len(found) == 0 || !path.Empty() {
			t.Errorf("%s: taken", name)
			continue
		}
		f := found[0]
		if f.Rule.Name != c.rule || f.Severity() != source.Stop || f.Do.Empty() || !strings.HasPrefix(f.At.Text(), c.marked) {
			t.Errorf("%s: %s at %q (%s), want %s at %q", name, f.Rule.Name, f.At.Text(), f.Says.String(), c.rule, c.marked)
		}
	}
}

// The example's own outlines pass.
func TestExampleOutlines(t *testing.T) {
	files, err := filepath.Glob("../../content-example/*/*/outline.svg")
	if err != nil {
		t.Fatal(err)
	}
	more, _ := filepath.Glob("../../content-example/outlines/*.svg")
	for _, name := range append(files, more...) {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if _, found := outline(string(text)); len(found) > 0 {
			t.Errorf("%s: %s", name, found[0].Says.String())
		}
	}
}

func FuzzReadOutline(f *testing.F) {
	f.Add(opening + `<path d="M0 0H100V60H0Z"/></svg>`)
	f.Add(opening + `<g transform="rotate(30 1 2) scale(3)"><path d="M0 0c1 2 3 4 5 6a3 4 5 01 7 8z"/></g></svg>`)
	for name, c := range hostile() {
		if name != "huge" {
			f.Add(c.text)
		}
	}
	f.Fuzz(func(t *testing.T, text string) {
		path, found := outline(text)
		if len(found) > 0 {
			for _, x := range found {
				if !path.Empty() || x.At.End > len(text) || x.At.Start > x.At.End || !x.At.Known() {
					t.Fatalf("%s at %d to %d of %d bytes; path in %v", x.Rule.Name, x.At.Start, x.At.End, len(text), path.Box())
				}
			}
			return
		}
		// What was taken is drawn whole, and what is printed is path data and nothing else.
		box := path.Box()
		if !(box.W > 0 && box.H > 0) || math.IsInf(box.W+box.H, 0) {
			t.Fatalf("box %+v", box)
		}
		d := svg.New("outline", "", "")
		d.Path(stretch(path, svg.Box{W: 100, H: 100}), svg.Style{})
		_, rest, _ := strings.Cut(d.Inline(), ` d="`)
		if data, _, _ := strings.Cut(rest, `"`); data == "" || strings.Trim(data, "MlCZ-.0123456789 ") != "" {
			t.Fatal("printed data holds foreign characters")
		}
	})
}

// Each limit of an outline, kept and passed.
func TestOutlineLimits(t *testing.T) {
	file := func(path, more string) string {
		return `<svg xmlns="http://www.w3.org/2000/svg">` + more + `<path d="` + path + `"/>` +
			strings.Repeat("</g>", strings.Count(more, "<g>")) + `</svg>`
	}
	steps := func(n int) string { return "M0 0l9 0 0 5" + strings.Repeat("l1 1", n-3) }
	for _, c := range []struct {
		of   string
		most int
		make func(n int) string
		says string
	}{
		{"bytes", MaxOutlineBytes, func(n int) string { s := file("M0 0h9v5z", ""); return s + strings.Repeat(" ", n-len(s)) }, "1048577 bytes long; 1048576 are read"},
		{"steps", svg.MaxPathSegments, func(n int) string { return file(steps(n), "") }, "more than 50000 steps"},
		{"groups", maxOutlineDepth - 2, func(n int) string { return file("M0 0h9v5z", strings.Repeat("<g>", n)) }, "more than 32 groups in one another"},
		{"proportions", maxAspect, func(n int) string { return file(fmt.Sprintf("M0 0h%dv1z", n), "") }, "no sensible extent"},
	} {
		for _, n := range []int{c.most / 2, c.most} {
			if _, found := ReadOutline(source.NewFile("a.svg", c.make(n))); len(found) > 0 {
				t.Errorf("%d %s: %s", n, c.of, found[0].Says.String())
			}
		}
		_, found := ReadOutline(source.NewFile("a.svg", c.make(c.most+1)))
		if len(found) != 1 || !strings.Contains(found[0].Says.String(), c.says) || found[0].Do.Empty() {
			t.Errorf("%d %s: %v, want %q", c.most+1, c.of, found, c.says)
		}
	}
}
