package scale

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
	"spruelight/gen/svg"
)

// LineupOptions say how a line-up is drawn.
type LineupOptions struct {
	ID       string // of the drawing, unique on its page
	Title    string
	Subjects bool    // the real things at true relative size, not the models
	Width    float64 // of the drawing, in units; rows wrap at it
	Rows     int     // how many rows are wanted at most; 0: as many as it takes
	Inches   bool    // lengths in inches and feet
	Print    svg.Printer
}

// Lineup is a finished line-up: everything in it is its length times Factor.
type Lineup struct {
	Drawing *svg.Drawing
	Factor  float64 // units of the drawing for one metre
	Stands  []Stand // in the order drawn, largest first
	Left    []Piece // not drawn: size not known
}

// Stand is one piece with its place in the drawing.
type Stand struct {
	Piece
	Across, Up quantity.Metres
	Row        int
	Box        svg.Box // of the silhouette
}

// Measures of a line-up, in units of the drawing.
const (
	lineupMargin  = 8
	lineupGap     = 26   // between two pieces
	figureGap     = 7    // between a silhouette and its figure
	labelGap      = 8    // under the shelf line
	labelWidth    = 112  // a piece's words may be so wide, however small it is
	rowGap        = 26   // between one row's words and the next row
	tallest       = 340  // the tallest piece
	lifeSize      = 3779 // units for one metre at which a model is drawn as large as it is: 96 to the inch (CSS Values 4, section 6.2)
	smallestShare = 0.3  // how far rows may be shrunk to be few
)

// figureAspect is the width of the standing figure over its height.
var figureAspect = func() float64 { b := figureOutline.Box(); return b.W / b.H }()

// DrawLineup draws pieces side by side at true relative size, largest first, in
// rows that stand on shelf lines, with a scale bar and a standing figure: at
// each model's own scale, or one beside each row of subjects.
func DrawLineup(pieces []Piece, o LineupOptions) Lineup {
	l := Lineup{}
	for _, p := range pieces {
		across, up, ok := p.span(o.Subjects)
		if !ok {
			l.Left = append(l.Left, p)
			continue
		}
		l.Stands = append(l.Stands, Stand{Piece: p, Across: across, Up: up})
	}
	slices.SortStableFunc(l.Stands, func(a, b Stand) int {
		return cmp.Or(cmp.Compare(max(b.Across, b.Up), max(a.Across, a.Up)), cmp.Compare(a.Name, b.Name))
	})
	d := lineupDrawer{Lineup: &l, o: o}
	d.choose()
	d.draw()
	return l
}

// lineupDrawer lays a line-up out and draws it.
type lineupDrawer struct {
	*Lineup
	o     LineupOptions
	rows  [][]cell
	inner float64 // width between the margins
}

// cell is the room of one piece in its row, in units.
type cell struct {
	stand      *Stand
	x          float64
	width      float64
	across, up float64 // of the silhouette
	figure     float64 // height of the figure; 0: none
	words      []string
	bold       int // how many of the words are the name
}

// choose finds the largest factor at which every piece fits the width and the
// rows are as few as wanted. Shrinking stops where the pieces would get lost.
func (d *lineupDrawer) choose() {
	d.inner = d.o.Width - 2*lineupMargin
	if len(d.Stands) == 0 {
		d.Factor = 1
		return
	}
	largest := math.Inf(1)
	for _, s := range d.Stands {
		figure := StandingAdult * figureAspect
		if !d.o.Subjects && s.Ratio > 0 {
			figure /= s.Ratio
		}
		largest = min(largest, (d.inner-2*figureGap)/(float64(s.Across)+figure), tallest/float64(s.Up))
	}
	if !d.o.Subjects {
		largest = min(largest, lifeSize)
	}
	for d.Factor = largest; ; d.Factor *= 0.96 {
		d.rows = d.wrap()
		if d.o.Rows == 0 || len(d.rows) <= d.o.Rows || d.Factor < largest*smallestShare {
			return
		}
	}
}

// wrap breaks the pieces into rows at the factor at hand.
func (d *lineupDrawer) wrap() [][]cell {
	var rows [][]cell
	var row []cell
	start := 0.0
	if d.o.Subjects {
		start = d.figureWidth(StandingAdult*d.Factor) + lineupGap/2
	}
	x := start
	for i := range d.Stands {
		c := d.cell(&d.Stands[i])
		if len(row) > 0 && x+c.width > d.inner {
			rows, row, x = append(rows, row), nil, start
		}
		c.x = x
		row = append(row, c)
		x += c.width + lineupGap
	}
	return append(rows, row)
}

func (d *lineupDrawer) figureWidth(height float64) float64 { return height * figureAspect }

// cell measures the room of a piece: silhouette and figure side by side, the
// words under them.
func (d *lineupDrawer) cell(s *Stand) cell {
	c := cell{stand: s, across: float64(s.Across) * d.Factor, up: float64(s.Up) * d.Factor}
	things := c.across
	if !d.o.Subjects && s.Ratio > 0 {
		c.figure = StandingAdult / s.Ratio * d.Factor
		things += figureGap + d.figureWidth(c.figure)
	}
	room := min(max(things, labelWidth), d.inner)
	name := svg.Wrap(s.Name, room, svg.TextSize, svg.Bold)
	c.bold = len(name)
	c.words = name
	if !d.o.Subjects { // a scale says nothing of the real thing
		c.words = append(c.words, svg.Wrap(unbroken.Replace(d.o.Print.Print(s.Says)), room, wordSize, svg.Regular)...)
	}
	c.words = append(c.words, svg.Wrap(d.sizeText(*s), room, wordSize, svg.Regular)...)
	for i, w := range c.words {
		c.width = max(c.width, textWidth(w, i < c.bold))
	}
	c.width = max(c.width, things)
	return c
}

const wordSize = 11.0

// unbroken keeps a number together with its limits.
var unbroken = strings.NewReplacer(" ± ", "\u00a0±\u00a0")

func textWidth(text string, bold bool) float64 {
	s := svg.TextStyle{Size: wordSize}
	if bold {
		s = svg.TextStyle{Font: svg.Bold}
	}
	return svg.TextBox(svg.Point{}, text, s).W
}

// sizeText says how large the piece is, and from which side if not from the side.
func (d *lineupDrawer) sizeText(s Stand) string {
	size := source.Say("%s × %s", quantity.About(s.Across), quantity.About(s.Up))
	tied := strings.ReplaceAll(d.o.Print.Print(size), " ", "\u00a0")
	switch s.View {
	case Front:
		return d.o.Print.Print(source.Say("%s, from the front", tied))
	case Top:
		return d.o.Print.Print(source.Say("%s, from above", tied))
	}
	return tied
}
