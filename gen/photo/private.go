package photo

import (
	"bytes"
	"fmt"
	"strings"
)

// Keep says what a copy of a photo may go on saying.
type Keep struct {
	Place  bool // where it was taken
	Camera bool // serial numbers of camera and lens, and who owns them
}

// Removed counts what Private took out of a photo, and what it dropped without
// looking closer.
type Removed struct {
	Places  int // blocks and entries that say where it was taken
	Serials int // blocks and entries with a serial number or an owner's name
	Notes   int // maker's notes
	Behind  int // pictures and other data behind the picture
	Unknown int // blocks that cannot be read, or whose kind is not known
}

// String says what was removed, "nothing to remove" where nothing was.
func (r Removed) String() string {
	var parts []string
	for _, p := range []struct {
		says string
		n    int
	}{
		{"places removed", r.Places}, {"serial numbers and owners removed", r.Serials}, {"maker's notes dropped", r.Notes},
		{"data behind the picture dropped", r.Behind}, {"other blocks dropped", r.Unknown},
	} {
		if p.n > 0 {
			parts = append(parts, fmt.Sprintf("%s: %d", p.says, p.n))
		}
	}
	if len(parts) == 0 {
		return "nothing to remove"
	}
	return strings.Join(parts, "; ")
}

func (r *Removed) add(other Removed) {
	r.Places += other.Places
	r.Serials += other.Serials
	r.Notes += other.Notes
	r.Behind += other.Behind
	r.Unknown += other.Unknown
}

// Private returns a photo without what it says of where it was taken, of serial
// numbers and of who owns the camera; one that says nothing comes back as it
// is. The bytes of the pixels are not touched, nor orientation, dates, exposure,
// author, copyright or colour profile. data is not changed. An error is a
// *Problem.
//
// What stays is on a list of what is known to hold neither: a maker's note, a
// block of a kind that is not known, what follows the picture (a film, a second
// picture) and pieces of split texts are left out whole, whatever they hold.
// Author and copyright are the picture's credit, not the camera's owner.
//
// Sources: CIPA DC-008-2023, 4.6 (TIFF folders and tags), 4.7 (JPEG segments);
// ITU-T T.81, annex B; Adobe, XMP Specification part 3 (2020); Adobe,
// "Photoshop File Formats", image resource blocks; IPTC IIM 4.2 (datasets of
// places); W3C PNG third edition, 5 and 11; RFC 9649, section 2 (WebP);
// ISO/IEC 14496-12 and 23008-12 (boxes of HEIF).
func Private(data []byte, keep Keep) ([]byte, Removed, error) {
	s := &stripper{in: data, keep: keep}
	ok := false
	switch {
	case bytes.HasPrefix(data, []byte("\xff\xd8\xff")):
		ok = s.jpeg()
	case bytes.HasPrefix(data, []byte(pngSignature)):
		ok = s.png()
	case len(data) >= 12 && string(data[:4]) == "RIFF" && string(data[8:12]) == "WEBP":
		ok = s.webp()
	case isHEIC(data):
		ok = s.heic()
	default:
		return nil, Removed{}, foreign(data[:min(len(data), 32)])
	}
	if !ok {
		return nil, Removed{}, problem(RuleDamaged, remedyExport,
			"has blocks that do not follow its format, so that what it says of place and camera cannot be taken out safely")
	}
	if s.gone == (Removed{}) {
		return data, s.gone, nil
	}
	return s.out, s.gone, nil
}

// stripper copies a photo block by block.
type stripper struct {
	in, out []byte
	keep    Keep
	gone    Removed
	depth   int // of a picture within a picture
}

func (s *stripper) copy(b []byte) { s.out = append(s.out, b...) }

// unknown leaves a block out that nobody looked into.
func (s *stripper) unknown() bool {
	s.gone.Unknown++
	return false
}

// inner cleans a picture within a picture; false where it cannot be walked.
func (s *stripper) inner(data []byte) ([]byte, bool) {
	const deepest = 3
	in := &stripper{in: data, keep: s.keep, depth: s.depth + 1}
	if in.depth > deepest || !bytes.HasPrefix(data, []byte("\xff\xd8\xff")) || !in.jpeg() {
		return nil, false
	}
	s.gone.add(in.gone)
	return in.out, true
}
