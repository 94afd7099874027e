package paint

import (
	"slices"
	"strings"
	"time"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// Card is the closing card of an area: what must be true before it is glued
// shut, and what nobody can reach afterwards.
type Card struct {
	Area        string
	Closed      bool
	When        time.Time // of the closing
	Points      []Point
	Unreachable []source.Message
}

// Point is one line of a closing card.
type Point struct {
	Rule   *source.Rule // that speaks when the area is closed with the point open
	What   source.Message
	State  PointState
	Detail source.Message
	note   string // how a sitting notes that it is done
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
	ruleClosedLamp = &source.Rule{Name: "closed-lamp-unlit", Severity: source.Warn, Source: practice,
		Reason: "A lamp that was never seen to light may be dead or wired the wrong way round, and " + dark + ".",
		Keys:   "sitting closed[]: area; sitting: lit"}
	ruleClosedReading = &source.Rule{Name: "closed-without-reading", Severity: source.Warn, Source: practice,
		Reason: "A meter reading outside its band, or none, hides a fault that kills the lamp later; " + dark + ".",
		Keys:   "sitting closed[]: area; sitting: readings"}
	ruleClosedBlocking = &source.Rule{Name: "closed-blocking-incomplete", Severity: source.Warn, Source: practice,
		Reason: "No coat can be added inside once the area is closed.",
		Keys:   "sitting closed[]: area; sitting: coats; build: paint"}
	ruleClosedCured = &source.Rule{Name: "closed-uncured", Severity: source.Warn, Source: practice,
		Reason: "Solvent from uncured paint is trapped in a closed shell: it fogs clear parts and softens plastic.",
		Keys:   "sitting closed[]: area, at; paints <name>: cured"}
	ruleClosedLeak = &source.Rule{Name: "closed-leak-open", Severity: source.Warn, Source: practice,
		Reason: "A leak is sealed from inside; after closing only paint on the outside is left.",
		Keys:   "sitting closed[]: area; sitting: leaks"}
	ruleClosedCheck = &source.Rule{Name: "closed-leak-check-missing", Severity: source.Warn, Source: practice,
		Reason: "Leaks show in a dark room; primer hides some and opens others at sanded seams, so one looks before and after it.",
		Keys:   "sitting closed[]: area; sitting before closing[]: leak check"}
	ruleClosedSoak = &source.Rule{Name: "closed-without-soak", Severity: source.Warn, Source: practice,
		Reason: "Weak lamps and joints fail in the first hours; commonly the light is left on for a day before closing.",
		Keys:   "sitting closed[]: area; sitting before closing[]: soak"}
	ruleClosedWiggle = &source.Rule{Name: "closed-without-wiggle", Severity: source.Warn, Source: practice,
		Reason: "A joint that only touches shows when the wires are moved with the light on.",
		Keys:   "sitting closed[]: area; sitting before closing[]: wiggle"}
	ruleClosedWires = &source.Rule{Name: "closed-wires-not-out", Severity: source.Warn, Source: practice,
		Reason: "Wires that are not led out by their entry before closing stay inside.",
		Keys:   "sitting closed[]: area; sitting before closing[]: wires out; build circuits[]: entry"}
	ruleClosedPhoto = &source.Rule{Name: "closed-without-photo", Severity: source.Warn, Source: practice,
		Reason: "A photo of the open inside is the only drawing a repairer has of what is where.",
		Keys:   "sitting closed[]: area; sitting before closing[]: photo"}
)

// card fills in the closing card of an area, judged at its closing or, while it
// is open, at the moment. elsewhere says that the other face is blocked.
func (a *Area) card(rows []Row, curings []Curing, elsewhere bool, moment time.Time) Card {
	c := Card{Area: a.Name.V, Closed: a.Closing.Closed.Set, When: a.Closing.Closed.V, Unreachable: a.unreachable(rows)}
	at := moment
	if c.Closed {
		at = c.When
	}
	lit := len(a.Encloses) > 0
	add := func(rule *source.Rule, what, note string, needed bool, state PointState, detail source.Message) {
		if !needed {
			state, detail = NotNeeded, source.Word("nothing of the kind inside")
		}
		c.Points = append(c.Points, Point{Rule: rule, What: source.Word(what), State: state, Detail: detail,
			note: strings.ReplaceAll(note, "%s", a.Name.V)})
	}
	k := &a.Closing
	state, detail := k.lamps(at)
	add(ruleClosedLamp, "every lamp inside seen to light",
		"lit: [D1]", lit, state, detail)
	state, detail = k.readings()
	add(ruleClosedReading, "readings within their bands",
		"readings: [{at: D1, current: 4.8 mA}]", len(k.Readings) > 0, state, detail)
	state, detail = blocking(rows, elsewhere)
	add(ruleClosedBlocking, "light blocking complete",
		"coats: [{area: %s, coat: black}]", lit && a.Material.V != Clear, state, detail)
	state, detail = cured(curings, at)
	add(ruleClosedCured, "paint cured",
		"closed: [%s] in a later sitting", len(curings) > 0, state, detail)
	state, detail = a.leaks()
	add(ruleClosedLeak, "leaks dealt with",
		"leaks: [{where: roof seam, action: sealed}]", lit || len(a.Leaks) > 0, state, detail)
	state, detail = k.checks(at)
	add(ruleClosedCheck, "looked for leaks before and after primer",
		"before closing: [{area: %s, leak check: [before primer, after primer]}]", lit, state, detail)
	state, detail = noted(k.Soak, "no soak test is noted")
	add(ruleClosedSoak, "soak test",
		"before closing: [{area: %s, soak: 24 h}]", lit, state, detail)
	state, detail = noted(k.Wiggle, "no wiggle test is noted")
	add(ruleClosedWiggle, "wiggle test",
		"before closing: [{area: %s, wiggle: all leads}]", lit, state, detail)
	state, detail = k.wires()
	add(ruleClosedWires, "wires out by their entry",
		"before closing: [{area: %s, wires out: the entry}]", lit && strings.TrimSpace(k.Entry.V) != "", state, detail)
	state, detail = noted(k.Photo, "no photo of the inside is named")
	add(ruleClosedPhoto, "photo of the inside taken",
		"before closing: [{area: %s, photo: photos/inside.jpg}]", true, state, detail)
	return c
}

// unreachable lists what is lost to sight and tools once the area is closed.
func (a *Area) unreachable(rows []Row) []source.Message {
	var out []source.Message
	for _, l := range a.Closing.Lamps {
		if l.At == "" {
			out = append(out, source.Say("lamp %s", l.Ref))
		} else {
			out = append(out, source.Say("lamp %s, %s", l.Ref, l.At))
		}
	}
	out = append(out, a.Closing.Unreachable...)
	for i := range rows {
		if len(rows[i].Laid) > 0 && a.isLampSide() {
			out = append(out, source.Say("coat %s", rows[i].Title()))
		}
	}
	return out
}

func (k *Closing) lamps(at time.Time) (PointState, source.Message) {
	var unlit, lit []string
	for _, l := range k.Lamps {
		if seen(l.Lit, at) {
			lit = append(lit, l.Ref)
		} else {
			unlit = append(unlit, l.Ref)
		}
	}
	if len(unlit) > 0 {
		return Open, source.Say("%s never seen to light", source.Row(unlit))
	}
	if len(lit) == 0 {
		return Open, source.Word("none of the lamps inside is in a circuit")
	}
	return Met, source.Say("%s", source.Row(lit))
}

func seen(times []time.Time, at time.Time) bool {
	for _, t := range times {
		if !t.After(at) {
			return true
		}
	}
	return false
}

func (k *Closing) readings() (PointState, source.Message) {
	var missing, late []string
	var outside []source.Message
	for _, r := range k.Readings {
		switch {
		case r.Text.Empty() && r.Late.Known():
			late = append(late, r.At)
		case r.Text.Empty():
			missing = append(missing, r.At)
		case !r.Within:
			outside = append(outside, source.Say("%s reads %s, the band is %s", r.At, r.Text, r.Band))
		}
	}
	switch {
	case len(outside) > 0:
		return Open, source.Say("%s", source.List{Of: source.Anys(outside), Sep: "; "})
	case len(missing) > 0 && len(late) > 0:
		return Open, source.Say("not measured: %s; measured only after it was closed: %s", source.Row(missing), source.Row(late))
	case len(missing) > 0:
		return Open, source.Say("not measured: %s", source.Row(missing))
	case len(late) > 0:
		return Open, source.Say("measured only after it was closed: %s", source.Row(late))
	}
	return Met, source.Say("%d measured", len(k.Readings))
}

func blocking(rows []Row, elsewhere bool) (PointState, source.Message) {
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
		return Open, source.Say("not laid: %s", source.Row(missing))
	case len(there) > 0:
		return Met, source.Say("%s", source.Row(there))
	case elsewhere:
		return Met, source.Word("on the other face")
	}
	return Open, source.Word("no coat for light blocking")
}

