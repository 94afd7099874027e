package lighting

import (
	"os"
	"testing"

	"spruelight/gen/wiring"
	"spruelight/testdata/readback"
)

// The example's circuits are read back from their drawings, for a desk and for
// a phone, and are the declared ones.
func TestExampleDiagramsAreReadBack(t *testing.T) {
	results, _ := reckoned(os.DirFS("../../../content-example"))
	drawn := 0
	for slug, r := range results {
		for i := range r.Circuits {
			s := &r.Circuits[i].Solution
			for _, width := range []float64{wiring.Wide, wiring.Narrow} {
				drawing, err := readback.Read(wiring.DiagramFor("d", *s, width, nil).File())
				if err == nil {
					err = drawing.Compare(s)
				}
				if err == nil {
					err = drawing.CheckLayout()
				}
				if err != nil {
					t.Errorf("%s, %s, %g wide: %v", slug, s.Name, width, err)
				}
				drawn++
			}
		}
	}
	if drawn < 12 {
		t.Errorf("only %d drawings were read", drawn)
	}
}
