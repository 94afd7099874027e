// Package care is the topic of whoever repairs a model: the sheet to be glued
// into its base, and what was never written down.
package care

import (
	"slices"
	"strings"

	"spruelight/gen/circuit"
	"spruelight/gen/page"
	"spruelight/gen/paint"
	"spruelight/gen/quantity"
	"spruelight/gen/source"
	"spruelight/gen/tally"
	"spruelight/gen/topic"
	"spruelight/gen/topic/finish"
	"spruelight/gen/topic/lighting"
)

// File is the name of a build's repair sheet.
const File = "repair.html"

// Seen is what other topics worked out of a build and the repair sheet needs.
type Seen struct {
	Circuits []*circuit.Solution // all of them, also those without an operating point
	Finish   *finish.Result
	Ledger   []tally.Row // of the counted parts
}

// Wanted reports whether there is anything that a repairer could be shown.
func Wanted(f topic.Facts, in Seen) bool {
	return len(in.Circuits) > 0 || f.Front.Repair.Written() || finished(f)
}

func finished(f topic.Facts) bool { return tally.State(f.Front.State.V) == tally.Shelf }

// Pages is the repair sheet, where it is wanted.
func Pages(f topic.Facts, in Seen, d topic.Desk) topic.Part {
	if !Wanted(f, in) {
		return topic.Part{}
	}
	r := &f.Front.Repair
	data := Repair{Build: d.Card, Photo: d.Card.Lead, Inside: wirePhoto(f, d.Photos),
		Open: topic.Texts(r.Open), Resistors: r.Resistors.V, Route: topic.Texts(r.Route), Unreachable: topic.Texts(r.Unreachable),
		Closed: closedAreas(in.Finish), Coats: coatsLaid(in.Finish), Mixes: in.Finish.Mixes(f), Leaks: in.Finish.Leaks(),
		Spares: spares(f, in.Ledger, d.Words), Known: knownProblems(f), Cautions: cautions(f, in.Circuits), Lacks: Lacks(f, in)}
	if finished(f) {
		data.Finished = f.Front.Finished.V.Time
	}
	for _, s := range in.Circuits {
		data.Circuits = append(data.Circuits, circuitRow(f, s))
	}
	say := d.Words.Say
	sheet := d.Sheet(File, "repair", say("Repair sheet"),
		say("%s: how to open it, what feeds it, every lamp with its resistor and wire, coats for touching up.", d.Card.Name), data)
	sheet.Words = strings.Join(append(append([]string{d.Card.Name}, data.Open...), data.Route...), " ")
	leaf := page.Leaf{Name: say("Repair sheet"), Path: f.Place(File), Facts: []string{say("one sheet to print")}}
	return topic.Part{Sheets: []*page.Sheet{sheet}, Leaves: []page.Leaf{leaf}}
}

// wirePhoto is the picture that shows the wires: the one written for repairers,
// else the last one taken of an open inside.
func wirePhoto(f topic.Facts, photos topic.Photos) *page.Picture {
	name := wirePhotoName(f)
	full, inside := f.Inside(name)
	if !inside {
		return nil
	}
	return photos.Picture(full, topic.AltOf(f, name), "", "")
}

func wirePhotoName(f topic.Facts) string {
	if p := f.Front.Repair.Photo; p.Set {
		return p.V
	}
	for _, s := range slices.Backward(f.Sittings) {
		for _, c := range slices.Backward(s.Front.Ready) {
			if c.Photo.Set {
				return c.Photo.V
			}
		}
	}
	return ""
}

