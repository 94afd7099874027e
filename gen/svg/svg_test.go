package svg

import (
	"math"
	"strings"
	"testing"

	"spruelight/testdata/view"
)

// sample draws one of everything.
func sample() *Drawing {
	d := New("sample", "One of everything", "Every shape, role, dash and anchor of the writer.")
	d.Rect(Box{0, 0, 300, 215}, 4, Style{Stroke: Rule})
	d.Line(Point{10, 20}, Point{290, 20}, Style{Stroke: Ink, Width: 1.5})
	d.Polyline([]Point{{10, 30}, {60, 50}, {110, 30}}, Style{Stroke: Soft, Dash: Dashed})
	d.Polygon([]Point{{130, 30}, {160, 50}, {130, 50}}, Style{Fill: Accent})
	d.Circle(Point{200, 40}, 10, Style{Stroke: Plus, Fill: Paper})
	d.Circle(Point{230, 40}, 10, Style{Stroke: Ink, Fill: RGB(0xff, 0xd9, 0xa0)})
	d.Arrow(Point{250, 50}, Point{285, 30}, 7, Style{Stroke: Minus})
	var p Path
	p.MoveTo(20, 80).CurveTo(30, 60, 50, 100, 60, 80).Arc(10, 10, 0, false, true, 80, 80).LineTo(80, 95).Close()
	d.Path(p, Style{Stroke: Ink, Fill: Glow})
	for i := range Fills {
		d.Rect(Box{10 + 35*float64(i), 105, 30, 30}, 0, Style{Stroke: Ink, Fill: Fill(i), Width: 0.75})
	}
	d.Group(Attrs{ID: "lamp D1", Class: "lamp", Data: map[string]string{"ref": "D1", "at": `saloon "fore"`},
		Style: Style{Stroke: Ink}}, func() {
		d.Line(Point{110, 80}, Point{150, 80}, Style{Stroke: Ink})
		d.Line(Point{110, 90}, Point{150, 90}, Style{Stroke: Ink, Dash: Dotted})
		d.Text(Point{160, 85}, "D1", TextStyle{VAlign: Centre, Font: Bold})
	})
	d.Text(Point{10, 155}, "start <&> 4k7 \"470 Ω\"", TextStyle{})
	d.Text(Point{150, 170}, "middle, soft", TextStyle{Anchor: Middle, Fill: Soft, Size: 11})
	d.Text(Point{290, 155}, "12.4 mA", TextStyle{Anchor: End, Font: Mono})
	d.Text(Point{290, 95}, "turned", TextStyle{Turn: -90, Size: 11})
	d.Paragraph(Point{10, 170}, Wrap("Two lines of text, wrapped by their measure", 110, 11, Regular), TextStyle{Size: 11})
	return d
}

func TestFileIsWellFormed(t *testing.T) {
	got := sample().File()
	view.WellFormed(t, got)
	if spare := cap(got) - len(got); spare > len(got)/8+16 { // memory comes in sizes of such steps
		t.Errorf("%d bytes are held by %d more", len(got), spare)
	}
}

func TestSameCallsGiveTheSameBytes(t *testing.T) {
	first := string(sample().File())
	for range 20 {
		if string(sample().File()) != first {
			t.Fatal("two drawings of the same differ")
		}
	}
}

func TestBoxes(t *testing.T) {
	b := Box{10, 20, 30, 40}
	for name, c := range map[string][2]Point{
		"N": {b.N(), {25, 20}}, "NE": {b.NE(), {40, 20}}, "E": {b.E(), {40, 40}}, "SE": {b.SE(), {40, 60}},
		"S": {b.S(), {25, 60}}, "SW": {b.SW(), {10, 60}}, "West": {b.West(), {10, 40}}, "NW": {b.NW(), {10, 20}},
		"Centre": {b.Centre(), {25, 40}},
	} {
		if c[0] != c[1] {
			t.Errorf("%s is %v, want %v", name, c[0], c[1])
		}
	}
	if got := b.Union(Box{0, 50, 5, 50}); got != (Box{0, 20, 40, 80}) {
		t.Errorf("union %+v", got)
	}
	if got := b.Inset(5); got != (Box{15, 25, 20, 30}) {
		t.Errorf("inset %+v", got)
	}
	if got := b.Inset(100); got.Centre() != b.Centre() || got.W != 0 || got.H != 0 {
		t.Errorf("inset beyond the middle %+v", got)
	}
	if got := b.Inset(-5); got != (Box{5, 15, 40, 50}) {
		t.Errorf("outset %+v", got)
	}
	for _, c := range []struct {
		other              Box
		overlaps, contains bool
	}{
		{b, true, true}, {Box{15, 25, 1, 1}, true, true}, {Box{40, 20, 5, 5}, false, false}, {Box{39, 20, 5, 5}, true, false},
		{Box{10, 20, 0, 0}, false, true}, {Box{0, 0, 100, 100}, true, false}, {Box{10, 61, 30, 5}, false, false},
	} {
		if b.Overlaps(c.other) != c.overlaps || c.other.Overlaps(b) != c.overlaps || b.Contains(c.other) != c.contains {
			t.Errorf("%+v: overlaps %v, contains %v", c.other, b.Overlaps(c.other), b.Contains(c.other))
		}
	}
	if got := BoxOf(Point{3, 9}, Point{-1, 4}, Point{0, 12}); got != (Box{-1, 4, 4, 8}) {
		t.Errorf("box of points %+v", got)
	}
}

