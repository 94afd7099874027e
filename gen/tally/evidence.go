package tally

import (
	"slices"
	"strings"
	"time"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
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
	Scale    source.Message // the verdict on the box's scale; empty where nothing was measured
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
func (in EvidenceInput) For(c Criterion) []source.Message {
	var lines []source.Message
	for _, x := range in.Sum.ByStage {
		if slices.Contains(c.Stages, x.Name) {
			lines = append(lines, source.Say("%s of %s in %s", WholeMinutes(x.Hours), source.Word(x.Name), counted(x.Sittings, "sitting")))
		}
	}
	lines = append(lines, in.counts(c.Log)...)
	for _, kind := range c.Faults {
		if on := in.faulty(kind); len(on) > 0 {
			form := kind + " on %s"
			if kind == missingPart {
				form = kind + ": %s"
			}
			lines = append(lines, source.Say(form, source.And(on)))
		}
	}
	for _, p := range in.Problems {
		switch {
		case !slices.Contains(c.Problems, p.Kind):
		case p.Outcome != "":
			lines = append(lines, source.Say("problem: %s – %s", p.Name, p.Outcome))
		default:
			lines = append(lines, source.Say("problem: %s", p.Name))
		}
	}
	return append(lines, in.statements(c.Log)...)
}

// perNumber is a form for one thing, or one for any other number of them.
func perNumber(n int, one, many string, args ...any) source.Message {
	if n == 1 {
		many = one
	}
	return source.Say(many, append([]any{n}, args...)...)
}

// counts are the sums over parts, decals and closings.
func (in EvidenceInput) counts(log Log) []source.Message {
	var lines []source.Message
	if n, parts := in.events(Filled); n > 0 && log&LogFilled != 0 {
		lines = append(lines, perNumber(n, "%d part needed filler: %s", "%d parts needed filler: %s", parts))
	}
	if n, parts := in.events(Straightened); n > 0 && log&LogWarped != 0 {
		lines = append(lines, perNumber(n, "%d part had to be straightened: %s", "%d parts had to be straightened: %s", parts))
	}
	broken, spares := 0, 0
	for _, r := range in.Rows {
		broken += r.Broken
		spares += r.SparesUsed
	}
	if broken+spares > 0 && log&LogSpares != 0 {
		lines = append(lines, source.Say("%s, %s", noneOr(broken, "no parts broken", "%d part broken", "%d parts broken"),
			noneOr(spares, "no spares used", "%d spare used", "%d spares used")))
	}
	if s := in.Sum; s.DecalsApplied+s.DecalsFailed > 0 && log&LogDecals != 0 {
		applied := perNumber(s.DecalsApplied, "%d decal applied, %d failed", "%d decals applied, %d failed", s.DecalsFailed)
		if s.DecalsApplied == 0 {
			applied = source.Say("no decals applied, %d failed", s.DecalsFailed)
		}
		lines = append(lines, applied)
	}
	return lines
}

// noneOr is a text for none of a thing, or a form for their number.
func noneOr(n int, none, one, many string) source.Message {
	if n == 0 {
		return source.Word(none)
	}
	return perNumber(n, one, many)
}

// events counts the parts of an event and names them.
func (in EvidenceInput) events(event Event) (count int, parts source.List) {
	var names []string
	for _, e := range in.Events {
		if Event(e.Event.V) == event {
			count += e.Count.Or(1)
			if !slices.Contains(names, e.Part.V) {
				names = append(names, e.Part.V)
			}
		}
	}
	return count, source.And(names)
}

// faulty lists the parts with faults of one kind that may show.
func (in EvidenceInput) faulty(kind string) []source.Message {
	var on []source.Message
	for _, f := range in.Faults {
		if f.Kind.V != kind || f.Shows.Set && !f.Shows.V {
			continue
		}
		part := source.Say("%s", strings.TrimSpace(f.Part.V))
		if f.Size.Set {
			part = source.Say("%s (%s)", strings.TrimSpace(f.Part.V), f.Size.V)
		}
		on = append(on, part)
	}
	return on
}

// statements are what other parts of the log conclude.
func (in EvidenceInput) statements(log Log) []source.Message {
	var lines []source.Message
	s := in.Sum
	if log&LogLights != 0 && s.Lamps > 0 {
		lamps := perNumber(s.Lamps, "%d lamp, %d of them seen to light", "%d lamps, %d of them seen to light", s.Lit)
		leaks := noneOr(in.Leaks, "no light leaks found", "%d light leak found", "%d light leaks found")
		lines = append(lines, source.Say("%s; %s", lamps, leaks))
	}
	if log&LogClosings != 0 {
		for _, c := range in.Closings {
			if c.Lamps > 0 {
				form := "%s closed over %d lamps on %s"
				if c.Lamps == 1 {
					form = "%s closed over %d lamp on %s"
				}
				lines = append(lines, source.Say(form, c.Area, c.Lamps, quantity.Date(c.Date)))
			}
		}
	}
	if log&LogScale != 0 && !in.Scale.Empty() {
		lines = append(lines, in.Scale)
	}
	if log&LogCost != 0 {
		lines = append(lines, in.cost()...)
	}
	return lines
}

func (in EvidenceInput) cost() []source.Message {
	s := in.Sum
	var lines []source.Message
	switch {
	case len(s.Kit) > 0 && len(s.Spent) > 0:
		lines = append(lines, source.Say("the kit %s, besides it %s", s.Kit.listed(), s.Spent.listed()))
	case len(s.Kit) > 0:
		lines = append(lines, source.Say("the kit %s", s.Kit.listed()))
	}
	for _, r := range s.PerHour {
		lines = append(lines, source.Say("%s for an hour at the bench", r.Money))
	}
	return lines
}
