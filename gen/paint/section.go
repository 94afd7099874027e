package paint

import (
	"fmt"
	"strings"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
	"spruelight/gen/svg"
)

// Sizes of the paint section, in drawing units. Coats are drawn far thicker
// than they are, all alike, so that each can be named; the drawing says so.
const (
	coatHeight    = 34.0
	plasticHeight = 46.0
	cutWidth      = 124.0
	labelGap      = 18.0
	labelWidth    = 236.0
	endHeight     = 40.0 // of the outside and of the lamp side
	callout       = 9.0
	edge          = 0.75
	noteSize      = 10.5
)

// cut is one layer of the section from the outside inward.
type cut struct {
	row     *Row // nil for the plastic
	name    source.Message
	note    source.List
	height  float64
	number  string
	planned bool
}

// Section draws an area cut through the shell: the outside on top, the lamp
// side below (or the inside, where no lamp shines), the plastic between, each
// coat named and numbered from the plastic outward. other is the area on the other
// face, or nil.
func Section(id string, a, other *AreaResult, print svg.Printer) *svg.Drawing {
	cuts := cutsOf(a, other)
	d := svg.New(id, print.Print(source.Say("Paint section of %s", a.Name)), print.Print(describe(cuts)))
	y := sideName(d, 0, print.Print(source.Word("outside")))
	for _, c := range cuts {
		y = c.draw(d, y, print)
	}
	lampSide(d, y, lampsOf(a, other), print)
	return d
}

// cutsOf lists the layers from the outside inward.
func cutsOf(a, other *AreaResult) []cut {
	outer, inner := a, other
	if a.Area.isLampSide() {
		outer, inner = other, a
	}
	var cuts []cut
	if outer != nil {
		rows := faceCuts(outer)
		for i := len(rows) - 1; i >= 0; i-- {
			cuts = append(cuts, rows[i])
		}
	}
	cuts = append(cuts, cut{name: source.Word(a.Area.Material.V.String()), note: treatments(a.Area), height: plasticHeight})
	if inner != nil {
		cuts = append(cuts, faceCuts(inner)...)
	}
	return cuts
}

// faceCuts lists the coats of one face from the plastic outward.
func faceCuts(a *AreaResult) []cut {
	var cuts []cut
	for i := range a.Rows {
		r := &a.Rows[i]
		if r.State == Skipped {
			continue
		}
		c := cut{row: r, name: r.Title(), height: coatHeight, number: fmt.Sprint(r.Number), planned: len(r.Laid) == 0}
		c.note = coatNote(r)
		cuts = append(cuts, c)
	}
	return cuts
}

func coatNote(r *Row) source.List {
	var words []any
	if r.For != NoPurpose {
		words = append(words, source.Word(r.For.String()))
	}
	if when, ok := r.When(); ok {
		words = append(words, source.Say("laid %s", quantity.ShortMoment(when)))
	} else {
		words = append(words, source.Word("planned, not yet laid"))
	}
	if len(r.Laid) > 1 {
		words = append(words, source.Say("%d layers", len(r.Laid)))
	}
	if r.State == Extra || r.State == Moved {
		words = append(words, source.Word(strings.TrimPrefix(r.State.String(), "laid, ")))
	}
	return source.List{Of: words, Sep: " · "}
}

func treatments(a *Area) source.List {
	var words []source.Message
	for _, t := range a.Treatments {
		words = append(words, source.Word(t.What.V.String()))
	}
	return source.Row(words)
}

func lampsOf(a, other *AreaResult) source.List {
	for _, r := range []*AreaResult{a, other} {
		if r != nil && len(r.Area.Encloses) > 0 {
			return source.And(names(r.Area.Encloses))
		}
	}
	return source.List{}
}

func describe(cuts []cut) source.Message {
	parts := make([]any, len(cuts))
	for i, c := range cuts {
		part := c.name
		if c.row != nil && c.row.For != NoPurpose {
			part = source.Say("%s (%s)", part, source.Word(c.row.For.String()))
		}
		parts[i] = part
		if c.planned {
			parts[i] = source.Row([]source.Message{part, source.Word("planned")})
		}
	}
	return source.Say("From the outside to the lamp side: %s. Not to scale: coats are drawn far too thick.", source.List{Of: parts, Sep: "; "})
}

func sideName(d *svg.Drawing, y float64, name string) float64 {
	d.Text(svg.Point{X: cutWidth / 2, Y: y + endHeight - 14}, name, svg.TextStyle{Anchor: svg.Middle, Font: svg.Bold})
	return y + endHeight
}

