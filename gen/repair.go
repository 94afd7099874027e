package gen

import (
	"slices"
	"strings"

	"spruelight/gen/circuit"
	"spruelight/gen/page"
	"spruelight/gen/paint"
	"spruelight/gen/quantity"
	"spruelight/gen/tally"
	"spruelight/gen/topic"
	"spruelight/gen/topic/care"
	"spruelight/gen/topic/lighting"
)

const repairName = "repair.html"

// repairable reports whether there is anything that a repairer could be told.
func (w *work) repairable() bool {
	return len(w.light.circuits) > 0 || w.build.Front.Repair.Written() || w.record.Sum.State == tally.Shelf
}

// repairPages is the repair sheet.
func repairPages(w *work) []*page.Sheet {
	if !w.repairable() {
		return nil
	}
	f := &w.build.Front
	r := &f.Repair
	data := care.Repair{Build: w.run.buildCard(w), Photo: w.run.buildCard(w).Lead, Inside: w.wirePhoto(), Open: topic.Texts(r.Open), Resistors: r.Resistors.V, Route: topic.Texts(r.Route),
		Unreachable: topic.Texts(r.Unreachable), Closed: w.closedAreas(), Coats: w.coatsLaid(), Mixes: w.mixCards(), Spares: w.sparesKept(), Leaks: w.leaks(),
		Known: w.knownProblems(), Cautions: w.cautions(), Lacks: w.lacks()}
	if w.record.Sum.State == tally.Shelf {
		data.Finished = f.Finished.V.Time
	}
	for i := range w.light.circuits {
		data.Circuits = append(data.Circuits, w.repairCircuit(&w.light.circuits[i].solution))
	}
	say := w.run.press.words.Say
	return []*page.Sheet{{Path: w.place(repairName), Kind: "repair", Title: w.run.press.words.Headed(say("Repair sheet"), f.Name.V), Data: data,
		Summary: say("%s: how to open it, what feeds it, every lamp with its resistor and wire, coats for touching up.", f.Name.V),
		Words:   strings.Join(append(append([]string{f.Name.V}, data.Open...), data.Route...), " ")}}
}

// repairLeaves leads from the build page on to the sheet.
func repairLeaves(w *work) []page.Leaf {
	if !w.repairable() {
		return nil
	}
	say := w.run.press.words.Say
	return []page.Leaf{{Name: say("Repair sheet"), Path: w.place(repairName), Facts: []string{say("one sheet to print")}}}
}

// wirePhoto is the picture that shows the wires: the one written for repairers,
// else the last one taken of an open inside.
func (w *work) wirePhoto() *page.Picture {
	name := w.wirePhotoName()
	full, inside := w.build.Inside(name)
	if !inside {
		return nil
	}
	return w.run.photos.Picture(full, topic.AltOf(w.facts(), name), "", "")
}

func (w *work) wirePhotoName() string {
	if p := w.build.Front.Repair.Photo; p.Set {
		return p.V
	}
	for _, s := range slices.Backward(w.build.Sittings) {
		for _, c := range slices.Backward(s.Front.Ready) {
			if c.Photo.Set {
				return c.Photo.V
			}
		}
	}
	return ""
}

// repairCircuit prepares one circuit for the sheet.
func (w *work) repairCircuit(s *circuit.Solution) care.RepairCircuit {
	in := &s.Circuit
	out := care.RepairCircuit{Name: s.Name, Ref: s.Supply.Ref, Supply: in.Circuit.Supply.V, Fed: suppliedBy(&in.Supply), Switch: in.Switch.V, Entry: in.Entry.V,
		Feed: wireText(in.Feed), Solved: s.Solved, Fuse: fuseText(&in.Fuse), Plug: in.Supply.Plug.V}
	if plug := w.build.Front.Repair.Plug; plug.Set && !in.Supply.Cells.Set { // cells sit in a holder
		out.Plug = plug.V
	}
	if amps, ok := w.build.Front.Repair.DayOne.Get(s.Name); ok {
		out.DayOne = inMilliamps("day-one current", amps.V)
	}
	if !s.Solved {
		return out
	}
	out.Current, out.Points = inMilliamps("current", s.Total.Current.Nominal), lighting.Points(s)
	if s.Cells != nil {
		out.Cells = s.Cells.Cells
		out.Lasts = quantity.Figure{Name: "lasts", Value: float64(useful(s.Cells)), Unit: "h", Digits: 2}
	}
	out.Unplug = s.Plugged()
	for _, j := range s.Junctions[1:] {
		out.Junctions = append(out.Junctions, j.Name+": "+wireText(j.Feed.Run))
	}
	for i := range s.Branches {
		out.Lamps = append(out.Lamps, repairLamps(s, &s.Branches[i])...)
	}
	return out
}

