package photo

import (
	"bytes"
	"cmp"
	"compress/zlib"
	"encoding/binary"
	"flag"
	"image"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"spruelight/testdata/outside"

	_ "golang.org/x/image/webp"
)

var update = flag.Bool("update", false, "write the kept samples anew")

// exifSays runs exiftool on a photo and returns its answer.
func exifSays(t *testing.T, exiftool, file string, args ...string) string {
	t.Helper()
	out, err := exec.Command(exiftool, append(args, file)...).CombinedOutput()
	if err != nil && !strings.Contains(string(out), "image files") {
		t.Fatalf("exiftool %v: %v\n%s", args, err, out)
	}
	return string(out)
}

// says lists what exiftool finds of a place, a number or an owner, anywhere in
// a photo and in its thumbnail.
func says(t *testing.T, exiftool, file string) string {
	args := []string{"-ee3", "-a", "-u", "-U", "-G1", "-s", "-*GPS*", "-*Location*", "-*City*", "-*Country*", "-*State*", "-*Serial*",
		"-*Owner*", "-*UniqueID*", "-*MakerNote*", "-HostComputer", "--File:all", "--EXIF:SubjectLocation"}
	found := exifSays(t, exiftool, file, args...)
	thumb := file + ".thumb.jpg"
	out, err := exec.Command(exiftool, "-b", "-ThumbnailImage", file).Output()
	if err == nil && len(out) > 0 && os.WriteFile(thumb, out, 0o644) == nil {
		found += exifSays(t, exiftool, thumb, args...)
	}
	return found
}

