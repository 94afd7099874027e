package gen

import (
	"fmt"
	"slices"
	"strings"

	"spruelight/gen/circuit"
	"spruelight/gen/page"
	"spruelight/gen/quantity"
	"spruelight/gen/source"
	"spruelight/gen/svg"
	"spruelight/gen/tally"
	"spruelight/gen/topic"
	"spruelight/gen/topic/lighting"
	"spruelight/gen/wiring"
)

const (
	lightingName = "lighting.html"
	meterName    = "meter.html"
)

// drawLight draws every circuit and the loom of all, for a page and for a phone.
func drawLight(w *work) {
	tell := w.run.words.Tell
	for i := range w.light.circuits {
		c := &w.light.circuits[i]
		if !c.solution.Solved {
			continue
		}
		id := fmt.Sprintf("circuit-%d", i+1)
		c.diagram = w.keep(id, wiring.DiagramTable(c.solution, tell), wiring.DiagramFor(id, c.solution, wiring.Wide, tell), wiring.DiagramFor(id+"-narrow", c.solution, wiring.Narrow, tell))
	}
	solved := w.solved()
	w.light.loom = w.keep("loom", w.loomTable(solved), wiring.Loom("loom", solved, wiring.Wide, tell), wiring.Loom("loom-narrow", solved, wiring.Narrow, tell))
	w.drawRings(solved)
}

// loomTable says the loom in words: every single wire with its way and colour.
func (w *work) loomTable(solved []circuit.Solution) svg.Table {
	t := svg.Table{Head: []string{"Piece", "From", "To", "Wire", "Colour", "Length"}}
	spools, unknown := wiring.CutList(solved, w.slack())
	for _, s := range spools {
		for _, c := range s.Cuts {
			ref := c.Ref
			if len(solved) > 1 {
				ref += ", " + c.Circuit
			}
			t.Rows = append(t.Rows, []string{ref, c.From, c.To, s.Wire, s.Colour, c.Length.String()})
		}
	}
	for _, run := range unknown {
		t.Rows = append(t.Rows, []string{run, "", "", "", "", "–"})
	}
	return t
}

// drawRings draws the colour rings of every value of resistor once; values that
// the code has no rings for are left out.
func (w *work) drawRings(solved []circuit.Solution) {
	for _, s := range solved {
		for _, b := range s.Branches {
			if b.Kind != circuit.Auto && b.Kind != circuit.Fixed {
				continue
			}
			r := b.Resistor
			name := fmt.Sprintf("rings-%s-%s", r.Code, quantity.Round(float64(r.Tolerance)*100, 2))
			at := slices.IndexFunc(w.light.rings, func(known lighting.Rings) bool { return known.Name == name })
			if at >= 0 {
				w.light.rings[at].Refs = append(w.light.rings[at].Refs, b.Ref)
				continue
			}
			if drawing, err := wiring.Bands(name, r.Ohms, r.Tolerance, w.run.words.Tell); err == nil {
				w.light.rings = append(w.light.rings, lighting.Rings{Name: name, What: r.Code, Refs: []string{b.Ref}, Drawing: w.keep(name, svg.Table{}, drawing)})
			}
		}
	}
}

// solved lists the circuits that could be worked out.
func (w *work) solved() []circuit.Solution {
	var all []circuit.Solution
	for i := range w.light.circuits {
		if s := w.light.circuits[i].solution; s.Solved {
			all = append(all, s)
		}
	}
	return all
}

// slack is what every piece of wire gets beyond its way.
func (w *work) slack() wiring.Slack {
	slack := wiring.UsualSlack
	if s := w.run.shop.Settings.Slack; s.Set {
		slack.End = s.V
	}
	return slack
}

// lightPages are the lighting page and the meter card, where a build has
// circuits that could be worked out.
func lightPages(w *work) []*page.Sheet {
	data := lighting.Page{Build: w.run.buildCard(w), Bench: w.record.Sum.State == tally.Bench, Path: w.place(lightingName), Meter: w.place(meterName)}
	for _, a := range w.light.areas {
		data.Areas = append(data.Areas, lighting.Heat(a))
	}
	var words []string
	for i := range w.light.circuits {
		c := &w.light.circuits[i]
		if !c.solution.Solved {
			continue
		}
		data.Circuits = append(data.Circuits, w.lightCircuit(i, c))
		words = append(words, c.solution.Name)
		for _, b := range c.solution.Branches {
			words = append(words, b.Name, b.Ref)
			for _, l := range b.Lamps {
				words = append(words, l.Ref, l.Place, l.Model)
			}
		}
	}
	if len(data.Circuits) == 0 {
		return nil
	}
	solved := w.solved()
	data.Loom = w.light.loom
	data.Shopping = wiring.Shopping(solved, w.slack())
	data.Spools, data.Unknown = wiring.CutList(solved, w.slack())
	data.Slack = w.slack()
	data.Rings = w.light.rings
	say := w.run.theme.words.Say
	name := w.build.Front.Name.V
	text := name + " " + strings.Join(words, " ")
	return []*page.Sheet{
		{Path: w.place(lightingName), Kind: "lighting", Title: w.run.theme.words.Headed(say("Lighting"), name), Data: data, Words: text,
			Summary: say("%s: circuits, lamps, resistors, meter card, and what happens when a lamp fails.", name)},
		{Path: w.place(meterName), Kind: "meter", Title: w.run.theme.words.Headed(say("Meter card"), name), Data: data, Words: text,
			Summary: say("%s: what a multimeter should read at every test point.", name)},
	}
}