// repairLamps prepares the lamps of a branch.
func repairLamps(s *circuit.Solution, b *circuit.BranchResult) []care.RepairLamp {
	var out []care.RepairLamp
	for k := range b.Lamps {
		l := care.RepairLamp{LampResult: &b.Lamps[k], First: k == 0, Span: len(b.Lamps), Branch: b.Name, Wire: wireText(b.Lead.Run), Parallel: b.Parallel, Limiter: limiterText(b)}
		l.Drop, l.Wanted = care.LampFigures(b, l.LampResult)
		l.Type = l.Model
		if plain := strings.ReplaceAll(l.Model, "-", " "); !strings.Contains(plain, l.Colour) {
			l.Type = strings.TrimPrefix(l.Model+", "+l.Colour, ", ")
		}
		for _, ring := range b.Resistor.Bands {
			l.Rings = append(l.Rings, ring.Colour)
		}
		if b.Control.Kind != circuit.Steady {
			l.Control = controlText(b.Control)
		}
		if len(s.Junctions) > 1 {
			l.Junction = s.Junctions[b.Junction].Name
		}
		for _, j := range s.Judged {
			if j.Reading.Current.Set && strings.EqualFold(j.Reading.Where.V, b.Name) {
				l.Measured = inMilliamps("measured", j.Reading.Current.V)
			}
		}
		out = append(out, l)
	}
	return out
}

func inMilliamps(name string, i quantity.Amps) quantity.Figure {
	return quantity.Figure{Name: name, Value: float64(i) * 1e3, Unit: "mA", Digits: 3}
}

// limiterText names what limits a branch: "R1 470R, 1/4 W".
func limiterText(b *circuit.BranchResult) string {
	switch b.Kind {
	case circuit.ConstantCurrent:
		return b.Ref + " driver, " + b.Resistor.Set.String()
	case circuit.None:
		return ""
	}
	text := b.Ref + " " + b.Resistor.Code
	if rating := circuit.RatingText(b.Resistor.Rating); rating != "" {
		text += ", " + rating
	}
	return text
}

// controlText says how a branch is driven: "blink 0.5 Hz 50 %". Slow rates stay
// in Hz, which everybody reads.
func controlText(c circuit.Control) string {
	text := string(c.Kind)
	switch {
	case c.Frequency >= 1000:
		text += " " + c.Frequency.String()
	case c.Frequency > 0:
		text += " " + quantity.Round(float64(c.Frequency), 3) + " Hz"
	}
	if c.Period > 0 {
		text += " " + quantity.Round(float64(c.Period)*3600, 3) + " s"
	}
	if c.Duty > 0 {
		text += " " + c.Duty.String()
	}
	return text
}

// suppliedBy says what feeds a circuit, so that another of its kind can be
// bought when this one is lost.
func suppliedBy(s *circuit.Supply) string {
	parts := []string{}
	if s.Volts.Set {
		parts = append(parts, s.Volts.V.String())
	}
	if s.Kind.Set {
		parts = append(parts, strings.Replace(s.Kind.V, "usb", "USB", 1))
	}
	text := strings.Join(parts, " ")
	switch {
	case s.Cells.Set && s.Cells.V.Series > 1:
		text += ", " + s.Cells.V.String()
	case s.Cells.Set:
		text += ", " + s.Cells.V.Type
	}
	if s.Regulated.Set && !s.Regulated.V {
		text += ", not regulated"
	}
	if s.Limit.Set {
		text += ", up to " + s.Limit.V.String()
	}
	return text
}

// fuseText says which fuse and where it sits.
func fuseText(f *circuit.Fuse) string {
	switch {
	case !f.Rated.Set:
		return ""
	case f.Text.V != "":
		return f.Rated.V.String() + ", " + f.Text.V
	}
	return f.Rated.V.String()
}

