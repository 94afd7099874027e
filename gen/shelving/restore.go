package shelving

import (
	"context"
	"encoding/csv"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"spruelight/gen/bag"
	"spruelight/gen/journal"
	"spruelight/gen/output"
	"spruelight/gen/photo"
	"spruelight/gen/source"
)

// Restored says what bringing a build back did.
type Restored struct {
	Slug   string     `json:"slug"`
	Report bag.Report `json:"report"` // of the bag; where it is not valid, nothing was written
	Wrote  []string   `json:"wrote"`  // workshop paths, the build's folder as one
	Notes  []string   `json:"notes"`  // what differs from the archive, and why
}

// Restore brings a build back from a bag into the workshop in a folder, which
// may be new. Nothing that is there is touched:
//
//   - the build's folder must not exist; it appears whole or not at all
//   - workshop.yaml and shelf.yaml are written where there is none
//   - what the rack lacks goes into a file of its own beside those that are
//     there (rack/lamps-cairnhead.yaml); where the rack has an entry of the
//     name, that one stays and counts, and a note says where it differs
//
// A bag may come from anybody, whole and valid: only what one of ours lists as
// the build and its stock is taken, the rest is left in the bag and named. A
// theme is taken where withTheme says so, since its templates and scripts become
// part of the site.
//
// The bag is verified first, and every file again as it is copied.
func Restore(ctx context.Context, name, dir string, withTheme bool) (*Restored, error) {
	slug, err := slugOf(name)
	if err != nil {
		return nil, err
	}
	target := filepath.Join(dir, "builds", slug)
	if err := output.Free(target); err != nil {
		if errors.Is(err, fs.ErrExist) {
			return nil, fmt.Errorf("%s is there already, and is not touched; move it away, or restore into another folder", target)
		}
		return nil, err
	}
	scratch, remove, err := output.Scratch("restore")
	if err != nil {
		return nil, err
	}
	defer remove()
	output.Tidy(dir, "workshop.yaml", "shelf.yaml")
	output.Tidy(filepath.Join(dir, "rack"))
	output.Tidy(filepath.Join(dir, "builds"))
	r := &restoring{ctx: ctx, withTheme: withTheme, slug: slug, dir: dir, texts: filepath.Join(scratch, "texts"), out: &Restored{Slug: slug}}
	if r.out.Report, err = bag.Restore(ctx, name, r.texts, r.pickTexts); err != nil || !r.out.Report.Valid {
		return r.out, err
	}
	r.left(r.out.Report)
	if err := r.readPictures(); err != nil {
		return r.out, err
	}
	shop, _ := journal.Open(os.DirFS(filepath.Join(r.texts, "sources")))
	r.theme = shop.Settings.Theme.V
	if err := r.folders(filepath.Join(dir, "builds")); err != nil {
		return r.out, errors.Join(err, r.undo())
	}
	if err := r.shared(); err != nil {
		return r.out, errors.Join(err, r.undo())
	}
	rep, err := bag.Restore(ctx, name, target, r.pickBuild)
	if err != nil {
		return r.out, errors.Join(err, r.undo())
	}
	r.left(rep)
	r.nameForeign()
	r.out.Wrote = append(r.out.Wrote, path.Join("builds", slug)+"/")
	return r.out, nil
}

// slugOf reads from a bag which build it holds.
func slugOf(name string) (string, error) {
	tags, err := bag.Info(name)
	if err != nil {
		return "", err
	}
	for _, t := range tags {
		if t.Label == tagSlug && journal.CheckSlug(t.Value) == nil {
			return t.Value, nil
		}
	}
	return "", fmt.Errorf("%s: bag-info.txt names no build; only bags made by spruelight shelve can be restored", name)
}

// asides are what our archives hold for readers, and nobody restores.
var asides = []string{"site", "netlists", "README.txt"}

// pickTexts takes what the archive holds of the workshop's shared texts, into a
// folder of its own: settings, stock, outlines, and what may be a theme.
func (r *restoring) pickTexts(at string) string {
	top, rest, _ := strings.Cut(at, "/")
	dir, base := path.Split(rest)
	switch {
	case at == picturesFile:
		return at
	case slices.Contains(asides, top), top == "photos", strings.HasPrefix(at, "sources/builds/"+r.slug+"/"):
		return "" // pickBuild's, or nobody's
	case top != "sources" || isHidden(rest) || slices.Contains([]string{"site/", "wall/", "builds/"}, firstFolder(rest)):
	case rest == "workshop.yaml", rest == "shelf.yaml", path.Ext(base) == ".svg" && !r.withTheme:
		return at
	case dir == "rack/":
		if _, ok := journal.RackKind(base); ok {
			return at
		}
	case dir != "" && r.withTheme:
		return at
	}
	r.foreign(at)
	return ""
}

