package output

import (
	"context"
	"crypto/rand"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"maps"
	"path/filepath"
	"slices"
)

// newStage makes an empty hidden folder beside the target.
func newStage(d disk, target string) (string, error) {
	stage := beside(target, stagePurpose) + stageID()
	if err := d.Mkdir(stage); err != nil {
		return "", failed(filepath.Dir(target), "cannot prepare "+filepath.Base(target)+" in this folder", err)
	}
	return stage, nil
}

const stagePurpose = "staging-"

// stageID returns what tells one stage from another: 16 hexadecimal digits.
func stageID() string {
	var id [8]byte
	rand.Read(id[:]) // never fails, says crypto/rand
	return hex.EncodeToString(id[:])
}

// stage builds the whole new site in a folder beside the old one.
func (w *writer) stage(ctx context.Context, p plan, old former) (string, error) {
	guests, err := w.guests(p, old)
	if err != nil {
		return "", err
	}
	stage, err := newStage(w.disk, w.home)
	if err != nil {
		return "", err
	}
	if old.exists {
		// First, so that what is made inside inherits a shared group.
		err = failed(stage, "cannot set the permissions", w.disk.Chmod(stage, old.mode))
	}
	if err == nil {
		err = w.fill(ctx, stage, p, guests)
	}
	if err != nil {
		_ = removeAll(w.disk, stage) // else the next run does
		return "", err
	}
	return stage, nil
}

func (w *writer) fill(ctx context.Context, stage string, p plan, guests []string) error {
	if err := w.makeFolders(stage, p.files, guests); err != nil {
		return err
	}
	for i := range p.files {
		if ctx.Err() != nil {
			return context.Cause(ctx)
		}
		if err := w.place(stage, &p.files[i], p.keep[i]); err != nil {
			return err
		}
	}
	for _, g := range guests {
		// Where no link can be made, the file is moved right after the swap.
		_ = w.disk.Link(w.at(w.home, g), w.at(stage, g))
	}
	name := filepath.Join(stage, ListName)
	return failed(name, "cannot write the list of written files", w.writeFile(name, p.list))
}

func (w *writer) makeFolders(stage string, files []File, guests []string) error {
	dirs := folders(paths(files))
	maps.Copy(dirs, folders(slices.Values(guests)))
	for _, d := range slices.Sorted(maps.Keys(dirs)) {
		if err := w.disk.Mkdir(w.at(stage, d)); err != nil {
			return failed(w.at(w.home, d), "cannot make this folder", err)
		}
	}
	return nil
}

// place puts one file of the site into the stage: linked where it is kept,
// written where it is new or no link can be made.
func (w *writer) place(stage string, f *File, keep bool) error {
	to := w.at(stage, f.Path)
	if !keep {
		return w.writeNew(to, f)
	}
	from := w.at(w.home, f.Path)
	if w.disk.Link(from, to) == nil {
		return nil
	}
	info, statErr := w.disk.Lstat(from)
	if err := w.writeNew(to, f); err != nil {
		return err
	}
	if statErr == nil {
		_ = w.disk.Chtimes(to, info.ModTime()) // the content is what counts
	}
	return nil
}

// writeNew writes the content of f and checks that it is what was promised, so
// that a source that changes while it is read cannot give a torn page.
func (w *writer) writeNew(to string, f *File) error {
	r, err := f.open()
	if err != nil {
		return err
	}
	defer r.Close()
	out, err := w.disk.Create(to)
	if err != nil {
		return failed(w.at(w.home, f.Path), "cannot be written", err)
	}
	src := io.Reader(r)
	if f.Open != nil {
		src = sourceReader{r, f.Path}
	}
	h := sha256.New()
	n, err := io.Copy(io.MultiWriter(out, h), src)
	if e := out.Close(); err == nil {
		err = e
	}
	if src, ok := asSourceError(err); ok {
		return src
	}
	if err != nil {
		return failed(w.at(w.home, f.Path), "cannot be written", err)
	}
	if sum := hex.EncodeToString(h.Sum(nil)); n != f.Size || sum != f.Hash {
		return &Refusal{Path: f.Path, Says: fmt.Sprintf("its content changed while it was read, or does not have the size and sum given for it (%d bytes, SHA-256 %.12s…)", f.Size, f.Hash), Remedy: "run again"}
	}
	return nil
}

func (w *writer) writeFile(name string, data []byte) error {
	out, err := w.disk.Create(name)
	if err != nil {
		return err
	}
	_, err = out.Write(data)
	if e := out.Close(); err == nil {
		err = e
	}
	return err
}

func (w *writer) at(folder, p string) string {
	return filepath.Join(folder, filepath.FromSlash(p))
}

// sourceReader marks errors of the content, to tell them from those of the disk.
type sourceReader struct {
	r    io.Reader
	path string
}

type sourceError struct{ error }

func (s sourceReader) Read(p []byte) (int, error) {
	n, err := s.r.Read(p)
	if err != nil && err != io.EOF {
		err = sourceError{fmt.Errorf("reading what becomes %s: %w", s.path, err)}
	}
	return n, err
}

func asSourceError(err error) (error, bool) {
	src, ok := err.(sourceError)
	if !ok {
		return nil, false
	}
	return src.error, true
}
