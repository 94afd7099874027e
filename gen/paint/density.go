package paint

import (
	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// Blocking is what a light test shows.
type Blocking struct {
	Where   string
	Coats   []CoatDensity
	Total   quantity.Figure
	AtLeast bool // the last reading is below what the meter can tell
	Passing quantity.Figure
	Target  quantity.Figure
	Wanted  quantity.Figure // coats still wanted, of the kind last laid
	Last    string          // the coat last laid
	Enough  bool
	Found   []source.Finding
}

// CoatDensity is one coat's own optical density.
type CoatDensity struct {
	Paint   string
	Reading quantity.Figure
	Density quantity.Figure
	AtLeast bool
}

// usualTarget lets a thousandth of the light through. No published value is
// known for models; film masks for copying are called good from 3 to 4.
const usualTarget = 3.0

const densitySource = "ISO 5-2:2009: D = log10 of light without the coat over light through it; densities of coats add"

var (
	ruleReading = &source.Rule{Name: "light-reading", Severity: source.Warn, Source: densitySource,
		Reason: "A reading that is brighter than the one before, or not above the dark room, gives no density.",
		Keys:   "sitting light tests[]: bare, dark, step; sitting light tests[].readings[]: lux"}
	ruleMeterEnd = &source.Rule{Name: "light-below-meter", Severity: source.Note, Source: densitySource,
		Reason: "The last reading is below what the meter can tell from darkness, so the density is only known to be at least so much.",
		Keys:   "sitting light tests[]: step; sitting light tests[].readings[]: lux"}
	ruleBlockingThin = &source.Rule{Name: "light-blocking-thin", Severity: source.Warn, Source: practice,
		Reason: "A shell that lets light through glows in the dark, and once it is closed no coat can be added inside.",
		Keys:   "sitting light tests[]: wanted, area, where; sitting light tests[].readings[]: lux, after"}
)

// Density returns the optical density of a coat from the light without and
// with it, in lux, and the share that passes. Neither may be below zero.
func Density(without, with quantity.Lux) float64 {
	return density.Of(quantity.Let{"E₀": without, "E": with})
}

// Passing returns the share of light that an optical density lets through.
func Passing(density float64) quantity.Share {
	return quantity.Share(lightThrough.Of(quantity.Let{"D": density}))
}

// Measure works out the densities of a light test and how many coats are still
// wanted for its target. Adding densities leaves out light thrown back between
// coats, which is worth about 0.1.
func (t *LightTest) Measure() Blocking {
	b := Blocking{Where: t.Where.V, Target: t.target()}
	before, floor := t.Bare.V-t.Dark.V, max(t.Meter.V, 0)
	if before <= floor {
		at := t.Bare.At
		b.Found = append(b.Found, ruleReading.At(at, "read the bare plastic with the lamp on, closer or with a brighter lamp",
			"the bare reading of %s is not above the dark room's %s", t.Bare.V, t.Dark.V))
		return b
	}
	bare := before
	for _, r := range t.Readings {
		net := r.Lux.V - t.Dark.V
		if net > before {
			b.Found = append(b.Found, ruleReading.At(r.Lux.At, "repeat the reading with lamp and meter where they were",
				"%s after %s is brighter than before it", r.Lux.V, r.After.V))
			continue
		}
		least := net <= floor || net <= 0
		if least {
			net = max(floor, t.step())
			net = min(net, before)
		}
		b.Coats = append(b.Coats, CoatDensity{r.After.V, luxFigure(r.Lux.V), densityFigure("density of the coat", before, net), least})
		before, b.AtLeast = net, least
	}
	b.sum(bare, before)
	b.judge(t)
	return b
}

// step is the smallest light that the readings can tell apart from none where
// the meter's step is not given: one lux, the last digit of common meters.
func (t *LightTest) step() quantity.Lux {
	if t.Meter.Set {
		return t.Meter.V
	}
	return 1
}

func (t *LightTest) target() quantity.Figure {
	f := quantity.Figure{Symbol: "D", Name: "density wanted", Value: t.Target.Or(usualTarget), Digits: 2, Source: "the build file"}
	if !t.Target.Set {
		f.Assumed, f.Source = true, "suggestion, no source: 3 for small lamps, 4 for bright white ones"
	}
	return f
}

func luxFigure(v quantity.Lux) quantity.Figure {
	return quantity.Figure{Symbol: "E", Name: "reading", Value: float64(v), Unit: "lx", Digits: 3, Source: "the meter"}
}

func densityFigure(name string, without, with quantity.Lux) quantity.Figure {
	return density.Figure(name, quantity.Let{"E₀": without, "E": with})
}

func (b *Blocking) sum(bare, last quantity.Lux) {
	b.Total = densityFigure("density of all coats", bare, last)
	b.Passing = lightThrough.Figure("light passing", quantity.Let{"D": quantity.Amount{Value: b.Total.Value, Digits: 3}})
}

// judge says how many more coats of the last kind reach the target.
func (b *Blocking) judge(t *LightTest) {
	missing := b.Target.Value - b.Total.Value
	b.Enough = missing <= 0
	if b.Enough || len(b.Coats) == 0 {
		return
	}
	if b.AtLeast {
		b.Found = append(b.Found, ruleMeterEnd.At(t.At, "read again closer to the lamp or with a brighter one, or look in the dark",
			"%s: density is at least %s, and %s is wanted", b.Where, b.Total.Amount(), b.Target.Amount()))
		return
	}
	last := b.Coats[len(b.Coats)-1]
	b.Last = last.Paint
	each := last.Density.Value
	if each < 0.05 { // below what two readings can tell apart
		return
	}
	b.Wanted = coatsWanted.Figure("coats still wanted", quantity.Let{"D_w": b.Target, "D": b.Total, "D_c": last.Density})
	do := source.Say("lay %s more of %s, or another blocking coat, and read again", b.Wanted.Amount(), last.Paint)
	b.Found = append(b.Found, ruleBlockingThin.At(t.At, do,
		"%s: density %s, wanted %s", b.Where, b.Total.Amount(), b.Target.Amount()))
}
