package photo

import (
	"bytes"
	"strings"
	"time"

	"github.com/bep/imagemeta"
)

// exif is what is wanted of a photo's EXIF: nothing that says where or by whom.
type exif struct {
	orientation int
	taken       time.Time
	adobe       bool // the camera's own mark for Adobe RGB, written in place of a profile
}

// Camera files hold some hundred tags; what claims more is not read further.
const (
	maxTags    = 2000
	maxTagSize = 64 // bytes; a date has 20
)

// readEXIF reads orientation and date from an EXIF block (a TIFF structure,
// CIPA DC-008). What cannot be read counts as not written: a broken block is
// no reason to refuse a photo that it is not needed for.
func readEXIF(block []byte) exif {
	found := exif{orientation: 1}
	if len(block) < 8 {
		return found
	}
	var original, digitized string
	_, _ = imagemeta.Decode(imagemeta.Options{
		R:               bytes.NewReader(block),
		ImageFormat:     imagemeta.TIFF,
		Sources:         imagemeta.EXIF,
		LimitNumTags:    maxTags,
		LimitTagSize:    maxTagSize,
		ShouldHandleTag: wanted,
		HandleTag: func(tag imagemeta.TagInfo) error {
			switch v := tag.Value.(type) {
			case uint16:
				found.orientation = orientation(uint32(v))
			case uint32: // some editors write LONG for SHORT
				found.orientation = orientation(v)
			case string:
				switch tag.Tag {
				case "DateTimeOriginal":
					original = v
				case "CreateDate":
					digitized = v
				default: // "R03" marks an option file (JEITA CP-3461B, DCF 2.0, 3.3.3)
					found.adobe = strings.TrimRight(v, "\x00 ") == "R03"
				}
			}
			return nil
		},
	})
	found.taken = exifTime(original)
	if found.taken.IsZero() {
		found.taken = exifTime(digitized)
	}
	return found
}

// wanted picks the tags to read. The thumbnail's own orientation (IFD1) is not
// the photo's.
func wanted(tag imagemeta.TagInfo) bool {
	switch tag.Tag {
	case "Orientation":
		return tag.Namespace == "IFD0"
	case "DateTimeOriginal", "CreateDate": // the latter is what exiftool, and so the library, calls DateTimeDigitized
		return strings.HasPrefix(tag.Namespace, "IFD0")
	case "InteropIndex", "GPSLatitudeRef": // number 1 in both folders; the library names it after the latter
		return strings.HasSuffix(tag.Namespace, "InteroperabilityIFD")
	}
	return false
}

// orientation returns a value that CIPA DC-008 knows, else 1.
func orientation(v uint32) int {
	if v < 1 || v > 8 {
		return 1
	}
	return int(v)
}

// exifTime reads "2026:02:14 19:30:05", the only form CIPA DC-008 allows.
// Cameras without a set clock write zeros or spaces, which is no date.
func exifTime(text string) time.Time {
	t, err := time.Parse("2006:01:02 15:04:05", strings.TrimRight(text, "\x00 "))
	if err != nil || t.Year() < 1900 {
		return time.Time{}
	}
	return t
}
