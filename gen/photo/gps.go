package photo

import (
	"bytes"
	"encoding/binary"
)

// Tags of TIFF folders that lead to others (CIPA DC-008-2023, 4.6.3; TIFF 6.0
// supplement 1 for sub-folders).
const (
	tagSubFolders = 0x014a
	tagEXIF       = 0x8769
	tagGPS        = 0x8825
	tagInterop    = 0xa005
)

// maxFolders is more than any camera writes.
const maxFolders = 64

// withoutGPS erases the GPS folders of a TIFF structure and the entries that
// lead to them. The block keeps its length and all its other offsets. ok is
// false where it cannot be walked.
func withoutGPS(block []byte) (clean []byte, found, ok bool) {
	t := &folders{b: bytes.Clone(block), seen: map[uint32]bool{}}
	switch {
	case bytes.HasPrefix(block, []byte("II*\x00")):
		t.order = binary.LittleEndian
	case bytes.HasPrefix(block, []byte("MM\x00*")):
		t.order = binary.BigEndian
	default:
		return nil, false, false
	}
	if len(block) < 8 {
		return nil, false, false
	}
	t.queue = []uint32{t.order.Uint32(block[4:])}
	for len(t.queue) > 0 {
		at := t.queue[0]
		t.queue = t.queue[1:]
		if at == 0 || t.seen[at] {
			continue
		}
		t.seen[at] = true
		if len(t.seen) > maxFolders || !t.folder(at) {
			return nil, false, false
		}
	}
	return t.b, t.found, true
}

// folders walks the folders of a TIFF structure.
type folders struct {
	b     []byte
	order binary.ByteOrder
	queue []uint32
	seen  map[uint32]bool
	found bool
}

// entries returns how many entries a folder has, false where it does not lie
// inside the block.
func (t *folders) entries(at uint32) (int, bool) {
	if int64(at)+2 > int64(len(t.b)) {
		return 0, false
	}
	n := int(t.order.Uint16(t.b[at:]))
	return n, int64(at)+2+12*int64(n) <= int64(len(t.b))
}

// folder takes the GPS entry out of one folder and queues those it leads to.
func (t *folders) folder(at uint32) bool {
	n, ok := t.entries(at)
	if !ok {
		return false
	}
	for i := 0; i < n; {
		entry := int(at) + 2 + 12*i
		tag, value := t.order.Uint16(t.b[entry:]), t.order.Uint32(t.b[entry+8:])
		switch tag {
		case tagGPS:
			t.found = true
			t.erase(value)
			t.remove(int(at), entry, n)
			n--
			continue
		case tagEXIF, tagInterop:
			t.queue = append(t.queue, value)
		case tagSubFolders:
			t.subFolders(entry)
		}
		i++
	}
	if next := int(at) + 2 + 12*n; next+4 <= len(t.b) {
		t.queue = append(t.queue, t.order.Uint32(t.b[next:]))
	}
	return true
}

// remove closes the gap of an entry: those after it and the offset of the next
// folder move up.
func (t *folders) remove(at, entry, n int) {
	end := min(at+2+12*n+4, len(t.b))
	moved := copy(t.b[entry:], t.b[entry+12:end])
	clear(t.b[entry+moved : end])
	t.order.PutUint16(t.b[at:], uint16(n-1))
}

// subFolders queues one or several folders that an entry lists.
func (t *folders) subFolders(entry int) {
	count, value := t.order.Uint32(t.b[entry+4:]), t.order.Uint32(t.b[entry+8:])
	if count == 1 {
		t.queue = append(t.queue, value)
		return
	}
	for i := range int64(min(count, maxFolders)) {
		if at := int64(value) + 4*i; at+4 <= int64(len(t.b)) {
			t.queue = append(t.queue, t.order.Uint32(t.b[at:]))
		}
	}
}

// typeBytes is the size of one value of each TIFF type.
var typeBytes = map[uint16]int64{1: 1, 2: 1, 3: 2, 4: 4, 5: 8, 6: 1, 7: 1, 8: 2, 9: 4, 10: 8, 11: 4, 12: 8, 13: 4, 129: 1}

// erase overwrites a folder and the values that it points to with zeros.
func (t *folders) erase(at uint32) {
	n, ok := t.entries(at)
	if !ok {
		return
	}
	for i := range n {
		entry := t.b[int(at)+2+12*i:]
		size := typeBytes[t.order.Uint16(entry[2:])] * int64(t.order.Uint32(entry[4:]))
		from := int64(t.order.Uint32(entry[8:]))
		if size > 4 && from < int64(len(t.b)) {
			clear(t.b[from:min(from+size, int64(len(t.b)))])
		}
	}
	clear(t.b[at:min(int(at)+2+12*n, len(t.b))])
}
