package gen

import (
	"slices"

	"spruelight/gen/journal"
	"spruelight/gen/page"
	"spruelight/gen/paint"
	"spruelight/gen/quantity"
	"spruelight/gen/source"
	"spruelight/gen/topic"
)

// finishWork is what the finish topic works out of one build.
type finishWork struct {
	build    paint.Build
	result   paint.Result
	mixes    []paint.Mix
	poured   []paint.Pour
	sections map[string]*page.Drawing // by area
	timeline *page.Drawing            // nil where nothing is drying
}

// paintShelf is the rack's paints as the paint room takes them, with the plain
// colours of which only the colour is known.
func paintShelf(shop *journal.Workshop) (map[string]*paint.Paint, source.Findings) {
	shelf := map[string]*paint.Paint{}
	var found source.Findings
	for _, c := range journal.PlainColours {
		shelf[c.Name.V] = &paint.Paint{Name: c.Name, Colour: source.Value[paint.Colour]{V: paint.Colour(c.Value), Set: true}}
	}
	for _, e := range shop.Rack.Paints {
		p, bad := paintOf(e.Name, &e.Value)
		found.Add(bad...)
		found.Add(p.CheckTimes()...)
		shelf[e.Name.V] = &p
	}
	return shelf, found
}

// paintOf hands one paint of the rack over.
func paintOf(name journal.Text, p *journal.Paint) (paint.Paint, source.Findings) {
	var found source.Findings
	out := paint.Paint{Name: name, Colour: colourOf(p.Colour), Clear: p.Clear.V, Sheet: timesOf(&p.PaintTimes), Own: timesOf(&p.Measured), At: p.Warmth, Source: p.Source}
	out.Family = read(paint.ReadFamily, p.Kind, &found)
	out.Finish = read(paint.ReadFinish, p.Finish, &found)
	return out, found
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

// reckonFinish judges a build's finish.
func reckonFinish(w *work) {
	f := &w.finish
	f.build = paint.Build{Moment: w.run.now(), Room: w.run.shop.Settings.Ambient}
	shelf := w.handMixes()
	for _, name := range w.coatNames() {
		if p := shelf[name]; p != nil {
			f.build.Paints = append(f.build.Paints, *p)
		}
	}
	for i := range w.build.Front.Areas {
		f.build.Areas = append(f.build.Areas, w.handArea(&w.build.Front.Areas[i]))
	}
	w.handSittings()
	w.handSheets()
	f.result = paint.Check(&f.build)
	w.found.Add(f.result.Findings...)
}

// handMixes hands the build's mixes over and returns the paints of the rack
// with the mixes among them.
func (w *work) handMixes() map[string]*paint.Paint {
	shelf := map[string]*paint.Paint{}
	for name, p := range w.run.paints {
		shelf[name] = p
	}
	for _, e := range w.build.Front.Mixes {
		m := paint.Mix{Name: e.Name, Note: e.Value.Note}
		for _, part := range e.Value.Parts {
			m.Parts = append(m.Parts, paint.MixPart{What: part.Name, Amount: part.Value})
		}
		p, found := m.Paint(w.run.paints)
		w.found.Add(found...)
		if c := e.Value.Colour; c.Set {
			p.Colour = colourOf(c)
		}
		shelf[e.Name.V] = &p
		poured := m.Pour(0, 0)
		w.found.Add(poured.Found...)
		w.finish.mixes, w.finish.poured = append(w.finish.mixes, m), append(w.finish.poured, poured)
	}
	return shelf
}

// coatNames lists the paints that a build plans or has laid, each once.
func (w *work) coatNames() []string {
	var names []string
	add := func(name journal.Text) {
		if !slices.Contains(names, name.V) {
			names = append(names, name.V)
		}
	}
	for _, stack := range w.build.Front.Paint {
		for _, c := range stack.Value {
			add(c.Coat)
		}
	}
	for _, s := range w.build.Sittings {
		for _, c := range s.Front.Coats {
			add(c.Coat)
		}
	}
	return names
}

// handArea hands over what build.md says of an area.
func (w *work) handArea(e *source.Entry[journal.Area]) paint.Area {
	a := &e.Value
	var found source.Findings
	out := paint.Area{Name: e.Name, Encloses: a.Encloses, OtherFace: a.OtherFace, Meets: a.Meets}
	out.Material = read(paint.ReadMaterial, a.Material, &found)
	out.Side = read(paint.ReadSide, a.Side, &found)
	for _, t := range a.Treatments {
		out.Treatments = append(out.Treatments, paint.Treatment{What: read(paint.ReadWork, t, &found)})
	}
	for _, s := range a.Silence {
		if near, ok := journal.Nearest(s.Name.V, paint.RuleNames()); ok && !paint.Known(s.Name.V) {
			found.Add(paint.RuleSilenceRule.At(s.Name.At, "write "+near, "%s: %q is no rule of the finish", e.Name.V, s.Name.V))
			continue
		}
		out.Silences = append(out.Silences, paint.Silence{Rule: s.Name, Reason: s.Value})
	}
	stack, _ := w.build.Front.Paint.Get(e.Name.V)
	for _, c := range stack {
		out.Planned = append(out.Planned, paint.Coat{Paint: c.Coat, For: read(paint.ReadPurpose, c.For, &found),
			Thinned: c.Thinned, Method: c.Method, Passes: c.Passes, Pressure: c.Pressure, Nozzle: c.Nozzle})
	}
	out.Closing = w.handClosing(a)
	w.found.Add(found...)
	return out
}

// area returns the handed-over area of a name.
func (w *work) area(name string) *paint.Area {
	for i := range w.finish.build.Areas {
		if w.finish.build.Areas[i].Name.V == name {
			return &w.finish.build.Areas[i]
		}
	}
	return nil
}

// handSittings hands over what the sittings did.
func (w *work) handSittings() {
	for _, s := range w.build.Sittings {
		w.handTreatments(s)
		w.handCoats(s)
		f, b := &s.Front, &w.finish.build
		for stage, touched := range map[paint.Stage][]journal.Touched{paint.Mask: f.Masked, paint.Handle: f.Handled} {
			for _, t := range touched {
				b.Events = append(b.Events, paint.Event{Area: t.Area, Stage: stage, When: w.facts().At(s, t.When, topic.EndOfDay), Assumed: !t.When.Set})
			}
		}
		for _, l := range f.Leaks {
			w.handLeak(s, l)
		}
		for _, t := range f.Tests {
			w.handLightTest(t)
		}
		for _, r := range f.Ready {
			w.handReadied(s, r)
		}
		for _, c := range f.Closed {
			if a := w.area(c.Area.V); a != nil && !a.Closing.Closed.Set {
				a.Closing.Closed = source.Written(w.facts().At(s, c.When, topic.EndOfDay), c.Area.At)
			}
		}
	}
	slices.SortStableFunc(w.finish.build.Events, func(a, b paint.Event) int { return a.When.Compare(b.When) })
}

func (w *work) handCoats(s *journal.Sitting) {
	var found source.Findings
	for _, c := range s.Front.Coats {
		a := w.area(c.Area.V)
		if a == nil {
			continue // the journal has said so
		}
		laid := paint.Laid{At: c.At, When: w.facts().At(s, c.When, topic.EndOfDay), Assumed: !c.When.Set, Temperature: s.Front.Warmth, Sitting: w.run.places.Page(s.File.Name)}
		laid.Coat = paint.Coat{Paint: c.Coat, For: read(paint.ReadPurpose, c.For, &found), Thinned: c.Thinned, Method: c.Method, Passes: c.Passes, Pressure: c.Pressure, Nozzle: c.Nozzle}
		a.Laid = append(a.Laid, laid)
	}
	w.found.Add(found...)
}

// handTreatments hands over what a sitting did to areas, and to parts of which
// build.md says to which area they belong.
func (w *work) handTreatments(s *journal.Sitting) {
	when := w.facts().At(s, journal.Val[quantity.Clock]{}, topic.StartOfDay)
	for _, t := range s.Front.Treated {
		work, known := paint.FindWork(t.Name.V)
		if !known {
			continue // told for the search for causes of problems
		}
		for _, of := range t.Value {
			treatment := paint.Treatment{What: source.Written(work, t.Name.At), When: when}
			name := of.V
			if part, ok := w.areaOfPart(of.V); ok {
				name, treatment.Part = part, of.V
			}
			if a := w.area(name); a != nil {
				a.Treatments = append(a.Treatments, treatment)
			}
		}
	}
}

// areaOfPart returns the area that a part belongs to.
func (w *work) areaOfPart(name string) (string, bool) {
	for _, p := range w.build.Front.Parts {
		if p.Part.V == name {
			return p.Area.V, true
		}
	}
	return "", false
}

func (w *work) handLeak(s *journal.Sitting, l journal.Leak) {
	var found source.Findings
	leak := paint.Leak{Where: l.Where, Cause: l.Cause, Action: l.Action, Why: l.Why, Found: s.Date}
	if check := read(paint.ReadLeakCheck, l.Check, &found); check.Set {
		leak.Check = check.V
	}
	w.found.Add(found...)
	a := w.area(l.Area.V)
	if a == nil {
		w.finish.build.Leaks = append(w.finish.build.Leaks, leak)
		return
	}
	a.Leaks = append(a.Leaks, leak)
	if leak.Check != paint.AnyCheck { // whoever finds a leak has looked
		a.Closing.Checks = append(a.Closing.Checks, paint.DoneCheck{Check: leak.Check, When: w.facts().At(s, journal.Val[quantity.Clock]{}, topic.StartOfDay)})
	}
}

func (w *work) handLightTest(t journal.LightTest) {
	a := w.area(t.Area.V)
	if a == nil {
		return
	}
	out := paint.LightTest{At: t.At, Where: t.Where, Bare: t.Bare, Dark: t.Dark, Meter: t.Meter, Target: t.Target}
	if !out.Where.Set {
		out.Where = t.Area
	}
	for _, r := range t.Readings {
		out.Readings = append(out.Readings, paint.LightReading{After: r.After, Lux: r.Lux})
	}
	a.Tests = append(a.Tests, out)
}

// handSheets hands over the decal sheets and what became of their markings.
func (w *work) handSheets() {
	b := &w.finish.build
	for _, s := range w.build.Front.Sheets {
		sheet := paint.Sheet{Name: s.Name}
		for _, m := range s.Value {
			sheet.Marks = append(sheet.Marks, paint.Mark{Number: m.Number, What: m.What, Count: m.Count})
		}
		b.Sheets = append(b.Sheets, sheet)
	}
	for _, s := range w.build.Sittings {
		for _, m := range s.Front.Markings {
			b.Placed = append(b.Placed, paint.Placing{Sheet: m.Sheet, Number: m.Number, Count: m.Count, Area: m.Area, Spoilt: m.Event.V == "spoilt", When: w.facts().At(s, journal.Val[quantity.Clock]{}, topic.EndOfDay)})
		}
	}
}

// ticking reports whether clocks still run for the build: what its pages say
// then changes with the moment alone. A day that is not over counts, since what
// has no time of day is taken to be at its end.
func (w *work) ticking() bool {
	r := &w.finish.result
	return !w.facts().Newest().Before(w.run.today()) || paint.Pending(r.Areas, r.Moment)
}