func cured(curings []Curing, at time.Time) (PointState, source.Message) {
	curings = slices.DeleteFunc(slices.Clone(curings), func(c Curing) bool { return c.Laid.When.After(at) })
	a := adviseStage(Cured, curings, at)
	switch {
	case !a.Known:
		return Open, source.Say("nobody says when %s has cured", a.Because)
	case a.Now:
		return Met, source.Say("since %s", quantity.Moment(a.From))
	}
	return Open, source.Say("%s cures until %s", a.Because, quantity.Moment(a.From))
}

func (a *Area) leaks() (PointState, source.Message) {
	var open []string
	for i := range a.Leaks {
		if a.Leaks[i].Open() {
			open = append(open, a.Leaks[i].Where.V)
		}
	}
	switch {
	case len(open) > 0:
		return Open, source.Say("neither sealed nor accepted: %s", source.Row(open))
	case len(a.Leaks) == 0:
		return Met, source.Word("none seen")
	}
	return Met, source.Say("%d sealed or accepted", len(a.Leaks))
}

func (k *Closing) checks(at time.Time) (PointState, source.Message) {
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
		return Met, source.Word("both")
	case before:
		return Open, source.Word("not after primer")
	case after:
		return Open, source.Word("not before primer")
	}
	return Open, source.Word("neither before nor after primer")
}

