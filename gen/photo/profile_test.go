package photo

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"spruelight/testdata/outside"
)

// be appends big-endian numbers of the size given.
func be16(v ...uint16) (b []byte) {
	for _, x := range v {
		b = binary.BigEndian.AppendUint16(b, x)
	}
	return b
}

func be32(v ...uint32) (b []byte) {
	for _, x := range v {
		b = binary.BigEndian.AppendUint32(b, x)
	}
	return b
}

// s15 writes s15Fixed16Numbers.
func s15(v ...float64) (b []byte) {
	for _, x := range v {
		b = append(b, be32(uint32(int32(math.Round(x*65536))))...)
	}
	return b
}

// iccProfile writes a profile (ICC.1:2022) of a colour space with the tags.
func iccProfile(space string, tags ...[2]string) []byte {
	head := make([]byte, 128)
	binary.BigEndian.PutUint32(head[8:], 0x04300000)
	copy(head[12:], "mntr"+space+"XYZ ")
	copy(head[36:], "acsp")
	copy(head[68:], s15(0.9642, 1, 0.8249))
	table, body := be32(uint32(len(tags))), []byte(nil)
	for _, tag := range tags {
		table = append(append(table, tag[0]...), be32(uint32(132+12*len(tags)+len(body)), uint32(len(tag[1])))...)
		body = append(body, tag[1]...)
		for len(body)%4 != 0 {
			body = append(body, 0)
		}
	}
	b := append(append(head, table...), body...)
	binary.BigEndian.PutUint32(b, uint32(len(b)))
	return b
}

func xyzTag(x, y, z float64) string { return "XYZ \x00\x00\x00\x00" + string(s15(x, y, z)) }

func paraTag(kind uint16, v ...float64) string {
	return "para\x00\x00\x00\x00" + string(be16(kind, 0)) + string(s15(v...))
}

func curvTag(v ...uint16) string {
	return "curv\x00\x00\x00\x00" + string(be32(uint32(len(v)))) + string(be16(v...))
}

func rgbProfile(curve string, red, green, blue string) []byte {
	return iccProfile("RGB ", [2]string{"wtpt", xyzTag(0.9642, 1, 0.8249)},
		[2]string{"rXYZ", red}, [2]string{"gXYZ", green}, [2]string{"bXYZ", blue},
		[2]string{"rTRC", curve}, [2]string{"gTRC", curve}, [2]string{"bTRC", curve})
}

const srgbToe = 1 / 12.92

var (
	srgbCurveTag = paraTag(3, 2.4, 1/1.055, 0.055/1.055, srgbToe, 0.04045)
	// Colorants of the Display P3 profile that phones embed (from memory), equal
	// to SMPTE EG 432-1 primaries adapted to D50.
	displayP3 = rgbProfile(srgbCurveTag, xyzTag(0.51512, 0.24120, -0.00105), xyzTag(0.29198, 0.69225, 0.04189),
		xyzTag(0.15710, 0.06657, 0.78407))
	// Adobe RGB (1998) Color Image Encoding, section 4.3.6: PCS values.
	adobeRGB = rgbProfile(curvTag(0x0233), xyzTag(0.60974, 0.31111, 0.01947), xyzTag(0.20528, 0.62567, 0.06087),
		xyzTag(0.14919, 0.06322, 0.74457))
	// IEC 61966-2-1 as in the profile that cameras embed: colorants from the ICC
	// registry's sRGB profile.
	srgbICC = rgbProfile(srgbCurveTag, xyzTag(0.43607, 0.22249, 0.01392), xyzTag(0.38515, 0.71687, 0.09708), xyzTag(0.14307, 0.06061, 0.71410))
)

// withProfile puts a profile into a PNG.
func withProfile(t testing.TB, png, profile []byte) []byte {
	t.Helper()
	var z bytes.Buffer
	w := zlib.NewWriter(&z)
	if _, err := w.Write(profile); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return afterIHDR(png, chunk("iCCP", append([]byte("profile\x00\x00"), z.Bytes()...)))
}