// firstFolder is the folder at the top of a path, with its slash.
func firstFolder(name string) string {
	top, _, inside := strings.Cut(name, "/")
	if !inside {
		return ""
	}
	return top + "/"
}

// isHidden reports whether a file or a folder above it begins with a dot: it can
// be an order to another program (a repository's settings, an editor's tasks).
func isHidden(name string) bool { return strings.HasPrefix(name, ".") || strings.Contains(name, "/.") }

// foreign keeps in mind a file that is left in the bag.
func (r *restoring) foreign(at string) { r.others = append(r.others, at) }

// nameForeign names the files that are left in the bag, a few hundred at most;
// those of a theme are named as one.
func (r *restoring) nameForeign() {
	const most = 200
	for i, at := range r.others {
		switch {
		case r.ownTheme() && strings.HasPrefix(at, "sources/"+r.theme+"/"):
		case i == most:
			r.note("and %d more", len(r.others)-most)
			return
		default:
			r.note("%s is left out: no archive of ours lists it as the build or its stock", at)
		}
	}
}

// ownTheme reports whether the archive's theme is one that it brings along and
// that is left in it.
func (r *restoring) ownTheme() bool {
	return !r.withTheme && r.theme != "" &&
		slices.ContainsFunc(r.others, func(at string) bool { return strings.HasPrefix(at, "sources/"+r.theme+"/") })
}

// left notes the files that could not be stored safely.
func (r *restoring) left(rep bag.Report) {
	for _, l := range rep.Left {
		r.note("%s", l)
	}
}

// restoring is the work of bringing one build back.
type restoring struct {
	ctx              context.Context
	withTheme        bool
	others           []string // files of the bag that are left in it
	theme            string   // that the archive's settings name
	slug, dir, texts string
	standins         map[string]string // path in the bag → path in the build, for renditions
	made             []string          // files and folders made so far
	out              *Restored
}

// readPictures learns which renditions stand for originals that the archive
// left out.
func (r *restoring) readPictures() error {
	r.standins = map[string]string{}
	f, err := os.Open(filepath.Join(r.texts, picturesFile))
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	defer f.Close()
	in := csv.NewReader(f)
	in.FieldsPerRecord = -1
	rows, err := in.ReadAll()
	if err != nil {
		return fmt.Errorf("%s of the archive cannot be read: %w", picturesFile, err)
	}
	for _, row := range rows[min(1, len(rows)):] {
		if len(row) >= 2 && strings.HasPrefix(row[1], "site/") && source.ValidPath(row[0]) == nil && !isHidden(row[0]) && photo.IsKept(row[0]) {
			r.standins[row[1]] = row[0]
		}
	}
	if n := len(r.standins); n > 0 {
		r.note("%d pictures are renditions: the archive was made without the originals, so pages will show them a little softer", n)
	}
	return nil
}

func (r *restoring) note(format string, args ...any) {
	r.out.Notes = append(r.out.Notes, fmt.Sprintf(format, args...))
}

// pickBuild says where a file of the bag goes in the build's folder: journals,
// drawings and pictures.
func (r *restoring) pickBuild(at string) string {
	if rest, ok := strings.CutPrefix(at, "sources/builds/"+r.slug+"/"); ok {
		journal := path.Ext(rest) == ".md" && !strings.Contains(rest, "/")
		if !isHidden(rest) && (journal || path.Ext(rest) == ".svg" || photo.IsKept(rest)) {
			return rest
		}
		r.foreign(at)
		return ""
	}
	if rest, ok := strings.CutPrefix(at, "photos/"); ok {
		if !isHidden(rest) && photo.IsKept(rest) {
			return at
		}
		r.foreign(at)
		return ""
	}
	return r.standins[at]
}

// shared writes what the workshop lacks of settings, stock and shelf.
func (r *restoring) shared() error {
	archived := os.DirFS(filepath.Join(r.texts, "sources"))
	return fs.WalkDir(archived, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		if dir, base := path.Split(name); dir == "rack/" {
			return r.stock(archived, base)
		}
		data, err := fs.ReadFile(archived, name)
		if err != nil {
			return err
		}
		switch {
		case name == "workshop.yaml":
			data = r.settings(archived, data)
		case name == "shelf.yaml":
		case r.withTheme && r.theme != "" && strings.HasPrefix(name, r.theme+"/"):
		default:
			shelf, _ := fs.ReadFile(archived, "shelf.yaml")
			if path.Ext(name) != ".svg" || !strings.Contains(string(shelf), name) {
				r.foreign(path.Join("sources", name))
				return nil
			}
		}
		return r.absent(name, data)
	})
}

