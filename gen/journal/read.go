package journal

import (
	"errors"
	"fmt"
	"io/fs"
	"path"
	"regexp"
	"slices"
	"strings"
	"time"
	"unicode/utf8"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

var (
	ruleEncoding = &source.Rule{Name: "not-utf-8", Severity: source.Stop, Source: "The Unicode Standard",
		Reason: "Text in another encoding would show wrong characters.",
		Keys:   source.NoKey}
	ruleDate = &source.Rule{Name: "date", Severity: source.Stop, Source: "ISO 8601",
		Reason: "The order of the sittings and every clock go by the dates.",
		Keys:   source.NoKey}
	ruleFile = &source.Rule{Name: "stray-file", Severity: source.Note, Source: "common practice, no source",
		Reason: "A file that is not part of the workshop's layout is left out.",
		Keys:   source.NoKey}
	ruleUnreadable = &source.Rule{Name: "unreadable", Severity: source.Stop, Source: "common practice, no source",
		Reason: "What cannot be read cannot be published.",
		Keys:   source.NoKey}
)

// slugForm is what a build's folder may be called: it becomes part of
// addresses and of file names on every system.
var slugForm = regexp.MustCompile(`^[a-z0-9]+(-[a-z0-9]+)*$`)

// devices are names that one system keeps for devices, whatever the ending, so
// that no file can bear them there (Microsoft, "Naming Files, Paths, and
// Namespaces").
var devices = regexp.MustCompile(`^(con|prn|aux|nul|com[0-9]|lpt[0-9])$`)

// reserved are names at the root of the site that a build would collide with.
var reserved = []string{"wall", "style", "script", "tags", "photos", "techniques", "drawings"}

// maxStem is how long the name of a build or of a page may be, so that paths
// stay within what every system stores.
const (
	maxStem    = 64
	maxSitting = len(time.DateOnly) + 1 + maxStem
)

// slugFault returns what to do about a name that a build or a page cannot bear,
// nothing where it can. taken are names that are not free.
func slugFault(name string, taken []string) (do source.Message) {
	switch {
	case !slugForm.MatchString(name):
		return source.Word("use lower-case letters, digits and hyphens")
	case len(name) > maxStem:
		return source.Say("shorten it to %d characters", maxStem)
	case devices.MatchString(name):
		return source.Word("choose another name; Windows keeps this one for a device")
	case slices.Contains(taken, name):
		return source.Word("choose another name; the site keeps this one for itself")
	}
	return source.Message{}
}

// unslug finds what a slug cannot hold.
var unslug = regexp.MustCompile(`[^a-z0-9]+`)

var sittingName = regexp.MustCompile(`^(\d{4}-\d{2}-\d{2})(-[a-z0-9]+(?:-[a-z0-9]+)*)?$`)

// known are what a workshop's folder holds.
var known = []string{"workshop.yaml", "shelf.yaml", "rack", "builds", "wall"}

// Open reads what all builds share: settings, rack and wall, and lists the
// builds' folders in Builds, each still to be filled by ReadBuild.
func Open(fsys fs.FS) (*Workshop, source.Findings) {
	w := &Workshop{Zone: time.UTC}
	var found source.Findings
	var listing Workshop // hidden files at the top are nobody's journals
	w.top = listing.list(fsys, ".", &found)
	for _, name := range w.top {
		if low := strings.ToLower(name); low != name && slices.Contains(known, low) {
			found.Add(ruleUnread.At(source.Span{}, source.Say("rename it to %s", low),
				"%s is not read where capitals count: its name is %s", name, low))
		} else if f, ok := unreadYAML("", name, func(to string) bool { return slices.Contains(known, to) && !slices.Contains(w.top, to) }); ok {
			found.Add(f)
		}
	}
	if file, ok := readFile(fsys, "workshop.yaml", &found); ok {
		found.Add(decode(file, 0, len(file.Text), &w.Settings)...)
		found.Add(w.zone()...)
		found.Add(w.checkCurrency()...)
		found.Add(checkHome(w.Settings.Address)...)
	} else if len(found) == 0 {
		found.Add(ruleUnreadable.At(source.Span{}, "run spruelight in a folder that holds workshop.yaml, or name one", "there is no workshop.yaml here"))
	}
	w.readRack(fsys, &found)
	w.readWall(fsys, &found)
	w.readShelf(fsys, &found)
	builds := w.list(fsys, "builds", &found)
	if len(builds) > maxBuilds {
		found.Add(ruleLimit.At(source.Span{}, "keep finished builds in a workshop of their own", "builds holds %d folders; at most %d are read", len(builds), maxBuilds))
		builds = builds[:maxBuilds]
	}
	for _, name := range builds {
		if do := slugFault(name, reserved); !do.Empty() {
			if like := likeSlug(name, append(builds, reserved...)); like != "" && holdsBuild(fsys, name) {
				found.Add(unread(path.Join("builds", name), noSlug, like))
				continue
			}
			found.Add(ruleFile.At(source.Span{}, do, "builds/%s: this folder's name cannot be part of an address", name))
			continue
		}
		info, err := fs.Stat(fsys, path.Join("builds", name))
		if err != nil {
			found.Add(ruleUnreadable.At(source.Span{}, "run again; if it is a link, mend or remove it", "builds/%s cannot be looked at: %v", name, err))
		}
		if err != nil || !info.IsDir() {
			continue
		}
		w.Builds = append(w.Builds, &Build{Slug: name, Dir: path.Join("builds", name)})
	}
	found.Add(w.checkLineup()...)
	return w, found
}

// holdsBuild reports whether a folder among the builds is one.
func holdsBuild(fsys fs.FS, name string) bool {
	_, err := fs.Stat(fsys, path.Join("builds", name, "build.md"))
	return err == nil
}

// zone finds the workshop's time zone.
func (w *Workshop) zone() source.Findings {
	name := w.Settings.Zone
	if !name.Set {
		return nil
	}
	zone, err := time.LoadLocation(name.V)
	if err != nil || strings.Contains(name.V, "..") {
		return source.Findings{ruleValue.At(name.At, "write an IANA name like Europe/Berlin", "%q is no time zone", name.V)}
	}
	w.Zone = zone
	return nil
}

func (w *Workshop) readRack(fsys fs.FS, found *source.Findings) {
	targets := map[string]any{"lamps": &w.Rack.Lamps, "supplies": &w.Rack.Supplies, "paints": &w.Rack.Paints, "wire": &w.Rack.Wire}
	for _, name := range w.list(fsys, "rack", found) {
		target, known := targets[rackKind(name)]
		if f, ok := unreadYAML("rack", name, func(to string) bool { _, ok := RackKind(to); return ok }); ok {
			found.Add(f)
			continue
		}
		if !known {
			found.Add(ruleFile.At(source.Span{}, "the rack's files are lamps.yaml, paints.yaml, supplies.yaml and wire.yaml, and further ones like lamps-old.yaml", "rack/%s is left out", name))
			continue
		}
		if file, ok := readListed(fsys, path.Join("rack", name), found); ok {
			found.Add(decodeIn(w.currency(), file, 0, len(file.Text), target)...)
		}
	}
	found.Add(w.Rack.checkRack()...)
}

func (w *Workshop) readWall(fsys fs.FS, found *source.Findings) {
	names := w.list(fsys, "wall", found)
	for _, name := range names {
		if f, ok := unreadOnWall(name, names); ok {
			found.Add(f)
			continue
		}
		stem, isText := strings.CutSuffix(name, ".md")
		if !isText {
			continue
		}
		if do := slugFault(stem, nil); !do.Empty() {
			found.Add(ruleFile.At(source.Span{}, do, "wall/%s: this file's name cannot be part of an address", name))
			continue
		}
		leaf := &Leaf{Name: stem}
		var ok bool
		if leaf.File, leaf.Body, ok = w.readText(fsys, path.Join("wall", name), &leaf.Front, found); ok {
			w.Wall = append(w.Wall, leaf)
		}
	}
	slices.SortStableFunc(w.Wall, func(a, b *Leaf) int { return a.Front.Order.Or(1000) - b.Front.Order.Or(1000) })
}

// ReadBuild fills a build from its folder. It changes nothing but the build,
// so that several can be read at once.
func (w *Workshop) ReadBuild(fsys fs.FS, b *Build) source.Findings {
	var found source.Findings
	listing := Workshop{top: []string{b.Dir}} // its own list of files: w is shared between workers; the folder was there a moment ago
	names := listing.list(fsys, b.Dir, &found)
	b.Hidden = listing.Hidden
	for _, name := range names {
		stem, isText := strings.CutSuffix(name, ".md")
		if f, ok := unreadInBuild(b.Dir, name, names); ok {
			found.Add(f)
			continue
		}
		switch {
		case name == "build.md":
			b.File, b.Body, _ = w.readText(fsys, path.Join(b.Dir, name), &b.Front, &found)
		case name == "review.md":
			r := &Review{}
			var ok bool
			if r.File, r.Body, ok = w.readText(fsys, path.Join(b.Dir, name), &r.Front, &found); ok {
				b.Review = r
			}
		case isText:
			if s, ok := w.readSitting(fsys, b.Dir, stem, &found); ok {
				b.Sittings = append(b.Sittings, s)
			}
		}
	}
	if b.File == nil && len(found) == 0 {
		found.Add(ruleNoBuild.At(source.Span{}, source.Say("run spruelight unbox %s, which writes one, or move the folder away", b.Slug),
			"%s holds no build.md and is left out", b.Dir))
	}
	slices.SortStableFunc(b.Sittings, func(x, y *Sitting) int { return strings.Compare(x.Slug, y.Slug) })
	if b.File != nil {
		found.Add(b.sizes()...)
		b.listPictures(fsys, names, &found)
		b.readBuildOutline(fsys, slices.Contains(names, outlineName), &found)
		found.Add(w.checkBuild(fsys, b)...)
		markBroken(&b.Front, found)
		for _, s := range b.Sittings {
			markBroken(&s.Front, found)
		}
	}
	return found
}

// sizes holds what a build's pages would list against its limits.
func (b *Build) sizes() (found source.Findings) {
	over := func(n int, what string) {
		if n > maxEntries {
			found.Add(ruleLimit.At(b.File.Whole(), "split the build in two", "%d %s; at most %d are read", n, source.Word(what), maxEntries))
		}
	}
	pictures := len(b.Body.Pictures())
	for _, s := range b.Sittings {
		pictures += len(s.Front.Photos) + len(s.Body.Pictures())
	}
	over(len(b.Sittings), "sittings")
	over(pictures, "pictures named by the build and its sittings")
	return found
}

func (w *Workshop) readSitting(fsys fs.FS, dir, stem string, found *source.Findings) (*Sitting, bool) {
	name := path.Join(dir, stem+".md")
	m := sittingName.FindStringSubmatch(stem)
	if m == nil {
		found.Add(ruleFile.At(source.Span{}, "name a sitting by its day, like 2026-02-14.md or 2026-02-14-light-test.md", "%s is left out: its name is no date", name))
		return nil, false
	}
	if len(stem) > maxSitting {
		found.Add(ruleUnread.At(source.Span{}, source.Say("shorten it to %d characters", maxSitting),
			"%s is left out: its name is too long for some systems", name))
		return nil, false
	}
	s := &Sitting{Slug: stem}
	var ok bool
	if s.File, s.Body, ok = w.readText(fsys, name, &s.Front, found); !ok {
		return nil, false
	}
	day, err := quantity.ParseDay(m[1])
	if err != nil {
		found.Add(ruleDate.At(s.File.Whole(), "name the file by its day, like 2026-02-14.md", "%v", err))
		return nil, false
	}
	s.Date = day
	return s, true
}

// CheckSittingName reports whether a sitting's file may bear a name, without
// its ending: a date, and words in small letters joined by hyphens.
func CheckSittingName(name string) error {
	if !sittingName.MatchString(name) || len(name) > maxSitting {
		return fmt.Errorf("%q cannot name a sitting; use small letters, digits and hyphens after the date, like 2026-02-14-light-test", name)
	}
	return nil
}

// CheckSlug reports whether a build's folder may bear a name.
func CheckSlug(name string) error {
	if !slugFault(name, reserved).Empty() {
		like := strings.Trim(unslug.ReplaceAllString(strings.ToLower(name), "-"), "-")
		if !slugFault(like, reserved).Empty() || like == name {
			like = "survey-skiff"
		}
		return fmt.Errorf("%q cannot name a build: it becomes part of addresses; use small letters, digits and hyphens, like %s", name, like)
	}
	return nil
}

// sittingWords returns the words after the date in a sitting's name.
func sittingWords(slug string) string {
	m := sittingName.FindStringSubmatch(slug)
	if m == nil || m[2] == "" {
		return ""
	}
	words := strings.ReplaceAll(m[2][1:], "-", " ")
	return strings.ToUpper(words[:1]) + words[1:]
}

// list returns the names in a folder, sorted, without those that begin with a
// dot. A folder that was never there is empty.
func (w *Workshop) list(fsys fs.FS, dir string, found *source.Findings) []string {
	entries, err := fs.ReadDir(fsys, dir)
	if err != nil && (!errors.Is(err, fs.ErrNotExist) || slices.Contains(w.top, dir)) {
		found.Add(ruleUnreadable.At(source.Span{}, "check the folder's permissions", "%s cannot be read: %v", dir, err))
	}
	if len(entries) > maxNames {
		found.Add(ruleLimit.At(source.Span{}, "move what is no journal to another folder", "%s holds %d files; at most %d are read", dir, len(entries), maxNames))
		return nil
	}
	var names []string
	for _, e := range entries {
		if strings.HasPrefix(e.Name(), ".") {
			w.Hidden = append(w.Hidden, path.Join(dir, e.Name()))
			continue
		}
		names = append(names, e.Name())
	}
	return names
}

// readFile reads a text file. ok is false where there is none or it cannot be
// used; a finding says why, except where it is simply not there.
func readFile(fsys fs.FS, name string, found *source.Findings) (*source.File, bool) {
	data, err := readSteady(fsys, name)
	at := source.NewFile(name, "").Whole()
	var long tooLong
	switch {
	case err == nil:
	case errors.Is(err, fs.ErrNotExist):
		return nil, false
	case errors.As(err, &long):
		found.Add(ruleLimit.At(at, "split the file", "%v", long))
		return nil, false
	case errors.Is(err, errChanges):
		found.Add(ruleUnreadable.At(at, "run again once the program that writes it has ended", "%v", err))
		return nil, false
	default:
		found.Add(ruleUnreadable.At(at, "check the file and its permissions", "cannot be read: %v", err))
		return nil, false
	}
	text := strings.TrimPrefix(string(data), "\ufeff")
	file := source.NewFile(name, text)
	if i := invalidUTF8(text); i >= 0 {
		found.Add(ruleEncoding.At(file.At(i, 1), "save the file as UTF-8", "not UTF-8 at byte %d", i+len(data)-len(text)+1))
		return nil, false
	}
	if i := strings.IndexByte(text, 0); i >= 0 {
		found.Add(ruleEncoding.At(file.At(i, 1), "save the file as plain text", "a NUL at byte %d: this is no text", i+len(data)-len(text)+1))
		return nil, false
	}
	found.Add(hiddenIn(file)...)
	return file, true
}

// invalidUTF8 returns the offset of the first byte that is not UTF-8, or -1.
func invalidUTF8(text string) int {
	if utf8.ValidString(text) {
		return -1
	}
	for i := 0; i < len(text); {
		r, size := utf8.DecodeRuneInString(text[i:])
		if r == utf8.RuneError && size == 1 {
			return i
		}
		i += size
	}
	return -1
}

// readText reads a Markdown file with front matter between --- lines.
func (w *Workshop) readText(fsys fs.FS, name string, front any, found *source.Findings) (*source.File, *Body, bool) {
	file, ok := readListed(fsys, name, found)
	if !ok {
		return nil, nil, false
	}
	from, to, body, ok := frontMatter(file.Text)
	if !ok {
		remedy := "begin the file with a line ---, then the front matter, then a line ---"
		if from > 0 {
			remedy = "end the front matter with a line ---"
		}
		found.Add(ruleSyntax.At(file.At(0, len(file.Line(1))), remedy, "there is no front matter"))
		return file, nil, false
	}
	found.Add(decodeIn(w.currency(), file, from, to, front)...)
	parsed, bad := parseBody(file, body)
	found.Add(bad...)
	return file, parsed, true
}

// frontMatter finds the YAML between the first two lines of three hyphens.
// from is above zero where only the closing line is missing.
func frontMatter(text string) (from, to, body int, ok bool) {
	first, _, _ := strings.Cut(text, "\n")
	if strings.TrimRight(first, " \t\r") != "---" {
		return 0, 0, 0, false
	}
	from = len(first) + 1
	for at := from; at < len(text); {
		line := text[at:]
		if end := strings.IndexByte(line, '\n'); end >= 0 {
			line = line[:end+1]
		}
		if strings.TrimRight(line, " \t\r\n") == "---" {
			return from, at, at + len(line), true
		}
		at += len(line)
	}
	return from, 0, 0, false
}
