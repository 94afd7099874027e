package photo

import (
	"bytes"
	"encoding/binary"
	"slices"
)

// Tags of TIFF folders that lead to others (CIPA DC-008-2023, 4.6.3), and those
// of what says too much (4.6.5; DNG 1.7.1 for 0xc62f; the last two are written
// by programs of photographers' agencies).
const (
	tagEXIF      = 0x8769
	tagGPS       = 0x8825
	tagInterop   = 0xa005
	tagThumb     = 0x0201
	tagThumbSize = 0x0202
	tagMakerNote = 0x927c
	tagPrintIM   = 0xc4a5
)

var cameraTags = []uint16{0xa430, 0xa431, 0xa435, 0xa420, 0xc62f, 0xfde8, 0xfde9, 0x013c}

// span is a run of tags.
type span struct{ from, to uint16 }

// plainTags are the tags of each folder that hold neither place nor number. Free
// text among them is read. IFD1 is the thumbnail's.
var plainTags = map[uint16][]span{
	0: {{0x0100, 0x0103}, {0x0106, 0x0106}, {0x010e, 0x0110}, {0x0112, 0x0112}, {0x0115, 0x0115}, {0x011a, 0x011c}, {0x0128, 0x0129},
		{0x012d, 0x012d}, {0x0131, 0x0132}, {0x013b, 0x013b}, {0x013e, 0x013f}, {0x0211, 0x0214}, {0x4746, 0x4746}, {0x4749, 0x4749},
		{0x8298, 0x8298}, {0x9c9b, 0x9c9f}},
	1: {{0x0100, 0x0103}, {0x0106, 0x0106}, {0x010e, 0x0110}, {0x0112, 0x0112}, {0x0115, 0x0115}, {0x011a, 0x011c}, {0x0128, 0x0128},
		{0x0131, 0x0132}, {0x0211, 0x0214}},
	tagEXIF: {{0x829a, 0x829a}, {0x829d, 0x829d}, {0x8822, 0x8822}, {0x8824, 0x8824}, {0x8827, 0x8828}, {0x8830, 0x8835}, {0x9000, 0x9000},
		{0x9003, 0x9004}, {0x9010, 0x9012}, {0x9101, 0x9102}, {0x9201, 0x920a}, {0x9214, 0x9214}, {0x9286, 0x9286}, {0x9290, 0x9292},
		{0x9400, 0x9405}, {0xa000, 0xa004}, {0xa20b, 0xa20c}, {0xa20e, 0xa210}, {0xa214, 0xa215}, {0xa217, 0xa217}, {0xa300, 0xa302},
		{0xa401, 0xa40c}, {0xa432, 0xa434}, {0xa436, 0xa437}, {0xa439, 0xa439}, {0xa460, 0xa462}, {0xa500, 0xa500}},
	tagInterop: {{0x0001, 0x0002}, {0x1000, 0x1002}},
	tagGPS:     {{0x0000, 0x001f}},
}

// named are the tags of text that names a make or a person, where a part of a
// word says nothing.
var named = []uint16{0x010f, 0x0110, 0x013b, 0x8298, 0xa433, 0xa434}

// harmlessNotes are the makers' blocks that are known to hold neither place nor
// number, by tag and first bytes: print image matching (a table for printers).
var harmlessNotes = map[uint16]string{tagPrintIM: "PrintIM\x00"}

