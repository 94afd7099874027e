package lighting

import (
	"fmt"
	"strconv"
	"strings"

	"spruelight/gen/circuit"
	"spruelight/gen/journal"
	"spruelight/gen/page"
	"spruelight/gen/source"
	"spruelight/gen/topic"
)

// LampKinds counts the lamps of each kind: "3 × warm white, 3 mm".
func LampKinds(f topic.Facts, words *page.Words) []string {
	var order []string
	count := map[string]int{}
	for _, c := range f.Front.Circuits {
		for _, b := range c.Branches {
			for _, l := range b.Lamps {
				name := LampName(f.Rack, l.Lamp.V, words)
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

// LampName says what a lamp of the rack is: its colour and size.
func LampName(rack *journal.Rack, name string, words *page.Words) string {
	lamp, ok := rack.Lamps.Get(name)
	if !ok || strings.HasPrefix(lamp.Colour.V, "#") || !lamp.Size.Set {
		return topic.Readable(name)
	}
	return words.Say(lamp.Colour.V) + " " + lamp.Size.V
}

// checkNames holds the references that are written (in areas, bundles and
// sittings) against the lamps that there are.
func checkNames(f topic.Facts) source.Findings {
	var found source.Findings
	last := 0
	for i := range f.Front.Circuits {
		last += f.Front.Circuits[i].Lamps()
	}
	first := 1
	for i := range f.Front.Circuits {
		c := &f.Front.Circuits[i]
		for _, b := range c.Fibres {
			found.Add(checkName(b.From, first, first+c.Lamps()-1)...)
		}
		first += c.Lamps()
	}
	for _, a := range f.Front.Areas {
		for _, ref := range a.Value.Encloses {
			found.Add(checkName(ref, 1, last)...)
		}
	}
	for _, s := range f.Sittings {
		for _, ref := range s.Front.Lit {
			found.Add(checkName(ref, 1, last)...)
		}
	}
	return found
}

// RuleLampName is broken by a reference that no lamp has.
var RuleLampName = &source.Rule{Name: "lamp-reference", Severity: source.Stop, Source: "IEC 81346-2 letter codes, common practice",
	Reason: "Lamps are known by one reference through the whole build: D1, D2 … in the order in which they are written.",
	Keys:   "build areas.<name>: encloses; build circuits[].fibres[]: from; sitting: lit"}

// checkName holds a reference against the numbers that lamps have where it stands.
func checkName(ref journal.Text, from, to int) source.Findings {
	n, err := strconv.Atoi(strings.TrimPrefix(strings.ToUpper(ref.V), "D"))
	if !ref.Set || err == nil && n >= from && n <= to && strings.HasPrefix(strings.ToUpper(ref.V), "D") {
		return nil
	}
	if strings.ContainsAny(ref.V, ",;") {
		several := strings.FieldsFunc(ref.V, func(r rune) bool { return strings.ContainsRune(",; ", r) })
		return source.Findings{RuleLampName.At(ref.At, source.Say("write several as a list: [%s]", source.Row(several)),
			"%q is not one lamp", ref.V)}
	}
	remedy := source.Word("the build has no lamps; give it circuits")
	switch {
	case from == to:
		remedy = source.Say("write %s", circuit.LampRef(from))
	case to > from:
		remedy = source.Say("write one of %s to %s", circuit.LampRef(from), circuit.LampRef(to))
	}
	return source.Findings{RuleLampName.At(ref.At, remedy, "there is no lamp %q", ref.V)}
}
