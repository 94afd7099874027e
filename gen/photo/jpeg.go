package photo

import (
	"bytes"
	"fmt"
	"io"
	"slices"
)

// Markers of ITU-T T.81, table B.1.
const (
	markerSOF0 = 0xc0 // baseline
	markerSOF2 = 0xc2 // progressive
	markerDHT  = 0xc4
	markerJPG  = 0xc8
	markerDAC  = 0xcc
	markerSOFf = 0xcf
	markerRST0 = 0xd0
	markerSOI  = 0xd8
	markerEOI  = 0xd9
	markerSOS  = 0xda
	markerAPP1 = 0xe1
	markerAPP2 = 0xe2
	markerTEM  = 0x01
)

// jpegHeader is what decides how a JPEG is decoded.
type jpegHeader struct {
	frame      int // marker of the frame header: SOF0, SOF1 or SOF2
	bits       int // per sample
	components int
	sampling   []byte // horizontal and vertical factor of each component, as stored
	parts      [][]byte
}

// readJPEG walks the segments up to the first scan (ITU-T T.81 annex B).
func (h *header) readJPEG(w *walker) error {
	if err := w.skip(2); err != nil {
		return err
	}
	for range maxBlocks {
		marker, err := nextMarker(w)
		if err != nil {
			return err
		}
		if marker == markerSOS {
			return h.finishJPEG()
		}
		if err := h.readSegment(w, marker); err != nil {
			return err
		}
	}
	return fmt.Errorf("%w: more than %d segments", errBroken, maxBlocks)
}

func (h *header) finishJPEG() error {
	if h.jpeg.frame == 0 {
		return fmt.Errorf("%w: a scan without a frame header", errBroken)
	}
	h.icc = joinProfile(h.jpeg.parts)
	h.jpeg.parts = nil
	return nil
}

// nextMarker reads the code of the next marker, past any fill bytes.
func nextMarker(w *walker) (int, error) {
	b, err := w.uint8()
	if err != nil {
		return 0, err
	}
	if b != 0xff {
		return 0, fmt.Errorf("%w: no marker at byte %d", errBroken, w.pos-1)
	}
	for b == 0xff {
		if b, err = w.uint8(); err != nil {
			return 0, err
		}
	}
	return b, nil
}

func (h *header) readSegment(w *walker, marker int) error {
	switch {
	case marker >= markerRST0 && marker <= markerSOI, marker == markerTEM:
		return nil // these stand alone
	case marker == markerEOI:
		return fmt.Errorf("%w: it ends before its pixels", errBroken)
	}
	length, err := w.uint16()
	if err != nil {
		return err
	}
	if length < 2 {
		return fmt.Errorf("%w: a segment of length %d", errBroken, length)
	}
	left := int64(length - 2)
	if !isFrame(marker) && marker != markerAPP2 && (marker != markerAPP1 || h.exif != nil) {
		return w.skip(left)
	}
	body, err := w.keep(left)
	if err != nil {
		return err
	}
	if isFrame(marker) {
		return h.readFrame(marker, body)
	}
	h.keepSegment(marker, body)
	return nil
}

// isFrame reports whether a segment is the header of a frame.
func isFrame(marker int) bool {
	return marker >= markerSOF0 && marker <= markerSOFf && marker != markerDHT && marker != markerJPG && marker != markerDAC
}

// keepSegment keeps EXIF (CIPA DC-008 4.7.2) and parts of an ICC profile
// (ICC.1:2022 annex B.4).
func (h *header) keepSegment(marker int, body []byte) {
	if block, ok := bytes.CutPrefix(body, []byte("Exif\x00")); ok && marker == markerAPP1 && len(block) > 1 {
		h.exif = block[1:]
	}
	if part, ok := bytes.CutPrefix(body, []byte("ICC_PROFILE\x00")); ok && marker == markerAPP2 && len(part) > 2 && len(h.jpeg.parts) < 255 {
		h.jpeg.parts = append(h.jpeg.parts, part)
	}
}

// joinProfile puts the parts of a profile in the order of their numbers. A set
// with a part missing is no profile.
func joinProfile(parts [][]byte) []byte {
	var profile []byte
	for n := 1; n <= len(parts); n++ {
		found := false
		for _, p := range parts {
			if int(p[0]) == n && int(p[1]) == len(parts) {
				profile, found = append(profile, p[2:]...), true
				break
			}
		}
		if !found || len(profile) > maxProfile {
			return nil
		}
	}
	return profile
}

// readFrame reads a frame header (ITU-T T.81 B.2.2).
func (h *header) readFrame(marker int, body []byte) error {
	if h.jpeg.frame != 0 {
		return fmt.Errorf("%w: a second frame header", errBroken)
	}
	if len(body) < 6 || len(body) < 6+3*int(body[5]) {
		return io.ErrUnexpectedEOF
	}
	j := &h.jpeg
	j.frame, j.bits, j.components = marker, int(body[0]), int(body[5])
	h.size = Size{Width: int(body[3])<<8 | int(body[4]), Height: int(body[1])<<8 | int(body[2])}
	for i := range j.components {
		j.sampling = append(j.sampling, body[7+3*i])
	}
	return j.check()
}

// check refuses the kinds of JPEG that neither decoder reads.
func (j *jpegHeader) check() error {
	kind := ""
	switch {
	case j.frame >= 0xc9:
		kind = "arithmetic-coded"
	case j.frame == 0xc3:
		kind = "lossless"
	case j.frame > markerSOF2:
		kind = "hierarchical"
	case j.bits != 8:
		kind = fmt.Sprintf("%d-bit", j.bits)
	case j.components != 1 && j.components != 3 && j.components != 4:
		kind = fmt.Sprintf("%d-component", j.components)
	default:
		return nil
	}
	return rareJPEG(kind)
}

func rareJPEG(kind string) error {
	return problem(RuleFormat, remedyConvert, "is a JPEG of a rare kind (%s), which few programs show", kind)
}

// ordinary reports whether the fast decoder is known to read the kind well:
// grey, or three components of which only the first may be finer.
func (j *jpegHeader) ordinary() bool {
	if j.components == 1 {
		return true
	}
	return j.components == 3 && j.sampling[1] == 0x11 && j.sampling[2] == 0x11 &&
		slices.Contains([]byte{0x11, 0x21, 0x12, 0x22, 0x41, 0x42}, j.sampling[0])
}

func truncated() error {
	return problem(RuleTruncated, "copy the photo from the camera again", "breaks off: its end is missing")
}
