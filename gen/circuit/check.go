package circuit

// checks looks at a worked-out circuit for what a builder must know before
// closing.
type checks struct {
	*plan
	s *Solution
}

// check finds all that is wrong with a circuit that has an operating point.
func check(p *plan, s *Solution) {
	c := &checks{p, s}
	c.supplyBears()
	c.fuseHolds()
	for i := range s.Branches {
		b := &s.Branches[i]
		if c.lights(b) {
			c.headroom(b)
		}
		c.lamps(b)
		c.limiter(b)
		c.wire(b)
		c.shows(b)
		c.found.Add(checkBanding(c.in, b)...)
	}
	c.faults()
	c.reverse()
	c.matched()
}
