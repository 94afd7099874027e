package shelving

import (
	"errors"
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strings"
	"testing/fstest"
	"unicode"
	"unicode/utf8"

	"spruelight/gen/journal"
	"spruelight/gen/photo"
	"spruelight/gen/source"
)

// bundle is one build with everything it uses, as a workshop of its own: what
// goes into an archive, and can be assembled by itself.
type bundle struct {
	slug   string
	texts  map[string][]byte // by workshop path, as they were written
	photos []string          // workshop paths of pictures
	left   []string          // files of the build that are left out, each with the reason
}

// bundleOf collects a build's own files and what it uses of the workshop.
func bundleOf(content fs.FS, shop *journal.Workshop, b *journal.Build, keep photo.Keep) (*bundle, error) {
	u := &bundle{slug: b.Slug, texts: map[string][]byte{}}
	for _, step := range []func() error{
		func() error { return u.takeBuild(content, b) },
		func() error { return u.takeRack(content) },
		func() error { return u.takeShelf(content, shop, b) },
		func() error { return u.takeTheme(content, shop, keep) },
		func() error { return u.takeSettings(content, shop) },
	} {
		if err := step(); err != nil {
			return nil, err
		}
	}
	return u, nil
}

// takeBuild takes the journals, the outline and all pictures of the build's
// folder, also those that no page shows.
func (u *bundle) takeBuild(content fs.FS, b *journal.Build) error {
	outline := ""
	if b.Outline != nil {
		outline = b.Outline.Name
	}
	return fs.WalkDir(content, b.Dir, func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if strings.HasPrefix(path.Base(name), ".") {
			if d.IsDir() {
				return fs.SkipDir
			}
			return nil
		}
		info, err := fs.Stat(content, name)
		switch {
		case d.IsDir():
			return nil
		case err != nil || !info.Mode().IsRegular():
			u.leave(name, "it is no file, or cannot be read")
		case photo.IsKept(name):
			u.photos = append(u.photos, name)
		case name == outline, path.Ext(name) == ".md" && path.Dir(name) == b.Dir:
			return u.take(content, name)
		default:
			u.leave(name, "only journals, the outline and JPEG, PNG, WebP or HEIC pictures go in")
		}
		return nil
	})
}

func (u *bundle) leave(name, why string) { u.left = append(u.left, name+": "+why) }

func (u *bundle) take(content fs.FS, name string) error {
	data, err := fs.ReadFile(content, name)
	u.texts[name] = data
	return err
}

// takeRack takes the entries of the rack that the build uses: those whose name
// stands in one of its texts, and those that such an entry names. One too many
// does no harm; one that lacks would change what is worked out.
func (u *bundle) takeRack(content fs.FS) error {
	names, err := fs.ReadDir(content, "rack")
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	for before := -1; before != u.size(); {
		before = u.size()
		said := u.said()
		for _, d := range names {
			if _, ok := journal.RackKind(d.Name()); !ok || d.IsDir() {
				continue
			}
			if err := u.excerpt(content, path.Join("rack", d.Name()), func(name string) bool { return mentions(said, name) }); err != nil {
				return err
			}
		}
	}
	return nil
}

// size is how many bytes the texts have.
func (u *bundle) size() (n int) {
	for _, text := range u.texts {
		n += len(text)
	}
	return n
}

// said is all that the texts say, in order.
func (u *bundle) said() string {
	var all strings.Builder
	for _, name := range u.names() {
		all.Write(u.texts[name])
		all.WriteByte('\n')
	}
	return all.String()
}

// mentions reports whether a text holds a name as a word of its own.
func mentions(text, name string) bool {
	for at := 0; name != ""; {
		i := strings.Index(text[at:], name)
		if i < 0 {
			return false
		}
		from, to := at+i, at+i+len(name)
		before, _ := utf8.DecodeLastRuneInString(text[:from])
		after, _ := utf8.DecodeRuneInString(text[to:])
		if !inWord(before) && !inWord(after) {
			return true
		}
		at = from + 1
	}
	return false
}

func inWord(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) || r == '-' || r == '_' }

