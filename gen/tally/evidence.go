package tally

import (
	"fmt"
	"slices"
	"strings"
	"time"
)

// EvidenceInput is what the log holds that can bear on a review.
type EvidenceInput struct {
	Sum      Sum
	Rows     []Row
	Events   []PartEvent // of all sittings
	Problems []ProblemBrief
	Faults   []Fault
	Closings []Closing
	Leaks    int
	Scale    string // the verdict on the box's scale, a sentence; "" where nothing was measured
}

// ProblemBrief is a problem as evidence.
type ProblemBrief struct{ Kind, Name, Outcome string }

// Closing is an area glued shut.
type Closing struct {
	Area  string
	Date  time.Time
	Lamps int // inside it
}

// For returns what the log has to say to a criterion, in short sentences
// without a full stop, in a fixed order.
func (in EvidenceInput) For(c Criterion) []string {
	var lines []string
	add := func(format string, args ...any) { lines = append(lines, fmt.Sprintf(format, args...)) }
	for _, x := range in.Sum.ByStage {
		if slices.Contains(c.Stages, x.Name) {
			add("%s of %s in %s", WholeMinutes(x.Hours), x.Name, plural(x.Sittings, "sitting"))
		}
	}
	lines = append(lines, in.counts(c.Log)...)
	for _, kind := range c.Faults {
		if line := in.fault(kind); line != "" {
			lines = append(lines, line)
		}
	}
	for _, p := range in.Problems {
		if slices.Contains(c.Problems, p.Kind) {
			add("problem: %s%s", p.Name, lead(" – ", p.Outcome))
		}
	}
	return append(lines, in.statements(c.Log)...)
}

// counts are the sums over parts, decals and closings.
func (in EvidenceInput) counts(log Log) []string {
	var lines []string
	add := func(point Log, format string, args ...any) {
		if log&point != 0 {
			lines = append(lines, fmt.Sprintf(format, args...))
		}
	}
	if n, parts := in.events(Filled); n > 0 {
		add(LogFilled, "%s needed filler: %s", plural(n, "part"), parts)
	}
	if n, parts := in.events(Straightened); n > 0 {
		add(LogWarped, "%s had to be straightened: %s", plural(n, "part"), parts)
	}
	broken, spares := 0, 0
	for _, r := range in.Rows {
		broken += r.Broken
		spares += r.SparesUsed
	}
	if broken+spares > 0 {
		add(LogSpares, "%s broken, %s used", plural(broken, "part"), plural(spares, "spare"))
	}
	if s := in.Sum; s.DecalsApplied+s.DecalsFailed > 0 {
		add(LogDecals, "%s applied, %d failed", plural(s.DecalsApplied, "decal"), s.DecalsFailed)
	}
	return lines
}

// events counts the parts of an event and names them.
func (in EvidenceInput) events(event Event) (count int, parts string) {
	var names []string
	for _, e := range in.Events {
		if Event(e.Event.V) == event {
			count += e.Count.Or(1)
			if !slices.Contains(names, e.Part.V) {
				names = append(names, e.Part.V)
			}
		}
	}
	return count, list(names, "and")
}

// fault names the faults of one kind that may show.
func (in EvidenceInput) fault(kind string) string {
	var on []string
	for _, f := range in.Faults {
		if f.Kind.V != kind || f.Shows.Set && !f.Shows.V {
			continue
		}
		text := f.Part.V
		if f.Size.Set {
			text += " (" + f.Size.V.String() + ")"
		}
		on = append(on, strings.TrimSpace(text))
	}
	if len(on) == 0 {
		return ""
	}
	return kind + " on " + list(on, "and")
}

// statements are what other parts of the log conclude.
func (in EvidenceInput) statements(log Log) []string {
	var lines []string
	s := in.Sum
	if log&LogLights != 0 && s.Lamps > 0 {
		lines = append(lines, fmt.Sprintf("%s, %d of them seen to light; %s found",
			plural(s.Lamps, "lamp"), s.Lit, plural(in.Leaks, "light leak")))
	}
	if log&LogClosings != 0 {
		for _, c := range in.Closings {
			if c.Lamps > 0 {
				lines = append(lines, fmt.Sprintf("%s closed over %s on %s", c.Area, plural(c.Lamps, "lamp"), c.Date.Format("2 January 2006")))
			}
		}
	}
	if log&LogScale != 0 && in.Scale != "" {
		lines = append(lines, in.Scale)
	}
	if log&LogCost != 0 {
		lines = append(lines, in.cost()...)
	}
	return lines
}

func (in EvidenceInput) cost() []string {
	s := in.Sum
	var lines []string
	if len(s.Kit) > 0 {
		text := "the kit " + s.Kit.String()
		if len(s.Spent) > 0 {
			text += ", besides it " + s.Spent.String()
		}
		lines = append(lines, text)
	}
	for _, r := range s.PerHour {
		lines = append(lines, r.Money.String()+" for an hour at the bench")
	}
	return lines
}
