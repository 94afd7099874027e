package desk

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strings"

	"spruelight/gen/circuit"
	"spruelight/gen/journal"
	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// LedQuestion is a sum of one branch: lamps in series on a supply.
type LedQuestion struct {
	Supply    string   // "5 V", or a supply on the rack
	Lamp      string   // a lamp on the rack, or a colour
	Forward   []string // points of the curve instead, "2.0 V @ 20 mA"
	Count     int
	Current   string
	Resistor  string // auto, none, or a value
	Series    string
	Tolerance string
}

// Led chooses the resistor of a branch, and says what the lamps do with
// it, with the value below and with the one above. shop is the workshop, nil
// where there is none.
func Led(shop fs.FS, q LedQuestion) (Answer, error) {
	var a Answer
	in, err := ledCircuit(shop, q)
	if err != nil {
		return a, err
	}
	s, found := circuit.Solve(in)
	if !s.Solved {
		for _, f := range found {
			if f.Severity() == source.Stop {
				return a, fmt.Errorf("%s; %s", f.Says.String(), f.Do.String())
			}
		}
		return a, errors.New("the sum has no solution")
	}
	b := &s.Branches[0]
	a.add(b.Figures(&s)...)
	a.ledWords(&s, b)
	for _, f := range found {
		a.finding(f)
	}
	for _, t := range s.Assumed {
		if !strings.HasPrefix(t.String(), circuit.NoWire) { // the question is not about wire
			a.say("assumed: %s", t)
		}
	}
	return a, nil
}

// ledWords says what to fit, and adds what its neighbours would do.
func (a *Answer) ledWords(s *circuit.Solution, b *circuit.BranchResult) {
	r := b.Resistor
	lamps := source.Word("one lamp")
	if n := len(b.Lamps); n > 1 {
		lamps = source.Say("%d lamps in series", n)
	}
	if r.Code == "" {
		a.say("%s on %s without a resistor: %s.", lamps, s.Supply.Open.Nominal, quantity.About(b.Current.Nominal))
		return
	}
	fit := source.Say("%s, %s", quantity.Marked(r.Ohms), quantity.Rating(r.Rating))
	if len(r.Bands) > 0 {
		var rings []source.Message
		for _, band := range r.Bands {
			rings = append(rings, source.Word(band.Colour))
		}
		fit = source.Say("%s (%s)", fit, source.Row(rings))
	}
	a.say("%s on %s: fit %s; %s, %s to %s at worst.", lamps, s.Supply.Open.Nominal, fit,
		quantity.About(b.Current.Nominal), quantity.About(b.Current.Low), quantity.About(b.Current.High))
	for _, n := range []struct {
		name string
		of   circuit.Neighbour
	}{{"value below, ", r.Below}, {"value above, ", r.Above}} {
		a.add(quantity.Figure{Symbol: "I", Name: "current with the " + n.name + n.of.Ohms.Code(), Value: float64(n.of.Current),
			Unit: "A", Source: "IEC 60063"})
	}
	if r.Exact > 0 {
		a.add(b.Exactly())
	}
}

// ledCircuit makes a circuit of one branch from the question.
func ledCircuit(shop fs.FS, q LedQuestion) (circuit.Input, error) {
	name := source.Value[string]{V: "branch", Set: true}
	in := circuit.Input{Circuit: circuit.Circuit{Name: name, Supply: source.Value[string]{V: q.Supply, Set: true}}}
	bench := &journal.Workshop{}
	if shop != nil {
		bench, _ = journal.Open(shop)
	}
	series, ok := quantity.SeriesByName(cmp.Or(q.Series, bench.Settings.Series.V, "E24"))
	if !ok {
		return in, fmt.Errorf("--series: %q is none; write E12, E24 or E96", q.Series)
	}
	in.Series = series
	var err error
	if in.Tolerance, err = asked[quantity.Share]("--tolerance", q.Tolerance); err != nil {
		return in, err
	}
	if in.Supply, err = askedSupply(&bench.Rack, q.Supply); err != nil {
		return in, err
	}
	b := circuit.Branch{Name: name}
	if b.Current, err = asked[quantity.Amps]("--current", q.Current); err != nil {
		return in, err
	}
	if b.Resistor, err = asked[circuit.Limiter]("--resistor", q.Resistor); err != nil {
		return in, err
	}
	lamp, err := askedLamp(&bench.Rack, q)
	if err != nil {
		return in, err
	}
	if q.Count < 1 || q.Count > 40 {
		return in, fmt.Errorf("--count: %d lamps cannot be; write 1 to 40", q.Count)
	}
	b.Lamps = slices.Repeat([]circuit.Fitted{lamp}, q.Count)
	in.Branches = []circuit.Branch{b}
	return in, nil
}

// askedSupply reads a voltage, or looks a supply up on the rack.
func askedSupply(rack *journal.Rack, text string) (circuit.Supply, error) {
	if text == "" {
		return circuit.Supply{}, errors.New(`say what feeds it, like --supply "5 V", or a supply on the rack`)
	}
	if supply, ok := rack.Supplies.Get(text); ok {
		return supply, nil
	}
	v, err := asked[quantity.Volts]("--supply", text)
	if err != nil {
		return circuit.Supply{}, fmt.Errorf("%w, or a supply on the rack%s", err, meant(text, rack.Supplies.Names()))
	}
	// A plain voltage is taken as one that holds within 5 %, as the answer says.
	return circuit.Supply{Volts: v, Kind: source.Value[string]{V: string(circuit.Adapter), Set: true}, Regulated: source.Value[bool]{V: true,
		Set: true}}, nil
}

// askedLamp reads points of a curve, or looks a lamp up: on the rack, or the
// typical one of a colour.
func askedLamp(rack *journal.Rack, q LedQuestion) (circuit.Fitted, error) {
	name := source.Value[string]{V: q.Lamp, Set: q.Lamp != ""}
	lamp := circuit.Fitted{Lamp: name, Type: circuit.Lamp{Colour: name}}
	if known, ok := rack.Lamps.Get(q.Lamp); ok && len(q.Forward) == 0 {
		lamp.Type = known
		return lamp, nil
	}
	for _, f := range q.Forward {
		p, err := asked[quantity.Point]("--forward", f)
		if err != nil {
			return lamp, err
		}
		lamp.Type.Forward = append(lamp.Type.Forward, p)
	}
	if len(lamp.Type.Forward) == 0 {
		if q.Lamp == "" {
			return lamp, errors.New(`say which lamp: --lamp white, a lamp on the rack, or --forward "2.0 V @ 20 mA"`)
		}
		if _, err := circuit.Typical(q.Lamp); err != nil {
			return lamp, fmt.Errorf("--lamp: %w; write %s, or a lamp on the rack%s", err, strings.Join(circuit.TypicalColours, ", "), meant(q.Lamp,
				rack.Lamps.Names()))
		}
	}
	return lamp, nil
}
