package svg

const (
	laneHeight = 32.0 // of one lane, with the text above its bars
	laneBar    = 17.0 // of the tallest bar in a lane
	mostLane   = 92.0 // of a period across a lane: a few months still fill the width
)

// Lanes draws one lane for each series above each other, all on the same scale,
// with the periods across: when was what done, and how much. Every lane is named
// at its left and summed at its right, so that no fill has to be looked up.
func Lanes(c MonthChart) (*Drawing, Table) {
	table := c.table()
	if len(c.Columns) == 0 || len(c.Series) == 0 {
		return c.empty(), table
	}
	d, width := c.chart(), c.width()
	totals := make([]string, len(c.Series))
	for i, s := range c.Series {
		totals[i], _ = Shorten(s.Total, width*0.26, TextSize, Regular)
	}
	column := labelColumn(c.names(), width*0.3)
	after := labelColumn(totals, width*0.26)
	grid := newGrid(column+gap, width-column-after-2*gap, c.Columns, 0, mostLane)
	top := 0.0
	for _, col := range c.Columns {
		for i := range c.Series {
			top = max(top, col.value(i))
		}
	}
	var marks []chartMark
	for i, s := range c.Series {
		base := float64(i+1) * laneHeight
		lines := ShortenLines(s.Name, column, TextSize, Regular, 2)
		middle := base - laneBar/2
		if len(lines) > 1 {
			middle = base - laneHeight*0.4 // so that the second line ends above the next lane
		}
		d.Lines(Point{column, middle}, lines, TextStyle{Anchor: End, VAlign: Centre})
		d.Text(Point{grid.right() + gap + after, base - laneBar/2}, totals[i], TextStyle{Anchor: End, VAlign: Centre})
		marks = append(marks, c.lane(d, grid, i, base, top)...)
	}
	drawMarks(d, marks)
	grid.axis(d, float64(len(c.Series))*laneHeight, width, c.Columns)
	return d, table
}

// lane draws one series on a base line, the tallest bar of all being top, and
// returns its bars to be drawn with the others.
func (c MonthChart) lane(d *Drawing, grid columnsGrid, series int, base, top float64) (marks []chartMark) {
	d.Line(Point{grid.left, base}, Point{grid.right(), base}, Style{Stroke: Rule, Width: hair})
	var texts []candidate
	var bars []Box
	for j, col := range c.Columns {
		v := col.value(series)
		if v <= 0 {
			continue
		}
		h := max(v/top*laneBar, 1)
		bar := Box{grid.middle(j) - grid.bar/2, base - h, grid.bar, h}
		bars = append(bars, bar)
		marks = append(marks, chartMark{c.Series[series].Name, c.Series[series].fill(series), bar})
		texts = append(texts, candidate{v, Point{grid.middle(j), base - h - 3}, col.text(series)})
	}
	style := TextStyle{Size: 10, Anchor: Middle, Fill: Soft}
	drawFitting(d, texts, style, bars, grid.left, grid.right())
	return marks
}
