package photo

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"errors"
	"go/ast"
	"go/parser"
	"go/token"
	"image"
	"image/color"
	"image/jpeg"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"spruelight/testdata/effort"
)

// spent returns how many bytes a function allocates.
func spent(f func()) uint64 {
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	f()
	runtime.ReadMemStats(&after)
	return after.TotalAlloc - before.TotalAlloc
}

// tiff returns a little-endian EXIF block of one folder of raw entries.
func tiff(next uint32, entries ...[4]uint32) []byte {
	le := binary.LittleEndian
	b := append([]byte("II*\x00"), 8, 0, 0, 0)
	b = le.AppendUint16(b, uint16(len(entries)))
	for _, e := range entries {
		b = le.AppendUint16(b, uint16(e[0]))
		b = le.AppendUint16(b, uint16(e[1]))
		b = le.AppendUint32(b, e[2])
		b = le.AppendUint32(b, e[3])
	}
	return le.AppendUint32(b, next)
}

// EXIF that loops, lies about its counts or points outside costs neither time
// nor memory, and does not keep a good photo from being used.
func TestHostileEXIF(t *testing.T) {
	var many [][4]uint32
	for range 5000 {
		many = append(many, [4]uint32{0x9003, 2, 20, 8})
	}
	for name, block := range map[string][]byte{
		"folder within itself":       tiff(8, [4]uint32{0x8769, 4, 1, 8}, [4]uint32{0x014a, 4, 1, 8}, [4]uint32{0x8825, 4, 1, 8}),
		"next folder is itself":      tiff(8),
		"four thousand million tags": tiff(0, [4]uint32{0x0112, 3, 0xffffffff, 8}, [4]uint32{0x9003, 2, 0xffffffff, 8}),
		"a list of folders":          tiff(0, [4]uint32{0x014a, 4, 60000, 8}),
		"a date of a gigabyte":       tiff(0, [4]uint32{0x8769, 4, 1, 26}, [4]uint32{0x9003, 2, 1 << 30, 8}),
		"pointing outside":           tiff(0xfffffff0, [4]uint32{0x8769, 4, 1, 0xfffffff0}),
		"pointing before itself":     tiff(0, [4]uint32{0x8769, 4, 1, 0}),
		"five thousand dates":        tiff(0, many...),
		"unknown types":              tiff(0, [4]uint32{0x0112, 99, 1, 1}),
		"starting at 4 GiB":          []byte("II*\x00\xff\xff\xff\xff"),
		"cut":                        tiff(0, [4]uint32{0x0112, 3, 1, 6})[:15],
		"nothing":                    {},
	} {
		if len(block) > 65000 {
			block = block[:65000]
		}
		data := after(asJPEG(t, bench(20, 10)), segment(0xe1, append([]byte("Exif\x00\x00"), block...)))
		fsys := folder(map[string][]byte{"a.jpg": data})
		var info Info
		var err error
		if n := spent(func() { info, err = Inspect(fsys, "a.jpg", Limits{}) }); n > 4<<20 {
			t.Errorf("%s: %d bytes allocated", name, n)
		}
		if err != nil || info.Stored != (Size{20, 10}) || info.Orientation < 1 || info.Orientation > 8 {
			t.Errorf("%s: %+v, %v", name, info, err)
		}
		mustMake(t, data, DefaultRecipe())
	}
}

// What claims more than it holds is refused before anything is set aside.
func TestHollowFiles(t *testing.T) {
	small := asJPEG(t, flat(8, 8, color.Gray{90}))
	frame := frameAt(small)
	huge := func(w, h int) []byte {
		b := bytes.Clone(small)
		binary.BigEndian.PutUint16(b[frame+5:], uint16(h))
		binary.BigEndian.PutUint16(b[frame+7:], uint16(w))
		return b
	}
	bomb := func(rows int) []byte { // every pixel black, as zlib packs it
		var z bytes.Buffer
		w := zlib.NewWriter(&z)
		line := make([]byte, 1+3*30000)
		for range rows {
			if _, err := w.Write(line); err != nil {
				t.Fatal(err)
			}
		}
		if err := w.Close(); err != nil {
			t.Fatal(err)
		}
		return bytes.Join([][]byte{pngClaiming(30000, 30000), chunk("IDAT", z.Bytes()), chunk("IEND", nil)}, nil)
	}
	canvas := append([]byte("RIFF\x16\x00\x00\x00WEBPVP8X\x0a\x00\x00\x00"), 0, 0, 0, 0, 0xff, 0x3f, 0, 0xff, 0x3f, 0)
	for name, c := range map[string]struct {
		data []byte
		says string
	}{
		"JPEG of 65535 × 65535":            {huge(65535, 65535), "4.29e+03 megapixels"},
		"JPEG of 9000 × 9000 in 700 bytes": {huge(9000, 9000), "cannot hold them"},
		"PNG of 30000 × 30000, black":      {bomb(effort.Of(2000, 30000)), "900 megapixels"},
		"PNG of 9000 × 9000 in 70 bytes":   {append(pngClaiming(9000, 9000), append(chunk("IDAT", nil), chunk("IEND", nil)...)...), "cannot hold them"},
		"WebP of 16384 × 16384":            {canvas, "268 megapixels"},
	} {
		var err error
		fsys := folder(map[string][]byte{"a.jpg": c.data})
		n := spent(func() { _, err = MemoryCache().Make(t.Context(), fsys, "a.jpg", DefaultRecipe()) })
		var p *Problem
		if !errors.As(err, &p) || !strings.Contains(p.Error(), c.says) {
			t.Errorf("%s: %v, want %q", name, err, c.says)
		}
		if n > 4<<20+uint64(len(c.data)) {
			t.Errorf("%s: %d bytes allocated", name, n)
		}
	}
}

