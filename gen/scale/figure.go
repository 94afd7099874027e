package scale

import (
	"cmp"
	"math"
	"slices"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// Figure is a human figure of a kit: its height from sole (standing) or seat
// (seated) to the crown of the bare head, without base, hat or helmet.
type Figure struct {
	Name    string // what sentences call it: "standing figure"
	Posture Posture
	Height  Length
}

// FigureCheck says whom a figure would be.
type FigureCheck struct {
	Figure
	At       quantity.Scale  // the scale it was taken at; ratio 0: none known
	Real     quantity.Metres // its height there
	Men      float64         // percentile among men, 0 to 100
	Women    float64
	Fits     bool             // between the 5th percentile of women and the 95th of men
	Adults   Interval         // ratios at which it fits, as far as the limits of its height allow
	Man      float64          // ratio at which it is a man of median height
	Woman    float64          // the same for a woman
	Best     []quantity.Scale // commonly sold scales at which it fits, nearest to a median first
	Sentence source.Message
}

// CheckFigure compares a figure's height at a scale with the survey's adults.
func CheckFigure(f Figure, at quantity.Scale) (FigureCheck, []source.Finding) {
	c := FigureCheck{Figure: f, At: at}
	if zero, place := firstZero(f.Height); zero {
		return c, []source.Finding{ruleZero.At(place, "write the height", "the height of a %s is not above zero", source.Word(f.label()))}
	}
	m, w, h := men[f.Posture], women[f.Posture], float64(f.Height.V.Value)
	h0, _ := limits(f.Height)
	c.Adults = Interval{w.p5 / float64(h0.High), m.p95 / float64(h0.Low)}
	c.Man, c.Woman = m.p50/h, w.p50/h
	c.Best = c.bestScales()
	if at.Ratio > 0 {
		c.Real = at.Real(f.Height.V.Value)
		c.Men, c.Women = m.percentile(float64(c.Real)), w.percentile(float64(c.Real))
		c.Fits = c.Adults.Contains(at.Ratio)
	}
	c.Sentence = c.sentence()
	if at.Ratio > 0 && !c.Fits {
		return c, []source.Finding{ruleFigure.At(f.Height.At, "stand the figure among models of that scale",
			"at %s the %s would be %s, %s; %s suits it better", c.At, source.Word(c.label()), quantity.About(c.Real), c.people(), c.Best[0])}
	}
	return c, nil
}

func (f Figure) label() string { return cmp.Or(f.Name, f.Posture.String()+" figure") }

// bestScales returns the commonly sold scales at which the figure is between
// the 5th percentile of women and the 95th of men; where there is none, the
// one common scale that comes nearest.
func (c FigureCheck) bestScales() []quantity.Scale {
	all := slices.Clone(Common)
	away := func(s quantity.Scale) float64 {
		return math.Min(math.Abs(math.Log(s.Ratio/c.Man)), math.Abs(math.Log(s.Ratio/c.Woman)))
	}
	slices.SortStableFunc(all, func(a, b quantity.Scale) int { return cmp.Compare(away(a), away(b)) })
	n := 0
	for _, s := range all {
		if c.Adults.Contains(s.Ratio) {
			all[n] = s
			n++
		}
	}
	return all[:max(n, 1)]
}

// sentence gives heights in metres to the centimetre.
func (c FigureCheck) sentence() source.Message {
	name := source.Word(c.label())
	if c.At.Ratio == 0 {
		return source.Say("As a man of median height the %s is 1/%s, as a woman 1/%s.", name,
			quantity.Amount{Value: c.Man, Digits: 3}, quantity.Amount{Value: c.Woman, Digits: 3})
	}
	if c.Fits {
		return source.Say("At %s the %s is %s: %s.", c.At, name, quantity.About(c.Real), c.people())
	}
	return source.Say("At %s the %s is %s, %s; it suits %s better.", c.At, name, quantity.About(c.Real), c.people(), c.Best[0])
}

// people says where the height stands among men and women.
func (c FigureCheck) people() source.Message {
	switch {
	case c.Men > 99.5:
		return source.Word("taller than 99 of 100 men")
	case c.Women < 0.5:
		return source.Word("shorter than 99 of 100 women")
	}
	return source.Say("the %s percentile of men, the %s of women", ordinal(c.Men), ordinal(c.Women))
}

// ordinal is a percentile in whole numbers, from 1st to 99th.
func ordinal(p float64) source.Message {
	n := int(math.Round(min(max(p, 1), 99)))
	ending := "%dth"
	switch {
	case n/10 == 1:
	case n%10 == 1:
		ending = "%dst"
	case n%10 == 2:
		ending = "%dnd"
	case n%10 == 3:
		ending = "%drd"
	}
	return source.Say(ending, n)
}
