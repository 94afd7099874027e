package svg

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"os/exec"
	"testing"

	"github.com/chromedp/chromedp"

	"spruelight/testdata/outside"
)

// chromiumImage renders a standalone file in Chromium at one pixel a unit.
func chromiumImage(t testing.TB, file []byte, w, h float64, actions ...step) image.Image {
	t.Helper()
	ctx := page(t, "drawing.svg", file, append(actions, chromedp.EmulateViewport(int64(w), int64(h)))...)
	shot := run(t, ctx, chromedp.CaptureScreenshot())
	img, err := png.Decode(bytes.NewReader(shot))
	if err != nil {
		t.Fatal(err)
	}
	return img
}

// librsvgImage renders a standalone file by librsvg at one pixel a unit.
func librsvgImage(t testing.TB, file []byte) image.Image {
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

// difference returns the greatest root mean square, over all tiles, of the
// blurred difference: 0 for the same picture, up to 1. A mean over the whole
// picture would let a lost label pass.
func difference(a, b image.Image) (float64, error) {
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

// inkBox returns the box of the pixels darker than the paper.
func inkBox(img image.Image) Box {
	pix, w, _ := grey(img)
	var points []Point
	for i, p := range pix {
		if p < 0.8 {
			points = append(points, Point{float64(i % w), float64(i / w)}, Point{float64(i%w + 1), float64(i/w + 1)})
		}
	}
	return BoxOf(points...)
}

// sameLook is the greatest difference of a tile between the two programs. Their
// edges and letters were found to differ by up to 0.024; a lost word or a moved
// bar makes 0.1 (TestTheComparisonCanFail).
const sameLook = 0.04

// TestTwoProgramsShowTheSame renders every drawing by Chromium and by librsvg,
// which knows neither custom properties nor media queries.
func TestTwoProgramsShowTheSame(t *testing.T) {
	all := append(charts(), namedDrawing{name: "sample", drawing: sample()})
	for _, c := range all {
		t.Run(c.name, func(t *testing.T) {
			w, h := c.drawing.Size()
			file := c.drawing.Bytes()
			one, two := chromiumImage(t, file, w, h), librsvgImage(t, file)
			diff, err := difference(one, two)
			if err != nil {
				t.Fatal(err)
			}
			if blank := inkBox(one); blank.W < w/3 {
				t.Errorf("hardly any ink: %+v", blank)
			}
			if diff > sameLook {
				t.Errorf("blurred difference %.4f, allowed %.4f", diff, sameLook)
			}
			t.Logf("%g × %g, blurred difference %.4f", w, h, diff)
		})
	}
}

// TestTheComparisonCanFail: a label, a bar or a line less is seen.
func TestTheComparisonCanFail(t *testing.T) {
	full := stageBars(600)
	less := stageBars(600)
	less.Bars[0].Text = "1"
	moved := stageBars(600)
	moved.Bars[4].Value *= 1.3
	d, _ := Bars(full)
	reference := librsvgImage(t, d.Bytes())
	for name, c := range map[string]BarChart{"a shorter label": less, "a longer bar": moved} {
		d, _ := Bars(c)
		diff, err := difference(reference, librsvgImage(t, d.Bytes()))
		if err != nil {
			t.Fatal(err)
		}
		if diff < 2*sameLook {
			t.Errorf("%s: difference %.4f is close to going unseen", name, diff)
		}
		t.Logf("%s: difference %.4f", name, diff)
	}
}

// TestMediaSetTheColours looks at paper and ink of a standalone file under each medium.
func TestMediaSetTheColours(t *testing.T) {
	d := New("media", "Media", "")
	d.Margin = 0
	d.Rect(Box{0, 0, 40, 20}, 0, Style{Fill: Ink})
	d.Include(Box{0, 0, 80, 20})
	for _, c := range []struct {
		name       string
		action     step
		ink, paper string
	}{
		{"light", media("screen", "prefers-color-scheme", "light"), roles[Ink].light, roles[Paper].light},
		{"dark", media("screen", "prefers-color-scheme", "dark"), roles[Ink].dark, roles[Paper].dark},
		{"print", media("print", "prefers-color-scheme", "dark"), "#000000", "#ffffff"},
		{"forced colours", media("screen", "forced-colors", "active", "prefers-color-scheme", "light"), "#000000", "#ffffff"},
	} {
		t.Run(c.name, func(t *testing.T) {
			img := chromiumImage(t, d.Bytes(), 80, 20, c.action)
			if ink, paper := hex(img.At(20, 10)), hex(img.At(60, 10)); ink != c.ink || paper != c.paper {
				t.Errorf("ink %s on paper %s, want %s on %s", ink, paper, c.ink, c.paper)
			}
		})
	}
}

func hex(c color.Color) string {
	r, g, b, _ := c.RGBA()
	return fmt.Sprintf("#%02x%02x%02x", r>>8, g>>8, b>>8)
}
