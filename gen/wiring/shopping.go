package wiring

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"spruelight/gen/circuit"
	"spruelight/gen/quantity"
)

// Item is a line of the shopping list: pieces, or metres.
type Item struct {
	Kind  string // lamp, resistor, driver, wire, connector, fibre, supply, cells, fuse, switch
	What  string // "430 Ω, 1/8 W, ±5 %"
	Count int    // of pieces; 0 where a length is wanted
	Total quantity.Metres
	For   []string // references
}

// Text says how much to buy: "4", or metres rounded up to a tenth.
func (i Item) Text() string {
	if i.Count > 0 {
		return fmt.Sprint(i.Count)
	}
	return fmt.Sprintf("%.1f m", math.Ceil(float64(i.Total)*10-1e-6)/10)
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
		item := l.item("wire", strings.TrimSpace(s.Wire+" "+s.Colour))
		item.Total += s.Total
		for _, c := range s.Cuts {
			ref := c.Ref
			if len(all) > 1 {
				ref = joinWords(ref, c.Circuit)
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

func (l *list) item(kind, what string) *Item {
	at := slices.IndexFunc(l.items, func(i Item) bool { return i.Kind == kind && i.What == what })
	if at < 0 {
		at = len(l.items)
		l.items = append(l.items, Item{Kind: kind, What: what})
	}
	return &l.items[at]
}

func (l *list) add(kind, what, ref string, count int) {
	i := l.item(kind, what)
	i.Count += count
	i.For = append(i.For, ref)
}

func (l *list) branches(s *circuit.Solution) {
	for k := range s.Branches {
		b := &s.Branches[k]
		for j := range b.Lamps {
			lamp := &b.Lamps[j]
			l.add("lamp", joinWords(lampName(lamp, nil), otherThan(lamp.Colour, lampName(lamp, nil))), lamp.Ref, 1)
			for _, f := range lamp.Fibres {
				i := l.item("fibre", lengthText(f.Size))
				i.Total += f.Buy
				i.For = append(i.For, fmt.Sprintf("%d × from %s", f.Count, lamp.Ref))
			}
		}
		switch b.Kind {
		case circuit.Auto, circuit.Fixed:
			l.add("resistor", joinWords(ohmsText(b.Resistor.Ohms), ratingText(b.Resistor.Rating), shareText(b.Resistor.Tolerance)), b.Ref, 1)
		case circuit.ConstantCurrent:
			l.add("driver", joinWords("constant current", ampsText(b.Resistor.Set)), b.Ref, 1)
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

func shareText(t quantity.Share) string {
	if t <= 0 {
		return ""
	}
	return "±" + quantity.About(t).String()
}

func (l *list) supply(s *circuit.Solution) {
	pack := s.Circuit.Supply.Cells.V
	l.add("supply", joinWords(s.Supply.Name, voltsText(s.Supply.Open.Nominal)), s.Supply.Ref, 1)
	if pack.Type != "" {
		l.add("cells", pack.Type, s.Supply.Ref, max(pack.Series, 1)*max(pack.Parallel, 1))
	}
	for _, r := range s.Plugged() {
		l.add("connector", r.Run.Connector.Kind.V, r.Plug, 1)
	}
	if s.Fuse != nil {
		l.add("fuse", fuseText(s), s.Fuse.Ref, 1)
	}
	if s.Switch != nil {
		l.add("switch", s.Switch.Text, s.Switch.Ref, 1)
	}
}
