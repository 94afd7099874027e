package chart

import (
	"math"
	"slices"
	"time"

	"spruelight/gen/svg"
)

// A Clock shows windows of time row by row: when a coat is touch dry, when it
// may be recoated, from when it holds a mask.
type Clock struct {
	Frame
	Rows  []Row
	Ticks []Tick // of the time axis; see Ticks
	Now   Moment // drawn across all rows
	Row   string // head of the table's first column, for instance "Coat"
	What  string // head of the second, for instance "State"
	From  string // head of the third
	To    string // head of the fourth
}

// A Row is one thing with its windows.
type Row struct {
	Label   string
	Note    string // a second, softer line
	Windows []Window
}

// A Window is a span of time with its name. A zero To is an open end; From
// equal to To is a moment.
type Window struct {
	From, To         time.Time
	Label            string
	FromText, ToText string
	Fill             svg.Role
}

// A Moment is a time with its label and, for the table, the time as text.
type Moment struct {
	At          time.Time
	Label, Text string
}

const (
	clockBar   = 11.0
	clockLane  = 30.0 // of one lane: a line of text above a bar
	clockHead  = 16.0 // of the label above the lanes of a narrow chart
	clockArrow = 6.0
	windowSize = 10.5
	openShare  = 0.18 // of the span, kept free for windows with an open end
	leastName  = 30.0 // the least room for a shortened name

	flagSize = 11.0 // of the label of the present
	flagRow  = flagSize*svg.LineHeight + 1
	nowWidth = 1.25 // of its line
)

// clock is a chart laid out: its places along the time axis.
type clock struct {
	*svg.Drawing
	x            scale
	now          float64 // where the line of the present is
	names, width float64 // of the column of labels, 0 where they stand above; of all
}

// Draw draws the windows as bars, each with its name above it. Windows of a row
// that overlap in time get lanes of their own.
func (c Clock) Draw() (*svg.Drawing, svg.Table) {
	table := c.table()
	x, ok := c.span()
	if !ok {
		return c.empty(), table
	}
	k := clock{Drawing: c.sheet(), width: c.width()}
	if k.width >= narrow {
		k.names = column(c.labels(), k.width*0.32)
		x.low = k.names + 2*gap
	}
	x.low, x.high = x.low+clockArrow, k.width-clockArrow
	k.x, k.now = x, x.at(seconds(c.Now.At))
	top := flagRow + gap
	rows, bottom := c.layOut(x, top, k.names == 0)
	plot := svg.Box{X: x.low, Y: top, W: x.high - x.low, H: bottom - top}
	for _, t := range c.Ticks {
		if v := seconds(t.At); x.holds(v) {
			k.Line(svg.Point{X: x.at(v), Y: top}, svg.Point{X: x.at(v), Y: bottom}, svg.Style{Stroke: svg.Rule, Width: hair})
		}
	}
	k.present(c.Now.Label, top, bottom)
	for i, r := range rows {
		if i > 0 {
			k.Line(svg.Point{Y: r.y}, svg.Point{X: k.width, Y: r.y}, svg.Style{Stroke: svg.Rule, Width: hair})
		}
		k.row(r)
	}
	timeAxis(k.Drawing, plot, x, c.Ticks, k.width)
	return k.Drawing, table
}

func (c Clock) labels() []string {
	var all []string
	for _, r := range c.Rows {
		all = append(all, r.Label, r.Note)
	}
	return all
}

// ends returns the window on the time axis; an open end is infinite.
func (w Window) ends() (from, to float64) {
	if w.To.IsZero() {
		return seconds(w.From), math.Inf(1)
	}
	return seconds(w.From), seconds(w.To)
}

// span returns the range of time shown: all ends and the present, and some more
// where a window stays open. Without a window there is none.
func (c Clock) span() (x scale, ok bool) {
	now, open := seconds(c.Now.At), false
	x.from, x.to = now, now
	for _, r := range c.Rows {
		for _, w := range r.Windows {
			from, to := w.ends()
			x.from, x.to, ok = min(x.from, from), max(x.to, from), true
			if open = open || math.IsInf(to, 1); !math.IsInf(to, 1) {
				x.to = max(x.to, to)
			}
		}
	}
	if open {
		x.to += (x.to - x.from) * openShare
	}
	return x, ok
}

// present draws the line of the present, and its label beside it above the rows.
func (k clock) present(label string, top, bottom float64) {
	style := svg.Style{Stroke: svg.Accent, Width: nowWidth}
	k.Line(svg.Point{X: k.now, Y: top - 2}, svg.Point{X: k.now, Y: bottom}, style)
	k.Line(svg.Point{X: k.now, Y: top - 2}, svg.Point{X: k.now, Y: top - flagRow + 3}, style)
	const inset = 4.0 // from the line to its text
	label, _ = svg.Shorten(label, k.width*0.45, flagSize, svg.Regular)
	at, text := svg.Point{X: k.now + inset, Y: top - 4}, svg.TextStyle{Size: flagSize}
	if svg.TextBox(at, label, text).Right() > k.width {
		at.X, text.Anchor = k.now-inset, svg.End
	}
	k.Text(at, label, text)
}

// clockRow is a row laid out: its windows by lane, and its place.
type clockRow struct {
	Row
	y, height float64
	head      float64 // room for the label above the lanes
	lanes     [][]Window
}

