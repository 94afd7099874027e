package guide

import (
	"context"
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strings"
	"time"

	"spruelight/gen/journal"
	"spruelight/gen/photo"
	"spruelight/gen/topic"
)

// SitOptions say how a sitting is begun.
type SitOptions struct {
	Name   string    // what follows the date in the file's name: "light-test"
	Stage  string    // "" for that of the last sitting
	Photos fs.FS     // folder with photos to copy in; nil for none
	Moment time.Time // its day, in the workshop's time zone, is the sitting's
	Wall   bool      // Moment is a wall clock, as journal.Workshop.Clock reads it
}

// Draft is a sitting about to be begun: a file to write and photos to copy.
// Nothing is written yet; the photos stay where they are, as they are.
type Draft struct {
	Name   string // in the workshop: "builds/marram/2026-02-14.md"
	Text   string
	Copies []Copy
	Photos []string // those that the sitting shows, by when they were taken: copied, or there already; workshop paths
	Left   []string // photos left out, each with the reason

	shown []snap // Photos, with when they were taken
}

// Copy is a photo to be copied into the workshop.
type Copy struct {
	From string // in the folder of photos
	To   string // in the workshop
}

// Sit prepares today's sitting of a build, with the photos taken since its
// last one by their own EXIF dates. A sitting under embargo counts as the last
// one all the same.
func Sit(ctx context.Context, content fs.FS, slug string, opts SitOptions) (*Draft, error) {
	shop, _ := journal.Open(content)
	b, ok := shop.Build(slug)
	if ok {
		shop.ReadBuild(content, b)
	}
	switch {
	case !ok:
		return nil, shop.NoBuild(slug)
	case b.File == nil:
		return nil, fmt.Errorf("%s holds no build.md that can be read; spruelight unbox %s writes one where there is none", b.Dir, slug)
	}
	today := dayOf(shop.Clock(opts.Moment, opts.Wall))
	name := today.Format(time.DateOnly)
	if opts.Name != "" {
		name += "-" + opts.Name
	}
	if err := journal.CheckSittingName(name); err != nil {
		return nil, err
	}
	stage, err := stageFor(shop, b, opts.Stage)
	if err != nil {
		return nil, err
	}
	d := &Draft{Name: path.Join(b.Dir, name+".md")}
	var last time.Time
	for _, s := range b.Sittings {
		last = topic.Later(last, s.Date)
	}
	if opts.Photos != nil {
		if err := d.pick(content, shop, b, opts.Photos, last, today); err != nil {
			return nil, err
		}
	}
	example := path.Join(b.Dir, "build.md")
	if n := len(b.Sittings); n > 0 {
		example = path.Join(b.Dir, b.Sittings[n-1].Slug+".md")
	}
	d.Text = asWritten(content, example, sittingText(stage, shop.Settings.StageNames(), d.Photos, b.Dir))
	return d, ctx.Err()
}

// stageFor is the stage asked for, else that of the last sitting.
func stageFor(shop *journal.Workshop, b *journal.Build, asked string) (string, error) {
	stages := shop.Settings.StageNames()
	if asked != "" && !slices.Contains(stages, asked) {
		return "", fmt.Errorf("%q is no stage of this workshop; it has %s", asked, strings.Join(stages, ", "))
	}
	if asked != "" {
		return asked, nil
	}
	for _, s := range slices.Backward(b.Sittings) {
		if slices.Contains(stages, s.Front.Stage.V) {
			return s.Front.Stage.V, nil
		}
	}
	return stages[0], nil
}

// pick chooses the photos taken after the day of the last sitting, or today,
// that the build does not show already: those of the camera, and those that lie
// in the build's folder, left there by a run that was cut off, and are in none
// of its texts. Clocks of cameras have no zone, so whole days are compared.
func (d *Draft) pick(content fs.FS, shop *journal.Workshop, b *journal.Build, photos fs.FS, last, today time.Time) error {
	found, err := d.fromCamera(photos, last, today)
	if err != nil {
		return err
	}
	spare := shop.Unshown(b)
	for _, p := range found {
		if err := d.copyIn(content, b, photos, p, spare); err != nil {
			return err
		}
	}
	for _, name := range spare {
		info, err := photo.Inspect(content, name, photo.Limits{})
		taken := slices.ContainsFunc(d.shown, func(s snap) bool { return s.name == name })
		if p := (snap{name, info.Taken}); err == nil && !taken && p.fits(last, today) {
			d.shown = append(d.shown, p)
		}
	}
	slices.SortStableFunc(d.shown, func(a, b snap) int { return a.when.Compare(b.when) })
	for _, p := range d.shown {
		d.Photos = append(d.Photos, p.name)
	}
	return nil
}

// snap is a photo and when it was taken, by the camera's clock.
type snap struct {
	name string
	when time.Time
}

// fits reports whether a photo was taken after the day of the last sitting, or
// today. One from before is the last sitting's business.
func (p snap) fits(last, today time.Time) bool {
	day := dayOf(p.when)
	return !p.when.IsZero() && !day.After(today) && (last.IsZero() || day.After(last) || day.Equal(today))
}