// TestViewBoxHoldsEverything: strokes and texts count, the margin is added, and
// the edges are whole units.
func TestViewBoxHoldsEverything(t *testing.T) {
	d := New("x", "x", "")
	d.Margin = 2
	d.Line(Point{10, 10}, Point{20, 10}, Style{Stroke: Ink, Width: 3})
	if got := d.ViewBox(); got != (Box{6, 6, 18, 8}) { // 8.5 to 21.5, 8.5 to 11.5, less and more 2, outward
		t.Errorf("view box %+v", got)
	}
	box := d.Text(Point{100, 100}, "far", TextStyle{})
	if !d.ViewBox().Contains(box.Inset(-2)) {
		t.Errorf("view box %+v leaves out %+v", d.ViewBox(), box)
	}
	for _, b := range []Box{{math.NaN(), 0, 1, 1}, {0, 0, math.Inf(1), 1}} {
		before := d.ViewBox()
		d.Include(b)
		if d.ViewBox() != before {
			t.Errorf("%+v changes the view box to %+v", b, d.ViewBox())
		}
	}
	w, h := New("empty", "x", "").Size()
	if w != 16 || h != 16 {
		t.Errorf("an empty drawing is %g by %g", w, h)
	}
}

func TestNames(t *testing.T) {
	for _, c := range []struct{ title, desc, want string }{
		{"Title", "Desc", `role="img" aria-labelledby="x-title x-desc"`},
		{"Title", "", `role="img" aria-labelledby="x-title"`},
		{"", "", `aria-hidden="true"`},
	} {
		for _, doc := range []string{New("x", c.title, c.desc).Inline(), string(New("x", c.title, c.desc).File())} {
			if !strings.Contains(doc, c.want) {
				t.Errorf("%q, %q: %s", c.title, c.desc, doc)
			}
		}
	}
}

// TestInlineKeepsAStrictPolicy: nothing that "style-src 'self'" would stop.
func TestInlineKeepsAStrictPolicy(t *testing.T) {
	doc := sample().Inline()
	for _, bad := range []string{"<style", " style=", "xmlns", "<script", " on", "href", "<?xml"} {
		if strings.Contains(doc, bad) {
			t.Errorf("inline drawing has %q", bad)
		}
	}
}

func TestDataAttributes(t *testing.T) {
	d := New("x", "x", "")
	d.Group(Attrs{Data: map[string]string{"ref": "D1", "at": `fore "x"`, "Bad": "1", "on click": "1", "": "1", "1a": "1",
		"ok-2": "\x00y"}}, func() {})
	first, _, _ := strings.Cut(strings.TrimSpace(string(d.body.b)), "\n")
	if want := `<g data-at="fore &#34;x&#34;" data-ok-2="y" data-ref="D1">`; first != want {
		t.Errorf("%s, want %s", first, want)
	}
}

func TestEmptyShapesDrawNothing(t *testing.T) {
	d := New("x", "x", "")
	d.Polyline(nil, Style{})
	d.Polygon([]Point{{1, 1}}, Style{Fill: Ink})
	d.Path(Path{}, Style{})
	d.Text(Point{}, " \n", TextStyle{})
	d.Paragraph(Point{}, nil, TextStyle{})
	d.Arrow(Point{1, 1}, Point{1, 1}, 3, Style{})
	if len(d.body.b) > 0 || len(d.Boxes()) > 0 {
		t.Errorf("drawn: %s", d.body.b)
	}
}

func BenchmarkTenThousandShapes(b *testing.B) {
	b.ReportAllocs()
	var size int
	for b.Loop() {
		d := New("bench", "Bench", "")
		for i := range 2500 {
			x, y := float64(i%50)*20.25, float64(i/50)*20.5
			d.Line(Point{x, y}, Point{x + 10, y}, Style{Stroke: Ink, Width: 1.5})
			d.Rect(Box{x, y, 8, 4}, 0, Style{Stroke: Ink, Fill: Paper})
			d.Circle(Point{x, y}, 2, Style{Fill: Ink})
			d.Text(Point{x, y + 15}, "470 Ω", TextStyle{Size: 11})
		}
		size = len(d.File())
	}
	b.ReportMetric(float64(size)/10000, "bytes/shape")
}

func BenchmarkMeasure(b *testing.B) {
	for _, c := range []struct{ name, text string }{{"ascii", "saloon fore, warm white"}, {"other", "Überlauf 470 Ω ±5 %"}} {
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				Measure(c.text, 12, Regular)
			}
		})
	}
}
