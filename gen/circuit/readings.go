package circuit

import (
	"math"
	"strconv"
	"strings"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// probe is what a reading measured, looked up: how to work it out in any
// state of the circuit, and what was read.
type probe struct {
	reading  Reading
	where    source.Message
	unit     string // "A" or "V"
	value    float64
	expected Band[float64]
	predict  func(st *state) float64
}

// A reading inside the band widened by the meter's own error counts as within:
// 1 % and a display step of a common handheld meter (common practice).
const (
	meterShare = 0.01
	meterAmps  = 0.00005
	meterVolts = 0.01
)

func (pr *probe) step() float64 {
	if pr.unit == "A" {
		return meterAmps
	}
	return meterVolts
}

func (pr *probe) within() bool {
	slack := meterShare*math.Abs(pr.value) + pr.step()
	return pr.value >= pr.expected.Low-slack && pr.value <= pr.expected.High+slack
}

// meter judges readings against a worked-out circuit.
type meter struct {
	*bench
	s *Solution
}

// readings judges every reading against its band, and for each series taken
// together that has one outside names the likeliest cause.
func readings(b *bench, s *Solution) {
	m := &meter{b, s}
	var series []string
	probes := map[string][]probe{}
	for _, r := range b.plan.in.Readings {
		pr, ok := m.probe(r)
		if !ok {
			continue
		}
		if probes[r.Taken] == nil {
			series = append(series, r.Taken)
		}
		probes[r.Taken] = append(probes[r.Taken], pr)
	}
	for _, taken := range series {
		m.judgeSeries(taken, probes[taken])
	}
}

var ruleReading = &source.Rule{Name: "reading-off", Severity: source.Warn, Source: "the circuit's own bands, and a meter's 1 %",
	Reason: "A reading outside its band means that something is not as declared.",
	Keys:   "sitting readings[]: current, volts"}

func (m *meter) judgeSeries(taken string, probes []probe) {
	s := m.s
	var off []probe
	for _, pr := range probes {
		j := pr.judged()
		if !j.Within {
			off = append(off, pr)
		}
		s.Judged = append(s.Judged, j)
	}
	if len(off) == 0 {
		return
	}
	v := diagnose(m.bench, s, probes)
	v.Taken = taken
	s.Verdicts = append(s.Verdicts, v)
	for _, pr := range off {
		f := ruleReading.At(pr.at(), v.Try, "%s reads %s where %s is expected; likeliest cause: %s",
			pr.where, pr.amount(pr.value), pr.band(), v.Cause)
		for _, other := range v.Others {
			f.Says = source.Say("%s; or %s", f.Says, other)
		}
		m.plan.found.Add(f)
	}
}

func (pr *probe) at() (at source.Span) {
	switch r := pr.reading; {
	case r.Current.At.Known() && pr.unit == "A":
		return r.Current.At
	case r.Volts.At.Known() && pr.unit == "V":
		return r.Volts.At
	default:
		return r.At
	}
}

// amount is a value of the probe.
func (pr *probe) amount(v float64) quantity.Amount {
	if pr.unit == "A" {
		return quantity.About(quantity.Amps(v))
	}
	return quantity.About(quantity.Volts(v))
}

func (pr *probe) band() source.Message {
	return source.Say("%s to %s", pr.amount(pr.expected.Low), pr.amount(pr.expected.High))
}

func (pr *probe) judged() JudgedReading {
	scale, unit := 1.0, "V"
	if pr.unit == "A" {
		scale, unit = 1000, "mA"
	}
	e := pr.expected
	j := JudgedReading{Reading: pr.reading, Where: pr.where, Unit: unit, Value: pr.value * scale, Within: pr.within(),
		Expected: Band[float64]{e.Nominal * scale, e.Low * scale, e.High * scale}}
	switch {
	case j.Within:
		j.Says = source.Word("as expected")
	case pr.value < e.Low:
		j.Says = source.Say("too low: %s is expected", pr.band())
	default:
		j.Says = source.Say("too high: %s is expected", pr.band())
	}
	return j
}

// Knows reports whether a place that readings name belongs to the circuit: its
// own name, a branch, a reference, or a test point.
func (s *Solution) Knows(where string) bool {
	var pr probe
	where = strings.TrimSpace(where)
	return !strings.EqualFold(where, "supply") && (ampsProbe(s, where, &pr) || voltsProbe(s, where, &pr))
}

// AcrossRules are those of what lies across the circuits of a build: a reading
// belongs to the one that knows its place, and the heat of an area is of all.
var AcrossRules = []*source.Rule{ruleReading, ruleReadingPlace, ruleHeat}

var ruleReadingPlace = &source.Rule{Name: "reading-place", Severity: source.Warn, Source: arithmetic,
	Reason: "A reading counts only where it is known what was measured.",
	Keys:   "sitting readings[]: at, current, volts"}

// probe looks up what a reading measured.
func (m *meter) probe(r Reading) (probe, bool) {
	found, s := &m.plan.found, m.s
	pr := probe{reading: r, unit: "V", value: float64(r.Volts.V)}
	if r.Current.Set {
		pr.unit, pr.value = "A", float64(r.Current.V)
	}
	ok := r.Current.Set != r.Volts.Set
	if !ok {
		found.Add(ruleReadingPlace.At(r.At, "write one of them for each reading, like {at: TP3, volts: 4.9 V}",
			"a reading at %q gives neither or both of current and volts", r.Where.V))
		return pr, false
	}
	name := strings.TrimSpace(r.Where.V)
	find := voltsProbe
	if pr.unit == "A" {
		find = ampsProbe
	}
	if find(s, name, &pr) {
		return pr, true
	}
	found.Add(ruleReadingPlace.At(r.Where.At, m.placesFor(pr.unit),
		"%q is no place of circuit %q for a reading in %s", name, s.Name, source.Word(map[string]string{"A": "amperes", "V": "volts"}[pr.unit])))
	return pr, false
}

// placesFor says where readings of a unit can be.
func (m *meter) placesFor(unit string) source.Message {
	s := m.s
	if unit == "A" {
		names := make([]string, len(s.Branches))
		for i, b := range s.Branches {
			names[i] = b.Name
		}
		return source.Say("write supply, the circuit's name, a lamp like D1, or a branch: %s", source.Row(names))
	}
	first, last := 1, 1
	if n := len(s.Points); n > 0 {
		first, last = s.Points[0].Number, s.Points[n-1].Number
	}
	return source.Say("write a test point from TP%d to TP%d, a lamp like D1, a resistor like R1, or supply", first, last)
}

func ampsProbe(s *Solution, name string, pr *probe) bool {
	if s.isSupply(name) {
		pr.where, pr.expected = source.Word("the supply's current"), floats(s.Total.Current)
		pr.predict = (*state).total
		return true
	}
	for i := range s.Branches {
		b := &s.Branches[i]
		for k, l := range b.Lamps {
			if strings.EqualFold(name, l.Ref) {
				pr.where, pr.expected = source.Say("the current of %s", l.Ref), floats(l.Current)
				pr.predict = func(st *state) float64 { amps, _ := st.lamp(i, k); return amps }
				return true
			}
		}
		if strings.EqualFold(name, b.Name) || b.Ref != "" && strings.EqualFold(name, b.Ref) {
			pr.where, pr.expected = source.Say("the current of %s", b.Name), floats(b.Current)
			pr.predict = func(st *state) float64 { return st.op.Currents[i] }
			return true
		}
	}
	return false
}

func voltsProbe(s *Solution, name string, pr *probe) bool {
	if s.isSupply(name) {
		pr.where, pr.expected, pr.predict = source.Word("the supply's voltage"), floats(s.Supply.Terminal), (*state).terminal
		return true
	}
	number, err := strconv.Atoi(strings.TrimLeft(strings.ToUpper(name), "TP "))
	for k := range s.Points {
		t := &s.Points[k]
		if err == nil && strings.HasPrefix(strings.ToUpper(name), "TP") && t.Number == number {
			pr.where, pr.expected = source.Say("TP%d (%s)", t.Number, t.Where), floats(t.Volts)
			pr.predict = func(st *state) float64 { return st.at(t) }
			return true
		}
	}
	for i := range s.Branches {
		b := &s.Branches[i]
		for k, l := range b.Lamps {
			if strings.EqualFold(name, l.Ref) {
				pr.where, pr.expected = source.Say("the voltage over %s", l.Ref), floats(l.Volts)
				pr.predict = func(st *state) float64 { _, v := st.lamp(i, k); return v }
				return true
			}
		}
		if b.Ref != "" && strings.EqualFold(name, b.Ref) {
			pr.where, pr.expected = source.Say("the voltage over %s", b.Ref), floats(b.Resistor.Volts)
			pr.predict = func(st *state) float64 { return st.limiter(i) }
			return true
		}
	}
	return false
}

// isSupply reports whether a place is the supply: "supply", or the circuit's
// own name where no branch goes by it.
func (s *Solution) isSupply(name string) bool {
	for _, b := range s.Branches {
		if strings.EqualFold(name, b.Name) {
			return false
		}
	}
	return strings.EqualFold(name, "supply") || s.Name != "" && strings.EqualFold(name, s.Name)
}

func floats[T ~float64](b Band[T]) Band[float64] {
	return Band[float64]{float64(b.Nominal), float64(b.Low), float64(b.High)}
}
