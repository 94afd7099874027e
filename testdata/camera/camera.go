// Package camera makes pictures for tests, as a camera would store them.
package camera

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/jpeg"
	"testing"
)

// Snap makes a small JPEG whose EXIF says when it was taken, like
// "2026:02:14 20:00:00"; nothing where that is empty (CIPA DC-008: IFD0 with orientation 6 and a pointer to the EXIF IFD with DateTimeOriginal).
func Snap(t testing.TB, taken string) []byte {
	t.Helper()
	var picture bytes.Buffer
	if err := jpeg.Encode(&picture, image.NewGray(image.Rect(0, 0, 16, 8)), nil); err != nil {
		t.Fatal(err)
	}
	if taken == "" {
		return picture.Bytes()
	}
	le := binary.LittleEndian
	entry := func(tag, kind uint16, count, value uint32) []byte {
		return le.AppendUint32(le.AppendUint32(le.AppendUint16(le.AppendUint16(nil, tag), kind), count), value)
	}
	tiff := append([]byte("II*\x00\x08\x00\x00\x00"), 2, 0)
	tiff = append(tiff, entry(0x0112, 3, 1, 6)...)
	tiff = append(tiff, entry(0x8769, 4, 1, 38)...)
	tiff = append(tiff, 0, 0, 0, 0, 1, 0)
	tiff = append(tiff, entry(0x9003, 2, 20, 56)...)
	tiff = append(tiff, 0, 0, 0, 0)
	tiff = append(tiff, taken+"\x00"...)
	block := append([]byte("Exif\x00\x00"), tiff...)
	head := append([]byte{0xff, 0xd8, 0xff, 0xe1}, byte((len(block)+2)>>8), byte(len(block)+2))
	return append(append(head, block...), picture.Bytes()[2:]...)
}
