package readback

import (
	"fmt"
	"slices"

	"spruelight/gen/svg"
)

// Thing is a box in the drawing that nothing else may touch.
type Thing struct {
	What  string
	Owner int // of a symbol's boxes, else -1
	Box   svg.Box
	Text  bool
}

// CheckLayout makes sure that no two words, symbols or arrows overlap, that no
// wire runs through any of them, and that all lies inside the view box.
func (r *Reading) CheckLayout() error {
	var things []Thing
	for _, t := range r.figure.texts {
		things = append(things, Thing{fmt.Sprintf("the words %q", t.text), -1, t.box, true})
	}
	for i, s := range r.symbols {
		for _, b := range append([]svg.Box{s.box}, s.more...) {
			things = append(things, Thing{fmt.Sprintf("%s %s", s.kind, s.name), i, b, false})
		}
	}
	for _, p := range r.figure.polygons {
		if b := svg.BoxOf(p.points...); p.filled && !r.held(b) {
			things = append(things, Thing{"an arrow", -1, b, false})
		}
	}
	for _, d := range r.dots {
		things = append(things, Thing{"a dot", -1, svg.Box{X: d.X - dotRadius, Y: d.Y - dotRadius, W: 2 * dotRadius, H: 2 * dotRadius}, false})
	}
	for _, a := range things {
		if !r.figure.view.Contains(a.Box) {
			return fmt.Errorf("%s at %v lies outside the view box", a.What, a.Box)
		}
	}
	if err := Overlaps(things); err != nil {
		return err
	}
	return r.checkWires(things)
}

// held reports whether a box lies within a symbol.
func (r *Reading) held(b svg.Box) bool {
	return slices.ContainsFunc(r.symbols, func(s symbol) bool {
		return slices.ContainsFunc(s.more, func(o svg.Box) bool { return o.Contains(b) })
	})
}

// Overlaps looks for two things on one spot; the words in a test point or a
// flag are meant to be there.
func Overlaps(things []Thing) error {
	sorted := slices.Clone(things)
	slices.SortStableFunc(sorted, func(a, b Thing) int {
		switch {
		case a.Box.Y < b.Box.Y:
			return -1
		case a.Box.Y > b.Box.Y:
			return 1
		}
		return 0
	})
	for i, a := range sorted {
		for _, b := range sorted[i+1:] {
			if b.Box.Y >= a.Box.Bottom() {
				break
			}
			if !a.Box.Overlaps(b.Box) || a.Owner >= 0 && a.Owner == b.Owner || a.Text != b.Text && (a.Box.Contains(b.Box) || b.Box.Contains(a.Box)) {
				continue
			}
			return fmt.Errorf("%s at %v overlaps %s at %v", a.What, a.Box, b.What, b.Box)
		}
	}
	return nil
}

// checkWires looks for wires that run through words or symbols.
func (r *Reading) checkWires(things []Thing) error {
	for _, w := range r.wires {
		b := w.box().Inset(-wireWidth / 2)
		if !r.figure.view.Contains(b) {
			return fmt.Errorf("a wire at %v lies outside the view box", b)
		}
		for _, t := range things {
			if t.What == "a dot" {
				continue
			}
			inner := t.Box
			if !t.Text {
				inner = inner.Inset(bodyWidth) // a wire ends at a pin on the outline
			}
			if b.Overlaps(inner) {
				return fmt.Errorf("a wire at %v runs through %s at %v", b, t.What, t.Box)
			}
		}
	}
	return nil
}
