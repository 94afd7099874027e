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
	"spruelight/gen/quantity"
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
		shelf[c.Name.V] = &paint.Paint{Name: c.Name, Colour: source.Value[paint.Colour]{V: paint.Colour(c.Value), Set: true}}
	}
	for _, e := range rack.Paints {
		p := stocked(e.Name, &e.Value, &found)
		found.Add(p.CheckTimes()...)
		shelf[e.Name.V] = &p
	}
	return shelf, found
}

// stocked is one paint of the rack.
func stocked(name journal.Text, p *journal.Paint, found *source.Findings) paint.Paint {
	return paint.Paint{Name: name, Family: read(paint.ReadFamily, p.Kind, found), Finish: read(paint.ReadFinish, p.Finish, found),
		Colour: colourOf(p.Colour), Clear: p.Clear.V, Sheet: timesOf(&p.PaintTimes), Own: timesOf(&p.Measured), At: p.Warmth, Source: p.Source}
}

// read reads a word of the journal as one of the paint room's.
func read[T any](by func(journal.Text) (source.Value[T], []source.Finding), word journal.Text, found *source.Findings) source.Value[T] {
	v, bad := by(word)
	found.Add(bad...)
	return v
}

func colourOf(c source.Value[quantity.Colour]) source.Value[paint.Colour] {
	return source.Value[paint.Colour]{V: paint.Colour(c.V), At: c.At, Set: c.Set}
}

func timesOf(t *journal.PaintTimes) paint.Times {
	out := paint.Times{RecoatUntil: t.RecoatUntil, RecoatAgain: t.RecoatAgain}
	for stage, v := range map[paint.Stage]source.Value[quantity.Hours]{paint.Touch: t.TouchDry, paint.Handle: t.Handle, paint.Recoat: t.Recoat, paint.Other: t.Other,
		paint.Mask: t.MaskAfter, paint.Apply: t.DecalsAfter, paint.Soak: t.WashAfter, paint.Cured: t.Cured} {
		out.Wait[stage] = v
	}
	return out
}

// Reckon judges a build's finish. Paints are those of the rack; judged gives
// what was worked out of a meter reading by its place, nil for none.
func Reckon(f topic.Facts, paints paint.Shelf, judged func(source.Span) *circuit.JudgedReading) Result {
	g := gathering{Facts: f, judged: judged, build: paint.Build{Moment: f.Now, Room: f.Settings.Ambient}}
	g.mixed(paints)
	for i := range f.Front.Areas {
		g.build.Areas = append(g.build.Areas, g.planned(&f.Front.Areas[i]))
	}
	for _, s := range f.Sittings {
		g.sitting(s)
	}
	slices.SortStableFunc(g.build.Events, func(a, b paint.Event) int { return a.When.Compare(b.When) })
	g.decals()
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
		m := paint.Mix{Name: e.Name, Note: e.Value.Note}
		for _, part := range e.Value.Parts {
			m.Parts = append(m.Parts, paint.MixPart{What: part.Name, Amount: part.Value})
		}
		p, found := m.Paint(rack)
		g.found.Add(found...)
		if c := e.Value.Colour; c.Set {
			p.Colour = colourOf(c)
		}
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
			add(c.Coat)
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
func (g *gathering) planned(e *source.Entry[journal.Area]) paint.Area {
	a := &e.Value
	out := paint.Area{Name: e.Name, Encloses: a.Encloses, OtherFace: a.OtherFace, Meets: a.Meets}
	out.Material = read(paint.ReadMaterial, a.Material, &g.found)
	out.Side = read(paint.ReadSide, a.Side, &g.found)
	for _, t := range a.Treatments {
		out.Treatments = append(out.Treatments, paint.Treatment{What: read(paint.ReadWork, t, &g.found)})
	}
	for _, s := range a.Silence {
		if near, ok := journal.Nearest(s.Name.V, paint.RuleNames()); ok && !paint.Known(s.Name.V) {
			g.found.Add(paint.RuleSilenceRule.At(s.Name.At, "write "+near, "%s: %q is no rule of the finish", e.Name.V, s.Name.V))
			continue
		}
		out.Silences = append(out.Silences, paint.Silence{Rule: s.Name, Reason: s.Value})
	}
	stack, _ := g.Front.Paint.Get(e.Name.V)
	for _, c := range stack {
		out.Planned = append(out.Planned, paint.Coat{Paint: c.Coat, For: read(paint.ReadPurpose, c.For, &g.found),
			Thinned: c.Thinned, Method: c.Method, Passes: c.Passes, Pressure: c.Pressure, Nozzle: c.Nozzle})
	}
	out.Closing = g.lit(a)
	return out
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

// decals adds the decal sheets and what became of their markings.
func (g *gathering) decals() {
	b := &g.build
	for _, s := range g.Front.Sheets {
		sheet := paint.Sheet{Name: s.Name}
		for _, m := range s.Value {
			sheet.Marks = append(sheet.Marks, paint.Mark{Number: m.Number, What: m.What, Count: m.Count})
		}
		b.Sheets = append(b.Sheets, sheet)
	}
	for _, s := range g.Sittings {
		for _, m := range s.Front.Markings {
			b.Placed = append(b.Placed, paint.Placing{Sheet: m.Sheet, Number: m.Number, Count: m.Count, Area: m.Area,
				Spoilt: m.Event.V == "spoilt", When: g.endOf(s)})
		}
	}
}
