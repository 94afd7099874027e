package paint

import (
	"slices"
	"strings"
	"time"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// Closing is what is known before an area is glued shut, and whether it was.
// The electrical side is handed over from the solved circuit and the sittings.
type Closing struct {
	Closed      source.Value[time.Time]   // when it was glued shut; not set while it is open
	Again       []source.Value[time.Time] // when it was said to be glued shut though it was
	Lamps       []EnclosedLamp
	Readings    []EnclosedReading
	Checks      []DoneCheck          // dark-room checks made
	Soak        source.Value[string] // "24 h" or what was noted
	Wiggle      source.Value[string] // what was noted
	Entry       source.Value[string] // where the wires leave, as the circuit names it
	Routed      source.Value[string] // the entry through which a sitting led the wires out
	Photo       source.Value[string] // the photo that shows the inside
	Unreachable []source.Message     // what nobody can reach afterwards, besides lamps and coats
}

// EnclosedLamp is a lamp inside the area.
type EnclosedLamp struct {
	Ref, At string
	Lit     []time.Time // sittings in which it was seen to light
}

// EnclosedReading is a test point of a branch inside the area.
type EnclosedReading struct {
	At     string         // the branch or test point
	Band   source.Message // "9.1 to 10.3 mA"
	Text   source.Message // "9.6 mA"; empty where nothing was measured
	Within bool
	Late   source.Span // a reading taken after the area was closed; not known where there is none
}

// DoneCheck is a dark-room check that was made.
type DoneCheck struct {
	Check LeakCheck
	When  time.Time
}

var (
	ruleClosedTwice = &source.Rule{Name: "closed-twice", Severity: source.Warn, Source: "the sittings against one another",
		Reason: "What is glued shut cannot be glued shut again: one of the two dates or names is mistyped.",
		Keys:   "sitting closed[]: area, at"}
	ruleClosedOpen = &source.Rule{Name: "closed-with-points-open", Severity: source.Warn, Source: practice,
		Reason: "Several points of one closing were left open. Each has a rule of its own, by which it can be silenced.",
		Keys:   "sitting closed[]: area"}
)

// twice reports closings of an area that was closed already.
func (k *Closing) twice(area string) []source.Finding {
	var found []source.Finding
	for _, again := range k.Again {
		found = append(found, ruleClosedTwice.At(again.At, source.Word("check both dates, and the name of the area"),
			"%s was closed already on %s", area, quantity.Moment(k.Closed.V)).With(k.Closed.At, "closed here"))
	}
	return found
}

// lateReadings points to readings that came too late for a closing.
func (k *Closing) lateReadings(f source.Finding) source.Finding {
	for _, r := range k.Readings {
		if r.Text.Empty() && r.Late.Known() {
			f = f.With(r.Late, "%s was measured here, after the closing", r.At)
		}
	}
	return f
}

// closingRules are those of the points of a closing card.
var closingRules = []*source.Rule{ruleClosedLamp, ruleClosedReading, ruleClosedBlocking, ruleClosedCured, ruleClosedLeak, ruleClosedCheck,
	ruleClosedSoak, ruleClosedWiggle, ruleClosedWires, ruleClosedPhoto}

// OfLamps reports whether a rule looks at what the circuits say of an area.
func OfLamps(rule *source.Rule) bool {
	return rule == ruleClosedLamp || rule == ruleClosedReading || rule == ruleClosedWires
}

// FoldClosings makes one finding of the points that one closing left open, where
// there are several. Those that are silenced stay by themselves.
func FoldClosings(found source.Findings) source.Findings {
	groups := map[source.Span][]int{}
	for i := range found {
		if f := &found[i]; f.Silenced == "" && !f.Overruled && slices.Contains(closingRules, f.Rule) {
			groups[f.At] = append(groups[f.At], i)
		}
	}
	drop := map[int]bool{}
	for _, group := range groups {
		if len(group) < 2 {
			continue
		}
		slices.SortFunc(group, func(a, b int) int { // as the closing card has them
			return slices.Index(closingRules, found[a].Rule) - slices.Index(closingRules, found[b].Rule)
		})
		folded := fold(found, group)
		for _, i := range group[1:] {
			drop[i] = true
		}
		found[group[0]] = folded
	}
	var out source.Findings
	for i, f := range found {
		if !drop[i] {
			out = append(out, f)
		}
	}
	return out
}

// fold puts the points of one closing together: what is open, each with the rule
// by which it can be silenced, and how it is written down.
func fold(found source.Findings, group []int) source.Finding {
	var notes, checks []string
	first := found[group[0]]
	area, _ := first.Says.Args[0].(string)
	head := "before closing: [{area: " + area + ", "
	for _, i := range group {
		note, _ := found[i].Do.Args[0].(string)
		if rest, ok := strings.CutPrefix(note, head); ok {
			checks = append(checks, strings.TrimSuffix(rest, "}]"))
		} else {
			notes = append(notes, note)
		}
	}
	if len(checks) > 0 {
		notes = append(notes, head+strings.Join(checks, ", ")+"}]")
	}
	out := ruleClosedOpen.At(first.At, source.Say("do these while the area can still be opened and write them down, like %s; "+
		"where one may stay so, say why under silence in the area, by the rule in its brackets", source.And(notes)),
		"%s was closed with %d points open", area, len(group))
	for _, i := range group {
		f := found[i]
		out = out.With(source.Span{}, "%s: %s [%s]", f.Says.Args[1], f.Says.Args[2], f.Rule.Name)
		out.Related = append(out.Related, f.Related...)
		out.Withheld = out.Withheld || f.Withheld
	}
	return out
}
