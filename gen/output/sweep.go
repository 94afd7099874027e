package output

import (
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path"
	"path/filepath"

	"spruelight/gen/source"
)

// clearAway empties the folder that now holds the former site: what is ours is
// removed, what is not goes home to the new site.
func (w *writer) clearAway(aside string) error {
	err := w.disk.SyncDir(filepath.Dir(w.home))
	if err == nil {
		err = w.sweep(aside)
	}
	if err == nil {
		err = ignoreMissing(w.disk.Remove(beside(w.home, notePurpose)))
	}
	if err == nil {
		return nil
	}
	return &Refusal{Path: w.home, Says: "the new site is in place, but the former one in " + aside + " could not be cleared away",
		Remedy: "run again, or look into that folder yourself", Err: err}
}

// sweep is clearAway without the words around it. It can be begun again at any
// point, since the list of the former site goes last.
func (w *writer) sweep(aside string) error {
	s := sweeper{writer: w, aside: aside}
	var err error
	if s.old, err = readList(w.disk, aside); err != nil {
		return err
	}
	if s.now, err = readList(w.disk, w.home); err != nil {
		return err
	}
	s.oldDirs = folders(maps.Keys(s.old.files))
	s.taken = make(map[string]bool, len(s.now.files))
	for p := range s.now.files {
		s.taken[source.Fold(p)] = true
	}
	if err := s.folder(""); err != nil {
		return err
	}
	if err := ignoreMissing(w.disk.Remove(filepath.Join(aside, ListName))); err != nil {
		return err
	}
	return ignoreMissing(w.disk.Remove(aside))
}

// readList reads the list of one of our folders; without one nothing in it is
// ours.
func readList(d disk, folder string) (former, error) {
	name := filepath.Join(folder, ListName)
	info, err := d.Lstat(name)
	if os.IsNotExist(err) {
		return former{}, nil
	}
	if err != nil {
		return former{}, err
	}
	data, err := d.ReadFile(name)
	if err != nil {
		return former{}, err
	}
	files, err := parseList(data)
	if err != nil {
		return former{}, fmt.Errorf("%s: %w", name, err)
	}
	return former{exists: true, files: files, list: data, listed: info.ModTime()}, nil
}

type sweeper struct {
	*writer
	aside    string
	old, now former
	oldDirs  map[string]bool
	taken    map[string]bool // folded paths of the new site
}

func (s *sweeper) folder(dir string) error {
	entries, err := s.disk.ReadDir(s.at(s.aside, dir))
	if err != nil {
		return err
	}
	for _, e := range entries {
		p := path.Join(dir, e.Name())
		if p == ListName {
			continue
		}
		if err := s.entry(p, e.IsDir()); err != nil {
			return err
		}
	}
	return nil
}

func (s *sweeper) entry(p string, isDir bool) error {
	from, home := s.at(s.aside, p), s.at(s.home, p)
	if !isDir {
		ours, err := s.ours(p)
		if err != nil {
			return err
		}
		if ours {
			return ignoreMissing(s.disk.Remove(from))
		}
		return s.bringHome(p, from, home)
	}
	there, err := s.disk.Lstat(home)
	if !s.oldDirs[p] && os.IsNotExist(err) {
		return s.bringHome(p, from, home)
	}
	if !s.oldDirs[p] && (err != nil || !there.IsDir()) {
		return s.inTheWay(from, home, err)
	}
	if err := s.folder(p); err != nil {
		return err
	}
	return ignoreMissing(s.disk.Remove(from))
}

// ours reports whether a file of the former site may go: the list names it, and
// the new site has another in its place or nobody changed it.
func (s *sweeper) ours(p string) (bool, error) {
	was, listed := s.old.files[p]
	if !listed {
		return false, nil
	}
	if s.taken[source.Fold(p)] {
		return true, nil
	}
	now, _, err := s.stateOf(s.aside, was, s.old.listed)
	return now != changed, err
}

// bringHome moves a guest into the new site. One that was linked there before
// the swap is only taken away here, unless it was changed in between: then the
// one that stood in the output folder wins.
func (s *sweeper) bringHome(p, from, home string) error {
	there, err := s.disk.Lstat(home)
	if err == nil {
		if s.taken[source.Fold(p)] || there.IsDir() {
			return s.inTheWay(from, home, nil)
		}
		here, e := s.disk.Lstat(from)
		if e != nil {
			return e
		}
		if os.SameFile(here, there) {
			return s.disk.Remove(from) // two names of one file: renaming would keep both
		}
	} else if !os.IsNotExist(err) {
		return err
	}
	if err := s.makeParents(path.Dir(p)); err != nil {
		return err
	}
	return s.disk.Rename(from, home)
}

// makeParents makes a folder of the new site with those above it. Even the
// output folder itself may have been removed since the swap.
func (s *sweeper) makeParents(dir string) error {
	if dir != "." {
		if err := s.makeParents(path.Dir(dir)); err != nil {
			return err
		}
	}
	err := s.disk.Mkdir(s.at(s.home, dir))
	if errors.Is(err, fs.ErrExist) {
		return nil
	}
	return err
}

func (s *sweeper) inTheWay(from, home string, err error) error {
	return &Refusal{Path: from, Says: "appeared while the site was being written and cannot be moved to " + home + ", where the new site has a file", Remedy: "move it away yourself", Err: err}
}
