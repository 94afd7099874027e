package circuit

import (
	"fmt"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// mostDrop is the share of the supply that wires may lose.
const mostDrop = 0.05

var ruleWireDrop = &source.Rule{Name: "wire-drop", Severity: source.Warn, Source: practice,
	Reason: "More than 5 % of the supply lost in wire makes far lamps dimmer than near ones.",
	Keys: "build circuits[].feed: wire, length; build circuits[].junctions[]: wire, length; " +
		"build circuits[].branches[].lead: wire, length"}

// wire finds branches that lose too much in wire, once for each run that
// loses the most.
func (c *checks) wire(b *BranchResult) {
	s := c.s
	if float64(b.WireDrop) <= mostDrop*float64(s.Supply.Terminal.Nominal) {
		return
	}
	worst, name := b.Lead, source.Word("its lead")
	for k := b.Junction; k >= 0; k = s.Junctions[k].From {
		if f := s.Junctions[k].Feed; f.Drop > worst.Drop {
			worst, name = f, source.Say("the feed to %s", s.JunctionName(k))
		}
	}
	at := worst.Run.Size.At
	if !at.Known() {
		at = b.Declared.place()
	}
	for _, f := range c.found {
		if f.Rule == ruleWireDrop && f.At == at && at.Known() {
			return
		}
	}
	c.found.Add(ruleWireDrop.At(at, source.Say("use %s wire or thicker there, or a shorter run", c.thicker(worst)),
		"branch %q loses %s of %s in wire, most of it (%s at %s) in %s",
		b.Name, quantity.About(b.WireDrop), quantity.About(s.Supply.Terminal.Nominal),
		quantity.About(worst.Drop), quantity.About(worst.Current), name))
}

// thicker returns the gauge with which a run would lose a fortieth of the supply.
func (c *checks) thicker(r RunResult) string {
	for n := 40; n >= 10; n-- {
		size := quantity.WireSize{Copper: quantity.AWG(n)}
		if float64(WireOhms(size, 2*r.Run.Length.V))*float64(r.Current) <= mostDrop/2*float64(c.s.Supply.Terminal.Nominal) {
			return fmt.Sprintf("%d AWG", n)
		}
	}
	return "10 AWG"
}
