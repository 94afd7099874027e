package scale

import (
	"math"
	"os"
	"testing"

	"spruelight/gen/quantity"
	"spruelight/gen/svg"
)

func skiff(t testing.TB) Judgement {
	return Judge(Model{Name: "skiff", Box: written[quantity.Scale](t, "1/48"), Measured: lengths(t,
		"length 204 mm ± 0.5 mm; beam 67 mm ± 0.5 mm"),
		Accounts: []Account{account(t, "designer's sheet", "length 9.4 m; beam 3.1 m"), account(t, "a harbour register with a long name",
			"length 9.75 m")}})
}

// The bars lie where the axis says: two known scales fix it, and every bar's
// ends must follow.
func TestIntervalsLieOnTheAxis(t *testing.T) {
	j := skiff(t)
	d := DrawIntervals(j, "intervals", 340, nil)
	if dir := os.Getenv("SCALE_LOOK"); dir != "" {
		if err := os.WriteFile(dir+"/intervals.svg", d.File(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	var bars []svg.Box
	for _, b := range d.Boxes() {
		if b.Kind == svg.KindMark {
			bars = append(bars, b.Box)
		}
	}
	rows := intervalRows(j, nil)
	if len(bars) != len(rows) || len(rows) != 4 {
		t.Fatalf("%d bars for %d rows", len(bars), len(rows))
	}
	per := bars[0].W / (rows[0].span.High - rows[0].span.Low)
	zero := bars[0].X - rows[0].span.Low*per
	for i, r := range rows {
		if math.Abs(bars[i].X-(zero+r.span.Low*per)) > 1e-6 || math.Abs(bars[i].Right()-(zero+r.span.High*per)) > 1e-6 {
			t.Errorf("%s: bar %v", r.name, bars[i])
		}
	}
	for i, a := range d.Boxes() {
		for _, b := range d.Boxes()[:i] {
			if a.Kind == svg.KindText && b.Kind == svg.KindText && a.Box.Inset(0.3).Overlaps(b.Box.Inset(0.3)) {
				t.Errorf("%q overlaps %q", a.Name, b.Name)
			}
		}
	}
	if w, _ := d.Size(); w > 341 {
		t.Errorf("%v wide", w)
	}
}
