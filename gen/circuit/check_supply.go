package circuit

import (
	"fmt"
	"slices"
	"strings"

	"spruelight/gen/quantity"
)

// inHand is the share of a supply's current that should stay unused.
const inHand = 0.20

func (p *plan) checkSupply(s *Solution) {
	in, peak := &p.in.Supply, s.Total.Current.Nominal
	at := in.Limit.At
	if !at.Known() {
		at = p.in.Circuit.Supply.At
	}
	switch limit := s.Supply.Limit; {
	case limit <= 0:
	case peak > limit*(1+1e-9):
		p.found.Add(ruleSupplyLimit.At(at, "less current for each lamp, fewer branches, or a stronger supply", "the circuit draws %s from a supply that gives %s", inAmps(peak), inAmps(limit)))
	case peak > limit*(1-inHand)*(1+1e-9):
		p.found.Add(ruleSupplyMargin.At(at, "keep a fifth of it in hand: less current for each lamp, or a stronger supply", "the circuit draws %s of the supply's %s", inAmps(peak), inAmps(limit)))
	}
	if in.Regulated.Set && !in.Regulated.V && !in.Measured.Set {
		p.found.Add(ruleUnmeasured.At(in.Regulated.At, "measure it with nothing connected and write measured: 17.5 V", "the adapter's unloaded voltage is not known; %s is reckoned with, %s at worst", inVolts(s.Supply.Open.Nominal), inVolts(s.Supply.Open.High)))
	}
	if p.supply.kind == PowerBank {
		p.checkBank(s)
	}
}

// bankNeeds is the load that keeps most power banks awake.
const bankNeeds quantity.Amps = 0.050

func (p *plan) checkBank(s *Solution) {
	in := &p.in.Supply
	needs, draws := in.AutoOff.Or(bankNeeds), s.Total.Average
	if draws >= needs || in.AutoOff.Set && in.AutoOff.V == 0 {
		return
	}
	known := "many power banks switch off below 50 to 100 mA"
	if in.AutoOff.Set {
		known = fmt.Sprintf("this power bank switches off below %s", inAmps(needs))
	}
	p.found.Add(ruleBankOff.At(p.in.Circuit.Supply.At, "try it for an hour; a bank with a small-load mode, or a plug that draws more, cures it", "the circuit draws %s on average; %s", inAmps(draws), known))
}

// fuseShare is the share of its rating that a fuse should carry for long.
const fuseShare = 0.75

func (p *plan) checkFuse(s *Solution) {
	f := p.in.Fuse
	if f.Rated.V > 0 && s.Total.Current.High > f.Rated.V*fuseShare {
		p.found.Add(ruleFuse.At(f.Rated.At, "take the next larger fuse that the wires still stand", "fuse %s of %s carries up to %s", s.Fuse.Ref, inAmps(f.Rated.V), inAmps(s.Total.Current.High)))
	}
}

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

// checkShows holds the lamps of a branch against the lights they are to show.
func (p *plan) checkShows(b *BranchResult, i int) {
	for k := range b.Lamps {
		in := &p.branches[i].in.Lamps[k]
		if !in.Shows.Set || in.Shows.V == "" {
			continue
		}
		at := slices.IndexFunc(ShownLights, func(l ShownLight) bool { return l.Name == strings.ToLower(strings.TrimSpace(in.Shows.V)) })
		if at < 0 {
			p.found.Add(ruleNavColour.At(in.Shows.At, "write one of "+strings.Join(ShownLightNames(), ", ")+", or leave it out: it is the builder's choice", "%q is no light of the rules", in.Shows.V))
			continue
		}
		light := ShownLights[at]
		if family := ColourFamily(b.Lamps[k].Colour); !slices.Contains(light.Colours, family) {
			p.found.Add(ruleNavColour.At(in.Shows.At, "fit a lamp of "+strings.Join(light.Colours, " or "), "%s shows the %s light, which is %s (%s), but its lamp is %s", b.Lamps[k].Ref, light.Name, strings.Join(light.Colours, " or "), light.Source, family))
		}
		p.checkFlashes(b, i, k, light)
	}
}

func (p *plan) checkFlashes(b *BranchResult, i, k int, light ShownLight) {
	control := b.Control
	at := p.branches[i].in.Control.At
	if !at.Known() {
		at = p.branches[i].in.Lamps[k].Shows.At
	}
	rate := float64(control.Frequency) * 60
	switch {
	case light.flashes && control.Kind != Blink:
		p.found.Add(ruleFlashRate.At(at, "write control: blink 1 Hz 20 %", "%s shows an anti-collision light, which flashes %d to %d times a minute, but it is %s", b.Lamps[k].Ref, slowestFlash, fastestFlash, control.Kind))
	case light.flashes && (rate < slowestFlash*(1-1e-9) || rate > fastestFlash*(1+1e-9)):
		p.found.Add(ruleFlashRate.At(at, "set it between 0.67 Hz and 1.67 Hz", "%s flashes %s times a minute; an anti-collision light flashes %d to %d", b.Lamps[k].Ref, quantity.Round(rate, 3), slowestFlash, fastestFlash))
	case !light.flashes && (control.Kind == Blink || control.Kind == Fade):
		p.found.Add(ruleSteadyLight.At(at, "", "%s shows the %s light, which is steady, but it is set to %s", b.Lamps[k].Ref, light.Name, control.Kind))
	}
}

// MostRipple is the ripple from which a camera shows bands (common practice, no
// source).
const MostRipple = 0.05

// checkControl holds pulse dimming against the camera.
func (p *plan) checkControl(b *BranchResult, i int) {
	exposure := float64(p.in.Camera.V) * 3600
	if b.Control.Kind != PWM || !p.in.Camera.Set || b.Control.Frequency <= 0 || b.Control.Duty >= 1 {
		return
	}
	if r := Ripple(float64(b.Control.Frequency), exposure); r > MostRipple {
		p.found.Add(ruleBanding.At(p.branches[i].in.Control.At, fmt.Sprintf("dim with %s Hz or more, with a larger resistor, or expose longer", quantity.Round(1/(MostRipple*exposure), 2)),
			"branch %q is dimmed at %v: %s pulses in an exposure of 1/%s s, a ripple of about %s", b.Name, b.Control.Frequency, quantity.Round(1/float64(r), 2), quantity.Round(1/exposure, 3), inPercent(r)))
	}
}
