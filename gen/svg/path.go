package svg

import (
	"math"
	"slices"
)

// A Path is an outline of straight lines and cubic curves in absolute
// coordinates. Build it with MoveTo, LineTo, CurveTo, Arc and Close, or read it
// with ParsePath. The zero value is an empty path.
type Path struct {
	segments []segment
	start    Point // of the current subpath
	at       Point // current point
}

// segment is one step of a path; curves have all three points, others only the last.
type segment struct {
	op     byte // 'M', 'L', 'C' or 'Z'
	c1, c2 Point
	to     Point
}

// Empty reports whether the path has no step at all.
func (p *Path) Empty() bool { return len(p.segments) == 0 }

// MoveTo begins a new subpath.
func (p *Path) MoveTo(x, y float64) *Path {
	p.at = Point{x, y}
	p.start = p.at
	p.segments = append(p.segments, segment{op: 'M', to: p.at})
	return p
}

// LineTo draws a straight line; without a current point it begins a subpath.
func (p *Path) LineTo(x, y float64) *Path {
	if !p.begun() {
		return p.MoveTo(x, y)
	}
	p.at = Point{x, y}
	p.segments = append(p.segments, segment{op: 'L', to: p.at})
	return p
}

// CurveTo draws a cubic curve with two control points.
func (p *Path) CurveTo(x1, y1, x2, y2, x, y float64) *Path {
	if !p.begun() {
		p.MoveTo(x1, y1)
	}
	p.at = Point{x, y}
	p.segments = append(p.segments, segment{'C', Point{x1, y1}, Point{x2, y2}, p.at})
	return p
}

// QuadTo draws a quadratic curve, kept as the cubic that is equal to it.
func (p *Path) QuadTo(x1, y1, x, y float64) *Path {
	if !p.begun() {
		p.MoveTo(x1, y1)
	}
	a := p.at
	return p.CurveTo(a.X+2./3*(x1-a.X), a.Y+2./3*(y1-a.Y), x+2./3*(x1-x), y+2./3*(y1-y), x, y)
}

// Close draws a straight line back to the start of the subpath.
func (p *Path) Close() *Path {
	if p.begun() && p.segments[len(p.segments)-1].op != 'Z' {
		p.segments = append(p.segments, segment{op: 'Z', to: p.start})
		p.at = p.start
	}
	return p
}

// begun reports whether there is a current point; after Close the next step
// begins at the start of the subpath, as SVG 2 has it.
func (p *Path) begun() bool { return len(p.segments) > 0 }

// Arc draws an elliptical arc to a point: the radii, the turn of the ellipse's
// x axis in degrees, and the two flags of SVG 2, section 9.3.8. It is kept as
// cubic curves of at most a quarter turn, which lie within 0.03 % of the radius
// of the true arc.
func (p *Path) Arc(rx, ry, turn float64, large, sweep bool, x, y float64) *Path {
	if !p.begun() {
		return p.MoveTo(x, y)
	}
	from, to := p.at, Point{x, y}
	rx, ry = math.Abs(rx), math.Abs(ry)
	if from == to {
		return p
	}
	if rx == 0 || ry == 0 {
		return p.LineTo(x, y)
	}
	e := newEllipse(from, to, rx, ry, turn, large, sweep)
	parts := max(1, math.Ceil(math.Abs(e.sweep)/(math.Pi/2)-1e-9))
	for i := range int(parts) {
		a := e.start + e.sweep*float64(i)/parts
		b := e.start + e.sweep*float64(i+1)/parts
		c1, c2, end := e.quarter(a, b)
		if i == int(parts)-1 {
			end = to // exact, whatever the rounding
		}
		p.CurveTo(c1.X, c1.Y, c2.X, c2.Y, end.X, end.Y)
	}
	return p
}

// ellipse is an arc in centre form; angles in radians.
type ellipse struct {
	centre       Point
	rx, ry       float64
	cos, sin     float64 // of the turn
	start, sweep float64
}

