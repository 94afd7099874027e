package chart

import "spruelight/gen/svg"

// Bars compare amounts: hours by stage.
type Bars struct {
	Frame
	Bars  []Bar
	Label string // head of the table's first column, for instance "Stage"
	Value string // head of the second, for instance "Hours"
}

// A Bar is one amount with its name and the amount as text.
type Bar struct {
	Label string
	Value float64 // below 0 counts as 0
	Text  string  // for instance "3 h 20 min"
}

const (
	barThick   = 12.0
	barPitch   = 23.0
	valueShare = 0.3 // of the width, at most, for the text at a bar's end
)

// Draw draws level bars, each labelled at its end, in the order given. Long
// labels are wrapped to two lines and then shortened.
func (c Bars) Draw() (*svg.Drawing, svg.Table) {
	table := svg.Table{Head: []string{c.Label, c.Value}}
	for _, b := range c.Bars {
		table.Rows = append(table.Rows, []string{svg.CleanText(b.Label), svg.CleanText(b.Text)})
	}
	if len(c.Bars) == 0 {
		return c.empty(), table
	}
	d, width := c.sheet(), c.width()
	texts := make([]string, len(c.Bars)) // at the bars' ends
	labels := make([]string, len(c.Bars))
	x := scale{low: 1}
	for i, b := range c.Bars {
		labels[i] = b.Label
		texts[i], _ = svg.Shorten(b.Text, width*valueShare, svg.TextSize, svg.Regular)
		x.to = max(x.to, b.length())
	}
	side := 0.0
	if width >= narrow {
		side = column(labels, width*0.36) + gap
	}
	x.low += side
	x.high = max(width-widest(texts, svg.TextSize)-gap, x.low)
	if x.to == 0 { // nothing but zeros
		x.to, x.high = 1, x.low
	}
	y := 0.0
	var blocks []block
	for i, b := range c.Bars {
		var middle, height float64
		if side > 0 {
			middle, height = b.labelBeside(d, y, side-gap)
		} else {
			middle, height = b.labelAbove(d, y, x.low+gap, width-x.low-gap)
			if i == len(c.Bars)-1 {
				height -= gap
			}
		}
		end := x.at(b.length())
		d.Text(svg.Point{X: end + gap, Y: middle}, texts[i], svg.TextStyle{VAlign: svg.Centre})
		if end > x.low {
			blocks = append(blocks, block{b.Label, svg.Fill1, svg.Box{X: x.low, Y: middle - barThick/2, W: end - x.low, H: barThick}})
		}
		y += height
	}
	drawBlocks(d, blocks)
	d.Line(svg.Point{X: x.low}, svg.Point{X: x.low, Y: y}, svg.Style{Stroke: svg.Ink})
	return d, table
}

func (b Bar) length() float64 { return max(0, sane(b.Value)) }

// labelBeside writes the label at the left of the bars, and returns the middle
// of the bar and the height of the row that begins at y.
func (b Bar) labelBeside(d *svg.Drawing, y, room float64) (middle, height float64) {
	lines := svg.ShortenLines(b.Label, room, svg.TextSize, svg.Regular, 2)
	height = max(barPitch, float64(len(lines))*lineStep+gap)
	d.Paragraph(svg.Point{X: room, Y: y + height/2}, lines, svg.TextStyle{Anchor: svg.End, VAlign: svg.Centre})
	return y + height/2, height
}

// labelAbove writes the label on lines of their own above the bar.
func (b Bar) labelAbove(d *svg.Drawing, y, at, room float64) (middle, height float64) {
	lines := svg.ShortenLines(b.Label, room, svg.TextSize, svg.Regular, 2)
	d.Paragraph(svg.Point{X: at, Y: y + 2}, lines, svg.TextStyle{VAlign: svg.Top})
	words := max(1, float64(len(lines))) * lineStep
	return y + 2 + words + 2 + barThick/2, words + barThick + 2*gap
}