// draw draws one layer and its label, and returns where the next one begins.
func (c cut) draw(d *svg.Drawing, y float64, print svg.Printer) float64 {
	box := svg.Box{X: 0, Y: y, W: cutWidth, H: c.height}
	d.Rect(box, 0, c.style())
	if c.planned {
		chip := svg.Box{X: cutWidth - 28, Y: y + c.height/2 - 7, W: 20, H: 14}
		d.Rect(chip, 0, svg.Style{Fill: c.colour(), Stroke: svg.Ink, Width: edge})
	}
	level := y + c.height/2
	d.Line(svg.Point{X: cutWidth, Y: level}, svg.Point{X: cutWidth + labelGap - 4, Y: level}, svg.Style{Stroke: svg.Soft, Width: edge})
	if c.number != "" {
		centre := svg.Point{X: 18, Y: level}
		d.Circle(centre, callout, svg.Style{Fill: svg.Paper, Stroke: svg.Ink, Width: 1})
		d.Text(centre, c.number, svg.TextStyle{Anchor: svg.Middle, VAlign: svg.Centre, Size: 11})
	}
	c.label(d, level, print)
	return y + c.height
}

func (c cut) label(d *svg.Drawing, level float64, print svg.Printer) {
	x, most := cutWidth+labelGap, 1
	if c.row == nil {
		most = 2 // the plastic is thick enough
	}
	name := svg.ShortenLines(print.Print(c.name), labelWidth, svg.TextSize, svg.Bold, 1)
	note := svg.ShortenLines(print.Print(source.Say("%s", c.note)), labelWidth, noteSize, svg.Regular, most)
	half := float64(len(note)) * noteSize * svg.LineHeight / 2
	d.Paragraph(svg.Point{X: x, Y: level - half}, name, svg.TextStyle{VAlign: svg.Centre, Font: svg.Bold})
	d.Paragraph(svg.Point{X: x, Y: level + 8}, note, svg.TextStyle{VAlign: svg.Centre, Size: noteSize, Fill: svg.Soft})
}

// style fills a laid coat with its own colour; a planned one is a dashed
// outline, clear coats and decals carry a hatch, plastic the hatch of a cut.
func (c cut) style() svg.Style {
	s := svg.Style{Stroke: svg.Ink, Width: edge}
	switch {
	case c.row == nil:
		s.Fill, s.Width = svg.Fill2, 1.25
	case c.planned:
		s.Fill, s.Dash = svg.Paper, svg.Dashed
	default:
		s.Fill = c.colour()
	}
	return s
}

// colour is the paint's own where it is known and covers.
func (c cut) colour() svg.Role {
	p := c.row.Paint
	switch {
	case c.row.For == Decals:
		return svg.Fill3
	case p != nil && p.Clear.V && !p.Colour.Set:
		return svg.Paper // a plain clear has no colour of its own
	case p == nil || !p.Colour.Set:
		return svg.Fill5
	}
	return svg.RGB(p.Colour.V.R, p.Colour.V.G, p.Colour.V.B)
}

// lampSide names the lower side, with a lamp and its rays where one is known.
func lampSide(d *svg.Drawing, y float64, lamps source.List, print svg.Printer) {
	centre := svg.Point{X: cutWidth / 2, Y: y + endHeight + 2}
	words, at := source.Word("inside"), centre.Add(0, -12)
	if len(lamps.Of) > 0 {
		drawLamp(d, centre)
		words, at = source.Say("lamp side: %s", lamps), centre.Add(0, 24)
	}
	line, _ := svg.Shorten(print.Print(words), cutWidth+labelGap+labelWidth, svg.TextSize, svg.Bold)
	style := svg.TextStyle{Anchor: svg.Middle, Font: svg.Bold}
	if svg.TextBox(at, line, style).X < 0 { // too long to stand under the lamp
		style.Anchor, at.X = svg.Start, 0
	}
	d.Text(at, line, style)
	d.Text(svg.Point{X: cutWidth + labelGap, Y: y + endHeight - 14}, print.Print(source.Word("not to scale: coats drawn far too thick")),
		svg.TextStyle{Size: noteSize, Fill: svg.Soft})
}

func drawLamp(d *svg.Drawing, centre svg.Point) {
	for _, x := range []float64{-1, -0.5, 0, 0.5, 1} {
		from := centre.Add(x*16, -14+4*x*x)
		d.Line(from, from.Add(x*12, -11), svg.Style{Stroke: svg.Accent, Width: 1.5})
	}
	d.Circle(centre, 8, svg.Style{Fill: svg.Glow, Stroke: svg.Accent, Width: 1.5})
}
