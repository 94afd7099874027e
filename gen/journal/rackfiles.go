package journal

import (
	"io/fs"
	"path"
	"slices"
	"strings"

	"spruelight/gen/source"
)

// RackKinds are the files of the rack, without their ending.
var RackKinds = []string{"lamps", "paints", "supplies", "wire"}

// rackKind returns the kind of a file of the rack. Beside lamps.yaml there may
// be lamps-cairnhead.yaml and the like: restoring an archive adds what the rack
// lacks in a file of its own, so that nothing there is touched.
func rackKind(name string) string {
	stem, ok := strings.CutSuffix(name, ".yaml")
	if !ok {
		return ""
	}
	kind, _, _ := strings.Cut(stem, "-")
	return kind
}

// RackKind returns the kind of stock that a file of the rack holds: "lamps" for
// lamps.yaml and lamps-old.yaml.
func RackKind(name string) (string, bool) {
	kind := rackKind(name)
	return kind, slices.Contains(RackKinds, kind)
}

// checkRack reports names that stand twice in one kind of stock: within a file
// that is reported where it is read.
func (r *Rack) checkRack() source.Findings {
	var found source.Findings
	found.Add(twiceIn(r.Lamps)...)
	found.Add(twiceIn(r.Supplies)...)
	found.Add(twiceIn(r.Paints)...)
	found.Add(twiceIn(r.Wire)...)
	return found
}

func twiceIn[T any](entries source.Entries[T]) source.Findings {
	var found source.Findings
	first := map[string]source.Span{}
	for i := range entries {
		name := entries[i].Name
		if at, twice := first[name.V]; twice && at.File != name.At.File {
			found.Add(ruleTwice.At(name.At, "keep one of them", "%s stands in %s too", name.V, path.Base(at.Name())).With(at, "first here"))
			continue
		}
		first[name.V] = name.At
	}
	return found
}

// StockNames returns the names of one kind of stock. What cannot be read is
// left out: this is for completing words while they are typed.
func StockNames(fsys fs.FS, kind string) []string {
	var w Workshop
	var found source.Findings
	w.readRack(fsys, &found)
	switch kind {
	case "lamps":
		return w.Rack.Lamps.Names()
	case "paints":
		return w.Rack.Paints.Names()
	case "supplies":
		return w.Rack.Supplies.Names()
	case "wire":
		return w.Rack.Wire.Names()
	}
	return nil
}
