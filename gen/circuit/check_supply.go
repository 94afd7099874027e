package circuit

import (
	"math"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// inHand is the share of a supply's current that should stay unused.
const inHand = 0.20

var (
	ruleSupplyLimit = &source.Rule{Name: "supply-over-limit", Severity: source.Warn, Source: "the supply's rating",
		Reason: "A supply above its limit sags, switches off or heats.",
		Keys:   "supplies <name>: limit; build circuits[]: supply, branches"}
	ruleSupplyMargin = &source.Rule{Name: "supply-margin", Severity: source.Warn, Source: practice,
		Reason: "A fifth of the supply's current should stay in hand.",
		Keys:   "supplies <name>: limit; build circuits[]: supply, branches"}
	ruleUnmeasured = &source.Rule{Name: "adapter-unmeasured", Severity: source.Note, Source: "trade reports: 17 to 20 V from \"12 V\"",
		Reason: "Unregulated adapters give much more than is printed on them while little is drawn.",
		Keys:   "supplies <name>: regulated, measured"}
)

// supplyBears finds what the supply cannot bear, and what is not known of it.
func (c *checks) supplyBears() {
	s, in := c.s, &c.in.Supply
	peak := s.Total.Current.Nominal
	at := in.Limit.At
	if !at.Known() {
		at = c.in.Circuit.Supply.At
	}
	switch limit := s.Supply.Limit; {
	case limit <= 0:
	case peak > limit*(1+1e-9):
		c.found.Add(ruleSupplyLimit.At(at, "less current for each lamp, fewer branches, or a stronger supply",
			"the circuit draws %s from a supply that gives %s", quantity.About(peak), quantity.About(limit)))
	case peak > limit*(1-inHand)*(1+1e-9):
		c.found.Add(ruleSupplyMargin.At(at, "keep a fifth of it in hand: less current for each lamp, or a stronger supply",
			"the circuit draws %s of the supply's %s", quantity.About(peak), quantity.About(limit)))
	}
	if in.Regulated.Set && !in.Regulated.V && !in.Measured.Set {
		c.found.Add(ruleUnmeasured.At(in.Regulated.At, "measure it with nothing connected and write measured: 17.5 V",
			"the adapter's unloaded voltage is not known; %s is reckoned with, %s at worst",
			quantity.About(s.Supply.Open.Nominal), quantity.About(s.Supply.Open.High)))
	}
	if c.supply.kind == PowerBank {
		c.bankStays()
	}
}

// bankNeeds is the load that keeps most power banks awake.
const bankNeeds quantity.Amps = 0.050

var ruleBankOff = &source.Rule{Name: "power-bank-off", Severity: source.Warn, Source: practice,
	Reason: "Many power banks switch off when less than 50 to 100 mA is drawn.",
	Keys:   "build circuits[]: supply; supplies <name>: switches off below"}

// bankStays warns where a power bank may switch itself off.
func (c *checks) bankStays() {
	in := &c.in.Supply
	needs, draws := in.AutoOff.Or(bankNeeds), c.s.Total.Average
	if draws >= needs || in.AutoOff.Set && in.AutoOff.V == 0 {
		return
	}
	known := source.Word("many power banks switch off below 50 to 100 mA")
	if in.AutoOff.Set {
		known = source.Say("this power bank switches off below %s", quantity.About(needs))
	}
	c.found.Add(ruleBankOff.At(c.in.Circuit.Supply.At,
		"try it for an hour; a bank with a small-load mode, or a plug that draws more, cures it",
		"the circuit draws %s on average; %s", quantity.About(draws), known))
}

// fuseShare is the share of its rating that a fuse should carry for long.
const fuseShare = 0.75

var ruleFuse = &source.Rule{Name: "fuse-small", Severity: source.Warn, Source: "UL 248-14 practice, from memory",
	Reason: "A fuse carries about three quarters of its rating for ever; above, it tires and opens one day.",
	Keys:   "build circuits[]: fuse; build circuits[].fuse: rated"}

// fuseHolds finds a fuse that carries more than it should.
func (c *checks) fuseHolds() {
	s, f := c.s, c.in.Fuse
	if f.Rated.V > 0 && s.Total.Current.High > f.Rated.V*fuseShare {
		c.found.Add(ruleFuse.At(f.Rated.At, "take the next larger fuse that the wires still stand",
			"fuse %s of %s carries up to %s", s.Fuse.Ref, quantity.About(f.Rated.V), quantity.About(s.Total.Current.High)))
	}
}

// supplyFor returns the smallest usual supply that leaves a fifth of itself
// over the resistor.
func supplyFor(volts float64) quantity.Amount {
	need := volts / (1 - leastHeadroom)
	for _, v := range []float64{3, 5, 6, 9, 12, 15, 19, 24, 36, 48} {
		if v >= need {
			return quantity.Amount{Value: v, Unit: "V", Digits: 3}
		}
	}
	return quantity.Amount{Value: math.Ceil(need), Unit: "V", Digits: 6}
}

var ruleReverse = &source.Rule{Name: "reverse-voltage", Severity: source.Note, Source: "the lamp's data sheet",
	Reason: "Wired the wrong way round, a lamp takes the whole supply in reverse, and few stand more than 5 V.",
	Keys:   "build circuits[]: supply; lamps <name>: reverse"}

// reverse notes once for each circuit whether the supply the wrong way
// round would be too much for its lamps.
func (c *checks) reverse() {
	open := c.s.Supply.Open.Nominal
	for i := range c.s.Branches {
		for _, l := range c.s.Branches[i].Lamps {
			if l.Reverse > 0 && open > l.Reverse {
				c.found.Add(ruleReverse.At(c.in.Circuit.Supply.At, "mark plus on the plug, or put a diode in the feed",
					"with the supply the wrong way round %s may see %s; it stands %s in reverse",
					l.Ref, quantity.About(open), quantity.About(l.Reverse)))
				return
			}
		}
	}
}
