package circuit

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

func has(found []source.Finding, r *source.Rule) bool {
	return slices.ContainsFunc(found, func(f source.Finding) bool { return f.Rule.Name == r.Name })
}

func rulesOf(found []source.Finding) []string {
	var names []string
	for _, f := range found {
		names = append(names, f.Rule.Name)
	}
	return names
}

// Each rule: a circuit that breaks it, and words its message must hold. The
// same circuit put right must not be found.
func TestRules(t *testing.T) {
	lamp := func(colour, shows string) Fitted {
		l := Fitted{Lamp: written(colour + " lamp"), Type: Lamp{Colour: written(colour)}}
		if shows != "" {
			l.Shows = written(shows)
		}
		return l
	}
	volts := func(v float64) Supply {
		return Supply{Volts: written(quantity.Volts(v)), Kind: written("bench supply"), Limit: written(quantity.Amps(1))}
	}
	one := func(supply Supply, b Branch) Input {
		b.Name = written("mast")
		if b.Lamps == nil {
			b.Lamps = []Fitted{lamp("white", "")}
		}
		return Input{Supply: supply, Circuit: Circuit{Name: written("circuit"), Branches: []Branch{b}}}
	}
	blink := func(hz, duty float64) Branch {
		return Branch{Lamps: []Fitted{lamp("red", "anti-collision")}, Control: written(Control{Kind: Blink, Frequency: quantity.Hertz(hz), Duty: quantity.Share(duty)})}
	}
	pwm := func(hz float64) Input {
		in := one(volts(5), Branch{Control: written(Control{Kind: PWM, Frequency: quantity.Hertz(hz), Duty: 0.3})})
		in.Camera = written(quantity.Hours(1.0 / 50 / 3600))
		return in
	}
	fed := func(length quantity.Metres) Input {
		in := one(volts(5), Branch{Current: written(quantity.Amps(0.02))})
		in.Feed = awg(36, length)
		for k := range 5 {
			b := in.Branches[0]
			b.Name = written(fmt.Sprintf("branch %d", k+2))
			in.Branches = append(in.Branches, b)
		}
		return in
	}
	pair := func(a, b quantity.Amps) Input {
		in := one(volts(9), Branch{Current: written(a), Matched: written("saloon")})
		other := in.Branches[0]
		other.Name, other.Current = written("second"), written(b)
		in.Branches = append(in.Branches, other)
		return in
	}
	bank := func(off quantity.Amps) Input {
		s := Supply{Kind: written("power bank"), Capacity: written(quantity.AmpHours(10))}
		if off > 0 {
			s.AutoOff = written(off)
		}
		return one(s, Branch{Lamps: []Fitted{white()}})
	}
	fibres := func(n int) Input {
		l := white()
		l.Type.Size = written("3 mm")
		in := one(volts(5), Branch{Lamps: []Fitted{l}})
		in.Fibres = []FibreBundle{{From: written("D1"), Count: written(n), Size: written(quantity.Metres(0.0005)), Length: written(quantity.Metres(0.18))}}
		return in
	}
	fuse := func(a quantity.Amps) Input {
		in := one(volts(5), Branch{Current: written(quantity.Amps(0.02))})
		in.Fuse.Rated = written(a)
		return in
	}
	loose := Supply{Volts: written(quantity.Volts(12)), Kind: written("mains adapter"), Regulated: written(false), Limit: written(quantity.Amps(1))}
	measured := loose
	measured.Measured = written(quantity.Volts(17.5))
	two := []Fitted{lamp("white", ""), lamp("white", "")}
	for _, c := range []struct {
		rule         *source.Rule
		broken, fine Input
		words        string
	}{
		{ruleCannotLight, one(volts(5), Branch{Lamps: two, Current: written(quantity.Amps(0.01))}), one(volts(9), Branch{Lamps: two, Current: written(quantity.Amps(0.01))}),
			"D1 and D2 in series need 6.07 V at 10 mA; only 5 V is there|give each its own resistor, or take a supply of 9 V or more"},
		{ruleHeadroom, one(volts(12), Branch{Lamps: append(two, two[0], two[0]), Current: written(quantity.Amps(0.005))}), one(volts(12), Branch{Lamps: append(two, two[0]), Current: written(quantity.Amps(0.005))}), "the current may lie anywhere from|fewer lamps"},
		{ruleDropout, one(volts(5), Branch{Driver: driver(0.01, 1.9)}), one(volts(5), Branch{Driver: driver(0.01, 0.5)}), "driver U1"},
		{ruleParallel, one(volts(5), Branch{Lamps: []Fitted{lamp("red", ""), lamp("white", "")}, Parallel: written(true)}), one(volts(9), Branch{Lamps: []Fitted{lamp("red", ""), lamp("white", "")}}), "D1 takes|leaves D2|own resistor"},
		{ruleNoLimiter, one(volts(3), Branch{Resistor: written(Limiter{Kind: None})}), one(volts(5), Branch{}), "no resistor"},
		{ruleOverLimit, one(volts(5), Branch{Resistor: written(Limiter{Kind: Fixed, Ohms: 10})}), one(volts(5), Branch{Resistor: written(Limiter{Kind: Fixed, Ohms: 220})}), "above its absolute 25 mA"},
		{ruleOverRated, one(volts(5), Branch{Lamps: []Fitted{lamp("red", "")}, Resistor: written(Limiter{Kind: Fixed, Ohms: 130, Tolerance: 0.01})}), one(volts(5), Branch{Resistor: written(Limiter{Kind: Fixed, Ohms: 220})}), "above its rated 20 mA"},
		{ruleFaultLimit, one(volts(9), Branch{Lamps: append(two, lamp("amber", "")), Resistor: written(Limiter{Kind: Fixed, Ohms: 82})}), one(volts(12), Branch{Lamps: two}), "fails short"},
		{ruleSupplyLimit, one(Supply{Kind: written("usb"), Limit: written(quantity.Amps(0.004))}, Branch{}), one(Supply{Kind: written("usb")}, Branch{}), "from a supply that gives 4 mA"},
		{ruleSupplyMargin, one(Supply{Kind: written("usb"), Limit: written(quantity.Amps(0.0055))}, Branch{}), one(Supply{Kind: written("usb")}, Branch{}), "of the supply's 5.5 mA"},
		{ruleFuse, fuse(0.02), fuse(0.1), "F1"},
		{ruleResistorHot, one(volts(24), Branch{Current: written(quantity.Amps(0.02)), Resistor: written(Limiter{Kind: Fixed, Ohms: 1100, Rated: 0.25})}), one(volts(24), Branch{Current: written(quantity.Amps(0.02)), Resistor: written(Limiter{Kind: Fixed, Ohms: 1100, Rated: 1})}), "1/4 W|take one of 1 W"},
		{ruleWireDrop, fed(2), fed(0.2), "the feed to first junction|AWG"},
		{ruleMatched, pair(0.005, 0.003), pair(0.005, 0.005), `matched "saloon": currents|times apart`},
		{ruleNavColour, one(volts(5), Branch{Lamps: []Fitted{lamp("green", "port")}}), one(volts(5), Branch{Lamps: []Fitted{lamp("red", "port")}}), "port light, which is red"},
		{ruleNavColour, one(volts(5), Branch{Lamps: []Fitted{lamp("red", "starboard")}}), one(volts(5), Branch{Lamps: []Fitted{lamp("green", "starboard")}}), "starboard light, which is green"},
		{ruleNavColour, one(volts(5), Branch{Lamps: []Fitted{lamp("red", "disco")}}), one(volts(5), Branch{Lamps: []Fitted{lamp("white", "masthead")}}), "no light of the rules"},
		{ruleFlashRate, one(volts(5), blink(2, 0.2)), one(volts(5), blink(1, 0.2)), "flashes 120 times a minute"},
		{ruleFlashRate, one(volts(5), blink(0.5, 0.2)), one(volts(5), blink(40.0/60, 0.2)), "flashes 30 times a minute"},
		{ruleFlashRate, one(volts(5), Branch{Lamps: []Fitted{lamp("red", "anti-collision")}}), one(volts(5), blink(100.0/60, 0.2)), "but it is steady"},
		{ruleSteadyLight, one(volts(5), Branch{Lamps: []Fitted{lamp("red", "port")}, Control: written(Control{Kind: Blink, Frequency: 1})}), one(volts(5), Branch{Lamps: []Fitted{lamp("red", "port")}}), "which is steady"},
		{ruleBankOff, bank(0), bank(0.002), "switch off below 50 to 100 mA"},
		{ruleBanding, pwm(490), pwm(2000), "9.8 pulses in an exposure of 1/50 s, a ripple of about 10 %"},
		{ruleFibre, fibres(60), fibres(20), "60 strands of 0.5 mm; 27 fit"},
		{ruleReverse, one(volts(12), Branch{}), one(volts(5), Branch{}), "wrong way round D1 may see 12 V; it stands 5 V"},
		{ruleUnmeasured, one(loose, Branch{}), one(measured, Branch{}), "18 V is reckoned with, 20 V at worst"},
		{ruleInfrared, one(volts(5), Branch{Lamps: []Fitted{func() Fitted { l := flat(1.3, 0.02); l.Type.Colour = written("infrared"); return l }()}}), one(volts(5), Branch{}), "will not be seen"},
		{ruleCircuitEmpty, Input{Supply: volts(5)}, one(volts(5), Branch{}), "no branches"},
		{ruleRunIncomplete, one(volts(5), Branch{Lead: Run{Size: written(quantity.WireSize{Copper: quantity.AWG(34)})}}), one(volts(5), Branch{Lead: awg(34, 0.1)}), "no length"},
		{ruleConnector, one(volts(5), Branch{Lead: plugged(0.2, 0.02)}), one(volts(5), Branch{Lead: plugged(0.05, 0.02)}), "sits 200 mm along a wire of 100 mm|from the supply's side"},
		{ruleConnector, one(volts(5), Branch{Lead: plugged(0.05, 2000)}), one(volts(5), Branch{Lead: plugged(0.05, 0)}), "a contact of 2 kΩ cannot be"},
		{ruleSupplyVolts, one(Supply{Kind: written("mains adapter")}, Branch{}), one(volts(5), Branch{}), "no voltage"},
		{ruleSupplyValue, one(Supply{Kind: written("windmill"), Volts: written(quantity.Volts(5))}, Branch{}), one(volts(5), Branch{}), "no kind of supply"},
		{ruleBranchEmpty, Input{Supply: volts(5), Circuit: Circuit{Branches: []Branch{{Name: written("x")}}}}, one(volts(5), Branch{}), "0 lamps"},
		{ruleLampUnknown, one(volts(5), Branch{Lamps: []Fitted{lamp("infrared", "")}}), one(volts(5), Branch{}), "infrared light cannot be seen"},
		{ruleLampCurve, one(volts(5), Branch{Lamps: []Fitted{{Type: Lamp{Forward: []source.Value[quantity.Point]{written(points(3.2, 0.002)[0]), written(points(3, 0.02)[0])}}}}}), one(volts(5), Branch{}), "falls while"},
		{ruleBranchValue, one(volts(5), Branch{Current: written(quantity.Amps(50))}), one(volts(5), Branch{}), "wants 50 A"},
		{ruleJunctionName, one(volts(5), Branch{Junction: written("nowhere")}), one(volts(5), Branch{Junction: written("first junction")}), `no junction "nowhere"`},
		{ruleJunctionLoop, func() Input {
			in := one(volts(5), Branch{})
			in.Junctions = []Junction{{Name: written("a"), From: written("b")}, {Name: written("b"), From: written("a")}}
			return in
		}(), one(volts(5), Branch{}), "fed from itself"},
	} {
		_, found := Solve(c.broken)
		at := slices.IndexFunc(found, func(f source.Finding) bool { return f.Rule.Name == c.rule.Name })
		if at < 0 {
			t.Errorf("%s is not found; found %v", c.rule.Name, rulesOf(found))
			continue
		}
		text := found[at].Says.String() + " do: " + found[at].Do.String()
		for _, words := range strings.Split(c.words, "|") {
			if !strings.Contains(text, words) {
				t.Errorf("%s says %q, without %q", c.rule.Name, text, words)
			}
		}
		if _, found := Solve(c.fine); has(found, c.rule) {
			t.Errorf("%s is found where all is well: %v", c.rule.Name, found)
		}
	}
}