// circuitRow prepares one circuit for the sheet.
func circuitRow(f topic.Facts, s *circuit.Solution) RepairCircuit {
	in := &s.Circuit
	out := RepairCircuit{Name: s.Name, Ref: s.Supply.Ref, Supply: in.Circuit.Supply.V, Fed: suppliedBy(&in.Supply),
		Switch: in.Switch.V, Entry: in.Entry.V, Feed: wireText(in.Feed), Solved: s.Solved, Fuse: fuseText(&in.Fuse), Plug: in.Supply.Plug.V}
	if plug := f.Front.Repair.Plug; plug.Set && !in.Supply.Cells.Set { // cells sit in a holder
		out.Plug = plug.V
	}
	if amps, ok := f.Front.Repair.DayOne.Get(s.Name); ok {
		out.DayOne = quantity.FigureOf("day-one current", amps.V)
	}
	if !s.Solved {
		return out
	}
	out.Current, out.Points = quantity.FigureOf("current", s.Total.Current.Nominal), lighting.Points(s)
	if s.Cells != nil {
		out.Cells = s.Cells.Cells
		out.Lasts = quantity.Figure{Name: "lasts", Value: float64(useful(s.Cells)), Unit: "h", Digits: 2}
	}
	out.Unplug = s.Plugged()
	for _, j := range s.Junctions[1:] {
		feed := source.List{Of: []any{j.Name, wireText(j.Feed.Run)}, Sep: ": "}
		out.Junctions = append(out.Junctions, source.Say("%s", feed))
	}
	for i := range s.Branches {
		out.Lamps = append(out.Lamps, lampRows(s, &s.Branches[i])...)
	}
	return out
}

// lampRows prepares the lamps of a branch.
func lampRows(s *circuit.Solution, b *circuit.BranchResult) []RepairLamp {
	var out []RepairLamp
	for k := range b.Lamps {
		l := RepairLamp{LampResult: &b.Lamps[k], First: k == 0, Span: len(b.Lamps), Branch: b.Name,
			Wire: wireText(b.Lead.Run), Parallel: b.Parallel, Limiter: limiterText(b)}
		l.Drop, l.Wanted = lampFigures(b, l.LampResult)
		l.Type = l.Model
		if plain := strings.ReplaceAll(l.Model, "-", " "); !strings.Contains(plain, l.Colour) {
			l.Type = strings.TrimPrefix(l.Model+", "+l.Colour, ", ")
		}
		for _, ring := range b.Resistor.Bands {
			l.Rings = append(l.Rings, ring.Colour)
		}
		if b.Control.Kind != circuit.Steady {
			l.Control = b.Control.Says()
		}
		if len(s.Junctions) > 1 {
			l.Junction = s.Junctions[b.Junction].Name
		}
		for _, j := range s.Judged {
			if j.Reading.Current.Set && strings.EqualFold(j.Reading.Where.V, b.Name) {
				l.Measured = quantity.FigureOf("measured", j.Reading.Current.V)
			}
		}
		out = append(out, l)
	}
	return out
}

// limiterText names what limits a branch: "R1 470 Ω (470R), 1/4 W".
func limiterText(b *circuit.BranchResult) source.Message {
	switch b.Kind {
	case circuit.ConstantCurrent:
		return listed(spaced(b.Ref, source.Word("driver")), b.Resistor.Set)
	case circuit.None:
		return source.Message{}
	}
	return listed(spaced(b.Ref, b.Resistor.Ohms), quantity.Rating(b.Resistor.Rating))
}

// suppliedBy says what feeds a circuit, so that another of its kind can be
// bought when this one is lost.
func suppliedBy(s *circuit.Supply) source.Message {
	var kind, parts []any
	if s.Volts.Set {
		kind = append(kind, s.Volts.V)
	}
	if s.Kind.Set {
		kind = append(kind, source.Word(strings.Replace(s.Kind.V, "usb", "USB", 1)))
	}
	parts = append(parts, spaced(kind...))
	switch {
	case s.Cells.Set && s.Cells.V.Series > 1:
		parts = append(parts, s.Cells.V)
	case s.Cells.Set:
		parts = append(parts, s.Cells.V.Type)
	}
	if s.Regulated.Set && !s.Regulated.V {
		parts = append(parts, source.Word("not regulated"))
	}
	if s.Limit.Set {
		parts = append(parts, source.Say("up to %s", s.Limit.V))
	}
	return listed(parts...)
}

// fuseText says which fuse and where it sits.
func fuseText(f *circuit.Fuse) source.Message {
	switch {
	case !f.Rated.Set:
		return source.Message{}
	case f.Text.V != "":
		return listed(f.Rated.V, f.Text.V)
	}
	return listed(f.Rated.V)
}

