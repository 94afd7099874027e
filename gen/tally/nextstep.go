package tally

import (
	"slices"
	"strings"
	"time"
)

// NextStep is what to do next on a build, for its card on the bench.
type NextStep struct {
	Text      string
	Sitting   string // where it was written
	Date      time.Time
	Overtaken bool // there is a newer sitting that names none
}

// NextStepOf returns the next step that the newest sitting names, else the
// newest that any names. ok is false where there is none, and for a build that
// is neither in work nor set aside.
func NextStepOf(b Build) (step NextStep, ok bool) {
	if b.State != Bench && b.State != SetAside {
		return NextStep{}, false
	}
	sittings := inOrder(b.Sittings)
	for i, s := range slices.Backward(sittings) {
		if text := strings.TrimSpace(s.Next.V); text != "" {
			return NextStep{text, s.Slug, s.Date, i < len(sittings)-1}, true
		}
	}
	return NextStep{}, false
}
