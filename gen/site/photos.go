package site

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"html/template"
	"io"
	"path"
	"slices"
	"strings"
	"time"

	"spruelight/gen/journal"
	"spruelight/gen/output"
	"spruelight/gen/page"
	"spruelight/gen/photo"
	"spruelight/gen/source"
)

// Photos holds what was made of the workshop's photos.
type Photos struct {
	Builds map[string]*BuildPhotos // by slug
	Wall   *BuildPhotos            // those that free pages alone show
}

// BuildPhotos are the photos of one build, or of the wall.
type BuildPhotos struct {
	Named  []NamedPhoto
	Sets   map[string]photo.Set // by workshop path; nil until one is made
	Taken  map[string]time.Time // when each was taken by its camera's clock, zero where it does not say; by workshop path
	Faults source.Findings      // what keeps photos out
	Notes  source.Findings      // what is to be said of those that were made
}

// NamedPhoto is a photo and the place that first names it.
type NamedPhoto struct {
	File string // workshop path
	At   source.Span
}

// PhotosOf lists every photo that a page of the build shows, each once, in a
// fixed order.
func PhotosOf(b *journal.Build) *BuildPhotos {
	seen := map[string]bool{}
	p := &BuildPhotos{}
	for _, name := range b.PhotoNames() {
		full, inside := b.Inside(name.V)
		if inside && !seen[full] {
			seen[full] = true
			p.Named = append(p.Named, NamedPhoto{full, name.At})
		}
	}
	return p
}

// Keep puts what was made of a photo among the others.
func (p *BuildPhotos) Keep(named NamedPhoto, set photo.Set) {
	if p.Sets == nil {
		p.Sets = map[string]photo.Set{}
	}
	p.Sets[named.File] = set
	p.KeepTaken(named.File, set.Info.Taken)
	for _, n := range set.Notes {
		p.Notes.Add(n.At(named.At, named.File))
	}
}

// KeepTaken puts down when a photo was taken.
func (p *BuildPhotos) KeepTaken(file string, at time.Time) {
	if p.Taken == nil {
		p.Taken = map[string]time.Time{}
	}
	p.Taken[file] = at
}

// KeepFault puts down what keeps a photo out, as findings where it is named. A
// missing one is known from when the journal was read, unless it has vanished
// since.
func (p *BuildPhotos) KeepFault(named NamedPhoto, err error, known source.Findings) {
	if p.Taken == nil {
		p.Taken = map[string]time.Time{}
	}
	p.Faults.Add(photoFindings(named, err, known)...)
}

// Names reports whether a photo is among these.
func (p *BuildPhotos) Names(file string) bool {
	return p != nil && slices.ContainsFunc(p.Named, func(named NamedPhoto) bool { return named.File == file })
}

// Of returns the photos of the build in whose folder a file of the workshop lies.
func (p Photos) Of(file string) *BuildPhotos {
	if of := p.Builds[BuildOf(file)]; of != nil {
		return of
	}
	return &BuildPhotos{}
}

// set returns what was made of a photo.
func (p Photos) set(file string) (photo.Set, bool) {
	set, ok := p.Of(file).Sets[file]
	if !ok && p.Wall != nil {
		set, ok = p.Wall.Sets[file]
	}
	return set, ok
}

// BuildOf returns the slug of the build in whose folder a file of the workshop
// lies, "" where it lies in none.
func BuildOf(file string) string {
	rest, ok := strings.CutPrefix(file, "builds/")
	if !ok {
		return ""
	}
	slug, _, _ := strings.Cut(rest, "/")
	return slug
}

// RuleUndated is broken when a sitting wants days shown that its photos do not tell.
var RuleUndated = &source.Rule{Name: "photo-undated", Severity: source.Note, Source: "CIPA DC-008-2023, DateTimeOriginal",
	Reason: "The day a photo was taken is shown as its camera wrote it; none is guessed.",
	Keys:   "sitting: photo dates; sitting photos[]: file, pair"}

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
	return fmt.Sprintf("%s/photos/%s-%d-%.8s%s", slug, source.Stem(stem), max(f.Width, f.Height), f.Hash, f.Format.Suffix())
}

// Largest returns the site path of a photo's largest rendition, for links to
// it: "" before the photos are made. ok is false where no page shows it.
func (p Photos) Largest(file string) (at string, ok bool) {
	if picture := p.Picture(file, "", "", ""); picture != nil {
		return picture.Largest().Path, true
	}
	return "", p.Of(file).Names(file) || p.Wall.Names(file)
}

// Picture returns a photo as a page shows it, nil where there is none.
func (p Photos) Picture(file, alt, caption, credit string) *page.Picture {
	set, ok := p.set(file)
	if !ok {
		return nil
	}
	out := &page.Picture{Alt: alt, Caption: caption, Credit: credit, Colour: set.Placeholder.Colour,
		Blur: template.URL(set.Placeholder.DataURI())}
	for _, f := range set.Renditions {
		entry := page.PictureFile{Path: sitePath(file, f), Width: f.Width, Height: f.Height, Type: f.Format.MediaType()}
		if f.Format == photo.JPEG || f.Format == photo.PNG {
			out.Files = append(out.Files, entry)
		} else {
			out.Also = append(out.Also, entry)
		}
	}
	if len(out.Files) == 0 {
		return nil
	}
	out.Width, out.Height = out.Largest().Width, out.Largest().Height
	return out
}

// Files are the renditions as files of the site.
func (p *BuildPhotos) Files() []output.File {
	var files []output.File
	taken := map[string]bool{}
	for _, named := range p.Named {
		for _, f := range p.Sets[named.File].Renditions {
			at := sitePath(named.File, f)
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

// Undated finds the photos that do not say when they were taken though their
// sitting shows it.
func (p *BuildPhotos) Undated(b *journal.Build) source.Findings {
	var found source.Findings
	for _, s := range b.Sittings {
		if !s.Front.Dated.V {
			continue
		}
		for i := range s.Front.Photos {
			for _, name := range s.Front.Photos[i].Files() {
				full, _ := b.Inside(name.V)
				if when, read := p.Taken[full]; read && when.IsZero() {
					found.Add(RuleUndated.At(name.At, "write the day into its caption, or copy the photo from the camera again with its EXIF",
						"photo %q does not say when it was taken, so no day is shown", name.V))
				}
			}
		}
	}
	return found
}

// photoFindings turns what is wrong with a photo into findings where it is
// named. A missing one is known from when the journal was read, unless it has
// vanished since.
func photoFindings(named NamedPhoto, err error, known source.Findings) source.Findings {
	var p *photo.Problem
	switch {
	case err == nil || errors.Is(err, context.Canceled):
		return nil
	case !errors.As(err, &p):
		return source.Findings{photo.RuleUnreadable.At(named.At, "run again; if it stays, export the picture anew", "%s: %v", named.File, err)}
	case p.Rule.Name == photo.RuleMissing.Name:
		if slices.ContainsFunc(known, func(f source.Finding) bool { return f.At == named.At }) {
			return nil
		}
		return source.Findings{photo.RuleUnreadable.At(named.At, "see that it is back, and run again",
			"%s has vanished since the journal was read", named.File)}
	}
	return source.Findings{p.At(named.At, named.File)}
}
