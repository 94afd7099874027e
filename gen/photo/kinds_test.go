package photo

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"os"
	"sync"
	"testing"
)

// quarters are the colours of the test picture, from left to right and down.
var quarters = [4][3]int{{200, 40, 30}, {40, 180, 60}, {50, 80, 200}, {230, 230, 230}}

// TestKinds reads the same picture stored in every way that is read, and
// compares the middle of each quarter.
func TestKinds(t *testing.T) {
	grey := [4][3]int{}
	for i, c := range quarters { // ITU-R BT.601, as JPEG has it
		y := (299*c[0] + 587*c[1] + 114*c[2] + 500) / 1000
		grey[i] = [3]int{y, y, y}
	}
	for name, c := range map[string]struct {
		want  [4][3]int
		steps int
		note  string
	}{
		"444.jpg": {quarters, 3, ""}, "422.jpg": {quarters, 3, ""}, "440.jpg": {quarters, 3, ""}, "411.jpg": {quarters, 3, ""},
		"restart.jpg": {quarters, 3, ""}, "progressive.jpg": {quarters, 3, ""}, "rgb.jpg": {quarters, 3, ""},
		"grey.jpg": {grey, 2, ""}, "cmyk.jpg": {quarters, 80, "photo-profile"}, // by rule of thumb: hues come out, the press is not imitated
		"16-bit.png": {quarters, 1, ""}, "interlaced.png": {quarters, 0, ""}, "palette.png": {quarters, 0, ""},
		"lossless.webp": {quarters, 0, ""}, "lossy.webp": {quarters, 5, ""},
	} {
		data := testdata(t, "kinds/"+name)
		img := beforeCoding(t, data, DefaultRecipe())[0]
		if img.Rect.Dx() != 64 || img.Rect.Dy() != 48 {
			t.Fatalf("%s: %v", name, img.Rect)
		}
		for i, want := range c.want {
			p := img.NRGBAAt(16+32*(i%2), 12+24*(i/2))
			if got := [3]int{int(p.R), int(p.G), int(p.B)}; !near(got, want, c.steps) {
				t.Errorf("%s, quarter %d: %v, want %v within %d", name, i, got, want, c.steps)
			}
		}
		isNoted(t, name, mustMake(t, data, DefaultRecipe()), c.note)
	}
}

