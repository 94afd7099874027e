package gen

import (
	"context"
	"os"
	"testing"
	"time"

	"spruelight/gen/wiring"
	"spruelight/testdata/readback"
	"spruelight/themes"
)

// The example's circuits are read back from their drawings, for a desk and for
// a phone, and are the declared ones.
func TestExampleDiagramsAreReadBack(t *testing.T) {
	r := newRun(Env{Content: os.DirFS("../content-example"), Themes: themes.FS, Moment: time.Date(2026, 3, 15, 12, 0, 0, 0, time.UTC)})
	r.read(context.Background())
	r.reckon(context.Background())
	drawn := 0
	for _, w := range r.works {
		for i := range w.light.circuits {
			s := &w.light.circuits[i].solution
			for _, width := range []float64{wiring.Wide, wiring.Narrow} {
				drawing, err := readback.Read(wiring.DiagramFor("d", *s, width, nil).File())
				if err == nil {
					err = drawing.Compare(s)
				}
				if err == nil {
					err = drawing.CheckLayout()
				}
				if err != nil {
					t.Errorf("%s, %s, %g wide: %v", w.slug(), s.Name, width, err)
				}
				drawn++
			}
		}
	}
	if drawn < 12 {
		t.Errorf("only %d drawings were read", drawn)
	}
}
