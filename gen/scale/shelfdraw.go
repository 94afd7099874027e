package scale

import (
	"fmt"
	"strconv"

	"spruelight/gen/source"
	"spruelight/gen/svg"
)

// Measures of a shelf plan, in units.
const (
	planGap   = 22 // between the view from the front and the plan under it
	wordsGap  = 20 // above the view, for the shelf's name
	numberGap = 4  // numbers are set only where a footprint has such room around them
)

// DrawShelf draws one shelf from the front and, at the same factor and straight
// below it, from above. Models carry numbers, which the table beside the
// drawing resolves; width is that of the drawing in units.
func DrawShelf(s Shelf, id string, width float64, print svg.Printer) *svg.Drawing {
	d := svg.New(id, print.Print(source.Say("Shelf plan: %s", s.Name())), print.Print(describeShelf(s)))
	d.Margin = lineupMargin - 1
	if s.Cabinet.Width.V <= 0 {
		return d
	}
	factor := (width - 2*lineupMargin) / float64(s.Cabinet.Width.V)
	w, depth, height := width-2*lineupMargin, float64(s.Cabinet.Depth.V)*factor, float64(s.Cabinet.Height.V)*factor
	front := svg.Box{Y: wordsGap, W: w, H: height}
	plan := svg.Box{Y: front.Bottom() + planGap, W: w, H: depth}
	frame := svg.Style{Stroke: svg.Ink}
	d.Text(svg.Point{Y: front.Y - 6}, print.Print(source.Say("%s, from the front", s.Name())), svg.TextStyle{Size: wordSize, Fill: svg.Soft})
	d.Rect(front, 0, frame)
	d.Text(svg.Point{Y: plan.Y - 6}, print.Print(source.Word("from above, glass at the bottom")), svg.TextStyle{Size: wordSize,
		Fill: svg.Soft})
	d.Rect(plan, 0, frame)
	for i, p := range s.Places {
		x, tall := float64(p.X)*factor, float64(p.Size.Height)*factor
		stand := svg.Box{X: x, Y: front.Bottom() - tall, W: float64(p.Across) * factor, H: tall}
		foot := svg.Box{X: x, Y: plan.Bottom() - float64(p.Y+p.Into)*factor, W: stand.W, H: float64(p.Into) * factor}
		d.Group(svg.Attrs{Data: map[string]string{"front": p.ID}}, func() { drawStanding(d, p, stand, factor) })
		d.Group(svg.Attrs{Data: map[string]string{"plan": p.ID}}, func() { d.Rect(foot, 0, silhouettePaint) })
		drawNumber(d, i+1, foot)
	}
	return d
}

// drawStanding draws a model as seen from the front of the shelf: the room it
// takes as a box, and in it, at true size, its silhouette where that shows the
// side turned to the front. What the box is higher than the silhouette is taken
// for the base under it.
func drawStanding(d *svg.Drawing, p Place, box svg.Box, factor float64) {
	d.Rect(box, 0, roomPaint)
	if p.Piece == nil || p.Piece.Outline.Empty() {
		return
	}
	square := p.Size.Length == p.Size.Width
	shown := p.Piece.View == Side && (!p.Turned || square) || p.Piece.View == Front && (p.Turned || square)
	across, up, ok := p.Piece.span(false)
	if w, h := float64(across)*factor, float64(up)*factor; shown && ok && w <= box.W+1 && h <= box.H+1 {
		d.Path(stretch(p.Piece.Outline, svg.Box{X: box.X + (box.W-w)/2, Y: box.Y, W: w, H: h}), silhouettePaint)
	}
}

// drawNumber sets a number into a footprint, or above it where it is too small.
func drawNumber(d *svg.Drawing, n int, foot svg.Box) {
	text := strconv.Itoa(n)
	style := svg.TextStyle{Size: wordSize, Font: svg.Bold, Anchor: svg.Middle, VAlign: svg.Centre}
	room := svg.TextBox(foot.Centre(), text, style).Inset(-numberGap)
	if foot.Contains(room) {
		d.Text(foot.Centre(), text, style)
		return
	}
	style.VAlign = svg.Bottom
	d.Text(foot.N(), text, style)
}

func describeShelf(s Shelf) source.Message {
	if len(s.Places) == 0 {
		return source.Word("Nothing stands on it.")
	}
	parts := make([]string, len(s.Places))
	for i, p := range s.Places {
		parts[i] = fmt.Sprintf("%d: %s", i+1, p.Name)
	}
	return source.Say("From left to right, %s.", source.List{Of: source.Anys(parts), Sep: "; "})
}
