package photo

import (
	"bytes"
	"encoding/binary"
	"encoding/json"
	"image/color"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"spruelight/testdata/outside"
)

// secret marks everything that is written into the photos.
const secret = "Quillfeather"

// harmless are the tags that exiftool works out from the picture itself or from
// the file; whatever else it finds in a rendition came from the photo.
var harmless = []string{
	"SourceFile", "ExifToolVersion", "FileName", "Directory", "FileSize", "FileModifyDate", "FileAccessDate", "FileInodeChangeDate",
	"FilePermissions", "FileType", "FileTypeExtension", "MIMEType", "ImageWidth", "ImageHeight", "ImageSize", "Megapixels",
	"EncodingProcess", "BitsPerSample", "ColorComponents", "YCbCrSubSampling",
	"VP8Version", "HorizontalScale", "VerticalScale",
	"JFIFVersion", "ResolutionUnit", "XResolution", "YResolution", // of the JFIF header, always the same
}

// everything returns a photo with tags of each group that exiftool can write to
// its format.
func everything(t *testing.T, exiftool string, data []byte, suffix string) []byte {
	t.Helper()
	dir := t.TempDir()
	path, thumb := filepath.Join(dir, "a"+suffix), filepath.Join(dir, "t.jpg")
	icc := filepath.Join(dir, "p.icc")
	for name, b := range map[string][]byte{path: data, thumb: asJPEG(t, bench(16, 12)), icc: displayP3} {
		if err := os.WriteFile(name, b, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	args := []string{"-q", "-m", "-overwrite_original",
		"-EXIF:Artist=" + secret, "-EXIF:Copyright=" + secret, "-EXIF:ImageDescription=" + secret, "-EXIF:Make=" + secret, "-EXIF:Model=" + secret,
		"-EXIF:SerialNumber=" + secret, "-EXIF:LensSerialNumber=" + secret, "-EXIF:OwnerName=" + secret, "-EXIF:UserComment=" + secret, "-EXIF:XPAuthor=" + secret,
		"-EXIF:DateTimeOriginal=2026:02:14 19:30:00", "-EXIF:Orientation#=6",
		"-EXIF:GPSLatitude=48.5", "-EXIF:GPSLatitudeRef=N", "-EXIF:GPSLongitude=9.1", "-EXIF:GPSLongitudeRef=E", "-EXIF:GPSAltitude=321", "-EXIF:GPSProcessingMethod=" + secret,
		"-EXIF:ThumbnailImage<=" + thumb,
		"-XMP-dc:Creator=" + secret, "-XMP-photoshop:City=" + secret, "-XMP-exif:GPSLatitude=48.5", "-XMP-xmpMM:DocumentID=" + secret, "-XMP-iptcExt:PersonInImage=" + secret,
		"-ICC_Profile<=" + icc,
	}
	switch suffix {
	case ".jpg":
		args = append(args, "-IPTC:By-line="+secret, "-IPTC:City="+secret, "-Photoshop:URL="+secret, "-Comment="+secret, "-AFCP:By-line="+secret,
			"-PhotoshopQuality=5", "-JFIF:XResolution=123", "-XMP-GPano:ProjectionType=equirectangular",
			"-XMP-GDepth:Data="+strings.Repeat("QUJD", 30000), "-Ducky:Comment="+secret, "-CanonVRD:Comment="+secret, "-FotoStation:By-line="+secret, "-MIE:Author="+secret)
	case ".png":
		args = append(args, "-PNG:Author="+secret, "-PNG:Comment="+secret, "-PNG:Title="+secret, "-PNG:CreationTime=2026:02:14 19:30:00",
			"-PNG-pHYs:PixelsPerUnitX=1234", "-PNG:ModifyDate=2026:02:14 19:30:00")
	}
	if out, err := exec.Command(exiftool, append(args, path)...).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	full, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return full
}

// tagsOf returns what exiftool finds in a file, by group and name.
func tagsOf(t *testing.T, exiftool, path string) map[string]string {
	t.Helper()
	out, err := exec.Command(exiftool, "-json", "-G1", "-a", "-u", "-U", "-ee3", "-s", path).Output()
	if err != nil {
		t.Fatal(err)
	}
	var files []map[string]any
	if err := json.Unmarshal(out, &files); err != nil || len(files) != 1 {
		t.Fatalf("%v: %s", err, out)
	}
	tags := map[string]string{}
	for name, value := range files[0] {
		text, _ := json.Marshal(value)
		tags[name] = string(text)
	}
	return tags
}

// TestNothingSurvives writes every kind of metadata that exiftool can write
// into a photo, adds by hand what it cannot (the list of pictures behind the
// first, a second picture, chunks and segments of unknown kinds), and lets
// exiftool look for it in the renditions and the placeholder.
func TestNothingSurvives(t *testing.T) {
	exiftool := outside.Tool(t, "exiftool")
	img := bench(500, 300)
	jpeg := everything(t, exiftool, asJPEG(t, img), ".jpg")
	mpf := append([]byte("MPF\x00II*\x00\x08\x00\x00\x00"), bytes.Repeat([]byte{0}, 40)...)
	jpeg = after(jpeg, segment(0xe2, mpf), segment(0xe5, []byte(secret)), segment(0xef, []byte(secret)), segment(0xfe, []byte(secret)))
	jpeg = append(append(jpeg, asJPEG(t, bench(40, 30))...), secret...) // a second picture, and a trailer
	png := everything(t, exiftool, asPNG(t, img), ".png")
	png = append(afterIHDR(png, chunk("prVt", []byte(secret))), secret...)
	webp := everything(t, exiftool, testdata(t, "kinds/lossy.webp"), ".webp")

	for name, data := range map[string][]byte{"a.jpg": jpeg, "a.png": png, "a.webp": webp} {
		before := filepath.Join(t.TempDir(), name)
		if err := os.WriteFile(before, data, 0o644); err != nil {
			t.Fatal(err)
		}
		groups := map[string]int{}
		for tag := range tagsOf(t, exiftool, before) {
			group, _, _ := strings.Cut(tag, ":")
			groups[group]++
		}
		t.Logf("%s goes in with %v", name, groups)
		if groups["GPS"] < 4 || groups["IFD0"] < 4 || groups["XMP-dc"] < 1 || groups["ICC_Profile"] < 5 || !bytes.Contains(data, []byte(secret)) {
			t.Fatalf("%s was not filled: %v", name, groups)
		}
		recipe := DefaultRecipe()
		recipe.Also = WebP
		set, err := MemoryCache().Make(t.Context(), folder(map[string][]byte{name: data}), name, recipe)
		if err != nil {
			t.Fatal(err)
		}
		if set.Info.Orientation != 6 || set.Info.Taken.Hour() != 19 {
			t.Errorf("%s: %+v", name, set.Info)
		}
		out := map[string][]byte{"placeholder": set.Placeholder.Blur}
		for _, r := range set.Renditions {
			b, err := r.Read()
			if err != nil {
				t.Fatal(err)
			}
			out[r.Size.String()+r.Format.Suffix()] = b
		}
		for kind, b := range out {
			clean(t, exiftool, name+" "+kind, b)
		}
	}
}

// clean checks that a file holds a picture and nothing else.
func clean(t *testing.T, exiftool, name string, data []byte) {
	t.Helper()
	if bytes.Contains(bytes.ToLower(data), []byte(strings.ToLower(secret))) {
		t.Errorf("%s: the mark is still in it", name)
	}
	path := filepath.Join(t.TempDir(), "r.jpg")
	if err := os.WriteFile(path, data, 0o644); err != nil {
		t.Fatal(err)
	}
	for tag, value := range tagsOf(t, exiftool, path) {
		_, short, found := strings.Cut(tag, ":")
		if !found {
			short = tag
		}
		if !slices.Contains(harmless, short) {
			t.Errorf("%s: %s = %s", name, tag, value)
		}
	}
	if bytes.HasPrefix(data, []byte("RIFF")) {
		if n := int(binary.LittleEndian.Uint32(data[16:])); string(data[8:16]) != "WEBPVP8 " || len(data) != 20+n+n&1 {
			t.Errorf("%s: more than one chunk", name)
		}
		return
	}
	for i := 2; data[i+1] != markerSOS; i += 2 + int(data[i+2])<<8 + int(data[i+3]) {
		if m := data[i+1]; m == 0xfe || m >= 0xe1 && m <= 0xef {
			t.Errorf("%s: segment %#x", name, m)
		}
	}
	if end, ok := pictureEnd(data, 2); !ok || end != len(data) {
		t.Errorf("%s: %d bytes behind the picture", name, len(data)-end)
	}
}

// What two photos that differ only in their metadata become is the same, byte
// for byte.
func TestMetadataLeavesNoTrace(t *testing.T) {
	plain := asJPEG(t, flat(90, 60, color.NRGBA{120, 90, 40, 255}))
	told := after(plain, exifSegment(1, "2026:02:14 12:00:05"), segment(0xfe, []byte(secret)))
	a, b := mustMake(t, plain, DefaultRecipe()), mustMake(t, told, DefaultRecipe())
	if a.Renditions[0].Hash != b.Renditions[0].Hash || !bytes.Equal(a.Placeholder.Blur, b.Placeholder.Blur) {
		t.Error("the renditions differ")
	}
}
