package lighting

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"spruelight/gen/circuit"
	"spruelight/gen/page"
	"spruelight/gen/quantity"
	"spruelight/gen/source"
	"spruelight/gen/svg"
	"spruelight/gen/topic"
	"spruelight/gen/wiring"
)

// Pages is the lighting page and the meter card, where a build has circuits that
// could be worked out.
func Pages(f topic.Facts, r *Result, d topic.Desk) topic.Part {
	solved := r.Solved()
	if len(solved) == 0 {
		return topic.Part{}
	}
	data := Page{Build: d.Card, Bench: d.Card.OnBench(), Path: f.Place(File), Meter: f.Place(MeterFile)}
	for i := range r.Circuits {
		if c := &r.Circuits[i]; c.Solution.Solved {
			data.Circuits = append(data.Circuits, circuitRow(f, c, i+1, d))
		}
	}
	slack := slackOf(f)
	data.Loom = drawLoom(solved, slack, d)
	data.Rings = drawRings(solved, d)
	for _, a := range r.Areas {
		data.Areas = append(data.Areas, Heat(a))
	}
	data.Shopping = wiring.Shopping(solved, slack)
	data.Spools, data.Unknown = wiring.CutList(solved, slack)
	data.Slack = slack
	say, name := d.Words.Say, d.Card.Name
	sheets := []*page.Sheet{
		d.Sheet(File, "lighting", say("Lighting"),
			say("%s: circuits, lamps, resistors, meter card, and what happens when a lamp fails.", name), data),
		d.Sheet(MeterFile, "meter", say("Meter card"), say("%s: what a multimeter should read at every test point.", name), data),
	}
	for _, s := range sheets {
		s.Words = name + " " + strings.Join(searchWords(solved), " ")
	}
	return topic.Part{Sheets: sheets, Leaves: []page.Leaf{leaf(f, r, d.Words)}}
}

// searchWords are the words under which the search finds circuits.
func searchWords(solved []circuit.Solution) []string {
	var words []string
	for _, s := range solved {
		words = append(words, s.Name)
		for _, b := range s.Branches {
			words = append(words, b.Name, b.Ref)
			for _, l := range b.Lamps {
				words = append(words, l.Ref, l.Place, l.Model)
			}
		}
	}
	return words
}

// drawDiagram draws a circuit, for a desk and for a phone.
func drawDiagram(id string, s circuit.Solution, d topic.Desk) *page.Drawing {
	print := d.Words.Message
	return d.Keep(id, wiring.DiagramTable(s, print), wiring.DiagramFor(id, s, wiring.Wide, print),
		wiring.DiagramFor(id+"-narrow", s, wiring.Narrow, print))
}

// drawLoom draws the wires of all circuits, for a desk and for a phone.
func drawLoom(solved []circuit.Solution, slack wiring.Slack, d topic.Desk) *page.Drawing {
	print := d.Words.Message
	return d.Keep("loom", loomTable(solved, slack, print), wiring.Loom("loom", solved, wiring.Wide, print),
		wiring.Loom("loom-narrow", solved, wiring.Narrow, print))
}

// loomTable says the loom in words: every single wire with its way and colour.
func loomTable(solved []circuit.Solution, slack wiring.Slack, print svg.Printer) svg.Table {
	var t svg.Table
	for _, head := range []string{"Piece", "From", "To", "Wire", "Colour", "Length"} {
		t.Head = append(t.Head, print(source.Word(head)))
	}
	spools, unknown := wiring.CutList(solved, slack)
	for _, s := range spools {
		for _, c := range s.Cuts {
			ref := c.Ref
			if len(solved) > 1 {
				ref += ", " + c.Circuit
			}
			t.Rows = append(t.Rows, []string{ref, print(c.From), print(c.To), print(s.Wire), print(source.Word(s.Colour)),
				print(source.Say("%s", c.Length))})
		}
	}
	for _, run := range unknown {
		t.Rows = append(t.Rows, []string{print(run), "", "", "", "", "–"})
	}
	return t
}

// drawRings draws the colour rings of every value of resistor once; values that
// the code has no rings for are left out.
func drawRings(solved []circuit.Solution, d topic.Desk) []Rings {
	var all []Rings
	for _, s := range solved {
		for _, b := range s.Branches {
			if b.Kind != circuit.Auto && b.Kind != circuit.Fixed {
				continue
			}
			r := b.Resistor
			name := fmt.Sprintf("rings-%s-%s", r.Code, quantity.Round(float64(r.Tolerance)*100, 2))
			if at := slices.IndexFunc(all, func(known Rings) bool { return known.Name == name }); at >= 0 {
				all[at].Refs = append(all[at].Refs, b.Ref)
				continue
			}
			if drawing, err := wiring.Bands(name, r.Ohms, r.Tolerance, d.Words.Message); err == nil {
				all = append(all, Rings{Name: name, What: r.Code, Refs: []string{b.Ref}, Drawing: d.Keep(name, svg.Table{}, drawing)})
			}
		}
	}
	return all
}

// slackOf is what every piece of wire gets beyond its way.
func slackOf(f topic.Facts) wiring.Slack {
	slack := wiring.UsualSlack
	if s := f.Settings.Slack; s.Set {
		slack.End = s.V
	}
	return slack
}

