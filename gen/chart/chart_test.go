package chart

import (
	"encoding/xml"
	"fmt"
	"math"
	"math/rand"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"spruelight/gen/svg"
	"spruelight/testdata/effort"
	"spruelight/testdata/view"
)

// stroke is a straight line of a drawing and how many texts were drawn before it.
type stroke struct {
	from, to svg.Point
	texts    int
}

// strokes reads the straight lines of a drawing back from what is printed, and
// which of its texts lie on a plate of paper.
func strokes(t testing.TB, d *svg.Drawing) (lines []stroke, plates []bool) {
	t.Helper()
	dec := xml.NewDecoder(strings.NewReader(d.Inline()))
	plate, defs := false, false
	for {
		tok, err := dec.Token()
		if err != nil {
			return lines, plates
		}
		if end, ok := tok.(xml.EndElement); ok && end.Name.Local == "defs" {
			defs = false
		}
		e, ok := tok.(xml.StartElement)
		if !ok {
			continue
		}
		defs = defs || e.Name.Local == "defs"
		a := attributes(e)
		switch name := e.Name.Local; {
		case defs:
		case name == "line":
			lines = append(lines, stroke{svg.Point{X: num(a["x1"]), Y: num(a["y1"])}, svg.Point{X: num(a["x2"]), Y: num(a["y2"])}, len(plates)})
		case name == "polyline":
			points := strings.Fields(a["points"])
			for i := 1; i < len(points); i++ {
				lines = append(lines, stroke{pair(points[i-1]), pair(points[i]), len(plates)})
			}
		case name == "text":
			plates = append(plates, plate)
		}
		plate = e.Name.Local == "rect" && a["class"] == "d-paper"
	}
}

func attributes(e xml.StartElement) map[string]string {
	m := map[string]string{}
	for _, a := range e.Attr {
		m[a.Name.Local] = a.Value
	}
	return m
}

func num(s string) float64 {
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		panic(err)
	}
	return v
}

func pair(s string) svg.Point {
	x, y, _ := strings.Cut(s, ",")
	return svg.Point{X: num(x), Y: num(y)}
}

// crosses reports whether a straight line runs through a box (Liang and Barsky's
// clipping, ACM Transactions on Graphics 3(1), 1984).
func crosses(from, to svg.Point, b svg.Box) bool {
	low, high := 0.0, 1.0
	clip := func(d, near, far float64) bool {
		if d == 0 {
			return near < 0 && far > 0
		}
		t, u := near/d, far/d
		low, high = max(low, min(t, u)), min(high, max(t, u))
		return low < high
	}
	return clip(to.X-from.X, b.X-from.X, b.Right()-from.X) && clip(to.Y-from.Y, b.Y-from.Y, b.Bottom()-from.Y)
}

// checkLayout returns what is wrong with the layout of a drawing.
func checkLayout(t testing.TB, d *svg.Drawing, textsInMarks bool) (wrong []string) {
	t.Helper()
	return faults(t, d, d.Boxes(), d.ViewBox(), textsInMarks)
}

// faults returns what is wrong with registered boxes in a view box: texts that touch
// each other or a mark (unless they lie wholly in it, where that is meant), lines
// through texts, texts outside the view box.
func faults(t testing.TB, d *svg.Drawing, boxes []svg.Labelled, shown svg.Box, textsInMarks bool) (wrong []string) {
	t.Helper()
	say := func(format string, args ...any) { wrong = append(wrong, fmt.Sprintf(format, args...)) }
	var texts, marks []svg.Labelled
	for _, b := range boxes {
		switch b.Kind {
		case svg.KindText:
			texts = append(texts, b)
		case svg.KindMark:
			marks = append(marks, b)
		}
	}
	lines, plates := strokes(t, d)
	if len(plates) != len(texts) {
		say("%d texts are printed, %d registered", len(plates), len(texts))
		return wrong
	}
	for i, a := range texts {
		inner := a.Box.Inset(0.5)
		if !shown.Contains(a.Box.Inset(0.02)) {
			say("%q lies outside the view box: %+v in %+v", a.Name, a.Box, shown)
		}
		for _, b := range texts[i+1:] {
			if inner.Overlaps(b.Box.Inset(0.5)) {
				say("%q %+v touches %q %+v", a.Name, a.Box, b.Name, b.Box)
			}
		}
		for _, m := range marks {
			if inner.Overlaps(m.Box) && !(textsInMarks && m.Box.Contains(inner)) {
				say("%q %+v touches the mark of %q %+v", a.Name, a.Box, m.Name, m.Box)
			}
		}
		for _, l := range lines {
			if crosses(l.from, l.to, a.Box.Inset(1.2)) && !(plates[i] && l.texts <= i) {
				say("a line %v–%v runs through %q %+v", l.from, l.to, a.Name, a.Box)
			}
		}
	}
	return wrong
}

