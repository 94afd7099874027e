package scale

import (
	"encoding/xml"
	"fmt"
	"math"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
	"spruelight/gen/svg"
)

const shipOutline = "M0 30 L20 30 L24 12 L40 12 L40 2 L44 2 L44 12 L60 12 L66 30 C80 31 92 29 100 26 C96 40 92 50 84 56 L10 56 C4 50 1 40 0 30 Z"

func mm(v float64) quantity.Metres { return quantity.Metres(v / 1000) }

// crowd is an invented shelf that strains the layout: far apart in size, one
// seen from above, one with an outline and a single length, one without scale.
func crowd(t testing.TB) []Piece {
	ship, err := svg.ParsePath(shipOutline)
	if err != nil {
		t.Fatal(err)
	}
	return []Piece{
		{ID: "skiff", Name: `Survey skiff "Marram"`, Says: source.Word("1/48, measures 1/46.1 ± 0.3"), Model: Size{Length: mm(204), Width: mm(67)}, Real: Size{Length: 9.4, Width: 3.1}, Ratio: 46.1, Outline: ship},
		{ID: "tower", Name: "Weather station", Says: source.Word("1/72"), Model: Size{Length: mm(92), Width: mm(92), Height: mm(318)}, Ratio: 72},
		{ID: "crawler", Name: "Mining crawler with a name that needs several lines", Says: source.Word("1/35"), Model: Size{Length: mm(262), Height: mm(118)}, Ratio: 35},
		{ID: "liner", Name: "Liner", Says: source.Word("1/700"), Model: Size{Length: mm(380), Height: mm(85)}, Ratio: 700, Outline: ship},
		{ID: "plane", Name: "Float plane", Says: source.Word("1/144"), Model: Size{Length: mm(61), Width: mm(78)}, Ratio: 144, View: Top},
		{ID: "bust", Name: "Bust", Model: Size{Width: mm(40), Height: mm(55)}, View: Front},
	}
}

// group is what the reader below finds of one piece.
type group struct{ across, up, left, bottom float64 }

// readBack reads a drawing as any program would: by its elements' coordinates.
// It knows nothing of how the drawing was made, and shares no code with it.
func readBack(t testing.TB, drawing []byte) (pieces map[string]group, bar, barMetres float64, figures []float64) {
	t.Helper()
	pieces = map[string]group{}
	decoder := xml.NewDecoder(strings.NewReader(string(drawing)))
	var in []xml.StartElement
	for {
		token, err := decoder.Token()
		if err != nil {
			break
		}
		switch e := token.(type) {
		case xml.EndElement:
			in = in[:len(in)-1]
		case xml.StartElement:
			in = append(in, e)
			if len(in) < 2 {
				continue
			}
			g, ok := extent(t, e)
			if !ok {
				continue
			}
			parent := in[len(in)-2]
			switch {
			case attr(parent, "data-piece") != "":
				pieces[attr(parent, "data-piece")] = g
			case attr(parent, "data-figure") != "":
				figures = append(figures, g.up)
			case attr(parent, "data-scale-bar") != "":
				bar = g.across
				barMetres, _ = strconv.ParseFloat(attr(parent, "data-scale-bar"), 64)
			}
		}
	}
	return pieces, bar, barMetres, figures
}

