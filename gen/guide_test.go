package gen

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"spruelight/gen/circuit"
	"spruelight/gen/paint"
	"spruelight/gen/quantity"
	"spruelight/themes"
)

// The numbers that the guide gives of the example's models are those that the
// program works out.
func TestGuideGivesTheProgramsNumbers(t *testing.T) {
	r := newRun(Env{Content: os.DirFS("../content-example"), Themes: themes.FS, Moment: time.Date(2026, 3, 15, 21, 0, 0, 0, time.UTC)})
	r.read(context.Background())
	r.reckon(context.Background())
	works := map[string]*work{}
	for _, w := range r.works {
		works[w.slug()] = w
	}
	main := &works["marram"].light.Circuits[0].Solution
	saloon := &main.Branches[0]
	tower := &works["cairnhead"].light.Circuits[0].Solution
	judged := &works["marram"].scale.Judged
	light := works["marram"].finish.Paint.Areas[0].Light[0]
	round := func(v float64, digits int) string { return quantity.Round(v, digits) }
	page := func(name string) string {
		text, err := os.ReadFile(filepath.Join("..", "content-example", "wall", name))
		if err != nil {
			t.Fatal(err)
		}
		return string(text)
	}
	for _, c := range []struct{ page, is string }{
		{"guide-loom.md", quantity.About(saloon.Resistor.Exact).String()},
		{"guide-loom.md", saloon.Resistor.Code},
		{"guide-loom.md", quantity.About(saloon.Current.Nominal).String()},
		{"guide-loom.md", saloon.Figures(main)[1].Range()},
		{"guide-loom.md", saloon.Resistor.Below.Ohms.Code() + " with " + quantity.About(saloon.Resistor.Below.Current).String()},
		{"guide-loom.md", saloon.Resistor.Above.Ohms.Code() + " with " + quantity.About(saloon.Resistor.Above.Current).String()},
		{"guide-loom.md", "carries " + quantity.About(main.Total.Current.Nominal).String()},
		{"guide-loom.md", "factor of " + round(main.Matched[0].Threshold, 3)},
		{"guide-loom.md", "come out at " + round(main.Matched[0].Worst, 3)},
		{"guide-loom.md", quantity.About(circuit.FullSize(3e-3, 48)).String() + " across"},
		{"guide-loom.md", quantity.About(saloon.Lamps[0].Volts.Nominal).String() + " between R1 and D1"},
		{"guide-light-blocking.md", "has " + light.Coats[0].Density.Text()},
		{"guide-light-blocking.md", "silver " + light.Coats[1].Density.Text()},
		{"guide-light-blocking.md", "white " + light.Coats[2].Density.Text()},
		{"guide-light-blocking.md", "together " + light.Total.Text()},
		{"guide-light-blocking.md", light.Passing.Text()},
		{"guide-scale.md", judged.Believed[0].Implied[1].Text().String()},
		{"guide-scale.md", judged.Best.Text().String()},
		{"guide-scale.md", fmt.Sprintf("%s to %s", round(judged.Believed[0].Implied[0].Span.Low, 4), round(judged.Believed[0].Implied[0].Span.High, 4))},
		{"guide-archive.md", "the sums say " + quantity.About(tower.Total.Current.Nominal).String()},
		{"guide-paint.md", "wants " + round(24*slowedAt(14), 2) + " h at 14 °C"},
	} {
		if !strings.Contains(page(c.page), c.is) {
			t.Errorf("%s does not say %q", c.page, c.is)
		}
	}
	for _, m := range r.house.Shelf.Models {
		if m.Name == "Ferry \"Bracken\"" {
			for _, b := range m.Judged.Believed {
				if !strings.Contains(page("guide-scale.md"), b.Estimate.Text().String()) {
					t.Errorf("guide-scale.md does not say %s of the ferry", b.Estimate.Text().String())
				}
			}
		}
	}
}

// slowedAt is the factor on waiting times that hold at 19 °C.
func slowedAt(room quantity.Celsius) float64 {
	laid := paint.Laid{}
	laid.Temperature.V, laid.Temperature.Set = room, true
	p := paint.Paint{}
	p.Warmth.V, p.Warmth.Set = 19, true
	return paint.Clock(&laid, &p, laid.Temperature).Slowed.Value
}