// wireText says what a run is made of: "34 AWG, copper, 290 mm".
func wireText(r circuit.Run) source.Message {
	var parts []any
	switch {
	case r.Wire.V != "":
		parts = append(parts, r.Wire.V)
	case r.Size.Set:
		parts = append(parts, r.Size.V)
	}
	if r.Colour.V != "" {
		parts = append(parts, source.Word(r.Colour.V))
	}
	if r.Length.Set {
		parts = append(parts, r.Length.V)
	}
	return listed(parts...)
}

// listed sets commas between parts; without any it says nothing.
func listed(parts ...any) source.Message {
	if len(parts) == 0 {
		return source.Message{}
	}
	return source.Say("%s", source.Row(parts))
}

// spaced sets parts in a row without a sign between them.
func spaced(parts ...any) source.List { return source.List{Of: parts, Sep: " "} }

// closedAreas lists the areas that were glued shut, with the lamps in them.
func closedAreas(r *finish.Result) []RepairArea {
	var out []RepairArea
	for i := range r.Paint.Areas {
		a := &r.Paint.Areas[i]
		if !a.Card.Closed {
			continue
		}
		area := RepairArea{Name: a.Name, When: a.Card.When}
		for _, l := range a.Area.Encloses {
			area.Lamps = append(area.Lamps, l.V)
		}
		out = append(out, area)
	}
	return out
}

// coatsLaid lists the coats of every area as they were laid, from the plastic
// outward; a planned coat that nobody logged says so.
func coatsLaid(r *finish.Result) []RepairStack {
	var out []RepairStack
	for i := range r.Paint.Areas {
		a := &r.Paint.Areas[i]
		if len(a.Rows) == 0 {
			continue
		}
		stack := RepairStack{Area: a.Name, Material: a.Area.Material.V.String()}
		for k := range a.Rows {
			stack.Coats = append(stack.Coats, coatLaid(&a.Rows[k]))
		}
		out = append(out, stack)
	}
	return out
}

func coatLaid(row *paint.Row) RepairCoat {
	facts := row.Facts()
	coat := RepairCoat{Name: row.Name, Planned: len(row.Laid) == 0}
	if facts.Thinned.Set {
		coat.Thinned = source.Say("%s", facts.Thinned.V)
	}
	if p := row.Paint; p != nil {
		coat.Label = p.Label.V
		if p.Colour.Set {
			coat.Colour = &p.Colour.V
		}
	}
	return coat
}

// spares lists what was put aside for repairs, and the spare parts that
// the kit left over.
func spares(f topic.Facts, ledger []tally.Row, words *page.Words) []RepairSpare {
	var out []RepairSpare
	for _, s := range f.Front.Repair.Spares {
		out = append(out, RepairSpare{What: s.What.V, Where: s.Where.V})
	}
	for _, row := range ledger {
		if row.HaveKnown && row.NeedKnown && row.Spares > 0 {
			what := row.Part
			if row.What != "" {
				what += " " + row.What
			}
			out = append(out, RepairSpare{What: words.Number(float64(row.Spares), 0) + " × " + what, Where: words.Say("left over from the kit")})
		}
	}
	return out
}

// knownProblems lists what was left as it is, and what went wrong and may come
// back.
func knownProblems(f topic.Facts) []string {
	out := topic.Texts(f.Front.Repair.Known)
	for i := range f.Front.Problems {
		p := &f.Front.Problems[i]
		name := p.Name.Or(p.Symptom.V)
		if p.Outcome.Set {
			name += ": " + p.Outcome.V
		}
		out = append(out, name)
	}
	return out
}

// cautions are those of the circuits, each once, and those of this model.
func cautions(f topic.Facts, circuits []*circuit.Solution) []source.Message {
	var out []source.Message
	for _, t := range f.Front.Repair.Cautions {
		out = append(out, source.Say("%s", t.V))
	}
	for _, s := range circuits {
		for _, c := range s.Cautions {
			if !slices.ContainsFunc(out, func(known source.Message) bool { return known.String() == c.String() }) {
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