func attr(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

// extent measures a rect, polyline or path by its numbers; curves are walked in
// small steps.
func extent(t testing.TB, e xml.StartElement) (group, bool) {
	var xs, ys []float64
	add := func(x, y float64) { xs, ys = append(xs, x), append(ys, y) }
	number := func(name string) float64 { v, _ := strconv.ParseFloat(attr(e, name), 64); return v }
	switch e.Name.Local {
	case "rect":
		add(number("x"), number("y"))
		add(number("x")+number("width"), number("y")+number("height"))
	case "polyline":
		for _, pair := range strings.Fields(attr(e, "points")) {
			x, y, _ := strings.Cut(pair, ",")
			a, _ := strconv.ParseFloat(x, 64)
			b, _ := strconv.ParseFloat(y, 64)
			add(a, b)
		}
	case "path":
		walk(t, attr(e, "d"), add)
	default:
		return group{}, false
	}
	low, high := [2]float64{math.Inf(1), math.Inf(1)}, [2]float64{math.Inf(-1), math.Inf(-1)}
	for i := range xs {
		low = [2]float64{min(low[0], xs[i]), min(low[1], ys[i])}
		high = [2]float64{max(high[0], xs[i]), max(high[1], ys[i])}
	}
	return group{high[0] - low[0], high[1] - low[1], low[0], high[1]}, true
}

var pathToken = regexp.MustCompile(`[MlCZ]|-?[0-9]*\.?[0-9]+`)

// walk follows path data of absolute M, C and Z and relative l.
func walk(t testing.TB, data string, add func(x, y float64)) {
	var op string
	var at [2]float64
	fields := pathToken.FindAllString(data, -1)
	next := func() float64 {
		v, err := strconv.ParseFloat(fields[0], 64)
		if err != nil {
			t.Fatalf("path data: %v", err)
		}
		fields = fields[1:]
		return v
	}
	for len(fields) > 0 {
		if strings.Contains("MlCZ", fields[0]) {
			op, fields = fields[0], fields[1:]
			continue
		}
		switch op {
		case "C":
			p := [4][2]float64{at, {next(), next()}, {next(), next()}, {next(), next()}}
			for i := 1; i <= 400; i++ {
				s := float64(i) / 400
				u := 1 - s
				c := [4]float64{u * u * u, 3 * u * u * s, 3 * u * s * s, s * s * s}
				at = [2]float64{}
				for k := range p {
					at[0] += c[k] * p[k][0]
					at[1] += c[k] * p[k][1]
				}
				add(at[0], at[1])
			}
		case "l":
			at = [2]float64{at[0] + next(), at[1] + next()}
			add(at[0], at[1])
		default:
			at = [2]float64{next(), next()}
			add(at[0], at[1])
		}
	}
}

// trueSizes compares every silhouette with its millimetres: one factor, taken
// from the scale bar alone, must hold for all.
func trueSizes(t testing.TB, drawing []byte, want map[string][2]float64) (faults []string) {
	pieces, bar, barMetres, _ := readBack(t, drawing)
	if bar == 0 || barMetres == 0 {
		return []string{"no scale bar"}
	}
	factor := bar / barMetres
	if len(pieces) != len(want) {
		faults = append(faults, fmt.Sprintf("%d silhouettes, want %d", len(pieces), len(want)))
	}
	const step = 0.021 // numbers are printed to a hundredth, at both ends of each length
	for id, size := range want {
		g := pieces[id]
		// The bar itself is good to a hundredth, which grows with the length measured.
		slack := func(metres float64) float64 { return step + step*metres/barMetres }
		if math.Abs(g.across-size[0]*factor) > slack(size[0]) || math.Abs(g.up-size[1]*factor) > slack(size[1]) {
			faults = append(faults, fmt.Sprintf("%s: drawn %.2f × %.2f, true %.2f × %.2f", id, g.across, g.up, size[0]*factor, size[1]*factor))
		}
	}
	return faults
}

// What the pieces of crowd measure across and up in metres, by hand.
var (
	crowdModels = map[string][2]float64{
		"skiff": {0.204, 0.204 * 54 / 100}, // the outline is 100 long and 54 high
		"tower": {0.092, 0.318}, "crawler": {0.262, 0.118}, "liner": {0.380, 0.085}, "plane": {0.061, 0.078}, "bust": {0.040, 0.055},
	}
	crowdSubjects = map[string][2]float64{
		"skiff": {9.4, 9.4 * 54 / 100},
		"tower": {0.092 * 72, 0.318 * 72}, "crawler": {0.262 * 35, 0.118 * 35}, "liner": {0.380 * 700, 0.085 * 700}, "plane": {0.061 * 144, 0.078 * 144},
	}
)

func TestLineupIsTrueToSize(t *testing.T) {
	for name, c := range map[string]struct {
		o    LineupOptions
		want map[string][2]float64
	}{
		"wide":            {LineupOptions{ID: "a", Title: "Line-up", Width: 980, Rows: 2}, crowdModels},
		"narrow":          {LineupOptions{ID: "a", Title: "Line-up", Width: 304}, crowdModels},
		"inches":          {LineupOptions{ID: "a", Title: "Line-up", Width: 640, Rows: 2, Inches: true}, crowdModels},
		"subjects":        {LineupOptions{ID: "a", Title: "Subjects", Width: 980, Subjects: true}, crowdSubjects},
		"subjects narrow": {LineupOptions{ID: "a", Title: "Subjects", Width: 304, Subjects: true}, crowdSubjects},
	} {
		t.Run(name, func(t *testing.T) {
			l := DrawLineup(crowd(t), c.o)
			for _, fault := range trueSizes(t, l.Drawing.File(), c.want) {
				t.Error(fault)
			}
			if w, _ := l.Drawing.Size(); w > c.o.Width+1 {
				t.Errorf("%v wide, allowed %v", w, c.o.Width)
			}
			checkLayout(t, l)
		})
	}
}

// The check above can fail: a silhouette that is a little too large, one that
// is missing, and a bar of the wrong length are all found.
func TestTrueSizesFindsFaults(t *testing.T) {
	o := LineupOptions{ID: "a", Title: "Line-up", Width: 980}
	good := string(DrawLineup(crowd(t), o).Drawing.File())
	enlarged := crowd(t)
	enlarged[1].Model.Height *= 1.005
	for name, drawing := range map[string]string{
		"half a percent too tall": string(DrawLineup(enlarged, o).Drawing.File()),
		"missing":                 strings.Replace(good, `data-piece="liner"`, `data-other="liner"`, 1),
		"bar mislabelled":         strings.Replace(good, `data-scale-bar="0.2"`, `data-scale-bar="0.201"`, 1),
	} {
		if name != "half a percent too tall" && drawing == good {
			t.Fatalf("%s: nothing was changed", name)
		}
		if len(trueSizes(t, []byte(drawing), crowdModels)) == 0 {
			t.Errorf("%s: not found", name)
		}
	}
}

// checkLayout holds what a reader needs: nothing overlaps, pieces stand on their
// line, and each comes no larger than the one before it.
func checkLayout(t testing.TB, l Lineup) {
	t.Helper()
	boxes := l.Drawing.Boxes()
	for i, a := range boxes {
		for _, b := range boxes[:i] {
			if a.Box.Inset(0.3).Overlaps(b.Box.Inset(0.3)) {
				t.Errorf("%s %q %v overlaps %s %q %v", a.Kind, a.Name, a.Box, b.Kind, b.Name, b.Box)
			}
		}
	}
	feet := map[int]float64{}
	for i, s := range l.Stands {
		if foot, ok := feet[s.Row]; ok && math.Abs(foot-s.Box.Bottom()) > 1e-9 {
			t.Errorf("%s floats", s.ID)
		}
		feet[s.Row] = s.Box.Bottom()
		if i > 0 && max(s.Across, s.Up) > max(l.Stands[i-1].Across, l.Stands[i-1].Up) {
			t.Errorf("%s is larger than the one before it", s.ID)
		}
	}
}

// The figure beside a model is an adult of 1.6905 m at that model's scale.
func TestFiguresAreToScale(t *testing.T) {
	l := DrawLineup(crowd(t), LineupOptions{ID: "a", Title: "Line-up", Width: 980})
	_, bar, barMetres, figures := readBack(t, l.Drawing.File())
	var want []float64
	for _, s := range l.Stands {
		if s.Ratio > 0 {
			want = append(want, 1.6905/s.Ratio*bar/barMetres)
		}
	}
	if len(figures) != len(want) {
		t.Fatalf("%d figures, want %d", len(figures), len(want))
	}
	for i := range want {
		if math.Abs(figures[i]-want[i]) > 0.05 {
			t.Errorf("figure %d: %.2f, want %.2f", i, figures[i], want[i])
		}
	}
}

func TestCheckPiece(t *testing.T) {
	for _, p := range crowd(t) {
		want := ""
		if p.ID == "liner" {
			want = "lineup-no-size"
			p.Model, p.Outline = Size{Height: mm(85)}, svg.Path{}
		}
		if p.ID == "skiff" {
			want = "outline-proportions"
			p.Model.Height = mm(80)
		}
		if got := rules(CheckPiece(p)); got != want {
			t.Errorf("%s: got %q, want %q", p.ID, got, want)
		}
	}
	if l := DrawLineup([]Piece{{ID: "x", Name: "X"}}, LineupOptions{ID: "a", Title: "Line-up", Width: 300}); len(l.Left) != 1 ||
		len(l.Stands) != 0 {
		t.Errorf("a piece without size: %d left, %d drawn", len(l.Left), len(l.Stands))
	}
}

func TestWriteForLooking(t *testing.T) {
	dir := os.Getenv("SCALE_LOOK")
	if dir == "" {
		t.Skip("SCALE_LOOK names no folder")
	}
	for name, o := range map[string]LineupOptions{
		"wide":     {ID: "a", Title: "Line-up", Width: 980, Rows: 2},
		"narrow":   {ID: "a", Title: "Line-up", Width: 304},
		"subjects": {ID: "a", Title: "Subjects", Width: 980, Subjects: true},
	} {
		if err := os.WriteFile(dir+"/"+name+".svg", DrawLineup(crowd(t), o).Drawing.File(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}
