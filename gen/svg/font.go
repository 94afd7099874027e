package svg

import (
	"unicode"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/gomono"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// A Font is one of the three cuts that drawings use.
type Font uint8

// The fonts.
const (
	Regular Font = iota
	Bold
	Mono
	fontCount
)

// The families name faces with the widths of the built-in fonts, one of which
// nearly every reader's system has: nearly all letters of the built-in regular and
// bold have the advances of Helvetica, the others are a little wider; Arial,
// Liberation Sans, Arimo and Nimbus Sans are made to the same; Roboto runs 4 % narrower; the condensed
// face stands before the last resort of many Linux systems, which runs 14 %
// wider. No textLength is written: it would stretch faces that are right, and
// librsvg does not know it.
const (
	familySans = "Arial,Helvetica,Liberation Sans,Arimo,Nimbus Sans,Roboto,DejaVu Sans Condensed,sans-serif"
	familyMono = "Menlo,Consolas,Liberation Mono,Cousine,Courier New,monospace"
)

// widthFactor widens every measured text a little. A browser's advances were
// found within 1 % of the measured ones (the ohm sign being the widest apart);
// the rest is for hinting and for faces that round up.
const widthFactor = 1.02

// metrics holds the widths of one font in parts of the em.
type metrics struct {
	font    *sfnt.Font
	ascii   [128]float64
	ascent  float64
	descent float64
}

// perEm is the size at which glyphs are measured, in units of 1/64.
const perEm = fixed.Int26_6(2048 << 6)

// fonts are read once; they are never written again, so that drawings may be
// made on many goroutines at once.
var fonts = [fontCount]*metrics{
	Regular: readFont(goregular.TTF),
	Bold:    readFont(gobold.TTF),
	Mono:    readFont(gomono.TTF),
}

// readFont reads a font that is part of the program; failing is a defect of the build.
func readFont(ttf []byte) *metrics {
	f, err := sfnt.Parse(ttf)
	if err != nil {
		panic("svg: built-in font: " + err.Error())
	}
	var buf sfnt.Buffer
	m := &metrics{font: f}
	all, err := f.Metrics(&buf, perEm, font.HintingNone)
	if err != nil {
		panic("svg: built-in font: " + err.Error())
	}
	m.ascent = float64(all.Ascent) / float64(perEm)
	m.descent = float64(all.Descent) / float64(perEm)
	for c := rune(' '); c <= '~'; c++ {
		m.ascii[c], _ = m.glyph(&buf, c)
	}
	return m
}

// glyph returns the advance of a character in ems, false where the font lacks it.
func (m *metrics) glyph(buf *sfnt.Buffer, r rune) (float64, bool) {
	index, err := m.font.GlyphIndex(buf, r)
	if err != nil || index == 0 {
		return 0, false
	}
	advance, err := m.font.GlyphAdvance(buf, index, perEm, font.HintingNone)
	if err != nil {
		return 0, false
	}
	return float64(advance) / float64(perEm), true
}

// valid returns the font, Regular for a number that is none.
func (f Font) valid() Font {
	if f >= fontCount {
		return Regular
	}
	return f
}

// Measure returns the width of a text on one line and how far it reaches above
// and below its baseline, in units, for a size in units.
func Measure(text string, size float64, f Font) (width, ascent, descent float64) {
	m := fonts[f.valid()]
	return measureClean(CleanText(text), size, m), m.ascent * size, m.descent * size
}

func measureClean(text string, size float64, m *metrics) float64 {
	ems := 0.0
	g := gauge{m: m}
	for _, r := range text {
		ems += g.advance(r)
	}
	return ems * size * widthFactor
}

// gauge measures characters one after the other.
type gauge struct {
	m   *metrics
	buf *sfnt.Buffer // made when the first character outside ASCII comes
}

// advance returns the width of a character in ems. Where the font lacks it a
// generous width stands in, as another font will be drawn.
func (g *gauge) advance(r rune) float64 {
	if r < 128 {
		return g.m.ascii[r]
	}
	if joins(r) {
		return 0
	}
	if g.buf == nil {
		g.buf = new(sfnt.Buffer)
	}
	if w, ok := g.m.glyph(g.buf, r); ok {
		return w
	}
	return missingWidth(r)
}

// joins reports whether a character has no width of its own and belongs to the
// one before it: combining marks and format characters.
func joins(r rune) bool { return unicode.In(r, unicode.Mn, unicode.Me, unicode.Cf) }

// missingWidth returns the width, in ems, for a character that the built-in
// fonts lack: a little more than the em of ideographs and kana, which few letters
// exceed, and more for pictures.
func missingWidth(r rune) float64 {
	if r >= 0x1F000 && r <= 0x1FAFF || r >= 0x2600 && r <= 0x27BF {
		return 1.4 // emoji
	}
	return 1.05
}
