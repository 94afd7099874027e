package guide

import (
	"math"
	"testing"
	"time"

	"spruelight/gen/circuit"
	"spruelight/gen/circuit/nodal"
	"spruelight/gen/paint"
	"spruelight/gen/quantity"
	"spruelight/gen/scale"
	"spruelight/gen/source"
	"spruelight/gen/tally"
)

// formulaChecks work every formula of the guide out from its words, and by the
// room that uses it.
var formulaChecks = map[string]func(t *testing.T) (byHand, byRoom float64){
	"wire gauge": func(*testing.T) (float64, float64) {
		return 0.127 * math.Pow(92, (36.0-30)/39), quantity.AWG(30).Millimetres()
	},
	"cross-section": func(*testing.T) (float64, float64) {
		return math.Pi / 4 * 0.2 * 0.2, quantity.WireSize{Copper: 0.2e-3}.Area()
	},
	"preferred value": func(*testing.T) (float64, float64) {
		e24, _ := quantity.SeriesByName("E24")
		return 220, float64(e24.Up(201))
	},
	"length at a scale": func(*testing.T) (float64, float64) {
		return 9.4 / 48, float64(quantity.Scale{Ratio: 48}.Model(9.4))
	},
	"inches to the foot": func(*testing.T) (float64, float64) { return 12.0 / 48, quantity.Scale{Ratio: 48}.InchesToTheFoot() },

	"lamp": func(t *testing.T) (float64, float64) {
		c, err := nodal.FitCurve([]quantity.Point{{Volts: 2.75, Amps: 2e-3}, {Volts: 3.0, Amps: 10e-3}, {Volts: 3.2, Amps: 20e-3}})
		if err != nil {
			t.Fatal(err)
		}
		return c.A + c.B*math.Log(7) + c.C*7e-3, float64(c.Volts(7e-3))
	},
	"exact resistor": func(t *testing.T) (float64, float64) {
		b, lamp := oneBranch(t)
		return (5 - 2*float64(lamp.Volts(5e-3))) / 5e-3, float64(b.Resistor.Exact)
	},
	"headroom": func(t *testing.T) (float64, float64) {
		b, _ := oneBranch(t)
		return float64(b.Resistor.Volts.Nominal) / 5, float64(b.Headroom)
	},
	"heat in a resistor": func(t *testing.T) (float64, float64) {
		b, _ := oneBranch(t)
		return float64(b.Resistor.Volts.Nominal) * float64(b.Current.Nominal), float64(b.Resistor.Heat.Nominal)
	},
	"volts lost in wire": func(t *testing.T) (float64, float64) {
		b, _ := oneBranch(t)
		return float64(b.Current.Nominal) * float64(b.Resistor.Ohms), float64(b.Resistor.Volts.Nominal)
	},
	"copper wire": func(*testing.T) (float64, float64) {
		w := quantity.WireSize{Copper: 0.2e-3}
		return 0.7 / (58 * w.Area()), float64(circuit.WireOhms(w, 0.7))
	},
	"warm copper": func(*testing.T) (float64, float64) {
		w := quantity.WireSize{Copper: 0.2e-3}
		return float64(circuit.WireOhms(w, 1)) * (1 + 0.00393*15), float64(circuit.WireOhmsAt(w, 1, 35))
	},
	"mean of a fade": func(*testing.T) (float64, float64) { return math.Pow((50.0+16)/116, 3), circuit.Luminance(50) },
	"bands on film":  func(*testing.T) (float64, float64) { return 1 / (490.0 / 50), float64(circuit.Ripple(490, 1.0/50)) },
	"strands before a lamp": func(*testing.T) (float64, float64) {
		return math.Floor(0.75 * 5 * 5 / 0.25), float64(circuit.Strands(5e-3, 0.5e-3))
	},
	"fibre to buy":      func(*testing.T) (float64, float64) { return 1.15 * 90 * 0.18, float64(circuit.FibreToBuy(90, 0.18)) },
	"lamp at full size": func(*testing.T) (float64, float64) { return 5 * 24, circuit.FullSize(5e-3, 24).Millimetres() },
	"warmth in a closed shell": func(*testing.T) (float64, float64) {
		return 0.5 / (2 * 6 * math.Pow(0.4e-3, 2.0/3)), circuit.Rise(0.5, 0.4)
	},
	"lamps that should match": func(t *testing.T) (float64, float64) {
		in := oneCircuit()
		in.Branches = append(in.Branches, in.Branches[0])
		for i, name := range []string{"a", "b"} {
			in.Branches[i].Name, in.Branches[i].Matched = said(name), said("pair")
		}
		s, _ := circuit.Solve(in)
		if len(s.Matched) != 1 {
			t.Fatal("no group")
		}
		return 1.08 * 1.08, s.Matched[0].Threshold
	},
	"power bank": func(t *testing.T) (float64, float64) {
		life, err := circuit.SteadyLife(circuit.Supply{Kind: said("power bank"), Volts: source.Value[quantity.Volts]{V: 5, Set: true}, Capacity: source.Value[quantity.AmpHours]{V: 10, Set: true}}, 0.1)
		if err != nil {
			t.Fatal(err)
		}
		return 3.7 * 10 * 0.85 / (5 * 0.1), float64(life.ToEnd.Nominal)
	},
	"solved branch": func(t *testing.T) (float64, float64) {
		s := solved(t)
		b := s.Branches[0]
		at := float64(s.Junctions[0].Plus.Nominal - s.Junctions[0].Minus.Nominal)
		return at, float64(b.Current.Nominal)*float64(b.Resistor.Ohms+b.Lead.Ohms) + float64(b.Lamps[0].Volts.Nominal+b.Lamps[1].Volts.Nominal)
	},
	"total current": func(t *testing.T) (float64, float64) {
		s := solved(t)
		return float64(s.Branches[0].Current.Nominal), float64(s.Total.Current.Nominal)
	},
	"average current": func(t *testing.T) (float64, float64) {
		s := solved(t)
		return float64(s.Branches[0].Average), float64(s.Total.Average)
	},
	"power from the supply": func(t *testing.T) (float64, float64) {
		s := solved(t)
		return 5 * float64(s.Branches[0].Current.Nominal), float64(s.Total.Power)
	},
	"heat in resistors or wires": func(t *testing.T) (float64, float64) {
		s := solved(t)
		r := s.Branches[0].Resistor
		return float64(r.Volts.Nominal) * float64(s.Branches[0].Current.Nominal), float64(s.Total.Limiters)
	},
	"efficiency": func(t *testing.T) (float64, float64) {
		s := solved(t)
		return float64(s.Total.Lamps) / float64(s.Total.Power), float64(s.Total.Efficiency)
	},
	"share of the supply's limit": func(t *testing.T) (float64, float64) {
		in := oneCircuit()
		in.Supply.Limit = source.Value[quantity.Amps]{V: 0.5, Set: true}
		s, _ := circuit.Solve(in)
		return float64(s.Total.Current.Nominal) / 0.5, float64(s.Supply.Used)
	},
	"drop of a resistor": func(t *testing.T) (float64, float64) {
		b, _ := oneBranch(t)
		return float64(b.Current.Nominal) * float64(b.Resistor.Ohms), float64(b.Resistor.Volts.Nominal)
	},
	"wire with contacts": func(t *testing.T) (float64, float64) {
		run := circuit.RunResult{Run: circuit.Run{Length: source.Value[quantity.Metres]{V: 0.35, Set: true}}, Ohms: 0.5, Current: 0.1}
		run.Run.Size.V = quantity.WireSize{Copper: 0.2e-3}
		return 0.5, run.Figures()[0].Value // what the run has is shown, contacts and all
	},
	"timer": func(*testing.T) (float64, float64) {
		return 1.44 / ((1e3 + 2*68e3) * 10e-6), float64(circuit.Astable{RA: 1e3, RB: 68e3, C: 10e-6}.Times().Frequency)
	},
	"charging a capacitor": func(*testing.T) (float64, float64) {
		return 1 - math.Exp(-0.5), float64(circuit.RC{R: 1e4, C: 1e-4}.Charged(0.5))
	},

	"optical density":   func(*testing.T) (float64, float64) { return math.Log10(1850.0 / 22), paint.Density(1850, 22) },
	"light that passes": func(*testing.T) (float64, float64) { return math.Pow(10, -1.3), float64(paint.Passing(1.3)) },
	"coats still wanted": func(*testing.T) (float64, float64) {
		test := paint.LightTest{Bare: luxOf(1000), Readings: []paint.LightTestReading{{After: said("black"), Lux: luxOf(100)}}}
		return math.Ceil((3 - 1) / 1.0), test.Measure().Wanted.Value
	},
	"cold slows drying": func(*testing.T) (float64, float64) {
		laid := paint.Laid{Temperature: source.Value[quantity.Celsius]{V: 14, Set: true}}
		return math.Pow(2, 0.6), paint.Clock(&laid, &paint.Paint{}, source.Value[quantity.Celsius]{}).Slowed.Value
	},
	"mixing by ratio": func(*testing.T) (float64, float64) {
		return 10e-3 * 1.5 / 2.5, float64(paint.ByRatio(quantity.Mix{1, 1.5}, nil, 10e-3, 0).Portions[1].Volume)
	},
	"drops": func(*testing.T) (float64, float64) {
		return math.Round(2e-3 / 50e-6), paint.ByRatio(quantity.Mix{1, 1}, nil, 4e-3, 0).Portions[0].Drops
	},
	"colour to light": func(*testing.T) (float64, float64) {
		return math.Pow((0x8a/255.0+0.055)/1.055, 2.4), paint.LinearOf(paint.Colour{R: 0x8a}).R
	},
	"colour difference": func(*testing.T) (float64, float64) { // Sharma, Wu and Dalal (2005), pair 1
		return 2.0425, math.Round(paint.Difference(paint.Lab{L: 50, A: 2.6772, B: -79.7751}, paint.Lab{L: 50, B: -82.7485})*1e4) / 1e4
	},
	"lightening for scale": func(t *testing.T) (float64, float64) {
		rule, _ := paint.FindLightening("halved")
		got, ok := rule.Lighten(paint.Colour{R: 0x80, G: 0x80, B: 0x80}, 48)
		if !ok {
			t.Fatal("no colour")
		}
		v := paint.LinearOf(paint.Colour{R: 0x80}).R
		want := v + (1-v)*0.24
		return float64(paint.Linear{R: want}.Colour().R), float64(got.To.R)
	},

	"implied scale": func(*testing.T) (float64, float64) { return 9.4 / 0.204, judged().Believed[0].Implied[0].Ratio },
	"its lowest":    func(*testing.T) (float64, float64) { return 9.35 / 0.2045, judged().Believed[0].Implied[0].Span.Low },
	"its highest":   func(*testing.T) (float64, float64) { return 9.45 / 0.2035, judged().Believed[0].Implied[0].Span.High },
	"length on the model": func(*testing.T) (float64, float64) {
		return 9.4 / 48, scale.ToModel(9.4, quantity.Scale{Ratio: 48}).Value
	},
	"length in truth": func(*testing.T) (float64, float64) {
		return 0.204 * 48, scale.ToReal(0.204, quantity.Scale{Ratio: 48}).Value
	},
	"length at another scale": func(*testing.T) (float64, float64) {
		return 0.1 * 72 / 48, scale.Between(0.1, quantity.Scale{Ratio: 72}, quantity.Scale{Ratio: 48}).Value
	},
	"areas at another scale": func(*testing.T) (float64, float64) {
		return 1.5 * 1.5, scale.AreaFactor(quantity.Scale{Ratio: 72}, quantity.Scale{Ratio: 48}).Value
	},
	"several lengths": func(*testing.T) (float64, float64) {
		u := func(half, mid float64) float64 { return half / mid / math.Sqrt(3) }
		u1, u2 := math.Hypot(u(0.05, 9.4), u(0.0005, 0.204)), math.Hypot(u(0.05, 3.1), u(0.0005, 0.067))
		w1, w2 := 1/(u1*u1), 1/(u2*u2)
		return math.Exp((w1*math.Log(9.4/0.204) + w2*math.Log(3.1/0.067)) / (w1 + w2)), judged().Best.Ratio
	},
	"real height of a figure": func(*testing.T) (float64, float64) {
		c, _ := scale.CheckFigure(scale.Figure{Height: lengthOf(0.0365, 0)}, quantity.Scale{Ratio: 48})
		return 0.0365 * 48, float64(c.Real)
	},
	"copying a drawing": func(*testing.T) (float64, float64) {
		return 72.0 / 48, scale.Enlargement(quantity.Scale{Ratio: 72}, quantity.Scale{Ratio: 48}).Value
	},
	"volumes at another scale": func(*testing.T) (float64, float64) {
		return 1.5 * 1.5 * 1.5, scale.VolumeFactor(quantity.Scale{Ratio: 72}, quantity.Scale{Ratio: 48}).Value
	},
	"standing beside": func(*testing.T) (float64, float64) {
		return 12.0 / 46, float64(scale.StandBeside(12, scale.Stated(quantity.Scale{Ratio: 46})).Wanted)
	},

	"pace": func(*testing.T) (float64, float64) {
		day := func(d int) time.Time { return time.Date(2026, 3, d, 0, 0, 0, 0, time.UTC) }
		hours := source.Value[quantity.Hours]{V: 3, Set: true}
		return 6 / (14.0 / 7), float64(tally.PaceOf([]tally.Sitting{{Date: day(1), Hours: hours}, {Date: day(10), Hours: hours}}, day(14)).PerWeek)
	},
	"cost of a bench hour": func(*testing.T) (float64, float64) { return 92.0 / 5, twoSittings().PerHour[0].Figure.Value },
	"sum of hours":         func(*testing.T) (float64, float64) { return 2 + 3, float64(twoSittings().Hours) },
	"hours left": func(*testing.T) (float64, float64) { // medians of 10 − 4, 12 − 4 and 20 − 4
		past := func(slug string, h quantity.Hours) tally.Sum {
			return tally.Sum{Slug: slug, Hours: h, ByStage: []tally.Slice{{Name: "assembly", Hours: h, Sittings: 1}}}
		}
		f := tally.Outlook(past("now", 4), nil, []tally.Sum{past("a", 10), past("b", 12), past("c", 20)}, []string{"assembly"}, nil, time.Date(2026, 3, 1, 0, 0, 0, 0, time.UTC))
		return 8, float64(f.Left.Median)
	},
	"chance of a common cause": func(*testing.T) (float64, float64) { // all of 3 affected with, none of 4 sound: 1 of C(7, 3)
		return 1.0 / 35, math.Round(tally.Fisher(tally.Fourfold{AffectedWith: 3, SoundWithout: 4})*1e12) / 1e12
	},
	"overall mark": func(*testing.T) (float64, float64) {
		mark := func(name string, score tally.Score) source.Entry[tally.Mark] {
			return source.Entry[tally.Mark]{Name: said(name), Value: tally.Mark{Score: source.Value[tally.Score]{V: score, Set: true}, Why: said("seen")}}
		}
		r, _ := tally.Judge(tally.ReviewInput{Overall: true, Best: 10, Criteria: []tally.Criterion{weighed("fit", 2), weighed("value", 1), weighed("decals", 5)},
			Marks: source.Entries[tally.Mark]{mark("fit", tally.Score{Mark: 8}), mark("value", tally.Score{Mark: 5}), mark("decals", tally.Score{NotAssessed: true})}})
		return (2*8.0 + 1*5) / 3, r.Overall.Mark
	},
	"quote":                func(t *testing.T) (float64, float64) { return 40*18 + 60, quoteOf(t).Total.Amount() },
	"what an hour brought": func(t *testing.T) (float64, float64) { return (780 - 30) / 50.0, quoteOf(t).RealRate.Money.Amount() },
}

