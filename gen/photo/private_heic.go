package photo

import (
	"bytes"
	"encoding/binary"
	"slices"
)

// heicBrands are the still pictures of HEIF (ISO/IEC 23008-12, annex B).
var heicBrands = []string{"heic", "heix", "heim", "heis", "mif1"}

func isHEIC(data []byte) bool {
	return len(data) >= 12 && string(data[4:8]) == "ftyp" && slices.Contains(heicBrands, string(data[8:12]))
}

// The boxes, properties and kinds of items that hold pixels and what they mean.
var (
	plainMeta       = []string{"hdlr", "pitm", "iinf", "iloc", "iref", "iprp", "idat", "grpl", "dinf"}
	plainProperties = []string{"hvcC", "av1C", "ispe", "colr", "pixi", "irot", "imir", "auxC", "clap", "pasp", "mdcv", "clli", "cclv", "lsel"}
	plainItems      = []string{"hvc1", "av01", "grid", "iovl", "iden", "tmap"}
)

// emptyXMP is a packet that says nothing.
const emptyXMP = `<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#"/></x:xmpmeta>`

// box is a box of an ISO base media file, by its offsets in it.
type box struct {
	kind             string
	at, body, end    int
	version          byte // of a box that has one
	id               uint32
	content          string // of an item: "application/rdf+xml"
	parts            []part
	inIdat, external bool
}

// part is a piece of an item's bytes.
type part struct{ from, to int }

// heic cleans a HEIF picture in place: nothing moves, so that no offset in it
// changes. Boxes that may not stay become free space, items are emptied.
func (s *stripper) heic() bool {
	s.out = bytes.Clone(s.in)
	h := &heif{b: s.out, strip: s, items: map[uint32]*box{}}
	top, ok := h.boxes(0, len(h.b))
	if !ok {
		return false
	}
	for _, b := range top {
		switch b.kind {
		case "ftyp", "mdat":
		case "meta":
			if ok = ok && b.body+4 <= b.end && !h.found && h.meta(b); !ok {
				return false
			}
			h.found = true
		case "moov":
			return false // moving pictures are refused, as they are everywhere
		default:
			h.free(b)
		}
	}
	return h.found && h.clean(top)
}

// heif is a HEIF picture that is being cleaned.
type heif struct {
	b     []byte
	strip *stripper
	items map[uint32]*box
	idat  part
	found bool
}

// boxes lists the boxes in a range.
func (h *heif) boxes(from, to int) (list []box, ok bool) {
	for at := from; at < to; {
		if at+8 > to {
			return nil, false
		}
		size, body := uint64(binary.BigEndian.Uint32(h.b[at:])), at+8
		switch {
		case size == 0:
			size = uint64(to - at)
		case size == 1 && at+16 <= to:
			size, body = binary.BigEndian.Uint64(h.b[at+8:]), at+16
		}
		if size < uint64(body-at) || size > uint64(to-at) || len(list) == maxBlocks {
			return nil, false
		}
		list = append(list, box{kind: string(h.b[at+4 : at+8]), at: at, body: body, end: at + int(size)})
		at += int(size)
	}
	return list, true
}

// free turns a box into empty space.
func (h *heif) free(b box) {
	if b.kind == "free" || b.kind == "skip" {
		h.wipe(part{b.body, b.end}, &h.strip.gone.Unknown)
		return
	}
	copy(h.b[b.at+4:], "free")
	clear(h.b[b.body:b.end])
	h.strip.gone.Unknown++
}

// wipe empties a range, and counts it where it held anything.
func (h *heif) wipe(p part, count *int) {
	if len(bytes.Trim(h.b[p.from:p.to], "\x00")) > 0 {
		clear(h.b[p.from:p.to])
		*count++
	}
}

// meta reads what the picture consists of.
func (h *heif) meta(meta box) bool {
	list, ok := h.boxes(meta.body+4, meta.end)
	if !ok {
		return false
	}
	slices.SortStableFunc(list, func(a, b box) int { return slices.Index(plainMeta, a.kind) - slices.Index(plainMeta, b.kind) })
	for _, b := range list {
		switch {
		case !slices.Contains(plainMeta, b.kind):
			h.free(b)
		case b.kind == "iinf":
			ok = ok && h.names(b)
		case b.kind == "iloc":
			ok = ok && h.places(b)
		case b.kind == "iprp":
			ok = ok && h.properties(b)
		case b.kind == "idat":
			h.idat = part{b.body, b.end}
		}
	}
	return ok
}

// names reads the kinds of the items (8.11.6).
func (h *heif) names(b box) bool {
	r := reader{b: h.b[:b.end], at: b.body}
	if version := r.uint(4) >> 24; version == 0 {
		r.uint(2)
	} else {
		r.uint(4)
	}
	list, ok := h.boxes(r.at, b.end)
	if r.short || !ok {
		return false
	}
	for _, e := range list {
		r := reader{b: h.b[:e.end], at: e.body}
		version := r.uint(4) >> 24
		if e.kind != "infe" || version != 2 && version != 3 {
			return false
		}
		item := &box{id: uint32(r.uint(int(2 * (version - 1))))}
		r.uint(2)
		item.kind = string(r.bytes(4))
		if name := r.text(); !h.strip.keepsText(name) {
			copy(name, bytes.Repeat([]byte{'-'}, len(name))) // in its place
		}
		if item.kind == "mime" {
			item.content = string(r.text())
		}
		if r.short || h.items[item.id] != nil {
			return false
		}
		h.items[item.id] = item
	}
	return true
}

