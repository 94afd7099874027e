package svg

import (
	"math"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"spruelight/testdata/view"
)

// TestMeasuredBoxHoldsTheRenderedText compares with Chromium's own text layout.
func TestMeasuredBoxHoldsTheRenderedText(t *testing.T) {
	d := New("labels", "Labels", "")
	var want []Box
	for _, size := range []float64{10, 11, 12, 13, 16, 24} {
		for _, f := range []Font{Regular, Bold, Mono} {
			for _, label := range view.Labels {
				for _, a := range []Anchor{Start, Middle, End} {
					want = append(want, d.Text(Point{600, 40}, label, TextStyle{Size: size, Font: f, Anchor: a}))
				}
			}
		}
	}
	ctx := view.Page(t, "labels.html", []byte("<!doctype html><meta charset=utf-8><style>svg{font-family:"+familySans+"}</style>"+d.Inline()))
	type rendered struct {
		X, Y, W, H, Length float64
		Text               string
	}
	got := view.Run(t, ctx, chromedp.Evaluate[[]rendered](`[...document.querySelectorAll("text")].map(t => {
		const b = t.getBBox()
		return {X: b.x, Y: b.y, W: b.width, H: b.height, Length: t.getComputedTextLength(), Text: t.textContent}
	})`))
	if len(got) != len(want) {
		t.Fatalf("%d texts in the browser, %d measured", len(got), len(want))
	}
	// The browser's box is that of whole pixels of hinted glyphs: it may stick
	// out by a pixel where the advance does not.
	const pixel = 1.0
	widest, name := 0.0, ""
	for i, g := range got {
		if g.Length > want[i].W+0.01 {
			t.Errorf("%q: rendered %.2f wide, measured %.2f", g.Text, g.Length, want[i].W)
		}
		if !want[i].Inset(-pixel).Contains(Box{g.X, want[i].Y, g.W, want[i].H}) {
			t.Errorf("%q: rendered box %+v outside the measured %+v", g.Text, g, want[i])
		}
		if r := g.Length / want[i].W * widthFactor; r > widest {
			widest, name = r, g.Text
		}
	}
	t.Logf("widest against the built-in metrics: %.4f (%q)", widest, name)
}

// TestInkStaysInTheMeasuredHeight renders tall and deep letters and looks where ink is.
func TestInkStaysInTheMeasuredHeight(t *testing.T) {
	for _, f := range []Font{Regular, Bold, Mono} {
		box := TextBox(Point{10, 100}, "ÅÉÇgjpqy|()", TextStyle{Size: 48, Font: f})
		d := New("tall", "Tall", "")
		d.Margin = 0
		d.Include(Box{0, 0, 400, 200})
		d.Text(Point{10, 100}, "ÅÉÇgjpqy|()", TextStyle{Size: 48, Font: f})
		img := view.Chromium(t, d.File(), 400, 200)
		dark := view.Ink(img)
		ink := Box{float64(dark.Min.X), float64(dark.Min.Y), float64(dark.Dx()), float64(dark.Dy())}
		if !box.Inset(-1).Contains(ink) {
			t.Errorf("font %d: ink %+v, measured %+v", f, ink, box)
		}
	}
}

func TestMeasureIsProportionalToSize(t *testing.T) {
	for _, l := range view.Labels {
		w, a, dsc := Measure(l, 10, Regular)
		w2, a2, dsc2 := Measure(l, 25, Regular)
		for _, p := range [][2]float64{{w, w2}, {a, a2}, {dsc, dsc2}} {
			if math.Abs(p[0]*2.5-p[1]) > 1e-9 {
				t.Errorf("%q: %v at 10, %v at 25", l, p[0], p[1])
			}
		}
	}
}

// TestMeasureAgainstPublishedWidths compares with Adobe's font metrics of the
// standard 14 PDF fonts (Helvetica.afm, Helvetica-Bold.afm, Courier.afm; values
// from memory): most advances of the built-in fonts are the same, and where they
// differ the built-in letter is wider, so that a label in Helvetica stays inside.
func TestMeasureAgainstPublishedWidths(t *testing.T) {
	for _, c := range []struct {
		text  string
		font  Font
		em    float64 // thousandths
		wider float64 // how much wider the built-in one is
	}{
		{"A", Regular, 667, 0}, {"W", Regular, 944, 0}, {"m", Regular, 833, 0}, {"0", Regular, 556, 0},
		{"a b", Regular, 556 + 278 + 556, 0}, {"%", Regular, 889, 0}, {"@", Regular, 1015, 0},
		{"i", Regular, 222, 25}, {"j", Regular, 222, 32}, {"l", Regular, 222, 46}, {"t", Regular, 278, 5},
		{"A", Bold, 722, 0}, {"0", Bold, 556, 0}, {"m", Bold, 889, 0}, {"i", Bold, 278, 11},
		{"i", Mono, 600, 0}, {"W", Mono, 600, 0},
	} {
		w, _, _ := Measure(c.text, 1000, c.font)
		if w = w / widthFactor; w < c.em-0.5 || w > c.em+c.wider+0.5 {
			t.Errorf("%q in font %d: %.1f, published %.0f and at most %.0f more", c.text, c.font, w, c.em, c.wider)
		}
	}
}

