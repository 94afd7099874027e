package wiring

import (
	"spruelight/gen/svg"
)

// Sizes of words, in units. A step is the distance of two lines.
const (
	wordSize = 10.5
	refSize  = 11.0
	lineStep = 13.0
	refGap   = 5.0 // between a reference and the words on its line
)

// line is one line of a label: a reference, words, or both.
type line struct {
	ref, text string
	refWidth  float64
	soft      bool
	bold      bool
}

// label is the block of words beside a symbol, or above a rail.
type label []line

func (l line) width() float64 {
	font := svg.Regular
	if l.bold {
		font = svg.Bold
	}
	w, _, _ := svg.Measure(l.text, wordSize, font)
	switch {
	case l.ref == "":
		return w
	case l.text == "":
		return l.refWidth
	}
	return l.refWidth + refGap + w
}

func (l label) width() float64 {
	w := 0.0
	for _, line := range l {
		w = max(w, line.width())
	}
	return w
}

func (l label) height() float64 { return float64(len(l)) * lineStep }

// writer sets a label within a width.
type writer struct {
	width float64
	lines label
}

// ref begins a line with a component's reference.
func (w *writer) ref(ref string) *writer {
	if ref == "" {
		return w
	}
	width, _, _ := svg.Measure(ref, refSize, svg.Bold)
	w.lines = append(w.lines, line{ref: ref, refWidth: width})
	return w
}

// say adds words in at most so many lines, the first of them beside a
// reference that still stands alone if it fits there.
func (w *writer) say(text string, most int) *writer  { return w.add(text, most, false) }
func (w *writer) soft(text string, most int) *writer { return w.add(text, most, true) }

func (w *writer) add(text string, most int, soft bool) *writer {
	text = svg.CleanText(text)
	if text == "" {
		return w
	}
	if n := len(w.lines); n > 0 && w.lines[n-1].ref != "" && w.lines[n-1].text == "" {
		last := &w.lines[n-1]
		if wide, _, _ := svg.Measure(text, wordSize, svg.Regular); last.refWidth+refGap+wide <= w.width {
			last.text, last.soft = text, soft
			return w
		}
	}
	for _, t := range svg.ShortenLines(text, w.width, wordSize, svg.Regular, most) {
		w.lines = append(w.lines, line{text: t, soft: soft})
	}
	return w
}

// title adds bold words.
func (w *writer) title(text string, most int) *writer {
	for _, t := range svg.ShortenLines(text, w.width, wordSize, svg.Bold, most) {
		w.lines = append(w.lines, line{text: t, bold: true})
	}
	return w
}

// draw puts a label with its upper left corner at a point.
func (l label) draw(c *canvas, at svg.Point) {
	for i, line := range l {
		middle := at.Add(0, lineStep*(float64(i)+0.5))
		if line.ref != "" {
			c.text(middle, line.ref, svg.TextStyle{Size: refSize, Font: svg.Bold, VAlign: svg.Centre})
			middle.X += line.refWidth + refGap
		}
		style := svg.TextStyle{Size: wordSize, VAlign: svg.Centre}
		if line.soft {
			style.Fill = svg.Soft
		}
		if line.bold {
			style.Font = svg.Bold
		}
		if line.text != "" {
			c.text(middle, line.text, style)
		}
	}
}
