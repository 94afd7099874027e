package wiring

import (
	"math"
	"slices"
	"strings"

	"spruelight/gen/circuit"
	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// Item is a line of the shopping list: pieces, or metres.
type Item struct {
	Kind  string         // lamp, resistor, driver, wire, connector, fibre, supply, cells, fuse, switch
	What  source.Message // "430 Ω, 1/8 W, ±5 %"
	Count int            // of pieces; 0 where a length is wanted
	Total quantity.Metres
	For   []source.Message // references
}

// Text says how much to buy: "4", or metres rounded up to a tenth.
func (i Item) Text() source.Message {
	if i.Count > 0 {
		return source.Say("%d", i.Count)
	}
	return source.Say("%s", quantity.About(quantity.Metres(math.Ceil(float64(i.Total)*10-1e-6)/10)))
}

// Shopping lists everything that circuits need, equal things on one line: wire
// as the cut list has it, fibre with its spare.
func Shopping(all []circuit.Solution, slack Slack) []Item {
	var l list
	for i := range all {
		if s := &all[i]; s.Solved {
			l.branches(s)
		}
	}
	spools, _ := CutList(all, slack)
	for _, s := range spools {
		what := s.Wire
		if s.Colour != "" {
			what = source.Say("%s %s", s.Wire, source.Word(s.Colour))
		}
		item := l.item("wire", what)
		item.Total += s.Total
		for _, c := range s.Cuts {
			ref := as(c.Ref)
			if len(all) > 1 {
				ref = joined(ref, as(c.Circuit))
			}
			item.For = append(item.For, ref)
		}
	}
	for i := range all {
		if s := &all[i]; s.Solved {
			l.supply(s)
		}
	}
	slices.SortStableFunc(l.items, func(a, b Item) int {
		return slices.Index(shelves, a.Kind) - slices.Index(shelves, b.Kind)
	})
	return l.items
}

// shelves is the order in which a builder gathers things.
var shelves = []string{"lamp", "resistor", "driver", "wire", "connector", "fibre", "supply", "cells", "fuse", "switch"}

type list struct{ items []Item }

func (l *list) item(kind string, what source.Message) *Item {
	at := slices.IndexFunc(l.items, func(i Item) bool { return i.Kind == kind && i.What.String() == what.String() })
	if at < 0 {
		at = len(l.items)
		l.items = append(l.items, Item{Kind: kind, What: what})
	}
	return &l.items[at]
}

func (l *list) add(kind string, what source.Message, ref string, count int) {
	i := l.item(kind, what)
	i.Count += count
	i.For = append(i.For, as(ref))
}

func (l *list) branches(s *circuit.Solution) {
	for k := range s.Branches {
		b := &s.Branches[k]
		for j := range b.Lamps {
			lamp := &b.Lamps[j]
			l.add("lamp", joined(lampModel(lamp), source.Word(otherThan(lamp.Colour, lampModel(lamp).String()))), lamp.Ref, 1)
			for _, f := range lamp.Fibres {
				i := l.item("fibre", lengthText(f.Size))
				i.Total += f.Buy
				i.For = append(i.For, source.Say("%d × from %s", f.Count, lamp.Ref))
			}
		}
		switch b.Kind {
		case circuit.Auto, circuit.Fixed:
			l.add("resistor", joined(ohmsText(b.Resistor.Ohms), ratingText(b.Resistor.Rating), shareText(b.Resistor.Tolerance)), b.Ref, 1)
		case circuit.ConstantCurrent:
			l.add("driver", joined(source.Word("constant current"), ampsText(b.Resistor.Set)), b.Ref, 1)
		}
	}
}

// otherThan returns a word unless a name holds it already.
func otherThan(word, name string) string {
	plain := func(s string) string { return strings.ToLower(strings.ReplaceAll(s, "-", " ")) }
	if strings.Contains(plain(name), plain(word)) {
		return ""
	}
	return word
}

func shareText(t quantity.Share) source.Message {
	if t <= 0 {
		return source.Message{}
	}
	return source.Say("±%s", quantity.About(t))
}

func (l *list) supply(s *circuit.Solution) {
	pack := s.Circuit.Supply.Cells.V
	l.add("supply", joined(as(s.Supply.Name), voltsText(s.Supply.Open.Nominal)), s.Supply.Ref, 1)
	if pack.Type != "" {
		l.add("cells", as(pack.Type), s.Supply.Ref, max(pack.Series, 1)*max(pack.Parallel, 1))
	}
	for _, r := range s.Plugged() {
		l.add("connector", as(r.Run.Connector.Kind.V), r.Plug, 1)
	}
	if s.Fuse != nil {
		l.add("fuse", fuseText(s), s.Fuse.Ref, 1)
	}
	if s.Switch != nil {
		l.add("switch", as(s.Switch.Text), s.Switch.Ref, 1)
	}
}
