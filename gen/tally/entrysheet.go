package tally

import (
	"slices"

	"spruelight/gen/source"
)

// ExtraKinds are the kinds of additions that entry forms ask for.
var ExtraKinds = []string{"aftermarket", "etched parts", "scratch-built", "decals", "lights", "conversion"}

// OutOfBox says whether a build still counts as out of the box, and why not.
type OutOfBox struct {
	Still   bool
	Reasons []source.Message // what ends it, in words for the card
	Says    source.Message
	Source  source.Message
}

var ruleExtraKind = &source.Rule{Name: "extra-kind", Severity: source.Warn,
	Reason: "Entry forms ask for additions by kind.", Source: "common practice of club shows, no source",
	Keys: "build extras[]: kind"}

// JudgeOutOfBox judges by what club shows commonly ask: the parts and decals
// of the box and nothing else; filler, paint, rigging thread and wiring that
// the kit itself provides do not count. Lamps that the kit does not bring end
// it. A show's own rules win.
func JudgeOutOfBox(lamps int, kitLights bool, extras []Extra, rows []Row) (OutOfBox, source.Findings) {
	var findings source.Findings
	o := OutOfBox{Source: source.Word("common practice of club shows, no source; the show's own rules win")}
	if lamps > 0 && !kitLights {
		o.Reasons = append(o.Reasons, perNumber(lamps, "%d lamp added", "%d lamps added"))
	}
	for _, e := range extras {
		if !slices.Contains(ExtraKinds, e.Kind.V) {
			findings.Add(ruleExtraKind.At(e.Kind.At, source.Say("write one of: %s", source.Or(ExtraKinds)), "%q is not a kind of addition",
				e.Kind.V))
		}
		o.Reasons = append(o.Reasons, source.Say("%s (%s)", e.What.V, source.Word(e.Kind.V)))
	}
	for _, r := range rows {
		for _, e := range r.Entries {
			if e.Event == Made {
				o.Reasons = append(o.Reasons, source.Say("%s replaced by own work", r.Part))
				break
			}
		}
	}
	o.Still = len(o.Reasons) == 0
	o.Says = source.Word("Counts as out of the box.")
	if !o.Still {
		o.Says = source.Say("No longer out of the box: %s.", source.And(o.Reasons))
	}
	return o, findings
}
