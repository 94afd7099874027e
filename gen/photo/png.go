package photo

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"fmt"
	"io"
)

const pngSignature = "\x89PNG\r\n\x1a\n"

// pngHeader is what a PNG says about its samples and colours.
type pngHeader struct {
	bits   int // per sample
	srgb   bool
	gamma  uint32    // gAMA: 100000 / exponent; 0 where not given
	chroma [8]uint32 // cHRM: white, red, green, blue as x, y · 100000; zero where not given
	cicp   []byte    // cICP: primaries, transfer, matrix, full range (ITU-T H.273)
}

// readPNG walks the chunks of a PNG (W3C PNG third edition, 5.3). The pixels
// are passed over because eXIf may stand behind them.
func (h *header) readPNG(w *walker) error {
	if err := w.skip(int64(len(pngSignature))); err != nil {
		return err
	}
	for n := range maxBlocks {
		head, err := w.take(8)
		if err != nil {
			return h.pastEnd(err)
		}
		length, kind := int64(binary.BigEndian.Uint32(head)), string(head[4:])
		if n == 0 && (kind != "IHDR" || length != 13) {
			return fmt.Errorf("%w: no IHDR", errBroken)
		}
		if kind == "IEND" {
			return nil
		}
		if err := h.readChunk(w, kind, length); err != nil {
			return h.pastEnd(err)
		}
	}
	return fmt.Errorf("%w: more than %d chunks", errBroken, maxBlocks)
}

func (h *header) readChunk(w *walker, kind string, length int64) error {
	most := map[string]int64{"IHDR": 13, "eXIf": maxEXIF, "iCCP": maxProfile, "gAMA": 4, "cHRM": 32, "cICP": 4, "sRGB": 1}[kind]
	if most == 0 || length > most {
		return w.skip(length + 4)
	}
	body, err := w.keep(length)
	if err != nil {
		return err
	}
	h.keepChunk(kind, body)
	return w.skip(4) // the checksum is the decoder's business
}

func (h *header) keepChunk(kind string, body []byte) {
	p := &h.png
	switch {
	case kind == "IHDR":
		h.size = Size{int(binary.BigEndian.Uint32(body)), int(binary.BigEndian.Uint32(body[4:]))}
		p.bits = int(body[8])
	case kind == "eXIf" && h.exif == nil:
		h.exif = body
	case kind == "iCCP" && h.icc == nil:
		h.icc = inflateProfile(body)
	case kind == "sRGB":
		p.srgb = true
	case kind == "gAMA" && len(body) == 4:
		p.gamma = binary.BigEndian.Uint32(body)
	case kind == "cHRM" && len(body) == 32:
		for i := range p.chroma {
			p.chroma[i] = binary.BigEndian.Uint32(body[4*i:])
		}
	case kind == "cICP" && len(body) == 4:
		p.cicp = body
	}
}

// inflateProfile returns the profile of an iCCP chunk (11.3.2.3): a name, a
// method of which there is one, and a zlib stream, which may claim to unpack to
// gigabytes.
func inflateProfile(body []byte) []byte {
	_, rest, ok := bytes.Cut(body, []byte{0})
	if !ok || len(rest) < 2 || rest[0] != 0 {
		return nil
	}
	z, err := zlib.NewReader(bytes.NewReader(rest[1:]))
	if err != nil {
		return nil
	}
	profile, err := io.ReadAll(io.LimitReader(z, maxProfile+1))
	if err != nil || len(profile) > maxProfile {
		return nil
	}
	return profile
}
