package svg

// A BarChart compares amounts: hours by stage, cost by kind.
type BarChart struct {
	Frame
	Bars  []Bar
	Label string // head of the table's first column, for instance "Stage"
	Value string // head of the second, for instance "Hours"
}

// A Bar is one amount with its name and the amount as text.
type Bar struct {
	Label string
	Value float64
	Text  string // for instance "3 h 20 min"; empty writes the plain number
	Fill  Role   // None means Fill1
}

const (
	barThick   = 12.0
	barPitch   = 23.0
	barLine    = TextSize * LineHeight
	valueShare = 0.3 // of the width, at most, for the text at a bar's end
)

// barRow is a bar with its words fitted to the chart.
type barRow struct {
	bar   Bar
	value float64
	text  string
	textW float64
}

// barLabels says where the labels of all rows stand.
type barLabels struct {
	above    bool // on lines of their own above the bars
	at, room float64
	style    TextStyle
}

// labelsAbove puts labels beside the zero line, on its roomier side.
func labelsAbove(zero, width float64) barLabels {
	if zero <= width/2 {
		return barLabels{true, zero + gap, width - zero - gap, TextStyle{VAlign: Top}}
	}
	return barLabels{true, zero - gap, zero - gap, TextStyle{VAlign: Top, Anchor: End}}
}

// Bars draws horizontal bars, each labelled at its end, in the order given. Bars
// below zero go to the left. Long labels are wrapped to two lines and then
// shortened; the table has them in full.
func Bars(c BarChart) (*Drawing, Table) {
	table := Table{Head: []string{c.Label, c.Value}}
	for _, b := range c.Bars {
		table.Rows = append(table.Rows, []string{CleanText(b.Label), b.text()})
	}
	if len(c.Bars) == 0 {
		return c.empty(), table
	}
	d, width := c.chart(), c.width()
	above := width < narrow
	column := 0.0
	if !above {
		column = labelColumn(labelsOf(c.Bars), width*0.36) + gap
	}
	rows := barRows(c.Bars, width)
	x := barScale(rows, column, width)
	zero := x.at(0)
	label := barLabels{above: above, at: column - gap, room: column - gap, style: TextStyle{Anchor: End, VAlign: Centre}}
	if above {
		label = labelsAbove(zero, width)
	}
	y := 0.0
	var marks []chartMark
	for i, r := range rows {
		height, bar := r.draw(d, y, label, i == len(rows)-1, x)
		y += height
		if bar.box.W > 0 {
			marks = append(marks, bar)
		}
	}
	drawMarks(d, marks)
	d.Line(Point{zero, 0}, Point{zero, y}, Style{Stroke: Ink})
	return d, table
}

func (b Bar) text() string {
	if t := CleanText(b.Text); t != "" {
		return t
	}
	return plainNumber(b.Value)
}

func labelsOf(bars []Bar) []string {
	labels := make([]string, len(bars))
	for i, b := range bars {
		labels[i] = b.Label
	}
	return labels
}

func barRows(bars []Bar, width float64) []barRow {
	rows := make([]barRow, len(bars))
	for i, b := range bars {
		text, _ := Shorten(b.text(), width*valueShare, TextSize, Regular)
		w, _, _ := Measure(text, TextSize, Regular)
		rows[i] = barRow{bar: b, value: sane(b.Value), text: text, textW: w}
	}
	return rows
}

// barScale leaves room beyond the longest bars for the texts at their ends.
func barScale(rows []barRow, column, width float64) scale {
	x := scale{low: column, high: width}
	before, after := 0.0, 0.0
	for _, r := range rows {
		x.from, x.to = min(x.from, r.value), max(x.to, r.value)
		if r.value < 0 {
			before = max(before, r.textW+gap)
		} else {
			after = max(after, r.textW+gap)
		}
	}
	x.low += before + 1
	x.high = max(x.high-after, x.low)
	if x.from == x.to { // nothing but zeros: the line stands at the left
		x.to, x.high = 1, x.low
	}
	return x
}

// draw writes the words of one row from y and returns its height and its bar.
func (r barRow) draw(d *Drawing, y float64, label barLabels, last bool, x scale) (height float64, bar chartMark) {
	lines := ShortenLines(r.bar.Label, label.room, TextSize, Regular, 2)
	height = max(barPitch, float64(len(lines))*barLine+gap)
	middle := y + height/2
	if label.above {
		block := max(1, float64(len(lines))) * barLine
		d.Lines(Point{label.at, y + 2}, lines, label.style)
		middle = y + 2 + block + 2 + barThick/2
		height = block + barThick + 12
		if last {
			height -= 6
		}
	} else {
		d.Lines(Point{label.at, middle}, lines, label.style)
	}
	zero, end := x.at(0), x.at(r.value)
	style, at := TextStyle{VAlign: Centre}, Point{end + gap, middle}
	if r.value < 0 {
		style.Anchor, at.X = End, end-gap
	}
	d.Text(at, r.text, style)
	fill := r.bar.Fill
	if fill == None {
		fill = Fill1
	}
	box := Box{min(zero, end), middle - barThick/2, max(zero, end) - min(zero, end), barThick}
	return height, chartMark{r.bar.Label, fill, box}
}
