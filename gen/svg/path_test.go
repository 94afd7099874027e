package svg

import (
	"errors"
	"fmt"
	"html"
	"math"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"spruelight/testdata/view"
)

// TestParsePath gives data and the absolute lines and cubics it stands for. The
// grammar is that of SVG 2, section 9.3; the cases with run-together numbers and
// flags follow from its productions.
func TestParsePath(t *testing.T) {
	for _, c := range []struct{ data, want string }{
		{"", ""},
		{" \n\t", ""},
		{"M10 20", "M10 20"},
		{"m10,20", "M10 20"},
		{"M10 20 30 40", "M10 20L30 40"},
		{"m10 20 30 40 5 5", "M10 20L40 60 45 65"},
		{"M1 2L3 4 5 6", "M1 2L3 4 5 6"},
		{"M1 2l3 4", "M1 2L4 6"},
		{"M1 2H9 8V7h-1v-2", "M1 2L9 2 8 2 8 7 7 7 7 5"},
		{"M0 0C1 2 3 4 5 6", "M0 0C1 2 3 4 5 6"},
		{"M10 10c1 2 3 4 5 6", "M10 10C11 12 13 14 15 16"},
		{"M0 0C0 10 10 10 10 0S20-10 20 0", "M0 0C0 10 10 10 10 0 10 -10 20 -10 20 0"},
		{"M0 0S5 5 10 0", "M0 0C0 0 5 5 10 0"},
		{"M0 0L1 1s5 5 9-1", "M0 0L1 1C1 1 6 6 10 0"},
		{"M0 0Q3 3 6 0", "M0 0C2 2 4 2 6 0"},
		{"M0 0Q3 3 6 0T12 0", "M0 0C2 2 4 2 6 0 8 -2 10 -2 12 0"},
		{"M0 0T6 6", "M0 0C0 0 2 2 6 6"},
		{"M0 0 6 0Z", "M0 0L6 0Z"},
		{"M1 1 6 0zl1 1", "M1 1L6 0ZL2 2"},
		{"M1 1z m2 2 1 0", "M1 1ZM3 3L4 3"},
		{"M.5.5-1-1e0", "M0.5 0.5L-1 -1"},
		{"M1.5.5.25.75", "M1.5 0.5L0.25 0.75"},
		{"M1e1 2E+1L1e-1-1", "M10 20L0.1 -1"},
		{"M0 0A5 5 0 0 1 10 0", "M0 0C0 -2.76 2.24 -5 5 -5 7.76 -5 10 -2.76 10 0"},
		{"M0 0a5 5 0 0110 0", "M0 0C0 -2.76 2.24 -5 5 -5 7.76 -5 10 -2.76 10 0"},
		{"M0 0a5,5,0,0,1,10,0", "M0 0C0 -2.76 2.24 -5 5 -5 7.76 -5 10 -2.76 10 0"},
		{"M0 0A1 1 0 0 1 10 0", "M0 0C0 -2.76 2.24 -5 5 -5 7.76 -5 10 -2.76 10 0"}, // radii too small grow
		{"M0 0A0 5 0 0 1 10 0", "M0 0L10 0"},
		{"M0 0A5 5 0 0 1 0 0L1 1", "M0 0L1 1"},
		{"M0,0L1,1,2,2", "M0 0L1 1 2 2"},
	} {
		p, err := ParsePath(c.data)
		if err != nil {
			t.Errorf("%q: %v", c.data, err)
			continue
		}
		if got := absolute(p); got != c.want {
			t.Errorf("%q: %q, want %q", c.data, got, c.want)
		}
	}
}

// absolute writes a path as absolute path data, a letter once for a run of like steps.
func absolute(p Path) string {
	var b []byte
	var last byte
	for _, s := range p.segments {
		if s.op == last && s.op != 'M' {
			b = append(b, ' ')
		} else {
			b = append(b, s.op)
		}
		last = s.op
		switch s.op {
		case 'C':
			b = appendNumbers(b, s.c1.X, s.c1.Y, s.c2.X, s.c2.Y, s.to.X, s.to.Y)
		case 'M', 'L':
			b = appendNumbers(b, s.to.X, s.to.Y)
		}
	}
	return string(b)
}

