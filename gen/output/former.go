package output

import (
	"context"
	"fmt"
	"io/fs"
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
	old := former{exists: true, mode: info.Mode().Perm()}
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
		stands, later := w.stands(w.home, was, old.listed)
		switch {
		case !stands:
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

// stands reports whether a file listed for a folder is still as it was written.
// One that is older than the list and of the right size is; one that is
// younger, or of the same tick of the clock, is compared by its sum. The list
// is written last. later is true for a file younger than the list.
func (w *writer) stands(folder string, was listed, written time.Time) (stands, later bool) {
	name := filepath.Join(folder, filepath.FromSlash(was.path))
	info, err := w.disk.Lstat(name)
	if err != nil || !info.Mode().IsRegular() || info.Size() != was.size {
		return false, false
	}
	if info.ModTime().Before(written) {
		return true, false
	}
	r, err := w.disk.Open(name)
	if err != nil {
		return false, false
	}
	defer r.Close()
	_, sum, err := sumOf(r)
	return err == nil && sum == was.sum, info.ModTime().After(written)
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

// folders returns every folder above the given paths.
func folders(paths func(yield func(string) bool)) map[string]bool {
	dirs := map[string]bool{}
	for p := range paths {
		for d := path.Dir(p); d != "." && !dirs[d]; d = path.Dir(d) {
			dirs[d] = true
		}
	}
	return dirs
}