// settings returns the archive's workshop.yaml, without the name of a theme that
// is left in the bag.
func (r *restoring) settings(archived fs.FS, data []byte) []byte {
	if !r.ownTheme() {
		return data
	}
	file := source.NewFile("workshop.yaml", strings.TrimPrefix(string(data), "\ufeff"))
	text, ok := journal.Excerpt(file, func(key string) bool { return key != "theme" })
	if !ok {
		return data
	}
	r.note("the theme %s is left in the bag, and pages look as usual: its templates and scripts become part of the site; "+
		"from an archive that you trust, restore it too with --with-theme", r.theme)
	return []byte(text)
}

// write makes a file that must not exist yet, and the folders it lies in.
func (r *restoring) write(name string, data []byte) error {
	full := filepath.Join(r.dir, filepath.FromSlash(name))
	if err := r.folders(filepath.Dir(full)); err != nil {
		return err
	}
	if err := output.NewFile(r.ctx, full, data); err != nil {
		return err
	}
	r.made, r.out.Wrote = append(r.made, full), append(r.out.Wrote, name)
	return nil
}

// folders makes a folder and those above it, and remembers which.
func (r *restoring) folders(dir string) error {
	if _, err := os.Stat(dir); err == nil {
		return nil
	}
	if above := filepath.Dir(dir); above != dir {
		if err := r.folders(above); err != nil {
			return err
		}
	}
	if err := os.Mkdir(dir, 0o777); err != nil {
		return err
	}
	r.made = append(r.made, dir)
	return nil
}

// absent writes a file where there is none; else the one that is there counts.
func (r *restoring) absent(name string, data []byte) error {
	if err := r.write(name, data); !errors.Is(err, fs.ErrExist) {
		return err
	}
	if there, err := os.ReadFile(filepath.Join(r.dir, filepath.FromSlash(name))); err != nil || string(there) != string(data) {
		r.note("%s is there already and counts; the archive's is in data/sources of the bag", name)
	}
	return nil
}

// stock writes those entries of one of the archive's rack files that the rack
// lacks.
func (r *restoring) stock(archived fs.FS, base string) error {
	kind, ok := journal.RackKind(base)
	if !ok {
		return nil
	}
	data, err := fs.ReadFile(archived, path.Join("rack", base))
	if err != nil {
		return err
	}
	there, err := r.rackEntries(kind)
	if err != nil {
		return err
	}
	file := source.NewFile(base, string(data))
	lacking := 0
	text, ok := journal.Excerpt(file, func(name string) bool {
		entry, known := there[name]
		if known && entry != entryText(file, name) {
			r.note("rack: %s is there already and counts, though it is not written as in the archive: what is worked out may differ", name)
		}
		if !known {
			lacking++
		}
		return !known
	})
	if !ok {
		return r.absent(path.Join("rack", base), data)
	}
	if lacking == 0 {
		return nil
	}
	name := path.Join("rack", base)
	if _, err := os.Lstat(filepath.Join(r.dir, filepath.FromSlash(name))); err == nil {
		name = path.Join("rack", kind+"-"+r.slug+".yaml")
	}
	return r.write(name, []byte(text))
}

// rackEntries returns the entries of a kind that the workshop's rack has, as
// they are written.
func (r *restoring) rackEntries(kind string) (map[string]string, error) {
	entries := map[string]string{}
	names, err := os.ReadDir(filepath.Join(r.dir, "rack"))
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, err
	}
	for _, d := range names {
		if k, ok := journal.RackKind(d.Name()); !ok || k != kind || slices.Contains(r.made, filepath.Join(r.dir, "rack", d.Name())) {
			continue
		}
		data, err := os.ReadFile(filepath.Join(r.dir, "rack", d.Name()))
		if err != nil {
			return nil, err
		}
		file := source.NewFile(d.Name(), strings.TrimPrefix(string(data), "\ufeff"))
		if _, ok := journal.Excerpt(file, func(name string) bool { entries[name] = ""; return false }); !ok {
			return nil, fmt.Errorf("rack/%s cannot be read entry by entry, so nobody can say what it lacks; write each entry on lines of "+
				"its own", d.Name())
		}
		for name := range entries {
			if text := entryText(file, name); text != "" {
				entries[name] = text
			}
		}
	}
	return entries, nil
}

// entryText is one entry as written, with comments and white space evened out.
func entryText(file *source.File, name string) string {
	head, _ := journal.Excerpt(file, func(string) bool { return false })
	text, _ := journal.Excerpt(file, func(key string) bool { return key == name })
	var words []string
	for _, line := range strings.Split(strings.TrimPrefix(text, head), "\n") {
		if !strings.HasPrefix(strings.TrimSpace(line), "#") {
			words = append(words, strings.Fields(line)...)
		}
	}
	return strings.Join(words, " ")
}

// undo takes back the files and folders that were made for a build that did
// not follow.
func (r *restoring) undo() error {
	var errs []error
	for _, name := range slices.Backward(r.made) {
		errs = append(errs, os.Remove(name))
	}
	r.out.Wrote = nil
	return errors.Join(errs...)
}
