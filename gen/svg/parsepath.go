package svg

import (
	"fmt"
	"math"
	"strconv"
)

// Limits of ParsePath, which reads outlines from strangers' files.
const (
	MaxPathBytes    = 1 << 20 // length of the data
	MaxPathSegments = 50_000  // steps after arcs are taken apart
	maxPathNumber   = 1e9     // greatest coordinate, also after adding up relative steps
)

// A PathError says what is wrong with path data and where.
type PathError struct {
	Offset int // in bytes from the start of the data
	What   string
}

func (e *PathError) Error() string { return fmt.Sprintf("path data, byte %d: %s", e.Offset, e.What) }

// ParsePath reads SVG path data (SVG 2, section 9.3: all commands, absolute and
// relative, numbers run together, arc flags without separators) into absolute
// lines and cubic curves. Data that SVG calls in error is refused with a
// *PathError instead of being drawn in part. Empty data gives an empty path.
func ParsePath(data string) (Path, error) {
	if len(data) > MaxPathBytes {
		return Path{}, &PathError{MaxPathBytes, fmt.Sprintf("longer than %d bytes", MaxPathBytes)}
	}
	r := pathReader{s: data}
	for r.err == nil {
		r.separators(false)
		if r.i == len(r.s) {
			break
		}
		r.command()
	}
	if r.err != nil {
		return Path{}, r.err
	}
	return r.path, nil
}

// pathReader reads path data. After the first error every step does nothing.
type pathReader struct {
	s    string
	i    int
	err  error
	path Path

	control Point // last control point, for the smooth commands
	smooth  byte  // 'C' or 'Q' where control belongs to such a curve
}

func (r *pathReader) fail(at int, format string, args ...any) {
	if r.err == nil {
		r.err = &PathError{at, fmt.Sprintf(format, args...)}
	}
}

// command reads one command letter and all its groups of arguments.
func (r *pathReader) command() {
	at, letter := r.i, r.s[r.i]
	upper, relative := letter&^0x20, letter&0x20 != 0
	step := pathSteps[upper]
	if step == nil || letter < 'A' {
		r.fail(at, "%q is no path command", letter)
		return
	}
	if !r.path.begun() && upper != 'M' {
		r.fail(at, "must begin with M or m")
		return
	}
	r.i++
	if upper == 'Z' {
		r.path.Close()
		r.smooth = 0
		return
	}
	for first := true; r.err == nil && (first || r.more()); first = false {
		if upper == 'M' && !first {
			step = pathSteps['L'] // further pairs of a move are lines
		}
		var origin Point
		if relative {
			origin = r.path.at
		}
		step(r, origin)
		r.check(at)
	}
}

// check refuses a path that has grown beyond the limits.
func (r *pathReader) check(at int) {
	if len(r.path.segments) > MaxPathSegments {
		r.fail(at, "more than %d steps", MaxPathSegments)
	}
	if p := r.path.at; !(math.Abs(p.X) <= maxPathNumber && math.Abs(p.Y) <= maxPathNumber) {
		r.fail(at, "a coordinate is beyond %g", maxPathNumber)
	}
}

// pathSteps reads one group of arguments of each command and draws it. The
// origin is the current point for relative commands, else zero.
var pathSteps = [256]func(r *pathReader, origin Point){
	'M': func(r *pathReader, o Point) {
		p := r.point(o)
		r.path.MoveTo(p.X, p.Y)
		r.smooth = 0
	},
	'L': func(r *pathReader, o Point) { r.lineTo(r.point(o)) },
	'H': func(r *pathReader, o Point) { r.lineTo(Point{o.X + r.number(), r.path.at.Y}) },
	'V': func(r *pathReader, o Point) { r.lineTo(Point{r.path.at.X, o.Y + r.number()}) },
	'C': func(r *pathReader, o Point) { r.curveTo(r.point(o), o) },
	'S': func(r *pathReader, o Point) { r.curveTo(r.reflected('C'), o) },
	'Q': func(r *pathReader, o Point) { r.quadTo(r.point(o), o) },
	'T': func(r *pathReader, o Point) { r.quadTo(r.reflected('Q'), o) },
	'A': (*pathReader).arc,
	'Z': func(*pathReader, Point) {},
}

func (r *pathReader) lineTo(p Point) {
	r.path.LineTo(p.X, p.Y)
	r.smooth = 0
}

