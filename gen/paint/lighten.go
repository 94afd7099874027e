package paint

import (
	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// Lightening is a rule of the trade for lightening colours on small scales, as
// if the model were seen from as far away as the real thing. The rules
// contradict each other and some builders deny the whole idea, so a rule is
// used only where it is named.
type Lightening struct {
	Name   string
	Source string
	white  func(ratio float64) (float64, bool) // share of white for 1/ratio
}

// Lightenings lists the known rules; a name says what the rule adds in per cent.
var Lightenings = []Lightening{
	{"7-10-15", "an article of 1988, as told by cybermodeler.com: 1/32 7 %, 1/48 10 %, 1/72 15 %",
		table([][2]float64{{32, 0.07}, {48, 0.10}, {72, 0.15}})},
	{"halved", "the club IPMS Real Cote: scale denominator halved, in per cent (1/32 16 %, 1/48 24 %, 1/72 36 %)",
		func(ratio float64) (float64, bool) { return ratio / 2 / 100, ratio <= 100 }},
	{"15-25-33", "a builder on theminiaturespage.com: 1/32 15 %, 1/48 25 %, 1/72 33 %",
		table([][2]float64{{32, 0.15}, {48, 0.25}, {72, 0.33}})},
}

// FindLightening returns the rule of a name.
func FindLightening(name string) (Lightening, bool) {
	for _, l := range Lightenings {
		if l.Name == name {
			return l, true
		}
	}
	return Lightening{}, false
}

// table reads a rule given for a few scales; between them it is drawn straight,
// beyond them nothing is said.
func table(points [][2]float64) func(float64) (float64, bool) {
	return func(ratio float64) (float64, bool) {
		for i := 1; i < len(points); i++ {
			a, b := points[i-1], points[i]
			if ratio >= a[0] && ratio <= b[0] {
				return a[1] + (b[1]-a[1])*(ratio-a[0])/(b[0]-a[0]), true
			}
		}
		return 0, false
	}
}

// Lightened is a colour lightened for a scale.
type Lightened struct {
	To    Colour
	White quantity.Figure
}

// Lighten mixes white light into a colour by a rule, in linear light: the
// share is of light, as seen from afar, not of paint in a cup. It reports
// false where the rule says nothing for the scale.
func (l Lightening) Lighten(c Colour, ratio float64) (Lightened, bool) {
	share, ok := l.white(ratio)
	if !ok {
		return Lightened{}, false
	}
	from := LinearOf(c)
	mixed := func(v float64) float64 { return v + (1-v)*share }
	to := Linear{mixed(from.R), mixed(from.G), mixed(from.B)}.Colour()
	white := quantity.Figure{Symbol: "w", Name: "white mixed in", Value: 100 * share, Unit: "%", Digits: 2,
		Source:  l.Source + "; common practice, optional",
		Working: source.Say("rule %q at 1/%s, in linear light", l.Name, quantity.Amount{Value: ratio, Digits: 3})}
	return Lightened{To: to, White: white}, true
}