func afterIHDR(png []byte, chunks ...[]byte) []byte {
	return bytes.Join([][]byte{png[:33], bytes.Join(chunks, nil), png[33:]}, nil)
}

// profileSegments puts a profile into JPEG segments, in two parts.
func profileSegments(profile []byte) [][]byte {
	half := len(profile) / 2
	return [][]byte{
		segment(0xe2, append([]byte("ICC_PROFILE\x00\x02\x02"), profile[half:]...)), // order is told by the numbers
		segment(0xe2, append([]byte("ICC_PROFILE\x00\x01\x02"), profile[:half]...)),
	}
}

func flat(w, h int, c color.Color) *image.NRGBA {
	img := image.NewNRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			img.Set(x, y, c)
		}
	}
	return img
}

// middle returns the 8-bit colour in the middle of a photo's rendition, before
// coding.
func middle(t *testing.T, data []byte) [3]int {
	t.Helper()
	img := beforeCoding(t, data, DefaultRecipe())[0]
	c := img.NRGBAAt(img.Rect.Dx()/2, img.Rect.Dy()/2)
	return [3]int{int(c.R), int(c.G), int(c.B)}
}

func near(a, b [3]int, steps int) bool {
	for i := range a {
		if d := a[i] - b[i]; d > steps || d < -steps {
			return false
		}
	}
	return true
}

// The green (30, 200, 40) of sRGB is stored as (95, 197, 70) in Display P3.
// (A step of its red is two of sRGB there.) The other pairs follow from the definitions: white and grey stay; the green
// and red of Adobe RGB share x and y with none and the red of sRGB.
func TestProfilesAreConverted(t *testing.T) {
	for name, c := range map[string]struct {
		profile []byte
		stored  color.NRGBA
		want    [3]int
		steps   int
	}{
		"P3 green":            {displayP3, color.NRGBA{95, 197, 70, 255}, [3]int{30, 200, 40}, 2},
		"P3 white":            {displayP3, color.NRGBA{255, 255, 255, 255}, [3]int{255, 255, 255}, 0},
		"P3 grey":             {displayP3, color.NRGBA{119, 119, 119, 255}, [3]int{119, 119, 119}, 0},
		"P3 green, outside":   {displayP3, color.NRGBA{0, 255, 0, 255}, [3]int{0, 255, 0}, 0},
		"Adobe white":         {adobeRGB, color.NRGBA{255, 255, 255, 255}, [3]int{255, 255, 255}, 0},
		"Adobe red of sRGB":   {adobeRGB, color.NRGBA{219, 0, 0, 255}, [3]int{255, 0, 0}, 1}, // 0.7152 of its light: 255·0.7152^(256/563)
		"Adobe mid grey":      {adobeRGB, color.NRGBA{128, 128, 128, 255}, [3]int{128, 128, 128}, 1},
		"sRGB":                {srgbICC, color.NRGBA{30, 200, 40, 255}, [3]int{30, 200, 40}, 0},
		"linear grey":         {iccProfile("GRAY", [2]string{"kTRC", curvTag()}), color.NRGBA{55, 55, 55, 255}, [3]int{128, 128, 128}, 1}, // 0.2140 is grey 127.9
		"grey, gamma 2.2":     {iccProfile("GRAY", [2]string{"kTRC", curvTag(0x0233)}), color.NRGBA{128, 128, 128, 255}, [3]int{128, 128, 128}, 1},
		"grey, straight line": {iccProfile("GRAY", [2]string{"kTRC", curvTag(0, 65535)}), color.NRGBA{55, 55, 55, 255}, [3]int{128, 128, 128}, 1},
	} {
		data := withProfile(t, asPNG(t, flat(8, 8, c.stored)), c.profile)
		if got := middle(t, data); !near(got, c.want, c.steps) {
			t.Errorf("%s: %v becomes %v, want %v within %d", name, c.stored, got, c.want, c.steps)
		}
		if set := mustMake(t, data, DefaultRecipe()); len(set.Notes) != 0 {
			t.Errorf("%s: %v", name, set.Notes[0])
		}
	}
}

