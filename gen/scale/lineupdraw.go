package scale

import (
	"fmt"
	"math"
	"slices"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
	"spruelight/gen/svg"
)

// Paint of a line-up. The figures alone carry the accent.
var (
	silhouettePaint = svg.Style{Fill: svg.Rule, Stroke: svg.Ink}
	boxPaint        = svg.Style{Fill: svg.Rule, Stroke: svg.Ink, Dash: svg.Dashed} // a measured box, no shape
	roomPaint       = svg.Style{Stroke: svg.Soft, Dash: svg.Dashed}                // the room a model takes with its base
	figurePaint     = svg.Style{Fill: svg.Accent}
	shelfPaint      = svg.Style{Stroke: svg.Soft}
)

// figureOutline is a standing adult of our own drawing, 100 units tall with the
// soles at y = 0. An adult's head is about an eighth of the whole.
var figureOutline = mustPath(`M-3 -87
 C-4.6 -89 -5.4 -91.5 -5.2 -94 C-5 -97.6 -3 -100 0 -100 C3 -100 5 -97.6 5.2 -94 C5.4 -91.5 4.6 -89 3 -87
 L3.2 -84.5 C6.5 -83.6 10 -82.8 11.6 -80.6 C13 -78.6 13.4 -74 13.8 -69
 L15.2 -50 C15.4 -47.6 15 -44.5 13.6 -44.5 C12 -44.5 11.8 -47 11.4 -49.4 L9.6 -66 L9.4 -49 L8.4 -26 L7.6 -5 L10.6 -1.6 L10.4 0
 L2.6 0 L2.8 -5 L2 -26 L0.5 -45 L-0.5 -45 L-2 -26 L-2.8 -5 L-2.6 0 L-10.4 0 L-10.6 -1.6 L-7.6 -5
 L-8.4 -26 L-9.4 -49 L-9.6 -66 L-11.4 -49.4 C-11.8 -47 -12 -44.5 -13.6 -44.5 C-15 -44.5 -15.4 -47.6 -15.2 -50 L-13.8 -69
 C-13.4 -74 -13 -78.6 -11.6 -80.6 C-10 -82.8 -6.5 -83.6 -3.2 -84.5 Z`)

func mustPath(data string) svg.Path {
	p, err := svg.ParsePath(data)
	if err != nil {
		panic(err) // a constant of the program
	}
	return p
}

// draw draws all rows and the scale bar.
func (d *lineupDrawer) draw() {
	d.Drawing = svg.New(d.o.ID, d.o.Title, d.describe())
	d.Drawing.Margin = lineupMargin - 1 // the rest is for strokes
	d.Drawing.Include(svg.Box{W: d.inner})
	y := 0.0
	for i, row := range d.rows {
		y = d.drawRow(i, row, y)
		y += rowGap
	}
	d.scaleBar(svg.Point{Y: y})
}

// drawRow draws one row from its upper edge y and returns its lower edge.
func (d *lineupDrawer) drawRow(n int, row []cell, y float64) float64 {
	height := 0.0
	for _, c := range row {
		height = max(height, c.up, c.figure)
	}
	if d.o.Subjects {
		height = max(height, StandingAdult*d.Factor)
	}
	shelf := y + height
	if d.o.Subjects {
		d.figure(svg.Point{Y: shelf}, StandingAdult*d.Factor)
	}
	bottom := shelf
	for i := range row {
		bottom = max(bottom, d.drawCell(n, &row[i], shelf))
	}
	d.Drawing.Line(svg.Point{Y: shelf}, svg.Point{X: d.inner, Y: shelf}, shelfPaint)
	return bottom
}

// drawCell draws a piece standing on the shelf line and returns where its words end.
func (d *lineupDrawer) drawCell(row int, c *cell, shelf float64) float64 {
	s := c.stand
	s.Row = row
	s.Box = svg.Box{X: c.x, Y: shelf - c.up, W: c.across, H: c.up}
	d.Drawing.Group(svg.Attrs{ID: "piece-" + s.ID, Data: map[string]string{"piece": s.ID}}, func() {
		d.silhouette(*s)
	})
	if c.figure > 0 {
		d.figure(svg.Point{X: s.Box.Right() + figureGap, Y: shelf}, c.figure)
	}
	at := svg.Point{X: c.x, Y: shelf + labelGap}
	name := d.Drawing.Paragraph(at, c.words[:c.bold], svg.TextStyle{Font: svg.Bold, VAlign: svg.Top})
	at.Y = name.Bottom() + 1
	words := d.Drawing.Paragraph(at, c.words[c.bold:], svg.TextStyle{Size: wordSize, VAlign: svg.Top, Fill: svg.Soft})
	return max(name.Bottom(), words.Bottom())
}

