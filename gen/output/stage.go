package output

import (
	"context"
	"crypto/rand"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"path"
	"path/filepath"
	"sync"
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

// stage is a new site on its way: a hidden folder beside the output folder.
type stage struct {
	disk disk
	home string // the output folder, which messages name
	dir  string

	mu   sync.Mutex
	made map[string]bool // folders that are there
}

// openStage makes an empty stage with the permissions of the former site.
func openStage(d disk, home string, old *former) (*stage, error) {
	dir, err := newStage(d, home)
	if err != nil {
		return nil, err
	}
	s := &stage{disk: d, home: home, dir: dir, made: map[string]bool{".": true}}
	if !old.exists {
		return s, nil
	}
	// First, so that what is made inside inherits a shared group.
	return s, failed(dir, "cannot set the permissions", d.Chmod(dir, old.mode))
}

// complete adds to what was written what stays: files of the former site,
// guests, and the list.
func (s *stage) complete(ctx context.Context, old *former, lines []line, guests []string, list []byte) error {
	for i := range lines {
		if ctx.Err() != nil {
			return context.Cause(ctx)
		}
		if !lines[i].keep {
			continue
		}
		if err := s.take(old, lines[i].listed); err != nil {
			return err
		}
	}
	for _, g := range guests {
		if err := s.folder(path.Dir(g)); err != nil {
			return err
		}
		// Where no link can be made, the file is moved right after the swap.
		_ = s.disk.Link(at(s.home, g), at(s.dir, g))
	}
	name := filepath.Join(s.dir, ListName)
	return failed(name, "cannot write the list of written files", writeFile(s.disk, name, list))
}

// folder makes a folder of the site with those above it.
func (s *stage) folder(dir string) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.makeFolder(dir)
}

func (s *stage) makeFolder(dir string) error {
	if s.made[dir] {
		return nil
	}
	if err := s.makeFolder(path.Dir(dir)); err != nil {
		return err
	}
	if err := s.disk.Mkdir(at(s.dir, dir)); err != nil {
		return failed(at(s.home, dir), "cannot make this folder", err)
	}
	s.made[dir] = true
	return nil
}

// take links a file of the former site, or copies it where no link can be made.
// Much time may have passed since it was looked at.
func (s *stage) take(old *former, was listed) error {
	if err := s.folder(path.Dir(was.path)); err != nil {
		return err
	}
	from, to := at(s.home, was.path), at(s.dir, was.path)
	now, _, err := old.state(was)
	if err != nil {
		return err
	}
	if now != stands {
		return &Refusal{Path: from, Says: "was changed while the new site was being made", Remedy: "run again"}
	}
	if s.disk.Link(from, to) == nil {
		return nil
	}
	info, statErr := s.disk.Lstat(from)
	r, err := s.disk.Open(from)
	if err != nil {
		return failed(from, "cannot be read", err)
	}
	defer r.Close()
	src := sourceReader{r, func(err error) error { return failed(from, "cannot be read", err) }}
	if err := s.fill(was, src); err != nil {
		return err
	}
	if statErr == nil {
		_ = s.disk.Chtimes(to, info.ModTime()) // the content is what counts
	}
	return nil
}

// write writes a file of the site.
func (s *stage) write(f *File) error {
	if err := s.folder(path.Dir(f.Path)); err != nil {
		return err
	}
	r, err := f.open()
	if err != nil {
		return err
	}
	defer r.Close()
	src := io.Reader(r)
	if f.Open != nil {
		src = sourceReader{r, f.unread}
	}
	return s.fill(listed{f.Path, f.Size, f.Hash}, src)
}

// buffers serve one file after the other: thousands of new ones would keep the
// collector busy.
var buffers = sync.Pool{New: func() any { return new([32 << 10]byte) }}

// fill writes content and checks that it is what was promised, so that a source
// that changes while it is read cannot give a torn page.
func (s *stage) fill(f listed, src io.Reader) error {
	out, err := s.disk.Create(at(s.dir, f.path))
	if err != nil {
		return failed(at(s.home, f.path), "cannot be written", err)
	}
	h := sha256.New()
	buffer := buffers.Get().(*[32 << 10]byte)
	defer buffers.Put(buffer)
	n, err := io.CopyBuffer(io.MultiWriter(out, h), src, buffer[:])
	if e := out.Close(); err == nil {
		err = e
	}
	if src, ok := err.(sourceError); ok {
		return src.error
	}
	if err != nil {
		return failed(at(s.home, f.path), "cannot be written", err)
	}
	if sum := hex.EncodeToString(h.Sum(nil)); n != f.size || sum != f.sum {
		return &Refusal{Path: f.path, Remedy: "run again",
			Says: fmt.Sprintf("its content changed while it was read, or does not have the size and sum given for it (%d bytes, SHA-256 %.12s…)",
				f.size, f.sum)}
	}
	return nil
}

func writeFile(d disk, name string, data []byte) error {
	out, err := d.Create(name)
	if err != nil {
		return err
	}
	_, err = out.Write(data)
	if e := out.Close(); err == nil {
		err = e
	}
	return err
}

// at returns the place of a path of the site in a folder.
func at(folder, p string) string { return filepath.Join(folder, filepath.FromSlash(p)) }

// sourceReader marks errors of the content, to tell them from those of the disk.
type sourceReader struct {
	r       io.Reader
	explain func(error) error
}

type sourceError struct{ error }

func (s sourceReader) Read(p []byte) (int, error) {
	n, err := s.r.Read(p)
	if err != nil && err != io.EOF {
		err = sourceError{s.explain(err)}
	}
	return n, err
}