func said(s string) source.Value[string] { return source.Value[string]{V: s, Set: true} }

func luxOf(v quantity.Lux) source.Value[quantity.Lux] {
	return source.Value[quantity.Lux]{V: v, Set: true}
}

func lengthOf(v, half quantity.Metres) scale.Length {
	return scale.Length{V: quantity.Measured{Value: v, Low: v - half, High: v + half}, Set: true}
}

func weighed(name string, weight float64) tally.Criterion {
	return tally.Criterion{Name: name, Weight: source.Value[float64]{V: weight, Set: true}}
}

func oneCircuit() circuit.Input {
	point := source.Value[quantity.Point]{V: quantity.Point{Volts: 2, Amps: 10e-3}, Set: true}
	lamp := circuit.Fitted{Lamp: said("white"), Type: circuit.Lamp{Forward: []source.Value[quantity.Point]{point}}}
	return circuit.Input{Supply: circuit.Supply{Kind: said("bench supply"), Volts: source.Value[quantity.Volts]{V: 5, Set: true}},
		Circuit: circuit.Circuit{Name: said("c"), Supply: said("usb"),
			Branches: []circuit.Branch{{Name: said("b"), Lamps: []circuit.Fitted{lamp, lamp}, Current: source.Value[quantity.Amps]{V: 5e-3, Set: true}}}}}
}