// A profile of a few kilobytes that unpacks to gigabytes is not unpacked.
func TestProfileBomb(t *testing.T) {
	var z bytes.Buffer
	w := zlib.NewWriter(&z)
	for range 400 {
		if _, err := w.Write(make([]byte, 1<<20)); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	data := afterIHDR(asPNG(t, flat(8, 8, color.Gray{90})), chunk("iCCP", append([]byte("bomb\x00\x00"), z.Bytes()...)))
	fsys := folder(map[string][]byte{"a.jpg": data})
	if n := spent(func() {
		if _, err := Inspect(fsys, "a.jpg", Limits{}); err != nil {
			t.Error(err)
		}
	}); n > 32<<20 {
		t.Errorf("%d bytes allocated", n)
	}
}

// A file that is a picture and something else at once is published as the
// picture alone.
func TestPolyglot(t *testing.T) {
	script := "<script>alert(1)</script>"
	data := after(asJPEG(t, bench(100, 60)), segment(0xfe, []byte("*/=1;"+script)))
	data = append(data, ("PK\x03\x04" + strings.Repeat(script, 50))...)
	set := mustMake(t, data, DefaultRecipe())
	b, err := set.Renditions[0].Read()
	if err != nil {
		t.Fatal(err)
	}
	if bytes.Contains(b, []byte("script")) || bytes.Contains(b, []byte("PK\x03\x04")) {
		t.Error("what was hidden in the photo is published")
	}
}

// Damage within the pixels is noticed though the fast decoder passes over it:
// it leaves the rest blank or flat.
func TestDamageWithinPixels(t *testing.T) {
	for name, whole := range map[string][]byte{"baseline": asJPEG(t, camera(3, 640, 480)), "progressive": progressive(t)} {
		scan := bytes.Index(whole, []byte{0xff, 0xda}) + 20
		end := bytes.IndexByte(whole[scan:], 0xff) + scan // of the scan, or earlier
		for _, part := range []int{3, 2} {
			data := bytes.Clone(whole)
			from := scan + (len(data)-scan)/part
			if name == "progressive" {
				from = scan + (end-scan)/part
			}
			data = append(data[:from], 0xff, 0xd9) // the rest of the pixels is gone, the end is there
			_, err := MemoryCache().Make(t.Context(), folder(map[string][]byte{"a.jpg": data}), "a.jpg", DefaultRecipe())
			var p *Problem
			if !errors.As(err, &p) || p.Rule.Name != "photo-damaged" && p.Rule.Name != "photo-truncated" {
				t.Errorf("%s cut at 1/%d: %v", name, part, err)
			}
		}
	}
}

// progressive returns a progressive JPEG.
func progressive(t *testing.T) []byte {
	t.Helper()
	b, err := mustMake(t, asPNG(t, camera(3, 640, 480)), Recipe{Edges: []int{640}, Quality: 95}).Renditions[0].Read()
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// A picture that is black to the last row is no damaged one.
func TestFlatPicturesAreWhole(t *testing.T) {
	for _, c := range []color.Color{color.Black, color.White, color.Gray{128}, color.RGBA{0, 135, 0, 255}} {
		mustMake(t, asJPEG(t, flat(200, 100, c)), DefaultRecipe())
		grey := image.NewGray(image.Rect(0, 0, 50, 50))
		mustMake(t, asJPEG(t, grey), DefaultRecipe())
	}
}

// The TIFF and BMP readers that the imaging library registers, one of which
// could be made to crash in a goroutine (CVE-2023-36308), are never reached:
// the file's first bytes decide, not its name, and no code here asks for
// whatever decoder is registered.
func TestDecodersAreNamed(t *testing.T) {
	paletted := append([]byte("II*\x00\x08\x00\x00\x00"), bytes.Repeat([]byte{0xff}, 400)...)
	for _, name := range []string{"a.jpg", "a.png", "a.webp", "a.tif"} {
		_, err := MemoryCache().Make(t.Context(), folder(map[string][]byte{name: paletted}), name, DefaultRecipe())
		isProblem(t, name, err, RuleFormat, "TIFF")
	}
	files, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(file, func(n ast.Node) bool {
			if s, ok := n.(*ast.SelectorExpr); ok {
				if pkg, ok := s.X.(*ast.Ident); ok {
					switch pkg.Name + "." + s.Sel.Name {
					case "image.Decode", "image.DecodeConfig", "imaging.Decode", "imaging.Open":
						t.Errorf("%s asks for any decoder: %s.%s", name, pkg.Name, s.Sel.Name)
					}
				}
			}
			return true
		})
	}
}

// seeds are small files of every kind, whole and broken.
func seeds(f *testing.F) {
	f.Helper()
	files, err := filepath.Glob("testdata/*/*.*")
	if err != nil {
		f.Fatal(err)
	}
	for _, name := range files {
		data, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
		f.Add(data[:len(data)/2])
	}
	img := bench(40, 30)
	whole := asJPEG(f, img)
	f.Add(after(whole, exifSegment(6, "2026:02:14 12:00:05")))
	f.Add(after(whole, profileSegments(displayP3)...))
	f.Add(after(whole, segment(0xe1, append([]byte("Exif\x00\x00"), tiff(8, [4]uint32{0x8769, 4, 1, 8})...))))
	f.Add(withProfile(f, asPNG(f, img), adobeRGB))
	f.Add(beforeEnd(asPNG(f, img), chunk("eXIf", exifBlock(8, "2026:02:14 12:00:05"))))
	f.Add(afterIHDR(asPNG(f, img), chunk("cICP", []byte{12, 13, 0, 1}), chunk("gAMA", be32(45455))))
	f.Add(pngClaiming(30000, 30000))
	f.Add([]byte("II*\x00\x08\x00\x00\x00"))
	f.Add([]byte("RIFF\x16\x00\x00\x00WEBPVP8X\x0a\x00\x00\x00\x00\x00\x00\x00\xff\x3f\x00\xff\x3f\x00"))
}

// FuzzInspect checks that any file gives a finding or a plausible answer.
func FuzzInspect(f *testing.F) {
	seeds(f)
	f.Fuzz(func(t *testing.T, data []byte) {
		info, err := Inspect(folder(map[string][]byte{"a.jpg": data}), "a.jpg", Limits{})
		var p *Problem
		switch {
		case err != nil && (!errors.As(err, &p) || p.Says.Empty() || p.Remedy.Empty()):
			t.Errorf("%v is no finding", err)
		case err == nil && (info.Shown.Width < 1 || info.Shown.Height < 1 || info.Shown.Pixels() > DefaultPixels ||
			info.Orientation < 1 || info.Orientation > 8):
			t.Errorf("%+v", info)
		}
	})
}

// FuzzMake checks that any file gives a finding, or renditions of the sizes
// that its header promises, free of segments that hold anything but a picture.
func FuzzMake(f *testing.F) {
	seeds(f)
	recipe := Recipe{Edges: []int{16, 48}, Quality: 80, Limits: Limits{Pixels: 1 << 18}}
	f.Fuzz(func(t *testing.T, data []byte) {
		set, err := MemoryCache().Make(t.Context(), folder(map[string][]byte{"a.jpg": data}), "a.jpg", recipe)
		if err != nil {
			var p *Problem
			if !errors.As(err, &p) || p.Says.Empty() || p.Remedy.Empty() {
				t.Errorf("%v is no finding", err)
			}
			return
		}
		sizes := recipe.Sizes(set.Info.Shown)
		for i, r := range set.Renditions {
			b, err := r.Read()
			if err != nil {
				t.Fatal(err)
			}
			c, err := jpeg.DecodeConfig(bytes.NewReader(b))
			if err != nil || r.Size != sizes[i] || c.Width != r.Width || c.Height != r.Height {
				t.Errorf("rendition %d of %s: %+v, %v", i, r.Size, c, err)
			}
		}
	})
}
