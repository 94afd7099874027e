package photo

import (
	"bytes"
	"encoding/binary"
	"errors"
	"hash/crc32"
	"io/fs"
	"strings"
	"testing"
	"time"

	"spruelight/gen/source"
)

// chunk returns a PNG chunk with its checksum.
func chunk(kind string, body []byte) []byte {
	b := binary.BigEndian.AppendUint32(nil, uint32(len(body)))
	b = append(append(b, kind...), body...)
	return binary.BigEndian.AppendUint32(b, crc32.ChecksumIEEE(b[4:]))
}

// pngClaiming returns the start of a PNG that claims a size.
func pngClaiming(w, h uint32) []byte {
	ihdr := binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(nil, w), h)
	return append([]byte(pngSignature), chunk("IHDR", append(ihdr, 8, 2, 0, 0, 0))...)
}

// segment returns a JPEG segment.
func segment(marker byte, body []byte) []byte {
	return append([]byte{0xff, marker, byte((len(body) + 2) >> 8), byte(len(body) + 2)}, body...)
}

// after returns a JPEG with segments put in after its start marker.
func after(jpeg []byte, segments ...[]byte) []byte {
	return bytes.Join([][]byte{jpeg[:2], bytes.Join(segments, nil), jpeg[2:]}, nil)
}

// exifBlock returns a little-endian TIFF structure with the orientation and,
// unless empty, DateTimeOriginal.
func exifBlock(orientation uint16, taken string) []byte {
	le := binary.LittleEndian
	b := append([]byte("II*\x00"), 8, 0, 0, 0)
	entry := func(tag, kind uint16, count, value uint32) {
		b = le.AppendUint16(b, tag)
		b = le.AppendUint16(b, kind)
		b = le.AppendUint32(b, count)
		b = le.AppendUint32(b, value)
	}
	b = le.AppendUint16(b, 2)
	entry(0x0112, 3, 1, uint32(orientation))
	entry(0x8769, 4, 1, 38) // ExifIFD behind this one: 8 + 2 + 2·12 + 4
	b = le.AppendUint32(b, 0)
	b = le.AppendUint16(b, 1)
	entry(0x9003, 2, uint32(len(taken)+1), 56) // text behind it: 38 + 2 + 12 + 4
	b = le.AppendUint32(b, 0)
	return append(b, taken+"\x00"...)
}

func exifSegment(orientation uint16, taken string) []byte {
	return segment(0xe1, append([]byte("Exif\x00\x00"), exifBlock(orientation, taken)...))
}

func TestInspect(t *testing.T) {
	img := bench(60, 40)
	noon := time.Date(2026, 2, 14, 12, 0, 5, 0, time.UTC)
	for name, c := range map[string]struct {
		data []byte
		want Info
	}{
		"jpeg":        {asJPEG(t, img), Info{JPEG, 0, Size{60, 40}, Size{60, 40}, 1, time.Time{}}},
		"jpeg, EXIF":  {after(asJPEG(t, img), exifSegment(6, "2026:02:14 12:00:05")), Info{JPEG, 0, Size{60, 40}, Size{40, 60}, 6, noon}},
		"no clock":    {after(asJPEG(t, img), exifSegment(1, "0000:00:00 00:00:00")), Info{JPEG, 0, Size{60, 40}, Size{60, 40}, 1, time.Time{}}},
		"bad values":  {after(asJPEG(t, img), exifSegment(9, "yesterday")), Info{JPEG, 0, Size{60, 40}, Size{60, 40}, 1, time.Time{}}},
		"fill bytes":  {after(asJPEG(t, img), []byte{0xff, 0xff, 0xff}, exifSegment(3, "")), Info{JPEG, 0, Size{60, 40}, Size{60, 40}, 3, time.Time{}}},
		"png":         {asPNG(t, img), Info{PNG, 0, Size{60, 40}, Size{60, 40}, 1, time.Time{}}},
		"png, EXIF":   {beforeEnd(asPNG(t, img), chunk("eXIf", exifBlock(8, "2026:02:14 12:00:05"))), Info{PNG, 0, Size{60, 40}, Size{40, 60}, 8, noon}},
		"named badly": {asPNG(t, img), Info{PNG, 0, Size{60, 40}, Size{60, 40}, 1, time.Time{}}},
	} {
		c.want.Bytes = int64(len(c.data))
		got, err := Inspect(folder(map[string][]byte{"a.jpg": c.data}), "a.jpg", Limits{})
		if err != nil || got != c.want {
			t.Errorf("%s: got %+v, %v; want %+v", name, got, err, c.want)
		}
		// A file system that cannot seek gives the same.
		plain, err := Inspect(plainFS{folder(map[string][]byte{"a.jpg": c.data})}, "a.jpg", Limits{})
		if err != nil || plain != c.want {
			t.Errorf("%s without seeking: got %+v, %v; want %+v", name, plain, err, c.want)
		}
	}
}

