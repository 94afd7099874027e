package wiring

import (
	"spruelight/gen/svg"
)

// Paint of the diagram. Wires are the heaviest lines, so that the way of the
// current is seen first.
const (
	wireWidth = 1.5
	bodyWidth = 1.1
	fineWidth = 0.8
	dotRadius = 2.75
)

var (
	wirePaint = svg.Style{Stroke: svg.Ink, Width: wireWidth}
	bodyPaint = svg.Style{Stroke: svg.Ink, Width: bodyWidth, Fill: svg.Paper}
	linePaint = svg.Style{Stroke: svg.Ink, Width: bodyWidth}
)

// canvas collects what a diagram is made of, so that wires lie below symbols
// and words above both.
type canvas struct {
	d      *svg.Drawing
	wires  []segment
	dots   []svg.Point
	parts  []part
	arrows []segment // of currents
	words  []words
	joins  int // interruptions that have their letters
	plugs  int // connectors
}

// letters names an interruption: A to Z, then AA, AB …
func letters(n int) string {
	name := string(rune('A' + n%26))
	for n /= 26; n > 0; n = (n - 1) / 26 {
		name = string(rune('A'+(n-1)%26)) + name
	}
	return name
}

type segment struct{ from, to svg.Point }

// part is a symbol in its place.
type part struct {
	piece
	at   svg.Point // where its first pin is
	flat bool      // runs to the right instead of down
}

type words struct {
	at    svg.Point
	text  string
	style svg.TextStyle
}

// wire notes a straight wire; one without length is none.
func (c *canvas) wire(x1, y1, x2, y2 float64) {
	if x1 != x2 || y1 != y2 {
		c.wires = append(c.wires, segment{svg.Point{X: x1, Y: y1}, svg.Point{X: x2, Y: y2}})
	}
}

// dot notes that three wires are joined.
func (c *canvas) dot(x, y float64) { c.dots = append(c.dots, svg.Point{X: x, Y: y}) }

func (c *canvas) put(p piece, x, y float64, flat bool) {
	if p.join != nil && p.join.letters == "" {
		p.join.letters = letters(c.joins)
		c.joins++
	}
	c.parts = append(c.parts, part{p, svg.Point{X: x, Y: y}, flat})
}

func (c *canvas) text(at svg.Point, text string, s svg.TextStyle) {
	c.words = append(c.words, words{at, text, s})
}

// note writes a remark below everything.
func (c *canvas) note(y, width float64, text string) {
	for i, line := range svg.Wrap(text, width, wordSize, svg.Regular) {
		c.text(svg.Point{Y: y + lineStep*(float64(i)+0.5)}, line, svg.TextStyle{Size: wordSize, VAlign: svg.Centre, Fill: svg.Soft})
	}
}

// finish draws everything.
func (c *canvas) finish() {
	d := c.d
	d.Group(svg.Attrs{Class: "wires", Style: wirePaint}, func() {
		for _, w := range c.wires {
			d.Line(w.from, w.to, wirePaint)
		}
	})
	d.Group(svg.Attrs{Class: "parts", Style: svg.Style{Stroke: svg.Ink, Width: bodyWidth}}, func() {
		for i := range c.parts {
			c.parts[i].draw(d)
		}
	})
	for _, a := range c.arrows {
		d.Arrow(a.from, a.to, 5, svg.Style{Stroke: svg.Accent, Width: 1})
	}
	dot := svg.Style{Fill: svg.Ink}
	d.Group(svg.Attrs{Class: "joints", Style: dot}, func() {
		for _, at := range c.dots {
			d.Circle(at, dotRadius, dot)
		}
	})
	for _, w := range c.words {
		d.Text(w.at, w.text, w.style)
	}
}