func TestChartLayout(t *testing.T) {
	for _, c := range charts() {
		for _, w := range checkLayout(t, c.drawing, strings.HasPrefix(c.name, "stacked")) {
			t.Errorf("%s: %s", c.name, w)
		}
	}
}

// TestLayoutCheckCanFail shows the check each fault that it is there to find.
func TestLayoutCheckCanFail(t *testing.T) {
	for name, draw := range map[string]func(d *svg.Drawing){
		"touches":      func(d *svg.Drawing) { d.Text(svg.Point{X: 5, Y: 52}, "other", svg.TextStyle{}) },
		"runs through": func(d *svg.Drawing) { d.Line(svg.Point{X: 0, Y: 40}, svg.Point{X: 60, Y: 52}, svg.Style{}) },
		"touches the":  func(d *svg.Drawing) { d.Mark(svg.KindMark, "bar", svg.Box{X: 0, Y: 40, W: 20, H: 20}) },
		"runs  through": func(d *svg.Drawing) {
			d.Polyline([]svg.Point{{X: 0, Y: 0}, {X: 30, Y: 45}, {X: 60, Y: 90}}, svg.Style{})
		},
		"runs   through": func(d *svg.Drawing) {
			d.Text(svg.Point{X: 0, Y: 90}, "on a plate", svg.TextStyle{Plate: true})
			d.Line(svg.Point{X: 0, Y: 87}, svg.Point{X: 90, Y: 87}, svg.Style{})
		},
	} {
		d := svg.New("x", "x", "")
		d.Text(svg.Point{X: 0, Y: 50}, "a label", svg.TextStyle{})
		draw(d)
		want := strings.Join(strings.Fields(name), " ")
		if wrong := checkLayout(t, d, false); len(wrong) == 0 || !strings.Contains(strings.Join(wrong, "\n"), want) {
			t.Errorf("%s: goes unseen: %q", want, wrong)
		}
	}
	d := svg.New("x", "x", "")
	d.Text(svg.Point{X: 0, Y: 50}, "a label", svg.TextStyle{})
	for want, wrong := range map[string][]string{
		"outside":     faults(t, d, d.Boxes(), svg.Box{W: 10, H: 10}, false),
		"are printed": faults(t, d, nil, d.ViewBox(), false),
	} {
		if !strings.Contains(strings.Join(wrong, "\n"), want) {
			t.Errorf("%s: goes unseen: %q", want, wrong)
		}
	}
	d = svg.New("x", "x", "")
	d.Line(svg.Point{X: 0, Y: 47}, svg.Point{X: 90, Y: 47}, svg.Style{})
	d.Text(svg.Point{X: 0, Y: 50}, "on a plate", svg.TextStyle{Plate: true})
	if wrong := checkLayout(t, d, false); len(wrong) > 0 {
		t.Errorf("a line behind a plate counts: %q", wrong)
	}
}

// words are labels of every awkward kind.
var words = append(slices.Concat(view.Labels, stages, view.Hostile),
	"Donaudampfschifffahrtsgesellschaftskapitänsmützenabzeichen", strings.Repeat("long label ", 30), strings.Repeat("W", 200))

var amounts = []float64{0, 1, 2.5, 1e-9, 3, 1e12, 1e300, math.MaxFloat64, -4, -1e18, math.NaN(), math.Inf(1), math.Inf(-1), 17}

