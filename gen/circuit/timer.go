package circuit

import (
	"errors"

	"spruelight/gen/quantity"
)

// Astable is a 555 timer that flashes a lamp by itself: two resistors and a
// capacitor, as in figure 12 of the NE555 data sheet (TI SLFS022I, 8.3.2).
type Astable struct {
	RA, RB quantity.Ohms
	C      quantity.Farads
}

// timerOn is the data sheet's rounded ln 2. It differs from the exact one by up
// to 0.3 %, far less than any capacitor.
const timerOn = 0.693

// AstableTimes are the times of one flash.
type AstableTimes struct {
	High, Low, Period float64 // s
	Frequency         quantity.Hertz
	HighShare         quantity.Share // of the period the output is high: never below a half
	LowShare          quantity.Share // of the period it is low
}

// Times works out the timer: tH = 0.693 (RA+RB) C, tL = 0.693 RB C,
// f = 1.44 / ((RA + 2 RB) C).
func (a Astable) Times() AstableTimes {
	ra, rb, c := float64(a.RA), float64(a.RB), float64(a.C)
	t := AstableTimes{High: timerOn * (ra + rb) * c, Low: timerOn * rb * c, Frequency: quantity.Hertz(flashRate.Of(a.let()))}
	t.Period = t.High + t.Low
	t.LowShare = quantity.Share(rb / (ra + 2*rb))
	t.HighShare = 1 - t.LowShare
	return t
}

func (a Astable) let() quantity.Let { return quantity.Let{"R_A": a.RA, "R_B": a.RB, "C": a.C} }

// Rate is the timer's frequency with its working.
func (a Astable) Rate() quantity.Figure { return flashRate.Figure("rate", a.let()) }

// Smallest and largest resistances that suit a 555, in ohms: below the first
// its discharge pin heats, above the second its bias current matters (data
// sheet practice, from memory).
const (
	leastTimer = 1e3
	mostTimer  = 1e6
)

// Errors of DesignAstable.
var (
	errTimerRate  = errors.New("the rate must be above zero and the share lit between 0 and 100 %")
	errTimerRange = errors.New("no resistors from 1 kΩ to 1 MΩ give that with this capacitor")
)

// DesignAstable chooses preferred resistors for a rate, the share of the time
// that the lamp is lit, and a capacitor. Below a half the lamp hangs between
// the supply and the output and lights while it is low (sinks true); else
// between the output and ground.
func DesignAstable(rate quantity.Hertz, lit quantity.Share, c quantity.Farads, series quantity.Series) (a Astable, sinks bool, err error) {
	if !(rate > 0) || !(lit > 0) || !(lit < 1) || !(c > 0) {
		return Astable{}, false, errTimerRate
	}
	sum := float64(Astable{RA: 1, C: c}.Times().Frequency / rate) // RA + 2 RB: the rate falls as it grows
	low := float64(lit)
	if sinks = lit < 0.5; !sinks {
		low = 1 - low
	}
	rb := sum * low
	ra := max(sum-2*rb, leastTimer)
	if rb < leastTimer || rb > mostTimer || ra > mostTimer {
		return Astable{}, false, errTimerRange
	}
	return Astable{series.Nearest(quantity.Ohms(ra)), series.Nearest(quantity.Ohms(rb)), c}, sinks, nil
}

// RC is a resistor that charges a capacitor: the simplest fade.
type RC struct {
	R quantity.Ohms
	C quantity.Farads
}

// Tau is the time constant in seconds.
func (r RC) Tau() float64 { return float64(r.R) * float64(r.C) }

// Charged returns the share of the supply's voltage on the capacitor after a
// time in seconds: 1 − e^(−t/τ).
func (r RC) Charged(seconds float64) quantity.Share {
	return quantity.Share(charging.Of(quantity.Let{"t": quantity.Amount{Value: seconds, Unit: "s"}, "R": r.R, "C": r.C}))
}
