package desk

import (
	"cmp"
	"errors"
	"fmt"

	"spruelight/gen/circuit"
	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// FlashQuestion is a sum of light that changes: a 555 timer by its parts or by
// what it shall do, an RC fade, a table of an even fade, or pulse dimming
// before a camera.
type FlashQuestion struct {
	RA, RB, Capacitor string // a timer's parts
	Rate, Lit         string // or what it shall do
	Series            string
	Resistor          string // of an RC fade, with Capacitor
	Fade              string // time from dark to full
	PWM, Camera       string // frequency, exposure
}

// Flash works out light that changes.
func Flash(q FlashQuestion) (Answer, error) {
	switch {
	case q.Fade != "":
		return fade(q)
	case q.PWM != "":
		return bands(q)
	case q.Resistor != "":
		return rcFade(q)
	case q.Rate != "":
		return timerByRate(q)
	case q.RA != "" || q.RB != "":
		return timerByParts(q)
	}
	return Answer{}, errors.New("say what is asked: --rate with --capacitor, --ra --rb --capacitor, --resistor --capacitor, " +
		"--fade, or --pwm with --camera")
}

const timerSheet = "NE555 data sheet, TI SLFS022I, 8.3.2"

func timerByParts(q FlashQuestion) (Answer, error) {
	var a Answer
	ra, err := needed[quantity.Ohms]("--ra", q.RA, "10k")
	rb, err2 := needed[quantity.Ohms]("--rb", q.RB, "68k")
	c, err3 := needed[quantity.Farads]("--capacitor", q.Capacitor, "10 uF")
	if err := errors.Join(err, err2, err3); err != nil {
		return a, err
	}
	if ra <= 0 || rb <= 0 || c <= 0 {
		return a, errors.New("resistors and capacitor must be above zero")
	}
	a.astable(circuit.Astable{RA: ra, RB: rb, C: c})
	return a, nil
}

// astable adds the times of a timer.
func (a *Answer) astable(timer circuit.Astable) {
	t := timer.Times()
	seconds := func(symbol, name string, v float64, working source.Message) {
		a.add(quantity.Figure{Symbol: symbol, Name: name, Value: v, Unit: "s", Digits: 4, Working: working, Source: timerSheet})
	}
	a.add(timer.Rate(), quantity.Figure{Symbol: "f", Name: "rate", Value: float64(t.Frequency) * 60, Unit: "per minute", Digits: 3,
		Working: source.Word("60 f"), Source: "arithmetic"})
	seconds("tH", "output high", t.High, source.Word("0.693 (RA + RB) C"))
	seconds("tL", "output low", t.Low, source.Word("0.693 RB C"))
	seconds("T", "period", t.Period, source.Word("tH + tL"))
	a.add(quantity.Figure{Symbol: "tH/T", Name: "share of the period the output is high", Value: float64(t.HighShare), Unit: "share",
		Digits: 4, Working: source.Word("1 − RB / (RA + 2 RB)"), Source: timerSheet},
		quantity.Figure{Symbol: "tL/T", Name: "share it is low", Value: float64(t.LowShare), Unit: "share", Digits: 4,
			Working: source.Word("RB / (RA + 2 RB)"), Source: timerSheet})
	perMinute := float64(t.Frequency) * 60
	switch {
	case perMinute > 180 && perMinute < 3600: // faster looks steady
		a.say("Care: light that flashes more than three times a second can provoke seizures.")
	case perMinute >= 40 && perMinute <= 100:
		a.say("Within the 40 to 100 a minute of an aircraft's anti-collision light (14 CFR 25.1401).")
	}
}

func timerByRate(q FlashQuestion) (Answer, error) {
	var a Answer
	rate, err := needed[quantity.Hertz]("--rate", q.Rate, "1 Hz")
	lit, err2 := needed[quantity.Share]("--lit", cmp.Or(q.Lit, "50 %"), "20 %")
	c, err3 := needed[quantity.Farads]("--capacitor", q.Capacitor, "10 uF")
	if err := errors.Join(err, err2, err3); err != nil {
		return a, err
	}
	series, ok := quantity.SeriesByName(cmp.Or(q.Series, "E24"))
	if !ok {
		return a, fmt.Errorf("--series: %q is none; write E12, E24 or E96", q.Series)
	}
	timer, sinks, err := circuit.DesignAstable(rate, lit, c, series)
	if err != nil {
		return a, err
	}
	where := source.Word("between the output and minus: it is lit while the output is high")
	if sinks {
		where = source.Word("between plus and the output: it is lit while the output is low")
	}
	a.say("RA %s, RB %s, C %s; lamp and its resistor %s.", timer.RA.Code(), timer.RB.Code(), timer.C, where)
	a.astable(timer)
	return a, nil
}

func rcFade(q FlashQuestion) (Answer, error) {
	var a Answer
	r, err := needed[quantity.Ohms]("--resistor", q.Resistor, "10k")
	c, err2 := needed[quantity.Farads]("--capacitor", q.Capacitor, "100 uF")
	if err := errors.Join(err, err2); err != nil {
		return a, err
	}
	if r <= 0 || c <= 0 {
		return a, errors.New("resistor and capacitor must be above zero")
	}
	rc := circuit.RC{R: r, C: c}
	a.add(quantity.Figure{Symbol: "τ", Name: "time constant", Value: rc.Tau(), Unit: "s", Working: source.Say("%s × %s", r, c),
		Source: "any textbook"})
	for n := 1; n <= 5; n++ {
		a.add(quantity.Figure{Symbol: "U/U_S", Name: fmt.Sprintf("charged after %s", seconds(float64(n)*rc.Tau())),
			Value: float64(rc.Charged(float64(n) * rc.Tau())), Unit: "share", Digits: 3, Working: source.Say("1 − e^−%d", n),
			Source: "any textbook"})
	}
	return a, nil
}

func fade(q FlashQuestion) (Answer, error) {
	var a Answer
	h, err := needed[quantity.Hours]("--fade", q.Fade, "4 s")
	if err != nil {
		return a, err
	}
	if h <= 0 {
		return a, errors.New("--fade: the time must be above zero")
	}
	a.say("From dark to full in %s, in steps that look even (CIE lightness).", h)
	for _, s := range circuit.FadeTable(float64(h)*3600, 11) {
		a.add(quantity.Figure{Symbol: "Y", Name: fmt.Sprintf("after %s", seconds(s.Seconds)), Value: float64(s.Duty),
			Unit: "share", Digits: 3, Working: source.Say("L* %s; %d of 255", quantity.Amount{Value: s.Lightness, Digits: 3}, s.Level),
			Source: "CIE 15: Y = ((L* + 16) / 116)³"})
	}
	return a, nil
}

func bands(q FlashQuestion) (Answer, error) {
	var a Answer
	f, err := needed[quantity.Hertz]("--pwm", q.PWM, "490 Hz")
	x, err2 := needed[quantity.Fraction]("--camera", q.Camera, "1/50 s")
	if err := errors.Join(err, err2); err != nil {
		return a, err
	}
	r := circuit.Ripple(float64(f), float64(x))
	if r <= 0 {
		return a, errors.New("--pwm: the frequency must be above zero")
	}
	a.add(quantity.Figure{Symbol: "n", Name: "pulses in one exposure", Value: float64(f) * float64(x), Digits: 3,
		Working: source.Say("%s × %s", f, x), Source: "arithmetic"},
		quantity.Figure{Symbol: "1/n", Name: "ripple, about", Value: float64(r), Unit: "share",
			Working: source.Word("1 / pulses in one exposure"), Source: "common practice, no source"})
	if r > circuit.MostRipple {
		a.say("Bands or flicker will show in the film; take %s or more.",
			quantity.Amount{Value: 1 / (circuit.MostRipple * float64(x)), Unit: "Hz", Digits: 2})
	} else {
		a.say("Bands will hardly show.")
	}
	return a, nil
}

func seconds(v float64) quantity.Amount { return quantity.Amount{Value: v, Unit: "s"} }
