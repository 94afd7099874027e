package photo

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"spruelight/testdata/effort"
	"spruelight/testdata/outside"
)

// lampField scatters square lamps of 3 px over black.
func lampField(n, w, h int, colours ...color.RGBA) *image.RGBA {
	rnd := rand.New(rand.NewPCG(5, 1))
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	draw.Draw(img, img.Rect, image.Black, image.Point{}, draw.Src)
	for range n {
		at := image.Pt(rnd.IntN(w-3), rnd.IntN(h-3))
		draw.Draw(img, image.Rectangle{at, at.Add(image.Pt(3, 3))}, image.NewUniform(colours[rnd.IntN(len(colours))]), image.Point{}, draw.Src)
	}
	return img
}

// darkRoom paints a lit model in the dark: portholes that glow, with the soft
// light each throws on the shell around it.
func darkRoom(w, h int) *image.RGBA {
	rnd := rand.New(rand.NewPCG(9, 2))
	sum := make([][3]float64, w*h)
	for i := range sum {
		v := 0.004 + 0.003*float64(i/w)/float64(h)
		sum[i] = [3]float64{v, v, v * 1.2}
	}
	tints := [][3]float64{{1, 0.62, 0.28}, {1, 0.9, 0.75}, {0.9, 0.1, 0.06}, {0.1, 0.8, 0.3}, {0.35, 0.55, 1}}
	for i := range 40 {
		cx, cy := float64(w)*(0.1+0.8*rnd.Float64()), float64(h)*(0.25+0.5*rnd.Float64())
		tint, reach := tints[i%len(tints)], float64(w)/60
		for y := max(int(cy-7*reach), 0); y < min(int(cy+7*reach), h); y++ { // beyond, it is below a thousandth
			for x := max(int(cx-7*reach), 0); x < min(int(cx+7*reach), w); x++ {
				d := math.Hypot(float64(x)-cx, float64(y)-cy)
				glow := 0.08 * math.Exp(-d/reach)
				if d < float64(w)/900 {
					glow = 1
				}
				for c := range 3 {
					sum[y*w+x][c] += glow * tint[c]
				}
			}
		}
	}
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	for i, v := range sum {
		for c := range 3 {
			img.Pix[4*i+c] = clip(255*srgbEncode(min(v[c], 1)) + rnd.NormFloat64()*0.8)
		}
		img.Pix[4*i+3] = 255
	}
	return img
}

// Gamma-light resizing takes 60 % of the light of small lamps on black, and
// linear light with dips cut off adds a tenth to a third. Here it stays what it
// was, in every size of the cascade, in the JPEG as published. In short no field
// is larger than 2000 px.
func TestLampsKeepTheirLight(t *testing.T) {
	warm, red, green, blue := color.RGBA{255, 214, 160, 255}, color.RGBA{255, 30, 20, 255}, color.RGBA{30, 230, 80, 255},
		color.RGBA{60, 90, 255, 255}
	for name, c := range map[string]struct {
		size    Size
		lamps   int
		colours []color.RGBA
	}{
		"white, 2000 px":    {Size{2000, 1333}, 1300, []color.RGBA{{255, 255, 255, 255}}},
		"white, 4000 px":    {Size{4000, 3000}, 5000, []color.RGBA{{255, 255, 255, 255}}},
		"coloured, 2000 px": {Size{2000, 1333}, 1300, []color.RGBA{warm, red, green, blue}},
	} {
		if c.size.Width > 2000 && !effort.Whole() {
			continue
		}
		img := lampField(c.lamps, c.size.Width, c.size.Height, c.colours...)
		want := luminance(img)
		for _, r := range mustMake(t, asPNG(t, img), DefaultRecipe()).Renditions {
			got := luminance(read(t, r))
			t.Logf("%s at %s: luminance %.5f, %+.1f %%", name, r.Size, got, 100*(got/want-1))
			if math.Abs(got/want-1) > 0.03 {
				t.Errorf("%s at %s: luminance %.5f, want %.5f within 3 %%", name, r.Size, got, want)
			}
		}
	}
}

// beforeCoding returns the renditions as they are before JPEG coding.
func beforeCoding(t testing.TB, data []byte, recipe Recipe) []*image.NRGBA {
	t.Helper()
	h, err := readHeader(bytes.NewReader(data), int64(len(data)), recipe.Limits)
	if err != nil {
		t.Fatal(err)
	}
	s, _ := h.space()
	img, err := decode(data, h)
	if err != nil {
		t.Fatal(err)
	}
	pictures, err := cascade(t.Context(), rasterOf(img, s), recipe.Sizes(h.size))
	if err != nil {
		t.Fatal(err)
	}
	var out []*image.NRGBA
	for _, p := range pictures {
		out = append(out, p.store(s.matrix))
	}
	return out
}

