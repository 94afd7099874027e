package scale

import (
	"cmp"
	"math"
	"slices"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
	"spruelight/gen/svg"
)

// View is the side from which a model is seen.
type View int

const (
	Side  View = iota // length across, height up
	Front             // width across, height up
	Top               // length across, width up
)

var viewNames = [...]string{"side", "front", "top"}

// String returns the word for a view: side, front or top.
func (v View) String() string { return viewNames[v] }

// UnmarshalText reads the word for a view.
func (v *View) UnmarshalText(text []byte) error {
	i := slices.Index(viewNames[:], string(text))
	if i < 0 {
		return quantity.Wrong(0, len(text), "write side, front or top",
			"%s is not a view", text)
	}
	*v = View(i)
	return nil
}

// Size is how far something reaches in its three directions; 0 is not known.
type Size struct {
	Length, Width, Height quantity.Metres
}

// sizeWords are the names under which lengths are commonly measured and which
// direction they give; a diameter gives two.
var sizeWords = map[string]func(*Size, quantity.Metres){
	"length":   func(s *Size, m quantity.Metres) { s.Length = m },
	"height":   func(s *Size, m quantity.Metres) { s.Height = m },
	"width":    func(s *Size, m quantity.Metres) { s.Width = m },
	"beam":     func(s *Size, m quantity.Metres) { s.Width = m },
	"span":     func(s *Size, m quantity.Metres) { s.Width = m },
	"wingspan": func(s *Size, m quantity.Metres) { s.Width = m },
	"diameter": func(s *Size, m quantity.Metres) {
		s.Length = cmp.Or(s.Length, m)
		s.Width = cmp.Or(s.Width, m)
	},
}

// SizeOf returns the size that named lengths give. Names it does not know
// ("mast", "hatch") give none.
func SizeOf(lengths source.Entries[Length]) Size {
	var s Size
	for _, e := range lengths {
		if set := sizeWords[e.Name.V]; set != nil {
			set(&s, e.Value.V.Value)
		}
	}
	return s
}

// Times returns the size multiplied, for a subject from its model.
func (s Size) Times(k float64) Size {
	m := quantity.Metres(k)
	return Size{s.Length * m, s.Width * m, s.Height * m}
}

// orElse fills what is not known from another size.
func (s Size) orElse(o Size) Size {
	return Size{cmp.Or(s.Length, o.Length), cmp.Or(s.Width, o.Width), cmp.Or(s.Height, o.Height)}
}

// seen returns how far the size reaches across and up in a view.
func (s Size) seen(v View) (across, up quantity.Metres) {
	switch v {
	case Front:
		return s.Width, s.Height
	case Top:
		return s.Length, s.Width
	}
	return s.Length, s.Height
}

// Piece is one model of a line-up.
type Piece struct {
	ID      string // short and unique in the line-up
	Name    string
	Says    source.Message // under the name: "1/48, measures 1/46.1 ± 0.3"
	At      source.Span    // stands for the piece
	Model   Size
	Real    Size    // of the subject, as far as a source gives it
	Ratio   float64 // of its scale; 0: not known
	View    View
	Outline svg.Path // empty: a box is drawn
}

// span returns how far a piece reaches across and up in a drawing, in metres,
// and false where that cannot be known. One direction alone is enough where an
// outline gives the other.
func (p Piece) span(subjects bool) (across, up quantity.Metres, ok bool) {
	size := p.Model
	if subjects {
		size = p.Real.orElse(p.Model.Times(p.Ratio))
	}
	across, up = size.seen(p.View)
	if box := p.Outline.Box(); !p.Outline.Empty() && box.W > 0 && box.H > 0 {
		aspect := quantity.Metres(box.W / box.H)
		across, up = cmp.Or(across, up*aspect), cmp.Or(up, across/aspect)
	}
	return across, up, across > 0 && up > 0
}

// Sized reports whether enough is known of the piece to draw it.
func (p Piece) Sized() bool {
	_, _, ok := p.span(false)
	return ok
}

var ruleNoView = &source.Rule{Name: "lineup-no-size", Severity: source.Note,
	Reason: "A model is drawn at true size where its extent across and up is known; an outline needs one of the two.",
	Source: "arithmetic",
	Keys:   "build: name, subject, measured, scale; shelf <name>: name, subject, measured, scale; workshop: line-up"}

// stretched is how far an outline's proportions may lie from the measured ones
// before it is said: a silhouette drawn by hand is hardly better.
const stretched = 0.05

// CheckPiece reports what keeps a piece out of the line-up, or distorts it.
func CheckPiece(p Piece) []source.Finding {
	if _, _, ok := p.span(false); !ok {
		return []source.Finding{ruleNoView.At(p.At, source.Say("measure %s, or give one of them and an outline", neededFor(p.View)),
			"%s is not in the line-up: its %s view needs %s", p.Name, source.Word(p.View.String()), neededFor(p.View))}
	}
	across, up := p.Model.seen(p.View)
	if p.Outline.Empty() || across == 0 || up == 0 {
		return nil
	}
	drawn := p.Outline.Box()
	have, want := drawn.W/drawn.H, float64(across/up)
	if math.Abs(math.Log(have/want)) <= stretched {
		return nil
	}
	return []source.Finding{ruleOutlineShape.At(p.At, "check the outline's view and the measured lengths",
		"%s: the outline is %s times as long as high, the measured lengths say %s",
		p.Name, quantity.Amount{Value: have, Digits: 3}, quantity.Amount{Value: want, Digits: 3})}
}

func neededFor(v View) source.Message {
	return source.Word([...]string{"length and height", "width and height", "length and width"}[v])
}
