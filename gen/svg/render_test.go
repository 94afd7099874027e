package svg

import (
	"fmt"
	"image/color"
	"testing"

	"spruelight/testdata/view"
)

func TestMain(m *testing.M) { view.Main(m) }

func TestTwoProgramsShowTheSame(t *testing.T) {
	d := sample()
	w, h := d.Size()
	view.Alike(t, d.File(), w, h)
}

// TestMediaSetTheColours looks at paper and ink of a standalone file under each medium.
func TestMediaSetTheColours(t *testing.T) {
	d := New("media", "Media", "")
	d.Margin = 0
	d.Rect(Box{0, 0, 40, 20}, 0, Style{Fill: Ink})
	d.Include(Box{0, 0, 80, 20})
	for _, c := range []struct {
		name       string
		action     view.Step
		ink, paper string
	}{
		{"light", view.Media("screen", "prefers-color-scheme", "light"), roles[Ink].light, roles[Paper].light},
		{"dark", view.Media("screen", "prefers-color-scheme", "dark"), roles[Ink].dark, roles[Paper].dark},
		{"print", view.Media("print", "prefers-color-scheme", "dark"), "#000000", "#ffffff"},
		{"forced colours", view.Media("screen", "forced-colors", "active", "prefers-color-scheme", "light"), "#000000", "#ffffff"},
	} {
		t.Run(c.name, func(t *testing.T) {
			img := view.Chromium(t, d.File(), 80, 20, c.action)
			if ink, paper := hex(img.At(20, 10)), hex(img.At(60, 10)); ink != c.ink || paper != c.paper {
				t.Errorf("ink %s on paper %s, want %s on %s", ink, paper, c.ink, c.paper)
			}
		})
	}
}

func hex(c color.Color) string {
	r, g, b, _ := c.RGBA()
	return fmt.Sprintf("#%02x%02x%02x", r>>8, g>>8, b>>8)
}
