package output

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"iter"
	"os"
	"path"
	"path/filepath"
	"time"
)

// former is the site that stands in the output folder before a run.
type former struct {
	exists bool
	mode   fs.FileMode
	files  map[string]listed // what its list names
	list   []byte            // the list itself, nil where there is none
	listed time.Time         // when the list was written
}

// readFormer reads what stands in the output folder, and refuses a folder that
// holds files but no list of ours.
func (w *writer) readFormer() (former, error) {
	info, err := w.disk.Lstat(w.home)
	if os.IsNotExist(err) {
		return former{}, nil
	}
	if err != nil {
		return former{}, failed(w.home, "cannot be looked at", err)
	}
	old := former{exists: true, mode: info.Mode() & (fs.ModePerm | fs.ModeSetgid | fs.ModeSticky)}
	name := filepath.Join(w.home, ListName)
	info, err = w.disk.Lstat(name)
	if os.IsNotExist(err) {
		return old, w.mustBeEmpty()
	}
	if err == nil && !info.Mode().IsRegular() {
		err = fmt.Errorf("%s is not a plain file", ListName)
	}
	if err == nil {
		old.list, err = w.disk.ReadFile(name)
	}
	if err != nil {
		return old, failed(name, "cannot read the list of written files", err)
	}
	old.listed = info.ModTime()
	old.files, err = parseList(old.list)
	if err != nil {
		return old, &Refusal{Path: name, Says: "the list of written files is damaged", Err: err,
			Remedy: "so it is not known which files may be replaced; move the folder away and run again"}
	}
	return old, nil
}

func (w *writer) mustBeEmpty() error {
	entries, err := w.disk.ReadDir(w.home)
	if err != nil {
		return failed(w.home, "cannot be listed", err)
	}
	if len(entries) == 0 {
		return nil
	}
	return &Refusal{Path: w.home, Says: fmt.Sprintf("is not empty (it holds %s), and what is in there was not written by spruelight", some(entries)),
		Remedy: "choose a new folder with --out; files moved into that one afterwards are kept"}
}

// some names the first few entries of a folder.
func some(entries []fs.DirEntry) string {
	const most = 3
	text := ""
	for i, e := range entries {
		switch {
		case i == most:
			return text + " and more"
		case i > 0:
			text += ", "
		}
		text += e.Name()
	}
	return text
}

// plan says what becomes of every file of the new site.
type plan struct {
	files   []File
	keep    []bool // the same index: stands unchanged in the former site
	list    []byte // the new list
	nothing bool   // the former site is the new one already
}

// compare finds what the new site shares with the former one. A file is kept
// when the list says so and the file on the disk is still the one listed.
func (w *writer) compare(ctx context.Context, files []File, old former) (plan, error) {
	p := plan{files: files, keep: make([]bool, len(files))}
	lines := make([]listed, len(files))
	started := time.Now()
	refresh := false
	for i := range files {
		f := &p.files[i]
		if err := ctx.Err(); err != nil {
			return p, context.Cause(ctx)
		}
		if err := f.sum(); err != nil {
			return p, err
		}
		lines[i] = listed{f.Path, f.Size, f.Hash}
		was, known := old.files[f.Path]
		if !known {
			continue
		}
		now, later, err := w.stateOf(w.home, was, old.listed)
		switch {
		case err != nil:
			return p, err
		case now != stands:
			w.rep.Replaced = append(w.rep.Replaced, f.Path)
		case was == lines[i]:
			p.keep[i] = true
			refresh = refresh || later
		}
	}
	p.list = formatList(lines)
	w.count(p, old)
	p.nothing = old.exists && w.rep.Written == 0 && w.rep.Removed == 0 && string(p.list) == string(old.list)
	if p.nothing && refresh {
		// Files that were copied here look younger than the list. They have
		// just been compared byte for byte; a younger list spares the next run
		// that. The second leaves room for coarse clocks.
		_ = w.disk.Chtimes(filepath.Join(w.home, ListName), started.Add(-time.Second))
	}
	return p, nil
}

// state is what has become of a file that the list names.
type state int

const (
	stands  state = iota // as it was written
	changed              // somebody put something else in its place
	gone
)

// stateOf looks at a listed file of a folder whose list was written last, at
// the time written. A file that is older than the list and of the right size
// stands; one that is younger, or of the same tick of the clock, is compared by
// its sum. later is true for a file younger than the list.
func (w *writer) stateOf(folder string, was listed, written time.Time) (s state, later bool, err error) {
	name := w.at(folder, was.path)
	info, err := w.disk.Lstat(name)
	switch {
	case isMissing(err):
		return gone, false, nil
	case err != nil:
		return changed, false, failed(name, "cannot be looked at", err)
	case !info.Mode().IsRegular() || info.Size() != was.size:
		return changed, false, nil
	case info.ModTime().Before(written):
		return stands, false, nil
	}
	r, err := w.disk.Open(name)
	if err != nil {
		return changed, false, failed(name, "cannot be read", err)
	}
	defer r.Close()
	_, sum, err := sumOf(r)
	if err != nil {
		return changed, false, failed(name, "cannot be read", err)
	}
	if sum != was.sum {
		return changed, false, nil
	}
	return stands, info.ModTime().After(written), nil
}

// isMissing reports that a path leads nowhere, also where a file stands in the
// place of one of its folders.
func isMissing(err error) bool {
	return errors.Is(err, fs.ErrNotExist) || errors.Is(err, errNotFolder)
}

func (w *writer) count(p plan, old former) {
	now := make(map[string]bool, len(p.files))
	for i, f := range p.files {
		now[f.Path] = true
		if p.keep[i] {
			w.rep.Kept++
			continue
		}
		w.rep.Written++
		w.rep.Bytes += f.Size
	}
	for name := range old.files {
		if !now[name] {
			w.rep.Removed++
		}
	}
}

// paths goes through the paths of files.
func paths(files []File) iter.Seq[string] {
	return func(yield func(string) bool) {
		for i := range files {
			if !yield(files[i].Path) {
				return
			}
		}
	}
}

// folders returns every folder above the given paths.
func folders(paths iter.Seq[string]) map[string]bool {
	dirs := map[string]bool{}
	for p := range paths {
		for d := path.Dir(p); d != "." && !dirs[d]; d = path.Dir(d) {
			dirs[d] = true
		}
	}
	return dirs
}
