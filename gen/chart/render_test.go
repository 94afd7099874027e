package chart

import (
	"bytes"
	"flag"
	"strings"
	"testing"

	"spruelight/gen/svg"
	"spruelight/testdata/view"
)

var update = flag.Bool("update", false, "write the golden files anew")

func TestMain(m *testing.M) { view.Main(m) }

// TestGolden compares every chart and its table with the file that was looked at.
func TestGolden(t *testing.T) {
	drawn := map[string][]byte{}
	for _, c := range charts() {
		drawn[c.name+".svg"] = c.drawing.File()
		if !strings.HasSuffix(c.name, "-phone") {
			drawn[c.name+".tsv"] = tableText(c.table)
		}
	}
	view.Golden(t, drawn, *update)
}

func tableText(t svg.Table) []byte {
	var b bytes.Buffer
	for _, row := range append([][]string{t.Head}, t.Rows...) {
		b.WriteString(strings.Join(row, "\t") + "\n")
	}
	return b.Bytes()
}

// TestTwoProgramsShowTheSame renders every chart by Chromium and by librsvg,
// which knows neither custom properties nor media queries.
func TestTwoProgramsShowTheSame(t *testing.T) {
	for _, c := range charts() {
		t.Run(c.name, func(t *testing.T) {
			w, h := c.drawing.Size()
			view.Alike(t, c.drawing.File(), w, h)
		})
	}
}

// TestTheComparisonCanFail: a label, a bar or a line less is seen.
func TestTheComparisonCanFail(t *testing.T) {
	full := stageBars(600)
	less := stageBars(600)
	less.Bars[0].Text = "1"
	moved := stageBars(600)
	moved.Bars[4].Value *= 1.3
	d, _ := full.Draw()
	reference := view.Librsvg(t, d.File())
	for name, c := range map[string]Bars{"a shorter label": less, "a longer bar": moved} {
		d, _ := c.Draw()
		diff, err := view.Difference(reference, view.Librsvg(t, d.File()))
		if err != nil {
			t.Fatal(err)
		}
		if diff < 2*view.Same {
			t.Errorf("%s: difference %.4f is close to going unseen", name, diff)
		}
		t.Logf("%s: difference %.4f", name, diff)
	}
}

// TestNuChecker validates every chart as a file of its own, and the wide ones
// inlined on one page with the style sheet.
func TestNuChecker(t *testing.T) {
	var page strings.Builder
	page.WriteString("<!doctype html>\n<html lang=\"en\">\n<head><meta charset=\"utf-8\"><title>Charts</title>\n" +
		"<style>" + svg.Properties() + svg.Stylesheet() + "</style></head>\n<body>\n")
	files := map[string][]byte{}
	own := func(name string) Frame { return frame(name, 600) } // lanes and stacks come from one declaration
	lanes, stacked := monthly(600, 10), monthly(600, 10)
	lanes.Frame, stacked.Frame = own("lanes"), own("stacked")
	for _, c := range charts() {
		files[c.name] = c.drawing.File()
	}
	for _, draw := range []func() (*svg.Drawing, svg.Table){
		stageBars(600).Draw, hoursOverTime(600).Draw, lanes.Lanes, stacked.Stacked, curing(600).Draw,
	} {
		d, _ := draw()
		page.WriteString("<figure>" + d.Inline() + "</figure>\n")
	}
	page.WriteString("</body>\n</html>\n")
	view.Valid(t, files, page.String())
}

func BenchmarkCharts(b *testing.B) {
	for b.Loop() {
		for _, c := range charts() {
			c.drawing.Inline()
		}
	}
}
