package finish

import (
	"time"

	"spruelight/gen/journal"
	"spruelight/gen/paint"
	"spruelight/gen/quantity"
	"spruelight/gen/source"
	"spruelight/gen/topic"
)

// sitting adds what one sitting did for the finish.
func (g *gathering) sitting(s *journal.Sitting) {
	f := &s.Front
	for _, t := range f.Treated {
		g.treated(s, t)
	}
	for i := range f.Coats {
		g.laid(s, &f.Coats[i])
	}
	g.touched(s, paint.Mask, f.Masked)
	g.touched(s, paint.Handle, f.Handled)
	for _, l := range f.Leaks {
		g.leak(s, l)
	}
	for _, t := range f.Tests {
		g.lightTest(t)
	}
	for _, m := range f.Markings {
		m.When = g.endOf(s)
		g.build.Placed = append(g.build.Placed, m)
	}
	for _, r := range f.Ready {
		g.readied(s, r)
	}
	for _, c := range f.Closed {
		a := g.area(c.Area.V)
		if a == nil {
			continue
		}
		when := source.Written(g.At(s, c.When, topic.EndOfDay), c.Area.At)
		if a.Closing.Closed.Set {
			a.Closing.Again = append(a.Closing.Again, when)
		} else {
			a.Closing.Closed = when
		}
	}
}

// startOf and endOf are the moments that stand for a sitting's day.
func (g *gathering) startOf(s *journal.Sitting) time.Time {
	return g.At(s, journal.Val[quantity.Clock]{}, topic.StartOfDay)
}

func (g *gathering) endOf(s *journal.Sitting) time.Time {
	return g.At(s, journal.Val[quantity.Clock]{}, topic.EndOfDay)
}

// treated adds what was done to areas, and to parts of which build.md says to
// which area they belong.
func (g *gathering) treated(s *journal.Sitting, t source.Entry[[]journal.Text]) {
	work, known := paint.FindWork(t.Name.V)
	if !known {
		return // written for the search for causes of problems
	}
	for _, of := range t.Value {
		treatment := paint.Treatment{What: source.Written(work, t.Name.At), When: g.startOf(s)}
		name := of.V
		if area, ok := g.areaOfPart(of.V); ok {
			name, treatment.Part = area, of.V
		}
		if a := g.area(name); a != nil {
			a.Treatments = append(a.Treatments, treatment)
		}
	}
}

// areaOfPart returns the area that a part belongs to.
func (g *gathering) areaOfPart(name string) (string, bool) {
	for _, p := range g.Front.Parts {
		if p.Part.V == name {
			return p.Area.V, true
		}
	}
	return "", false
}

func (g *gathering) laid(s *journal.Sitting, c *journal.Laid) {
	if a := g.area(c.Area.V); a != nil {
		a.Laid = append(a.Laid, paint.Laid{Coat: c.Layer(), At: c.At, When: g.At(s, c.When, topic.EndOfDay), Assumed: !c.When.Set,
			Temperature: s.Front.Warmth, Sitting: g.Place(s.Slug + ".html")})
	}
}

func (g *gathering) touched(s *journal.Sitting, stage paint.Stage, areas []journal.Touched) {
	for _, t := range areas {
		e := paint.Event{Area: t.Area, Stage: stage, When: g.At(s, t.When, topic.EndOfDay), Assumed: !t.When.Set}
		g.build.Events = append(g.build.Events, e)
	}
}

func (g *gathering) leak(s *journal.Sitting, l paint.Leak) {
	l.Found = s.Date
	a := g.area(l.Area.V)
	if a == nil {
		g.build.Leaks = append(g.build.Leaks, l)
		return
	}
	a.Leaks = append(a.Leaks, l)
	if l.Check.Set { // whoever finds a leak has looked
		a.Closing.Checks = append(a.Closing.Checks, paint.DoneCheck{Check: l.Check.V, When: g.startOf(s)})
	}
}

func (g *gathering) lightTest(t paint.LightTest) {
	if !t.Where.Set {
		t.Where = t.Area
	}
	if a := g.area(t.Area.V); a != nil {
		a.Tests = append(a.Tests, t)
	}
}
