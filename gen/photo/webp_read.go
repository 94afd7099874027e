package photo

import (
	"bytes"
	"encoding/binary"
	"fmt"
)

// readWebP walks the chunks of a WebP (RFC 9649, section 2). EXIF stands behind
// the pixels.
func (h *header) readWebP(w *walker) error {
	head, err := w.take(12)
	if err != nil {
		return err
	}
	end := int64(binary.LittleEndian.Uint32(head[4:])) + 8
	h.short = end > w.size
	for n := 0; w.pos+8 <= min(end, w.size); n++ {
		head, err := w.take(8)
		if err != nil {
			return h.pastEnd(err)
		}
		kind, length := string(head[:4]), int64(binary.LittleEndian.Uint32(head[4:]))
		if err := h.readWebPChunk(w, kind, length, length+length&1); err != nil {
			return h.pastEnd(err)
		}
		if n == maxBlocks {
			return fmt.Errorf("%w: more than %d chunks", errBroken, maxBlocks)
		}
	}
	if h.size == (Size{}) {
		return fmt.Errorf("%w: no picture in it", errBroken)
	}
	return nil
}

func (h *header) readWebPChunk(w *walker, kind string, length, padded int64) error {
	switch {
	case kind == "VP8X" && length >= 10, kind == "VP8 " && length >= 10, kind == "VP8L" && length >= 5:
		n := min(length, 10)
		start, err := w.keep(n)
		if err != nil {
			return err
		}
		if err := h.readWebPSize(kind, start); err != nil {
			return err
		}
		return w.skip(padded - n)
	case kind == "EXIF" && length <= maxEXIF && h.exif == nil, kind == "ICCP" && length <= maxProfile && h.icc == nil:
		body, err := w.keep(length)
		if err != nil {
			return err
		}
		if kind == "EXIF" {
			h.exif = bytes.TrimPrefix(body, []byte("Exif\x00\x00")) // some programs keep JPEG's mark
		} else {
			h.icc = body
		}
		return w.skip(padded - length)
	}
	return w.skip(padded)
}

// readWebPSize reads width and height, from the canvas where there is one
// (RFC 9649 2.7.1), from the frame otherwise (RFC 6386 9.1, RFC 9649 3.4).
func (h *header) readWebPSize(kind string, b []byte) error {
	var size Size
	switch kind {
	case "VP8X":
		if b[0]&2 != 0 {
			return problem(RuleFormat, "name a still picture", "is a moving WebP picture; stills are read")
		}
		size = Size{1 + int(b[4]) + int(b[5])<<8 + int(b[6])<<16, 1 + int(b[7]) + int(b[8])<<8 + int(b[9])<<16}
	case "VP8 ":
		if string(b[3:6]) != "\x9d\x01\x2a" {
			return fmt.Errorf("%w: no VP8 key frame", errBroken)
		}
		size = Size{int(b[6]) | int(b[7]&0x3f)<<8, int(b[8]) | int(b[9]&0x3f)<<8}
	case "VP8L":
		if b[0] != 0x2f {
			return fmt.Errorf("%w: no VP8L signature", errBroken)
		}
		bits := binary.LittleEndian.Uint32(b[1:])
		size = Size{1 + int(bits&0x3fff), 1 + int(bits>>14&0x3fff)}
	}
	if h.size.Width > 0 && h.size != size {
		return fmt.Errorf("%w: canvas of %s, picture of %s", errBroken, h.size, size)
	}
	h.size = size
	return nil
}
