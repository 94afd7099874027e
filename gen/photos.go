package gen

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"html/template"
	"io"
	"path"
	"runtime/debug"
	"slices"
	"strings"
	"sync/atomic"
	"time"

	"spruelight/gen/journal"
	"spruelight/gen/output"
	"spruelight/gen/page"
	"spruelight/gen/photo"
	"spruelight/gen/source"
)

// album holds what was made of the workshop's photos.
type album struct {
	builds map[string]*shots // by slug
	wall   *shots            // those that free pages alone show
}

// shots are the photos of one build, or of the wall.
type shots struct {
	refs   []photoRef
	sets   map[string]photo.Set // by workshop path; nil until one is made
	taken  map[string]time.Time // when each was taken by its camera's clock, zero where it does not say; by workshop path
	faults source.Findings      // what keeps photos out
	notes  source.Findings      // what is to be said of those that were made
}

// photoRef is a photo and the place that first names it.
type photoRef struct {
	file string // workshop path
	at   source.Span
}

// photoRefs lists every photo that a page of the build shows, each once, in a
// fixed order.
func (w *work) photoRefs() []photoRef {
	seen := map[string]bool{}
	var refs []photoRef
	for _, name := range w.photoNames() {
		full, inside := w.build.Inside(name.V)
		if inside && !seen[full] {
			seen[full] = true
			refs = append(refs, photoRef{full, name.At})
		}
	}
	return refs
}

// wallShots lists the photos that free pages show and no page of a build does.
// Those of an earlier pass whose files did not change are taken over.
func (r *run) wallShots() *shots {
	wall := &shots{sets: map[string]photo.Set{}, taken: map[string]time.Time{}}
	for file, written := range r.shownOnWall() {
		if _, drawn := drawingName(file); drawn || !journal.Pictured(file) || r.hidden.photos[file] || wall.names(file) || r.photos.of(file).names(file) {
			continue
		}
		ref := photoRef{file, written.At}
		wall.refs = append(wall.refs, ref)
		if set, ok := r.former.photo(file); ok {
			wall.keep(ref, set)
		}
	}
	return wall
}

// names reports whether a photo is among these.
func (s *shots) names(file string) bool {
	return s != nil && slices.ContainsFunc(s.refs, func(ref photoRef) bool { return ref.file == file })
}

// of returns the photos of the build in whose folder a file of the workshop lies.
func (a album) of(file string) *shots {
	if s := a.builds[buildOf(file)]; s != nil {
		return s
	}
	return &shots{}
}

// set returns what was made of a photo.
func (a album) set(file string) (photo.Set, bool) {
	set, ok := a.of(file).sets[file]
	if !ok && a.wall != nil {
		set, ok = a.wall.sets[file]
	}
	return set, ok
}

// buildOf returns the slug of the build in whose folder a file of the workshop
// lies, "" where it lies in none.
func buildOf(file string) string {
	rest, ok := strings.CutPrefix(file, "builds/")
	if !ok {
		return ""
	}
	slug, _, _ := strings.Cut(rest, "/")
	return slug
}

// photoNames returns the names of all photos in a build's journals.
func (w *work) photoNames() []source.Value[string] {
	var names []source.Value[string]
	add := func(v source.Value[string]) {
		if v.Set {
			names = append(names, v)
		}
	}
	add(w.build.Front.Lead)
	add(w.build.Front.Repair.Photo)
	for _, c := range w.build.Front.Choices {
		for _, o := range c.Options {
			add(o.Photo)
		}
	}
	for _, p := range w.build.Body.Pictures() {
		add(p.File)
	}
	for _, s := range w.build.Sittings {
		for _, p := range s.Front.Photos {
			for _, file := range p.Files() {
				add(file)
			}
		}
		for _, r := range s.Front.Ready {
			add(r.Photo)
		}
		for _, p := range s.Body.Pictures() {
			add(p.File)
		}
	}
	if w.build.Review != nil {
		for _, p := range w.build.Review.Body.Pictures() {
			add(p.File)
		}
	}
	return names
}

// recipe says what is made of each photo.
func (r *run) recipe() photo.Recipe {
	recipe := photo.DefaultRecipe()
	settings := r.shop.Settings.Photos
	if settings.Limit.Set {
		recipe.Limits.Pixels = int64(settings.Limit.V) * 1_000_000
	}
	if settings.Also.Set {
		recipe.Also = photo.Format(settings.Also.V)
	}
	return recipe
}

