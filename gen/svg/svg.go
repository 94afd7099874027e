// Package svg is the one SVG writer of spruelight. Every drawing of the site
// (circuit diagram, loom, paint section, line-up, charts) is made with it.
//
// Units are drawing units: one unit is one CSS pixel at the drawing's own
// size; x runs to the right, y runs down. Text sizes are in the same units.
//
// Shapes are appended to a Drawing and measured as they are appended; nothing
// is printed before everything is known, so that the view box is the union of
// all shapes plus a margin. Paint is named by its role (ink, rule, accent),
// never by a colour, unless the colour is the subject itself (see RGB). What
// is written is a pure function of the calls: the same calls give the same
// bytes.
//
// All text and every attribute value goes through one escaping writer; names
// of elements and attributes have a type of their own (token) so that a string
// from a file cannot become markup.
//
// Sources: Scalable Vector Graphics 2 (W3C Candidate Recommendation, 4 October
// 2018); Extensible Markup Language 1.0 (fifth edition), section 2.2 for the
// characters; SVG Accessibility API Mappings for role="img" with title and desc.
package svg

import (
	"bytes"
	"slices"
	"strconv"
	"strings"
)

// A Drawing collects shapes. The zero value is not usable; call New.
type Drawing struct {
	// Margin is the empty border around all shapes, in units.
	Margin float64
	// Class holds further class names of the root element, separated by spaces.
	Class string
	// Lang is the BCP 47 tag of the drawing's words. Inline leaves it to the page.
	Lang string

	heading
	body   body
	ids    ids
	box    Box
	hasBox bool
	boxes  []Labelled
}

// A Kind says what a noted box stands for.
type Kind string

// The kinds of boxes that a drawing notes for layout checks. Callers may
// add kinds of their own.
const (
	KindText   Kind = "text"
	KindSymbol Kind = "symbol"
	KindMark   Kind = "mark" // a bar, a dot or another mark of a chart
)

// Labelled is a box that must be findable by a layout check: a text or a symbol.
type Labelled struct {
	Kind Kind
	Name string // the text itself, or the symbol's reference
	Box  Box
}

// New starts a drawing. The id prefixes every id inside, so that several
// drawings can stand on one page; title and desc are read out by a screen
// reader. A drawing without a title counts as decoration and is hidden from
// screen readers.
func New(id, title, desc string) *Drawing {
	id = identifier(id)
	if id == "" {
		id = "drawing"
	}
	return &Drawing{Margin: 8, heading: heading{id, CleanText(title), CleanText(desc)},
		body: body{id: id, inherited: rootPaint}, ids: ids{prefix: id + "-"}}
}

// Title returns the drawing's title as it is printed.
func (d *Drawing) Title() string { return d.title }

// Include makes sure that the view box holds a box, whether or not anything is drawn there.
func (d *Drawing) Include(b Box) {
	if !b.finite() {
		return
	}
	if !d.hasBox {
		d.box, d.hasBox = b, true
		return
	}
	d.box = d.box.Union(b)
}

// Mark notes a box for layout checks; texts are noted by Text itself.
func (d *Drawing) Mark(kind Kind, name string, b Box) {
	d.boxes = append(d.boxes, Labelled{kind, name, b})
}

// Boxes returns the noted boxes in the order of drawing.
func (d *Drawing) Boxes() []Labelled { return slices.Clone(d.boxes) }

// Extent returns the union of all shapes, without the margin.
func (d *Drawing) Extent() Box { return d.box }

// ViewBox returns what is shown: the extent with the margin, on whole units so
// that thin lines keep their place on the pixel grid.
func (d *Drawing) ViewBox() Box { return d.box.Inset(-max(0, d.Margin)).outward() }

// Size returns width and height of the view box.
func (d *Drawing) Size() (w, h float64) {
	v := d.ViewBox()
	return v.W, v.H
}

