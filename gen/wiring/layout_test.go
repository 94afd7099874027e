package wiring

import (
	"fmt"
	"slices"

	"spruelight/gen/svg"
)

// thing is a box in the drawing that nothing else may touch.
type thing struct {
	what  string
	owner int // of a symbol's boxes, else -1
	box   svg.Box
	text  bool
}

// checkLayout makes sure that no two words, symbols or arrows overlap, that no
// wire runs through any of them, and that all lies inside the view box.
func (r *reading) checkLayout() error {
	var things []thing
	for _, t := range r.figure.texts {
		things = append(things, thing{fmt.Sprintf("the words %q", t.text), -1, t.box, true})
	}
	for i, s := range r.symbols {
		for _, b := range append([]svg.Box{s.box}, s.more...) {
			things = append(things, thing{fmt.Sprintf("%s %s", s.kind, s.name), i, b, false})
		}
	}
	for _, p := range r.figure.polygons {
		if b := svg.BoxOf(p.points...); p.filled && !r.held(b) {
			things = append(things, thing{"an arrow", -1, b, false})
		}
	}
	for _, d := range r.dots {
		things = append(things, thing{"a dot", -1, svg.Box{X: d.X - dotRadius, Y: d.Y - dotRadius, W: 2 * dotRadius, H: 2 * dotRadius}, false})
	}
	for _, a := range things {
		if !r.figure.view.Contains(a.box) {
			return fmt.Errorf("%s at %v lies outside the view box", a.what, a.box)
		}
	}
	if err := overlaps(things); err != nil {
		return err
	}
	return r.checkWires(things)
}

// held reports whether a box lies within a symbol.
func (r *reading) held(b svg.Box) bool {
	return slices.ContainsFunc(r.symbols, func(s symbol) bool {
		return slices.ContainsFunc(s.more, func(o svg.Box) bool { return o.Contains(b) })
	})
}

// overlaps looks for two things on one spot; the words in a test point or a
// flag are meant to be there.
func overlaps(things []thing) error {
	sorted := slices.Clone(things)
	slices.SortStableFunc(sorted, func(a, b thing) int {
		switch {
		case a.box.Y < b.box.Y:
			return -1
		case a.box.Y > b.box.Y:
			return 1
		}
		return 0
	})
	for i, a := range sorted {
		for _, b := range sorted[i+1:] {
			if b.box.Y >= a.box.Bottom() {
				break
			}
			if !a.box.Overlaps(b.box) || a.owner >= 0 && a.owner == b.owner || a.text != b.text && (a.box.Contains(b.box) || b.box.Contains(a.box)) {
				continue
			}
			return fmt.Errorf("%s at %v overlaps %s at %v", a.what, a.box, b.what, b.box)
		}
	}
	return nil
}

// checkWires looks for wires that run through words or symbols.
func (r *reading) checkWires(things []thing) error {
	for _, w := range r.wires {
		b := w.box().Inset(-wireWidth / 2)
		if !r.figure.view.Contains(b) {
			return fmt.Errorf("a wire at %v lies outside the view box", b)
		}
		for _, t := range things {
			if t.what == "a dot" {
				continue
			}
			inner := t.box
			if !t.text {
				inner = inner.Inset(bodyWidth) // a wire ends at a pin on the outline
			}
			if b.Overlaps(inner) {
				return fmt.Errorf("a wire at %v runs through %s at %v", b, t.what, t.box)
			}
		}
	}
	return nil
}
