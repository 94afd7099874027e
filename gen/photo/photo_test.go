package photo

import (
	"fmt"
	"image"
	"os"
	"reflect"
	"testing"
)

// Sizes are the photo's own times the edge, rounded half up: worked by hand.
func TestSizes(t *testing.T) {
	for _, c := range []struct {
		photo Size
		want  []Size
	}{
		{Size{6000, 4000}, []Size{{320, 213}, {800, 533}, {1600, 1067}}}, // 213.3, 533.3, 1066.7
		{Size{4000, 6000}, []Size{{213, 320}, {533, 800}, {1067, 1600}}},
		{Size{4032, 3024}, []Size{{320, 240}, {800, 600}, {1600, 1200}}},
		{Size{1600, 1200}, []Size{{320, 240}, {800, 600}, {1600, 1200}}},
		{Size{1000, 700}, []Size{{320, 224}, {800, 560}, {1000, 700}}}, // smaller than 1600: its own size once
		{Size{300, 200}, []Size{{300, 200}}},
		{Size{320, 10}, []Size{{320, 10}}},
		{Size{1, 1}, []Size{{1, 1}}},
		{Size{20000, 3}, []Size{{320, 1}, {800, 1}, {1600, 1}}}, // 0.05, 0.12, 0.24: never less than a pixel
	} {
		if got := DefaultRecipe().Sizes(c.photo); !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s: got %v, want %v", c.photo, got, c.want)
		}
	}
}

func TestRenditionsHaveTheSizesPromised(t *testing.T) {
	for _, size := range []Size{{1700, 1133}, {900, 1201}, {200, 150}, {1, 1}, {7, 3}, {3000, 2}} {
		img := bench(size.Width, size.Height)
		for format, data := range map[Format][]byte{JPEG: asJPEG(t, img), PNG: asPNG(t, img)} {
			set := mustMake(t, data, DefaultRecipe())
			want := DefaultRecipe().Sizes(size)
			if len(set.Renditions) != len(want) || set.Info.Shown != size || set.Info.Format != format {
				t.Fatalf("%s %s: %+v", format, size, set)
			}
			for i, r := range set.Renditions {
				b := read(t, r).Bounds()
				if r.Size != want[i] || b.Dx() != want[i].Width || b.Dy() != want[i].Height {
					t.Errorf("%s %s: rendition %s holds %v, want %s", format, size, r.Size, b, want[i])
				}
			}
		}
	}
}

// The nine pictures are the same one stored nine ways (0 is no valid value and
// counts as 1). CHECKS: after orientation all equal number 1 but for coding.
func TestOrientation(t *testing.T) {
	var first image.Image
	for _, n := range []int{1, 0, 2, 3, 4, 5, 6, 7, 8} {
		data, err := os.ReadFile(fmt.Sprintf("testdata/orientation/orientation_%d.jpg", n))
		if err != nil {
			t.Fatal(err)
		}
		set := mustMake(t, data, Recipe{Edges: []int{320}, Quality: 95})
		if set.Info.Orientation != max(n, 1) || set.Info.Shown != (Size{50, 70}) {
			t.Errorf("%d: orientation %d, shown %s", n, set.Info.Orientation, set.Info.Shown)
		}
		img := read(t, set.Renditions[0])
		if first == nil {
			first = img
		}
		if d := meanSquare(first, img); d > 4e-4 {
			t.Errorf("orientation %d differs from 1: mean square %.2g", n, d)
		}
	}
}

// meanSquare returns the mean squared difference of two pictures of the same
// size, 1 for black against white.
func meanSquare(a, b image.Image) float64 {
	if a.Bounds() != b.Bounds() {
		return 1
	}
	sum, n := 0.0, 0
	for y := a.Bounds().Min.Y; y < a.Bounds().Max.Y; y++ {
		for x := a.Bounds().Min.X; x < a.Bounds().Max.X; x++ {
			r1, g1, b1, _ := a.At(x, y).RGBA()
			r2, g2, b2, _ := b.At(x, y).RGBA()
			for _, d := range []float64{float64(r1) - float64(r2), float64(g1) - float64(g2), float64(b1) - float64(b2)} {
				sum, n = sum+d*d/65535/65535, n+1
			}
		}
	}
	return sum / float64(n)
}

func TestPlaceholderIsSmall(t *testing.T) {
	for _, size := range []Size{{1700, 1133}, {700, 1400}, {30, 20}, {1, 1}, {1000, 3}} {
		p := mustMake(t, asJPEG(t, bench(size.Width, size.Height)), DefaultRecipe()).Placeholder
		if len(p.Blur) == 0 || len(p.Blur) > MaxPlaceholder || len(p.Colour) != 7 {
			t.Errorf("%s: placeholder of %d bytes, colour %q", size, len(p.Blur), p.Colour)
		}
	}
}

func TestRecipeThatCannotBeFollowed(t *testing.T) {
	for _, r := range []Recipe{{}, {Edges: []int{0}, Quality: 80}, {Edges: []int{320}}, {Edges: []int{320}, Quality: 101},
		{Edges: []int{99999}, Quality: 80}, {Edges: []int{320}, Quality: 80, Also: "tiff"}} {
		if _, err := MemoryCache().Make(t.Context(), folder(nil), "a.jpg", r); err == nil {
			t.Errorf("%+v is taken", r)
		}
	}
}