func testdata(t testing.TB, name string) []byte {
	t.Helper()
	b, err := os.ReadFile("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// Kinds of JPEG that browsers do not show are refused as such.
func TestRareKinds(t *testing.T) {
	deep := testdata(t, "kinds/444.jpg")
	lossless := append([]byte(nil), deep...)
	frame := frameAt(deep)
	deep[frame+4] = 12
	lossless[frame+1] = 0xc3
	for name, data := range map[string][]byte{"arithmetic": testdata(t, "kinds/arithmetic.jpg"), "12-bit": deep, "lossless": lossless,
		"ratio": testdata(t, "kinds/odd.jpg")} {
		_, err := MemoryCache().Make(t.Context(), folder(map[string][]byte{"a.jpg": data}), "a.jpg", DefaultRecipe())
		isProblem(t, name, err, RuleFormat, name)
	}
}

// frameAt returns where the frame header of a baseline JPEG begins.
func frameAt(jpeg []byte) int {
	for i := 2; ; i += 2 + int(jpeg[i+2])<<8 + int(jpeg[i+3]) {
		if jpeg[i+1] == 0xc0 {
			return i
		}
	}
}

// Transparent parts are laid on white as browsers do it, in stored values:
// half-transparent black on white is 128 (127.5), not the 188 of linear light.
func TestTransparent(t *testing.T) {
	for _, c := range []struct {
		colour color.NRGBA
		want   [3]int
		note   string
	}{
		{color.NRGBA{0, 0, 0, 0}, [3]int{255, 255, 255}, "photo-transparent"},
		{color.NRGBA{200, 0, 0, 0}, [3]int{255, 255, 255}, "photo-transparent"},
		{color.NRGBA{0, 0, 0, 128}, [3]int{127, 127, 127}, "photo-transparent"},
		{color.NRGBA{255, 0, 0, 128}, [3]int{255, 127, 127}, "photo-transparent"},
		{color.NRGBA{90, 80, 70, 255}, [3]int{90, 80, 70}, ""},
	} {
		deep := image.NewNRGBA64(image.Rect(0, 0, 8, 8))
		for i := range 64 {
			deep.Set(i%8, i/8, c.colour)
		}
		palette := image.NewPaletted(image.Rect(0, 0, 8, 8), color.Palette{c.colour, color.NRGBA{1, 2, 3, 255}})
		for kind, img := range map[string]image.Image{"8-bit": flat(8, 8, c.colour), "16-bit": deep, "palette": palette} {
			name := fmt.Sprintf("%s %v", kind, c.colour)
			data := asPNG(t, img)
			if got := middle(t, data); !near(got, c.want, 1) {
				t.Errorf("%s: %v, want %v", name, got, c.want)
			}
			isNoted(t, name, mustMake(t, data, DefaultRecipe()), c.note)
		}
	}
}

// 16-bit samples keep their depth until the light has been worked out: a dark
// ramp whose 8-bit form has four steps comes out smooth when it is shrunk.
func TestDeepSamplesStayDeep(t *testing.T) {
	img := image.NewGray16(image.Rect(0, 0, 640, 640))
	for y := range 640 {
		for x := range 640 {
			img.SetGray16(x, y, color.Gray16{Y: uint16(257*20 + x)})
		}
	}
	h := &header{format: PNG, size: Size{640, 640}}
	decoded, err := decode(asPNG(t, img), h)
	if err != nil {
		t.Fatal(err)
	}
	row := shrink(rasterOf(decoded, srgb), Size{320, 320}).row(160)[0]
	for x := 1; x < len(row); x++ {
		if step := row[x] - row[x-1]; !(step > 0) {
			t.Fatalf("sample %d is %g brighter than the one before", x, step)
		}
	}
}

// A photo whose orientation and profile both matter gets both.
func TestOrientationWithProfile(t *testing.T) {
	img := flat(64, 32, color.NRGBA{95, 197, 70, 255})
	data := after(asJPEG(t, img), append([][]byte{exifSegment(6, "2026:02:14 12:00:05")}, profileSegments(displayP3)...)...)
	set := mustMake(t, data, DefaultRecipe())
	got := read(t, set.Renditions[0])
	r, g, b, _ := got.At(16, 32).RGBA()
	if c := [3]int{int(r >> 8), int(g >> 8), int(b >> 8)}; got.Bounds().Dx() != 32 || !near(c, [3]int{30, 200, 40}, 8) {
		t.Errorf("%v of %v", c, got.Bounds())
	}
}

// WebP beside JPEG: the same picture in the same sizes, smaller, with nothing
// in it but the picture; none where coloured lamps would lose their light.
func TestAlsoWebP(t *testing.T) {
	recipe := DefaultRecipe()
	recipe.Also = WebP
	img := camera(4, 1200, 800)
	set := mustMake(t, asPNG(t, img), recipe)
	want := beforeCoding(t, asPNG(t, img), recipe)
	if len(set.Renditions) != 6 {
		t.Fatalf("%d renditions, want 6", len(set.Renditions))
	}
	for i := 0; i < 6; i += 2 {
		jpeg, webp := set.Renditions[i], set.Renditions[i+1]
		if jpeg.Format != JPEG || webp.Format != WebP || jpeg.Size != webp.Size || webp.Bytes >= jpeg.Bytes {
			t.Errorf("%s %s of %d bytes, %s %s of %d bytes", jpeg.Size, jpeg.Format, jpeg.Bytes, webp.Size, webp.Format, webp.Bytes)
		}
		b, err := webp.Read()
		if err != nil {
			t.Fatal(err)
		}
		if string(b[8:16]) != "WEBPVP8 " { // one chunk, no container that could hold more
			t.Errorf("%q", b[8:16])
		}
		back, err := decode(b, &header{format: WebP, size: webp.Size})
		if err != nil {
			t.Fatal(err)
		}
		mean, _, _ := differences(t, back, want[i/2])
		plain, _, _ := differences(t, read(t, jpeg), want[i/2])
		t.Logf("%s: JPEG %d bytes, CIEDE2000 %.2f; WebP %d bytes, CIEDE2000 %.2f", jpeg.Size, jpeg.Bytes, plain, webp.Bytes, mean)
		if mean > 1.1*plain {
			t.Errorf("%s differs by CIEDE2000 %.2f, the JPEG by %.2f", webp.Size, mean, plain)
		}
	}
	lamps := mustMake(t, asPNG(t, lampField(1300, 2000, 1333, color.RGBA{255, 30, 20, 255})), recipe)
	for _, r := range lamps.Renditions {
		if r.Format != JPEG {
			t.Errorf("lamps as %s", r.Format)
		}
	}
}

// Workers may write at the same time.
func TestWebPFromSeveralWorkers(t *testing.T) {
	img := flat(64, 48, color.NRGBA{200, 40, 30, 255})
	want, err := encodeWebP(t.Context(), img, 80)
	if err != nil {
		t.Fatal(err)
	}
	var group sync.WaitGroup
	for range 8 {
		group.Go(func() {
			if got, err := encodeWebP(t.Context(), img, 80); err != nil || !bytes.Equal(got.bytes, want.bytes) {
				t.Errorf("%v, or other bytes", err)
			}
		})
	}
	group.Wait()
}
