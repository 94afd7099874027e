package paint

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"spruelight/gen/source"
)

// Card is the closing card of an area: what must be true before it is glued
// shut, and what nobody can reach afterwards.
type Card struct {
	Area        string
	Closed      bool
	When        time.Time // of the closing
	Points      []Point
	Unreachable []string
}

// Point is one line of a closing card.
type Point struct {
	Rule   string // the rule that speaks when the area is closed with the point open
	What   string
	State  PointState
	Detail string
}

// PointState says whether a point of a closing card is met.
type PointState int

// The states of a point.
const (
	Met PointState = iota
	Open
	NotNeeded
)

var pointNames = [...]string{"done", "open", "not needed"}

// String names the state.
func (s PointState) String() string { return pointNames[s] }

// Open counts the points that are still open.
func (c *Card) Open() int {
	n := 0
	for _, p := range c.Points {
		if p.State == Open {
			n++
		}
	}
	return n
}

const dark = "the shell cannot be opened again without breaking it"

var (
	ruleClosedLamp = source.Rule{Name: "closed-lamp-unlit", Severity: source.Warn, Source: practice,
		Reason: "A lamp that was never seen to light may be dead or wired the wrong way round, and " + dark + "."}
	ruleClosedReading = source.Rule{Name: "closed-without-reading", Severity: source.Warn, Source: practice,
		Reason: "A meter reading outside its band, or none, hides a fault that kills the lamp later; " + dark + "."}
	ruleClosedBlocking = source.Rule{Name: "closed-blocking-incomplete", Severity: source.Warn, Source: practice,
		Reason: "No coat can be added inside once the area is closed."}
	ruleClosedCured = source.Rule{Name: "closed-uncured", Severity: source.Warn, Source: practice,
		Reason: "Solvent from uncured paint is trapped in a closed shell: it fogs clear parts and softens plastic."}
	ruleClosedLeak = source.Rule{Name: "closed-leak-open", Severity: source.Warn, Source: practice,
		Reason: "A leak is sealed from inside; after closing only paint on the outside is left."}
	ruleClosedCheck = source.Rule{Name: "closed-leak-check-missing", Severity: source.Warn, Source: practice,
		Reason: "Leaks show in a dark room; primer hides some and opens others at sanded seams, so one looks before and after it."}
	ruleClosedSoak = source.Rule{Name: "closed-without-soak", Severity: source.Warn, Source: practice,
		Reason: "Weak lamps and joints fail in the first hours; commonly the light is left on for a day before closing."}
	ruleClosedWiggle = source.Rule{Name: "closed-without-wiggle", Severity: source.Warn, Source: practice,
		Reason: "A joint that only touches shows when the wires are moved with the light on."}
	ruleClosedWires = source.Rule{Name: "closed-wires-not-out", Severity: source.Warn, Source: practice,
		Reason: "Wires that are not led out by their entry before closing stay inside."}
	ruleClosedPhoto = source.Rule{Name: "closed-without-photo", Severity: source.Warn, Source: practice,
		Reason: "A photo of the open inside is the only drawing a repairer has of what is where."}
)

// closingRules are in the order of the card's points.
var closingRules = []source.Rule{ruleClosedLamp, ruleClosedReading, ruleClosedBlocking, ruleClosedCured, ruleClosedLeak,
	ruleClosedCheck, ruleClosedSoak, ruleClosedWiggle, ruleClosedWires, ruleClosedPhoto}

// closingKeys say, in the order of the card's points, how a sitting notes that
// one is done; %s is the area.
var closingKeys = []string{
	"lit: [D1]", "readings: [{at: D1, current: 4.8 mA}]", "coats: [{area: %s, coat: black}]", "closed: [%s] in a later sitting",
	"leaks: [{where: roof seam, action: sealed}]", "before closing: [{area: %s, leak check: [before primer, after primer]}]",
	"before closing: [{area: %s, soak: 24 h}]", "before closing: [{area: %s, wiggle: all leads}]",
	"before closing: [{area: %s, wires out: the entry}]", "before closing: [{area: %s, photo: photos/inside.jpg}]",
}

func (a *Area) noted(point int) string { return strings.ReplaceAll(closingKeys[point], "%s", a.Name.V) }

// card fills in the closing card of an area, judged at its closing or, while it
// is open, at the moment. elsewhere says that the other face is blocked.
func (a *Area) card(rows []Row, curings []Curing, elsewhere bool, moment time.Time) Card {
	c := Card{Area: a.Name.V, Closed: a.Closing.Closed.Set, When: a.Closing.Closed.V, Unreachable: a.unreachable(rows)}
	at := moment
	if c.Closed {
		at = c.When
	}
	lit := len(a.Encloses) > 0
	add := func(rule source.Rule, what string, needed bool, state PointState, detail string) {
		if !needed {
			state, detail = NotNeeded, "nothing of the kind inside"
		}
		c.Points = append(c.Points, Point{Rule: rule.Name, What: what, State: state, Detail: detail})
	}
	k := &a.Closing
	state, detail := k.lamps(at)
	add(ruleClosedLamp, "every lamp inside seen to light", lit, state, detail)
	state, detail = k.readings()
	add(ruleClosedReading, "readings within their bands", len(k.Readings) > 0, state, detail)
	state, detail = blocking(rows, elsewhere)
	add(ruleClosedBlocking, "light blocking complete", lit && a.Material.V != Clear, state, detail)
	state, detail = cured(curings, at)
	add(ruleClosedCured, "paint cured", len(curings) > 0, state, detail)
	state, detail = a.leaks()
	add(ruleClosedLeak, "leaks dealt with", lit || len(a.Leaks) > 0, state, detail)
	state, detail = k.checks(at)
	add(ruleClosedCheck, "looked for leaks before and after primer", lit, state, detail)
	state, detail = noted(k.Soak, "no soak test is noted")
	add(ruleClosedSoak, "soak test", lit, state, detail)
	state, detail = noted(k.Wiggle, "no wiggle test is noted")
	add(ruleClosedWiggle, "wiggle test", lit, state, detail)
	state, detail = k.wires()
	add(ruleClosedWires, "wires out by their entry", lit && strings.TrimSpace(k.Entry.V) != "", state, detail)
	state, detail = noted(k.Photo, "no photo of the inside is named")
	add(ruleClosedPhoto, "photo of the inside taken", true, state, detail)
	return c
}