func (r *pathReader) curveTo(c1, origin Point) {
	c2, p := r.point(origin), r.point(origin)
	r.path.CurveTo(c1.X, c1.Y, c2.X, c2.Y, p.X, p.Y)
	r.control, r.smooth = c2, 'C'
}

func (r *pathReader) quadTo(c, origin Point) {
	p := r.point(origin)
	r.path.QuadTo(c.X, c.Y, p.X, p.Y)
	r.control, r.smooth = c, 'Q'
}

func (r *pathReader) arc(origin Point) {
	rx, ry, turn := r.number(), r.number(), r.number()
	large, sweep := r.flag(), r.flag()
	p := r.point(origin)
	if r.err == nil {
		r.path.Arc(rx, ry, turn, large, sweep, p.X, p.Y)
	}
	r.smooth = 0
}

// reflected returns the mirror image of the last control point, or the current
// point where the last command was of another kind.
func (r *pathReader) reflected(kind byte) Point {
	at := r.path.at
	if r.smooth != kind {
		return at
	}
	return Point{2*at.X - r.control.X, 2*at.Y - r.control.Y}
}

func (r *pathReader) point(origin Point) Point {
	x := r.number()
	y := r.number()
	return Point{origin.X + x, origin.Y + y}
}

// separators skips white space, and one comma where it is allowed.
func (r *pathReader) separators(comma bool) {
	for r.i < len(r.s) {
		switch r.s[r.i] {
		case ' ', '\t', '\n', '\f', '\r':
		case ',':
			if !comma {
				return
			}
			comma = false
		default:
			return
		}
		r.i++
	}
}

// more reports whether another group of arguments follows.
func (r *pathReader) more() bool {
	start := r.i
	r.separators(true)
	if r.i < len(r.s) && startsNumber(r.s[r.i]) {
		r.i = start
		return true
	}
	r.i = start
	return false
}

func startsNumber(c byte) bool {
	return c >= '0' && c <= '9' || c == '+' || c == '-' || c == '.'
}

// number reads one number, which may touch the one before it.
func (r *pathReader) number() float64 {
	if r.err != nil {
		return 0
	}
	r.separators(r.afterArgument())
	start := r.i
	r.i += numberLength(r.s[r.i:])
	if r.i == start {
		r.fail(start, "a number is missing")
		return 0
	}
	v, err := strconv.ParseFloat(r.s[start:r.i], 64)
	if err != nil || math.Abs(v) > maxPathNumber {
		r.fail(start, "%.20q is beyond %g", r.s[start:r.i], maxPathNumber)
		return 0
	}
	return v
}

// afterArgument reports whether the last thing read was an argument, after which
// a comma may stand; after a command letter it may not.
func (r *pathReader) afterArgument() bool {
	for i := r.i - 1; i >= 0; i-- {
		switch c := r.s[i]; {
		case c == ' ' || c == '\t' || c == '\n' || c == '\f' || c == '\r':
		default:
			return c >= '0' && c <= '9' || c == '.'
		}
	}
	return false
}

// numberLength returns how many bytes at the start of s are one number.
func numberLength(s string) int {
	i := 0
	if i < len(s) && (s[i] == '+' || s[i] == '-') {
		i++
	}
	whole := digits(s[i:])
	i += whole
	part := 0
	if i < len(s) && s[i] == '.' {
		part = digits(s[i+1:])
		if whole+part > 0 {
			i += 1 + part
		}
	}
	if whole+part == 0 {
		return 0
	}
	if i < len(s) && (s[i] == 'e' || s[i] == 'E') {
		j := i + 1
		if j < len(s) && (s[j] == '+' || s[j] == '-') {
			j++
		}
		if n := digits(s[j:]); n > 0 {
			i = j + n
		}
	}
	return i
}

func digits(s string) int {
	n := 0
	for n < len(s) && s[n] >= '0' && s[n] <= '9' {
		n++
	}
	return n
}

// flag reads one of the two flags of an arc: a single 0 or 1.
func (r *pathReader) flag() bool {
	if r.err != nil {
		return false
	}
	r.separators(true)
	if r.i == len(r.s) || r.s[r.i] != '0' && r.s[r.i] != '1' {
		r.fail(r.i, "an arc flag must be 0 or 1")
		return false
	}
	r.i++
	return r.s[r.i-1] == '1'
}
