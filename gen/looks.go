package gen

import (
	"io/fs"
	"path"
	"strings"
)

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
