package nodal

import "math"

// Port is a branch as a one-port: the current it takes at a voltage. It
// never takes a negative one, and never less at a higher voltage.
type Port struct {
	Row    []Diode // lamps in a string, equal ones summed, those that failed short left out
	Beside []Diode // or lamps side by side, each with its own resistance
	Ohms   float64 // resistor, leads and the string's series resistance
	Limit  float64 // A: of a constant-current driver; +Inf without one
	Broken bool    // an open circuit
}

// Diode is the junction of a lamp: v = B·ln(1 + i/Is).
type Diode struct {
	A, B float64 // V; A is the voltage at 1 mA
	Is   float64 // A
	Ohms float64 // only for lamps side by side
}

// leastSaturation keeps saturation currents above what a float64 can hold.
const leastSaturation = 1e-300

// NewDiode returns the junction of a curve: a volts at 1 mA, b volts for each
// factor e of current.
func NewDiode(a, b float64) Diode {
	return Diode{A: a, B: b, Is: max(milliamp*math.Exp(-a/b), leastSaturation)}
}

// Volts returns the voltage over the junction at a current.
func (d Diode) Volts(i float64) float64 {
	if i > 1e6*d.Is {
		return d.A + d.B*math.Log((i+d.Is)/milliamp)
	}
	return d.B * math.Log1p(i/d.Is)
}

// Join adds a junction to the string. Equal ones count as one of their sum.
func (m *Port) Join(d Diode) {
	for k := range m.Row {
		if m.Row[k].Is == d.Is {
			m.Row[k].A += d.A
			m.Row[k].B += d.B
			return
		}
	}
	m.Row = append(m.Row, d)
}

// At returns the current at a voltage over the whole branch and its slope.
func (m *Port) At(volts float64) (current, slope float64) {
	switch {
	case m.Broken || !(volts > 0):
		return 0, 0
	case len(m.Beside) > 0:
		current, slope = m.divided(volts)
	default:
		current, slope = stringCurrent(m.Row, max(m.Ohms, LeastOhms), volts)
	}
	if current > m.Limit {
		return m.Limit, 0
	}
	return current, slope
}

// stringCurrent returns the current of junctions in a row with a resistance r
// at a voltage over all, and its slope. It starts from the closed form, which
// leaves the saturation currents out and so lies above by no more than them;
// where they matter Newton steps down from that value follow.
func stringCurrent(row []Diode, r, volts float64) (current, slope float64) {
	switch {
	case !(volts > 0):
		return 0, 0
	case len(row) == 0:
		return volts / r, 1 / r
	}
	a, b, is := 0.0, 0.0, 0.0
	for k := range row {
		a, b, is = a+row[k].A, b+row[k].B, max(is, row[k].Is)
	}
	current = diodeCurrent(volts-a, b, r)
	if is > 1e-14*current {
		current = refine(row, r, volts, current)
	}
	g := r
	for k := range row {
		g += row[k].B / (current + row[k].Is)
	}
	return current, 1 / g
}

// refine solves the string with its saturation currents, starting from a
// current that is too high. Over the logarithm of the current the voltage is
// convex and rising, so Newton steps from above come down to the root without
// passing it, however far below it lies.
func refine(row []Diode, r, volts, i float64) float64 {
	for range 200 {
		f, slope := r*i-volts, r*i
		for k := range row {
			f += row[k].Volts(i)
			slope += row[k].B * i / (i + row[k].Is)
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
func (m *Port) divided(volts float64) (current, slope float64) {
	r := max(m.Ohms, LeastOhms)
	over := m.share(volts, r)
	g := 0.0
	for k := range m.Beside {
		i, s := m.Beside[k].At(over)
		current, g = current+i, g+s
	}
	return current, g / (1 + r*g)
}

// share returns the voltage over lamps side by side. Their summed current
// rises with it and what the resistance lets through falls, so the root lies
// between 0 and volts. Newton steps that leave the bracket are replaced by
// halving it, and so are those not half as long as the step before: far above
// the root they creep down an exponential by b each.
func (m *Port) share(volts, r float64) float64 {
	low, high := 0.0, volts
	over, last := m.guess(volts), volts
	for range 200 {
		f, g := (over-volts)/r, 1/r
		for k := range m.Beside {
			i, s := m.Beside[k].At(over)
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

// Over returns the voltage over lamps side by side when a voltage lies over
// the whole branch: what the resistance leaves or, where a driver holds the
// current, what its current needs.
func (m *Port) Over(volts float64) float64 {
	over := m.share(volts, max(m.Ohms, LeastOhms))
	sum := 0.0
	for k := range m.Beside {
		i, _ := m.Beside[k].At(over)
		sum += i
	}
	if sum <= m.Limit {
		return over
	}
	return m.held(over)
}

// held returns the voltage at which lamps side by side take what a driver
// gives, below a voltage at which they would take more. Newton steps on the
// logarithm of their current, which is nearly a line over the voltage; steps
// that leave the bracket halve it.
func (m *Port) held(high float64) float64 {
	low, over := 0.0, high
	for range 200 {
		sum, g := 0.0, 0.0
		for k := range m.Beside {
			i, s := m.Beside[k].At(over)
			sum, g = sum+i, g+s
		}
		if sum > m.Limit {
			high = over
		} else {
			low = over
		}
		next := over - math.Log(sum/m.Limit)*sum/g
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
func (m *Port) guess(volts float64) float64 {
	over := volts
	for _, d := range m.Beside {
		if d.B > 0 {
			over = min(over, d.A+d.B*math.Log(max(volts-d.A, 0.01)/max(m.Ohms, 1)/milliamp))
		}
	}
	return max(over, volts/1e3)
}

// At returns the current of one lamp with its series resistance at a voltage
// over both, and its slope. A diode without b has failed short.
func (d *Diode) At(volts float64) (current, slope float64) {
	if d.B == 0 {
		r := max(d.Ohms, LeastOhms)
		return volts / r, 1 / r
	}
	if d.Ohms == 0 { // capped where e^x would leave float64
		current = d.Is * math.Expm1(min(volts/d.B, 690))
		return current, (current + d.Is) / d.B
	}
	row := [1]Diode{*d}
	return stringCurrent(row[:], d.Ohms, volts)
}

// Most returns the highest current among lamps side by side.
func (m *Port) Most(over float64) float64 {
	most := 0.0
	for k := range m.Beside {
		i, _ := m.Beside[k].At(over)
		most = max(most, i)
	}
	return most
}
