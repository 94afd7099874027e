package tally

import (
	"cmp"
	"slices"
	"strings"
	"time"
)

// NextStep is what to do next on a build, for its card on the bench.
type NextStep struct {
	Slug, Name string
	State      State
	Text       string // "" where no sitting names one
	Sitting    string // where it was written
	Written    time.Time
	Overtaken  bool // there is a newer sitting that names none
	Last       time.Time
	Idle       int // days since the last sitting
}

// NextSteps returns the next step of each build in work or set aside, the one
// most recently at the bench first, as of a day.
func NextSteps(builds []Build, today time.Time) []NextStep {
	var steps []NextStep
	for _, b := range builds {
		if b.State != Bench && b.State != SetAside {
			continue
		}
		step := NextStep{Slug: b.Slug, Name: b.Name, State: b.State}
		sittings := inOrder(b.Sittings)
		for i, s := range slices.Backward(sittings) {
			if step.Last.IsZero() {
				step.Last, step.Idle = s.Date, max(days(s.Date, today), 0)
			}
			if text := strings.TrimSpace(s.Next.V); text != "" {
				step.Text, step.Sitting, step.Written, step.Overtaken = text, s.Slug, s.Date, i < len(sittings)-1
				break
			}
		}
		steps = append(steps, step)
	}
	slices.SortStableFunc(steps, func(a, b NextStep) int {
		return cmp.Or(b.Last.Compare(a.Last), cmp.Compare(a.Name, b.Name))
	})
	return steps
}