// excerpt takes the picked entries of a YAML file; nothing where none is picked.
func (u *bundle) excerpt(content fs.FS, name string, pick func(string) bool) error {
	data, err := fs.ReadFile(content, name)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	any := false
	text, ok := journal.Excerpt(source.NewFile(name, strings.TrimPrefix(string(data), "\ufeff")), func(key string) bool {
		any = any || pick(key)
		return pick(key)
	})
	switch {
	case !ok:
		u.texts[name] = data // entries that cannot be told apart come along
	case any:
		u.texts[name] = []byte(text)
	}
	return nil
}

// takeShelf takes the pieces of the shelf that the build names: those that got
// a part of its kit.
func (u *bundle) takeShelf(content fs.FS, shop *journal.Workshop, b *journal.Build) error {
	named := map[string]bool{}
	for _, s := range b.Sittings {
		for _, p := range s.Front.Parts {
			named[p.To.V] = true
		}
	}
	for _, e := range shop.Shelf {
		if named[e.Name.V] && e.Value.OutlineOf != nil {
			if err := u.take(content, e.Value.OutlineOf.Name); err != nil {
				return err
			}
		}
	}
	return u.excerpt(content, "shelf.yaml", func(name string) bool { return named[name] })
}

// takeTheme takes the workshop's own theme, where it has one. Its pictures may
// come from a camera too, and lose what the originals lose.
func (u *bundle) takeTheme(content fs.FS, shop *journal.Workshop, keep photo.Keep) error {
	name := shop.Settings.Theme.V
	if name == "" || !fs.ValidPath(name) || name == "." {
		return nil
	}
	if info, err := fs.Stat(content, name); err != nil || !info.IsDir() {
		return nil // a built-in one
	}
	return fs.WalkDir(content, name, func(file string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || strings.HasPrefix(path.Base(file), ".") {
			return err
		}
		if err := u.take(content, file); err != nil || !photo.IsKept(file) || keep == (photo.Keep{Place: true, Camera: true}) {
			return err
		}
		clean, _, err := photo.Private(u.texts[file], keep)
		if err != nil {
			return fmt.Errorf("%s: %w", file, err)
		}
		u.texts[file] = clean
		return nil
	})
}

// takeSettings takes workshop.yaml, without a line-up that names models which
// are not in the bundle.
func (u *bundle) takeSettings(content fs.FS, shop *journal.Workshop) error {
	data, err := fs.ReadFile(content, "workshop.yaml")
	if err != nil {
		return err
	}
	u.texts["workshop.yaml"] = data
	if len(shop.Settings.Lineup) == 0 {
		return nil
	}
	file := source.NewFile("workshop.yaml", strings.TrimPrefix(string(data), "\ufeff"))
	text, ok := journal.Excerpt(file, func(key string) bool { return key != "line-up" })
	if !ok {
		return fmt.Errorf("workshop.yaml names a line-up that cannot be left out of the archive; write its keys on lines of their own")
	}
	u.texts["workshop.yaml"] = []byte(text)
	return nil
}

// names lists the workshop paths of the texts, in order.
func (u *bundle) names() []string {
	var names []string
	for name := range u.texts {
		names = append(names, name)
	}
	slices.Sort(names)
	return names
}

// fs returns the bundle as a workshop's folder.
func (u *bundle) fs(content fs.FS) fs.FS {
	f := folder{listed: fstest.MapFS{}, pictures: map[string]bool{}, content: content}
	for name, text := range u.texts {
		f.listed[name] = &fstest.MapFile{Data: text}
	}
	for _, name := range u.photos {
		f.listed[name], f.pictures[name] = &fstest.MapFile{}, true
	}
	return f
}

// folder holds texts in memory; pictures are read from the workshop they are in.
type folder struct {
	listed   fstest.MapFS
	pictures map[string]bool
	content  fs.FS
}

// Open opens a file or folder.
func (f folder) Open(name string) (fs.File, error) {
	if f.pictures[name] {
		return f.content.Open(name)
	}
	return f.listed.Open(name)
}
