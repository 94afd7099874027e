package gen

import (
	"fmt"
	"slices"
	"strings"

	"spruelight/gen/journal"
)

// paintNames lists the coats of the model, each once, in the order in which
// they were laid, then those planned.
func (w *work) paintNames() []string {
	var names []string
	add := func(coat string) {
		name := w.paintName(coat)
		if coat != "" && coat != journal.DecalCoat && !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	for _, s := range w.build.Sittings {
		for _, c := range s.Front.Coats {
			add(c.Coat.V)
		}
	}
	for _, area := range w.build.Front.Paint {
		for _, c := range area.Value {
			add(c.Paint.V)
		}
	}
	return names
}

// paintName is what is written on a paint's pot, else its name on the rack.
func (w *work) paintName(coat string) string {
	if paint, ok := w.run.shop.Rack.Paints.Get(coat); ok {
		return paint.Label.Or(readable(coat))
	}
	return readable(coat)
}

// readable turns a rack's name into words: "grey-primer" is grey primer.
func readable(name string) string { return strings.ReplaceAll(name, "-", " ") }

// lightLines counts the lamps of each kind: "3 × warm white, 3 mm".
func (w *work) lightLines() []string {
	var order []string
	count := map[string]int{}
	for _, c := range w.build.Front.Circuits {
		for _, b := range c.Branches {
			for _, l := range b.Lamps {
				name := w.lampName(l.Lamp.V)
				if count[name] == 0 {
					order = append(order, name)
				}
				count[name]++
			}
		}
	}
	var lines []string
	for _, name := range order {
		lines = append(lines, fmt.Sprintf("%d × %s", count[name], name))
	}
	return lines
}

// lampName says what a lamp of the rack is: its colour and size.
func (w *work) lampName(name string) string {
	lamp, ok := w.run.shop.Rack.Lamps.Get(name)
	if !ok || strings.HasPrefix(lamp.Colour.V, "#") || !lamp.Size.Set {
		return readable(name)
	}
	return w.run.words.Tell(lamp.Colour.V) + " " + lamp.Size.V
}
