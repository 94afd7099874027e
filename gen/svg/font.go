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

// The families name faces as narrow as the measured one or narrower, most
// readers' systems having one of them. The last resort of many Linux systems is
// far wider; it is named by nobody and only comes where all others are missing.
const (
	familySans = "Arial,Helvetica,Liberation Sans,Nimbus Sans,Roboto,sans-serif"
	familyMono = "Menlo,Consolas,Liberation Mono,Courier New,monospace"
)

// metrics holds the widths of one font in parts of the em.
type metrics struct {
	font    *sfnt.Font
	ascii   [128]float64
	ascent  float64
	descent float64
	factor  float64 // of the widths; see widthFactor
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
	m := &metrics{font: f, factor: 1}
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
	var buf *sfnt.Buffer
	for _, r := range text {
		if r < 128 {
			ems += m.ascii[r]
			continue
		}
		if buf == nil {
			buf = new(sfnt.Buffer)
		}
		ems += m.advance(buf, r)
	}
	return ems * size * m.factor
}

// advance returns the width of a character outside ASCII in ems. Where the font
// lacks it a generous width stands in, as another font will be drawn.
func (m *metrics) advance(buf *sfnt.Buffer, r rune) float64 {
	if unicode.In(r, unicode.Mn, unicode.Me, unicode.Cf) {
		return 0
	}
	if w, ok := m.glyph(buf, r); ok {
		return w
	}
	return missingWidth(r)
}

// missingWidth returns the width, in ems, for a character that the built-in
// fonts lack: a full em for ideographs and kana, as they are set solid, more
// for pictures, and a full em for all else, which few letters exceed.
func missingWidth(r rune) float64 {
	if r >= 0x1F000 && r <= 0x1FAFF || r >= 0x2600 && r <= 0x27BF {
		return 1.4 // emoji
	}
	return 1.05
}