// unreachable lists what is lost to sight and tools once the area is closed.
func (a *Area) unreachable(rows []Row) []string {
	var out []string
	for _, l := range a.Closing.Lamps {
		out = append(out, strings.TrimSuffix("lamp "+l.Ref+", "+l.At, ", "))
	}
	out = append(out, a.Closing.Unreachable...)
	for i := range rows {
		if len(rows[i].Laid) > 0 && a.isLampSide() {
			out = append(out, "coat "+rows[i].Name)
		}
	}
	return out
}

func (k *Closing) lamps(at time.Time) (PointState, string) {
	var unlit, lit []string
	for _, l := range k.Lamps {
		if seen(l.Lit, at) {
			lit = append(lit, l.Ref)
		} else {
			unlit = append(unlit, l.Ref)
		}
	}
	if len(unlit) > 0 {
		return Open, join(unlit) + " never seen to light"
	}
	if len(lit) == 0 {
		return Open, "none of the lamps inside is in a circuit"
	}
	return Met, join(lit)
}

func seen(times []time.Time, at time.Time) bool {
	for _, t := range times {
		if !t.After(at) {
			return true
		}
	}
	return false
}

func (k *Closing) readings() (PointState, string) {
	var missing, outside []string
	for _, r := range k.Readings {
		switch {
		case r.Text == "":
			missing = append(missing, r.At)
		case !r.Within:
			outside = append(outside, fmt.Sprintf("%s reads %s, the band is %s", r.At, r.Text, r.Band))
		}
	}
	switch {
	case len(outside) > 0:
		return Open, strings.Join(outside, "; ")
	case len(missing) > 0:
		return Open, "not measured: " + join(missing)
	}
	return Met, fmt.Sprintf("%d measured", len(k.Readings))
}

func blocking(rows []Row, elsewhere bool) (PointState, string) {
	var missing, there []string
	for i := range rows {
		switch r := &rows[i]; {
		case r.For != LightBlocking:
		case len(r.Laid) == 0:
			missing = append(missing, r.Name)
		default:
			there = append(there, r.Name)
		}
	}
	switch {
	case len(missing) > 0:
		return Open, "not laid: " + join(missing)
	case len(there) > 0:
		return Met, join(there)
	case elsewhere:
		return Met, "on the other face"
	}
	return Open, "no coat for light blocking"
}

func cured(curings []Curing, at time.Time) (PointState, string) {
	curings = slices.DeleteFunc(slices.Clone(curings), func(c Curing) bool { return c.Laid.When.After(at) })
	a := adviseStage(Cured, curings, at)
	switch {
	case !a.Known:
		return Open, "nobody says when " + a.Because + " has cured"
	case a.Now:
		return Met, "since " + Stamp(a.From)
	}
	return Open, a.Because + " cures until " + Stamp(a.From)
}

func (a *Area) leaks() (PointState, string) {
	var open []string
	for i := range a.Leaks {
		if a.Leaks[i].Open() {
			open = append(open, a.Leaks[i].Where.V)
		}
	}
	switch {
	case len(open) > 0:
		return Open, "neither sealed nor accepted: " + join(open)
	case len(a.Leaks) == 0:
		return Met, "none seen"
	}
	return Met, fmt.Sprintf("%d sealed or accepted", len(a.Leaks))
}

func (k *Closing) checks(at time.Time) (PointState, string) {
	var before, after bool
	for _, c := range k.Checks {
		if c.When.After(at) {
			continue
		}
		before = before || c.Check == BeforePrimer
		after = after || c.Check == AfterPrimer
	}
	switch {
	case before && after:
		return Met, "both"
	case before:
		return Open, "not after primer"
	case after:
		return Open, "not before primer"
	}
	return Open, "neither before nor after primer"
}

func noted(v source.Value[string], missing string) (PointState, string) {
	if text := strings.TrimSpace(v.V); text != "" {
		return Met, text
	}
	return Open, missing
}

func (k *Closing) wires() (PointState, string) {
	entry, routed := strings.TrimSpace(k.Entry.V), strings.TrimSpace(k.Routed.V)
	switch {
	case routed == "":
		return Open, "not led out by " + entry
	case !strings.EqualFold(entry, routed):
		return Open, fmt.Sprintf("led out by %s, the circuit says %s", routed, entry)
	}
	return Met, "through " + entry
}

func join(list []string) string { return strings.Join(list, ", ") }

// findings reports the points left open at a recorded closing.
func (c *Card) findings(a *Area) []source.Finding {
	if !c.Closed {
		return nil
	}
	var found []source.Finding
	for i, p := range c.Points {
		if p.State == Open {
			found = append(found, closingRules[i].At(a.Closing.Closed.At, "do it while the area can still be opened and write it down, like "+a.noted(i)+"; where it may stay so, say why under silence in the area", "%s was closed with a point open: %s: %s", a.Name.V, p.What, p.Detail))
		}
	}
	return found
}
