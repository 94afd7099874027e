package wiring

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"math"
	"testing"

	"spruelight/testdata/view"
)

func TestMain(m *testing.M) { view.Main(m) }

// chromium renders a file in Chromium at one pixel a unit.
func chromium(t *testing.T, file []byte, w, h float64) image.Image {
	t.Helper()
	return view.Chromium(t, file, math.Round(w), math.Round(h))
}

// tile is the edge, in pixels, of the squares that are compared; blurring over
// reach to each side lets two programs smooth edges in their own ways.
const tile, reach = 24, 3

// difference returns the greatest root mean square, over all tiles, of the
// difference of two blurred pictures: 0 to 1. A mean over the whole picture
// would let a lost label pass.
func difference(a, b image.Image) (float64, error) {
	if a.Bounds() != b.Bounds() {
		return 0, fmt.Errorf("%v against %v", a.Bounds(), b.Bounds())
	}
	w, h := a.Bounds().Dx(), a.Bounds().Dy()
	pa, pb := blurred(a), blurred(b)
	worst := 0.0
	for y := 0; y < h; y += tile {
		for x := 0; x < w; x += tile {
			sum, n := 0.0, 0.0
			for v := y; v < min(y+tile, h); v++ {
				for u := x; u < min(x+tile, w); u++ {
					d := pa[v*w+u] - pb[v*w+u]
					sum, n = sum+d*d, n+1
				}
			}
			worst = max(worst, math.Sqrt(sum/n))
		}
	}
	return worst, nil
}

// blurred returns the luma of a picture, averaged over squares by a table of sums.
func blurred(img image.Image) []float64 {
	w, h := img.Bounds().Dx(), img.Bounds().Dy()
	sums := make([]float64, (w+1)*(h+1))
	for y := range h {
		for x := range w {
			grey := float64(color.GrayModel.Convert(img.At(x, y)).(color.Gray).Y) / 255
			sums[(y+1)*(w+1)+x+1] = grey + sums[y*(w+1)+x+1] + sums[(y+1)*(w+1)+x] - sums[y*(w+1)+x]
		}
	}
	out := make([]float64, w*h)
	for y := range h {
		for x := range w {
			x0, x1, y0, y1 := max(0, x-reach), min(w, x+reach+1), max(0, y-reach), min(h, y+reach+1)
			sum := sums[y1*(w+1)+x1] - sums[y0*(w+1)+x1] - sums[y1*(w+1)+x0] + sums[y0*(w+1)+x0]
			out[y*w+x] = sum / float64((x1-x0)*(y1-y0))
		}
	}
	return out
}

// sameLook is the greatest difference of a tile between the two programs; a
// lost word makes at least twice that (TestTheComparisonCanFail).
const sameLook = 0.05

// TestTwoProgramsShowTheSame renders every drawing by Chromium and by librsvg.
func TestTwoProgramsShowTheSame(t *testing.T) {
	for name, d := range drawings(t) {
		t.Run(name, func(t *testing.T) {
			w, h := d.Size()
			diff, err := difference(chromium(t, d.File(), w, h), view.Librsvg(t, d.File()))
			if err != nil {
				t.Fatal(err)
			}
			if diff > sameLook {
				t.Errorf("difference %.4f, allowed %.4f", diff, sameLook)
			}
			t.Logf("%g × %g: difference %.4f", w, h, diff)
		})
	}
}

// TestTheComparisonCanFail: a lost word and a lost lamp are seen.
func TestTheComparisonCanFail(t *testing.T) {
	s := solved(t, lantern())
	good := Diagram("d", s, nil).File()
	for what, bad := range map[string][]byte{
		"word": bytes.Replace(good, []byte(">reed switch<"), []byte("><"), 1),
		"lamp": bytes.Replace(good, []byte("<polygon fill="), []byte("<polygon opacity=\"0\" fill="), 1),
	} {
		diff, err := difference(view.Librsvg(t, good), view.Librsvg(t, bad))
		if err != nil {
			t.Fatal(err)
		}
		if diff < 2*sameLook {
			t.Errorf("a lost %s makes a difference of %.4f", what, diff)
		}
		t.Logf("a lost %s: difference %.4f", what, diff)
	}
}