// shownPixels decodes a photo with the standard decoders.
func shownPixels(t *testing.T, data []byte) image.Image {
	t.Helper()
	m, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func samePixels(a, b image.Image) bool {
	if a.Bounds() != b.Bounds() {
		return false
	}
	for y := a.Bounds().Min.Y; y < a.Bounds().Max.Y; y++ {
		for x := a.Bounds().Min.X; x < a.Bounds().Max.X; x++ {
			if a.At(x, y) != b.At(x, y) {
				return false
			}
		}
	}
	return true
}

// kept are the tags that must read the same before and after, by exiftool.
var kept = []string{"-s", "-Orientation#", "-DateTimeOriginal", "-Make", "-Model", "-Artist", "-ExposureTime",
	"-ICC_Profile:ProfileDescription", "-ImageWidth", "-ImageHeight"}

// The marks that are planted: each stands in many corners, none may be left.
const (
	plantedPlace  = "Quillhaven"
	plantedNumber = "QH-7731-X"
	plantedOwner  = "Ada Feathers"
)

// plant writes a place, a serial number and an owner into every corner of a
// photo that exiftool can write to, and, by hand, into those that it cannot.
func plant(t *testing.T, exiftool string, data []byte, suffix, order string) []byte {
	t.Helper()
	dir := t.TempDir()
	name, thumb := filepath.Join(dir, "a"+suffix), filepath.Join(dir, "t.jpg")
	corners := []string{"-q", "-m", "-overwrite_original",
		"-GPSLatitude=54.0903", "-GPSLatitudeRef=N", "-GPSLongitude=8.5012", "-GPSLongitudeRef=E", "-GPSDateStamp=2026:02:14",
		"-GPSAreaInformation=" + plantedPlace + ", a long text that does not fit into an entry",
		"-EXIF:SerialNumber=" + plantedNumber, "-EXIF:LensSerialNumber=" + plantedNumber, "-EXIF:OwnerName=" + plantedOwner,
		"-EXIF:ImageUniqueID=" + plantedNumber, "-IFD0:HostComputer=" + plantedOwner, "-MakerNoteUnknownText=" + plantedPlace + plantedNumber,
		"-EXIF:UserComment=54.0903, 8.5012 " + plantedPlace, "-XMP-exif:GPSLatitude=54.0903", "-XMP-photoshop:City=" + plantedPlace,
		"-XMP-iptcCore:Location=" + plantedPlace, "-XMP-aux:SerialNumber=" + plantedNumber, "-XMP-aux:OwnerName=" + plantedOwner,
		"-Make=Cellar Optics", "-Model=C1", "-Artist=the keeper", "-ExposureTime=1/50", "-Orientation#=6",
		"-DateTimeOriginal=2026:02:14 19:30:05"}
	small, err := os.ReadFile(filepath.Join("testdata", "kinds", "444.jpg"))
	for file, content := range map[string][]byte{name: data, thumb: small} {
		if err == nil {
			err = os.WriteFile(file, content, 0o644)
		}
	}
	if err != nil {
		t.Fatal(err)
	}
	exifSays(t, exiftool, thumb, append(corners, "-IPTC:City="+plantedPlace)...)
	more := []string{"-EXIF:ThumbnailImage<=" + thumb}
	if order != "" {
		more = append(more, "-ExifByteOrder="+order)
	}
	switch suffix {
	case ".jpg":
		more = append(more, "-IPTC:City="+plantedPlace, "-IPTC:Sub-location="+plantedPlace, "-MIE:City="+plantedPlace,
			"-Comment=taken at latitude 54 in "+plantedPlace)
	case ".png":
		more = append(more, "-PNG:Source=C1 number "+plantedNumber, "-PNG:Comment=GPS 54.0903, 8.5012 "+plantedPlace)
	}
	exifSays(t, exiftool, name, append(corners, more...)...)
	if data, err = os.ReadFile(name); err != nil {
		t.Fatal(err)
	}
	return plantByHand(t, data, suffix)
}

// plantByHand plants where exiftool cannot: extended XMP, content credentials,
// segments and chunks of unknown kinds, between scans, behind the picture.
func plantByHand(t *testing.T, data []byte, suffix string) []byte {
	marks := []byte(plantedPlace + plantedNumber + plantedOwner)
	switch suffix {
	case ".jpg":
		extended := "http://ns.adobe.com/xmp/extension/\x00" + strings.Repeat("A", 32) + "\x00\x00\x00\x10\x00\x00\x00\x00<x>" + string(marks)
		mpf := append([]byte("MPF\x00II*\x00\x08\x00\x00\x00"), make([]byte, 40)...)
		data = after(data, segment(0xe1, []byte(extended)), segment(0xe2, mpf), segment(0xe5, marks),
			segment(0xeb, append([]byte("JP\x00\x01\x00\x00\x00\x01\x00\x00\x00\x20jumb"), marks...)),
			segment(0xe0, append([]byte("JFXX\x00\x10"), marks...)))
		end := len(data)
		if whole, ok := pictureEnd(data, 2); ok {
			end = whole
		}
		data = slices.Insert(bytes.Clone(data), end-2, segment(0xe7, marks)...) // after the last scan
		data = append(append(data, after(testdata(t, "kinds/grey.jpg"), segment(0xe6, marks))...), marks...)
	case ".png":
		var packed bytes.Buffer
		z := zlib.NewWriter(&packed)
		z.Write(append([]byte("owner name "), marks...))
		z.Close()
		data = afterIHDR(data, chunk("tEXt", append([]byte("Location\x00"), marks...)),
			chunk("zTXt", append([]byte("Comment\x00\x00"), packed.Bytes()...)),
			chunk("iTXt", append([]byte("Title\x00\x01\x00en\x00\x00"), packed.Bytes()...)),
			chunk("caBX", marks), chunk("prVt", marks))
		data = append(data, marks...)
	case ".webp":
		data = append(data, chunkWebP("prVt", marks)...)
		binary.LittleEndian.PutUint32(data[4:], uint32(len(data)-8))
		data = append(data, marks...)
	case ".heic":
		data = append(data, box4("uuid", marks)...)
		data = append(data, box4("mdat", marks)...)
		data = append(data, box4("free", marks)...)
	}
	return data
}

func chunkWebP(kind string, body []byte) []byte {
	b := binary.LittleEndian.AppendUint32([]byte(kind), uint32(len(body)))
	return append(append(b, body...), make([]byte, len(body)&1)...)
}

func box4(kind string, body []byte) []byte {
	return append(append(binary.BigEndian.AppendUint32(nil, uint32(8+len(body))), kind...), body...)
}

// pixelBytes returns the bytes of a picture from which its pixels come, by a
// reader of its own.
func pixelBytes(t *testing.T, data []byte, suffix string) (pixels []byte) {
	t.Helper()
	switch suffix {
	case ".jpg":
		for at := 2; at < len(data) && data[at+1] != markerEOI; {
			marker, end := data[at+1], at+2+int(binary.BigEndian.Uint16(data[at+2:]))
			if marker == markerSOS {
				for data[end] != 0xff || data[end+1] == 0 || data[end+1] >= 0xd0 && data[end+1] <= 0xd7 {
					end++
				}
			}
			if marker < 0xe0 {
				pixels = append(pixels, data[at:end]...)
			}
			at = end
		}
	case ".png":
		for at := 8; at < len(data); at += 12 + int(binary.BigEndian.Uint32(data[at:])) {
			if kind := string(data[at+4 : at+8]); kind == "IHDR" || kind == "PLTE" || kind == "IDAT" {
				pixels = append(pixels, data[at:at+12+int(binary.BigEndian.Uint32(data[at:]))]...)
			} else if kind == "IEND" {
				break
			}
		}
	case ".webp":
		for at := 12; at+8 < len(data); {
			n := int(binary.LittleEndian.Uint32(data[at+4:]))
			if strings.HasPrefix(string(data[at:]), "VP8 ") || strings.HasPrefix(string(data[at:]), "VP8L") {
				pixels = append(pixels, data[at:at+8+n]...)
			}
			at += 8 + n + n&1
		}
	case ".heic":
		base := testdata(t, "kinds/still.heic") // its mdat holds the coded picture alone
		at := bytes.LastIndex(base, []byte("mdat"))
		if pixels = base[at+4:]; !bytes.Contains(data, pixels) {
			t.Error("the coded picture is not in it")
		}
	}
	if len(pixels) < 50 {
		t.Fatalf("%s: no pixels found", suffix)
	}
	return pixels
}

// planted are the photos of the tests below; the first of each suffix is kept
// with its marks in testdata/planted, for machines without exiftool.
var planted = []struct{ file, order string }{
	{"444.jpg", "II"}, {"411.jpg", "MM"}, {"422.jpg", ""}, {"progressive.jpg", ""}, {"restart.jpg", ""},
	{"palette.png", ""}, {"interlaced.png", ""}, {"lossy.webp", ""}, {"lossless.webp", ""}, {"still.heic", ""},
}

// A photo with places, numbers and owners in every corner comes out without any
// of it, judged by exiftool; its pixels, orientation, date, camera, author and
// profile stay, and a second pass finds nothing more.
func TestPrivateByExiftool(t *testing.T) {
	exiftool := outside.Tool(t, "exiftool")
	first := map[string]bool{}
	for _, c := range planted {
		t.Run(c.file, func(t *testing.T) {
			suffix := filepath.Ext(c.file)
			full := plant(t, exiftool, testdata(t, "kinds/"+c.file), suffix, c.order)
			file := filepath.Join(t.TempDir(), "x"+suffix)
			must := func(err error) {
				if err != nil {
					t.Fatal(err)
				}
			}
			if *update && !first[suffix] {
				must(os.WriteFile(filepath.Join("testdata", "planted", "all"+suffix), full, 0o644))
			}
			first[suffix] = true
			must(os.WriteFile(file, full, 0o644))
			if found := says(t, exiftool, file); strings.Count(found, "\n") < 20 {
				t.Fatalf("the sample says too little:\n%s", found)
			}
			before := exifSays(t, exiftool, file, kept...)
			clean, gone, err := Private(full, Keep{})
			if err != nil {
				t.Fatal(err)
			}
			if gone.Places == 0 || gone.Serials == 0 || gone.Notes == 0 {
				t.Errorf("gone: %s", gone)
			}
			must(os.WriteFile(file, clean, 0o644))
			if left := says(t, exiftool, file); left != "" {
				t.Errorf("still there:\n%s", left)
			}
			if after := exifSays(t, exiftool, file, kept...); after != before {
				t.Errorf("was:\n%snow:\n%s", before, after)
			}
			if warned := exifSays(t, exiftool, file, "-validate", "-warning", "-a"); strings.Contains(warned, "Error") {
				t.Errorf("exiftool: %s", warned)
			}
			if suffix != ".heic" && !samePixels(shownPixels(t, full), shownPixels(t, clean)) {
				t.Error("the pixels changed")
			}
		})
	}
}

// The kept samples come out without a mark, with the bytes of their pixels as
// they were; what is asked to stay does.
func TestPrivateLeavesNoMark(t *testing.T) {
	for _, suffix := range []string{".jpg", ".png", ".webp", ".heic"} {
		t.Run(suffix, func(t *testing.T) {
			full := testdata(t, "planted/all"+suffix)
			clean, gone, err := Private(full, Keep{})
			if err != nil {
				t.Fatal(err)
			}
			for _, mark := range []string{plantedPlace, plantedNumber, plantedOwner, "54.0903"} {
				if !bytes.Contains(full, []byte(mark)) && mark != "54.0903" {
					t.Errorf("%q was never planted", mark)
				}
				if bytes.Contains(clean, []byte(mark)) {
					t.Errorf("%q is left", mark)
				}
			}
			if gone.Places == 0 || gone.Serials == 0 || gone.Notes == 0 || gone.Behind == 0 || gone.Unknown == 0 {
				t.Errorf("gone: %s", gone)
			}
			if !bytes.Equal(pixelBytes(t, full, suffix), pixelBytes(t, clean, suffix)) {
				t.Error("the bytes of the pixels changed")
			}
			if suffix == ".heic" && len(clean) != len(full) {
				t.Error("something moved")
			}
			again, more, err := Private(clean, Keep{})
			if err != nil || more != (Removed{}) || !bytes.Equal(again, clean) {
				t.Errorf("a second pass: %s, %v", more, err)
			}
			for _, c := range []struct {
				keep       Keep
				stay, goes string
			}{{Keep{Camera: true}, plantedNumber, plantedPlace}, {Keep{Place: true}, "GPS", plantedOwner}} {
				part, gone, err := Private(full, c.keep)
				if err != nil || c.keep.Camera && gone.Serials > 0 || c.keep.Place && gone.Places > 0 {
					t.Errorf("%+v: %s, %v", c.keep, gone, err)
				}
				if c.stay != "GPS" && !bytes.Contains(part, []byte(c.stay)) || bytes.Contains(part, []byte(c.goes)) {
					t.Errorf("%+v: the wrong thing stayed", c.keep)
				}
			}
		})
	}
}

// A photo that says nothing comes back as it is, to the byte, profile and
// comment with it; what cannot be walked is refused rather than passed on.
func TestPrivateLeavesAloneOrRefuses(t *testing.T) {
	original := testdata(t, "kinds/444.jpg")
	profile := segment(0xe2, append([]byte("ICC_PROFILE\x00\x01\x01"), bytes.Repeat([]byte{7}, 300)...))
	exif := func(block []byte, more string) []byte {
		return segment(0xe1, append(append([]byte("Exif\x00\x00"), block...), more...))
	}
	iptc := func(set string) []byte {
		return segment(0xed, []byte("Photoshop 3.0\x008BIM\x04\x04\x00\x00\x00\x00\x00\x06"+set))
	}
	xmp := func(text string) []byte { return segment(0xe1, []byte("http://ns.adobe.com/xap/1.0/\x00"+text)) }
	const rdf = `<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#"><rdf:Description `
	const dc = `xmlns:dc="http://purl.org/dc/elements/1.1/" dc:format="image/jpeg"/></rdf:RDF></x:xmpmeta>`
	const refused = "refused"
	for _, c := range []struct {
		name string
		in   []byte
		gone string
	}{
		{"nothing to take out", original, ""},
		{"EXIF without a place", after(original, exifSegment(6, "2026:02:14 19:30:05")), ""},
		{"profile and comment", after(original, profile, segment(0xfe, []byte("a comment"))), ""},
		{"XMP of known kinds", after(original, xmp(rdf+dc)), ""},
		{"XMP with a place", after(original, xmp(rdf+`xmlns:p="http://ns.adobe.com/photoshop/1.0/" p:City="x" `+dc)), "places removed: 1"},
		{"XMP of a maker", after(original, xmp(rdf+`xmlns:m="http://maker.example/" m:X="x" `+dc)), "other blocks dropped: 1"},
		{"XMP that is no XML", after(original, xmp("<x")), "other blocks dropped: 1"},
		{"IPTC with a place", after(original, iptc("\x1c\x02\x5a\x00\x01x")), "places removed: 1"},
		{"IPTC without", after(original, iptc("\x1c\x02\x50\x00\x01x")), ""},
		{"a table for printers", after(original, exif(tiff(0, [4]uint32{tagPrintIM, 7, 8, 26}), "PrintIM\x00")), ""},
		{"a place in EXIF", after(original, exif(tiff(0, [4]uint32{tagGPS, 4, 1, 26}), string(tiff(0, [4]uint32{1, 2, 2, 'N'})[8:]))), "places removed: 1"},
		{"what no entry leads to", after(original, exif(tiff(0), "hidden")), "other blocks dropped: 1"},
		{"a film behind the picture", append(bytes.Clone(original), "\x00\x00\x00\x18ftypmp42"...), "data behind the picture dropped: 1"},
		{"broken EXIF", after(original, segment(0xe1, []byte("Exif\x00\x00II*\x00\xff\xff\xff\x00"))), "other blocks dropped: 1"},
		{"cut off", original[:len(original)/2], refused},
		{"a segment past the end", append(bytes.Clone(original[:2]), 0xff, 0xe1, 0xff, 0xff), refused},
		{"HEIC without its boxes", []byte("\x00\x00\x00\x0cftypheic"), refused},
		{"a HEIC that moves", append(testdata(t, "kinds/still.heic"), box4("moov", make([]byte, 8))...), refused},
		{"empty", nil, refused},
	} {
		t.Run(c.name, func(t *testing.T) {
			out, gone, err := Private(c.in, Keep{})
			says := gone.String()
			if err != nil {
				says = refused
			}
			if want := cmp.Or(c.gone, "nothing to remove"); says != want {
				t.Errorf("%s, want %s (%v)", says, want, err)
			}
			if c.gone == "" && !bytes.Equal(out, c.in) {
				t.Error("changed")
			}
		})
	}
}

// No bytes make Private panic, its input stays as it is, and what it
// returns has nothing more to take out.
func FuzzPrivate(f *testing.F) {
	for _, pattern := range []string{"*.jpg", "*.png", "*.webp", "*.heic"} {
		names, _ := filepath.Glob(filepath.Join("testdata", "kinds", pattern))
		for _, name := range names {
			if data, err := os.ReadFile(name); err == nil && len(data) < 20_000 {
				f.Add(data)
			}
		}
	}
	f.Add([]byte("\xff\xd8\xff\xe1\x00\x28Exif\x00\x00II*\x00\x08\x00\x00\x00\x01\x00\x25\x88\x04\x00\x01\x00\x00\x00\x08\x00\x00\x00\x00\x00\x00\x00\xff\xda\x00\x02\xff\xd9"))
	f.Fuzz(func(t *testing.T, data []byte) {
		before := bytes.Clone(data)
		clean, _, err := Private(data, Keep{})
		if !bytes.Equal(before, data) {
			t.Fatal("the input changed")
		}
		if err != nil {
			return
		}
		if _, gone, err := Private(clean, Keep{}); err != nil || gone != (Removed{}) {
			t.Fatalf("a second pass takes out %v, error %v", gone, err)
		}
	})
}
