package desk

import (
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strings"

	"spruelight/gen/journal"
	"spruelight/gen/paint"
	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// MixQuestion is a sum of a mix: a ratio, or a mix recorded in a build.
type MixQuestion struct {
	Mix   string   // "2:1:3", or the name of a recorded mix
	Names []string // of the parts of a ratio, in order
	Cup   string   // volume wanted, "12 ml"
	Drop  string   // volume of one drop, "40 ul"; the usual one where empty
	Build string   // slug of the build that recorded the mix
}

// Mix works a mix out in volumes and drops. shop is the workshop, nil
// where the question is a plain ratio.
func Mix(shop fs.FS, q MixQuestion) (Answer, error) {
	var a Answer
	var in form
	cup, drop := read[quantity.Litres](&in, "--cup", q.Cup), read[quantity.Litres](&in, "--drop", q.Drop)
	if in.err != nil {
		return a, in.err
	}
	var p paint.Pour
	if q.Build == "" {
		var ratio quantity.Mix
		if err := ratio.UnmarshalText([]byte(q.Mix)); err != nil {
			return a, fmt.Errorf("%w; a recorded mix needs --build as well", err)
		}
		if cup.V <= 0 {
			return a, errors.New(`say how much is wanted, like --cup "12 ml"`)
		}
		p = paint.ByRatio(ratio, q.Names, cup.V, drop.V)
		a.say("%s in %s", ratio, cup.V)
	} else {
		m, err := recordedMix(shop, q.Build, q.Mix)
		if err != nil {
			return a, err
		}
		p = m.Pour(cup.V, drop.V)
		a.say("%s, as recorded in %s", m.Name.V, q.Build)
		for _, f := range p.Found {
			a.say("%s: %s", f.Severity(), f.Says)
		}
	}
	a.pour(p)
	return a, nil
}

// pour adds the portions of a mix and how they were counted.
func (a *Answer) pour(p paint.Pour) {
	for _, o := range p.Portions {
		f := quantity.Figure{Symbol: "V", Name: o.What, Value: float64(o.Volume), Unit: "l", Source: "worked out",
			Working: source.Say("%s of %s", quantity.Amount{Value: float64(o.Share), Unit: "share", Digits: 3}, p.Total)}
		if o.Drops > 0 {
			f.Working = source.Say("%s, about %s drops", f.Working, quantity.Amount{Value: o.Drops, Digits: 4})
		}
		if !o.Known {
			f.Value, f.Unit, f.Digits, f.Working = float64(o.Share), "share", 3, source.Word("parts without a volume; give --cup")
		}
		a.add(f)
	}
	if p.Known && len(p.Portions) > 0 {
		a.add(p.Drop, p.Worst)
		a.say("One drop is taken as %s: %s. Droppers and paints differ; count only with equal ones.", p.Drop.Amount(), source.Word(p.Drop.Source))
	}
}

// recordedMix finds a mix in a build's journal.
func recordedMix(shop fs.FS, slug, name string) (*paint.Mix, error) {
	w, _ := journal.Open(shop)
	b, ok := w.Build(slug)
	if !ok {
		return nil, w.NoBuild(slug)
	}
	w.ReadBuild(shop, b)
	m, ok := b.Front.Mixes.Get(name)
	if !ok {
		known := b.Front.Mixes.Names()
		if len(known) == 0 {
			return nil, fmt.Errorf("%s records no mixes", slug)
		}
		return nil, fmt.Errorf("%s records no mix %q; it has: %s", slug, name, strings.Join(known, ", "))
	}
	m.Name = source.Value[string]{V: name, Set: true}
	return &m, nil
}

// ColourQuestion is a sum of colours: hex colours, or paints of the rack.
type ColourQuestion struct {
	Colours []string
	Scale   string // lighten for it, by every rule that says something there
	Through string // a clear paint before the first colour, which is then a lamp's
	Coats   int
}

// Colour gives colours in L*a*b*, compares them, lightens them for a
// scale, or estimates a lamp through clear paint. shop may be nil where no
// paint is named.
func Colour(shop fs.FS, q ColourQuestion) (Answer, error) {
	var a Answer
	if len(q.Colours) == 0 {
		return a, errors.New(`give a colour in quotes, like "#8a9095", or a paint on the rack`)
	}
	names := slices.Clone(q.Colours)
	if q.Through != "" {
		names = append(names, q.Through)
	}
	colours, err := findColours(shop, names)
	if err != nil {
		return a, err
	}
	if q.Through != "" {
		return a, a.lit(q, colours)
	}
	for i, c := range colours {
		a.lab(q.Colours[i], c)
	}
	for i := range colours {
		for j := i + 1; j < len(colours); j++ {
			a.compare(q.Colours[i], q.Colours[j], paint.Compare(colours[i], colours[j]))
		}
	}
	scale, err := asked[quantity.Scale]("--scale", q.Scale)
	if err != nil || !scale.Set {
		return a, err
	}
	for i, c := range colours {
		a.lighten(q.Colours[i], c, scale.V)
	}
	return a, nil
}

// findColours reads hex colours and looks the others up on the rack.
func findColours(shop fs.FS, names []string) ([]paint.Colour, error) {
	var rack source.Entries[paint.Paint]
	var out []paint.Colour
	for _, name := range names {
		var c quantity.Colour
		err := c.UnmarshalText([]byte(name))
		if err == nil {
			out = append(out, c)
			continue
		}
		if strings.HasPrefix(strings.TrimSpace(name), "#") || shop == nil {
			return nil, err
		}
		if rack == nil {
			w, _ := journal.Open(shop)
			rack = w.Rack.Paints
		}
		p, ok := rack.Get(name)
		switch {
		case !ok:
			return nil, fmt.Errorf("%q is neither a colour nor a paint on the rack%s", name, meant(name, rack.Names()))
		case !p.Colour.Set:
			return nil, fmt.Errorf("the rack does not say which colour %s has", name)
		}
		out = append(out, p.Colour.V)
	}
	return out, nil
}

func (a *Answer) lab(name string, c paint.Colour) {
	l := paint.LabOf(c)
	const from = "IEC 61966-2-1 and ISO/CIE 11664-4, white D65"
	a.add(quantity.Figure{Symbol: "L*", Name: "lightness of " + name, Value: l.L, Digits: 4, Working: source.Say("%s", c), Source: from},
		quantity.Figure{Symbol: "a*", Name: "a* of " + name, Value: l.A, Digits: 3, Source: from},
		quantity.Figure{Symbol: "b*", Name: "b* of " + name, Value: l.B, Digits: 3, Source: from})
}

func (a *Answer) compare(one, two string, c paint.Comparison) {
	match := source.Word("no match")
	if c.Match {
		match = source.Word("a match")
	}
	a.say("%s and %s: %s; %s for a touch-up. %s.", one, two, source.Word(c.Verdict.String()), match, source.Word(c.Difference.Source))
	a.add(c.Difference)
}

func (a *Answer) lighten(name string, c paint.Colour, scale quantity.Scale) {
	for _, rule := range paint.Lightenings {
		l, ok := rule.Lighten(c, scale.Ratio)
		if !ok {
			a.say("%s at %s: rule %s says nothing at this scale.", name, scale, rule.Name)
			continue
		}
		a.say("%s at %s: %s by rule %s (%s). Optional, and disputed.", name, scale, l.To, rule.Name, source.Word(rule.Source))
		a.add(l.White)
	}
}

func (a *Answer) lit(q ColourQuestion, colours []paint.Colour) error {
	if len(colours) != 2 {
		return errors.New("--through wants one lamp colour before it")
	}
	l := paint.Lit(colours[0], colours[1], max(q.Coats, 1))
	a.say("%s through %s looks about like %s. %s.", q.Colours[0], q.Through, l.Colour, source.Word(l.Estimate))
	a.add(l.Passing)
	return nil
}

// DensityQuestion is a sum of light readings: through the bare plastic first,
// then after each coat.
type DensityQuestion struct {
	Readings           []string
	Dark, Step, Wanted string
}

// Density works out the optical density of each coat and how many are
// still wanted.
func Density(q DensityQuestion) (Answer, error) {
	var a Answer
	if len(q.Readings) < 2 {
		return a, errors.New(`give the reading through bare plastic and one after each coat, like "1850 lx" "2.1 lx"`)
	}
	test := paint.LightTest{Where: source.Value[string]{V: "reading", Set: true}}
	for i, text := range q.Readings {
		var lux quantity.Lux
		if err := lux.UnmarshalText([]byte(text)); err != nil {
			return a, err
		}
		v := source.Value[quantity.Lux]{V: lux, Set: true}
		if i == 0 {
			test.Bare = v
			continue
		}
		test.Readings = append(test.Readings, paint.LightTestReading{After: source.Value[string]{V: fmt.Sprintf("coat %d", i), Set: true},
			Lux: v})
	}
	var in form
	test.Dark, test.Meter = read[quantity.Lux](&in, "--dark", q.Dark), read[quantity.Lux](&in, "--step", q.Step)
	if in.err != nil {
		return a, in.err
	}
	if q.Wanted != "" {
		if _, err := fmt.Sscan(q.Wanted, &test.Target.V); err != nil || test.Target.V <= 0 || test.Target.V > 10 {
			return a, fmt.Errorf("--wanted %q is no optical density; write a number like 3", q.Wanted)
		}
		test.Target.Set = true
	}
	a.density(test.Measure())
	return a, nil
}

func (a *Answer) density(b paint.Blocking) {
	for _, f := range b.Found {
		a.finding(f)
	}
	for _, c := range b.Coats {
		f := c.Density
		f.Name = "density of " + c.Paint
		if c.AtLeast {
			f.Name += ", at least"
		}
		a.add(f)
	}
	if len(b.Coats) == 0 {
		return
	}
	a.add(b.Total, b.Passing, b.Target)
	if b.Wanted.Value > 0 {
		f := b.Wanted
		f.Name = "coats of " + b.Last + " still wanted"
		a.add(f)
	}
	if b.Enough {
		a.say("Enough: density %s, wanted %s.", b.Total.Amount(), b.Target.Amount())
	}
}