// takePhotos makes the renditions of every photo, or takes them from the cache
// or from an earlier pass.
func (r *run) takePhotos(ctx context.Context) {
	if r.found.Stops() { // the photos of a broken record are checked, not made
		r.inspect(ctx)
		return
	}
	recipe := r.recipe()
	list := r.takings(func(s *shots) bool { return s.sets == nil })
	if len(list) > 0 {
		defer leanHeap()()
	}
	r.eachPhoto(ctx, list, func(t *taking) {
		t.set, t.err = r.env.Photos.Make(ctx, r.env.Content, t.file, recipe)
		t.info = t.set.Info
	})
	for _, t := range list {
		if t.err == nil && !t.set.Reused {
			r.counts.Made++
		}
	}
	for _, s := range r.allShots() {
		r.found.Add(s.notes...)
		r.counts.Reused += len(s.sets)
	}
	r.counts.Reused -= r.counts.Made
	if ctx.Err() != nil || r.counts.Made == 0 && r.former != nil { // the cache holds what it held
		return
	}
	if err := r.env.Photos.Flush(); err != nil {
		r.found.Add(ruleCache.At(source.Span{}, "check the cache folder, or name another with --cache", "the photo cache cannot be written: %v", err))
	}
}

// leanHeap has the collector run when garbage is half of what is in use, and
// returns what puts its setting back. Photos leave garbage of 80 MB each that
// holds no pointers: to collect it twice as often costs next to nothing and
// takes a third off the largest memory of a run.
func leanHeap() (restore func()) {
	const percent = 50
	former := debug.SetGCPercent(percent)
	if former >= 0 && former < percent { // GOGC asks for less still
		debug.SetGCPercent(former)
	}
	return func() { debug.SetGCPercent(former) }
}

// inspect checks by their headers the photos that no earlier pass looked at.
func (r *run) inspect(ctx context.Context) {
	limits := r.recipe().Limits
	r.eachPhoto(ctx, r.takings(func(s *shots) bool { return s.taken == nil }), func(t *taking) {
		t.info, t.err = photo.Inspect(r.env.Content, t.file, limits)
	})
}

// taking is one photo on its way through the photo room.
type taking struct {
	photoRef
	into *shots
	info photo.Info
	set  photo.Set
	err  error
}

// takings lists the photos of the builds that still want them, and of the wall.
func (r *run) takings(want func(*shots) bool) []*taking {
	var list []*taking
	for _, w := range r.works {
		if !want(w.shots) {
			continue
		}
		w.shots = &shots{refs: w.shots.refs} // an earlier pass may still show the former ones
		r.photos.builds[w.slug()] = w.shots
		for _, ref := range w.shots.refs {
			list = append(list, &taking{photoRef: ref, into: w.shots})
		}
	}
	for _, ref := range r.photos.wall.refs {
		if _, known := r.photos.wall.sets[ref.file]; !known {
			list = append(list, &taking{photoRef: ref, into: r.photos.wall})
		}
	}
	return list
}

// eachPhoto works on photos and keeps what comes out with their builds.
func (r *run) eachPhoto(ctx context.Context, list []*taking, do func(*taking)) {
	var done atomic.Int64
	each(ctx, r.env.Workers, list, func(t *taking) source.Findings {
		do(t)
		r.env.Progress("photos", int(done.Add(1)), len(list))
		return nil
	}, &r.found)
	if ctx.Err() != nil {
		return
	}
	known := r.found
	for _, t := range list {
		t.keep(known)
	}
	for _, s := range r.allShots() {
		r.counts.Photos += len(s.refs)
		r.found.Add(s.faults...)
	}
	for _, w := range r.works {
		r.found.Add(w.undated()...)
	}
}

// allShots are the photos of all builds and of the wall.
func (r *run) allShots() []*shots {
	all := []*shots{r.photos.wall}
	for _, w := range r.works {
		all = append(all, w.shots)
	}
	return all
}

// keep puts what became of the photo among the photos of its build.
func (t *taking) keep(known source.Findings) {
	s := t.into
	if s.taken == nil {
		s.taken = map[string]time.Time{}
	}
	switch {
	case t.err != nil:
		s.faults.Add(photoFindings(t.photoRef, t.err, known)...)
	case t.set.Renditions == nil: // it was looked at only
		s.taken[t.file] = t.info.Taken
	default:
		s.keep(t.photoRef, t.set)
	}
}

// keep puts what was made of a photo among the others.
func (s *shots) keep(ref photoRef, set photo.Set) {
	if s.sets == nil {
		s.sets = map[string]photo.Set{}
	}
	s.sets[ref.file], s.taken[ref.file] = set, set.Info.Taken
	for _, n := range set.Notes {
		s.notes.Add(n.At(ref.at, ref.file))
	}
}

// ruleCache is broken when renditions cannot be kept.
var ruleCache = source.Rule{Name: "photo-cache", Severity: source.Warn, Reason: "Without its cache every run makes every photo anew.", Source: "common practice, no source"}

