package finish

import (
	"spruelight/gen/circuit"
	"spruelight/gen/journal"
	"spruelight/gen/paint"
	"spruelight/gen/quantity"
	"spruelight/gen/source"
	"spruelight/gen/topic"
)

// Leaks lists all leaks of the build.
func (r *Result) Leaks() []LeakRow {
	var out []LeakRow
	for i := range r.build.Areas {
		a := &r.build.Areas[i]
		for _, l := range a.Leaks {
			out = append(out, LeakRow{Area: a.Name.V, Leak: l})
		}
	}
	for _, l := range r.build.Leaks {
		out = append(out, LeakRow{Leak: l})
	}
	return out
}

// Mixes lists the recorded mixes with their portions worked out.
func (r *Result) Mixes(f topic.Facts) []MixCard {
	var out []MixCard
	for i, e := range f.Front.Mixes {
		card := MixCard{Name: e.Name.V, For: e.Value.For.V, Note: e.Value.Note.V, Pour: r.pours[i]}
		if e.Value.Colour.Set {
			card.Colour = &e.Value.Colour.V
		}
		for j, p := range e.Value.Parts {
			part := MixPart{What: p.Name.V, Written: written(p.Value.V)}
			if j < len(card.Pour.Portions) {
				part.Poured = card.Pour.Portions[j]
			}
			card.Parts = append(card.Parts, part)
		}
		out = append(out, card)
	}
	return out
}

// written says a portion as it was written.
func written(p quantity.Portion) source.Message {
	number := quantity.Amount{Value: p.Number, Digits: 15}
	one := p.Number == 1
	switch {
	case p.Measure == quantity.InLitres:
		return source.Say("%s", quantity.Litres(p.Number))
	case p.Measure == quantity.InDrops && one:
		return source.Say("%s drop", number)
	case p.Measure == quantity.InDrops:
		return source.Say("%s drops", number)
	case one:
		return source.Say("%s part", number)
	}
	return source.Say("%s parts", number)
}

// swatches lists the paints that are used, in the order of their first use.
func swatches(r *Result) []Swatch {
	var out []Swatch
	for i := range r.build.Paints {
		p := &r.build.Paints[i]
		out = append(out, Swatch{Name: p.Name.V, Label: p.Label.V, Paint: p, Waits: p.Waits()})
	}
	return out
}

// lighten lightens the swatches by the rule that the build asks for.
func lighten(f topic.Facts, swatches []Swatch) *Lighten {
	name, size := f.Front.Lighten, f.Front.Scale
	rule, ok := paint.FindLightening(name.V)
	if !ok || !size.Set {
		return nil
	}
	out := &Lighten{Name: rule.Name, Scale: size.V.String(), Source: source.Word(rule.Source)}
	for i := range swatches {
		s := &swatches[i]
		if !s.Paint.Colour.Set || s.Paint.Clear.V {
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
func litRows(f topic.Facts, a *paint.AreaResult) []LitRow {
	var out []LitRow
	for i := range a.Rows {
		row := &a.Rows[i]
		if row.For != paint.ClearColour || row.Paint == nil || !row.Paint.Colour.Set {
			continue
		}
		coats := max(1, row.Facts().Passes.V, len(row.Laid))
		for _, lamp := range a.Area.Closing.Lamps {
			from, ok := lampColour(f, lamp.Ref)
			if !ok {
				continue
			}
			out = append(out, LitRow{Lamp: lamp.Ref, Area: a.Name, Paint: row.Name, Coats: coats, From: from,
				LitColour: paint.Lit(from, row.Paint.Colour.V, coats)})
		}
	}
	return out
}

// lampColours are the colours of common lamps on a screen, for estimates only.
// White and warm white are those of 6500 K and 2850 K (CIE illuminants D65 and
// A, brought to full brightness of their strongest channel); the others are
// from memory of what such lamps look like.
var lampColours = map[string]paint.Colour{
	"white": {R: 255, G: 255, B: 255}, "warm white": {R: 255, G: 180, B: 107}, "red": {R: 255, G: 32, B: 16},
	"orange": {R: 255, G: 110, B: 0},
	"amber":  {R: 255, G: 160, B: 0}, "yellow": {R: 255, G: 214, B: 0}, "green": {R: 30, G: 255, B: 60}, "blue": {R: 40, G: 80, B: 255},
}

// lampColour returns the colour of a lamp by its reference.
func lampColour(f topic.Facts, ref string) (paint.Colour, bool) {
	number := 0
	for _, c := range f.Front.Circuits {
		for _, b := range c.Branches {
			for _, l := range b.Lamps {
				if number++; circuit.LampRef(number) == ref {
					lamp, ok := f.Rack.Lamps.Get(l.Lamp.V)
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
	var c paint.Colour
	if c.UnmarshalText([]byte(word.V)) != nil {
		return lampColours["white"]
	}
	return c
}
