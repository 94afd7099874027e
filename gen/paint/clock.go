package paint

import (
	"math"
	"time"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// Curing says from when on what may be done to one laid coat.
type Curing struct {
	Laid   *Laid
	Paint  *Paint
	Ready  [stageCount]Ready
	Until  Ready           // end of the first recoat window
	Again  Ready           // start of the second
	Slowed quantity.Figure // factor by which cold slows drying; 1 where it does not
}

// Ready is a time from which something may be done.
type Ready struct {
	From    time.Time
	Known   bool
	Wait    quantity.Hours // after temperature
	Assumed bool
	Source  source.Message
	Working source.Message // "24 h × 1.41"
}

// The temperature rule: ten degrees less take twice the time. Published data
// sheets bear it out going down (23 to 10 °C: the rule gives 2.5 times, sheets
// give 2); going up it promises more than the sheets do (23 to 40 °C: 0.3 times
// against 0.6), so warmth never shortens a time here.
const (
	usualCelsius = 20.0

	// SlowSource names the rule and where it comes from.
	SlowSource = "Hempel, Explanatory notes to product data sheets: 10 °C less take roughly twice the drying time; warmth is not counted"
)

// Clock works out when a laid coat is ready for what. The room's temperature
// counts only where it was written, for the sitting or for the workshop.
func Clock(l *Laid, p *Paint, room source.Value[quantity.Celsius]) Curing {
	c := Curing{Laid: l, Paint: p, Slowed: slowing(p, warmth(l, room))}
	w := p.Waits()
	for s := range w.Of {
		c.Ready[s] = c.ready(w.Of[s])
	}
	c.Until, c.Again = c.window(w)
	return c
}

// window slows the start of the second window but not the end of the first: a
// window may close no later than the data sheet says.
func (c *Curing) window(w Waits) (until, again Ready) {
	again = c.ready(w.RecoatAgain)
	slowed := c.Slowed.Value
	c.Slowed.Value = 1
	until = c.ready(w.RecoatUntil)
	c.Slowed.Value = slowed
	return until, again
}

func (c *Curing) ready(w Wait) Ready {
	if !w.Known {
		return Ready{}
	}
	r := Ready{Known: true, Wait: w.Hours, Assumed: w.Assumed || c.Laid.Assumed,
		Source: w.Source, Working: source.Say("%s", w.Hours)}
	if c.Slowed.Value > 1 {
		r.Wait = quantity.Hours(float64(w.Hours) * c.Slowed.Value)
		r.Working = source.Say("%s × %s", w.Hours, quantity.Amount{Value: c.Slowed.Value, Digits: 3})
	}
	r.From = c.Laid.When.Add(length(r.Wait))
	return r
}

// length turns hours into a duration, in whole minutes rounded up: nothing is
// called ready a minute early.
func length(h quantity.Hours) time.Duration {
	return time.Duration(math.Ceil(float64(h)*60-1e-9)) * time.Minute
}

// warmth is the temperature at which a coat cures, where anybody wrote one.
func warmth(l *Laid, room source.Value[quantity.Celsius]) source.Value[quantity.Celsius] {
	if l.Temperature.Set {
		return l.Temperature
	}
	return room
}

func slowing(p *Paint, t source.Value[quantity.Celsius]) quantity.Figure {
	f := quantity.Figure{Symbol: "k", Name: "cold slows drying", Value: 1, Digits: 3, Source: SlowSource}
	at := p.Warmth.Or(usualCelsius)
	if !t.Set || t.V >= at {
		return f
	}
	f = cold.Figure(f.Name, quantity.Let{"t₀": at, "t": t.V})
	f.Assumed = !p.Warmth.Set
	return f
}

// Recoatable says whether the same family may go over the coat at a time.
type Recoatable int

// The answers.
const (
	RecoatUnknown Recoatable = iota
	RecoatNow
	TooSoon // before the first window
	InGap   // between the windows
	TooLate // the only window has closed: sand first
)

// Recoat says whether the same family may go over the coat at a time.
func (c *Curing) Recoat(t time.Time) Recoatable {
	switch {
	case !c.Ready[Recoat].Known:
		return RecoatUnknown
	case t.Before(c.Ready[Recoat].From):
		return TooSoon
	case !c.Until.Known || !t.After(c.Until.From):
		return RecoatNow
	case !c.Again.Known:
		return TooLate
	case t.Before(c.Again.From):
		return InGap
	}
	return RecoatNow
}

// wanted is the time that was to be waited, and whether it was assumed.
func (r *Ready) wanted() source.Message {
	if r.Assumed {
		return source.Say("%s (assumed)", r.Working)
	}
	return r.Working
}

// wait says until when to wait.
func (r *Ready) wait() source.Message { return source.Say("wait until %s", quantity.Moment(r.From)) }
