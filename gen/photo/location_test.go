package photo

import (
	"bytes"
	"image"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"spruelight/testdata/effort"
	"spruelight/testdata/outside"

	_ "golang.org/x/image/webp"
)

// exifSays runs exiftool on a photo and returns its answer.
func exifSays(t *testing.T, exiftool, file string, args ...string) string {
	t.Helper()
	out, err := exec.Command(exiftool, append(args, file)...).CombinedOutput()
	if err != nil && !strings.Contains(string(out), "image files") {
		t.Fatalf("exiftool %v: %v\n%s", args, err, out)
	}
	return string(out)
}

// placed lists what exiftool finds of a place, anywhere in a photo.
func placed(t *testing.T, exiftool, file string) string {
	return exifSays(t, exiftool, file, "-ee3", "-a", "-G1", "-s", "-GPS*", "-*Location*", "-*City*", "-*Country*", "-*State*")
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

// A photo with GPS in EXIF, XMP and IPTC comes out without any of it, judged by
// exiftool; its pixels, orientation, date, camera and profile stay. In short there
// are fewer samples, and every kind of file is among them.
func TestWithoutPlaceByExiftool(t *testing.T) {
	exiftool := outside.Tool(t, "exiftool")
	tag := []string{"-q", "-overwrite_original", "-Orientation#=6", "-DateTimeOriginal=2026:02:14 19:30:05", "-Make=Cellar Optics",
		"-Model=C1", "-Artist=the keeper", "-ExposureTime=1/50",
		"-GPSLatitude=54.0903", "-GPSLatitudeRef=N", "-GPSLongitude=8.5012", "-GPSLongitudeRef=E", "-GPSAltitude=3", "-GPSDateStamp=2026:02:14", "-GPSProcessingMethod=a long text that does not fit into an entry",
		"-XMP-exif:GPSLatitude=54.0903", "-XMP-photoshop:City=Saltmarsh", "-XMP-iptcCore:Location=the bench"}
	for _, c := range []struct {
		name, file, more string
		long             bool
	}{
		{"JPEG little-endian", "444.jpg", "-ExifByteOrder=II", true},
		{"JPEG big-endian", "411.jpg", "-ExifByteOrder=MM", false},
		{"JPEG with IPTC", "422.jpg", "-IPTC:City=Saltmarsh", false},
		{"progressive JPEG", "progressive.jpg", "", true},
		{"JPEG with restart markers", "restart.jpg", "", true},
		{"PNG", "palette.png", "", false},
		{"interlaced PNG", "interlaced.png", "", true},
		{"lossy WebP", "lossy.webp", "", false},
		{"lossless WebP", "lossless.webp", "", true},
	} {
		if c.long && !effort.Whole() {
			continue
		}
		t.Run(c.name, func(t *testing.T) {
			original, err := os.ReadFile(filepath.Join("testdata", "kinds", c.file))
			if os.IsNotExist(err) {
				t.Skip("no sample " + c.file)
			}
			if err != nil {
				t.Fatal(err)
			}
			file := filepath.Join(t.TempDir(), "x"+filepath.Ext(c.file))
			if err := os.WriteFile(file, original, 0o644); err != nil {
				t.Fatal(err)
			}
			args := append([]string{}, tag...)
			if c.more != "" {
				args = append(args, c.more)
			}
			exifSays(t, exiftool, file, args...)
			if placed(t, exiftool, file) == "" {
				t.Fatal("the sample says nothing of a place")
			}
			before := exifSays(t, exiftool, file, kept...)
			tagged, _ := os.ReadFile(file)

			clean, gone, err := WithoutPlace(tagged)
			if err != nil || len(gone) == 0 {
				t.Fatalf("gone %v, error %v", gone, err)
			}
			if err := os.WriteFile(file, clean, 0o644); err != nil {
				t.Fatal(err)
			}
			if left := placed(t, exiftool, file); left != "" {
				t.Errorf("still told:\n%s", left)
			}
			if after := exifSays(t, exiftool, file, kept...); after != before {
				t.Errorf("was:\n%snow:\n%s", before, after)
			}
			if warned := exifSays(t, exiftool, file, "-validate", "-warning", "-a"); strings.Contains(warned, "Error") {
				t.Errorf("exiftool: %s", warned)
			}
			if bytes.Contains(clean, []byte("Saltmarsh")) || bytes.Contains(clean, []byte("does not fit")) {
				t.Error("a place is left in the bytes")
			}
			if !samePixels(shownPixels(t, tagged), shownPixels(t, clean)) {
				t.Error("the pixels changed")
			}
			again, gone, err := WithoutPlace(clean)
			if err != nil || len(gone) != 0 || !bytes.Equal(again, clean) {
				t.Errorf("a clean photo changed: %v, %v", gone, err)
			}
		})
	}
}

// The colour profile survives: exiftool reads the same one before and after.
func TestWithoutPlaceKeepsTheProfile(t *testing.T) {
	original, err := os.ReadFile(filepath.Join("testdata", "kinds", "444.jpg"))
	if err != nil {
		t.Fatal(err)
	}
	profile := append([]byte("ICC_PROFILE\x00\x01\x01"), bytes.Repeat([]byte{7}, 300)...)
	photo := after(original, segment(0xe1, append([]byte("http://ns.adobe.com/xap/1.0/\x00"), "<x exif:GPSLatitude='54'/>"...)),
		segment(0xe2, profile), segment(0xfe, []byte("a comment")))
	clean, gone, err := WithoutPlace(photo)
	if err != nil || strings.Join(gone, ",") != goneXMP {
		t.Fatalf("gone %v, error %v", gone, err)
	}
	if want := after(original, segment(0xe2, profile), segment(0xfe, []byte("a comment"))); !bytes.Equal(clean, want) {
		t.Error("more than the XMP is gone")
	}
}

// A photo that tells no place comes back as it is, to the byte; what cannot be
// walked is refused rather than passed on.
func TestWithoutPlaceLeavesAloneOrRefuses(t *testing.T) {
	original, err := os.ReadFile(filepath.Join("testdata", "kinds", "444.jpg"))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name string
		in   []byte
		gone string // "" for none, "refused" for an error
	}{
		{"nothing to take out", original, ""},
		{"EXIF without GPS", after(original, exifSegment(6, "2026:02:14 19:30:05")), ""},
		{"a film behind the picture", append(bytes.Clone(original), "\x00\x00\x00\x18ftypmp42"...), goneTrailer},
		{"broken EXIF", after(original, segment(0xe1, []byte("Exif\x00\x00II*\x00\xff\xff\xff\x00"))), goneEXIF},
		{"cut off", original[:len(original)/2], "refused"},
		{"a segment past the end", append(bytes.Clone(original[:2]), 0xff, 0xe1, 0xff, 0xff), "refused"},
		{"HEIC", []byte("\x00\x00\x00\x18ftypheic\x00\x00\x00\x00"), "refused"},
		{"empty", nil, "refused"},
	} {
		t.Run(c.name, func(t *testing.T) {
			out, gone, err := WithoutPlace(c.in)
			switch {
			case c.gone == "refused" && err == nil:
				t.Error("passed on")
			case c.gone != "refused" && (err != nil || strings.Join(gone, ",") != c.gone):
				t.Errorf("gone %v, error %v", gone, err)
			case c.gone == "" && !bytes.Equal(out, c.in):
				t.Error("changed")
			}
		})
	}
}

// No bytes make WithoutPlace panic, its input stays as it is, and what it
// returns has nothing more to take out.
func FuzzWithoutPlace(f *testing.F) {
	for _, pattern := range []string{"*.jpg", "*.png", "*.webp"} {
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
		clean, _, err := WithoutPlace(data)
		if !bytes.Equal(before, data) {
			t.Fatal("the input changed")
		}
		if err != nil {
			return
		}
		if _, gone, err := WithoutPlace(clean); err != nil || len(gone) > 0 {
			t.Fatalf("a second pass takes out %v, error %v", gone, err)
		}
	})
}