// lightCircuit prepares one circuit for the page.
func (w *work) lightCircuit(i int, c *litCircuit) lighting.CircuitRow {
	s := &c.solution
	out := lighting.CircuitRow{Solution: s, ID: fmt.Sprintf("circuit-%d", i+1), Diagram: c.diagram, Anchor: fmt.Sprintf("meter-%d", i+1),
		Open: topic.CellOf("supply, unloaded", s.Supply.Open.Nominal, s.Supply.Open.Low, s.Supply.Open.High, 1, "V"), Inside: quantity.Figure{Name: "inside resistance", Value: float64(s.Supply.Inside), Unit: "ohm", Digits: 2},
		Plug: s.Circuit.Supply.Plug.V, SupplySource: s.Circuit.Supply.Source.V,
		Card: lighting.Points(s), Life: lighting.Life(s.Cells), Faults: faultRows(s)}
	for _, f := range c.found {
		if f.Silenced != "" {
			out.Quiet = append(out.Quiet, f)
		} else {
			out.Findings = append(out.Findings, f)
		}
	}
	for k := range s.Branches {
		b := &s.Branches[k]
		out.Rows = append(out.Rows, lighting.Branch(s, b))
		out.Starred = out.Starred || b.Assumed
		if b.Control.Kind == circuit.Fade {
			out.Fades = append(out.Fades, lighting.Fade(b.Name, circuit.FadeTable(float64(b.Control.Period)*3600/2, 11)))
		}
		for _, f := range b.Fibres {
			out.Fibres = append(out.Fibres, lighting.FibreRow{FibreResult: f, Buy: quantity.Figure{Name: "to buy", Value: float64(f.Buy), Unit: "m", Digits: 2}})
		}
	}
	out.Wires = wireRows(s)
	for _, g := range s.Matched {
		out.Pairs = append(out.Pairs, lighting.Pair(s, g))
	}
	for _, j := range s.Judged {
		out.Readings = append(out.Readings, lighting.Reading(j, w.sittingOn(j.Reading.Taken)))
	}
	return out
}

// wireRows are the runs of wire that have a size: feeds, then leads.
func wireRows(s *circuit.Solution) []lighting.WireRow {
	var rows []lighting.WireRow
	add := func(where string, r circuit.RunResult) {
		if r.Run.Size.Set && r.Run.Length.Set {
			rows = append(rows, lighting.Wire(where, r))
		}
	}
	for _, j := range s.Junctions {
		add("feed to "+j.Name, j.Feed)
	}
	for _, b := range s.Branches {
		add("lead of "+b.Name, b.Lead)
	}
	return rows
}

// sittingOn finds the page of the sitting of a day.
func (w *work) sittingOn(day string) string {
	for _, s := range w.build.Sittings {
		if s.Date.Format("2006-01-02") == day {
			return w.run.places.Page(s.File.Name)
		}
	}
	return ""
}

// faultRows tells what is worth telling of failures: of strings and of lamps
// side by side. Lamps of one string that fail alike share a row; a lamp alone
// in its branch takes nothing with it, which one sentence on the page says.
func faultRows(s *circuit.Solution) []lighting.FaultRow {
	var rows []lighting.FaultRow
	for _, f := range s.Faults {
		b := &s.Branches[f.Branch]
		if len(b.Lamps) == 1 && len(f.Dark) == 0 && len(f.Over) == 0 {
			continue
		}
		row := lighting.FaultRow{Lamps: f.Lamp, Kind: string(f.Kind), Dark: f.Dark, Branch: b.Name, Rest: !b.Parallel && f.Kind == circuit.Open}
		for _, o := range f.Over {
			row.Over = append(row.Over, fmt.Sprintf("%s %s", o.Lamp, milliamps(o.Current)))
			row.Worse = row.Worse || o.Limit > 0 && o.Current > o.Limit
		}
		if f.Hottest > 1e-6 { // less is the leakage of dark lamps
			row.Hottest = milliamps(f.Hottest)
		}
		if same := sameFault(rows, row); same != nil && !b.Parallel {
			same.Lamps += ", " + row.Lamps
			continue
		}
		rows = append(rows, row)
	}
	return rows
}

// sameFault finds a row of the same branch and kind with the same outcome.
func sameFault(rows []lighting.FaultRow, row lighting.FaultRow) *lighting.FaultRow {
	for i := range rows {
		if r := &rows[i]; r.Branch == row.Branch && r.Kind == row.Kind && r.Hottest == row.Hottest && len(r.Over) == len(row.Over) {
			return r
		}
	}
	return nil
}

func milliamps(i quantity.Amps) string { return quantity.Round(float64(i)*1000, 3) + " mA" }

// lightLeaves leads from the build page on to its lighting.
func lightLeaves(w *work) []page.Leaf {
	lamps, circuits, current := 0, 0, quantity.Amps(0)
	var found source.Findings
	for i := range w.light.circuits {
		s := &w.light.circuits[i].solution
		if !s.Solved {
			continue
		}
		circuits++
		current += s.Total.Current.Nominal
		found.Add(w.light.circuits[i].found...)
		for _, b := range s.Branches {
			lamps += len(b.Lamps)
		}
	}
	if circuits == 0 {
		return nil
	}
	words := w.run.theme.words
	leaf := page.Leaf{Name: words.Say("Lighting"), Path: w.place(lightingName), Facts: []string{words.Count(circuits, "circuit") + words.Join(", ") + words.Count(lamps, "lamp"), words.Tell(milliamps(current))}}
	if n := found.Count(source.Warn); n > 0 {
		leaf.Facts = append(leaf.Facts, words.Count(n, "warning"))
	}
	return []page.Leaf{leaf}
}
