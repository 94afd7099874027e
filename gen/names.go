package gen

import (
	"fmt"
	"io/fs"
	"path"
	"strings"

	"spruelight/gen/journal"
)

// Nearest returns the known word that a mistyped one most likely meant.
func Nearest(word string, known []string) (string, bool) { return journal.Nearest(word, known) }

// BuildNames returns the builds of a workshop by their folders, without
// reading one: quick enough to complete a word while it is typed.
func BuildNames(shop fs.FS) []string {
	found, _ := fs.Glob(shop, "builds/*/build.md")
	var names []string
	for _, name := range found {
		if slug := path.Base(path.Dir(name)); journal.CheckSlug(slug) == nil {
			names = append(names, slug)
		}
	}
	return names
}

// SittingNames returns the sittings of a build by their files.
func SittingNames(shop fs.FS, slug string) []string {
	if journal.CheckSlug(slug) != nil {
		return nil
	}
	found, _ := fs.Glob(shop, path.Join("builds", slug, "*.md"))
	var names []string
	for _, name := range found {
		if stem := strings.TrimSuffix(path.Base(name), ".md"); journal.CheckSittingName(stem) == nil {
			names = append(names, stem)
		}
	}
	return names
}

// StockNames returns what the rack holds of a kind: "lamps", "paints",
// "supplies" or "wire".
func StockNames(shop fs.FS, kind string) []string { return journal.StockNames(shop, kind) }

// StageNames returns what sittings of a workshop can be for.
func StageNames(shop fs.FS) []string {
	w, _ := journal.Open(shop)
	return w.Settings.StageNames()
}

// Languages returns those the pages can speak.
func Languages(themes fs.FS) []string {
	found, _ := fs.Glob(themes, "words/*.yaml")
	for i, name := range found {
		found[i] = strings.TrimSuffix(path.Base(name), ".yaml")
	}
	return found
}

// Looks returns the built-in themes.
func Looks(themes fs.FS) []string {
	found, _ := fs.Glob(themes, "*/look.yaml")
	for i, name := range found {
		found[i] = path.Dir(name)
	}
	return found
}

// noBuild says that a build is not there: which was meant, else which there
// are, else how to begin one.
func noBuild(slug string, shop *journal.Workshop) error {
	known := slugs(shop)
	hint := did(slug, known)
	switch {
	case hint != "":
	case len(known) == 0:
		hint = "; begin one with spruelight unbox, like spruelight unbox survey-skiff"
	case len(known) <= 12:
		hint = "; it has " + strings.Join(known, ", ")
	}
	return fmt.Errorf("there is no build %q in this workshop%s", slug, hint)
}