// places reads where the bytes of the items stand (8.11.3).
func (h *heif) places(b box) bool {
	r := reader{b: h.b[:b.end], at: b.body}
	version := r.uint(4) >> 24
	sizes := r.uint(2)
	offset, length, base, index := int(sizes>>12), int(sizes>>8&15), int(sizes>>4&15), int(sizes&15)
	wide := 2
	if version == 2 {
		wide = 4
	}
	for range r.uint(wide) {
		item := h.items[uint32(r.uint(wide))]
		if item == nil || r.short {
			return false
		}
		if version > 0 {
			method := r.uint(2) & 15
			item.inIdat, item.external = method == 1, method > 1
		}
		item.external = item.external || r.uint(2) != 0
		from := r.uint(base)
		for range r.uint(2) {
			if version > 0 {
				r.uint(index)
			}
			start, size := from+r.uint(offset), r.uint(length)
			if r.short || size == 0 || start > uint64(len(h.b)) || size > uint64(len(h.b)) {
				return false
			}
			item.parts = append(item.parts, part{int(start), int(start + size)})
		}
	}
	return !r.short
}

// properties frees those that are not on the list. They keep their number.
func (h *heif) properties(b box) bool {
	list, ok := h.boxes(b.body, b.end)
	for _, child := range list {
		switch child.kind {
		case "ipma":
		case "ipco":
			inside, fine := h.boxes(child.body, child.end)
			ok = ok && fine
			for _, p := range inside {
				if !slices.Contains(plainProperties, p.kind) {
					h.free(p)
				}
			}
		default:
			h.free(child)
		}
	}
	return ok
}

// clean empties the items that are no pixels, and what no item leads to.
func (h *heif) clean(top []box) bool {
	claimed := make([]bool, len(h.b))
	ids := make([]uint32, 0, len(h.items))
	for id := range h.items {
		ids = append(ids, id)
	}
	slices.Sort(ids)
	for _, id := range ids {
		item := h.items[id]
		for i := range item.parts {
			p := &item.parts[i]
			if item.inIdat {
				p.from, p.to = p.from+h.idat.from, p.to+h.idat.from
			}
			if item.inIdat && p.to > h.idat.to || !item.inIdat && !inMdat(top, *p) {
				return false
			}
			for j := p.from; j < p.to; j++ {
				if claimed[j] {
					return false // two items that share bytes
				}
				claimed[j] = true
			}
		}
		if !slices.Contains(plainItems, item.kind) && (item.external || !h.item(item)) {
			return false
		}
	}
	for _, b := range top {
		if b.kind == "mdat" {
			h.unclaimed(b, claimed)
		}
	}
	return true
}

// inMdat reports whether bytes of an item lie in a box for such bytes, not in
// one that says what the items are.
func inMdat(top []box, p part) bool {
	return slices.ContainsFunc(top, func(b box) bool { return b.kind == "mdat" && b.body <= p.from && p.to <= b.end })
}

// unclaimed empties what lies between the items of a mdat box.
func (h *heif) unclaimed(b box, claimed []bool) {
	hidden := false
	for i := b.body; i < b.end; i++ {
		if !claimed[i] && h.b[i] != 0 {
			h.b[i], hidden = 0, true
		}
	}
	if hidden {
		h.strip.gone.Behind++
	}
}

// item cleans an item of metadata.
func (h *heif) item(item *box) bool {
	var data []byte
	for _, p := range item.parts {
		data = append(data, h.b[p.from:p.to]...)
	}
	switch {
	case item.kind == "Exif" && len(data) >= 4:
		data = h.strip.heicEXIF(data)
	case item.kind == "mime" && item.content == "application/rdf+xml":
		if !h.strip.keepsXMP(data) {
			empty := []byte(emptyXMP)
			data = append(empty[:min(len(empty), len(data))], bytes.Repeat([]byte{' '}, max(0, len(data)-len(empty)))...)
		}
	default:
		for _, p := range item.parts {
			h.wipe(p, &h.strip.gone.Unknown)
		}
		return true
	}
	for _, p := range item.parts {
		data = data[copy(h.b[p.from:p.to], data):]
	}
	return true
}

// heicEXIF returns the bytes of an Exif item (23008-12, annex A.2.1), of the
// same length: an offset, what the offset passes over, and a TIFF structure.
func (s *stripper) heicEXIF(data []byte) []byte {
	out := make([]byte, len(data))
	start := uint64(binary.BigEndian.Uint32(data)) + 4
	switch {
	case bytes.Equal(data, out): // emptied before
		return out
	case start > uint64(len(data)):
		s.gone.Unknown++
		return out
	}
	if head := data[4:start]; len(head) > 0 && !bytes.Equal(head, []byte("Exif\x00\x00")) {
		s.gone.Unknown++
		return out
	}
	if clean, keep := s.exif(data[start:]); keep && len(clean) <= len(data)-int(start) {
		copy(out, data[:start])
		copy(out[start:], clean)
	}
	return out
}

// reader reads numbers from a box; short is set where it ends too early.
type reader struct {
	b     []byte
	at    int
	short bool
}

func (r *reader) bytes(n int) []byte {
	if n > len(r.b)-r.at {
		r.short = true
		return make([]byte, n)
	}
	r.at += n
	return r.b[r.at-n : r.at]
}

// uint reads a number of n bytes, at most 8; 0 of none.
func (r *reader) uint(n int) (v uint64) {
	for _, c := range r.bytes(n) {
		v = v<<8 | uint64(c)
	}
	return v
}

// text reads a text that a zero ends.
func (r *reader) text() []byte {
	end := bytes.IndexByte(r.b[min(r.at, len(r.b)):], 0)
	if end < 0 {
		r.short = true
		return nil
	}
	text := r.b[r.at : r.at+end]
	r.at += end + 1
	return text
}
