package gen

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"strings"
	"testing/fstest"

	"spruelight/gen/output"
	"spruelight/gen/page"
	"spruelight/gen/photo"
	"spruelight/gen/svg"
)

// themeShelf finds a theme: one that came with the program, else a folder of
// the workshop.
func (r *run) themeShelf(name string) (files fs.FS, where string, err error) {
	if !fs.ValidPath(name) || name == "." || name == "words" || strings.HasPrefix(name, ".") {
		return nil, "", fs.ErrNotExist
	}
	if _, err := fs.Stat(r.env.Themes, name); err == nil {
		files, err = fs.Sub(r.env.Themes, name)
		return files, "themes/" + name, err
	}
	info, err := fs.Stat(r.env.Content, name)
	if err != nil || !info.IsDir() {
		return nil, "", cmp.Or(err, fs.ErrNotExist)
	}
	files, err = wholeTheme(r.env.Content, name)
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

// assets are the style sheet, the script and whatever else the theme brings.
func assets(theme *page.Theme) []output.File {
	style := page.SlimStyle(svg.Properties() + svg.Stylesheet() + theme.Joined(".css")) // the theme's own come after and win
	files := []output.File{{Path: "style.css", Bytes: []byte(style)}, {Path: page.PrintStyle, Bytes: []byte(page.SlimStyle(theme.Joined(page.PrintStyle)))}, {Path: "script.js", Bytes: []byte(page.SlimScript(theme.Joined(".js")))}}
	for _, pattern := range []string{"*.svg", "*.png", "*.ico", "*.webmanifest"} {
		names, _ := fs.Glob(theme, pattern)
		for _, name := range names {
			data, err := fs.ReadFile(theme, name)
			if err != nil { // no file: a folder of such a name
				continue
			}
			if clean, _, err := photo.Private(data, photo.Keep{}); err == nil { // else it is no photo
				data = clean
			}
			files = append(files, output.File{Path: name, Bytes: data})
		}
	}
	return files
}