// linearVips returns what vipsthumbnail makes of a photo in linear light.
func linearVips(t testing.TB, data []byte, edge int) image.Image {
	t.Helper()
	in, out := filepath.Join(t.TempDir(), "in.jpg"), filepath.Join(t.TempDir(), "out.png")
	if err := os.WriteFile(in, data, 0o644); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(outside.Tool(t, "vipsthumbnail"), "--linear", in, "-s", fmt.Sprintf("%dx%d>", edge, edge), "-o", out)
	if text, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, text)
	}
	b, err := os.ReadFile(out)
	if err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(bytes.NewReader(b))
	if err != nil {
		t.Fatal(err)
	}
	return img
}

// nightPhotos are the photos of the example that show lit models in the dark.
func nightPhotos(t *testing.T) map[string][]byte {
	t.Helper()
	found := map[string][]byte{}
	for _, name := range []string{"cairnhead/photos/finished-night", "cairnhead/photos/lights-on", "marram/photos/first-light",
		"marram/photos/nav-lights"} {
		data, err := os.ReadFile("../../content-example/builds/" + name + ".jpg")
		if err != nil {
			t.Fatal(err)
		}
		found[name] = data
	}
	return found
}

// libvips resizes with another kernel and from the full size each time; the
// eye must not tell the results apart, on pictures by day and on lamps in the
// dark. TestFieldOfLamps is about the one kind where it may. In short there are
// fewer pictures, none larger than 2400 px.
func TestAgainstVips(t *testing.T) {
	outside.Tool(t, "vipsthumbnail") // or the pictures are painted for nothing
	photos := nightPhotos(t)
	made := map[string]image.Image{
		"dark room, 2000 px":  darkRoom(2000, 1333),
		"few lamps, 2000 px":  lampField(60, 2000, 1333, color.RGBA{255, 255, 255, 255}),
		"ordinary, 1200 px":   camera(9, 1200, 900),
		"hard edges, 2400 px": bench(2400, 1600),
	}
	if effort.Whole() {
		made["dark room, 4000 px"] = darkRoom(4000, 2667)
		made["ordinary, 6000 px"] = camera(7, 6000, 4000)
		made["ordinary, 4032 px"] = camera(8, 4032, 3024)
	} else {
		delete(photos, "cairnhead/photos/lights-on")
		delete(photos, "marram/photos/nav-lights")
	}
	for name, img := range made {
		photos[name] = asJPEG(t, img)
	}
	for name, data := range photos {
		for _, got := range beforeCoding(t, data, DefaultRecipe()) {
			edge := max(got.Rect.Dx(), got.Rect.Dy())
			want := linearVips(t, data, edge)
			mean, percentile, worst := differences(t, got, want)
			t.Logf("%s at %d px: CIEDE2000 mean %.2f, 99th percentile %.2f, mean of the worst 1 %% %.2f; light %+.1f %% against vips",
				name, edge, mean, percentile, worst, 100*(luminance(got)/luminance(want)-1))
			if mean >= 1 || percentile >= 3 {
				t.Errorf("%s at %d px: CIEDE2000 mean %.2f, 99th percentile %.2f; want below 1 and 3", name, edge, mean, percentile)
			}
		}
	}
}