// twoSittings are five hours in two stages and 92 EUR.
func twoSittings() tally.Sum {
	hours := func(v quantity.Hours) source.Value[quantity.Hours] {
		return source.Value[quantity.Hours]{V: v, Set: true}
	}
	spent := tally.Spend{Price: source.Value[quantity.Money]{V: quantity.Money{Minor: 9200, Currency: "EUR"}, Set: true}}
	return tally.Totals(tally.Build{Spent: []tally.Spend{spent},
		Sittings: []tally.Sitting{{Hours: hours(2), Stage: said("assembly")}, {Hours: hours(3), Stage: said("paint")}}}, nil)
}

// solved is that circuit, solved.
func solved(t *testing.T) circuit.Solution {
	t.Helper()
	s, found := circuit.Solve(oneCircuit())
	if !s.Solved {
		t.Fatal(found)
	}
	return s
}

// oneBranch solves a circuit of one branch on a stiff supply.
func oneBranch(t *testing.T) (circuit.BranchResult, nodal.Curve) {
	t.Helper()
	s, found := circuit.Solve(oneCircuit())
	if !s.Solved {
		t.Fatal(found)
	}
	curve, err := nodal.FitCurve([]quantity.Point{{Volts: 2, Amps: 10e-3}})
	if err != nil {
		t.Fatal(err)
	}
	return s.Branches[0], curve
}