// exif returns an EXIF block (a TIFF structure) without what must go: as it is
// where nothing must, else written anew from what may stay. A block that cannot
// be walked is left out, since nobody can say what is in it.
func (s *stripper) exif(block []byte) ([]byte, bool) {
	t := &tiffReader{b: block, strip: s, seen: map[uint32]bool{}, covered: make([]bool, min(len(block), maxEXIF))}
	switch {
	case len(block) > maxEXIF || len(block) < 8:
		return nil, s.unknown()
	case bytes.HasPrefix(block, []byte("II*\x00")):
		t.order = binary.LittleEndian
	case bytes.HasPrefix(block, []byte("MM\x00*")):
		t.order = binary.BigEndian
	default:
		return nil, s.unknown()
	}
	t.cover(0, 8)
	before := s.gone
	first, next, ok := t.folder(t.order.Uint32(block[4:]), 0)
	if !ok {
		return nil, s.unknown()
	}
	thumb := t.thumbnail(next)
	if s.gone == before { // else it is written anew, and what nothing leads to goes
		if !t.hides() {
			return block, true
		}
		s.gone.Unknown++
	}
	w := &tiffWriter{order: t.order}
	w.b = w.order.AppendUint32(append(w.b, block[:4]...), 8)
	_, link := w.folder(first)
	if thumb != nil {
		at, _ := w.folder(thumb)
		w.order.PutUint32(w.b[link:], at)
	}
	return w.b, len(w.b) <= maxEXIF || s.unknown()
}

// tiffOrder reads and writes numbers in one order of bytes.
type tiffOrder interface {
	binary.ByteOrder
	binary.AppendByteOrder
}

// tiffField is one entry of a folder: its value, or the folder it leads to.
type tiffField struct {
	tag, kind uint16
	count     uint32
	value     []byte
	child     []tiffField
}

// tiffReader walks the folders of a TIFF structure and picks what may stay.
type tiffReader struct {
	b       []byte
	order   tiffOrder
	strip   *stripper
	seen    map[uint32]bool
	covered []bool // bytes that a folder or a value accounts for
}

// cover notes that a range is accounted for; false where it does not lie inside
// the block.
func (t *tiffReader) cover(from, length int64) bool {
	if from < 0 || length < 0 || from+length > int64(len(t.b)) {
		return false
	}
	for i := range t.covered[from : from+length] {
		t.covered[int(from)+i] = true
	}
	return true
}

// hides reports whether there is something that no folder leads to.
func (t *tiffReader) hides() bool {
	for i, c := range t.covered {
		if !c && t.b[i] != 0 {
			return true
		}
	}
	return false
}

// folder reads the folder at an offset: what may stay of it, and the offset of
// the next one. ok is false where it does not lie inside the block.
func (t *tiffReader) folder(at uint32, kind uint16) (fields []tiffField, next uint32, ok bool) {
	if t.seen[at] || int64(at)+2 > int64(len(t.b)) {
		return nil, 0, false
	}
	t.seen[at] = true
	n := int64(t.order.Uint16(t.b[at:]))
	end := int64(at) + 2 + 12*n
	if !t.cover(int64(at), 2+12*n) {
		return nil, 0, false
	}
	for i := range int(n) {
		if f, keep := t.field(int(at)+2+12*i, kind); keep {
			fields = append(fields, f)
		}
	}
	if t.cover(end, 4) {
		next = t.order.Uint32(t.b[end:])
	}
	return fields, next, true
}

// typeBytes is the size of one value of each TIFF type.
var typeBytes = map[uint16]int64{1: 1, 2: 1, 3: 2, 4: 4, 5: 8, 6: 1, 7: 1, 8: 2, 9: 4, 10: 8, 11: 4, 12: 8, 13: 4, 129: 1}

