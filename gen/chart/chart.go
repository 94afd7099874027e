// Package chart draws the charts of the site: bars, an amount that grows in
// steps, amounts by month in lanes or stacked, and windows of time.
//
// Every chart comes with the table that holds all it shows, in full: a label
// that is too long for the drawing is shortened there, never in the table. No
// two texts touch, no line runs through a text, and what has no room is left to
// the table. A chart is drawn at the width it is asked for. All words come from
// the caller, in the reader's language. Below 400 units of width, as on a
// phone, labels stand above what they name instead of beside it.
package chart

import (
	"math"
	"slices"

	"spruelight/gen/svg"
)

// Frame is what every chart shares: how it is named and how wide it is drawn.
type Frame struct {
	ID, Title, Desc string
	Lang            string  // BCP 47 tag of the words
	Width           float64 // of the whole chart in units; 0 means 560, less than 240 counts as 240
	Empty           string  // what stands in a chart without data
}

// Sizes and gaps that all charts share, in units.
const (
	defaultWidth = 560.0
	leastWidth   = 240.0
	mostWidth    = 4000.0
	margin       = 4.0
	narrow       = 400.0 // below it labels stand above their marks, not beside them
	axisSize     = 11.0
	gap          = 6.0
	hair         = 0.75
)

// width returns the inner width: the frame's less the margins.
func (f Frame) width() float64 {
	w := f.Width
	if w == 0 {
		w = defaultWidth
	}
	return math.Round(min(max(w, leastWidth), mostWidth)) - 2*margin
}

// sheet starts the drawing of a chart and claims its full width, so that charts
// below each other line up.
func (f Frame) sheet() *svg.Drawing {
	d := svg.New(f.ID, f.Title, f.Desc)
	d.Lang = f.Lang
	d.Class = "chart"
	d.Margin = margin - 0.5 // half a unit for the strokes of what lies on the edge
	d.Include(svg.Box{X: -0.5, W: f.width() + 1})
	return d
}

// empty draws what stands in place of a chart without data.
func (f Frame) empty() *svg.Drawing {
	d, w := f.sheet(), f.width()
	words := f.Empty
	if svg.CleanText(words) == "" {
		words = "–"
	}
	lines := svg.ShortenLines(words, w-4*gap, svg.TextSize, svg.Regular, 3)
	h := 40 + lineStep*float64(len(lines)-1)
	d.Rect(svg.Box{W: w, H: h}, 2, svg.Style{Stroke: svg.Rule, Width: hair, Dash: svg.Dashed})
	d.Paragraph(svg.Point{X: w / 2, Y: h / 2}, lines, svg.TextStyle{Anchor: svg.Middle, VAlign: svg.Centre, Fill: svg.Soft})
	return d
}

// lineStep is the height of a line of labels.
const lineStep = svg.TextSize * svg.LineHeight

// block is a bar or a part of one.
type block struct {
	name string
	fill svg.Role
	box  svg.Box
}

// drawBlocks draws and registers outlined bars, those of one fill in a group that
// names the paint once: a chart of many months would be twice as heavy otherwise.
func drawBlocks(d *svg.Drawing, blocks []block) {
	var fills []svg.Role
	for _, b := range blocks {
		d.Mark(svg.KindMark, b.name, b.box)
		if !slices.Contains(fills, b.fill) {
			fills = append(fills, b.fill)
		}
	}
	for _, fill := range fills {
		style := svg.Style{Fill: fill, Stroke: svg.Ink, Width: hair}
		d.Group(svg.Attrs{Style: style}, func() {
			for _, b := range blocks {
				if b.fill == fill {
					d.Rect(b.box, 0, style)
				}
			}
		})
	}
}

// widest returns the width of the widest of some labels.
func widest(labels []string, size float64) float64 {
	most := 0.0
	for _, l := range labels {
		w, _, _ := svg.Measure(l, size, svg.Regular)
		most = max(most, w)
	}
	return most
}

// column returns the width of a column of labels at the side of a chart.
func column(labels []string, most float64) float64 {
	return min(widest(labels, svg.TextSize), most)
}