// The sRGB profile is the identity, bit for bit, so that photos with and
// without it look the same.
func TestSRGBProfileChangesNothing(t *testing.T) {
	s, err := readProfile(srgbICC)
	if err != nil || s.matrix != nil {
		t.Fatalf("%v, matrix %v", err, s.matrix)
	}
	for v := range 256 {
		if got := toSRGB(float32(s.curves[1](float64(v) / 255))); int(got) != v {
			t.Errorf("%d becomes %d", v, got)
		}
	}
}

// A profile in a JPEG, split over segments, does the same as in a PNG.
func TestProfileInJPEG(t *testing.T) {
	img := flat(64, 64, color.NRGBA{95, 197, 70, 255})
	got := middle(t, after(asJPEG(t, img), profileSegments(displayP3)...))
	if !near(got, [3]int{30, 200, 40}, 4) { // JPEG at quality 92
		t.Errorf("%v", got)
	}
	broken := after(asJPEG(t, img), profileSegments(displayP3)[0]) // the first part is missing: no profile
	if got := middle(t, broken); !near(got, [3]int{95, 197, 70}, 4) {
		t.Errorf("with half a profile: %v", got)
	}
}

// PNG can give its colours in four ways; the first of cICP, iCCP, sRGB and
// gAMA with cHRM counts (W3C PNG third edition, 13.13).
func TestColoursOfPNG(t *testing.T) {
	p3 := chunk("cICP", []byte{12, 13, 0, 1})
	linear := chunk("gAMA", be32(100000))
	plain := chunk("gAMA", be32(45455))
	adobe := chunk("cHRM", be32(31270, 32900, 64000, 33000, 21000, 71000, 15000, 6000))
	for name, c := range map[string]struct {
		chunks [][]byte
		stored color.NRGBA
		want   [3]int
		steps  int
		note   string
	}{
		"cICP P3":          {[][]byte{p3}, color.NRGBA{95, 197, 70, 255}, [3]int{30, 200, 40}, 2, ""},
		"cICP before gAMA": {[][]byte{linear, p3}, color.NRGBA{95, 197, 70, 255}, [3]int{30, 200, 40}, 2, ""},
		"gAMA 1":           {[][]byte{linear}, color.NRGBA{55, 55, 55, 255}, [3]int{128, 128, 128}, 1, ""},
		"gAMA of sRGB":     {[][]byte{plain}, color.NRGBA{55, 55, 55, 255}, [3]int{55, 55, 55}, 0, ""},
		"sRGB before gAMA": {[][]byte{linear, chunk("sRGB", []byte{0})}, color.NRGBA{55, 55, 55, 255}, [3]int{55, 55, 55}, 0, ""},
		"gAMA and cHRM":    {[][]byte{chunk("gAMA", be32(45470)), adobe}, color.NRGBA{255, 255, 255, 255}, [3]int{255, 255, 255}, 0, ""},
		"cHRM of nonsense": {[][]byte{plain, chunk("cHRM", make([]byte, 31)), chunk("cHRM", be32(1, 0, 0, 0, 0, 0, 0, 0))}, color.NRGBA{55, 55, 55, 255}, [3]int{55, 55, 55}, 0, ""},
		"cICP of HDR":      {[][]byte{chunk("cICP", []byte{9, 16, 0, 1})}, color.NRGBA{55, 55, 55, 255}, [3]int{55, 55, 55}, 0, "photo-profile"},
	} {
		data := afterIHDR(asPNG(t, flat(8, 8, c.stored)), c.chunks...)
		if got := middle(t, data); !near(got, c.want, c.steps) {
			t.Errorf("%s: %v becomes %v, want %v", name, c.stored, got, c.want)
		}
		isNoted(t, name, mustMake(t, data, DefaultRecipe()), c.note)
	}
}

