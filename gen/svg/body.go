package svg

import (
	"maps"
	"slices"
	"strings"
)

// body is the markup of a drawing's shapes, with the paint in force.
type body struct {
	writer
	id        string // of the drawing, before the ids of its hatches
	inherited paintState
	hatches   uint16 // bit n set: fill role Fill1+n is used
	fallbacks []span // where fallback colours are, which a page's style sheet makes needless
}

// span is a part of the markup.
type span struct{ from, to int }

// fallback writes an attribute that only a drawing without a page needs.
func (b *body) fallback(name token, value string) {
	from := len(b.b)
	b.attr(name, value)
	b.fallbacks = append(b.fallbacks, span{from, len(b.b)})
}

// start writes the beginning of an element with its paint.
func (b *body) start(name token, s Style) {
	b.raw("\n")
	b.open(name)
	b.paint(s.state(b.inherited), s.Class)
}

// paint writes class and presentation attributes, leaving out what is inherited.
func (b *body) paint(p paintState, class string) {
	was := b.inherited
	classes := ""
	if p.stroke != was.stroke && p.stroke < Fill1 && p.stroke != None {
		classes = roles[p.stroke].strokeClass
	}
	if p.fill != was.fill && p.fill < Fill1 && p.fill != None {
		if classes != "" {
			classes += " "
		}
		classes += roles[p.fill].fillClass
	}
	if class != "" {
		classes = joinClass(classes, class)
	}
	if classes != "" {
		b.attr("class", classes)
	}
	switch {
	case p.fill == was.fill:
	case p.fill < Fill1 && p.fill != None:
		b.fallback("fill", p.fill.colour())
	default:
		b.attr("fill", b.fillValue(p.fill))
	}
	switch {
	case p.stroke == was.stroke:
	case p.stroke < Fill1 && p.stroke != None:
		b.fallback("stroke", p.stroke.colour())
	default:
		b.attr("stroke", p.stroke.colour())
	}
	if p.width != was.width {
		b.num("stroke-width", p.width)
	}
	if p.dash != was.dash {
		b.attr("stroke-dasharray", dashes[p.dash])
	}
}

// fillValue returns the fill attribute; a chart fill refers to its hatch and notes that it is used.
func (b *body) fillValue(r Role) string {
	if r >= Fill1 && r <= Fill8 {
		n := r - Fill1
		b.hatches |= 1 << n
		return "url(#" + hatchID(b.id, n) + ") " + roles[r].light
	}
	return r.colour()
}

// label writes one line of text.
func (b *body) label(base, pivot Point, text string, s TextStyle) {
	b.raw("\n")
	b.open("text")
	p := b.inherited
	p.fill, p.stroke = s.fill(), None
	b.paint(p, s.Class)
	b.point("x", "y", base)
	if s.size() != TextSize { // the root's
		b.num("font-size", s.size())
	}
	switch s.Font {
	case Bold:
		b.attr("font-weight", "700")
	case Mono:
		b.attr("font-family", familyMono)
	}
	switch s.Anchor {
	case Middle:
		b.attr("text-anchor", "middle")
	case End:
		b.attr("text-anchor", "end")
	}
	if s.Turn == 90 || s.Turn == -90 {
		turn := appendNumbers([]byte("rotate("), float64(s.Turn), pivot.X, pivot.Y)
		b.attr("transform", string(append(turn, ')')))
	}
	b.raw(">")
	b.text(text)
	b.close("text")
}

// data writes data-… attributes, sorted by their names.
func (b *body) data(data map[string]string) {
	for _, name := range slices.Sorted(maps.Keys(data)) {
		if dataName(name) {
			b.attr(token("data-"+name), CleanText(data[name]))
		}
	}
}

// dataName reports whether a name is safe and valid after "data-".
func dataName(s string) bool {
	if s == "" || s[0] < 'a' || s[0] > 'z' {
		return false
	}
	return strings.Trim(s, "abcdefghijklmnopqrstuvwxyz0123456789-") == ""
}