// judged is a model of two lengths whose limits are known.
func judged() scale.Judgement {
	entry := func(name string, v, half quantity.Metres) source.Entry[scale.Length] {
		return source.Entry[scale.Length]{Name: said(name), Value: lengthOf(v, half)}
	}
	return scale.Judge(scale.Model{Name: "skiff", Measured: source.Entries[scale.Length]{entry("length", 0.204, 0.0005), entry("beam", 0.067, 0.0005)},
		Accounts: []scale.Account{{Source: said("sheet"), Real: source.Entries[scale.Length]{entry("length", 9.4, 0.05), entry("beam", 3.1, 0.05)}}}})
}

func quoteOf(t *testing.T) *tally.Quote {
	t.Helper()
	eur := func(v int64) source.Value[quantity.Money] {
		return source.Value[quantity.Money]{V: quantity.Money{Minor: v * 100, Currency: "EUR"}, Set: true}
	}
	c := &tally.Commission{Rate: eur(18), Hours: source.Value[quantity.Hours]{V: 40, Set: true}, Materials: eur(60), Quoted: eur(780)}
	q, found := tally.QuoteFor(c, tally.Sum{Hours: 50, Outlay: tally.Purse{}.Add(eur(30).V)})
	if q == nil || q.RealRate == nil {
		t.Fatal(found)
	}
	return q
}

// Every formula of the guide is told with its source, and gives what the
// program gives.
func TestFormulas(t *testing.T) {
	told := map[string]bool{}
	for _, set := range FormulaSets() {
		for _, f := range set.Formulas {
			if told[f.Name] || f.Sum == "" || len(f.Where) == 0 || f.Source == "" {
				t.Errorf("%s stands twice, or lacks its sum, its letters or its source", f.Name)
			}
			told[f.Name] = true
			check := formulaChecks[f.Name]
			if check == nil {
				t.Errorf("nothing works %s out", f.Name)
				continue
			}
			if byHand, byRoom := check(t); math.Abs(byHand-byRoom) > 1e-6*math.Abs(byHand) {
				t.Errorf("%s: %s gives %v by hand, %v by the program", f.Name, f.Sum, byHand, byRoom)
			}
		}
	}
	for name := range formulaChecks {
		if !told[name] {
			t.Errorf("%s is worked out and not told", name)
		}
	}
}
