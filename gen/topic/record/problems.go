package record

import (
	"fmt"
	"slices"

	"spruelight/gen/journal"
	"spruelight/gen/source"
	"spruelight/gen/tally"
	"spruelight/gen/topic"
)

// isolate looks for the cause of a problem.
func (r *Result) isolate(f topic.Facts, i int) {
	p := &f.Front.Problems[i]
	known, found := tally.Isolate(problemOf(f.Build, p))
	r.Found.Add(found...)
	r.Problems = append(r.Problems, ProblemCase{Problem: p, Anchor: fmt.Sprintf("problem-%d", i+1),
		Title: topic.Heading(p.Name.Or(p.Symptom.V)), Known: known, Solved: p.Outcome.Set})
}

// problemOf hands a problem over with every treatment that is known of its
// parts: those declared with it, those the sittings logged, and what areas and
// coats say.
func problemOf(b *journal.Build, p *tally.Problem) tally.Problem {
	out := *p
	out.Treatments = slices.Clone(p.Treatments)
	c := collector{build: b, problem: &out, units: slices.Concat(p.Affected, p.Sound)}
	c.treated()
	if c.allKnown() {
		c.coats()
		c.materials()
	}
	return out
}

// collector adds to a problem what the rest of the log knows of its parts.
type collector struct {
	build   *journal.Build
	problem *tally.Problem
	units   []source.Value[string]
}

// area returns the area of a unit: itself, or that of the listed part.
func (c *collector) area(unit string) string {
	if _, ok := c.build.Front.Areas.Get(unit); ok {
		return unit
	}
	for _, p := range c.build.Front.Parts {
		if p.Part.V == unit {
			return p.Area.V
		}
	}
	return ""
}

// touched returns the units that a log line about a part or an area is about.
func (c *collector) touched(named string) []source.Value[string] {
	var out []source.Value[string]
	for _, u := range c.units {
		if u.V == named || named != "" && c.area(u.V) == named {
			out = append(out, u)
		}
	}
	return out
}

// add joins units to a treatment, which may be new.
func (c *collector) add(name source.Value[string], says source.Message, units []source.Value[string]) {
	if len(units) == 0 {
		return
	}
	list := &c.problem.Treatments
	i := slices.IndexFunc(*list, func(t source.Entry[tally.Treatment]) bool { return t.Name.V == name.V })
	if i < 0 {
		*list = append(*list, source.Entry[tally.Treatment]{Name: name, Value: tally.Treatment{Says: says}})
		i = len(*list) - 1
	}
	on := &(*list)[i].Value.On
	for _, u := range units {
		if !slices.ContainsFunc(*on, func(x source.Value[string]) bool { return x.V == u.V }) {
			*on = append(slices.Clip(*on), u)
		}
	}
}

// ours joins units to a treatment that is in the program's own words.
func (c *collector) ours(says source.Message, at source.Span, units []source.Value[string]) {
	c.add(source.Written(says.String(), at), says, units)
}

// treated adds what sittings say was done to parts.
func (c *collector) treated() {
	for _, s := range c.build.Sittings {
		for _, t := range s.Front.Treated {
			for _, on := range t.Value {
				c.add(t.Name, source.Message{}, c.touched(on.V))
			}
		}
	}
}

// allKnown reports whether the area of every part is known. Where it is not,
// coats and materials say nothing: a part that nobody placed may have had them
// all the same. Test pieces belong to no area.
func (c *collector) allKnown() bool {
	for _, t := range c.problem.Tests {
		if t.Affected.Set {
			return false
		}
	}
	return !slices.ContainsFunc(c.units, func(u source.Value[string]) bool { return c.area(u.V) == "" })
}

// coats adds the coats that sittings laid.
func (c *collector) coats() {
	for _, s := range c.build.Sittings {
		for _, coat := range s.Front.Coats {
			c.ours(source.Say("painted with %s", coat.Coat.V), coat.Coat.At, c.touched(coat.Area.V))
		}
	}
}

// materials adds what the areas are made of. Where there are two materials in
// all, each is what the parts of the other have instead.
func (c *collector) materials() {
	var names []source.Message
	for _, u := range c.units {
		area, ok := c.build.Front.Areas.Get(c.area(u.V))
		if !ok || !area.Material.Set {
			continue
		}
		name := source.Say("made of %s", source.Word(area.Material.V.String()))
		c.ours(name, area.Material.At, []source.Value[string]{u})
		if !slices.ContainsFunc(names, func(n source.Message) bool { return n.String() == name.String() }) {
			names = append(names, name)
		}
	}
	if len(names) != 2 {
		return
	}
	list := c.problem.Treatments
	for i := range list {
		// The one that an affected part has is the one under suspicion.
		if list[i].Name.V == names[0].String() && !list[i].Value.Instead.Set {
			t := &list[i].Value
			t.Instead, t.InsteadSays = source.Written(names[1].String(), list[i].Name.At), names[1]
		}
	}
}
