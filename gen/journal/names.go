package journal

import (
	"fmt"
	"io/fs"
	"path"
	"strings"
)

// BuildNames returns the builds of a workshop by their folders, without
// reading one: quick enough to complete a word while it is typed.
func BuildNames(shop fs.FS) []string {
	found, _ := fs.Glob(shop, "builds/*/build.md")
	var names []string
	for _, name := range found {
		if slug := path.Base(path.Dir(name)); CheckSlug(slug) == nil {
			names = append(names, slug)
		}
	}
	return names
}

// SittingNames returns the sittings of a build by their files.
func SittingNames(shop fs.FS, slug string) []string {
	if CheckSlug(slug) != nil {
		return nil
	}
	found, _ := fs.Glob(shop, path.Join("builds", slug, "*.md"))
	var names []string
	for _, name := range found {
		if stem := strings.TrimSuffix(path.Base(name), ".md"); CheckSittingName(stem) == nil {
			names = append(names, stem)
		}
	}
	return names
}

// StageNames returns what sittings of a workshop can be for.
func StageNames(shop fs.FS) []string {
	w, _ := Open(shop)
	return w.Settings.StageNames()
}

// NoBuild says that a build is not there: which was meant, else which there
// are, else how to begin one.
func (w *Workshop) NoBuild(slug string) error {
	var known []string
	for _, b := range w.Builds {
		known = append(known, b.Slug)
	}
	hint := ""
	switch near, ok := Nearest(slug, known); {
	case ok:
		hint = fmt.Sprintf("; did you mean %q?", near)
	case len(known) == 0:
		hint = "; begin one with spruelight unbox, like spruelight unbox survey-skiff"
	case len(known) <= 12:
		hint = "; it has " + strings.Join(known, ", ")
	}
	return fmt.Errorf("there is no build %q in this workshop%s", slug, hint)
}
