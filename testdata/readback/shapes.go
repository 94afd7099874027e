package readback

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"spruelight/gen/svg"
)

// figure is what a diagram's file holds, as plain shapes with the paint they
// show: ids, classes and data attributes are not looked at.
type figure struct {
	view     svg.Box
	lines    []stroke
	rects    []rectangle
	circles  []ring
	polygons []polygon
	cups     []svg.Box // of outlined curves
	texts    []caption
}

type stroke struct {
	from, to svg.Point
	width    float64
	dashed   bool
}

type rectangle struct {
	box     svg.Box
	rounded bool
}

type ring struct {
	centre svg.Point
	r      float64
	filled bool // a disc without outline
}

type polygon struct {
	points []svg.Point
	filled bool // without outline
}

type caption struct {
	text string
	bold bool
	box  svg.Box
}

// paint is what an element inherits.
type paint struct {
	stroke, fill, width, dash string
}

// readFigure parses a standalone file.
func readFigure(file []byte) (*figure, error) {
	f := &figure{}
	stack := []paint{{stroke: "none", fill: "none", width: "1", dash: "none"}}
	d := xml.NewDecoder(bytes.NewReader(file))
	var words *xml.StartElement
	var text strings.Builder
	for {
		token, err := d.Token()
		if err == io.EOF {
			return f, nil
		}
		if err != nil {
			return nil, err
		}
		switch e := token.(type) {
		case xml.StartElement:
			p := stack[len(stack)-1].over(e)
			stack = append(stack, p)
			if e.Name.Local == "text" {
				start := e.Copy()
				words = &start
				text.Reset()
			}
			if err := f.take(e, p); err != nil {
				return nil, err
			}
		case xml.EndElement:
			stack = stack[:len(stack)-1]
			if e.Name.Local == "text" {
				f.takeText(*words, text.String())
				words = nil
			}
		case xml.CharData:
			if words != nil {
				text.Write(e)
			}
		}
	}
}

func (p paint) over(e xml.StartElement) paint {
	for _, a := range e.Attr {
		switch a.Name.Local {
		case "stroke":
			p.stroke = a.Value
		case "fill":
			p.fill = a.Value
		case "stroke-width":
			p.width = a.Value
		case "stroke-dasharray":
			p.dash = a.Value
		}
	}
	return p
}

// get returns a number of an element.
func get(e xml.StartElement, name string) float64 {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			v, _ := strconv.ParseFloat(a.Value, 64)
			return v
		}
	}
	return 0
}

func attribute(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

func (f *figure) take(e xml.StartElement, p paint) error {
	width, _ := strconv.ParseFloat(p.width, 64)
	outlined := p.stroke != "none"
	switch e.Name.Local {
	case "svg":
		n := numbers(attribute(e, "viewBox"))
		f.view = svg.Box{X: n[0], Y: n[1], W: n[2], H: n[3]}
	case "line":
		f.lines = append(f.lines, stroke{svg.Point{X: get(e, "x1"), Y: get(e, "y1")}, svg.Point{X: get(e, "x2"), Y: get(e, "y2")}, width, p.dash != "none"})
	case "rect":
		b := svg.Box{X: get(e, "x"), Y: get(e, "y"), W: get(e, "width"), H: get(e, "height")}
		if outlined { // the sheet of paper has no outline
			f.rects = append(f.rects, rectangle{b, get(e, "rx") > 0})
		}
	case "circle":
		f.circles = append(f.circles, ring{svg.Point{X: get(e, "cx"), Y: get(e, "cy")}, get(e, "r"), !outlined})
	case "polygon":
		n := numbers(strings.ReplaceAll(attribute(e, "points"), ",", " "))
		poly := polygon{filled: !outlined}
		for i := 0; i+1 < len(n); i += 2 {
			poly.points = append(poly.points, svg.Point{X: n[i], Y: n[i+1]})
		}
		f.polygons = append(f.polygons, poly)
	case "path":
		p, err := svg.ParsePath(attribute(e, "d"))
		if err != nil || !outlined || p.Empty() {
			return fmt.Errorf("a diagram holds no <path> but the cups of connectors (%v)", err)
		}
		f.cups = append(f.cups, p.Box())
	case "g", "text", "title", "desc", "style":
	default:
		return fmt.Errorf("a diagram holds no <%s>", e.Name.Local)
	}
	return nil
}

func numbers(text string) []float64 {
	var all []float64
	for _, t := range strings.Fields(text) {
		v, err := strconv.ParseFloat(t, 64)
		if err != nil {
			v = math.NaN()
		}
		all = append(all, v)
	}
	return all
}

func (f *figure) takeText(e xml.StartElement, text string) {
	style := svg.TextStyle{Size: get(e, "font-size")}
	if attribute(e, "font-weight") == "700" {
		style.Font = svg.Bold
	}
	if attribute(e, "text-anchor") == "middle" {
		style.Anchor = svg.Middle
	}
	at := svg.Point{X: get(e, "x"), Y: get(e, "y")}
	f.texts = append(f.texts, caption{text, style.Font == svg.Bold, svg.TextBox(at, text, style)})
}

// box returns the box of a line.
func (s stroke) box() svg.Box { return svg.BoxOf(s.from, s.to) }

// upright reports whether a line runs along one of the axes.
func (s stroke) upright() bool { return s.from.X == s.to.X || s.from.Y == s.to.Y }

func (s stroke) middle() svg.Point {
	return svg.Point{X: (s.from.X + s.to.X) / 2, Y: (s.from.Y + s.to.Y) / 2}
}