// isNoted checks that a set has the one note of a rule, or none.
func isNoted(t *testing.T, name string, set Set, rule string) {
	t.Helper()
	var got []string
	for _, n := range set.Notes {
		got = append(got, n.Rule.Name)
		if n.Says.Empty() || n.Remedy.Empty() {
			t.Errorf("%s: %+v says too little", name, n)
		}
	}
	if strings.Join(got, " ") != rule {
		t.Errorf("%s: notes %v, want %q", name, got, rule)
	}
}

// What is not made of primaries and curves, or broken, is taken for sRGB and
// said so.
func TestProfilesThatCannotBeFollowed(t *testing.T) {
	good := displayP3
	change := func(f func(b []byte)) []byte { b := bytes.Clone(good); f(b); return b }
	for name, profile := range map[string][]byte{
		"table-based":           iccProfile("RGB ", [2]string{"A2B0", "mft2" + strings.Repeat("\x00", 60)}),
		"for CMYK":              iccProfile("CMYK", [2]string{"A2B0", "mft2" + strings.Repeat("\x00", 60)}),
		"empty":                 {},
		"text":                  bytes.Repeat([]byte("not a profile "), 20),
		"cut":                   good[:len(good)-30],
		"a tag of 4 GiB":        change(func(b []byte) { copy(b[132+12+8:], "\xff\xff\xff\xff") }),
		"a tag outside":         change(func(b []byte) { copy(b[132+12+4:], "\xff\xff\xff\xf0") }),
		"4 billion tags":        change(func(b []byte) { copy(b[128:], "\xff\xff\xff\xff"); copy(b[132+12:], "????") }),
		"curve of 4 billion":    rgbProfile("curv\x00\x00\x00\x00\xff\xff\xff\xff", xyzTag(1, 0, 0), xyzTag(0, 1, 0), xyzTag(0, 0, 1)),
		"curve of type 9":       rgbProfile(paraTag(9, 1, 1, 1, 1, 1, 1, 1), xyzTag(1, 0, 0), xyzTag(0, 1, 0), xyzTag(0, 0, 1)),
		"primaries on one line": rgbProfile(srgbCurveTag, xyzTag(0.2, 0.3, 0.1), xyzTag(0.4, 0.6, 0.2), xyzTag(0.1, 0.1, 0.7)),
	} {
		data := withProfile(t, asPNG(t, flat(8, 8, color.NRGBA{95, 197, 70, 255})), profile)
		if got := middle(t, data); got != [3]int{95, 197, 70} {
			t.Errorf("%s: %v", name, got)
		}
		isNoted(t, name, mustMake(t, data, DefaultRecipe()), "photo-profile")
	}
}

// The functions of table 68 of ICC.1:2022, at points worked out by hand.
func TestParametricCurves(t *testing.T) {
	for _, c := range []struct {
		tag     string
		x, want float64
	}{
		{paraTag(0, 2), 0.5, 0.25},
		{paraTag(1, 2, 0.8, 0.2), 0.5, 0.36},
		{paraTag(1, 2, 1, -0.2), 0.1, 0},
		{paraTag(2, 2, 0.8, 0.2, 0.1), 0.5, 0.46},
		{paraTag(2, 2, 1, -0.2, 0.1), 0.1, 0.1},
		{paraTag(3, 2.4, 1/1.055, 0.055/1.055, srgbToe, 0.04045), 0.5, 0.21404},
		{paraTag(3, 2.4, 1/1.055, 0.055/1.055, srgbToe, 0.04045), 0.04, 0.04 / 12.92},
		{paraTag(4, 2, 0.8, 0.2, 0.5, 0.3, 0.05, 0.02), 0.5, 0.41},
		{paraTag(4, 2, 0.8, 0.2, 0.5, 0.3, 0.05, 0.02), 0.2, 0.12},
		{paraTag(0, -1), 0, 1}, // infinite, cut off
	} {
		f, err := profile(iccProfile("GRAY", [2]string{"kTRC", c.tag})).curve("kTRC")
		if err != nil {
			t.Fatal(err)
		}
		if got := f(c.x); math.Abs(got-c.want) > 1e-4 {
			t.Errorf("%q at %g: %g, want %g", c.tag, c.x, got, c.want)
		}
	}
}

