package svg

import (
	"encoding/xml"
	"errors"
	"io"
	"strings"
	"testing"
)

// wellFormed fails unless the bytes are one well-formed XML document.
func wellFormed(t testing.TB, doc []byte) {
	t.Helper()
	dec := xml.NewDecoder(strings.NewReader(string(doc)))
	dec.Strict = true
	for {
		_, err := dec.Token()
		if errors.Is(err, io.EOF) {
			return
		}
		if err != nil {
			t.Fatalf("not well-formed: %v\n%s", err, doc)
		}
	}
}

// sample draws one of everything.
func sample() *Drawing {
	d := New("sample", "One of everything", "Every shape, role, dash and anchor of the writer.")
	d.Rect(Box{0, 0, 300, 200}, 4, Style{Stroke: Rule})
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
	d.Group(Attrs{ID: "lamp D1", Class: "lamp", Data: map[string]string{"ref": "D1", "at": `saloon "fore"`}, Style: Style{Stroke: Ink}}, func() {
		d.Line(Point{110, 80}, Point{150, 80}, Style{Stroke: Ink})
		d.Line(Point{110, 90}, Point{150, 90}, Style{Stroke: Ink, Dash: Dotted})
		d.Text(Point{160, 85}, "D1", TextStyle{VAlign: Centre, Font: Bold})
	})
	d.Text(Point{10, 155}, "start <&> 4k7 \"470 Ω\"", TextStyle{})
	d.Text(Point{150, 170}, "middle, soft", TextStyle{Anchor: Middle, Fill: Soft, Size: 11})
	d.Text(Point{290, 155}, "12.4 mA", TextStyle{Anchor: End, Font: Mono})
	d.Text(Point{290, 95}, "turned", TextStyle{Turn: -90, Size: 11})
	d.Lines(Point{10, 170}, Wrap("Two lines of text, wrapped by their measure", 110, 11, Regular), TextStyle{Size: 11})
	return d
}

func TestFileIsWellFormed(t *testing.T) {
	wellFormed(t, sample().Bytes())
}

func TestSameCallsGiveTheSameBytes(t *testing.T) {
	first := string(sample().Bytes())
	for range 20 {
		if string(sample().Bytes()) != first {
			t.Fatal("two drawings of the same differ")
		}
	}
}
