package photo

import (
	"bytes"
	"encoding/binary"
)

// jpeg copies the segments (ITU-T T.81 annex B) that are on the list, and the
// scans as they are, up to the end marker. Segments may stand between scans.
func (s *stripper) jpeg() bool {
	in := s.in
	if len(in) < 4 {
		return false
	}
	s.copy(in[:2])
	scans := 0
	for at := 2; at+2 <= len(in); {
		marker := int(in[at+1])
		switch {
		case in[at] != 0xff:
			return false
		case marker == 0xff: // a fill byte
			at++
			continue
		case marker == markerEOI:
			s.copy(in[at : at+2])
			if at+2 < len(in) {
				s.gone.Behind++
			}
			return scans > 0
		case marker >= markerRST0 && marker <= markerSOI || marker == markerTEM:
			s.copy(in[at : at+2])
			at += 2
			continue
		}
		if at+4 > len(in) {
			return false
		}
		end := at + 2 + int(binary.BigEndian.Uint16(in[at+2:]))
		if marker == 0 || end < at+4 || end > len(in) {
			return false
		}
		if marker == markerSOS {
			scans++
			end = scanEnd(in, end)
			s.copy(in[at:end])
		} else if body, keep := s.segment(marker, in[at+4:end]); keep {
			s.copy(in[at : at+2])
			s.out = binary.BigEndian.AppendUint16(s.out, uint16(len(body)+2))
			s.copy(body)
		}
		at = end
	}
	return false
}

// scanEnd returns where the entropy-coded data of a scan ends: at the next
// marker that is no restart.
func scanEnd(data []byte, at int) int {
	for at+1 < len(data) {
		next := bytes.IndexByte(data[at:], 0xff)
		if next < 0 || at+next+1 >= len(data) {
			return len(data)
		}
		at += next
		if m := int(data[at+1]); m != 0 && (m < markerRST0 || m >= markerSOI) {
			return at
		}
		at += 2
	}
	return len(data)
}

// pictureEnd finds the byte after the end marker that belongs to the picture
// whose first segment or scan stands at an offset.
func pictureEnd(data []byte, at int) (int, bool) {
	for at+1 < len(data) {
		marker := int(data[at+1])
		switch {
		case data[at] != 0xff:
			return 0, false
		case marker == 0xff:
			at++
		case marker == markerEOI:
			return at + 2, true
		case marker == 0 || marker >= markerRST0 && marker <= markerSOI || marker == markerTEM:
			at += 2
		default:
			if at+4 > len(data) {
				return 0, false
			}
			at += 2 + int(binary.BigEndian.Uint16(data[at+2:]))
			if marker == markerSOS {
				at = scanEnd(data, at)
			}
		}
	}
	return 0, false
}

// segment returns the body of a segment as it goes into the copy, and whether
// it does.
func (s *stripper) segment(marker int, body []byte) ([]byte, bool) {
	has := func(prefix string) bool { return bytes.HasPrefix(body, []byte(prefix)) }
	switch {
	case marker == markerAPP1 && has("Exif\x00") && len(body) > 6:
		block, ok := s.exif(body[6:])
		return append(bytes.Clone(body[:6]), block...), ok && len(block)+8 <= 0xffff
	case marker == markerAPP1 && has("http://ns.adobe.com/xap/1.0/\x00"):
		return body, s.keepsXMP(body[len("http://ns.adobe.com/xap/1.0/\x00"):])
	case marker == 0xed && has("Photoshop 3.0\x00"):
		return body, s.keepsResources(body[len("Photoshop 3.0\x00"):])
	case marker == markerAPP2 && has("MPF\x00"):
		s.gone.Behind++ // the list of the pictures behind this one
		return nil, false
	case marker == 0xfe:
		return body, s.keepsText(body)
	case marker < 0xe0 || marker > 0xef: // tables and headers, without which there is no picture
		return body, true
	case marker == 0xe0 && has("JFIF\x00"), marker == 0xee && has("Adobe"), marker == markerAPP2 && has("ICC_PROFILE\x00"):
		return body, true
	}
	return nil, s.unknown()
}

// plainResources are the image resource blocks that hold neither text nor a
// picture: resolution, print settings, quality, flags, and a digest.
var plainResources = map[uint16]bool{0x03ed: true, 0x03f3: true, 0x0406: true, 0x040a: true, 0x040d: true, 0x0411: true, 0x0414: true,
	0x0419: true, 0x041a: false, 0x0425: true, 0x2710: true}

const iptcResource = 0x0404

// keepsResources reports whether every image resource block of a segment is on
// the list. They are one text, and stay or go as one.
func (s *stripper) keepsResources(b []byte) bool {
	for len(b) > 0 {
		if len(b) < 12 || string(b[:4]) != "8BIM" {
			return s.unknown()
		}
		id, name := binary.BigEndian.Uint16(b[4:]), 1+int(b[6])
		head := 6 + name + name&1 + 4
		if head > len(b) {
			return s.unknown()
		}
		size := int64(binary.BigEndian.Uint32(b[head-4:]))
		if int64(head)+size > int64(len(b)) || name > 1 {
			return s.unknown()
		}
		body := b[head : head+int(size)]
		if id == iptcResource {
			if !s.keepsIPTC(body) {
				return false
			}
		} else if !plainResources[id] {
			return s.unknown()
		}
		b = b[min(len(b), head+int(size+size&1)):]
	}
	return true
}

// placeSets are the datasets of IPTC IIM record 2 that name a place: content
// location code and name, city, sublocation, province, country code and name.
var placeSets = []byte{26, 27, 90, 92, 95, 100, 101}

func (s *stripper) keepsIPTC(body []byte) bool {
	for _, set := range placeSets {
		if !s.keep.Place && bytes.Contains(body, []byte{0x1c, 2, set}) {
			s.gone.Places++
			return false
		}
	}
	return s.keepsText(body)
}