// wireText says what a run is made of: "34 AWG, copper, 290 mm".
func wireText(r circuit.Run) string {
	name := r.Wire.V
	if name == "" && r.Size.Set {
		name = r.Size.V.String()
	}
	parts := []string{}
	for _, p := range []string{name, r.Colour.V} {
		if p != "" {
			parts = append(parts, p)
		}
	}
	if r.Length.Set {
		parts = append(parts, r.Length.V.String())
	}
	return strings.Join(parts, ", ")
}

// closedAreas lists the areas that were glued shut, with the lamps in them.
func (w *work) closedAreas() []care.RepairArea {
	var out []care.RepairArea
	for i := range w.finish.result.Areas {
		a := &w.finish.result.Areas[i]
		if !a.Card.Closed {
			continue
		}
		area := care.RepairArea{Name: a.Name, When: a.Card.When}
		for _, l := range a.Area.Encloses {
			area.Lamps = append(area.Lamps, l.V)
		}
		out = append(out, area)
	}
	return out
}

// coatsLaid lists the coats of every area as they were laid, from the plastic
// outward; a planned coat that nobody logged says so.
func (w *work) coatsLaid() []care.RepairStack {
	var out []care.RepairStack
	for i := range w.finish.result.Areas {
		a := &w.finish.result.Areas[i]
		if len(a.Rows) == 0 {
			continue
		}
		stack := care.RepairStack{Area: a.Name, Material: a.Area.Material.V.String()}
		for k := range a.Rows {
			stack.Coats = append(stack.Coats, w.coatLaid(&a.Rows[k]))
		}
		out = append(out, stack)
	}
	return out
}

func (w *work) coatLaid(row *paint.Row) care.RepairCoat {
	facts := row.Facts()
	coat := care.RepairCoat{Name: row.Name, For: row.For.String(), Method: facts.Method.V, Planned: len(row.Laid) == 0}
	if facts.Thinned.Set {
		coat.Thinned = facts.Thinned.V.String()
	}
	if row.Paint != nil && row.Paint.Colour.Set {
		c := quantity.Colour(row.Paint.Colour.V)
		coat.Colour = &c
	}
	if p, ok := w.run.shop.Rack.Paints.Get(row.Name); ok {
		coat.Label, coat.Kind = p.Label.V, p.Kind.V
	}
	return coat
}

// sparesKept lists what was put aside for repairs, and the spare parts that
// the kit left over.
func (w *work) sparesKept() []care.RepairSpare {
	var out []care.RepairSpare
	for _, s := range w.build.Front.Repair.Spares {
		out = append(out, care.RepairSpare{What: s.What.V, Where: s.Where.V})
	}
	say := w.run.press.words
	for _, row := range w.record.Rows {
		if row.HaveKnown && row.NeedKnown && row.Spares > 0 {
			what := row.Part
			if row.What != "" {
				what += " " + row.What
			}
			out = append(out, care.RepairSpare{What: say.Number(float64(row.Spares), 0) + " × " + what, Where: say.Say("left over from the kit")})
		}
	}
	return out
}

// knownProblems lists what was left as it is, and what went wrong and may come
// back.
func (w *work) knownProblems() []string {
	out := topic.Texts(w.build.Front.Repair.Known)
	for i := range w.build.Front.Problems {
		p := &w.build.Front.Problems[i]
		name := p.Name.Or(p.Symptom.V)
		if p.Outcome.Set {
			name += ": " + p.Outcome.V
		}
		out = append(out, name)
	}
	return out
}

// cautions are those of the circuits, each once, and those of this model.
func (w *work) cautions() []string {
	out := topic.Texts(w.build.Front.Repair.Cautions)
	for i := range w.light.circuits {
		for _, c := range w.light.circuits[i].solution.Cautions {
			if !slices.Contains(out, c) {
				out = append(out, c)
			}
		}
	}
	return out
}

// useful returns how long cells light a model well: until they are empty, or
// its dimmest lamp gives half its light. Lamps in series hardly draw from a low
// battery, which then lasts for weeks without lighting anything.
func useful(l *circuit.CellLife) quantity.Hours {
	if half := l.ToHalf.Nominal; half > 0 {
		return min(half, l.ToEnd.Nominal)
	}
	return l.ToEnd.Nominal
}
