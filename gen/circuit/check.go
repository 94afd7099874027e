package circuit

import (
	"fmt"
	"math"
	"strings"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// check looks at the worked-out circuit for what a builder must know before
// closing.
func (p *plan) check(s *Solution) {
	p.checkSupply(s)
	p.checkFuse(s)
	for i := range s.Branches {
		b := &s.Branches[i]
		if p.checkLights(s, i) {
			p.checkHeadroom(s, i)
		}
		p.checkLamps(b, i)
		p.checkLimiter(b, i)
		p.checkWire(s, i)
		p.checkShows(b, i)
		p.checkControl(b, i)
	}
	p.checkFaults(s)
	p.checkReverse(s)
	p.checkMatched(s)
}

// checkLights reports whether the supply suffices for the lamps of a branch,
// and finds where it does not.
func (p *plan) checkLights(s *Solution, i int) bool {
	bp, b := &p.branches[i], &s.Branches[i]
	wanted := bp.wanted
	if wanted <= 0 { // a fixed resistor: whatever it gives is right, if it lights
		if b.Lit {
			return true
		}
		wanted = 0.001
	}
	j := &s.Junctions[b.Junction]
	have := float64(j.Plus.Nominal - j.Minus.Nominal)
	need := bp.voltsAt(wanted)
	limiter := 0.0
	if bp.limiter.Kind == ConstantCurrent {
		limiter = float64(bp.limiter.dropout)
	}
	short := need+limiter > have*(1+1e-9)
	if !short || bp.limiter.Kind == Fixed && b.Lit {
		return true
	}
	says := "branch %q: %s in series need %s at %s; only %s is there, which gives %s"
	if len(b.Lamps) == 1 {
		says = "branch %q: %s needs %s at %s; only %s is there, which gives %s"
	} else if bp.parallel {
		says = "branch %q: %s side by side need %s at %s; only %s is there, which gives %s"
	}
	driver := ""
	if limiter > 0 {
		driver = " and their driver"
	}
	remedy := fmt.Sprintf("take a supply of %s or more, or a lower current", supplyFor(need+limiter))
	if len(b.Lamps) > 1 && !bp.parallel {
		remedy = fmt.Sprintf("give each its own resistor, or take a supply of %s or more", supplyFor(need+limiter))
	}
	p.found.Add(ruleCannotLight.At(p.at(i), remedy, says,
		b.Name, list(b.refs())+driver, inVolts(quantity.Volts(need+limiter)), inAmps(wanted), inVolts(quantity.Volts(have)), inAmps(b.Current.Nominal)))
	return false
}

// voltsAt is what the lamps of a branch need at a current each.
func (bp *branchPlan) voltsAt(i quantity.Amps) float64 {
	sum, most := 0.0, 0.0
	for _, l := range bp.lamps {
		v := float64(l.curve.Volts(i))
		sum, most = sum+v, max(most, v)
	}
	if bp.parallel {
		return most
	}
	return sum
}

// supplyFor returns the smallest usual supply that leaves a fifth of itself
// over the resistor.
func supplyFor(volts float64) string {
	need := volts / (1 - leastHeadroom)
	for _, v := range []float64{3, 5, 6, 9, 12, 15, 19, 24, 36, 48} {
		if v >= need {
			return fmt.Sprintf("%g V", v)
		}
	}
	return fmt.Sprintf("%.0f V", math.Ceil(need))
}

// leastHeadroom is the share of the supply that should stand over a resistor
// (common practice, no source: 20 to 25 %).
const leastHeadroom = 0.20

func (p *plan) checkHeadroom(s *Solution, i int) {
	bp, b := &p.branches[i], &s.Branches[i]
	switch {
	case b.Kind == ConstantCurrent:
		if low := b.Resistor.Volts.Low; low < b.Resistor.Dropout {
			p.found.Add(ruleDropout.At(bp.in.limiterAt(), "take a supply with more voltage, or fewer lamps in the string",
				"driver %s of branch %q may be left with %s where it needs %s", b.Ref, b.Name, inVolts(low), inVolts(b.Resistor.Dropout)))
		}
	case b.Kind == None:
		if p.supply.inside.Nominal < 5 || b.Current.High > 0.03 {
			p.found.Add(ruleNoLimiter.At(p.at(i), "write resistor: auto", "branch %q has no resistor: %s, %s at the corners", b.Name, inAmps(b.Current.Nominal), bandText(b.Current)))
		}
	case b.Headroom < leastHeadroom*(1-1e-9) && b.Lit:
		p.found.Add(ruleHeadroom.At(p.at(i), "take fewer lamps in the string, or a supply with more voltage",
			"branch %q leaves %s over %s, %s of the supply: the current may lie anywhere from %s", b.Name, inVolts(b.Resistor.Volts.Nominal), b.Ref, inPercent(b.Headroom), bandText(b.Current)))
	}
	if bp.parallel {
		p.checkParallel(b, i)
	}
}

func (p *plan) checkParallel(b *BranchResult, i int) {
	least, most := 0, 0
	for k := range b.Lamps {
		if b.Lamps[k].Current.Nominal < b.Lamps[least].Current.Nominal {
			least = k
		}
		if b.Lamps[k].Current.High > b.Lamps[most].Current.High {
			most = k
		}
	}
	says := fmt.Sprintf("with forward voltages %s V apart %s takes up to %s of the %s", quantity.Round(p.branches[i].lamps[most].spread, 2), b.Lamps[most].Ref, inAmps(b.Lamps[most].Current.High), inAmps(b.Current.Nominal))
	if d := b.Lamps[least]; d.Current.Nominal < b.Lamps[most].Current.Nominal/10 {
		says = fmt.Sprintf("%s takes %s and leaves %s %s", b.Lamps[most].Ref, inAmps(b.Lamps[most].Current.Nominal), d.Ref, inAmps(d.Current.Nominal))
	}
	p.found.Add(ruleParallel.At(p.at(i), "give each lamp its own resistor", "branch %q has %s on one resistor: %s", b.Name, list(b.refs()), says))
}

// at is the place of a branch.
func (p *plan) at(i int) source.Span { return p.branches[i].in.place() }

func (p *plan) checkLamps(b *BranchResult, i int) {
	for k := range b.Lamps {
		l := &b.Lamps[k]
		in := &p.branches[i].in.Lamps[k]
		switch {
		case l.Limit > 0 && l.Current.High > l.Limit*(1+1e-9):
			p.found.Add(ruleOverLimit.At(in.Lamp.At, "raise the resistor, or write resistor: auto", "%s of branch %q may take %s (%s nominal), above its absolute %s",
				l.Ref, b.Name, inAmps(l.Current.High), inAmps(l.Current.Nominal), inAmps(l.Limit)))
		case l.Rated > 0 && l.Current.Nominal > l.Rated*(1+1e-9):
			p.found.Add(ruleOverRated.At(in.Lamp.At, "raise the resistor, or want less current", "%s of branch %q takes %s, above its rated %s", l.Ref, b.Name, inAmps(l.Current.Nominal), inAmps(l.Rated)))
		}
		if ColourFamily(l.Colour) == "infrared" {
			p.found.Add(ruleInfrared.At(in.Lamp.At, "", "%s of branch %q is infrared and will not be seen lit", l.Ref, b.Name))
		}
		for n, f := range l.Fibres {
			if f.Fits > 0 && f.Count > f.Fits {
				p.found.Add(ruleFibre.At(p.branches[i].lamps[k].fibres[n].At, "use thinner strands, a larger lamp or a second one", "%s of %s is to feed %d strands of %s; %d fit", l.Ref, in.Type.Diameter(), f.Count, f.Size, f.Fits))
			}
		}
	}
}

func (p *plan) checkLimiter(b *BranchResult, i int) {
	if b.Kind != Auto && b.Kind != Fixed {
		return
	}
	h, r := b.Resistor.Heat, b.Resistor
	at := p.branches[i].in.limiterAt()
	if !at.Known() {
		at = p.at(i)
	}
	if enough, ok := Rating(h.Nominal, h.High); !ok || enough > r.Rating {
		remedy := fmt.Sprintf("take one of %s W", quantity.Round(float64(enough), 3))
		if !ok {
			remedy = "split the branch, or take a supply with less voltage"
		}
		p.found.Add(ruleResistorHot.At(at, remedy, "%s of branch %q turns %s into heat (%s at worst), more than half of its %s W", b.Ref, b.Name, inWatts(h.Nominal), inWatts(h.High), quantity.Round(float64(r.Rating), 3)))
	}
}

// mostDrop is the share of the supply that wires may lose.
const mostDrop = 0.05

// checkWire finds branches that lose too much in wire, once for each run that
// loses the most.
func (p *plan) checkWire(s *Solution, i int) {
	b := &s.Branches[i]
	if float64(b.WireDrop) <= mostDrop*float64(s.Supply.Terminal.Nominal) {
		return
	}
	worst, name := b.Lead, "its lead"
	for k := b.Junction; k >= 0; k = s.Junctions[k].From {
		if f := s.Junctions[k].Feed; f.Drop > worst.Drop {
			worst, name = f, "the feed to "+s.Junctions[k].Name
		}
	}
	at := worst.Run.Size.At
	if !at.Known() {
		at = p.at(i)
	}
	for _, f := range p.found {
		if f.Rule == ruleWireDrop.Name && f.At == at && at.Known() {
			return
		}
	}
	p.found.Add(ruleWireDrop.At(at, fmt.Sprintf("use %s wire or thicker there, or a shorter run", p.thicker(worst, s)), "branch %q loses %s of %s in wire, most of it (%s at %s) in %s",
		b.Name, inVolts(b.WireDrop), inVolts(s.Supply.Terminal.Nominal), inVolts(worst.Drop), inAmps(worst.Current), name))
}

// thicker returns the gauge with which a run would lose a fortieth of the supply.
func (p *plan) thicker(r RunResult, s *Solution) string {
	for n := 40; n >= 10; n-- {
		size := quantity.WireSize{Copper: quantity.AWG(n)}
		if float64(WireOhms(size, 2*r.Run.Length.V))*float64(r.Current) <= mostDrop/2*float64(s.Supply.Terminal.Nominal) {
			return fmt.Sprintf("%d AWG", n)
		}
	}
	return "10 AWG"
}

// checkFaults warns once for each string in which a short failure would take
// other lamps above their absolute limit.
func (p *plan) checkFaults(s *Solution) {
	told := map[int]bool{}
	for _, f := range s.Faults {
		for _, o := range f.Over {
			if o.Limit <= 0 || o.Current <= o.Limit || told[f.Branch] {
				continue
			}
			told[f.Branch] = true
			p.found.Add(ruleFaultLimit.At(p.at(f.Branch), "take fewer lamps in the string, or less current", "branch %q: if %s fails %s, %s takes %s, above its absolute %s",
				s.Branches[f.Branch].Name, f.Lamp, f.Kind, o.Lamp, inAmps(o.Current), inAmps(o.Limit)))
		}
	}
}

func (p *plan) checkMatched(s *Solution) {
	for _, g := range s.Matched {
		if !g.Shows {
			continue
		}
		by := "currents"
		if g.ByLight {
			by = "intensities"
		}
		var names []string
		for _, i := range g.Branches {
			names = append(names, fmt.Sprintf("%s %s", s.Branches[i].Name, inAmps(s.Branches[i].Current.Nominal)))
		}
		p.found.Add(ruleMatched.At(p.branches[g.Branches[0]].in.Matched.At, "give them the same lamps, current and resistor, or dim the brighter one", "matched %q: %s %s times apart will show (%s)",
			g.Name, by, quantity.Round(g.Ratio, 3), strings.Join(names, ", ")))
	}
}

// checkReverse notes once for each circuit whether the supply the wrong way
// round would be too much for its lamps.
func (p *plan) checkReverse(s *Solution) {
	for i := range p.branches {
		for _, l := range p.branches[i].lamps {
			if l.reverse > 0 && p.supply.open.Nominal > l.reverse {
				p.found.Add(ruleReverse.At(p.in.Circuit.Supply.At, "mark plus on the plug, or put a diode in the feed", "with the supply the wrong way round %s may see %s; it stands %s in reverse",
					l.ref, inVolts(p.supply.open.Nominal), inVolts(l.reverse)))
				return
			}
		}
	}
}
