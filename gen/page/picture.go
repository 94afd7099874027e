package page

import (
	"fmt"
	"html/template"
	"strings"
	"time"
)

// Picture is a photo as a page shows it.
type Picture struct {
	Alt, Caption, Credit string
	Width, Height        int           // of the largest file, in pixels
	Files                []PictureFile // JPEG, smallest first
	Also                 []PictureFile // the same in a second format, or none
	Colour               string        // dominant colour, while it loads
	Blur                 template.URL  // a tiny picture as a data: address
	Marks                []CallOut     // places pointed out
	After                *Picture      // the second of a pair, nil for a single picture
	Name                 string        // what it shows, in a pair
	Taken                time.Time     // the day it was taken; zero where that is not shown
}

// Dates returns the days to show beneath the picture: of a pair both, each with
// its picture's name, where they differ.
func (p *Picture) Dates() []Dated {
	var days []Dated
	if !p.Taken.IsZero() {
		days = append(days, Dated{p.Name, p.Taken})
	}
	if p.After != nil && !p.After.Taken.IsZero() {
		days = append(days, Dated{p.After.Name, p.After.Taken})
	}
	if len(days) == 2 && days[0].Day.Equal(days[1].Day) {
		days = days[:1]
	}
	if len(days) == 1 {
		days[0].Name = ""
	}
	return days
}

// Dated is the day on which a picture was taken.
type Dated struct {
	Name string // of the picture, where several have days of their own
	Day  time.Time
}

// CallOut is a place pointed out on a picture, with its number's place in
// percent of width and height.
type CallOut struct {
	X, Y float64
	Says string
}

// PictureFile is one rendition.
type PictureFile struct {
	Path          string // in the site
	Width, Height int
	Type          string // media type
}

// Largest returns the largest rendition.
func (p *Picture) Largest() PictureFile { return p.Files[len(p.Files)-1] }

// Near returns the smallest rendition of at least the given width, else the largest.
func (p *Picture) Near(width int) PictureFile {
	for _, f := range p.Files {
		if f.Width >= width {
			return f
		}
	}
	return p.Largest()
}

// Upright reports whether the picture is higher than wide.
func (p *Picture) Upright() bool { return p.Height > p.Width }

// sizes are the widths a picture takes up in the layout, by how it is shown.
// They follow the style sheet's grid: a page of at most 76rem, photos in two
// columns from 48rem on, entries with a picture beside them from 34rem on.
var sizes = map[string]string{
	"wide": "(min-width: 80rem) 76rem, 100vw",
	"lead": "(min-width: 80rem) 49rem, (min-width: 56rem) 64vw, 100vw",
	"mast": "(min-width: 80rem) 34rem, (min-width: 56rem) 42vw, 19rem",
	"half": "(min-width: 80rem) 38rem, (min-width: 48rem) 48vw, 100vw",
	"tall": "(min-width: 36rem) 34rem, 100vw",
	"card": "(min-width: 80rem) 25rem, (min-width: 46rem) 33vw, (min-width: 40rem) 48vw, 100vw",
	"mini": "(min-width: 34rem) 13rem, 100vw",
	"row":  "(min-width: 34rem) 20rem, 100vw",
	"note": "14rem",
}

// SrcSet returns the renditions for a srcset attribute, relative to the page.
func (p Part) SrcSet(files []PictureFile) template.Srcset {
	list := make([]string, len(files))
	for i, f := range files {
		list[i] = fmt.Sprintf("%s %dw", p.Link(f.Path), f.Width)
	}
	return template.Srcset(strings.Join(list, ", "))
}

// Sizes returns how wide a picture is shown. Upright ones keep to less than half
// the page, and to the height of the facts beside them where they lead a build.
func (p Part) Sizes() string {
	how, _, _ := strings.Cut(p.How, " ")
	if picture, ok := p.Value.(*Picture); ok && picture.Upright() {
		switch how {
		case "wide", "half":
			how = "tall"
		case "lead":
			how = "mast"
		}
	}
	if s, ok := sizes[how]; ok {
		return s
	}
	return sizes["half"]
}

// First reports whether the picture is loaded at once: it leads the page.
func (p Part) First() bool { return strings.Contains(p.How, "first") }

// Beside reports whether the picture only repeats a link in words, so that it
// needs no words of its own.
func (p Part) Beside() bool { return strings.Contains(p.How, "beside") }

// Image is a picture without a page's layout, for feeds.
func Image(address, alt string, width, height int) string {
	return fmt.Sprintf(`<img src="%s" alt="%s" width="%d" height="%d">`, template.HTMLEscapeString(address), template.HTMLEscapeString(alt), width, height)
}