// silhouette draws the outline stretched to the piece's box, or the box itself.
func (d *lineupDrawer) silhouette(s Stand) {
	d.Drawing.Mark(svg.KindSymbol, s.ID, s.Box)
	if s.Outline.Empty() {
		d.Drawing.Rect(s.Box, 0, boxPaint)
		return
	}
	d.Drawing.Path(stretch(s.Outline, s.Box), silhouettePaint)
}

// stretch maps a path's own box to another.
func stretch(p svg.Path, to svg.Box) svg.Path {
	own := p.Box()
	return p.Transform(svg.Translate(-own.X, -own.Y).Then(svg.Scale(to.W/own.W, to.H/own.H)).Then(svg.Translate(to.X, to.Y)))
}

// figure draws the standing adult, its left edge and soles at a point.
func (d *lineupDrawer) figure(at svg.Point, height float64) {
	box := svg.Box{X: at.X, Y: at.Y - height, W: d.figureWidth(height), H: height}
	d.Drawing.Group(svg.Attrs{Data: map[string]string{"figure": "standing"}}, func() {
		d.Drawing.Path(stretch(figureOutline, box), figurePaint)
	})
	d.Drawing.Mark(svg.KindSymbol, "figure", box)
}

// scaleBar draws a bar of a round length with its label, and says what the figure is.
func (d *lineupDrawer) scaleBar(at svg.Point) {
	if len(d.Stands) == 0 {
		return
	}
	length, label := roundLength(d.inner*0.35/d.Factor, d.o.Inches)
	w := length * d.Factor
	ends := []svg.Point{at, at.Add(0, 8), at.Add(w, 8), at.Add(w, 0)}
	d.Drawing.Group(svg.Attrs{Data: map[string]string{"scale-bar": fmt.Sprintf("%.6g", length)}}, func() {
		d.Drawing.Polyline(ends, svg.Style{Stroke: svg.Ink, Width: 1.5})
	})
	d.Drawing.Text(at.Add(w+8, 8), d.o.Print.Print(source.Say("%s", label)), svg.TextStyle{Size: wordSize})
	says := source.Say("Figure: an adult of %s", quantity.About(quantity.Metres(StandingAdult)))
	if !d.o.Subjects {
		says = source.Say("Figure: an adult of %s at each model's scale", quantity.About(quantity.Metres(StandingAdult)))
	}
	if slices.ContainsFunc(d.Stands, func(s Stand) bool { return s.Outline.Empty() }) {
		says = source.Say("%s. Broken lines: measured box, no outline", says)
	}
	lines := svg.Wrap(d.o.Print.Print(says), d.inner, wordSize, svg.Regular)
	d.Drawing.Paragraph(at.Add(0, 20), lines, svg.TextStyle{Size: wordSize, Fill: svg.Soft, VAlign: svg.Top})
}

// roundLength returns the longest length of 1, 2 or 5 times a power of ten that
// is no longer than most metres, in metres or in feet and inches, and its label.
func roundLength(most float64, inches bool) (metres float64, label quantity.Amount) {
	unit := 1.0
	if inches {
		unit = 0.0254
		if most >= 4*0.3048 {
			unit = 0.3048
		}
	}
	most /= unit
	power := math.Pow10(int(math.Floor(math.Log10(most))))
	n := power
	for _, k := range []float64{2, 5} {
		if k*power <= most {
			n = k * power
		}
	}
	return n * unit, quantity.About(quantity.Metres(n * unit))
}

// describe is what a screen reader reads out instead of the drawing.
func (d *lineupDrawer) describe() string {
	if len(d.Stands) == 0 {
		return d.o.Print.Print(source.Word("No model's size is known."))
	}
	parts := make([]string, len(d.Stands))
	for i, s := range d.Stands {
		parts[i] = s.Name + " " + d.sizeText(s)
	}
	list := source.List{Of: source.Anys(parts), Sep: "; "}
	if d.o.Subjects {
		return d.o.Print.Print(source.Say("Subjects at true relative size, largest first: %s.", list))
	}
	return d.o.Print.Print(source.Say("Models at true relative size, largest first: %s.", list))
}
