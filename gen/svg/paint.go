package svg

import (
	"errors"
	"fmt"
	"strings"
)

// A Role says what a line or a surface is for; the reader's theme decides its
// colour. The zero value is None.
type Role uint32

// The roles. Each is a custom property of the page's style sheet, named beside
// it, with a fallback that is always drawn.
const (
	None   Role = iota // nothing is painted
	Ink                // --draw-ink: main lines and words
	Soft               // --draw-soft: lesser words and lines
	Paper              // --draw-paper: the sheet; also knocks out what lies beneath
	Rule               // --draw-rule: grids and hairlines
	Accent             // --draw-accent: lamp amber, the one accent
	Glow               // --draw-glow: a pale wash of the accent, to lie under ink
	Plus               // --draw-plus: the positive pole
	Minus              // --draw-minus: the negative pole
	Fill1              // --draw-fill1 … --draw-fill8: surfaces of charts, not lines; each with a
	Fill2              // hatch of its own, so that they differ without colour
	Fill3
	Fill4
	Fill5
	Fill6
	Fill7
	Fill8
	roleCount
)

// Fills is the number of chart fills.
const Fills = int(Fill8-Fill1) + 1

// Fill returns the chart fill of an index from 0; after Fills it begins again.
func Fill(index int) Role {
	n := index % Fills
	if n < 0 {
		n += Fills
	}
	return Fill1 + Role(n)
}

// trueColour marks a role that is a colour of its own.
const trueColour Role = 1 << 24

// RGB returns the role of a true colour, for paints, wires and lamps whose
// colour is the subject. It is the same in every theme.
func RGB(r, g, b uint8) Role {
	return trueColour | Role(r)<<16 | Role(g)<<8 | Role(b)
}

// ErrColour is returned for a text that is not a hexadecimal colour.
var ErrColour = errors.New("not a colour of the form #rgb or #rrggbb")

// Hex reads a true colour written as #rgb or #rrggbb.
func Hex(s string) (Role, error) {
	digits, ok := strings.CutPrefix(s, "#")
	if !ok || len(digits) != 3 && len(digits) != 6 {
		return None, fmt.Errorf("%q: %w", s, ErrColour)
	}
	var v Role
	for i := range len(digits) {
		n := strings.IndexByte("0123456789abcdef", digits[i]|0x20)
		if n < 0 {
			return None, fmt.Errorf("%q: %w", s, ErrColour)
		}
		if v = v<<4 | Role(n); len(digits) == 3 {
			v = v<<4 | Role(n)
		}
	}
	return trueColour | v, nil
}

// MustHex is Hex for a constant of the program; it panics on anything else.
func MustHex(s string) Role {
	r, err := Hex(s)
	if err != nil {
		panic(err)
	}
	return r
}

// String returns the role's name, or the colour as #rrggbb.
func (r Role) String() string {
	switch {
	case r&trueColour != 0:
		return fmt.Sprintf("#%06x", uint32(r)&0xffffff)
	case r < roleCount:
		return roles[r].name
	}
	return "none"
}

// known returns the role, or None for a number that is no role.
func (r Role) known() Role {
	if r < roleCount || r&^0xffffff == trueColour {
		return r
	}
	return None
}

// colour returns the fallback that is written as a presentation attribute.
func (r Role) colour() string {
	if r&trueColour != 0 {
		return r.String()
	}
	return roles[r].light
}

// A Dash is the pattern of a line.
type Dash uint8

// The dashes, in units for a line 1 wide.
const (
	Solid   Dash = iota
	Dashed       // 5 on, 3 off
	Dotted       // 1 on, 3 off
	DashDot      // 8 on, 3 off, 1 on, 3 off
)

var dashes = [...]string{Solid: "none", Dashed: "5 3", Dotted: "1 3", DashDot: "8 3 1 3"}

// A Style says how a shape is painted. The zero value paints nothing, except
// that a line without any paint is drawn in ink, as it would be invisible.
type Style struct {
	Stroke Role
	Fill   Role
	Width  float64 // of the stroke, in units; 0 means 1
	Dash   Dash
	Class  string // further class names, separated by spaces
}

// paintState is the paint that an element inherits or sets.
type paintState struct {
	stroke, fill Role
	width        float64
	dash         Dash
}

// rootPaint is what the root element sets or SVG 2 gives as initial values.
var rootPaint = paintState{width: 1}

// state returns the paint as it is written, with what cannot show left as inherited.
func (s Style) state(inherited paintState) paintState {
	p := paintState{stroke: s.Stroke.known(), fill: s.Fill.known(), width: s.Width, dash: s.Dash}
	if p.width <= 0 || !finite(p.width) {
		p.width = 1
	}
	if int(p.dash) >= len(dashes) {
		p.dash = Solid
	}
	if p.stroke == None {
		p.width, p.dash = inherited.width, inherited.dash
	}
	return p
}

// shared returns the paint of a group, in which None means as outside.
func (s Style) shared(outside paintState) paintState {
	p := s.state(outside)
	if p.stroke == None {
		p.stroke = outside.stroke
	}
	if p.fill == None {
		p.fill = outside.fill
	}
	return p
}

// stroked returns half of what the stroke adds on each side of an outline.
func (s Style) stroked() float64 {
	if s.Stroke.known() == None {
		return 0
	}
	if s.Width <= 0 || !finite(s.Width) {
		return 0.5
	}
	return s.Width / 2
}

// lined returns the style of a line, which in no paint at all is drawn in ink.
func (s Style) lined() Style {
	if s.Stroke.known() == None {
		s.Stroke = Ink
	}
	return s
}