func TestWrap(t *testing.T) {
	for _, c := range []struct {
		text  string
		width float64
		want  []string
	}{
		{"", 100, nil},
		{"   ", 100, nil},
		{"one", 100, []string{"one"}},
		{"one two three", 50, []string{"one two", "three"}},
		{"one\ntwo\t three", 500, []string{"one two three"}},
		{"port-side lamp", 62, []string{"port-side", "lamp"}},
		{"port-side lamp", 40, []string{"port-", "side", "lamp"}},
		{"unbreakablyverylongword end", 60, []string{"unbreakab", "lyverylong", "word end"}},
		{"船室の灯り、点灯。", 40, []string{"船室の", "灯り、", "点灯。"}},
		{"e\u0301e\u0301e\u0301e\u0301", 14, []string{"e\u0301e\u0301", "e\u0301e\u0301"}},
		{"ab", 0, []string{"a", "b"}},
	} {
		got := Wrap(c.text, c.width, 12, Regular)
		if strings.Join(got, "|") != strings.Join(c.want, "|") {
			t.Errorf("Wrap(%q, %g) = %q, want %q", c.text, c.width, got, c.want)
		}
	}
}

// TestWrapKeepsEveryCharacter: nothing but spaces at line ends is lost, and no
// line is wider than asked for, unless it is a single character.
func TestWrapKeepsEveryCharacter(t *testing.T) {
	for _, l := range append(view.Labels, strings.Join(view.Labels, " ")) {
		for width := 5.0; width < 300; width *= 1.7 {
			lines := Wrap(l, width, 12, Regular)
			squash := func(s string) string { return strings.ReplaceAll(s, " ", "") }
			if got := squash(strings.Join(lines, "")); got != squash(CleanText(l)) {
				t.Errorf("Wrap(%q, %g) lost text: %q", l, width, lines)
			}
			for _, line := range lines {
				if w, _, _ := Measure(line, 12, Regular); w > width && len([]rune(line)) > 2 {
					t.Errorf("Wrap(%q, %g): line %q is %.1f wide", l, width, line, w)
				}
			}
		}
	}
}

func TestShorten(t *testing.T) {
	for _, l := range view.Labels {
		for _, width := range []float64{12, 40, 90, 1000} {
			got, cut := Shorten(l, width, 12, Regular)
			w, _, _ := Measure(got, 12, Regular)
			if cut != (got != CleanText(l)) || cut && !strings.HasSuffix(got, "…") {
				t.Errorf("Shorten(%q, %g) = %q, %v", l, width, got, cut)
			}
			if w > width && width >= 40 {
				t.Errorf("Shorten(%q, %g) = %q is %.1f wide", l, width, got, w)
			}
		}
	}
}

func TestTextAnchors(t *testing.T) {
	w, a, dsc := Measure("text", 20, Regular)
	at := Point{100, 50}
	for _, c := range []struct {
		style TextStyle
		want  Box
	}{
		{TextStyle{}, Box{100, 50 - a, w, a + dsc}},
		{TextStyle{Anchor: Middle}, Box{100 - w/2, 50 - a, w, a + dsc}},
		{TextStyle{Anchor: End}, Box{100 - w, 50 - a, w, a + dsc}},
		{TextStyle{VAlign: Top}, Box{100, 50, w, a + dsc}},
		{TextStyle{VAlign: Bottom}, Box{100, 50 - a - dsc, w, a + dsc}},
		{TextStyle{VAlign: Centre}, Box{100, 50 + capHeight*10 - a, w, a + dsc}},
		{TextStyle{Turn: 90}, Box{100 - dsc, 50, a + dsc, w}},
		{TextStyle{Turn: -90}, Box{100 - a, 50 - w, a + dsc, w}},
		{TextStyle{Turn: -90, Anchor: Middle}, Box{100 - a, 50 - w/2, a + dsc, w}},
		{TextStyle{Turn: 45}, Box{100, 50 - a, w, a + dsc}},
	} {
		c.style.Size = 20
		if got := TextBox(at, "text", c.style); !near(got, c.want) {
			t.Errorf("%+v: %+v, want %+v", c.style, got, c.want)
		}
	}
}

// near reports whether two boxes are the same to a millionth of a unit.
func near(a, b Box) bool {
	return math.Abs(a.X-b.X)+math.Abs(a.Y-b.Y)+math.Abs(a.W-b.W)+math.Abs(a.H-b.H) < 1e-6
}
