package gen_test

import (
	"bytes"
	"context"
	"flag"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"spruelight/testdata/example"
	"spruelight/testdata/view"

	"github.com/chromedp/chromedp"
	"github.com/disintegration/imaging"
)

// updating reports whether -update is given. The flag belongs to the tests
// inside the package, which share this program.
func updating() bool {
	f := flag.Lookup("update")
	return f != nil && f.Value.String() == "true"
}

const readmePictures = "../testdata/readme/"

// drawn are the README's pictures that the program draws itself: copies of
// files of the example's site.
var drawn = map[string]string{
	"circuit.svg": "cairnhead/drawings/circuit-1.svg",
	"line-up.svg": "drawings/line-up.svg",
}

// shot are the README's pictures of pages: the page, the size of the window,
// and whether it is seen as it is printed.
var shot = map[string]struct {
	page          string
	width, height int64
	print         bool
}{
	"build.jpg":  {"cairnhead/index.html", 1200, 1000, false},
	"repair.jpg": {"cairnhead/repair.html", 800, 960, true},
}

// The README shows pictures of the example as the program draws it now, none
// of them heavy. go test ./gen -run ReadmePictures -update makes them again.
func TestReadmePicturesAreDrawnByTheProgram(t *testing.T) {
	site := assembled(t)
	for name, from := range drawn {
		want, err := os.ReadFile(filepath.Join(site, from))
		if err != nil {
			t.Fatal(err)
		}
		if updating() {
			if err := os.WriteFile(readmePictures+name, want, 0o666); err != nil {
				t.Fatal(err)
			}
		}
		got, err := os.ReadFile(readmePictures + name)
		if err != nil {
			t.Fatal(err)
		}
		if a, b := letters(got), letters(want); a != b || a == "" {
			t.Errorf("%s does not say what the drawing says now; make it again with -update\n%s\n%s", name, a, b)
		}
	}
}

// letters returns what is written in a drawing. How it is laid out may be
// refined without the README's copy being wrong.
func letters(drawing []byte) string {
	var words []string
	for _, m := range regexp.MustCompile(`<(?:text|tspan)[^>]*>([^<]+)<`).FindAllSubmatch(drawing, -1) {
		words = append(words, strings.Fields(string(m[1]))...)
	}
	slices.Sort(words)
	return strings.Join(words, " ")
}

// The pictures of pages look as the pages do now. Letters differ by the fonts
// of a machine, so that small copies are compared.
func TestReadmePicturesOfPages(t *testing.T) {
	ctx := view.Tab(t)
	home := example.Serve(t, assembled(t))
	for name, s := range shot {
		seen := pictureOf(t, ctx, home+s.page, s.width, s.height, s.print)
		if updating() {
			var out bytes.Buffer
			if err := jpeg.Encode(&out, seen, &jpeg.Options{Quality: 82}); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(readmePictures+name, out.Bytes(), 0o666); err != nil {
				t.Fatal(err)
			}
		}
		kept, err := imaging.Open(readmePictures + name)
		if err != nil {
			t.Fatal(err)
		}
		if d := unlike(kept, seen); d > 12 {
			t.Errorf("%s differs from the page by %.1f of 255; look at both and make it again with -update", name, d)
		}
	}
}

// pictureOf returns what a browser shows of a page in a window of a size.
func pictureOf(t *testing.T, ctx context.Context, page string, width, height int64, print bool) image.Image {
	t.Helper()
	medium := ""
	if print {
		medium = "print"
	}
	view.Do(t, ctx, view.Media(medium, "prefers-color-scheme", "light"), chromedp.EmulateViewport(width, height), chromedp.Navigate(page))
	view.Eval[bool](t, ctx, `document.documentElement.style.overflow = "hidden", Promise.all([...document.images].map(i => (i.loading = "eager", i.decode().catch(() => 0))))
		.then(() => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(() => done(true)))))`)
	data, err := chromedp.Run(ctx, chromedp.CaptureScreenshot())
	if err != nil {
		t.Fatal(err)
	}
	seen, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	if print { // a printer leaves a margin
		sheet := imaging.New(int(width)+60, int(height)+60, color.White)
		return imaging.Paste(sheet, seen, image.Pt(30, 30))
	}
	return seen
}

// unlike returns how far two pictures differ on average, in steps of 255, as
// seen from afar.
func unlike(a, b image.Image) float64 {
	x, y := imaging.Resize(a, 48, 48, imaging.Box), imaging.Resize(b, 48, 48, imaging.Box)
	sum := 0.0
	for i := range x.Pix {
		sum += math.Abs(float64(x.Pix[i]) - float64(y.Pix[i]))
	}
	return sum / float64(len(x.Pix)) * 4 / 3 // every fourth value is opacity
}

// Every picture the README shows is there, is light, and is one that the tests
// above make.
func TestReadmeShowsWhatIsMade(t *testing.T) {
	text, err := os.ReadFile("../README.md")
	if err != nil {
		t.Fatal(err)
	}
	shown := map[string]bool{}
	for _, m := range regexp.MustCompile(`!\[([^\]]*)\]\(testdata/readme/([^)]+)\)`).FindAllStringSubmatch(string(text), -1) {
		shown[m[2]] = true
		if len(m[1]) < 20 {
			t.Errorf("%s has no alternative text to speak of", m[2])
		}
		if _, page := shot[m[2]]; !page && drawn[m[2]] == "" {
			t.Errorf("nothing makes %s", m[2])
		}
	}
	entries, err := os.ReadDir(readmePictures)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		info, err := e.Info()
		if err != nil || info.Size() > 250_000 {
			t.Errorf("%s is too heavy for a README (%v)", e.Name(), err)
		}
		if !shown[e.Name()] && !strings.HasPrefix(e.Name(), ".") {
			t.Errorf("the README does not show %s", e.Name())
		}
	}
}
