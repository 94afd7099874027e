// Package page turns the model, the results and the drawings of a run into
// HTML pages, feeds and a site map, all in memory.
//
// A page is declared as a Sheet: where it stands, which template prints it and
// what the template gets. A Book holds the templates and words of a theme and
// prints sheets. Every address inside the site is written relative to the page
// it stands on, so that the site works from any folder and from disk.
package page

import (
	"html/template"
	"strings"
	"time"

	"spruelight/gen/svg"

	"golang.org/x/text/unicode/norm"
)

// Sheet is one page before it is printed.
type Sheet struct {
	Path    string    // in the site, with forward slashes: "marram/index.html"
	Kind    string    // the template that prints it: "build"
	Title   string    // of the page
	Summary string    // one or two sentences, for searches and previews
	Updated time.Time // the day of what is newest on it; zero where no day belongs to it
	Lead    *Picture  // the picture that stands for it, nil where there is none
	Draft   bool      // shown at the bench alone, and marked
	Aside   bool      // left out of the site map (the page for missing addresses)
	Data    any       // what the template gets as .Data; or Later
	Words   string    // plain text for the search index
	Group   string    // heading under which a search lists it: a build's name, or ""
}

// Later is a sheet's data where they are worked out only when it is printed.
type Later func() any

// data returns what the template gets.
func (s *Sheet) data() any {
	if later, ok := s.Data.(Later); ok {
		return later()
	}
	return s.Data
}

// Site is what every page of a run shares.
type Site struct {
	Name     string    // of the workshop
	About    string    // what it is, in a sentence or two; may be ""
	Keeper   string    // who builds here; may be ""
	Address  string    // "" or ending in a slash
	Language string    // as in a lang attribute: "en"
	Updated  time.Time // day of the newest sitting
	Nav      []Link    // the pages that every page leads to at its head
	Program  string    // name and version, for the foot of the page
	Scheme   string    // colour schemes of the theme: "light dark"
}

// Link is a named place in the site.
type Link struct {
	Name string // as it is to be read
	Path string // in the site
	Note string // a word more, or ""
}

// Leaf leads from a build's page to one of its further pages: what stands
// there, in a few words.
type Leaf struct {
	Name, Path string   // of the further page
	Facts      []string // a few words each
}

// View is what a template sees: the site, the sheet, and the sheet's data.
type View struct {
	*Site
	Sheet *Sheet // the page itself
	Data  any    // what its kind holds; see below
	book  *Book

	marks    int      // of figures with a working, so far
	workings []string // of those, not yet printed
}

// Link returns the address of a place in the site, relative to the page.
func (v *View) Link(to string) string { return Relative(v.Sheet.Path, to) }

// Canonical returns the page's address on the web, "" where the workshop has none.
func (v *View) Canonical() string { return v.Absolute(v.Sheet.Path) }

// Absolute returns the web address of a place in the site.
func (v *View) Absolute(to string) string {
	if v.Address == "" {
		return ""
	}
	return v.Address + strings.TrimSuffix(to, "index.html")
}

// Here reports whether a place is the page itself or above it.
func (v *View) Here(to string) bool { return v.Sheet.Path == to }

// Under reports whether the page is a free page of the group that an entry of
// the navigation stands for.
func (v *View) Under(entry Link) bool { return v.Sheet.Kind == "wall" && v.Sheet.Group == entry.Name }

// Number is the sheet's number, as a technical drawing has one in its corner:
// "MARRAM/FINISH", made of the page's place.
func (v *View) Number() string {
	stem := strings.TrimSuffix(strings.TrimSuffix(v.Sheet.Path, ".html"), "/index")
	if stem == "index" {
		return "1"
	}
	build, name, _ := strings.Cut(stem, "/")
	if len(name) > 10 && name[4] == '-' && name[7] == '-' { // a sitting: its day
		name = name[:10]
	}
	return strings.ToUpper(strings.TrimSuffix(build+"/"+name, "/"))
}

// With hands a value to a partial template together with the view.
func (v *View) With(value any, how ...string) Part {
	return Part{View: v, Value: value, How: strings.Join(how, " ")}
}

// Part is what a partial template gets: the view, a value, and how to show it.
type Part struct {
	*View
	Value any    // what it is to show
	How   string // how, in words of that template's own
}

// Relative returns the relative address from one page to another place, which
// may carry a fragment.
func Relative(from, to string) string {
	to, fragment, has := strings.Cut(to, "#")
	if has {
		fragment = "#" + fragment
	}
	if to == from && fragment != "" {
		return fragment
	}
	same := 0 // length of the folders that both lie in
	for i := 0; i < len(from) && i < len(to) && from[i] == to[i]; i++ {
		if from[i] == '/' {
			same = i + 1
		}
	}
	up := strings.Count(from[same:], "/")
	return strings.Repeat("../", up) + to[same:] + fragment
}

// Drawing is a drawing on a page: its markup, and the file that holds it alone.
type Drawing struct {
	Title string        // what it shows
	SVG   template.HTML // its markup, to stand in the page
	Phone template.HTML // the same laid out for a phone; "" where one layout serves all
	Path  string        // in the site
	File  []byte
	Width float64 // in CSS pixels
	Text  Table   // the same in words, for readers who cannot see it
}

// NewDrawing puts a drawing on a page: the first layout in the file and on a
// desk, a second one on a phone. The text is in Normalization Form C, which
// checkers ask of a file (Character Model for the World Wide Web).
func NewDrawing(file string, words svg.Table, layouts []*svg.Drawing) *Drawing {
	d := layouts[0]
	out := &Drawing{Title: d.Title(), SVG: inline(d), Path: file, File: norm.NFC.Bytes(d.File()), Text: Table(words)}
	out.Width, _ = d.Size()
	if len(layouts) > 1 {
		out.Phone = inline(layouts[1])
	}
	return out
}

func inline(d *svg.Drawing) template.HTML { return template.HTML(norm.NFC.String(d.Inline())) }

// Broad reports whether the drawing is too wide for a sheet of A4 upright; such
// a one is printed across it.
func (d Drawing) Broad() bool { return d.Width > 800 }

// Table is a drawing's content in rows.
type Table struct {
	Head []string   // of its columns
	Rows [][]string // the first of each is its heading
}