func (c Clock) layOut(x scale, top float64, above bool) (rows []clockRow, bottom float64) {
	bottom = top
	for _, r := range c.Rows {
		row := clockRow{Row: r, y: bottom, lanes: lanesOf(r.Windows, x)}
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
	windows = slices.SortedStableFunc(slices.Values(windows), func(a, b Window) int { return a.From.Compare(b.From) })
	var lanes [][]Window
next:
	for _, w := range windows {
		start, _ := w.ends()
		for i, lane := range lanes {
			from, to := lane[len(lane)-1].ends()
			if x.at(to) <= x.at(start)+0.01 && x.at(from) < x.at(start)-0.01 {
				lanes[i] = append(lane, w)
				continue next
			}
		}
		lanes = append(lanes, []Window{w})
	}
	return lanes
}

func (k clock) row(r clockRow) {
	if r.head > 0 {
		k.labelAbove(r)
	} else {
		k.labelBeside(r)
	}
	for i, lane := range r.lanes {
		base := r.y + r.head + float64(i+1)*clockLane
		for j, w := range lane {
			end := k.x.high + clockArrow
			if j+1 < len(lane) {
				next, _ := lane[j+1].ends()
				end = k.x.at(next) - gap
			}
			k.window(w, base, end)
		}
	}
}

func (k clock) labelBeside(r clockRow) {
	middle := r.y + r.height/2
	note := svg.ShortenLines(r.Note, k.names, axisSize, svg.Regular, 1)
	style := svg.TextStyle{VAlign: svg.Centre}
	if len(note) == 0 {
		k.Paragraph(svg.Point{Y: middle}, svg.ShortenLines(r.Label, k.names, svg.TextSize, svg.Regular, 2), style)
		return
	}
	k.Paragraph(svg.Point{Y: middle - 7}, svg.ShortenLines(r.Label, k.names, svg.TextSize, svg.Regular, 1), style)
	k.Paragraph(svg.Point{Y: middle + 8}, note, svg.TextStyle{VAlign: svg.Centre, Size: axisSize, Fill: svg.Soft})
}

// labelAbove writes label and note on one line, the note where it has room. They
// lie on plates, as the lines of ticks and of the present pass behind.
func (k clock) labelAbove(r clockRow) {
	y := r.y + 3
	label, _ := svg.Shorten(r.Label, k.width, svg.TextSize, svg.Regular)
	box := k.Text(svg.Point{Y: y}, label, svg.TextStyle{VAlign: svg.Top, Plate: true})
	if room := k.width - box.W - gap; room > 2*leastName {
		note, _ := svg.Shorten(r.Note, room, axisSize, svg.Regular)
		k.Text(svg.Point{X: box.W + gap, Y: y + 1}, note, svg.TextStyle{VAlign: svg.Top, Size: axisSize, Fill: svg.Soft, Plate: true})
	}
}

// window draws one bar standing on base and its name above it, within the room
// up to end.
func (k clock) window(w Window, base, end float64) {
	first, last := w.ends()
	from, to := k.x.at(first), k.x.at(last)
	style := svg.Style{Fill: w.Fill, Stroke: svg.Ink, Width: hair}
	top, middle := base-clockBar, base-clockBar/2
	outline := []svg.Point{{X: from, Y: top}, {X: from + clockBar/2, Y: middle}, {X: from, Y: base}, {X: from - clockBar/2, Y: middle}}
	if first != last {
		from, to = min(from, k.x.high-1), max(to, from+1) // however short, it is seen
		outline = []svg.Point{{X: from, Y: top}, {X: to, Y: top}}
		if w.To.IsZero() {
			outline = append(outline, svg.Point{X: to + clockArrow, Y: middle})
		}
		outline = append(outline, svg.Point{X: to, Y: base}, svg.Point{X: from, Y: base})
	}
	k.Mark(svg.KindMark, w.Label, k.Polygon(outline, style))
	k.name(w.Label, svg.Point{X: from, Y: top - 4}, end)
}

// name writes a window's name from its start, or beside the line of the present
// where that is in the way, shortened where need be; without room for a few
// letters it is left to the table.
func (k clock) name(name string, at svg.Point, end float64) {
	starts := []float64{at.X}
	if beside := k.now + 4; beside > at.X && beside < end {
		starts = append(starts, beside)
	}
	best, bestFrom := 0.0, at.X
	for _, from := range starts {
		until := end
		if k.now > from-3 {
			until = min(end, k.now-3)
		}
		if until-from > best {
			best, bestFrom = until-from, from
		}
		if _, cut := svg.Shorten(name, until-from, windowSize, svg.Regular); !cut {
			best, bestFrom = until-from, from
			break
		}
	}
	if label, cut := svg.Shorten(name, best, windowSize, svg.Regular); !cut || best >= leastName {
		k.Text(svg.Point{X: bestFrom, Y: at.Y}, label, svg.TextStyle{Size: windowSize, Plate: true})
	}
}

func (c Clock) table() svg.Table {
	t := svg.Table{Head: []string{c.Row, c.What, c.From, c.To}}
	for _, r := range c.Rows {
		name := svg.CleanText(r.Label)
		if note := svg.CleanText(r.Note); note != "" {
			name += ", " + note
		}
		for _, w := range r.Windows {
			t.Rows = append(t.Rows, []string{name, svg.CleanText(w.Label), svg.CleanText(w.FromText), svg.CleanText(w.ToText)})
		}
		if len(r.Windows) == 0 {
			t.Rows = append(t.Rows, []string{name, "", "", ""})
		}
	}
	when := svg.CleanText(c.Now.Text)
	t.Rows = append(t.Rows, []string{svg.CleanText(c.Now.Label), "", when, when})
	return t
}
