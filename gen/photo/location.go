package photo

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"slices"
	"strings"
)

// WithoutPlace returns a photo without what it says of where it was taken, and
// names what was taken out; a photo that says nothing comes back as it is. The
// pixels are not touched, nor orientation, dates, camera, maker's notes or
// colour profile. data is not changed. An error is a *Problem.
//
// The GPS folder of an EXIF block is erased in its place, so that no offset in
// the block moves (maker's notes hold offsets of their own). XMP and IPTC that
// name a place are left out whole, since both are one text. What follows the
// end of a picture (a film, a second picture with an EXIF of its own) is left
// out too.
//
// Sources: CIPA DC-008-2023, 4.6 (TIFF folders, GPS), 4.7 (JPEG segments);
// Adobe, XMP Specification part 3 (2020); IPTC IIM 4.2 (datasets of places);
// W3C PNG third edition, 5 and 11; RFC 9649, section 2 (WebP).
func WithoutPlace(data []byte) ([]byte, []string, error) {
	s := &stripper{in: data}
	ok := false
	switch {
	case bytes.HasPrefix(data, []byte("\xff\xd8\xff")):
		ok = s.jpeg()
	case bytes.HasPrefix(data, []byte(pngSignature)):
		ok = s.png()
	case len(data) >= 12 && string(data[:4]) == "RIFF" && string(data[8:12]) == "WEBP":
		ok = s.webp()
	default:
		return nil, nil, foreign(data[:min(len(data), 32)])
	}
	if !ok {
		return nil, nil, problem(RuleDamaged, remedyExport,
			"has blocks that do not follow its format, so that what it says of its place cannot be taken out safely")
	}
	if len(s.gone) == 0 {
		return data, nil, nil
	}
	return s.out, s.gone, nil
}

// stripper copies a photo block by block.
type stripper struct {
	in, out []byte
	gone    []string // what was left out, each once
}

// What can be taken out of a photo, in words.
const (
	goneGPS     = "GPS"
	goneXMP     = "XMP with a place"
	goneIPTC    = "IPTC with a place"
	goneProof   = "content credentials"
	goneTrailer = "what follows the picture"
	goneEXIF    = "an EXIF block that cannot be read"
)

func (s *stripper) drop(what string) {
	if !slices.Contains(s.gone, what) {
		s.gone = append(s.gone, what)
	}
}

func (s *stripper) copy(b []byte) { s.out = append(s.out, b...) }

// jpeg copies the segments (ITU-T T.81 annex B) up to the first scan, and the
// scans as they are up to the end marker.
func (s *stripper) jpeg() bool {
	in := s.in
	s.copy(in[:2])
	for at := 2; at+4 <= len(in); {
		if in[at] != 0xff {
			return false
		}
		marker := int(in[at+1])
		if marker == 0xff { // a fill byte
			at++
			continue
		}
		if marker >= markerRST0 && marker <= markerSOI || marker == markerTEM {
			s.copy(in[at : at+2])
			at += 2
			continue
		}
		end := at + 2 + int(binary.BigEndian.Uint16(in[at+2:]))
		if marker == markerEOI || end < at+4 || end > len(in) {
			return false
		}
		if marker == markerSOS {
			return s.scans(at)
		}
		if body, keep := s.segment(marker, in[at+4:end]); keep {
			s.copy(in[at : at+4])
			s.copy(body)
		}
		at = end
	}
	return false
}

// scans copies everything from the first scan up to the end of the picture.
func (s *stripper) scans(at int) bool {
	end, ok := pictureEnd(s.in, at)
	if !ok {
		return false
	}
	s.copy(s.in[at:end])
	if end < len(s.in) {
		s.drop(goneTrailer)
	}
	return true
}

// pictureEnd finds the byte after the end marker that belongs to the picture
// whose first scan stands at an offset.
func pictureEnd(data []byte, at int) (int, bool) {
	scan := false
	for i := at; i+1 < len(data); {
		if scan {
			next := bytes.IndexByte(data[i:], 0xff)
			if next < 0 {
				return 0, false
			}
			i += next
			if i+1 >= len(data) {
				return 0, false
			}
		} else if data[i] != 0xff {
			return 0, false
		}
		switch marker := int(data[i+1]); {
		case marker == 0xff:
			i++
		case marker == markerEOI:
			return i + 2, true
		case marker == 0 || marker >= markerRST0 && marker <= markerSOI || marker == markerTEM:
			i += 2
		default:
			if i+4 > len(data) {
				return 0, false
			}
			scan = marker == markerSOS
			i += 2 + int(binary.BigEndian.Uint16(data[i+2:]))
		}
	}
	return 0, false
}