// field reads one entry, and says whether it may stay.
func (t *tiffReader) field(entry int, kind uint16) (tiffField, bool) {
	b, s := t.b[entry:], t.strip
	f := tiffField{tag: t.order.Uint16(b), kind: t.order.Uint16(b[2:]), count: t.order.Uint32(b[4:])}
	size, from := typeBytes[f.kind]*int64(f.count), int64(entry)+8
	if size > 4 {
		from = int64(t.order.Uint32(b[8:]))
	}
	if typeBytes[f.kind] == 0 || !t.cover(from, size) {
		return f, s.unknown()
	}
	f.value = t.b[from : from+size]
	switch {
	case f.tag == tagGPS && !s.keep.Place:
		s.gone.Places++
		return f, false
	case f.tag == tagGPS && kind == 0, f.tag == tagEXIF && kind == 0, f.tag == tagInterop && kind == tagEXIF:
		return t.child(f)
	case f.tag == tagMakerNote:
		s.gone.Notes++
		return f, false
	case slices.Contains(cameraTags, f.tag):
		if !s.keep.Camera {
			s.gone.Serials++
		}
		return f, s.keep.Camera
	case harmlessNotes[f.tag] != "" && bytes.HasPrefix(f.value, []byte(harmlessNotes[f.tag])):
		return f, true
	case kind == 1 && (f.tag == tagThumb || f.tag == tagThumbSize) && f.kind == 4 && f.count == 1:
		return f, true
	case !slices.ContainsFunc(plainTags[kind], func(r span) bool { return r.from <= f.tag && f.tag <= r.to }):
		return f, s.unknown()
	case typeBytes[f.kind] == 1 && !slices.Contains(named, f.tag):
		return f, s.keepsText(f.value)
	}
	return f, true
}

// child follows an entry that leads to a folder.
func (t *tiffReader) child(f tiffField) (tiffField, bool) {
	if f.kind != 4 && f.kind != 13 || f.count != 1 {
		return f, t.strip.unknown()
	}
	fields, _, ok := t.folder(t.order.Uint32(f.value), f.tag)
	if !ok {
		return f, t.strip.unknown()
	}
	f.child = fields
	return f, len(fields) > 0
}

// thumbnail returns the folder of the thumbnail with the cleaned picture in it,
// or nil. Thumbnails that are no JPEG are left out.
func (t *tiffReader) thumbnail(at uint32) []tiffField {
	if at == 0 {
		return nil
	}
	fields, next, ok := t.folder(at, 1)
	if next != 0 {
		t.strip.gone.Unknown++ // no more folders are known
	}
	start, size := -1, -1
	for i, f := range fields {
		switch f.tag {
		case tagThumb:
			start = i
		case tagThumbSize:
			size = i
		}
	}
	if !ok || start < 0 || size < 0 {
		t.strip.gone.Unknown++
		return nil
	}
	from, length := int64(t.order.Uint32(fields[start].value)), int64(t.order.Uint32(fields[size].value))
	if !t.cover(from, length) {
		t.strip.gone.Unknown++
		return nil
	}
	clean, ok := t.strip.inner(t.b[from : from+length])
	if !ok {
		t.strip.gone.Unknown++
		return nil
	}
	fields[start].value = clean
	fields[size].value = t.order.AppendUint32(nil, uint32(len(clean)))
	return fields
}

// tiffWriter writes the folders of a TIFF structure.
type tiffWriter struct {
	b     []byte
	order tiffOrder
}

// put appends a value at an even offset, and returns that.
func (w *tiffWriter) put(value []byte) uint32 {
	w.b = append(w.b, make([]byte, len(w.b)&1)...)
	at := uint32(len(w.b))
	w.b = append(w.b, value...)
	return at
}

// folder writes a folder with all it leads to. It returns where it stands, and
// where the offset of the next one goes.
func (w *tiffWriter) folder(fields []tiffField) (at uint32, link int) {
	at = w.put(make([]byte, 2+12*len(fields)+4))
	w.order.PutUint16(w.b[at:], uint16(len(fields)))
	for i, f := range fields {
		entry := int(at) + 2 + 12*i
		w.order.PutUint16(w.b[entry:], f.tag)
		w.order.PutUint16(w.b[entry+2:], f.kind)
		w.order.PutUint32(w.b[entry+4:], f.count)
		var to uint32
		switch {
		case f.child != nil:
			to, _ = w.folder(f.child)
		case len(f.value) > 4:
			to = w.put(f.value)
		default:
			copy(w.b[entry+8:], f.value)
			continue
		}
		w.order.PutUint32(w.b[entry+8:], to)
	}
	return at, int(at) + 2 + 12*len(fields)
}
