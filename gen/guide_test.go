package gen

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"spruelight/gen/circuit"
	"spruelight/gen/paint"
	"spruelight/gen/quantity"
	"spruelight/themes"
)

// guidePages are the pages of the example's wall, by name.
func guidePages(t *testing.T) map[string]string {
	t.Helper()
	names, err := filepath.Glob(filepath.Join("..", "content-example", "wall", "*.md"))
	if err != nil {
		t.Fatal(err)
	}
	pages := map[string]string{}
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		pages[filepath.Base(name)] = string(text)
	}
	return pages
}

var fencedYAML = regexp.MustCompile("(?ms)^```yaml *([a-z]*)\n(.*?)^```$")

// Whatever the guide shows of a file can be written: an excerpt of a build or a
// workshop lacks no more than what names it.
func TestGuideShowsWhatReads(t *testing.T) {
	read := 0
	for name, text := range guidePages(t) {
		for _, block := range fencedYAML.FindAllStringSubmatch(text, -1) {
			kind, front := block[1], block[2]
			if kind == "" && !strings.HasPrefix(name, "guide") && !strings.HasPrefix(name, "reference") {
				continue // of a theme
			}
			if kind == "" {
				t.Errorf("%s: a block of YAML that does not say of which file: %.60q", name, front)
				continue
			}
			if kind == "build" && !strings.Contains(front, "name: Survey") {
				front += "name: x\nstate: bench\n"
			}
			for _, f := range fileKind(kind).Read(front) {
				t.Errorf("%s, %s: %s: %s\n%s", name, kind, f.Says.String(), f.At.Text(), front)
			}
			read++
		}
	}
	if read < 18 {
		t.Errorf("only %d excerpts", read)
	}
}

// The guide's words are many and its pages short enough to be read at a sitting.
func TestGuideLength(t *testing.T) {
	for name, text := range guidePages(t) {
		if n := len(strings.Fields(text)); strings.HasPrefix(name, "guide-") && (n < 600 || n > 1200) {
			t.Errorf("%s has %d words, want 600 to 1200", name, n)
		}
	}
}

// The numbers that the guide tells of the example's models are those that the
// program works out.
func TestGuideTellsTheProgramsNumbers(t *testing.T) {
	r := newRun(Env{Content: os.DirFS("../content-example"), Themes: themes.FS, Moment: time.Date(2026, 3, 15, 21, 0, 0, 0, time.UTC)})
	r.read(context.Background())
	r.reckon(context.Background())
	works := map[string]*work{}
	for _, w := range r.works {
		works[w.slug()] = w
	}
	main := &works["marram"].light.circuits[0].solution
	saloon := &main.Branches[0]
	tower := &works["cairnhead"].light.circuits[0].solution
	judged := &works["marram"].scale.Judged
	light := works["marram"].finish.result.Areas[0].Light[0]
	round := func(v float64, digits int) string { return quantity.Round(v, digits) }
	pages := guidePages(t)
	for _, c := range []struct{ page, is string }{
		{"guide-loom.md", round(float64(saloon.Resistor.Exact), 4) + " ohm"},
		{"guide-loom.md", saloon.Resistor.Code},
		{"guide-loom.md", milliamps(saloon.Current.Nominal)},
		{"guide-loom.md", milliamps(saloon.Current.Low) + " to " + milliamps(saloon.Current.High)},
		{"guide-loom.md", saloon.Resistor.Below.Ohms.Code() + " with " + milliamps(saloon.Resistor.Below.Current)},
		{"guide-loom.md", saloon.Resistor.Above.Ohms.Code() + " with " + milliamps(saloon.Resistor.Above.Current)},
		{"guide-loom.md", "carries " + milliamps(main.Total.Current.Nominal)},
		{"guide-loom.md", "factor of " + round(main.Matched[0].Threshold, 3)},
		{"guide-loom.md", "come out at " + round(main.Matched[0].Worst, 3)},
		{"guide-loom.md", round(circuit.FullSize(3e-3, 48).Millimetres()/10, 2) + " cm across"},
		{"guide-loom.md", round(float64(saloon.Lamps[0].Volts.Nominal), 3) + " V between R1 and D1"},
		{"guide-light-blocking.md", "has " + light.Coats[0].Density.Text()},
		{"guide-light-blocking.md", "silver " + light.Coats[1].Density.Text()},
		{"guide-light-blocking.md", "white " + light.Coats[2].Density.Text()},
		{"guide-light-blocking.md", "together " + light.Total.Text()},
		{"guide-light-blocking.md", light.Passing.Text()},
		{"guide-scale.md", judged.Believed[0].Implied[1].Text()},
		{"guide-scale.md", judged.Best.Text()},
		{"guide-scale.md", fmt.Sprintf("%s to %s", round(judged.Believed[0].Implied[0].Span.Low, 4), round(judged.Believed[0].Implied[0].Span.High, 4))},
		{"guide-archive.md", "the sums say " + milliamps(tower.Total.Current.Nominal)},
		{"guide-paint.md", "wants " + round(24*slowedAt(14), 2) + " h at 14 °C"},
	} {
		if !strings.Contains(pages[c.page], c.is) {
			t.Errorf("%s does not say %q", c.page, c.is)
		}
	}
	for _, m := range r.house.Shelf.Models {
		if m.Name == "Ferry \"Bracken\"" {
			for _, b := range m.Judged.Believed {
				if !strings.Contains(pages["guide-scale.md"], b.Estimate.Text()) {
					t.Errorf("guide-scale.md does not say %s of the ferry", b.Estimate.Text())
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
	p.At.V, p.At.Set = 19, true
	return paint.Clock(&laid, &p, laid.Temperature).Slowed.Value
}
