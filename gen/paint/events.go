package paint

import (
	"time"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

var (
	ruleMaskSoon = &source.Rule{Name: "masked-too-soon", Severity: source.Warn, Source: "the paint's own mask-after time",
		Reason: "Tape leaves its texture in soft paint and takes it along when it comes off.",
		Keys:   "sitting masked[]: area, at; paints <name>: mask after"}
	ruleHandleSoon = &source.Rule{Name: "handled-too-soon", Severity: source.Warn, Source: "the paint's own handling time",
		Reason: "Fingers leave prints in paint that is only dry to the touch.",
		Keys:   "sitting handled[]: area, at; paints <name>: handle"}
	ruleSkipped = &source.Rule{Name: "coat-skipped", Severity: source.Note, Source: "the plan against the sittings",
		Reason: "A planned coat that later coats already cover was forgotten, or the plan was changed and not written down.",
		Keys:   "build paint.<name>[]: coat; sitting: coats; sitting coats[]: coat"}
	ruleUnplanned = &source.Rule{Name: "coat-unplanned", Severity: source.Note, Source: "the plan against the sittings",
		Reason: "A coat that is on the model but not in the plan is missing from what a repairer reads.",
		Keys:   "build: paint; sitting: coats; sitting coats[]: coat, at"}
	ruleMoved = &source.Rule{Name: "coat-out-of-order", Severity: source.Note, Source: "the plan against the sittings",
		Reason: "The coats lie on the model in another order than the plan says.",
		Keys:   "build: paint; sitting: coats; sitting coats[]: coat"}
	ruleFuture = &source.Rule{Name: "coat-after-the-moment", Severity: source.Note, Source: "the moment that clocks go by",
		Reason: "A coat that lies ahead is not counted as laid; if it is not meant so, its date is mistyped.",
		Keys:   "sitting: coats; sitting coats[]: at"}
	ruleShut = &source.Rule{Name: "coat-after-closing", Severity: source.Warn, Source: "the sittings against one another",
		Reason: "Nobody can paint the inside of a closed shell: one of the two dates is mistyped.",
		Keys:   "sitting: coats; sitting closed[]: area, at"}
	ruleHour = &source.Rule{Name: "coat-without-hour", Severity: source.Note, Source: "house rule",
		Reason: "Without a time of day the clock counts from the end of the day, so every time is later than it need be.",
		Keys:   "sitting coats[]: at"}
)

// eventRules judges masking and handling against the coats laid before it.
func eventRules(area string, all []layer, events []Event) []source.Finding {
	var found []source.Finding
	for _, e := range events {
		if e.Area.V != area {
			continue
		}
		rule, says := ruleMaskSoon, "%s was masked %s after %s was laid, which wants %s"
		if e.Stage == Handle {
			rule, says = ruleHandleSoon, "%s was handled %s after %s was laid, which wants %s"
		}
		latest := latestBefore(all, e.Stage, e.When)
		if latest == nil {
			continue
		}
		r := latest.curing.Ready[e.Stage]
		found = append(found, rule.At(e.Area.At, r.wait(), says, area, since(latest.laid.When, e.When), latest.row.Name, r.wanted()).
			With(latest.laid.At, "the coat, %s", quantity.Moment(latest.laid.When)))
	}
	return found
}

// latestBefore returns the layer laid before a time that is ready for the
// stage last, if that is after the time.
func latestBefore(all []layer, s Stage, t time.Time) *layer {
	var worst *layer
	for i := range all {
		c := all[i].curing
		if c == nil || all[i].laid.When.After(t) || !c.Ready[s].Known || !t.Before(c.Ready[s].From) {
			continue
		}
		if worst == nil || c.Ready[s].From.After(worst.curing.Ready[s].From) {
			worst = &all[i]
		}
	}
	return worst
}

// planRules reports where the plan and the sittings part.
func planRules(area string, rows []Row) []source.Finding {
	var found []source.Finding
	for i := range rows {
		switch r := &rows[i]; r.State {
		case Skipped:
			found = append(found, ruleSkipped.At(r.Plan.Paint.At, "log the coat, or take it out of the plan",
				"%s: %s is planned, but later coats are on and no sitting logged it", area, r.Name))
		case Extra:
			found = append(found, ruleUnplanned.At(r.Laid[0].At, "add it to the plan", "%s: %s was laid but is not planned", area, r.Name))
		case Moved:
			found = append(found, ruleMoved.At(r.Laid[0].At, "put the plan into the order of the coats",
				"%s: %s was laid at another place than planned", area, r.Name).With(r.Plan.Paint.At, "the plan"))
		}
	}
	return found
}

func sameDay(a, b time.Time) bool {
	return a.Format(time.DateOnly) == b.Format(time.DateOnly)
}

// laidRules reports what is odd about single laid coats.
func laidRules(area string, laid []Laid, moment time.Time) []source.Finding {
	var found []source.Finding
	for i := range laid {
		l := &laid[i]
		if l.When.After(moment) && !(l.Assumed && sameDay(l.When, moment)) { // nobody said that it was later than now
			found = append(found, ruleFuture.At(l.At, "check the date, or ask for a later moment",
				"%s: %s is laid %s, after the moment %s", area, l.Paint.V, quantity.Moment(l.When), quantity.Moment(moment)))
		}
		if l.Assumed {
			found = append(found, ruleHour.At(l.At, `write at: "19:30"`,
				"%s: %s has no time of day; %s is assumed", area, l.Paint.V, l.When.Format("15:04")))
		}
	}
	return found
}

// shutRules reports coats laid inside an area after it was closed.
func shutRules(a *Area) []source.Finding {
	if !a.Closing.Closed.Set || !a.isLampSide() {
		return nil
	}
	for i := range a.Laid {
		if l := &a.Laid[i]; l.When.After(a.Closing.Closed.V) {
			return []source.Finding{ruleShut.At(l.At, "check both dates", "%s: %s was laid %s, after the area was closed",
				a.Name.V, l.Paint.V, quantity.Moment(l.When)).With(a.Closing.Closed.At, "closed %s", quantity.Moment(a.Closing.Closed.V))}
		}
	}
	return nil
}

// coldest is the lowest temperature at which paint is laid (data sheets of
// Jotun and 1 Shot enamels: not below 10 °C; will not dry completely below 50 °F).
const coldest = 10.0

var ruleCold = &source.Rule{Name: "too-cold-to-cure", Severity: source.Warn,
	Reason: "Below about 10 °C many paints form no sound film however long they are left.",
	Source: "makers' data sheets (Jotun Fenomastic enamel: at least 10 °C; 1 Shot lettering enamel: not below 50 °F)",
	Keys:   "sitting: temperature, coats; workshop: temperature; sitting coats[]: at"}

// coldRules reports coats laid where it was too cold for paint.
func coldRules(area string, all []layer, room source.Value[quantity.Celsius]) []source.Finding {
	for i := range all {
		if all[i].laid == nil {
			continue
		}
		if t := warmth(all[i].laid, room); t.Set && t.V < coldest {
			return []source.Finding{ruleCold.At(t.At, "warm the room and the parts, and let the coat cure there",
				"%s: %s was laid at %s", area, all[i].row.Name, t.V)}
		}
	}
	return nil
}
