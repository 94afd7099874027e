package circuit

import (
	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// leastHeadroom is the share of the supply that should stand over a resistor
// (common practice, no source: 20 to 25 %).
const leastHeadroom = 0.20

var (
	ruleHeadroom = &source.Rule{Name: "headroom-small", Severity: source.Warn, Source: practice,
		Reason: "The resistor holds the current steady only with a good part of the supply over it: about a fifth. With less, " +
			"a slightly fresher supply or another lamp changes the light a lot.",
		Keys: "build circuits[].branches[]: name, lamps, resistor; supplies <name>: volts"}
	ruleDropout = &source.Rule{Name: "driver-dropout", Severity: source.Warn,
		Source: "data sheets of such drivers; Kirchhoff's voltage law",
		Reason: "A constant-current driver holds its current only while it keeps its dropout voltage over itself.",
		Keys:   "build circuits[].branches[]: name, driver; build circuits[].branches[].driver: dropout"}
	ruleNoLimiter = &source.Rule{Name: "no-limiter", Severity: source.Warn, Source: practice,
		Reason: "Without a resistor only wire and the supply's inside resistance hold the current back.",
		Keys:   "build circuits[].branches[]: name, resistor"}
)

// headroom finds branches whose current is hardly held.
func (c *checks) headroom(b *BranchResult) {
	switch {
	case b.Kind == ConstantCurrent:
		if low := b.Resistor.Volts.Low; low < b.Resistor.Dropout {
			c.found.Add(ruleDropout.At(b.Declared.limiterAt(), "take a supply with more voltage, or fewer lamps in the string",
				"driver %s of branch %q may be left with %s where it needs %s", b.Ref, b.Name, quantity.About(low), quantity.About(b.Resistor.Dropout)))
		}
	case b.Kind == None:
		if c.supply.inside.Nominal < 5 || b.Current.High > 0.03 {
			c.found.Add(ruleNoLimiter.At(b.Declared.place(), "write resistor: auto",
				"branch %q has no resistor: %s, %s at the corners", b.Name, quantity.About(b.Current.Nominal), bandOf(b.Current)))
		}
	case b.Headroom < leastHeadroom*(1-1e-9) && b.Lit:
		c.found.Add(ruleHeadroom.At(b.Declared.place(), "take fewer lamps in the string, or a supply with more voltage",
			"branch %q leaves %s over %s, %s of the supply: the current may lie anywhere from %s",
			b.Name, quantity.About(b.Resistor.Volts.Nominal), b.Ref, quantity.About(b.Headroom), bandOf(b.Current)))
	}
	if b.Parallel {
		c.parallel(b)
	}
}

var ruleResistorHot = &source.Rule{Name: "resistor-hot", Severity: source.Warn,
	Source: "ChiaChia MF specification B/3 (derating from 70 °C); half the rating: " + practice,
	Reason: "A resistor inside a model should bear at most half its rating, or it heats the plastic beside it.",
	Keys:   "build circuits[].branches[]: resistor"}

// limiter finds resistors that grow too hot.
func (c *checks) limiter(b *BranchResult) {
	if !b.Kind.resistor() {
		return
	}
	h, r := b.Resistor.Heat, b.Resistor
	at := b.Declared.limiterAt()
	if !at.Known() {
		at = b.Declared.place()
	}
	if enough, ok := Rating(h.Nominal, h.High); !ok || enough > r.Rating {
		remedy := source.Say("take one of %s", quantity.Rating(enough))
		if !ok {
			remedy = source.Word("split the branch, or take a supply with less voltage")
		}
		c.found.Add(ruleResistorHot.At(at, remedy, "%s of branch %q turns %s into heat (%s at worst), more than half of its %s",
			b.Ref, b.Name, quantity.About(h.Nominal), quantity.About(h.High), quantity.Rating(r.Rating)))
	}
}
