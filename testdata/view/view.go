// Package view renders drawings by programs from outside this project and
// compares what they show, and holds texts that are hard to draw.
//
// It lives under testdata so that no pattern such as ./... builds it into the
// program; only tests import it.
package view

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/chromedp/chromedp"

	"spruelight/testdata/outside"
)

// Chromium renders a standalone file in Chromium at one pixel a unit.
func Chromium(t testing.TB, file []byte, w, h float64, actions ...Step) image.Image {
	t.Helper()
	ctx := Page(t, "drawing.svg", file, append(actions, chromedp.EmulateViewport(int64(w), int64(h)))...)
	shot := Run(t, ctx, chromedp.CaptureScreenshot())
	img, err := png.Decode(bytes.NewReader(shot))
	if err != nil {
		t.Fatal(err)
	}
	return img
}

// Librsvg renders a standalone file by librsvg at one pixel a unit.
func Librsvg(t testing.TB, file []byte) image.Image {
	t.Helper()
	cmd := exec.Command(outside.Tool(t, "rsvg-convert"), "-b", "white")
	cmd.Stdin = bytes.NewReader(file)
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(bytes.NewReader(out))
	if err != nil {
		t.Fatal(err)
	}
	return img
}

// grey returns the luma (ITU-R BT.601, as image/color has it) of every pixel from 0 to 1.
func grey(img image.Image) (pix []float64, w, h int) {
	b := img.Bounds()
	w, h = b.Dx(), b.Dy()
	pix = make([]float64, 0, w*h)
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			pix = append(pix, float64(color.GrayModel.Convert(img.At(x, y)).(color.Gray).Y)/255)
		}
	}
	return pix, w, h
}

// blur averages over squares of 5 × 5 pixels, twice, so that two programs may
// smooth edges differently without counting as different.
func blur(pix []float64, w, h int) []float64 {
	for range 2 {
		out := make([]float64, len(pix))
		for y := range h {
			for x := range w {
				sum, n := 0.0, 0.0
				for v := max(0, y-2); v <= min(h-1, y+2); v++ {
					for u := max(0, x-2); u <= min(w-1, x+2); u++ {
						sum += pix[v*w+u]
						n++
					}
				}
				out[y*w+x] = sum / n
			}
		}
		pix = out
	}
	return pix
}

// tile is the edge, in pixels, of the squares that are compared one by one.
const tile = 24

// Difference returns the greatest root mean square, over all tiles, of the
// blurred difference: 0 for the same picture, up to 1. A mean over the whole
// picture would let a lost label pass.
func Difference(a, b image.Image) (float64, error) {
	pa, w, h := grey(a)
	pb, w2, h2 := grey(b)
	if w != w2 || h != h2 {
		return 0, fmt.Errorf("%d × %d against %d × %d pixels", w, h, w2, h2)
	}
	pa, pb = blur(pa, w, h), blur(pb, w, h)
	worst := 0.0
	for y := 0; y < h; y += tile {
		for x := 0; x < w; x += tile {
			sum, n := 0.0, 0.0
			for v := y; v < min(y+tile, h); v++ {
				for u := x; u < min(x+tile, w); u++ {
					d := pa[v*w+u] - pb[v*w+u]
					sum += d * d
					n++
				}
			}
			worst = max(worst, math.Sqrt(sum/n))
		}
	}
	return worst, nil
}

// Ink returns the box of the pixels darker than the paper.
func Ink(img image.Image) image.Rectangle {
	pix, w, _ := grey(img)
	var ink image.Rectangle
	for i, p := range pix {
		if p < 0.8 {
			ink = ink.Union(image.Rect(i%w, i/w, i%w+1, i/w+1))
		}
	}
	return ink
}

// Same is the greatest difference of a tile between the two programs. Their
// edges and letters were found to differ by up to 0.024; a lost word or a moved
// bar makes 0.1 (TestTheComparisonCanFail of charts).
const Same = 0.04

