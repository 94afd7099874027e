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
)

// A Drawing collects shapes. The zero value is not usable; call New.
type Drawing struct {
	// Margin is the empty border around all shapes, in units.
	Margin float64
	// Class holds further class names of the root element, separated by spaces.
	Class string
	// Lang is the BCP 47 tag of the drawing's words. Inline leaves it to the page.
	Lang string

	id, title, desc string
	body            writer
	box             Box
	hasBox          bool
	boxes           []Labelled
	ids             map[string]bool
	hatches         uint16 // bit n set: fill role Fill1+n is used
	fallbacks       []span // where body holds fallback colours, which a page's style sheet makes needless
	inherited       paintState
}

// A Kind says what a registered box stands for.
type Kind string

// The kinds of boxes that a drawing registers for layout checks. Callers may
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
	return &Drawing{Margin: 8, id: id, title: CleanText(title), desc: CleanText(desc), inherited: rootPaint}
}

// ID returns the prefix of the drawing's ids.
func (d *Drawing) ID() string { return d.id }

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

// Register notes a box for layout checks; texts are noted by Text itself.
func (d *Drawing) Register(kind Kind, name string, b Box) {
	d.boxes = append(d.boxes, Labelled{kind, name, b})
}

// Boxes returns the registered boxes in the order of drawing.
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

// Bytes returns the drawing as a file of its own: with namespace, size, style
// sheet and a sheet of paper behind it, so that it is right wherever it is
// opened: in light, in dark, and in print black on white.
func (d *Drawing) Bytes() []byte {
	var w writer
	w.raw(`<?xml version="1.0" encoding="UTF-8"?>` + "\n")
	d.root(&w, true)
	w.raw("\n<style>\n")
	w.raw(token(properties)) // free of markup characters, held by a test
	w.raw(token(stylesheet))
	w.raw("</style>")
	d.defs(&w, true)
	v := d.ViewBox()
	w.raw("\n")
	w.open("rect")
	w.attr("class", "d-paper")
	w.box(v)
	w.attr("fill", roles[Paper].light)
	w.raw("/>")
	w.b = append(w.b, d.body.b...)
	w.raw("\n</svg>\n")
	return w.b
}

// Inline returns the drawing as an element for an HTML page. It holds neither
// a style element nor style attributes, and names the roles of paint by classes
// alone: the page's style sheet must include Stylesheet and Properties.
func (d *Drawing) Inline() string {
	var w writer
	d.root(&w, false)
	d.defs(&w, false)
	at := 0
	for _, f := range d.fallbacks {
		w.b = append(w.b, d.body.b[at:f.from]...)
		at = f.to
	}
	w.b = append(w.b, d.body.b[at:]...)
	w.raw("\n</svg>")
	return string(w.b)
}

// span is a part of the body.
type span struct{ from, to int }

// fallback writes an attribute that only a drawing without a page needs.
func (d *Drawing) fallback(name token, value string) {
	from := len(d.body.b)
	d.body.attr(name, value)
	d.fallbacks = append(d.fallbacks, span{from, len(d.body.b)})
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
	d.accessibleName(w)
	w.attr("fill", "none")
	if alone {
		w.attr("font-family", familySans)
	}
	w.num("font-size", TextSize)
	w.raw(">")
	if d.title != "" {
		d.described(w, "title", d.title)
	}
	if d.desc != "" {
		d.described(w, "desc", d.desc)
	}
}

func (d *Drawing) accessibleName(w *writer) {
	if d.title == "" {
		w.attr("aria-hidden", "true")
		return
	}
	w.attr("role", "img")
	names := d.id + "-title"
	if d.desc != "" {
		names += " " + d.id + "-desc"
	}
	w.attr("aria-labelledby", names)
}

func (d *Drawing) described(w *writer, name token, text string) {
	w.raw("\n")
	w.open(name)
	w.attr("id", d.id+"-"+string(name))
	w.raw(">")
	w.text(text)
	w.close(name)
}

// uniqueID returns a valid id that this drawing has not used yet.
func (d *Drawing) uniqueID(name string) string {
	base := d.id + "-" + identifier(name)
	id := base
	for n := 2; d.ids[id] || reserved(id, d.id); n++ {
		id = base + "-" + strconv.Itoa(n)
	}
	if d.ids == nil {
		d.ids = map[string]bool{}
	}
	d.ids[id] = true
	return id
}

// reserved reports whether an id is one that the writer itself gives out.
func reserved(id, prefix string) bool {
	rest := id[len(prefix)+1:]
	if rest == "title" || rest == "desc" {
		return true
	}
	n, ok := bytes.CutPrefix([]byte(rest), []byte("hatch"))
	return ok && len(n) == 1 && n[0] >= '1' && n[0] <= '9'
}
