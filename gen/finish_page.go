package gen

import (
	"fmt"
	"strings"
	"time"

	"spruelight/gen/chart"
	"spruelight/gen/circuit"
	"spruelight/gen/journal"
	"spruelight/gen/page"
	"spruelight/gen/paint"
	"spruelight/gen/quantity"
	"spruelight/gen/source"
	"spruelight/gen/svg"
	"spruelight/gen/tally"
	"spruelight/gen/topic"
	"spruelight/gen/topic/finish"
)

// drawFinish draws the section of each area and, on the bench, the clocks.
func drawFinish(w *work) {
	f := &w.finish
	f.sections = map[string]*page.Drawing{}
	for i := range f.result.Areas {
		a := &f.result.Areas[i]
		if len(a.Rows) == 0 {
			continue
		}
		id := fmt.Sprintf("section-%d", i+1)
		f.sections[a.Name] = w.keep(id, sectionTable(a), paint.Section(id, a, f.otherFace(a), w.run.words.Tell))
	}
	if w.record.Sum.State == tally.Bench && paint.Drying(f.result.Areas, f.result.Moment) {
		desk, words := w.clock("curing", 760)
		phone, _ := w.clock("curing-narrow", topic.PhoneWidth)
		f.timeline = w.keep("curing", words, desk, phone)
	}
}

// clock draws the curing clock at a width.
func (w *work) clock(id string, width float64) (*svg.Drawing, svg.Table) {
	r, say := &w.finish.result, w.run.words.Say
	return paint.Timeline(chart.Frame{ID: id, Title: say("Curing clock"), Width: width, Lang: w.run.words.Language,
		Desc: say("When each coat that is still drying may be painted over and masked")}, r.Areas, r.Moment, w.clockTick)
}

func (w *work) clockTick(t time.Time, unit chart.Unit) string {
	if unit == chart.Hour {
		return t.Format("15:04")
	}
	return w.run.words.DayShort(t)
}

// otherFace returns what was worked out of the area on the other face.
func (f *finishWork) otherFace(a *paint.AreaResult) *paint.AreaResult {
	for i := range f.result.Areas {
		if f.result.Areas[i].Name == a.Area.OtherFace.V && &f.result.Areas[i] != a {
			return &f.result.Areas[i]
		}
	}
	return nil
}

// laid counts the coats laid on the build.
func (f *finishWork) laid() int {
	n := 0
	for i := range f.result.Areas {
		n += len(f.result.Areas[i].Curings)
	}
	return n
}

// sectionTable says the section in words.
func sectionTable(a *paint.AreaResult) svg.Table {
	t := svg.Table{Head: []string{"No.", "Coat", "For", "State"}}
	for _, r := range a.Rows {
		t.Rows = append(t.Rows, []string{fmt.Sprint(r.Number), r.Name, r.For.String(), r.State.String()})
	}
	return t
}

const finishName = "finish.html"

// finishPages is the page on a build's finish, where it has areas.
func finishPages(w *work) []*page.Sheet {
	f := &w.finish
	if len(f.result.Areas) == 0 {
		return nil
	}
	data := finish.Page{Build: w.run.buildCard(w), Bench: w.record.Sum.State == tally.Bench, Result: &f.result,
		Zone: w.run.shop.Zone.String(), Slow: paint.SlowSource, Timeline: f.timeline, Leaks: w.leaks(), Swatches: w.swatches(), Mixes: w.mixCards()}
	if w.ticking() { // else the page would change with every run
		data.Moment = f.result.Moment
	}
	if t := w.run.shop.Settings.Ambient; t.Set {
		data.Room = source.Written(t.V.String(), t.At)
	}
	data.Lighten = w.lighten(data.Swatches)
	for i := range f.result.Areas {
		a := &f.result.Areas[i]
		area := finish.AreaRow{AreaResult: a, ID: fmt.Sprintf("area-%d", i+1), Section: f.sections[a.Name], AllNow: paint.AllNow(a.Now), Photo: w.insidePhoto(a)}
		for _, x := range a.Findings {
			if x.Silenced != "" {
				area.Quiet = append(area.Quiet, x)
			} else {
				area.Findings = append(area.Findings, x)
			}
		}
		data.Areas = append(data.Areas, area)
		data.Lit = append(data.Lit, w.litRows(a)...)
	}
	data.Findings = w.otherFindings()
	words := w.build.Front.Name.V + " " + strings.Join(w.coatNames(), " ") + " " + strings.Join(w.build.Front.Areas.Names(), " ")
	return []*page.Sheet{{Path: w.place(finishName), Kind: "finish", Title: w.run.press.words.Headed(w.run.press.words.Say("Finish"), w.build.Front.Name.V),
		Summary: w.run.press.words.Say("%s: areas, coats, curing clocks, light blocking and closing.", w.build.Front.Name.V), Data: data, Words: words}}
}

// insidePhoto is the picture that a sitting named as showing the open inside.
func (w *work) insidePhoto(a *paint.AreaResult) *page.Picture {
	name := a.Area.Closing.Photo
	full, inside := w.build.Inside(name.V)
	if !name.Set || !inside {
		return nil
	}
	return w.run.photos.Picture(full, topic.AltOf(w.facts(), name.V), w.run.press.words.Say("The inside before closing"), "")
}

// finishLeaves leads from the build page on to its finish.
func finishLeaves(w *work) []page.Leaf {
	f := &w.finish
	if len(f.result.Areas) == 0 {
		return nil
	}
	words := w.run.press.words
	leaf := page.Leaf{Name: words.Say("Finish"), Path: w.place(finishName), Facts: []string{words.Count(len(f.result.Areas), "area") + words.Join(", ") + words.Say("%s laid", words.Count(f.laid(), "coat"))}}
	if n := f.result.Findings.Count(source.Warn); n > 0 {
		leaf.Facts = append(leaf.Facts, words.Count(n, "warning"))
	}
	return []page.Leaf{leaf}
}