// beforeEnd puts a chunk before IEND.
func beforeEnd(png, chunk []byte) []byte {
	end := len(png) - 12
	return bytes.Join([][]byte{png[:end], chunk, png[end:]}, nil)
}

// plainFS hides every method of a file but those of fs.File.
type plainFS struct{ fs.FS }

func (p plainFS) Open(name string) (fs.File, error) {
	f, err := p.FS.Open(name)
	return struct{ fs.File }{f}, err
}

// What is no photo is refused with the rule that says why, from Inspect and
// from Make alike.
func TestRefused(t *testing.T) {
	good := asJPEG(t, bench(60, 40))
	for name, c := range map[string]struct {
		data   []byte
		rule   *source.Rule
		says   string
		atMake bool // seen only when the pixels are read
	}{
		"empty":               {nil, RuleTruncated, "empty", false},
		"text":                {[]byte("a shopping list, long enough to hold a header"), RuleFormat, "not a JPEG", false},
		"TIFF named .jpg":     {append([]byte("II*\x00\x08\x00\x00\x00"), make([]byte, 64)...), RuleFormat, "TIFF", false},
		"TIFF, other order":   {append([]byte("MM\x00*\x00\x00\x00\x08"), make([]byte, 64)...), RuleFormat, "TIFF", false},
		"BMP named .jpg":      {append([]byte("BM"), make([]byte, 64)...), RuleFormat, "BMP", false},
		"HEIC":                {append([]byte("\x00\x00\x00\x18ftypheic"), make([]byte, 64)...), RuleHEIC, "HEIC", false},
		"AVIF":                {append([]byte("\x00\x00\x00\x18ftypavif"), make([]byte, 64)...), RuleFormat, "AVIF", false},
		"huge PNG":            {pngClaiming(30000, 30000), RuleTooLarge, "900 megapixels", false},
		"PNG of 2³¹ a side":   {pngClaiming(1<<31-1, 1<<31-1), RuleTooLarge, "megapixels", false},
		"PNG without a size":  {pngClaiming(0, 5), RuleDamaged, "0 × 5", false},
		"JPEG, header cut":    {good[:20], RuleTruncated, "header", false},
		"JPEG, cut":           {good[:len(good)*2/3], RuleTruncated, "end is missing", true},
		"JPEG, last byte cut": {good[:len(good)-1], RuleTruncated, "end is missing", true},
		"JPEG, no marker":     {append(bytes.Clone(good[:2]), 0xff, 0xe0, 0, 2, 1, 2, 3), RuleDamaged, "JPEG", false},
		"PNG, cut":            {asPNG(t, bench(60, 40))[:200], RuleTruncated, "end is missing", false},
	} {
		fsys := folder(map[string][]byte{"a.jpg": c.data})
		_, inspected := Inspect(fsys, "a.jpg", Limits{})
		_, made := MemoryCache().Make(t.Context(), fsys, "a.jpg", DefaultRecipe())
		if !c.atMake {
			isProblem(t, name+", inspected", inspected, c.rule, c.says)
		}
		isProblem(t, name+", made", made, c.rule, c.says)
	}
}