// randomCharts draws every kind of chart from awkward data.
func randomCharts(seed int64) []namedDrawing {
	r := rand.New(rand.NewSource(seed))
	word := func() string { return words[r.Intn(len(words))] }
	calm := r.Intn(2) == 0 // half the charts have ordinary numbers
	amount := func() float64 {
		if calm {
			return math.Round(r.ExpFloat64()*400) / 100
		}
		return amounts[r.Intn(len(amounts))]
	}
	from := date(2026, time.February, 14)
	moment := func() time.Time { // some of them the same, some decades apart
		hours := []float64{0, 0, 1, 26, r.ExpFloat64() * 100, r.ExpFloat64() * 1e5}[r.Intn(6)]
		return from.Add(time.Duration(hours * float64(time.Hour)))
	}
	n := []int{0, 1, 2, 3, 7, 20, 60}[r.Intn(7)]
	width := []float64{0, -5, 240, 320, 399, 401, 560, 900, 1e9}[r.Intn(9)]
	f := Frame{ID: word(), Title: "title", Desc: word(), Width: width, Empty: word()}
	bars := Bars{Frame: f, Label: word(), Value: word()}
	steps := Steps{Frame: f, When: word(), Value: word(), Format: plain}
	months := Months{Frame: f, Period: word(), Total: word()}
	clock := Clock{Frame: f, Row: word(), What: word(), From: word(), To: word(), Now: Moment{moment(), word(), word()}}
	for range r.Intn(9) {
		months.Series = append(months.Series, Series{Name: word(), Total: word()})
	}
	for i := range n {
		bars.Bars = append(bars.Bars, Bar{word(), amount(), word()})
		steps.Points = append(steps.Points, Datum{moment(), amount(), word(), word()})
		col := Column{Label: word(), Tick: word(), Group: []string{"2025", "2026", word()}[i%3], Total: word()}
		for range months.Series {
			col.Values = append(col.Values, amount())
			col.Texts = append(col.Texts, word())
		}
		months.Columns = append(months.Columns, col)
		row := Row{Label: word(), Note: word()}
		for range r.Intn(5) {
			w := Window{From: moment(), Label: word(), FromText: word(), ToText: word(), Fill: svg.Fill(i)}
			if r.Intn(4) > 0 {
				w.To = w.From.Add(moment().Sub(from))
			}
			row.Windows = append(row.Windows, w)
		}
		clock.Rows = append(clock.Rows, row)
	}
	for range []int{0, 1, 5, 40}[r.Intn(4)] {
		tick := Tick{moment(), word()}
		steps.Ticks, clock.Ticks = append(steps.Ticks, tick), append(clock.Ticks, tick)
	}
	return drawAll("", bars, steps, months, clock)
}

// TestChartsOfAwkwardData: whatever comes in, the file is well-formed, as wide as
// asked for, without touching labels, and the table is complete.
func TestChartsOfAwkwardData(t *testing.T) {
	for seed := range int64(effort.Of(100, 400)) {
		for _, c := range randomCharts(seed) {
			view.WellFormed(t, c.drawing.File())
			for i, row := range c.table.Rows {
				if len(row) != len(c.table.Head) {
					t.Errorf("seed %d, %s: row %d has %d cells, the head %d", seed, c.name, i, len(row), len(c.table.Head))
				}
			}
			for _, w := range checkLayout(t, c.drawing, c.name == "stacked") {
				t.Errorf("seed %d, %s: %s", seed, c.name, w)
			}
			if w, _ := c.drawing.Size(); w != math.Trunc(w) || w < leastWidth || w > mostWidth {
				t.Errorf("seed %d, %s: %g wide", seed, c.name, w)
			}
		}
		if t.Failed() {
			return
		}
	}
}

// TestChartsKeepTheirWidth: what is asked for is what is drawn.
func TestChartsKeepTheirWidth(t *testing.T) {
	for _, c := range charts() {
		want := 600.0
		if strings.HasSuffix(c.name, "-phone") {
			want = 320
		}
		if w, _ := c.drawing.Size(); w != want {
			t.Errorf("%s is %g wide, want %g", c.name, w, want)
		}
	}
}

