package svg

import (
	"math"
	"strings"
	"testing"
)

func TestHex(t *testing.T) {
	for in, want := range map[string]string{
		"#8a9095": "#8a9095", "#8A9095": "#8a9095", "#fff": "#ffffff", "#1aF": "#11aaff", "#000000": "#000000",
	} {
		r, err := Hex(in)
		if err != nil || r.String() != want || r.colour() != want {
			t.Errorf("Hex(%q) = %v, %v, want %s", in, r, err, want)
		}
	}
	for _, in := range []string{"", "#", "#12", "#1234", "#12345", "#1234567", "8a9095", "#8a909g", "#-12345", "red", "# 12345",
		"#\"/><x", "#１２３"} {
		if r, err := Hex(in); err == nil || r != None {
			t.Errorf("Hex(%q) = %v passes", in, r)
		}
	}
	if RGB(0x8a, 0x90, 0x95) != MustHex("#8a9095") {
		t.Error("RGB and Hex differ")
	}
	if RGB(0, 0, 0) == None || RGB(0, 0, 1).known() != RGB(0, 0, 1) {
		t.Error("black is taken for no paint")
	}
}

func TestFillBeginsAgain(t *testing.T) {
	for i, want := range map[int]Role{0: Fill1, 7: Fill8, 8: Fill1, 17: Fill2, -1: Fill8, -9: Fill8} {
		if got := Fill(i); got != want {
			t.Errorf("Fill(%d) = %v, want %v", i, got, want)
		}
	}
}

// lastElement returns the last element that drawing printed.
func lastElement(d *Drawing) string {
	lines := strings.Split(string(d.body.b), "\n")
	return lines[len(lines)-1]
}

func TestPaint(t *testing.T) {
	box := Box{1, 2, 3, 4}
	const place = ` x="1" y="2" width="3" height="4"`
	for _, c := range []struct {
		style Style
		want  string
	}{
		{Style{}, `<rect` + place + `/>`},
		{Style{Stroke: Ink}, `<rect class="d-s-ink" stroke="#22262b"` + place + `/>`},
		{Style{Fill: Accent}, `<rect class="d-accent" fill="#a65b00"` + place + `/>`},
		{Style{Stroke: Rule, Fill: Paper, Width: 0.75}, `<rect class="d-s-rule d-paper" fill="#fcfbf8" stroke="#cbc8be" stroke-width="0.75"` + place + `/>`},
		{Style{Fill: RGB(1, 2, 3)}, `<rect fill="#010203"` + place + `/>`},
		{Style{Stroke: RGB(1, 2, 3), Dash: Dashed}, `<rect stroke="#010203" stroke-dasharray="5 3"` + place + `/>`},
		{Style{Fill: Fill2}, `<rect fill="url(#p-hatch2) #c3d0da"` + place + `/>`},
		{Style{Stroke: Fill2}, `<rect stroke="#c3d0da"` + place + `/>`},
		{Style{Width: 3, Dash: Dotted}, `<rect` + place + `/>`}, // width and dash of no stroke
		{Style{Stroke: Ink, Width: math.NaN(), Dash: 99}, `<rect class="d-s-ink" stroke="#22262b"` + place + `/>`},
		{Style{Stroke: Role(200), Fill: Role(1 << 30)}, `<rect` + place + `/>`}, // no such role
		{Style{Class: "wire  hot x<y"}, `<rect class="wire hot x-y"` + place + `/>`},
	} {
		d := New("p", "Paint", "")
		d.Rect(box, 0, c.style)
		if got := lastElement(d); got != c.want {
			t.Errorf("%+v:\n got %s\nwant %s", c.style, got, c.want)
		}
	}
}

// TestSharedPaintIsWrittenOnce: inside a group only what differs is written, and
// what differs is always written.
func TestSharedPaintIsWrittenOnce(t *testing.T) {
	d := New("p", "Paint", "")
	at := Point{0, 0}
	d.Group(Attrs{Style: Style{Stroke: Ink, Width: 2, Fill: Paper}}, func() {
		for _, c := range []struct {
			style Style
			want  string
		}{
			{Style{Stroke: Ink, Width: 2, Fill: Paper}, `<circle cx="0" cy="0" r="1"/>`},
			{Style{Stroke: Ink, Fill: Paper}, `<circle stroke-width="1" cx="0" cy="0" r="1"/>`},
			{Style{Fill: Paper}, `<circle stroke="none" cx="0" cy="0" r="1"/>`},
			{Style{Stroke: Ink, Width: 2}, `<circle fill="none" cx="0" cy="0" r="1"/>`},
			{Style{Stroke: Soft, Width: 2, Fill: Paper}, `<circle class="d-s-soft" stroke="#5d626a" cx="0" cy="0" r="1"/>`},
		} {
			d.Circle(at, 1, c.style)
			if got := lastElement(d); got != c.want {
				t.Errorf("%+v:\n got %s\nwant %s", c.style, got, c.want)
			}
		}
	})
	d.Group(Attrs{Style: Style{Stroke: Ink}}, func() {
		d.Group(Attrs{Class: "inner"}, func() {
			if got := lastElement(d); got != `<g class="inner">` {
				t.Errorf("a group without paint: %s", got)
			}
			d.Circle(at, 1, Style{Stroke: Ink})
			if got := lastElement(d); got != `<circle cx="0" cy="0" r="1"/>` {
				t.Errorf("paint of the outer group: %s", got)
			}
		})
	})
	d.Circle(at, 1, Style{Stroke: Ink})
	if got := lastElement(d); got != `<circle class="d-s-ink" stroke="#22262b" cx="0" cy="0" r="1"/>` {
		t.Errorf("after the group: %s", got)
	}
}