func isProblem(t *testing.T, name string, err error, rule *source.Rule, says string) {
	t.Helper()
	var p *Problem
	if !errors.As(err, &p) || p.Rule.Name != rule.Name || !strings.Contains(p.Error(), says) || p.Remedy.Empty() {
		t.Errorf("%s: got %v, want %s saying %q", name, err, rule.Name, says)
	}
}

func TestMissingAndFolder(t *testing.T) {
	fsys := folder(map[string][]byte{"photos/a.jpg": asJPEG(t, bench(4, 4))})
	for name, rule := range map[string]*source.Rule{"b.jpg": RuleMissing, "../a.jpg": RuleMissing, "photos": RuleFormat} {
		_, err := Inspect(fsys, name, Limits{})
		isProblem(t, name, err, rule, "")
		_, err = MemoryCache().Make(t.Context(), fsys, name, DefaultRecipe())
		isProblem(t, name, err, rule, "")
	}
}

func TestLimits(t *testing.T) {
	fsys := folder(map[string][]byte{"a.jpg": asJPEG(t, bench(60, 40))})
	c := MemoryCache()
	if _, err := c.Make(t.Context(), fsys, "a.jpg", DefaultRecipe()); err != nil {
		t.Fatal(err)
	}
	for _, limits := range []Limits{{Pixels: 2399}, {Bytes: 100}} {
		recipe := DefaultRecipe()
		recipe.Limits = limits
		_, err := Inspect(fsys, "a.jpg", limits)
		isProblem(t, "inspected", err, RuleTooLarge, "")
		_, err = c.Make(t.Context(), fsys, "a.jpg", recipe) // though the cache has it
		isProblem(t, "made", err, RuleTooLarge, "")
	}
	if _, err := Inspect(fsys, "a.jpg", Limits{Pixels: 2400}); err != nil {
		t.Error(err)
	}
}

func TestFinding(t *testing.T) {
	_, err := Inspect(folder(nil), "photos/a.jpg", Limits{})
	var p *Problem
	if !errors.As(err, &p) {
		t.Fatal(err)
	}
	at := source.NewFile("builds/marram/2026-02-14.md", "photos: [photos/a.jpg]").At(9, 12)
	f := p.At(at, "photos/a.jpg")
	if f.Rule.Name != "photo-missing" || f.Severity() != source.Stop || f.Says.String() != `photo "photos/a.jpg": is not there` ||
		f.Do.Empty() || f.At != at {
		t.Errorf("%+v", f)
	}
}

func TestRulesAreDocumented(t *testing.T) {
	seen := map[string]bool{}
	for _, r := range Rules {
		if seen[r.Name] || r.Name == "" || r.Reason == "" || r.Source == "" {
			t.Errorf("%+v is incomplete or listed twice", r)
		}
		seen[r.Name] = true
	}
}

// The most pixels and bytes, kept and passed.
func TestPhotoLimits(t *testing.T) {
	small := asPNG(t, bench(20, 10))
	for _, c := range []struct {
		name   string
		data   []byte
		limits Limits
		ok     bool
	}{
		{"half the pixels", pngClaiming(10_000, 5_000), Limits{}, true},
		{"all the pixels", pngClaiming(10_000, 10_000), Limits{}, true},
		{"a row more", pngClaiming(10_000, 10_001), Limits{}, false},
		{"all the pixels of a workshop's limit", pngClaiming(20, 10), Limits{Pixels: 200}, true},
		{"a row more than a workshop's limit", pngClaiming(20, 11), Limits{Pixels: 200}, false},
		{"all the bytes", small, Limits{Bytes: int64(len(small))}, true},
		{"a byte more", small, Limits{Bytes: int64(len(small)) - 1}, false},
	} {
		_, err := Inspect(folder(map[string][]byte{"a.png": c.data}), "a.png", c.limits)
		var p *Problem
		if large := errors.As(err, &p) && p.Rule.Name == RuleTooLarge.Name; large == c.ok {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}
