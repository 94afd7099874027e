package circuit

import "math"

// model is a branch as a one-port: the current it takes at a voltage. It
// never takes a negative one, and never less at a higher voltage.
type model struct {
	row    []diode // lamps in a string, equal ones summed, those that failed short left out
	beside []diode // or lamps side by side, each with its own resistance
	ohms   float64 // resistor, leads and the string's series resistance
	limit  float64 // A: of a constant-current driver; +Inf without one
	broken bool    // an open circuit
}

// diode is the junction of a lamp: v = b·ln(1 + i/is).
type diode struct {
	a, b float64 // V; a is the voltage at 1 mA
	is   float64 // A
	ohms float64 // only for lamps side by side
}

// leastSaturation keeps saturation currents above what a float64 can hold.
const leastSaturation = 1e-300

func newDiode(a, b float64) diode {
	return diode{a: a, b: b, is: max(milliamp*math.Exp(-a/b), leastSaturation)}
}

// volts returns the voltage over the junction at a current.
func (d diode) volts(i float64) float64 {
	if i > 1e6*d.is {
		return d.a + d.b*math.Log((i+d.is)/milliamp)
	}
	return d.b * math.Log1p(i/d.is)
}

// join adds a junction to the string. Equal ones count as one of their sum.
func (m *model) join(d diode) {
	for k := range m.row {
		if m.row[k].is == d.is {
			m.row[k].a += d.a
			m.row[k].b += d.b
			return
		}
	}
	m.row = append(m.row, d)
}

// at returns the current at a voltage over the whole branch and its slope.
func (m *model) at(volts float64) (current, slope float64) {
	switch {
	case m.broken || !(volts > 0):
		return 0, 0
	case len(m.beside) > 0:
		current, slope = m.divided(volts)
	default:
		current, slope = stringCurrent(m.row, max(m.ohms, leastOhms), volts)
	}
	if current > m.limit {
		return m.limit, 0
	}
	return current, slope
}

// stringCurrent returns the current of junctions in a row with a resistance r
// at a voltage over all, and its slope. It starts from the closed form, which
// leaves the saturation currents out and so lies above by no more than them;
// where they matter Newton steps down from that value follow.
func stringCurrent(row []diode, r, volts float64) (current, slope float64) {
	switch {
	case !(volts > 0):
		return 0, 0
	case len(row) == 0:
		return volts / r, 1 / r
	}
	a, b, is := 0.0, 0.0, 0.0
	for k := range row {
		a, b, is = a+row[k].a, b+row[k].b, max(is, row[k].is)
	}
	current = diodeCurrent(volts-a, b, r)
	if is > 1e-14*current {
		current = refine(row, r, volts, current)
	}
	g := r
	for k := range row {
		g += row[k].b / (current + row[k].is)
	}
	return current, 1 / g
}

// refine solves the string with its saturation currents, starting from a
// current that is too high. Over the logarithm of the current the voltage is
// convex and rising, so Newton steps from above come down to the root without
// passing it, however far below it lies.
func refine(row []diode, r, volts, i float64) float64 {
	for range 200 {
		f, slope := r*i-volts, r*i
		for k := range row {
			f += row[k].volts(i)
			slope += row[k].b * i / (i + row[k].is)
		}
		step := f / slope
		i *= math.Exp(-step)
		if math.Abs(step) <= 1e-9 || i == 0 { // the step after would be its square
			break
		}
	}
	return i
}

// divided solves lamps side by side behind one resistance: the voltage over
// them is where they take what the resistance lets through.
func (m *model) divided(volts float64) (current, slope float64) {
	r := max(m.ohms, leastOhms)
	over := m.share(volts, r)
	g := 0.0
	for k := range m.beside {
		i, s := m.beside[k].at(over)
		current, g = current+i, g+s
	}
	return current, g / (1 + r*g)
}

// share returns the voltage over lamps side by side. Their summed current
// rises with it and what the resistance lets through falls, so the root lies
// between 0 and volts. Newton steps that leave the bracket are replaced by
// halving it, and so are those not half as long as the step before: far above
// the root they creep down an exponential by b each.
func (m *model) share(volts, r float64) float64 {
	low, high := 0.0, volts
	over, last := m.guess(volts), volts
	for range 200 {
		f, g := (over-volts)/r, 1/r
		for k := range m.beside {
			i, s := m.beside[k].at(over)
			f, g = f+i, g+s
		}
		if f > 0 {
			high = over
		} else {
			low = over
		}
		next := over - f/g
		if !(next >= low && next <= high) || math.Abs(next-over) > last/2 {
			next = (low + high) / 2
		}
		last = math.Abs(next - over)
		if over = next; last <= 1e-10*volts { // the step after would be rounding
			break
		}
	}
	return over
}

// over returns the voltage over lamps side by side when a voltage lies over
// the whole branch: what the resistance leaves or, where a driver holds the
// current, what its current needs.
func (m *model) over(volts float64) float64 {
	over := m.share(volts, max(m.ohms, leastOhms))
	sum := 0.0
	for k := range m.beside {
		i, _ := m.beside[k].at(over)
		sum += i
	}
	if sum <= m.limit {
		return over
	}
	return m.held(over)
}

// held returns the voltage at which lamps side by side take what a driver
// gives, below a voltage at which they would take more. Newton steps on the
// logarithm of their current, which is nearly a line over the voltage; steps
// that leave the bracket halve it.
func (m *model) held(high float64) float64 {
	low, over := 0.0, high
	for range 200 {
		sum, g := 0.0, 0.0
		for k := range m.beside {
			i, s := m.beside[k].at(over)
			sum, g = sum+i, g+s
		}
		if sum > m.limit {
			high = over
		} else {
			low = over
		}
		next := over - math.Log(sum/m.limit)*sum/g
		if !(next >= low && next <= high) {
			next = (low + high) / 2
		}
		done := math.Abs(next-over) <= 1e-13*high
		if over = next; done {
			break
		}
	}
	return over
}

// guess starts share where the lowest lamp alone would stand.
func (m *model) guess(volts float64) float64 {
	over := volts
	for _, d := range m.beside {
		if d.b > 0 {
			over = min(over, d.a+d.b*math.Log(max(volts-d.a, 0.01)/max(m.ohms, 1)/milliamp))
		}
	}
	return max(over, volts/1e3)
}

// at returns the current of one lamp with its series resistance at a voltage
// over both, and its slope. A diode without b has failed short.
func (d *diode) at(volts float64) (current, slope float64) {
	if d.b == 0 {
		r := max(d.ohms, leastOhms)
		return volts / r, 1 / r
	}
	if d.ohms == 0 { // capped where e^x would leave float64
		current = d.is * math.Expm1(min(volts/d.b, 690))
		return current, (current + d.is) / d.b
	}
	row := [1]diode{*d}
	return stringCurrent(row[:], d.ohms, volts)
}

// most returns the highest current among lamps side by side.
func (m *model) most(over float64) float64 {
	most := 0.0
	for k := range m.beside {
		i, _ := m.beside[k].at(over)
		most = max(most, i)
	}
	return most
}
