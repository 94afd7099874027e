package photo

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"hash/crc32"
	"io"
	"slices"
	"strings"
)

// plainChunks are the chunks of a PNG that hold pixels and what they mean.
var plainChunks = []string{"IHDR", "PLTE", "IDAT", "IEND", "tRNS", "cHRM", "gAMA", "iCCP", "sBIT", "sRGB", "cICP", "mDCV", "cLLI",
	"bKGD", "hIST", "pHYs", "sPLT", "tIME", "acTL", "fcTL", "fdAT"}

// png copies the chunks of a PNG that are on the list, up to its end.
func (s *stripper) png() bool {
	in := s.in
	s.copy(in[:len(pngSignature)])
	for at := len(pngSignature); at+12 <= len(in); {
		length := int64(binary.BigEndian.Uint32(in[at:]))
		end := int64(at) + 12 + length
		if end > int64(len(in)) {
			return false
		}
		kind, body := string(in[at+4:at+8]), in[at+8:end-4]
		clean, keep := s.chunk(kind, body)
		switch {
		case keep && bytes.Equal(clean, body):
			s.copy(in[at:end])
		case keep:
			s.out = binary.BigEndian.AppendUint32(s.out, uint32(len(clean)))
			s.copy([]byte(kind))
			s.copy(clean)
			s.out = binary.BigEndian.AppendUint32(s.out, crc32.Update(crc32.ChecksumIEEE([]byte(kind)), crc32.IEEETable, clean))
		}
		at = int(end)
		if kind == "IEND" {
			if at < len(in) {
				s.gone.Behind++
			}
			return true
		}
	}
	return false
}

// chunk returns the body of a PNG chunk as it goes into the copy.
func (s *stripper) chunk(kind string, body []byte) ([]byte, bool) {
	switch {
	case kind == "eXIf":
		return s.exif(body)
	case kind == "tEXt" || kind == "zTXt" || kind == "iTXt":
		return body, s.keepsTextChunk(kind, body)
	case slices.Contains(plainChunks, kind):
		return body, true
	}
	return nil, s.unknown()
}

// textNames are the keywords of text chunks that the standard registers
// (11.3.3.1). "Source" is a device, and may be one with its number.
var textNames = []string{"title", "author", "description", "copyright", "creation time", "software", "disclaimer", "warning", "comment"}

// keepsTextChunk looks into a text chunk (11.3.3.2 to 4), unpacked where it is
// packed.
func (s *stripper) keepsTextChunk(kind string, body []byte) bool {
	keyword, rest, _ := bytes.Cut(body, []byte{0})
	name := strings.ToLower(string(keyword))
	packed := kind == "zTXt"
	if kind == "zTXt" && len(rest) > 0 {
		rest = rest[1:] // the method
	}
	if kind == "iTXt" {
		if len(rest) < 2 {
			return s.unknown()
		}
		packed = rest[0] == 1
		parts := bytes.SplitN(rest[2:], []byte{0}, 3) // language, keyword in that language, text
		if len(parts) < 3 || !s.keepsText(parts[1]) {
			return s.unknown()
		}
		rest = parts[2]
	}
	if packed {
		var err error
		if rest, err = inflate(rest); err != nil {
			return s.unknown()
		}
	}
	switch {
	case name == "xml:com.adobe.xmp":
		return s.keepsXMP(rest)
	case slices.Contains(textNames, name):
		return s.keepsText(rest)
	case s.namesPlace(name) || s.namesPlaceText(rest):
		s.gone.Places++
	case s.namesCamera(name) || s.namesCameraText(rest):
		s.gone.Serials++
	default:
		s.gone.Unknown++
	}
	return false
}

// inflate unpacks a zlib stream of bounded length.
func inflate(packed []byte) ([]byte, error) {
	z, err := zlib.NewReader(bytes.NewReader(packed))
	if err != nil {
		return nil, err
	}
	text, err := io.ReadAll(io.LimitReader(z, maxEXIF+1))
	if err == nil && len(text) > maxEXIF {
		err = errBroken
	}
	return text, err
}

// plainWebP are the chunks of a still WebP that hold pixels and their colours.
var plainWebP = []string{"VP8 ", "VP8L", "ALPH", "ICCP"}

// webp copies the chunks of a WebP that are on the list, and corrects what its
// head says of them. Moving pictures are refused, as they are everywhere.
func (s *stripper) webp() bool {
	in := s.in
	riff := int64(binary.LittleEndian.Uint32(in[4:])) + 8
	if riff > int64(len(in)) {
		return false
	}
	s.copy(in[:12])
	flags := -1 // where the flags of VP8X stand in the copy
	var gone byte
	at := int64(12)
	for at+8 <= riff {
		kind, length := string(in[at:at+4]), int64(binary.LittleEndian.Uint32(in[at+4:]))
		if at+8+length > riff || kind == "ANMF" {
			return false
		}
		body, keep := in[at+8:at+8+length], true
		switch {
		case kind == "VP8X":
			flags = len(s.out) + 8
		case kind == "EXIF":
			if body, keep = s.webpEXIF(body); !keep {
				gone |= 1 << 3
			}
		case kind == "XMP ":
			if keep = s.keepsXMP(body); !keep {
				gone |= 1 << 2
			}
		default:
			keep = slices.Contains(plainWebP, kind) || s.unknown()
		}
		if keep {
			s.copy([]byte(kind))
			s.out = binary.LittleEndian.AppendUint32(s.out, uint32(len(body)))
			s.copy(body)
			s.copy(make([]byte, len(body)&1))
		}
		at = min(at+8+length+length&1, riff)
	}
	if int64(len(in)) > riff {
		s.gone.Behind++
	}
	if flags >= 0 && flags < len(s.out) {
		s.out[flags] &^= gone
	}
	binary.LittleEndian.PutUint32(s.out[4:], uint32(len(s.out)-8))
	return at >= riff-1
}

func (s *stripper) webpEXIF(body []byte) ([]byte, bool) {
	block, marked := bytes.CutPrefix(body, []byte("Exif\x00\x00")) // some programs keep JPEG's mark
	clean, keep := s.exif(block)
	if marked {
		clean = append([]byte("Exif\x00\x00"), clean...)
	}
	return clean, keep
}
