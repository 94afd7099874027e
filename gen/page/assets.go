package page

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"strings"
	"testing/fstest"

	"spruelight/gen/svg"
)

// FindTheme finds a theme by its name among the built-in ones, else as a folder
// of the workshop. where is the path by which findings name it.
func FindTheme(builtIn, workshop fs.FS, name string) (files fs.FS, where string, err error) {
	if !fs.ValidPath(name) || name == "." || name == "words" || strings.HasPrefix(name, ".") {
		return nil, "", fs.ErrNotExist
	}
	if _, err := fs.Stat(builtIn, name); err == nil {
		files, err = fs.Sub(builtIn, name)
		return files, "themes/" + name, err
	}
	info, err := fs.Stat(workshop, name)
	if err != nil || !info.IsDir() {
		return nil, "", cmp.Or(err, fs.ErrNotExist)
	}
	files, err = wholeTheme(workshop, name)
	return files, name, err
}

// mostTheme is how many bytes a theme of the workshop may have.
const mostTheme = 32 << 20

// wholeTheme reads a theme of the workshop into memory, so that a file of it
// that cannot be read is noticed, and not taken for one that it does not have.
func wholeTheme(content fs.FS, dir string) (fs.FS, error) {
	m := fstest.MapFS{}
	total := int64(0)
	return m, fs.WalkDir(content, dir, func(name string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return gone(err)
		case strings.HasPrefix(d.Name(), ".") && d.IsDir():
			return fs.SkipDir
		case strings.HasPrefix(d.Name(), "."):
			return nil
		}
		info, err := fs.Stat(content, name)
		if err != nil || !info.Mode().IsRegular() {
			return gone(err)
		}
		if total += info.Size(); total > mostTheme {
			return fmt.Errorf("it has more than %d MiB", mostTheme>>20)
		}
		data, err := fs.ReadFile(content, name)
		m[strings.TrimPrefix(name, dir+"/")] = &fstest.MapFile{Data: data}
		return gone(err)
	})
}

// gone tells a file that has vanished from a theme that was never there.
func gone(err error) error {
	if errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("%v: it has vanished meanwhile", err)
	}
	return err
}

// Asset is a file that a theme brings to the site as it stands.
type Asset struct {
	Path  string
	Bytes []byte
}

// Assets are the style sheets, the script and whatever else the theme brings.
func (t *Theme) Assets() []Asset {
	style := svg.Properties() + svg.Stylesheet() + t.Joined(".css") // the theme's own come after and win
	files := []Asset{
		{"style.css", []byte(SlimStyle(style))},
		{PrintStyle, []byte(SlimStyle(t.Joined(PrintStyle)))},
		{RepairStyle, []byte(SlimStyle(t.Joined(RepairStyle)))},
		{"script.js", []byte(SlimScript(t.Joined(".js")))},
	}
	for _, pattern := range []string{"*.svg", "*.png", "*.ico", "*.webmanifest"} {
		names, _ := fs.Glob(t, pattern)
		for _, name := range names {
			data, err := fs.ReadFile(t, name)
			if err != nil { // no file: a folder of such a name
				continue
			}
			files = append(files, Asset{name, data})
		}
	}
	return files
}