// File returns the drawing as a file of its own: with namespace, size, style
// sheet and a sheet of paper behind it, so that it is right wherever it is
// opened: in light, in dark, and in print black on white.
func (d *Drawing) File() []byte {
	var w writer
	w.raw(`<?xml version="1.0" encoding="UTF-8"?>` + "\n")
	d.root(&w, true)
	w.raw("\n<style>\n")
	w.raw(token(properties)) // free of markup characters, held by a test
	w.raw(token(stylesheet))
	w.raw("</style>")
	d.body.defs(&w, true)
	v := d.ViewBox()
	w.raw("\n")
	w.open("rect")
	w.attr("class", "d-paper")
	w.box(v)
	w.attr("fill", roles[Paper].light)
	w.raw("/>")
	w.b = append(w.b, d.body.b...)
	w.raw("\n</svg>\n")
	return bytes.Clone(w.b) // without the room it was given to grow
}

// Inline returns the drawing as an element for an HTML page. It holds neither
// a style element nor style attributes, and names the roles of paint by classes
// alone: the page's style sheet must include Stylesheet and Properties.
func (d *Drawing) Inline() string {
	var w writer
	d.root(&w, false)
	d.body.defs(&w, false)
	at := 0
	for _, f := range d.body.fallbacks {
		w.b = append(w.b, d.body.b[at:f.from]...)
		at = f.to
	}
	w.b = append(w.b, d.body.b[at:]...)
	w.raw("\n</svg>")
	return string(w.b)
}

// root writes the start of the root element with title and description.
func (d *Drawing) root(w *writer, alone bool) {
	v := d.ViewBox()
	w.open("svg")
	if alone {
		w.attr("xmlns", "http://www.w3.org/2000/svg")
	}
	w.attr("class", joinClass("drawing", d.Class))
	if lang := identifier(d.Lang); lang != "" && alone {
		w.attr("lang", lang)
	}
	w.num("width", v.W)
	w.num("height", v.H)
	w.attr("viewBox", string(appendNumbers(nil, v.X, v.Y, v.W, v.H)))
	d.heading.attributes(w)
	w.attr("fill", "none")
	if alone {
		w.attr("font-family", familySans)
	}
	w.num("font-size", TextSize)
	w.raw(">")
	d.heading.write(w)
}

// heading is how a drawing is named for a screen reader.
type heading struct{ id, title, desc string }

func (h heading) attributes(w *writer) {
	if h.title == "" {
		w.attr("aria-hidden", "true")
		return
	}
	w.attr("role", "img")
	names := h.id + "-title"
	if h.desc != "" {
		names += " " + h.id + "-desc"
	}
	w.attr("aria-labelledby", names)
}

func (h heading) write(w *writer) {
	for _, e := range []struct {
		name token
		text string
	}{{"title", h.title}, {"desc", h.desc}} {
		if e.text == "" {
			continue
		}
		w.raw("\n")
		w.open(e.name)
		w.attr("id", h.id+"-"+string(e.name))
		w.raw(">")
		w.text(e.text)
		w.close(e.name)
	}
}

// ids are the ids that a drawing has given out; all begin with its prefix.
type ids struct {
	prefix string
	given  map[string]bool
}

// fresh returns a valid id that has not been given out yet.
func (i *ids) fresh(name string) string {
	base := identifier(name)
	id := base
	for n := 2; i.given[id] || reserved(id); n++ {
		id = base + "-" + strconv.Itoa(n)
	}
	if i.given == nil {
		i.given = map[string]bool{}
	}
	i.given[id] = true
	return i.prefix + id
}

// reserved reports whether an id is, after its prefix, one that the writer
// itself gives out.
func reserved(id string) bool {
	if id == "title" || id == "desc" {
		return true
	}
	n, ok := strings.CutPrefix(id, "hatch")
	return ok && len(n) == 1 && n[0] >= '1' && n[0] <= '9'
}
