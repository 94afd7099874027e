package svg

// Anchor says which part of a text stands at its place.
type Anchor uint8

// The anchors along the line.
const (
	Start Anchor = iota
	Middle
	End
)

// VAlign says which height of a text stands at its place.
type VAlign uint8

// The heights. Centre is the middle of the capitals and figures, so that a label
// sits level with the line or symbol beside it.
const (
	Baseline VAlign = iota
	Centre
	Top    // the upper edge of the text's box
	Bottom // the lower edge of the text's box
)

// TextSize is the usual size of a label, in units.
const TextSize = 12.0

// TextStyle says how a text is set. The zero value is regular ink of TextSize,
// starting at its place, on the baseline.
type TextStyle struct {
	Size   float64 // in units; 0 means TextSize
	Font   Font
	Anchor Anchor
	VAlign VAlign
	Fill   Role // None means Ink
	Turn   int  // 90 or -90 degrees, clockwise about the place; all else is level
	Plate  bool // lays a plate of paper under the text, so that a rule ends beside it
	Class  string
}

// capHeight is the height of capitals and figures in ems (1466/2048 in the
// built-in fonts and in the faces that stand in for them).
const capHeight = 0.716

func (s TextStyle) size() float64 {
	if s.Size <= 0 || !finite(s.Size) {
		return TextSize
	}
	return s.Size
}

// fill returns the paint of the letters.
func (s TextStyle) fill() Role {
	if f := s.Fill.known(); f != None {
		return f
	}
	return Ink
}

// Text draws one line of text, registers its box and returns it. An empty text
// draws nothing.
func (d *Drawing) Text(at Point, text string, s TextStyle) Box {
	text = CleanText(text)
	if text == "" {
		return Box{at.X, at.Y, 0, 0}
	}
	box, base := s.place(at, text)
	if s.Plate {
		d.Rect(box.Inset(1), 0, Style{Fill: Paper})
	}
	d.body.label(base, at, text, s)
	d.Include(box)
	d.Mark(KindText, text, box)
	return box
}

// TextBox returns the box that Text would fill, without drawing.
func TextBox(at Point, text string, s TextStyle) Box {
	box, _ := s.place(at, CleanText(text))
	return box
}

// place returns the box of a clean text and the start of its baseline before the turn.
func (s TextStyle) place(at Point, text string) (Box, Point) {
	size, m := s.size(), fonts[s.Font.valid()]
	w := measureClean(text, size, m)
	ascent, descent := m.ascent*size, m.descent*size
	base := at
	switch s.VAlign {
	case Centre:
		base.Y += capHeight / 2 * size
	case Top:
		base.Y += ascent
	case Bottom:
		base.Y -= descent
	}
	left := base.X
	switch s.Anchor {
	case Middle:
		left -= w / 2
	case End:
		left -= w
	}
	box := Box{left, base.Y - ascent, w, ascent + descent}
	switch s.Turn {
	case 90:
		box = box.turned(at, Rotate(90))
	case -90:
		box = box.turned(at, Rotate(-90))
	}
	return box, base
}

// turned returns the box around b after a quarter turn about a point.
func (b Box) turned(about Point, m Matrix) Box {
	m = Translate(-about.X, -about.Y).Then(m).Then(Translate(about.X, about.Y))
	return BoxOf(m.Apply(b.NW()), m.Apply(b.SE()))
}

// LineHeight is the distance of two baselines as a factor of the text size.
const LineHeight = 1.3

// Paragraph draws lines of text below each other, the first as Text would (Centre,
// Top and Bottom hold for the block as a whole), and returns the box of all.
func (d *Drawing) Paragraph(at Point, lines []string, s TextStyle) Box {
	step := s.size() * LineHeight
	extra := step * float64(max(0, len(lines)-1))
	switch s.VAlign {
	case Centre:
		at.Y -= extra / 2
	case Bottom:
		at.Y -= extra
	}
	var all Box
	for i, line := range lines {
		b := d.Text(at.Add(0, step*float64(i)), line, s)
		if i == 0 {
			all = b
		}
		all = all.Union(b)
	}
	return all
}
