package chart

import "spruelight/gen/svg"

const (
	laneHeight = 32.0 // of one lane, with the text above its bars
	laneBar    = 17.0 // of the tallest bar in a lane
	mostLane   = 92.0 // of a period across a lane: a few months still fill the width
)

// Lanes draws one lane for each series above each other, all on the same scale,
// with the periods across: when was what done, and how much. Every lane is named
// at its left and summed at its right, so that no fill has to be looked up.
func (c Months) Lanes() (*svg.Drawing, svg.Table) {
	table := c.table()
	if len(c.Columns) == 0 || len(c.Series) == 0 {
		return c.empty(), table
	}
	d, width := c.sheet(), c.width()
	totals := make([]string, len(c.Series))
	for i, s := range c.Series {
		totals[i], _ = svg.Shorten(s.Total, width*0.26, svg.TextSize, svg.Regular)
	}
	names := column(c.names(), width*0.3)
	after := column(totals, width*0.26)
	grid := newGrid(names+gap, width-names-after-2*gap, c.Columns, 0, mostLane)
	top := 0.0
	for _, col := range c.Columns {
		for i := range c.Series {
			top = max(top, col.value(i))
		}
	}
	var marks []block
	for i, s := range c.Series {
		base := float64(i+1) * laneHeight
		lines := svg.ShortenLines(s.Name, names, svg.TextSize, svg.Regular, 2)
		middle := base - laneBar/2
		if len(lines) > 1 {
			middle = base - laneHeight*0.4 // so that the second line ends above the next lane
		}
		d.Paragraph(svg.Point{X: names, Y: middle}, lines, svg.TextStyle{Anchor: svg.End, VAlign: svg.Centre})
		d.Text(svg.Point{X: grid.right() + gap + after, Y: base - laneBar/2}, totals[i], svg.TextStyle{Anchor: svg.End, VAlign: svg.Centre})
		marks = append(marks, c.lane(d, grid, i, base, top)...)
	}
	drawBlocks(d, marks)
	grid.axis(d, float64(len(c.Series))*laneHeight, width, c.Columns)
	return d, table
}

// lane draws one series on a base line, the tallest bar of all being top, and
// returns its bars to be drawn with the others.
func (c Months) lane(d *svg.Drawing, grid places, series int, base, top float64) (marks []block) {
	d.Line(svg.Point{X: grid.left, Y: base}, svg.Point{X: grid.right(), Y: base}, svg.Style{Stroke: svg.Rule, Width: hair})
	var texts []candidate
	var bars []svg.Box
	for j, col := range c.Columns {
		v := col.value(series)
		if v <= 0 {
			continue
		}
		h := max(v/top*laneBar, 1)
		bar := svg.Box{X: grid.middle(j) - grid.bar/2, Y: base - h, W: grid.bar, H: h}
		bars = append(bars, bar)
		marks = append(marks, block{c.Series[series].Name, svg.Fill(series), bar})
		texts = append(texts, candidate{v, svg.Point{X: grid.middle(j), Y: base - h - 3}, col.Texts[series]})
	}
	style := svg.TextStyle{Size: 10, Anchor: svg.Middle, Fill: svg.Soft}
	drawFitting(d, texts, style, bars, grid.left, grid.right())
	return marks
}