// circuitRow prepares one circuit for the page, and draws it.
func circuitRow(f topic.Facts, c *Circuit, number int, d topic.Desk) CircuitRow {
	s := &c.Solution
	id := fmt.Sprintf("circuit-%d", number)
	out := CircuitRow{Solution: s, ID: id, Diagram: drawDiagram(id, *s, d), Anchor: fmt.Sprintf("meter-%d", number),
		Open:   topic.CellOf("supply, unloaded", s.Supply.Open.Nominal, s.Supply.Open.Low, s.Supply.Open.High),
		Inside: quantity.FigureOf("inside resistance", s.Supply.Inside),
		Plug:   s.Circuit.Supply.Plug.V, SupplySource: s.Circuit.Supply.Source.V,
		Card: Points(s), Life: Life(s.Cells), Faults: faultRows(s)}
	for _, x := range c.Found {
		if x.Silenced != "" {
			out.Quiet = append(out.Quiet, x)
		} else {
			out.Findings = append(out.Findings, x)
		}
	}
	for k := range s.Branches {
		b := &s.Branches[k]
		out.Rows = append(out.Rows, Branch(s, b))
		out.Starred = out.Starred || b.Assumed
		if b.Control.Kind == circuit.Fade {
			out.Fades = append(out.Fades, Fade(b.Name, circuit.FadeTable(float64(b.Control.Period)*3600/2, 11)))
		}
		for _, x := range b.Fibres {
			out.Fibres = append(out.Fibres, FibreRow{FibreResult: x, Buy: quantity.FigureOf("to buy", x.Buy), Work: x.Figures()})
		}
	}
	out.Wires, out.Verdicts = wireRows(s), Verdicts(s.Verdicts)
	for _, g := range s.Matched {
		out.Pairs = append(out.Pairs, Pair(s, g))
	}
	for _, j := range s.Judged {
		out.Readings = append(out.Readings, Reading(j, sittingOn(f, j.Reading.Taken, d.Places)))
	}
	return out
}

// wireRows are the runs of wire that have a size: feeds, then leads.
func wireRows(s *circuit.Solution) []WireRow {
	var rows []WireRow
	add := func(where source.Message, r circuit.RunResult) {
		if r.Run.Size.Set && r.Run.Length.Set {
			rows = append(rows, Wire(where, r))
		}
	}
	for k, j := range s.Junctions {
		add(source.Say("feed to %s", s.JunctionName(k)), j.Feed)
	}
	for _, b := range s.Branches {
		add(source.Say("lead of %s", b.Name), b.Lead)
	}
	return rows
}

// sittingOn finds the page of the sitting of a day.
func sittingOn(f topic.Facts, day string, places topic.Places) string {
	for _, s := range f.Sittings {
		if s.Date.Format(time.DateOnly) == day {
			return places.Page(s.File.Name)
		}
	}
	return ""
}

// faultRows are the failures worth a row: of strings and of lamps side by side.
// Lamps of one string that fail alike share a row; a lamp alone in its branch
// takes nothing with it, which one sentence on the page says.
func faultRows(s *circuit.Solution) []FaultRow {
	var rows []FaultRow
	for _, f := range s.Faults {
		b := &s.Branches[f.Branch]
		if len(b.Lamps) == 1 && len(f.Dark) == 0 && len(f.Over) == 0 {
			continue
		}
		row := FaultRow{Lamps: f.Lamp, Kind: string(f.Kind), Dark: f.Dark, Branch: b.Name,
			Rest: !b.Parallel && f.Kind == circuit.Open}
		for _, o := range f.Over {
			row.Over = append(row.Over, source.Say("%s %s", o.Lamp, quantity.About(o.Current)))
			row.Worse = row.Worse || o.Limit > 0 && o.Current > o.Limit
		}
		if f.Hottest > 1e-6 { // less is the leakage of dark lamps
			row.Hottest = quantity.About(f.Hottest)
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
func sameFault(rows []FaultRow, row FaultRow) *FaultRow {
	for i := range rows {
		r := &rows[i]
		alike := r.Kind == row.Kind && r.Hottest.String() == row.Hottest.String() && len(r.Over) == len(row.Over)
		if alike && r.Branch == row.Branch {
			return r
		}
	}
	return nil
}

// leaf leads from the build's page on to its lighting.
func leaf(f topic.Facts, r *Result, words *page.Words) page.Leaf {
	lamps, circuits, current := 0, 0, quantity.Amps(0)
	var found source.Findings
	for i := range r.Circuits {
		s := &r.Circuits[i].Solution
		if !s.Solved {
			continue
		}
		circuits++
		current += s.Total.Current.Nominal
		found.Add(r.Circuits[i].Found...)
		for _, b := range s.Branches {
			lamps += len(b.Lamps)
		}
	}
	out := page.Leaf{Name: words.Say("Lighting"), Path: f.Place(File), Facts: []string{
		words.Count(circuits, "circuit") + words.Join(", ") + words.Count(lamps, "lamp"), words.Value(quantity.About(current))}}
	if n := found.Count(source.Warn); n > 0 {
		out.Facts = append(out.Facts, words.Count(n, "warning"))
	}
	return out
}
