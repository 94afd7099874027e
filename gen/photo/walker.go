package photo

import (
	"bufio"
	"encoding/binary"
	"errors"
	"io"
)

// errBroken marks a header that contradicts its format.
var errBroken = errors.New("not as the format demands")

// walker reads forward through a file and skips what is not wanted by seeking.
type walker struct {
	r    io.ReadSeeker
	buf  *bufio.Reader
	pos  int64
	size int64
}

// peek returns up to n of the next bytes; fewer at the end of the file.
func (w *walker) peek(n int) ([]byte, error) {
	b, err := w.buf.Peek(n)
	if err == io.EOF {
		err = nil
	}
	return b, err
}

// take returns the next n bytes, valid until the next call.
func (w *walker) take(n int) ([]byte, error) {
	b, err := w.buf.Peek(n)
	if err != nil {
		return nil, err
	}
	_, err = w.buf.Discard(n)
	w.pos += int64(n)
	return b, err
}

// keep returns a copy of the next n bytes.
func (w *walker) keep(n int64) ([]byte, error) {
	if n > w.size-w.pos {
		return nil, io.ErrUnexpectedEOF
	}
	b := make([]byte, n)
	read, err := io.ReadFull(w.buf, b)
	w.pos += int64(read)
	return b, err
}

// skip passes over n bytes.
func (w *walker) skip(n int64) error {
	if n > w.size-w.pos {
		return io.ErrUnexpectedEOF
	}
	w.pos += n
	if n <= int64(w.buf.Buffered()) {
		_, err := w.buf.Discard(int(n))
		return err
	}
	_, err := w.r.Seek(n-int64(w.buf.Buffered()), io.SeekCurrent)
	w.buf.Reset(w.r)
	return err
}

func (w *walker) uint8() (int, error) {
	b, err := w.take(1)
	if err != nil {
		return 0, err
	}
	return int(b[0]), nil
}

func (w *walker) uint16() (int, error) {
	b, err := w.take(2)
	if err != nil {
		return 0, err
	}
	return int(binary.BigEndian.Uint16(b)), nil
}