// A field of nothing but small lamps cannot both keep its light and look like
// what vipsthumbnail makes of it. Its kernel keeps the light too, but dips below
// zero beside every lamp; where the dips are cut off, up to a third more light
// is left than there was, and taking that back changes libvips' own picture by
// more than the 3 CIEDE2000 asked for. So here the picture is held to the truth,
// the mean light that falls on each pixel, and must be nearer to it than libvips.
func TestFieldOfLamps(t *testing.T) {
	outside.Tool(t, "vipsthumbnail")
	field := lampField(1300, 2000, 1333, color.RGBA{255, 255, 255, 255})
	data, light := asPNG(t, field), luminance(field)
	for _, got := range beforeCoding(t, data, DefaultRecipe()) {
		size := Size{got.Rect.Dx(), got.Rect.Dy()}
		vips, truth := linearVips(t, data, size.Width), areaMean(field, size)
		whole := uncutVips(t, data, float64(size.Width)/2000) / light
		cut, ours := luminance(vips)/light, luminance(got)/light
		mean, percentile, _ := differences(t, got, truth)
		theirMean, theirPercentile, _ := differences(t, vips, truth)
		apart, _, _ := differences(t, got, vips)
		_, put, _ := differences(t, inLight(vips, 1/cut), vips)
		t.Logf("%s: light %.3f; vips %.3f before it cuts the dips off, %.3f after", size, ours, whole, cut)
		t.Logf("%s: CIEDE2000 from the truth: mean %.2f, 99th percentile %.2f; vips %.2f, %.2f; from vips: mean %.2f; vips from itself with its light put right: 99th percentile %.2f", size, mean, percentile, theirMean, theirPercentile, apart, put)
		if math.Abs(ours-1) > 0.03 || mean > theirMean || percentile > theirPercentile || apart >= 1 {
			t.Errorf("%s is further from the truth than vips, or from vips than 1 in the mean", size)
		}
		if math.Abs(whole-1) > 0.01 || cut < 1.03 || size.Width == 320 && put <= 3 {
			t.Errorf("%s: vips is not what was thought: hold TestAgainstVips to this field too", size)
		}
	}
}

// uncutVips returns the mean linear light of a picture that libvips has resized
// with its usual kernel and whose dips it has not cut off.
func uncutVips(t *testing.T, data []byte, scale float64) float64 {
	t.Helper()
	vips, dir := outside.Tool(t, "vips"), t.TempDir()
	in, linear, small := filepath.Join(dir, "in.png"), filepath.Join(dir, "linear.v"), filepath.Join(dir, "small.v")
	if err := os.WriteFile(in, data, 0o644); err != nil {
		t.Fatal(err)
	}
	var last []byte
	for _, args := range [][]string{{"colourspace", in, linear, "scrgb"}, {"resize", linear, small, fmt.Sprint(scale)}, {"avg", small}} {
		text, err := exec.Command(vips, args...).CombinedOutput()
		if err != nil {
			t.Fatalf("%v: %s", err, text)
		}
		last = text
	}
	mean, err := strconv.ParseFloat(strings.TrimSpace(string(last)), 64)
	if err != nil {
		t.Fatal(err)
	}
	return mean
}

// areaMean returns a picture in another size, each pixel the mean linear light
// of the part of the picture that it covers, in 64 bits.
func areaMean(img *image.RGBA, size Size) *image.NRGBA {
	across, down := cover(img.Rect.Dx(), size.Width), cover(img.Rect.Dy(), size.Height)
	out := image.NewNRGBA(image.Rect(0, 0, size.Width, size.Height))
	for y, rows := range down {
		for x, columns := range across {
			var sum [3]float64
			for v, high := range rows {
				for u, wide := range columns {
					for c := range sum {
						sum[c] += high * wide * srgbCurve(float64(img.Pix[img.PixOffset(u, v)+c])/255)
					}
				}
			}
			out.SetNRGBA(x, y, shown(sum))
		}
	}
	return out
}

// cover returns, for each of m samples that stand for n, the share that each of
// the n has in it.
func cover(n, m int) []map[int]float64 {
	scale, all := float64(n)/float64(m), make([]map[int]float64, m)
	for k := range all {
		from, to := float64(k)*scale, float64(k+1)*scale
		all[k] = map[int]float64{}
		for i := int(from); i < n && float64(i) < to; i++ {
			all[k][i] = (min(to, float64(i+1)) - max(from, float64(i))) / scale
		}
	}
	return all
}

func shown(light [3]float64) color.NRGBA {
	return color.NRGBA{toSRGB(float32(light[0])), toSRGB(float32(light[1])), toSRGB(float32(light[2])), 255}
}

// inLight returns a picture with its linear light multiplied.
func inLight(img image.Image, by float64) *image.NRGBA {
	b := img.Bounds()
	out := image.NewNRGBA(image.Rect(0, 0, b.Dx(), b.Dy()))
	for y := range b.Dy() {
		for x := range b.Dx() {
			r, g, bl, _ := img.At(b.Min.X+x, b.Min.Y+y).RGBA()
			out.SetNRGBA(x, y, shown([3]float64{by * srgbCurve(float64(r)/65535), by * srgbCurve(float64(g)/65535),
				by * srgbCurve(float64(bl)/65535)}))
		}
	}
	return out
}
