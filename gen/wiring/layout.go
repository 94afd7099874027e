package wiring

import (
	"math"
	"slices"

	"spruelight/gen/circuit"
	"spruelight/gen/svg"
)

// layout arranges a circuit in rows: first which junction's ladder stands
// where, then what fits beside each other.
type layout struct {
	s        *circuit.Solution
	print    svg.Printer
	width    float64
	words    float64 // the widest label
	points   []junctionPoints
	children [][]int // of each junction
	order    []int   // the first branch in or below each junction
	rows     []*band
	wired    bool // some wire is drawn with its length
}

// band is one row over the whole width of the drawing.
type band struct {
	start  opening
	row    *row
	to     *join // nil: the row ends here
	height float64
	head   float64
}

// opening is what stands left of a band's columns and ends in its rails.
type opening interface {
	width() float64
	head() float64   // height of words above the plus rail
	height() float64 // from rail to rail
	foot() float64   // height of words below the minus rail
	draw(c *canvas, x, top, bottom float64) (plusFrom, minusFrom float64)
}

// join is a pair of flags at each end of an interruption. Letters are given in
// the order of drawing.
type join struct{ letters string }

// junctionPoints are the numbers of a junction's test points; zero for none.
type junctionPoints struct{ plus, minus int }

// inset limits how deep ladders are drawn within each other; deeper ones get
// rows of their own.
const deepest = 3

func newLayout(s *circuit.Solution, width float64, print svg.Printer) *layout {
	l := &layout{s: s, print: print, width: width, words: mostWords}
	if width < narrowest {
		l.words = narrowWords
	}
	l.points = numberPoints(s)
	l.children = make([][]int, len(s.Junctions))
	l.order = make([]int, len(s.Junctions))
	for k := range s.Junctions {
		l.order[k] = math.MaxInt
		if from := s.Junctions[k].From; from >= 0 {
			l.children[from] = append(l.children[from], k)
		}
	}
	for i, b := range s.Branches {
		for k := b.Junction; k >= 0; k = s.Junctions[k].From {
			l.order[k] = min(l.order[k], i)
		}
	}
	return l
}

// numberPoints finds the test points of the junctions among those of the
// circuit: plus as the junction says, minus where the next number belongs to no
// branch and no other junction.
func numberPoints(s *circuit.Solution) []junctionPoints {
	all := make([]junctionPoints, len(s.Junctions))
	taken := map[int]bool{}
	for k, j := range s.Junctions {
		all[k].plus = j.Point
		taken[j.Point] = true
	}
	for _, p := range s.Points {
		if p.Branch >= 0 || taken[p.Number] {
			continue
		}
		for k := range all {
			if all[k].plus > 0 && all[k].plus+1 == p.Number {
				all[k].minus = p.Number
			}
		}
	}
	return all
}

// hung is what hangs on a junction: a branch, or a further junction.
type hung struct {
	branch, junction int // one of them -1
	order            int
}

// hangs lists what hangs on a junction in reading order: that of the branches,
// a junction standing where its first branch does.
func (l *layout) hangs(k int) []hung {
	var all []hung
	for i, b := range l.s.Branches {
		if b.Junction == k {
			all = append(all, hung{i, -1, i})
		}
	}
	for _, child := range l.children[k] {
		all = append(all, hung{-1, child, l.order[child]})
	}
	slices.SortStableFunc(all, func(a, b hung) int { return a.order - b.order })
	return all
}

// arrange fills the rows, beginning with the first junction's.
func (l *layout) arrange() {
	l.section(0, l.supply())
}

// section lays out the ladder of one junction in as many rows as it takes, then
// those of its junctions that did not fit into it.
func (l *layout) section(k int, start opening) {
	var cols []*column
	var apart []func()
	for _, h := range l.hangs(k) {
		if h.junction < 0 {
			cols = append(cols, l.branch(h.branch))
			continue
		}
		if col := l.inset(h.junction, 1); col != nil {
			cols = append(cols, col)
			continue
		}
		at := &join{}
		cols = append(cols, l.jump(h.junction, at))
		apart = append(apart, func() { l.section(h.junction, l.arrival(h.junction, at)) })
	}
	l.wrap(cols, start)
	for _, next := range apart {
		next()
	}
}

// wrap puts columns into rows, as many as fit into each.
func (l *layout) wrap(cols []*column, start opening) {
	for {
		n := l.fitting(cols, start)
		b := &band{start: start, row: newRow(cols[:n])}
		b.height = max(b.row.height, start.height())
		b.head = max(b.row.head, start.head())
		l.rows = append(l.rows, b)
		cols = cols[n:]
		if len(cols) == 0 {
			return
		}
		b.to = &join{}
		b.row.spread(l.width - flagLength - columnGap - roundHalf(b.start.width()) - 0.5)
		start = &continued{b.to}
	}
}

// fitting returns how many columns fit into a row, at least one where the row
// begins with flags alone.
func (l *layout) fitting(cols []*column, start opening) int {
	x := start.width()
	for i, col := range cols {
		left, right := col.extent()
		x += left + right + columnGap
		room := l.width
		if i < len(cols)-1 {
			room -= flagLength + columnGap
		}
		if _, flags := start.(*continued); x > room && (i > 0 || !flags) {
			return i
		}
	}
	return len(cols)
}

// inset returns a junction's ladder as one column, nil where it is too wide or
// lies too deep.
func (l *layout) inset(k, depth int) *column {
	if depth > deepest {
		return nil
	}
	var cols []*column
	for _, h := range l.hangs(k) {
		col := (*column)(nil)
		if h.junction < 0 {
			col = l.branch(h.branch)
		} else if col = l.inset(h.junction, depth+1); col == nil {
			return nil
		}
		cols = append(cols, col)
	}
	col := l.feedColumn(k)
	if len(cols) == 0 {
		col.open = true
		col.end()
		return col
	}
	inner := &ladder{newRow(cols)}
	col.middle = inner
	left, right := col.extent()
	if left+right+2*(flagLength+columnGap) > l.width {
		return nil
	}
	return col
}