// Alike fails unless Chromium and librsvg, which knows neither custom properties
// nor media queries, show a drawing alike and not blank.
func Alike(t *testing.T, file []byte, w, h float64) {
	t.Helper()
	one, two := Chromium(t, file, w, h), Librsvg(t, file)
	diff, err := Difference(one, two)
	if err != nil {
		t.Fatal(err)
	}
	if blank := Ink(one); float64(blank.Dx()) < w/3 {
		t.Errorf("hardly any ink: %v", blank)
	}
	if diff > Same {
		t.Errorf("blurred difference %.4f, allowed %.4f", diff, Same)
	}
	t.Logf("%g × %g, blurred difference %.4f", w, h, diff)
}

// WellFormed fails unless the bytes are one well-formed XML document.
func WellFormed(t testing.TB, doc []byte) {
	t.Helper()
	dec := xml.NewDecoder(bytes.NewReader(doc))
	for {
		_, err := dec.Token()
		if errors.Is(err, io.EOF) {
			return
		}
		if err != nil {
			t.Fatalf("not well-formed: %v\n%s", err, doc)
		}
	}
}

// Valid validates drawings, each as a file of its own and those in the page as
// they stand there, by the Nu HTML checker.
func Valid(t *testing.T, drawings map[string][]byte, page string) {
	t.Helper()
	dir := t.TempDir()
	check := func(kind string, files ...string) {
		if out, err := Nu(t, kind, files, "--Werror", "--skip-info-messages"); err != nil {
			t.Errorf("%s: %v\n%.3000s", kind, err, out)
		}
	}
	write := func(name string, data []byte) string {
		file := filepath.Join(dir, name)
		if err := os.WriteFile(file, data, 0o644); err != nil {
			t.Fatal(err)
		}
		return file
	}
	var files []string
	for name, file := range drawings {
		files = append(files, write(name+".svg", file))
	}
	check("svg", files...)
	check("html", write("page.html", []byte(page)))
}

// Nu has the Nu HTML checker (validator.github.io/validator) look at files of one
// kind, "html", "css" or "svg", and returns what it says. The error is nil where
// it finds nothing. Where the checker is missing the test is skipped.
func Nu(t testing.TB, kind string, files []string, options ...string) (says []byte, err error) {
	t.Helper()
	java, jar := outside.Tool(t, "java"), outside.File(t, "VNU_JAR")
	// It runs for seconds: compiling thoroughly would take longer than it saves.
	args := []string{"-Xss8m", "-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC", "-jar", jar, "--" + kind}
	return exec.Command(java, append(append(args, options...), files...)...).CombinedOutput()
}

// Golden compares what is drawn now with the files in testdata that were looked
// at and found good, or writes them anew. A file there that nothing owns fails.
func Golden(t *testing.T, drawn map[string][]byte, update bool) {
	t.Helper()
	for name, got := range drawn {
		file := filepath.Join("testdata", name)
		if update {
			if err := os.WriteFile(file, got, 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		want, err := os.ReadFile(file)
		if err != nil {
			t.Errorf("%v (go test -update writes it)", err)
		} else if !bytes.Equal(got, want) {
			t.Errorf("%s differs from what is drawn now, first in line %d", file, firstDifference(got, want))
		}
	}
	entries, err := os.ReadDir("testdata")
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if _, owned := drawn[e.Name()]; !owned && !e.IsDir() {
			t.Errorf("testdata/%s: no drawing owns this golden file", e.Name())
		}
	}
}

func firstDifference(a, b []byte) int {
	linesA, linesB := bytes.Split(a, []byte("\n")), bytes.Split(b, []byte("\n"))
	for i := range min(len(linesA), len(linesB)) {
		if !bytes.Equal(linesA[i], linesB[i]) {
			return i + 1
		}
	}
	return min(len(linesA), len(linesB)) + 1
}