func noted(v source.Value[string], missing string) (PointState, source.Message) {
	if text := strings.TrimSpace(v.V); text != "" {
		return Met, source.Say("%s", text)
	}
	return Open, source.Word(missing)
}

func (k *Closing) wires() (PointState, source.Message) {
	entry, routed := strings.TrimSpace(k.Entry.V), strings.TrimSpace(k.Routed.V)
	switch {
	case routed == "":
		return Open, source.Say("not led out by %s", entry)
	case !strings.EqualFold(entry, routed):
		return Open, source.Say("led out by %s, the circuit says %s", routed, entry)
	}
	return Met, source.Say("through %s", entry)
}

// findings reports the points left open at a recorded closing.
func (c *Card) findings(a *Area) []source.Finding {
	if !c.Closed {
		return nil
	}
	var found []source.Finding
	for _, p := range c.Points {
		if p.State == Open {
			do := source.Say("do it while the area can still be opened and write it down, "+
				"like %s; where it may stay so, say why under silence in the area", p.note)
			f := p.Rule.At(a.Closing.Closed.At, do, "%s was closed with a point open: %s: %s", a.Name.V, p.What, p.Detail)
			if p.Rule == ruleClosedReading {
				f = a.Closing.lateReadings(f)
			}
			found = append(found, f)
		}
	}
	return append(found, a.Closing.twice(a.Name.V)...)
}
