package svg

import (
	"math"
	"slices"
)

// A ClockChart shows windows of time row by row: when a coat is touch dry, when
// it may be recoated, from when it holds a mask.
type ClockChart struct {
	Frame
	Rows  []ClockRow
	Ticks []Tick // of the time axis; see TimeTicks
	Marks []Mark // moments across all rows, for instance the present
	Row   string // head of the table's first column, for instance "Coat"
	What  string // head of the second, for instance "State"
	From  string // head of the third
	To    string // head of the fourth
}

// A ClockRow is one thing with its windows.
type ClockRow struct {
	Label   string
	Note    string // a second, softer line
	Windows []Window
}

// A Window is a span of time with its name. A To of +Inf or a From of -Inf is an
// open end; From equal to To is a moment.
type Window struct {
	From, To         float64
	Label            string
	FromText, ToText string
	Fill             Role // None means Fill1
}

const (
	clockBar   = 11.0
	clockLane  = 30.0 // of one lane: a line of text above a bar
	clockHead  = 16.0 // of the label above the lanes of a narrow chart
	clockArrow = 6.0
	windowSize = 10.5
	openShare  = 0.18 // of the span, kept free for windows with an open end
	leastName  = 30.0 // the least room for a shortened name
)

// Clock draws the windows as bars, each with its name above it. Windows of a row
// that overlap in time get lanes of their own.
func Clock(c ClockChart) (*Drawing, Table) {
	table := c.table()
	x, ok := c.span()
	if !ok {
		return c.empty(), table
	}
	d, width := c.chart(), c.width()
	column := 0.0 // on a narrow chart the labels stand above their bars
	if width >= narrow {
		column = labelColumn(c.labels(), width*0.32)
		x.low = column + 2*gap
	}
	x.low, x.high = x.low+clockArrow, width-clockArrow
	flags := placeFlags(c.Marks, x, 0, width)
	top := flagsHeight(flags) + gap
	rows, bottom := c.layOut(x, top, column == 0)
	plot := Box{x.low, top, x.high - x.low, bottom - top}
	c.grid(d, plot, x)
	for _, f := range flags {
		d.Line(Point{f.x, top - 2}, Point{f.x, bottom}, Style{Stroke: Accent, Width: 1.25})
		f.draw(d, Point{f.x, top - 2}, top, Style{Stroke: Accent, Width: 1.25})
	}
	for i, r := range rows {
		if i > 0 {
			d.Line(Point{0, r.y}, Point{width, r.y}, Style{Stroke: Rule, Width: hair})
		}
		r.draw(d, column, width, x, flags)
	}
	xAxis(d, plot, x, c.Ticks, width)
	return d, table
}

func (c ClockChart) labels() []string {
	var all []string
	for _, r := range c.Rows {
		all = append(all, r.Label, r.Note)
	}
	return all
}

// span returns the range of time shown: all finite ends, marks included, and
// some more where a window stays open.
func (c ClockChart) span() (x scale, ok bool) {
	x.from, x.to = math.Inf(1), math.Inf(-1)
	open := [2]bool{}
	take := func(v float64) {
		open[0] = open[0] || math.IsInf(v, -1)
		open[1] = open[1] || math.IsInf(v, 1)
		if finite(v) {
			x.from, x.to = min(x.from, sane(v)), max(x.to, sane(v))
		}
	}
	for _, r := range c.Rows {
		for _, w := range r.Windows {
			take(w.From)
			take(w.To)
		}
	}
	if len(c.Rows) == 0 || x.from > x.to {
		return x, false
	}
	for _, m := range c.Marks {
		take(m.At)
	}
	more := (x.to - x.from) * openShare
	if open[0] {
		x.from -= more
	}
	if open[1] {
		x.to += more
	}
	return x, true
}

// grid draws a hairline up from every tick.
func (c ClockChart) grid(d *Drawing, plot Box, x scale) {
	for _, t := range c.Ticks {
		if x.holds(t.At) {
			at := x.at(t.At)
			d.Line(Point{at, plot.Y}, Point{at, plot.Bottom()}, Style{Stroke: Rule, Width: hair})
		}
	}
}

// clockRow is a row laid out: its windows by lane, and its place.
type clockRow struct {
	ClockRow
	y, height float64
	head      float64 // room for the label above the lanes
	lanes     [][]Window
}

func (c ClockChart) layOut(x scale, top float64, above bool) (rows []clockRow, bottom float64) {
	bottom = top
	for _, r := range c.Rows {
		row := clockRow{ClockRow: r, y: bottom, lanes: lanesOf(r.Windows, x)}
		row.height = max(1, float64(len(row.lanes)))*clockLane + gap
		if above {
			row.head = clockHead
			row.height += clockHead
		}
		rows = append(rows, row)
		bottom += row.height
	}
	return rows, bottom
}

// lanesOf puts windows, by their start, into the first lane that is free then.
func lanesOf(windows []Window, x scale) [][]Window {
	ws := slices.Clone(windows)
	for i, w := range ws {
		if w.From > w.To {
			ws[i].From, ws[i].To = w.To, w.From
		}
	}
	ws = slices.DeleteFunc(ws, func(w Window) bool { return math.IsNaN(w.From) || math.IsNaN(w.To) })
	slices.SortStableFunc(ws, func(a, b Window) int { return compare(a.From, b.From) })
	var lanes [][]Window
next:
	for _, w := range ws {
		for i, lane := range lanes {
			last := lane[len(lane)-1]
			if x.at(last.To) <= x.at(w.From)+0.01 && x.at(last.From) < x.at(w.From)-0.01 {
				lanes[i] = append(lane, w)
				continue next
			}
		}
		lanes = append(lanes, []Window{w})
	}
	return lanes
}

