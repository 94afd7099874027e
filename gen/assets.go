package gen

import (
	"errors"
	"io/fs"
	"strings"

	"spruelight/gen/output"
	"spruelight/gen/page"
	"spruelight/gen/svg"
)

// themeShelf finds a theme: one that came with the program, else a folder of
// the workshop.
func (r *run) themeShelf(name string) (files fs.FS, where string, ok bool) {
	if !fs.ValidPath(name) || name == "." || name == "words" || strings.HasPrefix(name, ".") {
		return nil, "", false
	}
	if _, err := fs.Stat(r.env.Themes, name); err == nil {
		files, err = fs.Sub(r.env.Themes, name)
		return files, "themes/" + name, err == nil
	}
	info, err := fs.Stat(r.env.Content, name)
	if err != nil || !info.IsDir() {
		return nil, "", false
	}
	files, err = fs.Sub(r.env.Content, name)
	return files, name, err == nil
}

// assets are the style sheet, the script and whatever else the theme brings.
func (r *run) assets() []output.File {
	theme := r.press.theme
	style := page.SlimStyle(svg.Properties() + svg.Stylesheet() + theme.Joined(".css")) // the theme's own come after and win
	files := []output.File{{Path: "style.css", Bytes: []byte(style)}, {Path: "script.js", Bytes: []byte(page.SlimScript(theme.Joined(".js")))}}
	for _, pattern := range []string{"*.svg", "*.png", "*.ico", "*.webmanifest"} {
		names, _ := fs.Glob(theme, pattern)
		for _, name := range names {
			data, err := fs.ReadFile(theme, name)
			if err != nil && !errors.Is(err, fs.ErrNotExist) {
				continue
			}
			files = append(files, output.File{Path: name, Bytes: data})
		}
	}
	return files
}