// newEllipse turns the end point form of an arc into the centre form, by SVG 2,
// appendix B.2.4 and B.2.5 (radii too small are scaled up).
func newEllipse(from, to Point, rx, ry, turn float64, large, sweep bool) ellipse {
	sin, cos := math.Sincos(math.Mod(turn, 360) * math.Pi / 180)
	hx, hy := (from.X-to.X)/2, (from.Y-to.Y)/2
	x, y := cos*hx+sin*hy, -sin*hx+cos*hy
	if over := x*x/(rx*rx) + y*y/(ry*ry); over > 1 {
		rx, ry = rx*math.Sqrt(over), ry*math.Sqrt(over)
	}
	den := rx*rx*y*y + ry*ry*x*x
	k := math.Sqrt(max(0, (rx*rx*ry*ry-den)/den))
	if large == sweep {
		k = -k
	}
	cx, cy := k*rx*y/ry, -k*ry*x/rx
	e := ellipse{rx: rx, ry: ry, cos: cos, sin: sin}
	e.centre = Point{cos*cx - sin*cy + (from.X+to.X)/2, sin*cx + cos*cy + (from.Y+to.Y)/2}
	e.start = math.Atan2((y-cy)/ry, (x-cx)/rx)
	e.sweep = math.Atan2((-y-cy)/ry, (-x-cx)/rx) - e.start
	if sweep && e.sweep < 0 {
		e.sweep += 2 * math.Pi
	}
	if !sweep && e.sweep > 0 {
		e.sweep -= 2 * math.Pi
	}
	return e
}

// quarter returns the control points and the end of the cubic from angle a to b.
func (e ellipse) quarter(a, b float64) (c1, c2, end Point) {
	k := 4. / 3 * math.Tan((b-a)/4)
	sa, ca := math.Sincos(a)
	sb, cb := math.Sincos(b)
	return e.point(ca-k*sa, sa+k*ca), e.point(cb+k*sb, sb-k*cb), e.point(cb, sb)
}

// point maps a point of the unit circle's plane to the drawing.
func (e ellipse) point(x, y float64) Point {
	x, y = x*e.rx, y*e.ry
	return Point{e.centre.X + e.cos*x - e.sin*y, e.centre.Y + e.sin*x + e.cos*y}
}

// Box returns the smallest box around the path; curves count with their true
// extremes, not with their control points.
func (p Path) Box() Box {
	var lo, hi Point
	seen := false
	add := func(q Point) {
		if !seen {
			lo, hi, seen = q, q, true
			return
		}
		lo = Point{min(lo.X, q.X), min(lo.Y, q.Y)}
		hi = Point{max(hi.X, q.X), max(hi.Y, q.Y)}
	}
	at := Point{}
	for _, s := range p.segments {
		if s.op == 'C' {
			for _, t := range extremes(at.X, s.c1.X, s.c2.X, s.to.X) {
				add(s.pointAt(at, t))
			}
			for _, t := range extremes(at.Y, s.c1.Y, s.c2.Y, s.to.Y) {
				add(s.pointAt(at, t))
			}
		}
		add(s.to)
		at = s.to
	}
	return Box{lo.X, lo.Y, hi.X - lo.X, hi.Y - lo.Y}
}

// pointAt returns the point of a cubic at parameter t (Bernstein form).
func (s segment) pointAt(from Point, t float64) Point {
	u := 1 - t
	a, b, c, d := u*u*u, 3*u*u*t, 3*u*t*t, t*t*t
	return Point{
		a*from.X + b*s.c1.X + c*s.c2.X + d*s.to.X,
		a*from.Y + b*s.c1.Y + c*s.c2.Y + d*s.to.Y,
	}
}

