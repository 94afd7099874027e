package output

import (
	"fmt"
	"io/fs"
	"maps"
	"path"

	"spruelight/gen/source"
)

// guestsOf returns the files in the output folder that are not ours and lie in
// folders that the new site has too. Folders that are wholly foreign are not
// looked into: they move as one after the swap. A guest in the way of a file
// of the new site is refused.
func guestsOf(old *former, files []listed) ([]string, error) {
	if !old.exists {
		return nil, nil
	}
	g := guestList{old: old, files: make(map[string]string, len(files))}
	for i := range files {
		g.files[source.Fold(files[i].path)] = files[i].path
	}
	g.newDirs = folders(maps.Values(g.files))
	g.oldDirs = folders(maps.Keys(old.files))
	g.folded = map[string]bool{}
	for d := range g.newDirs {
		g.folded[source.Fold(d)] = true
	}
	err := g.walk("")
	return g.found, err
}

type guestList struct {
	old              *former
	files            map[string]string // folded paths of the new site
	newDirs, oldDirs map[string]bool
	folded           map[string]bool // newDirs, folded
	found            []string
}

func (g *guestList) walk(dir string) error {
	entries, err := g.old.disk.ReadDir(at(g.old.dir, dir))
	if err != nil {
		return failed(at(g.old.dir, dir), "cannot be listed", err)
	}
	for _, e := range entries {
		p := path.Join(dir, e.Name())
		if err := g.look(p, e); err != nil {
			return err
		}
	}
	return nil
}

func (g *guestList) look(p string, e fs.DirEntry) error {
	if e.IsDir() && (g.newDirs[p] || g.oldDirs[p]) {
		return g.walk(p)
	}
	if ours, err := g.ours(p, e); ours || err != nil {
		return err
	}
	for d := p; d != "."; d = path.Dir(d) {
		if file, taken := g.files[source.Fold(d)]; taken {
			return g.inTheWay(p, kind(e), file)
		}
	}
	if e.IsDir() {
		return nil
	}
	if g.folded[source.Fold(p)] {
		return g.inTheWay(p, "file", p+"/")
	}
	g.found = append(g.found, p)
	return nil
}

// ours reports whether an entry is a file that the list names. One that
// somebody changed, and that the new site does not have, has become theirs.
func (g *guestList) ours(p string, e fs.DirEntry) (bool, error) {
	was, listed := g.old.files[p]
	if e.IsDir() || !listed {
		return p == ListName, nil
	}
	if _, wanted := g.files[source.Fold(p)]; wanted {
		return true, nil
	}
	now, _, err := g.old.state(was)
	return now != changed, err
}

func kind(e fs.DirEntry) string {
	if e.IsDir() {
		return "folder"
	}
	return "file"
}

func (g *guestList) inTheWay(p, kind, file string) error {
	return &Refusal{Path: at(g.old.dir, p),
		Says:   fmt.Sprintf("this %s was not written by spruelight and is in the way of %s of the new site", kind, file),
		Remedy: "move or rename it, or choose another folder with --out"}
}
