package photo

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math"
	"testing"
	"testing/fstest"
	"time"
)

// long ago, so that the cache trusts the file's time.
var longAgo = time.Date(2026, 2, 14, 19, 30, 0, 0, time.UTC)

// folder returns a file system with the given files.
func folder(files map[string][]byte) fstest.MapFS {
	fsys := fstest.MapFS{}
	for name, data := range files {
		fsys[name] = &fstest.MapFile{Data: data, ModTime: longAgo}
	}
	return fsys
}

// bench paints a made-up workbench picture: a soft gradient, edges in several
// directions, a grid of fine lines and a coloured disc.
func bench(w, h int) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			u, v := float64(x)/float64(w), float64(y)/float64(h)
			r, g, b := 60+120*u, 70+100*v, 110+60*(1-u)
			if d := math.Hypot(u-0.3, (v-0.5)*float64(h)/float64(w)); d < 0.15 {
				r, g, b = 200, 120-200*d, 40
			}
			if u > 0.55 && u < 0.9 && v > 0.2 && v < 0.8 && (x/3+y/5)%7 == 0 {
				r, g, b = r/3, g/3, b/3
			}
			img.SetRGBA(x, y, color.RGBA{uint8(r), uint8(g), uint8(b), 255})
		}
	}
	return img
}

func asJPEG(t testing.TB, img image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, &jpeg.Options{Quality: 92}); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func asPNG(t testing.TB, img image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// read returns the decoded picture of a rendition.
func read(t testing.TB, r Rendition) image.Image {
	t.Helper()
	b, err := r.Read()
	if err != nil {
		t.Fatal(err)
	}
	img, err := jpeg.Decode(bytes.NewReader(b))
	if err != nil {
		t.Fatal(err)
	}
	return img
}

// mustMake makes a photo with a fresh cache.
func mustMake(t testing.TB, data []byte, recipe Recipe) Set {
	t.Helper()
	set, err := MemoryCache().Make(t.Context(), folder(map[string][]byte{"a.jpg": data}), "a.jpg", recipe)
	if err != nil {
		t.Fatal(err)
	}
	return set
}