func (r clockRow) draw(d *Drawing, column, width float64, x scale, flags []placedFlag) {
	if r.head > 0 {
		r.labelAbove(d, width)
	} else {
		r.labelBeside(d, column)
	}
	for i, lane := range r.lanes {
		base := r.y + r.head + float64(i+1)*clockLane
		for j, w := range lane {
			end := x.high + clockArrow
			if j+1 < len(lane) {
				end = x.at(lane[j+1].From) - gap
			}
			r.window(d, w, x, base, end, flags)
		}
	}
}

func (r clockRow) labelBeside(d *Drawing, column float64) {
	middle := r.y + r.height/2
	note := ShortenLines(r.Note, column, axisSize, Regular, 1)
	if len(note) == 0 {
		d.Lines(Point{0, middle}, ShortenLines(r.Label, column, TextSize, Regular, 2), TextStyle{VAlign: Centre})
		return
	}
	d.Lines(Point{0, middle - 7}, ShortenLines(r.Label, column, TextSize, Regular, 1), TextStyle{VAlign: Centre})
	d.Lines(Point{0, middle + 8}, note, TextStyle{VAlign: Centre, Size: axisSize, Fill: Soft})
}

// labelAbove writes label and note on one line, the note where it has room. They
// lie on plates, as the lines of ticks and marks pass behind.
func (r clockRow) labelAbove(d *Drawing, width float64) {
	y := r.y + 3
	label, _ := Shorten(r.Label, width, TextSize, Regular)
	box := d.Text(Point{0, y}, label, TextStyle{VAlign: Top, Plate: true})
	if room := width - box.W - gap; room > 2*leastName {
		note, _ := Shorten(r.Note, room, axisSize, Regular)
		d.Text(Point{box.W + gap, y + 1}, note, TextStyle{VAlign: Top, Size: axisSize, Fill: Soft, Plate: true})
	}
}

// window draws one bar standing on base and its name above it, within the room
// up to end.
func (r clockRow) window(d *Drawing, w Window, x scale, base, end float64, flags []placedFlag) {
	from, to := x.at(w.From), x.at(w.To)
	if w.From != w.To { // however short, it is seen
		from = min(from, x.high-1)
		to = max(to, from+1)
	}
	fill := w.Fill
	if fill == None {
		fill = Fill1
	}
	style := Style{Fill: fill, Stroke: Ink, Width: hair}
	middle := base - clockBar/2
	var bar Box
	switch {
	case w.From == w.To:
		bar = Box{from - clockBar/2, base - clockBar, clockBar, clockBar}
		d.Polygon([]Point{bar.N(), bar.E(), bar.S(), bar.West()}, style)
	default:
		bar = d.Polygon(windowOutline(w, from, to, base, middle), style)
	}
	d.Register(KindMark, w.Label, bar)
	r.name(d, w.Label, Point{from, base - clockBar - 4}, end, flags)
}

// name writes a window's name from its start, or beside the line of a mark that
// is in the way, shortened where need be; without room for a few letters it is
// left to the table.
func (r clockRow) name(d *Drawing, name string, at Point, end float64, flags []placedFlag) {
	style := TextStyle{Size: windowSize, Plate: true}
	best, bestFrom := 0.0, at.X
	for _, from := range starts(at.X, end, flags) {
		until := end
		for _, f := range flags {
			if f.x > from-3 && f.x-3 < until {
				until = f.x - 3
			}
		}
		label, cut := Shorten(name, until-from, windowSize, Regular)
		if !cut && label != "" {
			d.Text(Point{from, at.Y}, label, style)
			return
		}
		if until-from > best {
			best, bestFrom = until-from, from
		}
	}
	if best >= leastName {
		label, _ := Shorten(name, best, windowSize, Regular)
		d.Text(Point{bestFrom, at.Y}, label, style)
	}
}

// starts returns where a name may begin: at its window, or just after a mark.
func starts(from, end float64, flags []placedFlag) []float64 {
	all := []float64{from}
	for _, f := range flags {
		if s := f.x + 4; s > from && s < end {
			all = append(all, s)
		}
	}
	return all
}

// windowOutline is a bar whose open ends are points.
func windowOutline(w Window, from, to, base, middle float64) []Point {
	top := base - clockBar
	outline := []Point{{from, top}, {to, top}}
	if math.IsInf(w.To, 1) {
		outline = append(outline, Point{to + clockArrow, middle})
	}
	outline = append(outline, Point{to, base}, Point{from, base})
	if math.IsInf(w.From, -1) {
		outline = append(outline, Point{from - clockArrow, middle})
	}
	return outline
}

func (c ClockChart) table() Table {
	t := Table{Head: []string{c.Row, c.What, c.From, c.To}}
	for _, r := range c.Rows {
		name := CleanText(r.Label)
		if note := CleanText(r.Note); note != "" {
			name += ", " + note
		}
		for _, w := range r.Windows {
			t.Rows = append(t.Rows, []string{name, CleanText(w.Label), CleanText(w.FromText), CleanText(w.ToText)})
		}
		if len(r.Windows) == 0 {
			t.Rows = append(t.Rows, []string{name, "", "", ""})
		}
	}
	for _, m := range c.Marks {
		t.Rows = append(t.Rows, []string{CleanText(m.Label), "", CleanText(m.Text), CleanText(m.Text)})
	}
	return t
}
