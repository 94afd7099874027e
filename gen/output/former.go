package output

import (
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
	disk   disk
	dir    string
	exists bool
	mode   fs.FileMode
	files  map[string]listed // what its list names
	list   []byte            // the list itself, nil where there is none
	listed time.Time         // when the list was written
}

// readFormer reads what stands in the output folder, and refuses a folder that
// holds files but no list of ours.
func readFormer(d disk, home string) (former, error) {
	old := former{disk: d, dir: home}
	info, err := d.Lstat(home)
	if os.IsNotExist(err) {
		return old, nil
	}
	if err != nil {
		return old, failed(home, "cannot be looked at", err)
	}
	old.exists, old.mode = true, info.Mode()&(fs.ModePerm|fs.ModeSetgid|fs.ModeSticky)
	name := filepath.Join(home, ListName)
	info, err = d.Lstat(name)
	if os.IsNotExist(err) {
		return old, mustBeEmpty(d, home)
	}
	if err == nil && !info.Mode().IsRegular() {
		err = fmt.Errorf("%s is not a plain file", ListName)
	}
	if err == nil {
		old.list, err = d.ReadFile(name)
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

func mustBeEmpty(d disk, home string) error {
	entries, err := d.ReadDir(home)
	if err != nil {
		return failed(home, "cannot be listed", err)
	}
	if len(entries) == 0 {
		return nil
	}
	return &Refusal{Path: home,
		Says:   fmt.Sprintf("is not empty (it holds %s), and what is in there was not written by spruelight", some(entries)),
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

// without counts the files that the new site does not have.
func (f *former) without(now []listed) int {
	n := len(f.files)
	for i := range now {
		if _, ok := f.files[now[i].path]; ok {
			n--
		}
	}
	return n
}

// state is what has become of a file that the list names.
type state int

const (
	stands  state = iota // as it was written
	changed              // somebody put something else in its place
	gone
)

// state looks at a listed file. The list was written last: a file that is older
// and of the right size stands; one that is younger, or of the same tick of the
// clock, is compared by its sum. later is true for a file younger than the list.
func (f *former) state(was listed) (s state, later bool, err error) {
	name := at(f.dir, was.path)
	info, err := f.disk.Lstat(name)
	switch {
	case isMissing(err):
		return gone, false, nil
	case err != nil:
		return changed, false, failed(name, "cannot be looked at", err)
	case !info.Mode().IsRegular() || info.Size() != was.size:
		return changed, false, nil
	case info.ModTime().Before(f.listed):
		return stands, false, nil
	}
	r, err := f.disk.Open(name)
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
	return stands, info.ModTime().After(f.listed), nil
}

// isMissing reports that a path leads nowhere, also where a file stands in the
// place of one of its folders.
func isMissing(err error) bool {
	return errors.Is(err, fs.ErrNotExist) || errors.Is(err, errNotFolder)
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
