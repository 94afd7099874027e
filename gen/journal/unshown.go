package journal

import (
	"fmt"
	"io/fs"
	"net/url"
	"path"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"spruelight/gen/source"
)

// ruleNoBuild and ruleUnshown are about what lies in builds and is shown nowhere.
var (
	ruleNoBuild = &source.Rule{Name: "no-build-file", Severity: source.Warn, Source: "common practice, no source",
		Reason: "A folder below builds without a build.md is no build, and nothing of it is shown.",
		Keys:   source.NoKey}
	ruleUnshown = &source.Rule{Name: "photo-unshown", Severity: source.Note, Source: "common practice, no source",
		Reason: "A photo that no text names is on no page, though it was perhaps meant to be.",
		Keys:   source.NoKey}
)

// listPictures notes the pictures at the top of the build's folder and in its
// photos.
func (b *Build) listPictures(fsys fs.FS, top []string, found *source.Findings) {
	listing := Workshop{top: []string{path.Join(b.Dir, "photos")}}
	for _, name := range top {
		if isPicture(name) {
			b.Pictures = append(b.Pictures, path.Join(b.Dir, name))
		}
	}
	if !slices.Contains(top, "photos") {
		return
	}
	if info, err := fs.Stat(fsys, path.Join(b.Dir, "photos")); err != nil || !info.IsDir() {
		return
	}
	for _, name := range listing.list(fsys, path.Join(b.Dir, "photos"), found) {
		if isPicture(name) {
			b.Pictures = append(b.Pictures, path.Join(b.Dir, "photos", name))
		}
	}
}

// isPicture reports whether a file's name is that of a picture that pages show.
func isPicture(name string) bool {
	return slices.Contains([]string{".jpg", ".jpeg", ".png", ".webp"}, strings.ToLower(path.Ext(name)))
}

// Unshown returns the workshop paths of the pictures in the build's folder that
// no text of the build, and no free page, names.
func (w *Workshop) Unshown(b *Build) []string {
	texts := b.texts()
	for _, leaf := range w.Wall {
		texts = append(texts, leaf.File)
	}
	return slices.DeleteFunc(slices.Clone(b.Pictures), func(name string) bool {
		base := path.Base(name)
		return slices.ContainsFunc(texts, func(f *source.File) bool {
			return f != nil && (mentions(f.Text, base) || mentions(f.Text, url.PathEscape(base)))
		})
	})
}

// texts are the files of the build that were read.
func (b *Build) texts() []*source.File {
	texts := []*source.File{b.File}
	for _, s := range b.Sittings {
		texts = append(texts, s.File)
	}
	if b.Review != nil {
		texts = append(texts, b.Review.File)
	}
	return texts
}

// mentions reports whether a text holds a file's name, not as the end of a longer
// one.
func mentions(text, base string) bool {
	for {
		i := strings.Index(text, base)
		if i < 0 {
			return false
		}
		before, size := utf8.DecodeLastRuneInString(text[:i])
		if size == 0 || !unicode.IsLetter(before) && !unicode.IsDigit(before) && !strings.ContainsRune("-_.", before) {
			return true
		}
		text = text[i+len(base):]
	}
}

// CheckUnshown notes the pictures of a build that are on no page, in one finding.
func (w *Workshop) CheckUnshown(b *Build) source.Findings {
	list := w.Unshown(b)
	if len(list) == 0 {
		return nil
	}
	const most = 10
	var shown []string
	for _, name := range list[:min(most, len(list))] {
		shown = append(shown, strings.TrimPrefix(name, b.Dir+"/"))
	}
	says := strings.Join(shown, ", ")
	if more := len(list) - most; more > 0 {
		says += fmt.Sprintf(" and %d more", more)
	}
	return source.Findings{ruleUnshown.At(b.File.Whole(),
		"name them under photos in a sitting, or move them away", "photos that no text shows: %s", says)}
}