// ruleUndated is broken when a sitting wants days shown that its photos do not tell.
var ruleUndated = source.Rule{Name: "photo-undated", Severity: source.Note, Reason: "The day a photo was taken is shown as its camera wrote it; none is guessed.", Source: "CIPA DC-008-2023, DateTimeOriginal"}

// undated finds the photos that do not say when they were taken though their
// sitting shows it.
func (w *work) undated() source.Findings {
	var found source.Findings
	for _, s := range w.build.Sittings {
		if !s.Front.Dated.V {
			continue
		}
		for i := range s.Front.Photos {
			for _, name := range s.Front.Photos[i].Files() {
				full, _ := w.build.Inside(name.V)
				if when, read := w.shots.taken[full]; read && when.IsZero() {
					found.Add(ruleUndated.At(name.At, "write the day into its caption, or copy the photo from the camera again with its EXIF", "photo %q does not say when it was taken, so no day is shown", name.V))
				}
			}
		}
	}
	return found
}

// photoFindings turns what is wrong with a photo into findings where it is
// named. A missing one is known from when the journal was read, unless it has
// vanished since.
func photoFindings(ref photoRef, err error, known source.Findings) source.Findings {
	var p *photo.Problem
	switch {
	case err == nil || errors.Is(err, context.Canceled):
		return nil
	case !errors.As(err, &p):
		return source.Findings{photo.RuleUnreadable.At(ref.at, "run again; if it stays, export the picture anew", "%s: %v", ref.file, err)}
	case p.Rule.Name == photo.RuleMissing.Name:
		if slices.ContainsFunc(known, func(f source.Finding) bool { return f.At == ref.at }) {
			return nil
		}
		return source.Findings{photo.RuleUnreadable.At(ref.at, "see that it is back, and run again", "%s has vanished since the journal was read", ref.file)}
	}
	return source.Findings{p.At(ref.at, ref.file)}
}

// sitePath returns where a rendition stands in the site. Its name carries part
// of its content's hash, so that a changed picture never hides behind a copy
// that a browser kept.
func sitePath(file string, f photo.Rendition) string {
	top, rest, _ := strings.Cut(file, "/")
	slug, _, _ := strings.Cut(rest, "/")
	if top == "wall" { // a free page's own
		slug = top
	}
	stem := strings.TrimSuffix(path.Base(file), path.Ext(file))
	return fmt.Sprintf("%s/photos/%s-%d-%.8s%s", slug, safeStem(stem), max(f.Width, f.Height), f.Hash, f.Format.Suffix())
}

// safeStem keeps letters, digits and hyphens of a photo's name: the rest would
// need escaping in an address.
func safeStem(stem string) string {
	clean := strings.Map(func(c rune) rune {
		switch {
		case c >= 'a' && c <= 'z', c >= '0' && c <= '9', c == '-':
			return c
		case c >= 'A' && c <= 'Z':
			return c + 'a' - 'A'
		}
		return '-'
	}, stem)
	if len(clean) > 60 {
		clean = clean[:60]
	}
	return clean
}

// largest returns the site path of a photo's largest rendition, for links to
// it: "" before the photos are made. ok is false where no page shows it.
func (a album) largest(file string) (at string, ok bool) {
	if p := a.picture(file, "", "", ""); p != nil {
		return p.Largest().Path, true
	}
	return "", a.of(file).names(file) || a.wall.names(file)
}

// picture returns a photo as a page shows it, nil where there is none.
func (a album) picture(file, alt, caption, credit string) *page.Picture {
	set, ok := a.set(file)
	if !ok {
		return nil
	}
	p := &page.Picture{Alt: alt, Caption: caption, Credit: credit, Colour: set.Placeholder.Colour, Blur: template.URL(set.Placeholder.DataURI())}
	for _, f := range set.Renditions {
		entry := page.PictureFile{Path: sitePath(file, f), Width: f.Width, Height: f.Height, Type: f.Format.MediaType()}
		if f.Format == photo.JPEG || f.Format == photo.PNG {
			p.Files = append(p.Files, entry)
		} else {
			p.Also = append(p.Also, entry)
		}
	}
	if len(p.Files) == 0 {
		return nil
	}
	p.Width, p.Height = p.Largest().Width, p.Largest().Height
	return p
}

// files are the renditions as files of the site.
func (s *shots) files() []output.File {
	var files []output.File
	taken := map[string]bool{}
	for _, ref := range s.refs {
		for _, f := range s.sets[ref.file].Renditions {
			at := sitePath(ref.file, f)
			if taken[at] { // two photos of one content
				continue
			}
			taken[at] = true
			files = append(files, output.File{Path: at, Size: f.Bytes, Hash: f.Hash, Open: func() (io.ReadCloser, error) {
				data, err := f.Read()
				return io.NopCloser(bytes.NewReader(data)), err
			}})
		}
	}
	return files
}
