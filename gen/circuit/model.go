package circuit

import "math"

// model is a branch as a one-port: the current it takes at a voltage. It
// never takes a negative one, and never less at a higher voltage.
type model struct {
	a, b   float64    // V: the lamps' own, summed over the string
	ohms   float64    // resistor, leads and the lamps' series resistance
	limit  float64    // A: of a constant-current driver; +Inf without one
	beside []parallel // lamps side by side, after ohms; then a and b are 0
	broken bool       // an open circuit
}

// parallel is one of several lamps on one resistor.
type parallel struct{ a, b, ohms float64 }

// at returns the current at a voltage over the whole branch and its slope.
func (m *model) at(volts float64) (current, slope float64) {
	switch {
	case m.broken || !(volts > 0):
		return 0, 0
	case len(m.beside) > 0:
		current, slope = m.divided(volts)
	case m.b == 0: // every lamp failed short
		r := max(m.ohms, leastOhms)
		current, slope = volts/r, 1/r
	default:
		r := max(m.ohms, leastOhms)
		current = diodeCurrent(volts-m.a, m.b, r)
		slope = current / (m.b + r*current)
	}
	if current > m.limit {
		return m.limit, 0
	}
	return current, slope
}

// divided solves lamps side by side behind one resistance: the voltage over
// them is where they take what the resistance lets through.
func (m *model) divided(volts float64) (current, slope float64) {
	r := max(m.ohms, leastOhms)
	over := m.share(volts, r)
	g := 0.0
	for _, d := range m.beside {
		_, s := d.at(over)
		g += s
	}
	current = (volts - over) / r
	return current, g / (1 + r*g)
}

// share returns the voltage over lamps side by side. Their summed current
// rises with it and what the resistance lets through falls, so the root lies
// between 0 and volts; Newton steps that leave the bracket are replaced by
// halving it.
func (m *model) share(volts, r float64) float64 {
	low, high := 0.0, volts
	over := m.guess(volts)
	for range 200 {
		f, g := (over-volts)/r, 1/r
		for _, d := range m.beside {
			i, s := d.at(over)
			f, g = f+i, g+s
		}
		if f > 0 {
			high = over
		} else {
			low = over
		}
		next := over - f/g
		if !(next > low && next < high) {
			next = (low + high) / 2
		}
		if math.Abs(next-over) <= 1e-15*volts {
			return next
		}
		over = next
	}
	return over
}

// guess starts share where the lowest lamp alone would stand.
func (m *model) guess(volts float64) float64 {
	over := volts
	for _, d := range m.beside {
		over = min(over, d.a+d.b*math.Log(max(volts-d.a, 0.01)/max(m.ohms, 1)/milliamp))
	}
	return max(over, volts/1e3)
}

// at returns the current of one lamp at a voltage over it and its slope.
func (d parallel) at(volts float64) (current, slope float64) {
	if d.b == 0 { // failed short
		r := max(d.ohms, leastOhms)
		return volts / r, 1 / r
	}
	r := max(d.ohms, leastOhms)
	current = diodeCurrent(volts-d.a, d.b, r)
	return current, current / (d.b + r*current)
}
