package photo

import "testing"

// FuzzEXIF: any block gives an orientation that CIPA DC-008 knows and a date
// that a camera can have taken, or none.
func FuzzEXIF(f *testing.F) {
	f.Add(exifBlock(6, "2026:02:14 12:00:05"))
	f.Add(tiff(8, [4]uint32{0x0112, 3, 1, 6 << 16}))
	f.Add(tiff(8, [4]uint32{0x8769, 4, 1, 8}))
	f.Add([]byte("II*\x00\x08\x00\x00\x00"))
	f.Add([]byte("MM\x00*\x00\x00\x00\x08\x00\x01\x01\x12\x00\x03\x00\x00\x00\x01\x00\x08\x00\x00\x00\x00\x00\x00"))
	f.Add([]byte("II*\x00\xff\xff\xff\xff"))
	f.Fuzz(func(t *testing.T, block []byte) {
		got := readEXIF(block)
		if got.orientation < 1 || got.orientation > 8 {
			t.Errorf("orientation %d", got.orientation)
		}
		if year := got.taken.Year(); !got.taken.IsZero() && (year < 1900 || year > 9999) {
			t.Errorf("taken %v", got.taken)
		}
	})
}
