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
func clearAway(d disk, home, aside string) error {
	err := d.SyncDir(filepath.Dir(home))
	if err == nil {
		s := sweeper{disk: d, home: home, aside: aside}
		err = s.sweep()
	}
	if err == nil {
		err = ignoreMissing(d.Remove(beside(home, notePurpose)))
	}
	if err == nil {
		return nil
	}
	return &Refusal{Path: home, Says: "the new site is in place, but the former one in " + aside + " could not be cleared away",
		Remedy: "run again, or look into that folder yourself", Err: err}
}

// sweeper works on the former site, which was set aside.
type sweeper struct {
	disk     disk
	home     string
	aside    string
	old, now former
	oldDirs  map[string]bool
	taken    map[string]bool // folded paths of the new site
}

// sweep is clearAway without the words around it. It can be begun again at any
// point, since the list of the former site goes last.
func (s *sweeper) sweep() error {
	var err error
	if s.old, err = readList(s.disk, s.aside); err != nil {
		return err
	}
	if s.now, err = readList(s.disk, s.home); err != nil {
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
	if err := ignoreMissing(s.disk.Remove(filepath.Join(s.aside, ListName))); err != nil {
		return err
	}
	return ignoreMissing(s.disk.Remove(s.aside))
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
	return former{disk: d, dir: folder, exists: true, files: files, list: data, listed: info.ModTime()}, nil
}

func (s *sweeper) folder(dir string) error {
	entries, err := s.disk.ReadDir(at(s.aside, dir))
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
	from, home := at(s.aside, p), at(s.home, p)
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
	now, _, err := s.old.state(was)
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
	err := s.disk.Mkdir(at(s.home, dir))
	if errors.Is(err, fs.ErrExist) {
		return nil
	}
	return err
}

func (s *sweeper) inTheWay(from, home string, err error) error {
	return &Refusal{Path: from, Remedy: "move it away yourself", Err: err,
		Says: "appeared while the site was being written and cannot be moved to " + home + ", where the new site has a file"}
}