// segment returns the body of a segment as it goes into the copy, of the same
// length, and whether it does.
func (s *stripper) segment(marker int, body []byte) ([]byte, bool) {
	switch {
	case marker == markerAPP1 && bytes.HasPrefix(body, []byte("Exif\x00")) && len(body) > 6:
		block, ok := s.exif(body[6:])
		return append(bytes.Clone(body[:6]), block...), ok
	case marker == markerAPP1 && bytes.HasPrefix(body, []byte("http://ns.adobe.com/xmp/extension/\x00")):
		s.drop(goneXMP) // in pieces, so that a word may be cut in two
		return nil, false
	case marker == markerAPP1 && bytes.HasPrefix(body, []byte("http://ns.adobe.com/xap/1.0/\x00")):
		return body, s.keepsXMP(body)
	case marker == 0xed && namesPlaceIPTC(body):
		s.drop(goneIPTC)
		return nil, false
	case marker == 0xeb && bytes.Contains(body, []byte("jum")): // JUMBF boxes, in pieces
		s.drop(goneProof)
		return nil, false
	case marker == markerAPP2 && bytes.HasPrefix(body, []byte("MPF\x00")):
		s.drop(goneTrailer) // the list of the pictures behind this one
		return nil, false
	}
	return body, true
}

// exif returns an EXIF block without its GPS folder. A block that cannot be
// walked is left out, since nobody can say what is in it.
func (s *stripper) exif(block []byte) ([]byte, bool) {
	clean, found, ok := withoutGPS(block)
	if !ok {
		s.drop(goneEXIF)
		return nil, false
	}
	if found {
		s.drop(goneGPS)
	}
	return clean, true
}

// placeWords are parts of the names of XMP properties that name a place
// (namespaces exif, photoshop, Iptc4xmpCore and Iptc4xmpExt).
var placeWords = []string{"gps", "location", "city", "country", "photoshop:state", "provincestate", "geo:", "latitude", "longitude"}

func (s *stripper) keepsXMP(text []byte) bool {
	low := strings.ToLower(strings.ReplaceAll(string(text), "\x00", "")) // UTF-16 as well
	for _, word := range placeWords {
		if strings.Contains(low, word) {
			s.drop(goneXMP)
			return false
		}
	}
	return true
}

// placeSets are the datasets of IPTC IIM record 2 that name a place: content
// location code and name, city, sublocation, province, country code and name.
var placeSets = []byte{26, 27, 90, 92, 95, 100, 101}

func namesPlaceIPTC(body []byte) bool {
	for _, set := range placeSets {
		if bytes.Contains(body, []byte{0x1c, 2, set}) {
			return true
		}
	}
	return false
}

// png copies the chunks of a PNG up to its end.
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
		body, keep := s.chunk(kind, body)
		if keep {
			s.copy(in[at : at+8])
			s.copy(body)
			sum := crc32.Update(crc32.ChecksumIEEE([]byte(kind)), crc32.IEEETable, body)
			s.out = binary.BigEndian.AppendUint32(s.out, sum)
		}
		at = int(end)
		if kind == "IEND" {
			if at < len(in) {
				s.drop(goneTrailer)
			}
			return true
		}
	}
	return false
}

// chunk returns the body of a PNG chunk as it goes into the copy.
func (s *stripper) chunk(kind string, body []byte) ([]byte, bool) {
	switch kind {
	case "eXIf":
		return s.exif(body)
	case "caBX":
		s.drop(goneProof)
		return nil, false
	case "tEXt", "zTXt", "iTXt":
		name, _, _ := bytes.Cut(body, []byte{0})
		switch word := strings.ToLower(string(name)); {
		case word == "xml:com.adobe.xmp" && kind == "iTXt" && len(body) > len(name)+1 && body[len(name)+1] == 0:
			return body, s.keepsXMP(body)
		case word == "xml:com.adobe.xmp", // packed, or in hexadecimal
			strings.HasPrefix(word, "raw profile type") && !strings.HasSuffix(word, "icc"):
			s.drop(goneXMP)
			return nil, false
		}
	}
	return body, true
}

// webp copies the chunks of a WebP, and corrects what its head says of them.
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
		end := at + 8 + length + length&1
		if at+8+length > riff {
			return false
		}
		end = min(end, riff)
		body := in[at+8 : at+8+length]
		keep := true
		switch kind {
		case "VP8X":
			flags = len(s.out) + 8
		case "EXIF":
			head := 0
			if bytes.HasPrefix(body, []byte("Exif\x00\x00")) { // some programs keep JPEG's mark
				head = 6
			}
			var block []byte
			block, keep = s.exif(body[head:])
			body = append(bytes.Clone(body[:head]), block...)
			if !keep {
				gone |= 1 << 3
			}
		case "XMP ":
			if keep = s.keepsXMP(body); !keep {
				gone |= 1 << 2
			}
		}
		if keep {
			s.copy(in[at : at+8])
			s.copy(body)
			s.copy(in[at+8+length : end])
		}
		at = end
	}
	if int64(len(in)) > riff {
		s.drop(goneTrailer)
	}
	if flags >= 0 && flags < len(s.out) {
		s.out[flags] &^= gone
	}
	binary.LittleEndian.PutUint32(s.out[4:], uint32(len(s.out)-8))
	return at >= riff-1
}