// TestTablesAreInFull: a label too long for the chart stands in the table uncut.
func TestTablesAreInFull(t *testing.T) {
	long := strings.TrimSpace(strings.Repeat("long label ", 30))
	f := Frame{ID: "x", Title: "x", Width: 320}
	day := date(2026, time.February, 14)
	_, bars := Bars{Frame: f, Bars: []Bar{{long, 1, long + " h"}}}.Draw()
	_, steps := Steps{Frame: f, Format: plain, Points: []Datum{{day, 1, long, long}}}.Draw()
	_, lanes := Months{Frame: f, Series: []Series{{Name: long}}, Columns: []Column{
		{Label: long, Tick: "x", Values: []float64{1}, Texts: []string{long}, Total: long}}}.Lanes()
	_, clock := Clock{Frame: f, Now: Moment{day, "now", long}, Rows: []Row{
		{long, long, []Window{{day, day.AddDate(0, 0, 1), long, long, long, svg.Fill1}}}, {"bare", "", nil}}}.Draw()
	for name, c := range map[string]struct {
		got  svg.Table
		want [][]string
	}{
		"bars":  {bars, [][]string{{"", ""}, {long, long + " h"}}},
		"steps": {steps, [][]string{{"", ""}, {long, long}}},
		"lanes": {lanes, [][]string{{"", long, ""}, {long, long, long}}},
		"clock": {clock, [][]string{{"", "", "", ""}, {long + ", " + long, long, long, long}, {"bare", "", "", ""}, {"now", "", long, long}}},
	} {
		all := append([][]string{c.got.Head}, c.got.Rows...)
		if fmt.Sprint(all) != fmt.Sprint(c.want) {
			t.Errorf("%s: %q, want %q", name, all, c.want)
		}
	}
}

// TestBarsAreInProportion measures the bars: length is to length as value to value.
func TestBarsAreInProportion(t *testing.T) {
	c := stageBars(600)
	d, _ := c.Draw()
	var marks []svg.Box
	for _, b := range d.Boxes() {
		if b.Kind == svg.KindMark {
			marks = append(marks, b.Box)
		}
	}
	unit := marks[0].W / c.Bars[0].Value
	for i, b := range c.Bars {
		if math.Abs(marks[i].W-unit*b.Value) > 1e-6 {
			t.Errorf("%s: %g long for %g, %g a unit", b.Label, marks[i].W, b.Value, unit)
		}
	}
}

// TestStacksAddUp: parts of a column stand on each other without gap, and their
// heights are in proportion.
func TestStacksAddUp(t *testing.T) {
	c := monthly(600, 10)
	d, _ := c.Stacked()
	byColumn := map[float64][]svg.Box{}
	for _, b := range d.Boxes() {
		if b.Kind == svg.KindMark {
			byColumn[b.Box.X] = append(byColumn[b.Box.X], b.Box)
		}
	}
	tallest := 0.0
	for _, col := range c.Columns {
		tallest = max(tallest, col.sum())
	}
	total := 0.0
	for _, parts := range byColumn {
		for i := 1; i < len(parts); i++ {
			if math.Abs(parts[i].Bottom()-parts[i-1].Y) > 1e-6 {
				t.Errorf("a gap between %+v and %+v", parts[i-1], parts[i])
			}
		}
		for _, p := range parts {
			total += p.H
		}
	}
	want := 0.0
	for _, col := range c.Columns {
		want += col.sum()
	}
	if math.Abs(total-want/tallest*stackHeight) > 1e-6 {
		t.Errorf("all parts together are %g high, want %g", total, want/tallest*stackHeight)
	}
}

func TestRoundValues(t *testing.T) {
	for _, c := range []struct {
		from, to float64
		n        int
		want     string
	}{
		{0, 77.5, 4, "[0 20 40 60 80]"},
		{0, 80, 4, "[0 20 40 60 80]"},
		{0, 1, 4, "[0 0.5 1]"},
		{0, 157, 4, "[0 50 100 150 200]"},
		{-3, 9, 4, "[-5 0 5 10]"},
		{0, 0.003, 3, "[0 0.001 0.002 0.003]"},
		{5, 5, 4, "[5]"},
		{0, 3e15, 3, "[0 1e+15 2e+15 3e+15]"},
		{0, 10, 0, "[0 10]"},
	} {
		if got := fmt.Sprint(roundValues(c.from, c.to, c.n)); got != c.want {
			t.Errorf("%g…%g in %d: %s, want %s", c.from, c.to, c.n, got, c.want)
		}
	}
}