// TestLinesAreNeverInvisible: a line without any paint is drawn in ink.
func TestLinesAreNeverInvisible(t *testing.T) {
	var p Path
	p.MoveTo(0, 0).LineTo(5, 5)
	for name, draw := range map[string]func(d *Drawing){
		"Line":     func(d *Drawing) { d.Line(Point{}, Point{5, 5}, Style{}) },
		"Polyline": func(d *Drawing) { d.Polyline([]Point{{}, {5, 5}}, Style{}) },
		"Path":     func(d *Drawing) { d.Path(p, Style{}) },
		"Arrow":    func(d *Drawing) { d.Arrow(Point{}, Point{5, 5}, 2, Style{}) },
	} {
		d := New("p", "Paint", "")
		draw(d)
		if !strings.Contains(string(d.body.b), `stroke="#22262b"`) {
			t.Errorf("%s: %s", name, d.body.b)
		}
	}
}

// luminance is the relative luminance of WCAG 2.2.
func luminance(r Role) float64 {
	linear := func(v Role) float64 {
		c := float64(v&0xff) / 255
		if c <= 0.04045 {
			return c / 12.92
		}
		return math.Pow((c+0.055)/1.055, 2.4)
	}
	return 0.2126*linear(r>>16) + 0.7152*linear(r>>8) + 0.0722*linear(r)
}

func contrast(a, b string) float64 {
	la, lb := luminance(MustHex(a)), luminance(MustHex(b))
	return (max(la, lb) + 0.05) / (min(la, lb) + 0.05)
}

// TestContrast: WCAG 2.2, 1.4.3 (words 4.5) and 1.4.11 (graphics 3). Chart fills
// and the glow are always outlined in ink or carry no meaning of their own; ink
// must be legible upon them all the same, as words may lie on them.
func TestContrast(t *testing.T) {
	look := map[string]func(roleLook) string{
		"light": func(r roleLook) string { return r.light },
		"dark":  func(r roleLook) string { return r.dark },
		"print": func(r roleLook) string { return r.print },
	}
	for name, of := range look {
		paper := of(roles[Paper])
		for _, r := range []Role{Ink, Soft, Accent, Plus, Minus} {
			if c := contrast(of(roles[r]), paper); c < 4.5 {
				t.Errorf("%s: %v on paper has contrast %.2f", name, r, c)
			}
		}
		for r := Glow; r <= Fill8; r++ {
			if r == Plus || r == Minus {
				continue
			}
			if c := contrast(of(roles[Ink]), of(roles[r])); c < 4.5 {
				t.Errorf("%s: ink on %v has contrast %.2f", name, r, c)
			}
		}
	}
}

// TestPrintIsBlackOnWhite: in print only greys are used, black for words.
func TestPrintIsBlackOnWhite(t *testing.T) {
	for r := Ink; r < roleCount; r++ {
		c := MustHex(roles[r].print)
		if c>>16&0xff != c>>8&0xff || c&0xff != c>>8&0xff {
			t.Errorf("%v prints as %v", r, c)
		}
	}
	if roles[Ink].print != "#000" || roles[Paper].print != "#fff" {
		t.Error("ink and paper are not black and white in print")
	}
}

// TestStyleSheetIsPlain: it is written raw into files, so it must hold nothing
// that markup would take for its own.
func TestStyleSheetIsPlain(t *testing.T) {
	for _, css := range []string{Stylesheet(), Properties()} {
		if strings.ContainsAny(css, "<&>") || strings.Count(css, "{") != strings.Count(css, "}") {
			t.Errorf("not plain: %s", css)
		}
	}
}

// TestEveryClassHasItsRule: what drawings print, the style sheet knows. The
// sample has every role and every fill.
func TestEveryClassHasItsRule(t *testing.T) {
	for _, part := range strings.Split(sample().Inline(), `class="`)[1:] {
		classes, _, _ := strings.Cut(part, `"`)
		for _, class := range strings.Fields(classes) {
			if strings.HasPrefix(class, "d-") && !strings.Contains(stylesheet, "."+class+"{") {
				t.Errorf("class %s has no rule", class)
			}
		}
	}
}