// fromCamera lists the photos that fit, by when they were taken.
func (d *Draft) fromCamera(photos fs.FS, last, today time.Time) ([]snap, error) {
	entries, err := fs.ReadDir(photos, ".")
	if err != nil {
		return nil, fmt.Errorf("the photos cannot be read: %w", err)
	}
	var found []snap
	for _, e := range entries {
		if e.IsDir() || strings.HasPrefix(e.Name(), ".") {
			continue
		}
		if !photo.IsPhoto(e.Name()) {
			if why := unreadPhotos[strings.ToLower(path.Ext(e.Name()))]; why != "" {
				d.leave(e.Name(), why)
			}
			continue
		}
		info, err := photo.Inspect(photos, e.Name(), photo.Limits{})
		switch p := (snap{e.Name(), info.Taken}); {
		case err != nil:
			d.leave(e.Name(), "it cannot be read")
		case info.Taken.IsZero():
			d.leave(e.Name(), "it does not say when it was taken")
		case dayOf(info.Taken).After(today):
			d.leave(e.Name(), "it says that it was taken on "+dayOf(info.Taken).Format(time.DateOnly)+", after today")
		case p.fits(last, today):
			found = append(found, p)
		}
	}
	slices.SortStableFunc(found, func(a, b snap) int { return a.when.Compare(b.when) })
	return found, nil
}

func (d *Draft) leave(name, why string) { d.Left = append(d.Left, name+": "+why) }

// dayOf returns the day of a moment by its own clock, at midnight UTC as all
// days are.
func dayOf(t time.Time) time.Time {
	return time.Date(t.Year(), t.Month(), t.Day(), 0, 0, 0, 0, time.UTC)
}

// unreadPhotos are kinds of pictures that cameras and phones make and that are
// not read, each with the way out. Films and other files need no word.
var unreadPhotos = func() map[string]string {
	const raw = "raw pictures are not read; export it as JPEG"
	const heic = "HEIC is not read; export it as JPEG, or have the phone store JPEG"
	const tiff = "TIFF is not read; export it as JPEG"
	return map[string]string{".heic": heic, ".heif": heic, ".avif": "AVIF is not read; export it as JPEG", ".tif": tiff, ".tiff": tiff,
		".dng": raw, ".cr2": raw, ".cr3": raw, ".nef": raw, ".arw": raw, ".raf": raw, ".orf": raw, ".rw2": raw}
}()

// copyIn plans the copy of a photo under its own name. A photo of that name
// with the same content is there already, and is taken up where it is spare: in
// no text. One with another content keeps its place, and the new one gets a
// number.
func (d *Draft) copyIn(content fs.FS, b *journal.Build, photos fs.FS, p snap, spare []string) error {
	name := p.name
	data, err := fs.ReadFile(photos, name)
	if err != nil {
		return fmt.Errorf("%s cannot be read: %w", name, err)
	}
	stem, ext := strings.TrimSuffix(name, path.Ext(name)), path.Ext(name)
	for n := 1; n < 1000; n++ {
		to := path.Join(b.Dir, "photos", name)
		if n > 1 {
			to = path.Join(b.Dir, "photos", fmt.Sprintf("%s-%d%s", stem, n, ext))
		}
		if slices.ContainsFunc(d.Copies, func(c Copy) bool { return strings.EqualFold(c.To, to) }) {
			continue
		}
		there, err := fs.ReadFile(content, to)
		switch {
		case err == nil && string(there) == string(data) && slices.Contains(spare, to):
			d.shown = append(d.shown, snap{to, p.when})
			return nil
		case err == nil && string(there) == string(data):
			d.leave(name, "it is in the build already")
			return nil
		case err == nil:
			continue
		}
		d.Copies = append(d.Copies, Copy{From: name, To: to})
		d.shown = append(d.shown, snap{to, p.when})
		return nil
	}
	return fmt.Errorf("%s: too many photos bear that name", name)
}

// sittingText is the journal of a sitting, ready to be filled in.
func sittingText(stage string, stages, photos []string, dir string) string {
	var b strings.Builder
	others := slices.DeleteFunc(slices.Clone(stages), func(s string) bool { return s == stage })
	b.WriteString("---\n# Take the # and one space away from a line and write what is so.\n")
	fmt.Fprintf(&b, "# title: First light in the wheelhouse\n# hours: 1 h 30 min\nstage: %s", stage)
	if len(others) > 0 {
		fmt.Fprintf(&b, " # or %s", strings.Join(others, ", "))
	}
	b.WriteString("\n")
	if len(photos) == 0 {
		b.WriteString("# photos:\n#   - file: photos/first-light.jpg\n#     alt: What is to be seen, for readers who cannot see it\n")
	} else {
		b.WriteString("photos: # alt says what is to be seen, for readers who cannot see it\n")
	}
	for _, name := range photos {
		fmt.Fprintf(&b, "  - file: %s\n    # alt: What is to be seen\n", yamlText(strings.TrimPrefix(name, dir+"/")))
	}
	b.WriteString(`# coats: [{area: hull inside, coat: black, at: "19:30"}]
# readings: [{at: saloon, current: 3.9 mA}]
# lit: [D1, D2]
# before closing: [{area: hull inside, leak check: [before primer, after primer], soak: 24 h, wiggle: all leads}]
# closed: [hull inside]
# parts: [{part: C14, event: spare used}]
# spent: [{on: enamelled wire, price: 6.50 EUR}]
# went wrong: primer lifted under the tape
# next: mask the boot topping

# Below the next line comes your text: what was done, what went wrong, and why.
---

`)
	return b.String()
}

// yamlText quotes a text so that no character of it can be taken for YAML.
func yamlText(text string) string {
	plain := strings.Trim(text, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-_./") == ""
	if plain {
		return text
	}
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`, "\n", `\n`, "\t", `\t`).Replace(text) + `"`
}