// extremes returns the parameters between 0 and 1 where one coordinate of a cubic
// turns: the roots of its derivative a·t² + b·t + c.
func extremes(p0, p1, p2, p3 float64) (ts []float64) {
	a := 3 * (-p0 + 3*p1 - 3*p2 + p3)
	b := 6 * (p0 - 2*p1 + p2)
	c := 3 * (p1 - p0)
	keep := func(t float64) {
		if t > 0 && t < 1 {
			ts = append(ts, t)
		}
	}
	if math.Abs(a) < 1e-12*(math.Abs(b)+math.Abs(c)) || a == 0 {
		keep(-c / b) // NaN or infinite where b is 0: not kept
		return ts
	}
	if disc := b*b - 4*a*c; disc >= 0 {
		root := math.Sqrt(disc)
		keep((-b + root) / (2 * a))
		keep((-b - root) / (2 * a))
	}
	return ts
}

// A Matrix maps x, y to A·x + C·y + E, B·x + D·y + F, as in SVG's matrix(a b c d e f).
type Matrix struct{ A, B, C, D, E, F float64 }

// Translate returns the matrix that moves by dx, dy.
func Translate(dx, dy float64) Matrix { return Matrix{1, 0, 0, 1, dx, dy} }

// Scale returns the matrix that scales about the origin; a negative factor mirrors.
func Scale(sx, sy float64) Matrix { return Matrix{sx, 0, 0, sy, 0, 0} }

// Rotate returns the matrix that turns about the origin by degrees, clockwise on the sheet.
func Rotate(degrees float64) Matrix {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	return Matrix{cos, sin, -sin, cos, 0, 0}
}

// Then returns the matrix that applies m first and n after it.
func (m Matrix) Then(n Matrix) Matrix {
	return Matrix{
		n.A*m.A + n.C*m.B, n.B*m.A + n.D*m.B,
		n.A*m.C + n.C*m.D, n.B*m.C + n.D*m.D,
		n.A*m.E + n.C*m.F + n.E, n.B*m.E + n.D*m.F + n.F,
	}
}

// Apply returns the mapped point.
func (m Matrix) Apply(p Point) Point {
	return Point{m.A*p.X + m.C*p.Y + m.E, m.B*p.X + m.D*p.Y + m.F}
}

// Transform returns the path with every point mapped.
func (p Path) Transform(m Matrix) Path {
	out := Path{segments: make([]segment, len(p.segments)), start: m.Apply(p.start), at: m.Apply(p.at)}
	for i, s := range p.segments {
		out.segments[i] = segment{s.op, m.Apply(s.c1), m.Apply(s.c2), m.Apply(s.to)}
	}
	return out
}

// appendData writes the path as SVG path data: straight steps relative to the
// point before, a letter once for a run of like steps, and no needless
// characters, which for an outline of many short steps is less than half as
// long as absolute steps. The steps are those between rounded points, so that
// rounding does not add up.
func (p Path) appendData(b []byte) []byte {
	var last byte
	var at, start Point
	for _, s := range p.segments {
		op, to := s.op, Point{rounded(s.to.X), rounded(s.to.Y)}
		dx, dy := to.X-at.X, to.Y-at.Y
		if op == 'L' && math.Abs(dx) <= biggest && math.Abs(dy) <= biggest {
			op = 'l'
		}
		if op != last || op == 'M' {
			b = append(b, op)
		}
		last = op
		switch op {
		case 'C':
			b = appendTight(b, s.c1.X, s.c1.Y, s.c2.X, s.c2.Y, to.X, to.Y)
		case 'M':
			b = appendTight(b, to.X, to.Y)
			start = to
		case 'L':
			b = appendTight(b, to.X, to.Y)
		case 'l':
			b = appendTight(b, dx, dy)
		case 'Z':
			to = start
		}
		at = to
	}
	return b
}

// appendTight writes numbers of path data: without the zero before a point, and
// with a space only where two numbers would run together (SVG 2, 9.3.9).
func appendTight(b []byte, numbers ...float64) []byte {
	for _, v := range numbers {
		from := len(b)
		b = appendNumber(b, v)
		digits := from
		if b[from] == '-' {
			digits++
		}
		if len(b) > digits+1 && b[digits] == '0' {
			b = slices.Delete(b, digits, digits+1)
		}
		if from > 0 && b[from] != '-' && b[from-1] >= '0' && b[from-1] <= '9' {
			b = slices.Insert(b, from, ' ')
		}
	}
	return b
}
