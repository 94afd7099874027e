package circuit

import (
	"slices"
	"strings"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// ShownLight is a light that craft carry by rule.
type ShownLight struct {
	Name    string           // as written: "port"
	Colours []string         // colour families that are right
	Arc     quantity.Degrees // over which it shows; 0: all round
	Source  string
	flashes bool
}

// ShownLights are the lights that a lamp may be declared to show. Ships'
// lights are steady; fictional craft have no authority and declare none.
var ShownLights = []ShownLight{
	{"port", []string{"red"}, 112.5, "COLREGs rule 21(b)", false},
	{"starboard", []string{"green"}, 112.5, "COLREGs rule 21(b)", false},
	{"masthead", []string{"white"}, 225, "COLREGs rule 21(a)", false},
	{"stern", []string{"white"}, 135, "COLREGs rule 21(c)", false},
	{"towing", []string{"amber"}, 135, "COLREGs rule 21(d)", false},
	{"all-round", []string{"white", "red", "green", "amber"}, 360, "COLREGs rule 21(e)", false},
	{"anti-collision", []string{"red", "white"}, 360, "14 CFR 25.1401", true},
}

// ShownLightNames lists the names for messages and schemas.
func ShownLightNames() []string {
	var names []string
	for _, l := range ShownLights {
		names = append(names, l.Name)
	}
	return names
}

// Flash rates of anti-collision lights, per minute (14 CFR 25.1401(c)).
const slowestFlash, fastestFlash = 40, 100

var ruleNavColour = &source.Rule{Name: "navigation-colour", Severity: source.Warn, Source: "COLREGs rule 21; 14 CFR 25.1397",
	Reason: "Craft show red to port and green to starboard, white at masthead and stern.",
	Keys:   "build circuits[].branches[].lamps[]: shows; lamps <name>: colour"}

// shows holds the lamps of a branch against the lights they are to show.
func (c *checks) shows(b *BranchResult) {
	for k := range b.Lamps {
		in := b.Lamps[k].Declared
		if !in.Shows.Set || in.Shows.V == "" {
			continue
		}
		at := slices.IndexFunc(ShownLights, func(l ShownLight) bool { return l.Name == strings.ToLower(strings.TrimSpace(in.Shows.V)) })
		if at < 0 {
			remedy := source.Say("write one of %s, or leave it out: it is the builder's choice", source.Row(ShownLightNames()))
			c.found.Add(ruleNavColour.At(in.Shows.At, remedy, "%q is no light of the rules", in.Shows.V))
			continue
		}
		light := ShownLights[at]
		if family := ColourFamily(b.Lamps[k].Colour); !slices.Contains(light.Colours, family) {
			right := either(light.Colours)
			c.found.Add(ruleNavColour.At(in.Shows.At, source.Say("fit a lamp of %s", right),
				"%s shows the %s light, which is %s (%s), but its lamp is %s",
				b.Lamps[k].Ref, source.Word(light.Name), right, source.Word(light.Source), source.Word(family)))
		}
		c.flashes(b, k, light)
	}
}

// either joins colours: "white or red".
func either(colours []string) source.Message {
	said := source.Word(colours[0])
	for _, c := range colours[1:] {
		said = source.Say("%s or %s", said, source.Word(c))
	}
	return said
}

var (
	ruleFlashRate = &source.Rule{Name: "flash-rate", Severity: source.Warn, Source: "14 CFR 25.1401(c)",
		Reason: "Anti-collision lights of aircraft flash 40 to 100 times a minute.",
		Keys:   "build circuits[].branches[]: control; build circuits[].branches[].lamps[]: shows"}
	ruleSteadyLight = &source.Rule{Name: "navigation-steady", Severity: source.Note, Source: "COLREGs rule 21",
		Reason: "Running lights of ships are steady lights.",
		Keys:   "build circuits[].branches[]: control; build circuits[].branches[].lamps[]: shows"}
)

// flashes holds how a branch is driven against a light that one of its lamps
// shows.
func (c *checks) flashes(b *BranchResult, k int, light ShownLight) {
	control := b.Control
	at := b.Declared.Control.At
	if !at.Known() {
		at = b.Lamps[k].Declared.Shows.At
	}
	rate, ref := float64(control.Frequency)*60, b.Lamps[k].Ref
	switch {
	case light.flashes && control.Kind != Blink:
		c.found.Add(ruleFlashRate.At(at, "write control: blink 1 Hz 20 %",
			"%s shows an anti-collision light, which flashes %d to %d times a minute, but it is %s",
			ref, slowestFlash, fastestFlash, source.Word(string(control.Kind))))
	case light.flashes && (rate < slowestFlash*(1-1e-9) || rate > fastestFlash*(1+1e-9)):
		c.found.Add(ruleFlashRate.At(at, "set it between 0.67 Hz and 1.67 Hz",
			"%s flashes %s times a minute; an anti-collision light flashes %d to %d",
			ref, bare(rate, 3), slowestFlash, fastestFlash))
	case !light.flashes && (control.Kind == Blink || control.Kind == Fade):
		c.found.Add(ruleSteadyLight.At(at, "", "%s shows the %s light, which is steady, but it is set to %s",
			ref, source.Word(light.Name), source.Word(string(control.Kind))))
	}
}