// lcms2, by way of libvips, turns the same swatches into the same sRGB.
func TestProfilesAgainstVips(t *testing.T) {
	vips := outside.Tool(t, "vips")
	var swatches []color.NRGBA
	for r := 0; r < 256; r += 51 {
		for g := 0; g < 256; g += 51 {
			for b := 0; b < 256; b += 51 {
				swatches = append(swatches, color.NRGBA{uint8(r), uint8(g), uint8(b), 255})
			}
		}
	}
	img := image.NewNRGBA(image.Rect(0, 0, len(swatches), 1))
	for x, c := range swatches {
		img.SetNRGBA(x, 0, c)
	}
	for name, profile := range map[string][]byte{"Display P3": displayP3, "Adobe RGB": adobeRGB, "sRGB": srgbICC} {
		data := withProfile(t, asPNG(t, img), profile)
		dir := t.TempDir()
		in, out := filepath.Join(dir, "in.png"), filepath.Join(dir, "out.png")
		if err := os.WriteFile(in, data, 0o644); err != nil {
			t.Fatal(err)
		}
		if text, err := exec.Command(vips, "icc_transform", in, out, "srgb", "--embedded", "--intent", "relative").CombinedOutput(); err != nil {
			t.Fatalf("%v: %s", err, text)
		}
		f, err := os.ReadFile(out)
		if err != nil {
			t.Fatal(err)
		}
		want, err := png.Decode(bytes.NewReader(f))
		if err != nil {
			t.Fatal(err)
		}
		got := beforeCoding(t, data, DefaultRecipe())[0]
		worst := 0.0
		for x := range swatches {
			g := got.NRGBAAt(x, 0)
			r, gg, b, _ := want.At(x, 0).RGBA()
			d := deltaE(lab(g.R, g.G, g.B), lab(uint8(r>>8), uint8(gg>>8), uint8(b>>8)))
			worst = max(worst, d)
			if d > 1 {
				t.Errorf("%s %v: %v, lcms2 gives %d %d %d", name, swatches[x], g, r>>8, gg>>8, b>>8)
			}
		}
		t.Logf("%s: worst of %d swatches: CIEDE2000 %.2f", name, len(swatches), worst)
	}
}

// Cameras set to Adobe RGB write no profile but a mark (DCF 2.0). Its red of
// 0.7152 of the light is that of sRGB (as in TestProfilesAreConverted); its greys
// are nearly those of sRGB; and of its green (0.21, 0.71) at 128, which lies
// outside, nothing stays red or blue.
func TestAdobeMarkOfCameras(t *testing.T) {
	exiftool := outside.Tool(t, "exiftool")
	for _, c := range []struct {
		stored color.NRGBA
		want   [3]int
	}{
		{color.NRGBA{219, 0, 0, 255}, [3]int{255, 0, 0}},
		{color.NRGBA{110, 0, 0, 255}, [3]int{129, 0, 0}}, // 0.1575 · 1.3983 = 0.2203
		{color.NRGBA{128, 128, 128, 255}, [3]int{128, 128, 128}},
		{color.NRGBA{0, 128, 0, 255}, [3]int{0, 128, 0}},
	} {
		path := filepath.Join(t.TempDir(), "_A.jpg")
		if err := os.WriteFile(path, asJPEG(t, flat(64, 64, c.stored)), 0o644); err != nil {
			t.Fatal(err)
		}
		if text, err := exec.Command(exiftool, "-q", "-overwrite_original", "-InteropIndex=R03", "-ColorSpace#=65535",
			path).CombinedOutput(); err != nil {
			t.Fatalf("%v: %s", err, text)
		}
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if got := middle(t, data); !near(got, c.want, 4) {
			t.Errorf("%v becomes %v, want %v", c.stored, got, c.want)
		}
	}
}
