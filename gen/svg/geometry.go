package svg

import "math"

// A Point is a place in the drawing, in units; y runs down.
type Point struct{ X, Y float64 }

// Add returns the point moved by dx and dy.
func (p Point) Add(dx, dy float64) Point { return Point{p.X + dx, p.Y + dy} }

// A Box is an upright rectangle: its upper left corner and its size.
type Box struct{ X, Y, W, H float64 }

// BoxOf returns the smallest box around points; no points give the zero box.
func BoxOf(points ...Point) Box {
	if len(points) == 0 {
		return Box{}
	}
	lo, hi := points[0], points[0]
	for _, p := range points[1:] {
		lo = Point{min(lo.X, p.X), min(lo.Y, p.Y)}
		hi = Point{max(hi.X, p.X), max(hi.Y, p.Y)}
	}
	return Box{lo.X, lo.Y, hi.X - lo.X, hi.Y - lo.Y}
}

// Right returns the x of the right edge.
func (b Box) Right() float64 { return b.X + b.W }

// Bottom returns the y of the lower edge.
func (b Box) Bottom() float64 { return b.Y + b.H }

// N returns the middle of the upper edge.
func (b Box) N() Point { return Point{b.X + b.W/2, b.Y} }

// NE returns the upper right corner.
func (b Box) NE() Point { return Point{b.X + b.W, b.Y} }

// E returns the middle of the right edge.
func (b Box) E() Point { return Point{b.X + b.W, b.Y + b.H/2} }

// SE returns the lower right corner.
func (b Box) SE() Point { return Point{b.X + b.W, b.Y + b.H} }

// S returns the middle of the lower edge.
func (b Box) S() Point { return Point{b.X + b.W/2, b.Y + b.H} }

// SW returns the lower left corner.
func (b Box) SW() Point { return Point{b.X, b.Y + b.H} }

// West returns the middle of the left edge; its name is long because W is the width.
func (b Box) West() Point { return Point{b.X, b.Y + b.H/2} }

// NW returns the upper left corner.
func (b Box) NW() Point { return Point{b.X, b.Y} }

// Centre returns the middle of the box.
func (b Box) Centre() Point { return Point{b.X + b.W/2, b.Y + b.H/2} }

// Union returns the smallest box that holds both.
func (b Box) Union(o Box) Box {
	x, y := min(b.X, o.X), min(b.Y, o.Y)
	return Box{x, y, max(b.Right(), o.Right()) - x, max(b.Bottom(), o.Bottom()) - y}
}

// Inset returns the box with every edge moved inward by d, outward where d is
// negative. A box too small for it shrinks to its centre.
func (b Box) Inset(d float64) Box {
	dx, dy := min(d, b.W/2), min(d, b.H/2)
	return Box{b.X + dx, b.Y + dy, b.W - 2*dx, b.H - 2*dy}
}

// Move returns the box moved by dx and dy.
func (b Box) Move(dx, dy float64) Box { return Box{b.X + dx, b.Y + dy, b.W, b.H} }

// Overlaps reports whether the insides of two boxes meet; boxes that only touch do not.
func (b Box) Overlaps(o Box) bool {
	return b.X < o.Right() && o.X < b.Right() && b.Y < o.Bottom() && o.Y < b.Bottom()
}

// Contains reports whether the other box lies wholly inside; shared edges count as inside.
func (b Box) Contains(o Box) bool {
	return o.X >= b.X && o.Y >= b.Y && o.Right() <= b.Right() && o.Bottom() <= b.Bottom()
}

// ContainsPoint reports whether a point lies inside or on the edge.
func (b Box) ContainsPoint(p Point) bool {
	return p.X >= b.X && p.X <= b.Right() && p.Y >= b.Y && p.Y <= b.Bottom()
}

// outward returns the smallest box on whole units that holds b.
func (b Box) outward() Box {
	x, y := math.Floor(b.X), math.Floor(b.Y)
	return Box{x, y, math.Ceil(b.Right()) - x, math.Ceil(b.Bottom()) - y}
}

func (b Box) finite() bool {
	return finite(b.X) && finite(b.Y) && finite(b.W) && finite(b.H)
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
