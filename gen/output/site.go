package output

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"
)

// Site takes the files of a site as they are made. Several may be given at
// once, in any order, before Swap is called.
type Site interface {
	// Put adds a file. After an error the site cannot be swapped any more.
	Put(File) error

	// Keep adds the file that the former site has at the path, if it stands
	// there as it was written and its sum is the one given. Otherwise the error
	// is of ErrNotKept, and the file can still be put.
	Keep(path, hash string) error

	// Swap makes the files that were given the site, besides what others put
	// there. Errors are Refusals, except those of a context and of File.Open.
	Swap() (Report, error)
}

// ErrNotKept says that the former site does not have the file that was to be
// kept.
var ErrNotKept = errors.New("the former site has no such file")

// File is one file of a site. Its content is Bytes, or what Open returns where
// Open is set (a rendition in the photo cache, say).
type File struct {
	Path  string // relative, forward slashes; see source.ValidPath
	Bytes []byte
	Open  func() (io.ReadCloser, error)
	Size  int64  // bytes behind Open; not used with Bytes
	Hash  string // SHA-256 of the content, lower-case hexadecimal; "" if not known. With it, unchanged content is not read
}

// Options say what an output folder must keep away from, and how two runs on
// one folder get on.
type Options struct {
	Forbid   []string      // the output must neither be, hold nor lie in these: content, theme, cache
	Workshop string        // the output may lie in it, but neither be nor hold it; may be ""
	Wait     time.Duration // how long to wait for another run: 0 is a minute, negative not at all
	Waiting  func(Holder)  // called once when the run has to wait; may be nil
}

// Report counts what a run did, or was about to do where it comes with an error.
type Report struct {
	Written   int      // files new or changed
	Kept      int      // files left as they were
	Removed   int      // files of the former site that the new one does not have
	Bytes     int64    // bytes written
	Replaced  []string // files of ours that somebody had changed or removed, now as the site has them
	Recovered bool     // a run that was cut off had left something, which was put right first
}

// Write makes dir hold exactly the given site, besides what others put there:
// it is a Writer for files that are all there already.
func Write(ctx context.Context, dir string, files []File, opts Options) (Report, error) {
	return New(ctx, dir, opts).write(files)
}

func (w *Writer) write(files []File) (Report, error) {
	defer w.Close()
	files = slices.Clone(files)
	slices.SortFunc(files, func(a, b File) int { return strings.Compare(a.Path, b.Path) })
	for _, f := range files {
		if err := w.Put(f); err != nil {
			return w.rep, err
		}
	}
	return w.Swap()
}

// check finds what is wrong with a file besides its name.
func (f *File) check() error {
	if f.Hash != "" && !isSum(f.Hash) {
		return fmt.Errorf("file %q comes with %q, which is not a SHA-256 in lower-case hexadecimal", f.Path, f.Hash)
	}
	return nil
}

// open returns the content of the file.
func (f *File) open() (io.ReadCloser, error) {
	if f.Open == nil {
		return io.NopCloser(bytes.NewReader(f.Bytes)), nil
	}
	r, err := f.Open()
	if err != nil {
		return nil, f.unread(err)
	}
	return r, nil
}

// unread explains an error of the content.
func (f *File) unread(err error) error {
	return fmt.Errorf("reading what becomes %s: %w", f.Path, err)
}

// sum fills in Size and Hash where they are not known, reading the content once.
func (f *File) sum() error {
	if f.Open == nil {
		f.Size = int64(len(f.Bytes))
	}
	if f.Hash != "" {
		return nil
	}
	r, err := f.open()
	if err != nil {
		return err
	}
	defer r.Close()
	n, sum, err := sumOf(r)
	if err != nil {
		return f.unread(err)
	}
	f.Size, f.Hash = n, sum
	return nil
}

func sumOf(r io.Reader) (int64, string, error) {
	h := sha256.New()
	n, err := io.Copy(h, r)
	return n, hex.EncodeToString(h.Sum(nil)), err
}
