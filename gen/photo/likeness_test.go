package photo

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"spruelight/testdata/effort"
	"spruelight/testdata/outside"
)

// likeness returns the SSIM of two pictures' luma (Wang, Bovik, Sheikh and
// Simoncelli, IEEE Trans. Image Process. 13 (2004) 600): windows of 11 × 11
// samples, Gaussian of 1.5, K1 = 0.01, K2 = 0.03, mean over every other window.
func likeness(a, b image.Image) float64 {
	const reach, c1, c2 = 5, 0.01 * 255 * 0.01 * 255, 0.03 * 255 * 0.03 * 255
	var window [2*reach + 1]float64
	sum := 0.0
	for i := range window {
		window[i] = math.Exp(-float64((i-reach)*(i-reach)) / (2 * 1.5 * 1.5))
		sum += window[i]
	}
	x, y := lumaOf(a), lumaOf(b)
	total, n := 0.0, 0
	for v := reach; v < len(x)-reach; v += 2 {
		for u := reach; u < len(x[v])-reach; u += 2 {
			var mx, my, xx, yy, xy float64
			for j, wj := range window {
				for i, wi := range window {
					w := wi * wj / (sum * sum)
					p, q := x[v+j-reach][u+i-reach], y[v+j-reach][u+i-reach]
					mx, my, xx, yy, xy = mx+w*p, my+w*q, xx+w*p*p, yy+w*q*q, xy+w*p*q
				}
			}
			total += (2*mx*my + c1) * (2*(xy-mx*my) + c2) / ((mx*mx + my*my + c1) * (xx - mx*mx + yy - my*my + c2))
			n++
		}
	}
	return total / float64(n)
}

// lumaOf returns ITU-R BT.601 luma, row by row.
func lumaOf(img image.Image) [][]float64 {
	b := img.Bounds()
	rows := make([][]float64, b.Dy())
	for y := range rows {
		rows[y] = make([]float64, b.Dx())
		for x := range rows[y] {
			r, g, bl, _ := img.At(b.Min.X+x, b.Min.Y+y).RGBA()
			rows[y][x] = (0.299*float64(r) + 0.587*float64(g) + 0.114*float64(bl)) / 257
		}
	}
	return rows
}

// vipsCoded returns a picture as libvips codes it at its quality of 82, with
// the size of the file.
func vipsCoded(t *testing.T, img image.Image) (image.Image, int) {
	t.Helper()
	dir := t.TempDir()
	in, out := filepath.Join(dir, "in.png"), filepath.Join(dir, "out.jpg")
	if err := os.WriteFile(in, asPNG(t, img), 0o644); err != nil {
		t.Fatal(err)
	}
	if text, err := exec.Command(outside.Tool(t, "vips"), "jpegsave", in, out, "--Q", "82", "--strip").CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, text)
	}
	data, err := os.ReadFile(out)
	if err != nil {
		t.Fatal(err)
	}
	back, err := jpeg.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	return back, len(data)
}

// Renditions are as like the resized photo as those that libvips codes at 82,
// within 0.003 SSIM in the mean of each size, and take fewer bytes. In short it
// is one photo by day and one by night.
func TestCodingAgainstVips(t *testing.T) {
	outside.Tool(t, "vips") // or the pictures are painted for nothing
	photos := map[string][]byte{}
	more := []string{"cairnhead/photos/finished-day"}
	if effort.Whole() {
		photos = nightPhotos(t)
		photos["camera"] = asJPEG(t, camera(2, 2400, 1600))
		more = append(more, "dunnock/photos/sprues", "marram/photos/lamps-laid-out")
	} else {
		more = append(more, "cairnhead/photos/finished-night")
	}
	for _, name := range more {
		data, err := os.ReadFile("../../content-example/builds/" + name + ".jpg")
		if err != nil {
			t.Fatal(err)
		}
		photos[name] = data
	}
	recipe := DefaultRecipe()
	ours, theirs := make([]float64, 3), make([]float64, 3)
	bytesOurs, bytesTheirs := make([]float64, 3), make([]float64, 3)
	for name, data := range photos {
		for i, resized := range beforeCoding(t, data, recipe) {
			m, err := encode(t.Context(), resized, recipe.coding(Size{resized.Rect.Dx(), resized.Rect.Dy()}, false))
			if err != nil {
				t.Fatal(err)
			}
			mine, err := jpeg.Decode(bytes.NewReader(m.bytes))
			if err != nil {
				t.Fatal(err)
			}
			vips, size := vipsCoded(t, resized)
			a, b := likeness(mine, resized), likeness(vips, resized)
			t.Logf("%s at %d px: SSIM %.4f in %d bytes, vips %.4f in %d", name, recipe.Edges[i], a, len(m.bytes), b, size)
			ours[i], theirs[i] = ours[i]+a, theirs[i]+b
			bytesOurs[i], bytesTheirs[i] = bytesOurs[i]+float64(len(m.bytes)), bytesTheirs[i]+float64(size)
		}
	}
	for i, edge := range recipe.Edges {
		gain, share := (ours[i]-theirs[i])/float64(len(photos)), bytesOurs[i]/bytesTheirs[i]
		t.Logf("%d px: SSIM %+.4f against vips, bytes %.2f", edge, gain, share)
		if gain < -0.003 || share > 1 {
			t.Errorf("%d px: SSIM %+.4f against vips, bytes %.2f; want -0.003 or more, and no more bytes", edge, gain, share)
		}
	}
}

// By hand: pictures of one tone have no structure, so that only the first factor
// of the measure counts, (2·100·110 + C1) / (100² + 110² + C1) with C1 = 6.5025.
// A picture is like itself by 1.
func TestLikeness(t *testing.T) {
	for _, c := range []struct {
		a, b image.Image
		want float64
	}{
		{flat(40, 30, color.Gray{100}), flat(40, 30, color.Gray{110}), 22006.5025 / 22106.5025},
		{camera(1, 120, 90), camera(1, 120, 90), 1},
	} {
		if got := likeness(c.a, c.b); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%.6f, want %.6f", got, c.want)
		}
	}
}