func TestTicks(t *testing.T) {
	berlin := time.FixedZone("CET", 3600)
	at := func(s string) time.Time {
		v, err := time.ParseInLocation("2006-01-02 15:04", s, berlin)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	for _, c := range []struct{ from, to, want string }{
		{"2026-02-14 19:30", "2026-02-15 01:00", "20:00 22:00 00:00"},
		{"2026-02-14 19:30", "2026-02-17 07:30", "15 Feb 16 Feb 17 Feb"},
		{"2026-02-14 19:30", "2026-02-14 19:30", ""},
		{"2026-01-20 00:00", "2026-03-05 00:00", "20 Jan 3 Feb 17 Feb 3 Mar"},
		{"2025-10-03 12:00", "2026-03-20 12:00", "Nov 2025 Jan 2026 Mar 2026"},
		{"2025-11-30 12:00", "2026-02-01 12:00", "Dec 2025 Jan 2026 Feb 2026"},
		{"2019-05-01 00:00", "2026-05-01 00:00", "2020 2022 2024 2026"},
	} {
		var got []string
		for _, k := range Ticks(at(c.from), at(c.to), 4, tickText) {
			got = append(got, k.Label)
		}
		if strings.Join(got, " ") != c.want {
			t.Errorf("%s to %s: %q, want %q", c.from, c.to, got, c.want)
		}
	}
}

// TestTimeTicksThroughTheClockChange: on the last Sunday of March days stay on
// midnight, on that of October the hour that comes twice does not stop the ticks.
func TestTimeTicksThroughTheClockChange(t *testing.T) {
	berlin, err := time.LoadLocation("Europe/Berlin")
	if err != nil {
		t.Skipf("outside check left out: no time zone data: %v", err)
	}
	days := Ticks(time.Date(2026, 3, 28, 0, 0, 0, 0, berlin), time.Date(2026, 3, 31, 0, 0, 0, 0, berlin), 4, tickText)
	var gaps []float64
	for i := 1; i < len(days); i++ {
		gaps = append(gaps, days[i].At.Sub(days[i-1].At).Hours())
	}
	if fmt.Sprint(gaps) != "[24 23 24]" {
		t.Errorf("hours between midnights: %v", gaps)
	}
	hours := Ticks(time.Date(2026, 10, 25, 0, 0, 0, 0, berlin), time.Date(2026, 10, 25, 6, 0, 0, 0, berlin), 7, tickText)
	if len(hours) < 7 || hours[len(hours)-1].Label != "06:00" {
		t.Errorf("hours of 25 October: %v", hours)
	}
}

// TestSixtyOfEach: the largest charts stay legible and quick to lay out.
func TestSixtyOfEach(t *testing.T) {
	bars := Bars{Frame: frame("sixty", 600), Label: "Part", Value: "Hours"}
	for i := range 60 {
		v := float64(i*i%61) / 4
		bars.Bars = append(bars.Bars, Bar{fmt.Sprintf("Part %d", i+1), v, hoursText(v)})
	}
	d, table := bars.Draw()
	shown := 0
	for _, b := range d.Boxes() {
		if b.Kind == svg.KindText {
			shown++
		}
	}
	if shown != 120 || len(table.Rows) != 60 {
		t.Errorf("%d texts for 60 bars, %d rows", shown, len(table.Rows))
	}
	for _, draw := range []func(Months) (*svg.Drawing, svg.Table){Months.Lanes, Months.Stacked} {
		d, table := draw(monthly(600, 60))
		for _, w := range checkLayout(t, d, true) {
			t.Error(w)
		}
		if len(table.Rows) != 60 {
			t.Errorf("%d rows", len(table.Rows))
		}
	}
}