// TestPathsBeginSomewhere: without a current point each step begins a subpath.
func TestPathsBeginSomewhere(t *testing.T) {
	for want, build := range map[string]func(p *Path){
		"M1 2":             func(p *Path) { p.LineTo(1, 2) },
		"M1 2C1 2 3 4 5 6": func(p *Path) { p.CurveTo(1, 2, 3, 4, 5, 6) },
		"M3 3C3 3 4 2 6 0": func(p *Path) { p.QuadTo(3, 3, 6, 0) },
		"M5 6":             func(p *Path) { p.Arc(1, 1, 0, false, true, 5, 6) },
		"":                 func(p *Path) { p.Close() },
		"M1 1L2 2ZL3 3":    func(p *Path) { p.MoveTo(1, 1).LineTo(2, 2).Close().Close().LineTo(3, 3) },
	} {
		var p Path
		build(&p)
		if got := absolute(p); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

func TestParsePathRefuses(t *testing.T) {
	for _, c := range []struct {
		data   string
		offset int
		what   string
	}{
		{"L1 1", 0, "must begin"},
		{"10 10", 0, "no path command"},
		{"M", 1, "number is missing"},
		{"M1", 2, "number is missing"},
		{"M1 2 3", 6, "number is missing"},
		{"M.5.5-1-1e0+2", 13, "number is missing"},
		{"M,1 2", 1, "number is missing"},
		{"M1,,2", 3, "number is missing"},
		{"M1 2,", 4, "no path command"},
		{"M1 2 X", 5, "no path command"},
		{"M1 2;L3 4", 4, "no path command"},
		{"M0 0Z1 1", 5, "no path command"},
		{"M0 0A5 5 0 2 1 9 9", 11, "flag"},
		{"M0 0A5 5 0 1", 12, "flag"},
		{"M1e999 0", 1, "beyond"},
		{"M1e10 0", 1, "beyond"},
		{"M9e8 0l9e8 0", 6, "beyond"},
		{"Mnan 0", 1, "number is missing"},
		{"M- 0", 1, "number is missing"},
		{"M. 0", 1, "number is missing"},
		{"M0 0<script>", 4, "no path command"},
		{"M0 0" + strings.Repeat("l1 1", MaxPathSegments), -1, "more than"},
		{strings.Repeat(" ", MaxPathBytes+1), MaxPathBytes, "longer"},
	} {
		p, err := ParsePath(c.data)
		var pe *PathError
		if !errors.As(err, &pe) || !p.Empty() {
			t.Errorf("%.40q: error %v, path of %d steps", c.data, err, len(p.segments))
			continue
		}
		if c.offset >= 0 && pe.Offset != c.offset || !strings.Contains(pe.What, c.what) {
			t.Errorf("%.40q: %v, want %q at byte %d", c.data, err, c.what, c.offset)
		}
	}
}

// outlines are paths whose boxes a browser works out for comparison.
var outlines = []string{
	"M10 80C40 10 65 10 95 80S150 150 180 80",
	"M10 80Q52.5 10 95 80T180 80",
	"M10 315L110 215A30 50 0 0 1 162.55 162.45L172.55 152.45A30 50 -45 0 1 215.1 109.9L315 10",
	"m100 100 a 30 70 33 1 0 50 20 z",
	"m100 100 a 30 70 33 0 1 50 20 z",
	"M20 20a60 20 140 1 1-15 40 5 5 0 00 9 9",
	"M0 0c100 0-50 50 50 50s-50 50 50 50",
	"M50 0A50 50 0 1 1 49.9 0Z",
	"M5 5h40v40h-40zm10 10v20h20v-20z",
	"M0 0C30 60 60-60 90 0",
	"M3 3q100 3-40 80t20 20",
}

// TestPathBoxAndArcsAgainstChromium compares boxes and lengths.
func TestPathBoxAndArcsAgainstChromium(t *testing.T) {
	var doc strings.Builder
	doc.WriteString("<!doctype html><svg>")
	for _, o := range outlines {
		p, err := ParsePath(o)
		if err != nil {
			t.Fatal(err)
		}
		fmt.Fprintf(&doc, `<path d="%s"/><path d="%s"/>`, html.EscapeString(o), p.appendData(nil))
	}
	doc.WriteString("</svg>")
	ctx := view.Page(t, "paths.html", []byte(doc.String()))
	type shape struct{ X, Y, W, H, Length float64 }
	got := view.Run(t, ctx, chromedp.Evaluate[[]shape](`[...document.querySelectorAll("path")].map(p => {
		const b = p.getBBox()
		return {X: b.x, Y: b.y, W: b.width, H: b.height, Length: p.getTotalLength()}
	})`))
	for i, o := range outlines {
		p, _ := ParsePath(o)
		original, ours, b := got[2*i], got[2*i+1], p.Box()
		off := max(math.Abs(original.X-b.X), math.Abs(original.Y-b.Y), math.Abs(original.W-b.W), math.Abs(original.H-b.H))
		if off > 0.02*math.Sqrt2 {
			t.Errorf("%s: box %+v, in the browser %+v", o, b, original)
		}
		if math.Abs(original.Length-ours.Length) > 0.001*original.Length+0.05 {
			t.Errorf("%s: length %g, in the browser %g", o, ours.Length, original.Length)
		}
	}
}

// TestArcLiesOnItsCircle: no point of the cubics strays from the circle.
func TestArcLiesOnItsCircle(t *testing.T) {
	var p Path
	p.MoveTo(100, 0).Arc(100, 100, 0, true, true, 0, -100)
	at := Point{}
	for _, s := range p.segments {
		if s.op == 'C' {
			for u := 0.0; u <= 1; u += 0.05 {
				q := s.pointAt(at, u)
				if r := math.Hypot(q.X, q.Y); math.Abs(r-100) > 0.03 {
					t.Errorf("a point at %v is %.4f from the centre", q, r)
				}
			}
		}
		at = s.to
	}
}

func TestMatrix(t *testing.T) {
	p := Point{3, 5}
	for _, c := range []struct {
		m    Matrix
		want Point
	}{
		{Translate(1, 2), Point{4, 7}},
		{Scale(2, -1), Point{6, -5}},
		{Rotate(90), Point{-5, 3}},
		{Rotate(-90), Point{5, -3}},
		{Translate(1, 2).Then(Scale(2, 2)), Point{8, 14}},
		{Scale(2, 2).Then(Translate(1, 2)), Point{7, 12}},
	} {
		if got := c.m.Apply(p); math.Hypot(got.X-c.want.X, got.Y-c.want.Y) > 1e-9 {
			t.Errorf("%+v: %v, want %v", c.m, got, c.want)
		}
	}
}

func FuzzParsePath(f *testing.F) {
	for _, o := range outlines {
		f.Add(o)
	}
	for _, s := range []string{"", "M", "M0 0A1 1 0 0 0", "m1e-9 1e9z", "M0 0t1 1", "M-.5e+3-1", "M0 0a1e-300 1 0 1 1 1 1",
		"M0 0A1e9 1e9 1e9 1 1 1 1", "z"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, data string) {
		p, err := ParsePath(data)
		if err != nil {
			if !p.Empty() {
				t.Fatal("an error and a path")
			}
			return
		}
		if len(p.segments) > MaxPathSegments+4 {
			t.Fatalf("%d steps", len(p.segments))
		}
		if b := p.Box(); !b.finite() || b.W < 0 || b.H < 0 {
			t.Fatalf("box %+v", b)
		}
		d := New("fuzz", "Fuzz", "")
		d.Path(p, Style{Fill: Ink})
		view.WellFormed(t, d.File())
		printed := string(p.appendData(nil))
		again, err := ParsePath(printed)
		if err != nil || len(again.segments) != len(p.segments) {
			t.Fatalf("%q reads back as %q: %v", printed, again.appendData(nil), err)
		}
		if got := absolute(again); got != absolute(p) {
			t.Fatalf("%q reads back as %q, want %q", printed, got, absolute(p))
		}
	})
}
