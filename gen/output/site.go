package output

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"spruelight/gen/source"
)

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
	Waiting  func(Holder)  // told once when the run has to wait; may be nil
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

// Write makes dir hold exactly the given site, besides what others put there.
// Where all is as it should be, it writes nothing. On an error before the swap
// the former site stands as it was; ctx is heeded until then. Errors are
// Refusals, except those of ctx and of Open.
func Write(ctx context.Context, dir string, files []File, opts Options) (Report, error) {
	w := writer{disk: realDisk{}, opts: opts}
	return w.write(ctx, dir, files)
}

// writer is one run of Write.
type writer struct {
	disk disk
	opts Options
	home string // the output folder, absolute, links followed
	rep  Report
}

func (w *writer) write(ctx context.Context, dir string, files []File) (Report, error) {
	files, err := arrange(files)
	if err != nil {
		return w.rep, err
	}
	if w.home, err = locate(dir); err != nil {
		return w.rep, err
	}
	if err := keepApart(dir, w.home, w.opts); err != nil {
		return w.rep, err
	}
	if err := os.MkdirAll(filepath.Dir(w.home), 0o777); err != nil {
		return w.rep, failed(filepath.Dir(w.home), "cannot make this folder", err)
	}
	release, err := lock(ctx, w.home, waiting{w.opts.Wait, w.opts.Waiting})
	if err != nil {
		return w.rep, err
	}
	defer release()
	return w.rep, w.underLock(ctx, files)
}

func (w *writer) underLock(ctx context.Context, files []File) error {
	if err := w.recover(); err != nil {
		return err
	}
	old, err := w.readFormer()
	if err != nil {
		return err
	}
	plan, err := w.compare(ctx, files, old)
	if err != nil || plan.nothing {
		return err
	}
	stage, err := w.stage(ctx, plan, old)
	if err != nil {
		return err
	}
	return w.swap(stage)
}

// arrange checks the paths and returns the files in their order, with sizes.
func arrange(files []File) ([]File, error) {
	paths := make([]string, len(files))
	out := slices.Clone(files)
	for i := range out {
		f := &out[i]
		paths[i] = f.Path
		if f.Open == nil {
			f.Size = int64(len(f.Bytes))
		}
		if f.Hash != "" && !isSum(f.Hash) {
			return nil, fmt.Errorf("file %q comes with %q, which is not a SHA-256 in lower-case hexadecimal", f.Path, f.Hash)
		}
		if strings.HasPrefix(source.Fold(f.Path), ListName) {
			return nil, fmt.Errorf("file path %q begins with %s, which is kept for the list of written files", f.Path, ListName)
		}
	}
	if err := source.CheckPaths(paths); err != nil {
		return nil, err
	}
	slices.SortFunc(out, func(a, b File) int { return strings.Compare(a.Path, b.Path) })
	return out, nil
}

// open returns the content of the file.
func (f *File) open() (io.ReadCloser, error) {
	if f.Open == nil {
		return io.NopCloser(bytes.NewReader(f.Bytes)), nil
	}
	r, err := f.Open()
	if err != nil {
		return nil, fmt.Errorf("reading what becomes %s: %w", f.Path, err)
	}
	return r, nil
}

// sum fills in Hash where it is not known, reading the content once.
func (f *File) sum() error {
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
		return fmt.Errorf("reading what becomes %s: %w", f.Path, err)
	}
	f.Size, f.Hash = n, sum
	return nil
}

func sumOf(r io.Reader) (int64, string, error) {
	h := sha256.New()
	n, err := io.Copy(h, r)
	return n, hex.EncodeToString(h.Sum(nil)), err
}
