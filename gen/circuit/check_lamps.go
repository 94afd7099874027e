package circuit

import (
	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

var ruleCannotLight = &source.Rule{Name: "string-cannot-light", Severity: source.Warn, Source: "Kirchhoff's voltage law",
	Reason: "The lamps of a string add up their forward voltages; where the supply has less, they stay dim or dark.",
	Keys: "build circuits[].branches[]: name, lamps; build circuits[]: supply; lamps <name>: forward; " +
		"supplies <name>: volts"}

// lights reports whether the supply suffices for the lamps of a branch, and
// finds where it does not.
func (c *checks) lights(b *BranchResult) bool {
	wanted := b.Wanted
	if wanted <= 0 { // a fixed resistor: whatever it gives is right, if it lights
		if b.Lit {
			return true
		}
		wanted = 0.001
	}
	j := &c.s.Junctions[b.Junction]
	have := float64(j.Plus.Nominal - j.Minus.Nominal)
	need := b.voltsAt(wanted)
	if b.Kind == ConstantCurrent {
		need += float64(b.Resistor.Dropout)
	}
	if need <= have*(1+1e-9) || b.Kind == Fixed && b.Lit {
		return true
	}
	says := "branch %q: %s in series need %s at %s; only %s is there, which gives %s"
	if len(b.Lamps) == 1 {
		says = "branch %q: %s needs %s at %s; only %s is there, which gives %s"
	} else if b.Parallel {
		says = "branch %q: %s side by side need %s at %s; only %s is there, which gives %s"
	}
	var lamps any = source.And(b.refs())
	if b.Kind == ConstantCurrent && b.Resistor.Dropout > 0 {
		lamps = source.Say("%s and their driver", lamps)
	}
	remedy := source.Say("take a supply of %s or more, or a lower current", supplyFor(need))
	if len(b.Lamps) > 1 && !b.Parallel {
		remedy = source.Say("give each its own resistor, or take a supply of %s or more", supplyFor(need))
	}
	c.found.Add(ruleCannotLight.At(b.Declared.place(), remedy, says,
		b.Name, lamps, quantity.About(quantity.Volts(need)), quantity.About(wanted),
		quantity.About(quantity.Volts(have)), quantity.About(b.Current.Nominal)))
	return false
}

var (
	ruleOverLimit = &source.Rule{Name: "lamp-over-limit", Severity: source.Warn, Source: "absolute maximum ratings, IEC 60134",
		Reason: "Above its absolute maximum a lamp ages fast or dies.",
		Keys: "build circuits[].branches[].lamps[]: lamp; build circuits[].branches[]: current, resistor; " +
			"lamps <name>: limit, spread; supplies <name>: fresh, tolerance, regulated, measured"}
	ruleOverRated = &source.Rule{Name: "lamp-over-rated", Severity: source.Warn, Source: "the lamp's data sheet",
		Reason: "A lamp is specified up to its rated current.",
		Keys:   "build circuits[].branches[].lamps[]: lamp; build circuits[].branches[]: current, resistor; lamps <name>: rated"}
	ruleFibre = &source.Rule{Name: "fibre-count", Severity: source.Warn, Source: "packing of 75 %: " + practice,
		Reason: "A lamp's face feeds only the strands that fit before it.",
		Keys:   "build circuits[].fibres[]: from, count, size; lamps <name>: size"}
	ruleInfrared = &source.Rule{Name: "lamp-infrared", Severity: source.Note, Source: "IEC 60050-845: visible radiation",
		Reason: "Infrared light cannot be seen; some cameras record it as violet.",
		Keys:   "build circuits[].branches[].lamps[]: lamp; lamps <name>: colour"}
)

// lamps finds lamps that are given too much, and fibres too many for one.
func (c *checks) lamps(b *BranchResult) {
	for k := range b.Lamps {
		l := &b.Lamps[k]
		switch {
		case l.Limit > 0 && l.Current.High > l.Limit*(1+1e-9):
			c.found.Add(ruleOverLimit.At(l.Declared.Lamp.At, "raise the resistor, or write resistor: auto",
				"%s of branch %q may take %s (%s nominal), above its absolute %s",
				l.Ref, b.Name, quantity.About(l.Current.High), quantity.About(l.Current.Nominal), quantity.About(l.Limit)))
		case l.Rated > 0 && l.Current.Nominal > l.Rated*(1+1e-9):
			c.found.Add(ruleOverRated.At(l.Declared.Lamp.At, "raise the resistor, or want less current",
				"%s of branch %q takes %s, above its rated %s", l.Ref, b.Name, quantity.About(l.Current.Nominal), quantity.About(l.Rated)))
		}
		if ColourFamily(l.Colour) == "infrared" {
			c.found.Add(ruleInfrared.At(l.Declared.Lamp.At, "", "%s of branch %q is infrared and will not be seen lit", l.Ref, b.Name))
		}
		for _, f := range l.Fibres {
			if f.Fits > 0 && f.Count > f.Fits {
				c.found.Add(ruleFibre.At(f.At, "use thinner strands, a larger lamp or a second one",
					"%s of %s is to feed %d strands of %s; %d fit", l.Ref, l.Declared.Type.Diameter(), f.Count, f.Size, f.Fits))
			}
		}
	}
}

var ruleParallel = &source.Rule{Name: "lamps-share-resistor", Severity: source.Warn,
	Source: "Shockley's equation; trade reports of chain failures",
	Reason: "Lamps side by side on one resistor do not share its current evenly, and when one fails the others take its part.",
	Keys:   "build circuits[].branches[]: name, parallel; lamps <name>: spread"}

// parallel warns of lamps that share a resistor unevenly.
func (c *checks) parallel(b *BranchResult) {
	least, most := 0, 0
	for k := range b.Lamps {
		if b.Lamps[k].Current.Nominal < b.Lamps[least].Current.Nominal {
			least = k
		}
		if b.Lamps[k].Current.High > b.Lamps[most].Current.High {
			most = k
		}
	}
	says := source.Say("with forward voltages %s V apart %s takes up to %s of the %s",
		bare(float64(b.Lamps[most].Spread), 2), b.Lamps[most].Ref, quantity.About(b.Lamps[most].Current.High), quantity.About(b.Current.Nominal))
	if d := b.Lamps[least]; d.Current.Nominal < b.Lamps[most].Current.Nominal/10 {
		says = source.Say("%s takes %s and leaves %s %s",
			b.Lamps[most].Ref, quantity.About(b.Lamps[most].Current.Nominal), d.Ref, quantity.About(d.Current.Nominal))
	}
	c.found.Add(ruleParallel.At(b.Declared.place(), "give each lamp its own resistor",
		"branch %q has %s on one resistor: %s", b.Name, source.And(b.refs()), says))
}

var ruleFaultLimit = &source.Rule{Name: "fault-over-limit", Severity: source.Warn, Source: practice,
	Reason: "When one lamp of a string fails short the others take more; they should survive it, for the shell will be closed.",
	Keys:   "build circuits[].branches[]: name, lamps, resistor; lamps <name>: limit"}

// faults warns once for each string in which a short failure would take
// other lamps above their absolute limit.
func (c *checks) faults() {
	warned := map[int]bool{}
	for _, f := range c.s.Faults {
		b := &c.s.Branches[f.Branch]
		for _, o := range f.Over {
			if o.Limit <= 0 || o.Current <= o.Limit || warned[f.Branch] {
				continue
			}
			warned[f.Branch] = true
			c.found.Add(ruleFaultLimit.At(b.Declared.place(), "take fewer lamps in the string, or less current",
				"branch %q: if %s fails %s, %s takes %s, above its absolute %s",
				b.Name, f.Lamp, source.Word(string(f.Kind)), o.Lamp, quantity.About(o.Current), quantity.About(o.Limit)))
		}
	}
}

var ruleMatched = &source.Rule{Name: "matched-differ", Severity: source.Warn,
	Source: "Weber fraction 0.08 (Teghtsoonian 1971), exponent 0.5 (Stevens 1975)",
	Reason: "Lamps meant to look alike show a difference from about 17 % in intensity.",
	Keys:   "build circuits[].branches[]: matched, current, lamps; lamps <name>: intensity"}

// matched finds lamps that should look alike and do not.
func (c *checks) matched() {
	for _, g := range c.s.Matched {
		if !g.Shows {
			continue
		}
		by := source.Word("currents")
		if g.ByLight {
			by = source.Word("intensities")
		}
		var each []source.Message
		for _, i := range g.Branches {
			each = append(each, source.Say("%s %s", c.s.Branches[i].Name, quantity.About(c.s.Branches[i].Current.Nominal)))
		}
		c.found.Add(ruleMatched.At(c.s.Branches[g.Branches[0]].Declared.Matched.At,
			"give them the same lamps, current and resistor, or dim the brighter one",
			"matched %q: %s %s times apart will show (%s)",
			g.Name, by, bare(g.Ratio, 3), source.Row(each)))
	}
}
