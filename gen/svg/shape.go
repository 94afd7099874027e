package svg

import (
	"math"
	"strings"
)

// Line draws a straight line and returns its box.
func (d *Drawing) Line(from, to Point, s Style) Box {
	s = s.lined()
	d.body.start("line", s)
	d.body.point("x1", "y1", from)
	d.body.point("x2", "y2", to)
	return d.end(BoxOf(from, to), s)
}

// Polyline draws a line through points and returns its box; fewer than two draw nothing.
func (d *Drawing) Polyline(points []Point, s Style) Box {
	if len(points) < 2 {
		return BoxOf(points...)
	}
	if s.Fill.known() == None {
		s = s.lined()
	}
	return d.points("polyline", points, s)
}

// Polygon draws a closed shape through points and returns its box; fewer than two draw nothing.
func (d *Drawing) Polygon(points []Point, s Style) Box {
	if len(points) < 2 {
		return BoxOf(points...)
	}
	return d.points("polygon", points, s)
}

func (d *Drawing) points(name token, points []Point, s Style) Box {
	d.body.start(name, s)
	d.body.raw(` points="`)
	for i, p := range points {
		if i > 0 {
			d.body.raw(" ")
		}
		d.body.b = append(appendNumber(d.body.b, p.X), ',')
		d.body.b = appendNumber(d.body.b, p.Y)
	}
	d.body.raw(`"`)
	return d.end(BoxOf(points...), s)
}

// Rect draws an upright rectangle with corners rounded by rx (0: sharp) and returns its box.
func (d *Drawing) Rect(b Box, rx float64, s Style) Box {
	b.W, b.H = max(0, b.W), max(0, b.H)
	d.body.start("rect", s)
	d.body.box(b)
	if rx > 0 {
		d.body.num("rx", min(rx, b.W/2, b.H/2))
	}
	return d.end(b, s)
}

// Circle draws a circle and returns its box.
func (d *Drawing) Circle(centre Point, r float64, s Style) Box {
	r = max(0, r)
	d.body.start("circle", s)
	d.body.point("cx", "cy", centre)
	d.body.num("r", r)
	return d.end(Box{centre.X - r, centre.Y - r, 2 * r, 2 * r}, s)
}

// Path draws a path and returns its box; an empty one draws nothing.
func (d *Drawing) Path(p Path, s Style) Box {
	if len(p.segments) == 0 {
		return Box{}
	}
	if s.Fill.known() == None {
		s = s.lined()
	}
	d.body.start("path", s)
	d.body.raw(` d="`)
	d.body.b = p.appendData(d.body.b)
	d.body.raw(`"`)
	return d.end(p.Box(), s)
}

// end closes an element without content and counts its box in.
func (d *Drawing) end(b Box, s Style) Box {
	d.body.raw("/>")
	d.Include(b.Inset(-s.stroked()))
	return b
}

// Attrs are the attributes that a group may carry.
type Attrs struct {
	ID    string            // made valid and unique, with the drawing's id before it
	Class string            // class names, separated by spaces
	Data  map[string]string // data-… attributes; names in lower case, digits and hyphens
	Style Style             // paint that shapes inside share; what is None here stays as it is outside
}

// Group draws what the function draws inside one group and returns the group's
// id, empty where none was asked for. The group's style paints nothing by itself:
// shapes name their paint as ever, and what equals the group's is not written again.
func (d *Drawing) Group(a Attrs, draw func()) string {
	d.body.raw("\n")
	d.body.open("g")
	id := ""
	if a.ID != "" {
		id = d.ids.fresh(a.ID)
		d.body.attr("id", id)
	}
	outside := d.body.inherited
	p := a.Style.shared(outside)
	d.body.paint(p, strings.TrimSpace(a.Class+" "+a.Style.Class))
	d.body.data(a.Data)
	d.body.raw(">")
	d.body.inherited = p
	draw()
	d.body.inherited = outside
	d.body.raw("\n")
	d.body.close("g")
	return id
}

// An arrow head is a filled triangle; see Arrow.
const arrowHalf = 0.38 // half the width of a head, as a part of its length

// Arrow draws a straight line with a filled head of the given length at its end
// and returns the box of both.
func (d *Drawing) Arrow(from, to Point, head float64, s Style) Box {
	s = s.lined()
	dx, dy := to.X-from.X, to.Y-from.Y
	length := math.Hypot(dx, dy)
	if length == 0 {
		return BoxOf(from)
	}
	ux, uy := dx/length, dy/length
	neck := Point{to.X - ux*head, to.Y - uy*head}
	side := head * arrowHalf
	shaft := d.Line(from, neck, s)
	tip := d.Polygon([]Point{to, {neck.X - uy*side, neck.Y + ux*side}, {neck.X + uy*side, neck.Y - ux*side}},
		Style{Fill: s.Stroke, Class: s.Class})
	return shaft.Union(tip)
}
