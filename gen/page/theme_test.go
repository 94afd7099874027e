package page

import (
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"spruelight/gen/source"
)

func TestStylesAreSlimmed(t *testing.T) {
	for text, want := range map[string]string{
		"a { color: red; }\n\n/* why { } */\nb  c { margin: 0 auto; }":         "a{color:red}b c{margin:0 auto}",
		`li::before { content: "{ ;  } /* no */"; }`:                           `li::before{content:"{ ;  } /* no */"}`,
		"@media (min-width: 40rem) { a:hover, b { width: calc(1px + 2em); } }": "@media (min-width:40rem){a:hover,b{width:calc(1px + 2em)}}",
		`q { quotes: '"' "\""; }`:                                              `q{quotes:'"' "\""}`,
		".a .b > .c:not(:has(i)) { }":                                          ".a .b>.c:not(:has(i)){}",
		"a { margin: 0.5em 10.5px -0.2em 0; inset: calc(1px - 0.5em); }":       "a{margin:.5em 10.5px -.2em 0;inset:calc(1px - .5em)}",
		"a { b: c /* open":   "a{b:c ",
		`a { content: "open`: `a{content:"open`,
	} {
		if got := SlimStyle(text); got != want {
			t.Errorf("%q\n got %q\nwant %q", text, got, want)
		}
	}
	if got := SlimScript("// why\n  a(\"// no\");\n\n"); got != "a(\"// no\");\n" {
		t.Errorf("%q", got)
	}
}

func shelf(themes map[string]fstest.MapFS) Shelf {
	return func(name string) (fs.FS, string, error) {
		files, ok := themes[name]
		if !ok {
			return nil, "", fs.ErrNotExist
		}
		return files, "themes/" + name, nil
	}
}

// A theme takes what it has not from the theme behind it.
func TestThemesAreLayered(t *testing.T) {
	file := func(text string) *fstest.MapFile { return &fstest.MapFile{Data: []byte(text)} }
	themes := map[string]fstest.MapFS{
		"sheet": {"look.yaml": file("scheme: light dark\n"), "_page.html": file("page"), "build.html": file("sheet's build"), "a.css": file("a{}"), "sheet.css": file("s{}")},
		"night": {"look.yaml": file("from: sheet\nscheme: dark\n"), "build.html": file("night's build"), "night.css": file("n{}")},
		"mine":  {"a.css": file("mine{}")},
		"ring":  {"look.yaml": file("from: ring2\n")},
		"ring2": {"look.yaml": file("from: ring\n")},
		"bad":   {"look.yaml": file("from: sheet\ncolour: red\n")},
		"lost":  {"look.yaml": file("from: nowhere\n")},
	}
	night, found := OpenTheme(shelf(themes), "night", source.Span{})
	if len(found) > 0 || night.Look.Scheme != "dark" {
		t.Fatal(found, night)
	}
	if text, _ := fs.ReadFile(night, "build.html"); string(text) != "night's build" {
		t.Errorf("%s", text)
	}
	if text, _ := fs.ReadFile(night, "_page.html"); string(text) != "page" {
		t.Errorf("%s", text)
	}
	if got := night.Joined(".css"); got != "s{}\na{}\nn{}\n" {
		t.Errorf("styles in the order %q", got)
	}
	if got := night.Where("_page.html") + " " + night.Where("build.html"); got != "themes/sheet/_page.html themes/night/build.html" {
		t.Error(got)
	}
	mine, found := OpenTheme(shelf(themes), "mine", source.Span{})
	if len(found) > 0 || mine.Joined(".css") != "s{}\nmine{}\n" {
		t.Errorf("%v %q: a file of one name stands in place of the one behind it", found, mine.Joined(".css"))
	}
	if _, found := OpenTheme(shelf(themes), "ring", source.Span{}); len(found) > 0 {
		t.Errorf("themes in a ring end after some layers: %v", found)
	}
	for name, says := range map[string]string{"bad": "colour", "lost": "nowhere", "none": "none"} {
		if _, found := OpenTheme(shelf(themes), name, source.Span{}); !found.Stops() || !strings.Contains(found[0].Says.String(), says) {
			t.Errorf("%s: %v", name, found)
		}
	}
}
