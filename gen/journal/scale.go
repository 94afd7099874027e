package journal

import (
	"errors"
	"io/fs"
	"path"
	"slices"
	"strings"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// Subject is one source's word on the size of the real thing.
type Subject struct {
	At       source.Span
	Length   Val[quantity.Measured]                 `key:"length" doc:"Real length" eg:"9.4 m"`
	Beam     Val[quantity.Measured]                 `key:"beam" doc:"Real width of a hull" eg:"3.1 m"`
	Width    Val[quantity.Measured]                 `key:"width" doc:"Real width" eg:"3.1 m"`
	Span     Val[quantity.Measured]                 `key:"span" doc:"Real distance from wing tip to wing tip" eg:"11.2 m"`
	Height   Val[quantity.Measured]                 `key:"height" doc:"Real height" eg:"18 m"`
	Diameter Val[quantity.Measured]                 `key:"diameter" doc:"Real diameter" eg:"4.2 m"`
	Others   source.Entries[Val[quantity.Measured]] `key:"other" doc:"Further real lengths, by the names they are measured under" eg:"{mast: 6.2 m}"`
	Source   Text                                   `key:"source" doc:"Where the sizes come from" eg:"designer's sheet"`

	Broken bool // something in it could not be read, or names nothing
}

// Lengths returns the subject's real lengths by the names under which they are
// measured on the model.
func (s *Subject) Lengths() source.Entries[Val[quantity.Measured]] {
	var out source.Entries[Val[quantity.Measured]]
	for _, l := range []struct {
		name  string
		value Val[quantity.Measured]
	}{{"length", s.Length}, {"beam", s.Beam}, {"width", s.Width}, {"span", s.Span}, {"height", s.Height}, {"diameter", s.Diameter}} {
		if l.value.Set {
			out = append(out, source.Entry[Val[quantity.Measured]]{Name: source.Written(l.name, l.value.At), Value: l.value})
		}
	}
	return append(out, s.Others...)
}

// Display is the room a finished model takes, with its base.
type Display struct {
	At     source.Span
	Width  Val[quantity.Metres]    `key:"width" doc:"How far it reaches along the shelf, base included" eg:"240 mm"`
	Depth  Val[quantity.Metres]    `key:"depth" doc:"How far it reaches into the shelf" eg:"120 mm"`
	Height Val[quantity.Metres]    `key:"height" doc:"How high it stands, stand included" eg:"160 mm"`
	Weight Val[quantity.Kilograms] `key:"weight" doc:"What it weighs" eg:"640 g"`

	Broken bool // something in it could not be read, or names nothing
}

// Outline names a silhouette and says from where it is seen.
type Outline struct {
	At   source.Span
	File Text `key:"file,short" doc:"An SVG file with a single path" eg:"outline.svg"`
	View Text `key:"view" doc:"From where it is seen; from the side when not given" eg:"side" one:"side|front|top"`

	Broken bool // something in it could not be read, or names nothing
}

// Cabinet is a place to show models.
type Cabinet struct {
	At      source.Span
	Name    Text                    `key:"name,required" doc:"What it is called" eg:"glass case"`
	Width   Val[quantity.Metres]    `key:"width,required" doc:"Clear width between the side walls" eg:"800 mm"`
	Depth   Val[quantity.Metres]    `key:"depth,required" doc:"Clear depth from glass to back" eg:"360 mm"`
	Height  Val[quantity.Metres]    `key:"height,required" doc:"Clear height above one shelf" eg:"340 mm"`
	Holds   Val[quantity.Kilograms] `key:"holds" doc:"What one shelf may carry" eg:"8 kg"`
	Shelves Val[int]                `key:"shelves" doc:"How many shelves of this size it has; one when not given" eg:"3"`
}

// ShelfPiece is a model or figure that is no build: one entry of shelf.yaml.
type ShelfPiece struct {
	At        source.Span
	Name      Text                                   `key:"name,required" doc:"What it is called" eg:"Harbour crane"`
	Says      Text                                   `key:"says" doc:"A few words on it" eg:"diorama piece, built in 2019"`
	Scale     Val[quantity.Scale]                    `key:"scale" doc:"Scale printed on the box" eg:"1/72"`
	Subject   []Subject                              `key:"subject" doc:"Its real size, from one source or several"`
	Measured  source.Entries[Val[quantity.Measured]] `key:"measured" doc:"Lengths measured on it" eg:"{height: 212 mm ± 1 mm}"`
	Display   Display                                `key:"display" doc:"The room it takes, base included"`
	Outline   Outline                                `key:"outline" doc:"Its silhouette" eg:"outlines/harbour-crane.svg"`
	OutlineOf *source.File                           // the outline as read; nil where there is none
}

// Figures are the names under which figures are measured, with what is measured.
var Figures = map[string]string{"standing figure": "from sole to crown", "seated figure": "from seat to crown"}

// readShelf reads shelf.yaml and the outlines it names.
func (w *Workshop) readShelf(fsys fs.FS, found *source.Findings) {
	if !slices.Contains(w.top, "shelf.yaml") {
		return
	}
	file, ok := readListed(fsys, "shelf.yaml", found)
	if !ok {
		return
	}
	found.Add(decodeIn(w.currency(), file, 0, len(file.Text), &w.Shelf)...)
	for i := range w.Shelf {
		e := &w.Shelf[i]
		if !slugForm.MatchString(e.Name.V) {
			found.Add(ruleFile.At(e.Name.At, "use lower-case letters, digits and hyphens", "%q cannot be part of an address", e.Name.V))
		}
		if name := e.Value.Outline.File; name.Set {
			e.Value.OutlineOf = readOutline(fsys, ".", name, found)
		}
	}
}

const outlineName = "outline.svg"

// readBuildOutline reads the outline that a build names, else outline.svg where
// its folder lists one.
func (b *Build) readBuildOutline(fsys fs.FS, listed bool, found *source.Findings) {
	if name := b.Front.Outline.File; name.Set {
		b.Outline = readOutline(fsys, b.Dir, name, found)
		return
	}
	if listed {
		b.Outline, _ = readListed(fsys, path.Join(b.Dir, outlineName), found)
	}
}

// readOutline reads a named file inside a folder.
func readOutline(fsys fs.FS, dir string, name Text, found *source.Findings) *source.File {
	full := path.Join(dir, name.V)
	if !fs.ValidPath(full) || full == "." || path.IsAbs(name.V) || strings.ContainsAny(name.V, `\:`) || dir != "." && !strings.HasPrefix(full, dir+"/") {
		found.Add(ruleOutside.At(name.At, "copy the outline beside the text that names it", "%q lies outside the folder", name.V))
		return nil
	}
	file, ok := readFile(fsys, full, found)
	if !ok {
		if _, err := fs.Stat(fsys, full); errors.Is(err, fs.ErrNotExist) {
			found.Add(rulePhoto.At(name.At, orNear("draw it there, or correct the name", fsys, full), "there is no file %s", full))
		}
		return nil
	}
	return file
}

// checkLineup holds the names of the line-up against builds and shelf.
func (w *Workshop) checkLineup() source.Findings {
	var found source.Findings
	names := w.Shelf.Names()
	for _, b := range w.Builds {
		if i := slices.Index(names, b.Slug); i >= 0 && i < len(w.Shelf) {
			found.Add(ruleTwice.At(w.Shelf[i].Name.At, "give it another name", "%s is a build already", b.Slug))
		}
		names = append(names, b.Slug)
	}
	for _, name := range w.Settings.Lineup {
		if !slices.Contains(names, name.V) {
			found.Add(noSuch(name, names, "model", "write the name of a build's folder, or a key of shelf.yaml"))
		}
	}
	return found
}
