// Package finish is the topic of paint and decals: what stands on each area,
// whether it will hold, when it may be touched, whether light stays in, and
// whether an area may be glued shut; with a build's page on it.
package finish

import (
	"slices"
	"time"

	"spruelight/gen/circuit"
	"spruelight/gen/journal"
	"spruelight/gen/paint"
	"spruelight/gen/source"
	"spruelight/gen/topic"
)

// File is the name of a build's page on its finish.
const File = "finish.html"

// Result is what was worked out of a build's finish.
type Result struct {
	topic.Outcome
	Paint paint.Result // of the sums
	Until time.Time    // from when on its page changes though no file does; zero where only files change it

	build paint.Build
	pours []paint.Pour // of the build's mixes, in their order
}

// Shelf is the rack's paints as the paint room takes them, with the plain
// colours of which only the colour is known.
func Shelf(rack *journal.Rack) (paint.Shelf, source.Findings) {
	shelf := paint.Shelf{}
	var found source.Findings
	for _, c := range journal.PlainColours {
		shelf[c.Name.V] = &paint.Paint{Name: c.Name, Colour: source.Value[paint.Colour]{V: c.Value, Set: true}}
	}
	for _, e := range rack.Paints {
		p, family := e.Value, source.Findings(nil)
		p.Name = e.Name
		p.Family, family = paint.ReadFamily(p.Kind)
		found.Add(family...)
		p.Broken = p.Broken || family.Stops()
		found.Add(p.CheckTimes()...)
		shelf[e.Name.V] = &p
	}
	return shelf, found
}

// Reckon judges a build's finish. Paints are those of the rack; judged gives
// what was worked out of a meter reading by its place, nil for none.
func Reckon(f topic.Facts, paints paint.Shelf, judged func(source.Span) *circuit.JudgedReading) Result {
	g := gathering{Facts: f, judged: judged, build: paint.Build{Moment: f.Now, Room: f.Settings.Ambient, Sheets: f.Front.Sheets}}
	g.mixed(paints)
	for i := range f.Front.Areas {
		g.build.Areas = append(g.build.Areas, g.planned(&f.Front.Areas[i]))
	}
	for _, s := range f.Sittings {
		g.sitting(s)
	}
	slices.SortStableFunc(g.build.Events, func(a, b paint.Event) int { return a.When.Compare(b.When) })
	r := Result{Paint: paint.Check(&g.build), build: g.build, pours: g.pours}
	r.Found = append(g.found, r.Paint.Findings...)
	if len(r.Paint.Areas) > 0 {
		r.Pages = []string{File}
	}
	// A day that is not over counts, since what has no time of day is taken to
	// be at its end.
	if !f.Newest().Before(f.Today) || paint.Pending(r.Paint.Areas, f.Now) {
		r.Until = f.Now
	}
	return r
}

// gathering brings together what the plan and the sittings say of the finish.
type gathering struct {
	topic.Facts
	judged func(source.Span) *circuit.JudgedReading
	build  paint.Build
	pours  []paint.Pour
	found  source.Findings
}

// mixed adds the paints that the build uses: those of the rack, and its own
// mixes.
func (g *gathering) mixed(rack paint.Shelf) {
	mixes := paint.Shelf{}
	for _, e := range g.Front.Mixes {
		m := e.Value
		m.Name = e.Name
		p, found := m.Paint(rack)
		g.found.Add(found...)
		mixes[e.Name.V] = &p
		pour := m.Pour(0, 0)
		g.found.Add(pour.Found...)
		g.pours = append(g.pours, pour)
	}
	for _, name := range coatNames(g.Facts) {
		p := mixes[name]
		if p == nil {
			p = rack[name]
		}
		if p != nil {
			g.build.Paints = append(g.build.Paints, *p)
		}
	}
}

// coatNames lists the paints that a build plans or has laid, each once.
func coatNames(f topic.Facts) []string {
	var names []string
	add := func(name journal.Text) {
		if !slices.Contains(names, name.V) {
			names = append(names, name.V)
		}
	}
	for _, stack := range f.Front.Paint {
		for _, c := range stack.Value {
			add(c.Paint)
		}
	}
	for _, s := range f.Sittings {
		for _, c := range s.Front.Coats {
			add(c.Coat)
		}
	}
	return names
}

// planned is what build.md says of an area.
func (g *gathering) planned(e *source.Entry[paint.Area]) paint.Area {
	a := e.Value
	a.Name = e.Name
	for _, work := range a.Prepared {
		a.Treatments = append(a.Treatments, paint.Treatment{What: work})
	}
	a.Silence = slices.DeleteFunc(slices.Clone(a.Silence), func(s source.Entry[journal.Text]) bool {
		near, ok := journal.Nearest(s.Name.V, paint.RuleNames())
		if !ok || paint.Known(s.Name.V) {
			return false
		}
		g.found.Add(paint.RuleSilenceRule.At(s.Name.At, "write "+near, "%s: %q is no rule of the finish", e.Name.V, s.Name.V))
		return true
	})
	a.Planned, _ = g.Front.Paint.Get(e.Name.V)
	a.Closing = g.lit(&a)
	return a
}

// area returns the area of a name, nil where there is none: the journal has
// said so.
func (g *gathering) area(name string) *paint.Area {
	for i := range g.build.Areas {
		if g.build.Areas[i].Name.V == name {
			return &g.build.Areas[i]
		}
	}
	return nil
}