// The design's own harness, wired as a careful builder would, draws no finding.
func TestNoNeedlessWarnings(t *testing.T) {
	in := harness()
	in.Supply.Limit = written(quantity.Amps(0.5))
	if _, found := Solve(in); len(found) > 0 {
		t.Errorf("%v", found)
	}
}

// Every rule is listed once, with a reason and a source, and its name is in
// the form that the guide prints.
func TestRulesAreListed(t *testing.T) {
	seen := map[string]bool{}
	for _, r := range Rules {
		if r.Name == "" || r.Reason == "" || r.Source == "" || seen[r.Name] || strings.ToLower(r.Name) != r.Name || strings.Contains(r.Name, " ") {
			t.Errorf("%+v", r)
		}
		seen[r.Name] = true
	}
}

// 2.4 W of lamps and resistor are too much for a 50 ml shell and warm a
// larger one by little; 11 W took a 0.5 m shell, of some 4 l, to 57 °C, 35 K
// above the room (trade report).
func TestHeatAreas(t *testing.T) {
	lamp := Fitted{Type: Lamp{Colour: written("red"), Rated: written(quantity.Amps(0.5)), Limit: written(quantity.Amps(1))}, Area: "hull"}
	strip := Branch{Name: written("strip"), Lamps: []Fitted{lamp}, Current: written(quantity.Amps(0.5))}
	s, _ := Solve(Input{Supply: Supply{Volts: written(quantity.Volts(5)), Kind: written("bench supply")}, Circuit: Circuit{Branches: []Branch{strip}}})
	at := func(l quantity.Litres) ([]AreaHeat, []source.Finding) {
		return HeatAreas([]Area{{Name: written("hull"), Volume: written(l)}}, []*Solution{&s})
	}
	heat, found := at(0.05)
	if len(found) != 1 || !strings.Contains(found[0].Says.String(), "°C inside") || heat[0].Heat < 2.3 || heat[0].Heat > 2.5 {
		t.Errorf("50 ml: %+v %v", heat, found)
	}
	if heat, found = at(5); len(found) != 0 || heat[0].Rise <= 0 {
		t.Errorf("5 l: %+v %v", heat, found)
	}
	if _, found = at(0); len(found) != 0 {
		t.Errorf("2.4 W in a shell of unknown size: %v", found)
	}
	near(t, "11 W in 4 l", Rise(11, 4), 35, 3)
}

// plugged is a tenth of a metre of wire with a connector so far along it.
func plugged(after quantity.Metres, contact quantity.Ohms) Run {
	r := awg(34, 0.1)
	r.Connector = Connector{Kind: written("2-pin plug"), After: written(after), Resistance: written(contact)}
	return r
}
