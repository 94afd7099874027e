package svg

import "slices"

// Flags label moments above a plot: from the mark a thin staff goes up to a row of
// texts, each beside its staff like a flag. They are laid so that no text touches
// a text and no staff runs through one.

const (
	flagSize  = 11.0
	flagRow   = flagSize*LineHeight + 1
	flagInset = 4.0 // from the staff to its text
	flagRows  = 7   // at most; what finds no room keeps its mark and stands in the table
)

// placedFlag is one placed label.
type placedFlag struct {
	mark  Mark
	x     float64
	label string
	row   int // counted upward from the plot; -1: no room for a text
	left  bool
	width float64
}

// from and until give the range of x that the text takes.
func (f placedFlag) from() float64 {
	if f.left {
		return f.x - flagInset - f.width
	}
	return f.x
}

func (f placedFlag) until() float64 {
	if f.left {
		return f.x
	}
	return f.x + flagInset + f.width
}

// placeFlags gives every mark on the axis its row and side, within left…right.
// It tries a few ways and keeps the one that leaves out fewest texts, and of
// those the one with fewest rows.
func placeFlags(marks []Mark, x scale, left, right float64) []placedFlag {
	flags := make([]placedFlag, 0, len(marks))
	for _, m := range marks {
		if m.At = sane(m.At); !x.holds(m.At) {
			continue
		}
		label, _ := Shorten(m.Label, (right-left)*0.45, flagSize, Regular)
		w, _, _ := Measure(label, flagSize, Regular)
		flags = append(flags, placedFlag{mark: m, x: x.at(m.At), label: label, row: -1, width: w})
	}
	slices.SortStableFunc(flags, func(a, b placedFlag) int { return compare(a.x, b.x) })
	best := slices.Clone(flags)
	settleFromRight(best, left, right, false, true)
	if len(flags) > mostFlags {
		return best
	}
	step := max(1, len(flags)/mostSplits)
	for k := 0; k <= len(flags) && flagsHeight(best)+float64(missing(best)) > flagRow; k += step {
		try := slices.Clone(flags)
		settleFromLeft(try, k, left, right, true)
		settleFromRight(try, left, right, false)
		if better(try, best) {
			best = try
		}
	}
	return best
}

// The ways that are tried: the marks before a split have their texts to the right,
// in stairs that fall to the right, those after it to the left, in stairs that
// rise. Both numbers bound the work, which grows with the square of the marks.
const (
	mostSplits = 16
	mostFlags  = 60
)

// settleFromRight settles the flags that are not yet placed, the last one first.
func settleFromRight(flags []placedFlag, left, right float64, sides ...bool) {
	for i := len(flags) - 1; i >= 0; i-- {
		settle(flags, i, left, right, sides)
	}
}

// settleFromLeft settles the flags from first on.
func settleFromLeft(flags []placedFlag, first int, left, right float64, sides ...bool) {
	for i := first; i < len(flags); i++ {
		settle(flags, i, left, right, sides)
	}
}

// better reports whether a placement shows more texts, or as many in fewer rows.
func better(a, b []placedFlag) bool {
	if missA, missB := missing(a), missing(b); missA != missB {
		return missA < missB
	}
	return flagsHeight(a) < flagsHeight(b)
}

func missing(flags []placedFlag) int {
	n := 0
	for _, f := range flags {
		if f.row < 0 {
			n++
		}
	}
	return n
}

// settle looks for the lowest free row of a flag, on the given sides; a text that
// would leave the drawing there is tried on the other.
func settle(flags []placedFlag, i int, left, right float64, sides []bool) {
	if flags[i].label == "" || flags[i].row >= 0 {
		return
	}
	for row := range flagRows {
		for _, side := range sides {
			try := flags[i]
			try.row, try.left = row, side
			if try.from() < left || try.until() > right {
				try.left = !side
			}
			if try.from() < left || try.until() > right {
				continue
			}
			if !slices.ContainsFunc(flags, try.meets) { // itself has no row yet
				flags[i] = try
				return
			}
		}
	}
}

// meets reports whether two placed flags are in each other's way.
func (f placedFlag) meets(o placedFlag) bool {
	switch {
	case o.row < 0:
		return false
	case f.row == o.row:
		return f.from() < o.until()+gap && o.from() < f.until()+gap
	case f.row > o.row: // the staff of f passes the row of o
		return f.x > o.from()-2 && f.x < o.until()+2
	}
	return o.x > f.from()-2 && o.x < f.until()+2
}

// flagsHeight returns the room that flags need above a plot.
func flagsHeight(flags []placedFlag) float64 {
	rows := 0
	for _, f := range flags {
		rows = max(rows, f.row+1)
	}
	return float64(rows) * flagRow
}

// draw draws the staff from a point of the plot upward, and the text.
func (f placedFlag) draw(d *Drawing, foot Point, top float64, staff Style) {
	if f.row < 0 {
		return
	}
	y := top - float64(f.row)*flagRow
	d.Line(foot, Point{f.x, y - flagRow + 3}, staff)
	at, style := Point{f.x + flagInset, y - 4}, TextStyle{Size: flagSize}
	if f.left {
		at.X, style.Anchor = f.x-flagInset, End
	}
	d.Text(at, f.label, style)
}