// otherFindings are those of no area: paints, decals, leaks without one.
func (w *work) otherFindings() []source.Finding {
	of := map[source.Span]bool{}
	for i := range w.finish.result.Areas {
		for _, x := range w.finish.result.Areas[i].Findings {
			of[x.At] = true
		}
	}
	var out []source.Finding
	for _, x := range w.finish.result.Findings {
		if !of[x.At] {
			out = append(out, x)
		}
	}
	return out
}

// leaks lists all leaks of the build. The repair sheet repeats them.
func (w *work) leaks() []finish.LeakRow {
	var out []finish.LeakRow
	for i := range w.finish.build.Areas {
		a := &w.finish.build.Areas[i]
		for _, l := range a.Leaks {
			out = append(out, finish.LeakRow{Area: a.Name.V, Leak: l})
		}
	}
	for _, l := range w.finish.build.Leaks {
		out = append(out, finish.LeakRow{Leak: l})
	}
	return out
}

// swatches lists the paints that are used, in the order of their first use.
func (w *work) swatches() []finish.Swatch {
	var out []finish.Swatch
	for i := range w.finish.build.Paints {
		p := &w.finish.build.Paints[i]
		s := finish.Swatch{Name: p.Name.V, Paint: p, Waits: p.Waits()}
		if on, ok := w.run.shop.Rack.Paints.Get(p.Name.V); ok {
			s.Label = on.Label.V
		}
		out = append(out, s)
	}
	return out
}

// lighten lightens the swatches by the rule that the build asks for.
func (w *work) lighten(swatches []finish.Swatch) *finish.Lighten {
	name, size := w.build.Front.Lighten, w.build.Front.Scale
	rule, ok := paint.FindLightening(name.V)
	if !ok || !size.Set {
		return nil
	}
	out := &finish.Lighten{Name: rule.Name, Scale: size.V.String(), Source: rule.Source}
	for i := range swatches {
		s := &swatches[i]
		if !s.Paint.Colour.Set || s.Paint.Clear {
			continue
		}
		lighter, ok := rule.Lighten(s.Paint.Colour.V, size.V.Ratio)
		if !ok {
			out.Silent = true
			return out
		}
		s.Lighter = &lighter
	}
	return out
}

// litRows estimates the colour of each lamp behind the clear colour of an area.
func (w *work) litRows(a *paint.AreaResult) []finish.LitRow {
	var out []finish.LitRow
	for i := range a.Rows {
		row := &a.Rows[i]
		if row.For != paint.ClearColour || row.Paint == nil || !row.Paint.Colour.Set {
			continue
		}
		coats := max(1, row.Facts().Passes.V, len(row.Laid))
		for _, lamp := range a.Area.Closing.Lamps {
			from, ok := w.lampColour(lamp.Ref)
			if !ok {
				continue
			}
			out = append(out, finish.LitRow{Lamp: lamp.Ref, Area: a.Name, Paint: row.Name, Coats: coats, From: from, LitColour: paint.Lit(from, row.Paint.Colour.V, coats)})
		}
	}
	return out
}

// lampColours are the colours of common lamps on a screen, for estimates only.
// White and warm white are those of 6500 K and 2850 K (CIE illuminants D65 and
// A, brought to full brightness of their strongest channel); the others are
// from memory of what such lamps look like.
var lampColours = map[string]paint.Colour{
	"white": {R: 255, G: 255, B: 255}, "warm white": {R: 255, G: 180, B: 107}, "red": {R: 255, G: 32, B: 16}, "orange": {R: 255, G: 110, B: 0},
	"amber": {R: 255, G: 160, B: 0}, "yellow": {R: 255, G: 214, B: 0}, "green": {R: 30, G: 255, B: 60}, "blue": {R: 40, G: 80, B: 255},
}

// lampColour returns the colour of a lamp by its reference.
func (w *work) lampColour(ref string) (paint.Colour, bool) {
	number := 0
	for _, c := range w.build.Front.Circuits {
		for _, b := range c.Branches {
			for _, l := range b.Lamps {
				if number++; circuit.LampRef(number) == ref {
					lamp, ok := w.run.shop.Rack.Lamps.Get(l.Lamp.V)
					return colourWord(lamp.Colour), ok
				}
			}
		}
	}
	return paint.Colour{}, false
}

func colourWord(word journal.Text) paint.Colour {
	if c, ok := lampColours[word.V]; ok {
		return c
	}
	var c quantity.Colour
	if c.UnmarshalText([]byte(word.V)) != nil {
		return lampColours["white"]
	}
	return paint.Colour(c)
}

// mixCards lists the recorded mixes with their portions worked out.
func (w *work) mixCards() []finish.MixCard {
	var out []finish.MixCard
	for i, e := range w.build.Front.Mixes {
		card := finish.MixCard{Name: e.Name.V, For: e.Value.For.V, Note: e.Value.Note.V, Pour: w.finish.poured[i]}
		if e.Value.Colour.Set {
			c := paint.Colour(e.Value.Colour.V)
			card.Colour = &c
		}
		for j, p := range e.Value.Parts {
			part := finish.MixPart{What: p.Name.V, Written: p.Value.V.String()}
			if j < len(card.Pour.Portions) {
				part.Poured = card.Pour.Portions[j]
			}
			card.Parts = append(card.Parts, part)
		}
		out = append(out, card)
	}
	return out
}
