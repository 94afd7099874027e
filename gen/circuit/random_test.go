package circuit

import (
	"fmt"
	"math/rand/v2"

	"spruelight/gen/quantity"
)

// randomCircuit declares a circuit that uses every feature: trees up to four
// deep, 1 to 40 branches, strings and lamps side by side, fixed and auto
// resistors, drivers, every kind of supply.
func randomCircuit(r *rand.Rand) Input {
	in := Input{Circuit: Circuit{Name: written("random")}, Supply: randomSupply(r), Scale: 48}
	if r.IntN(2) == 0 {
		in.Switch = written("slide switch")
	}
	if r.IntN(3) == 0 {
		in.Fuse.Rated = written(quantity.Amps(0.1 + r.Float64()))
	}
	in.Feed = randomRun(r, 22, 32, 0.6)
	depth := []int{0}
	for k := range r.IntN(8) {
		from := r.IntN(len(depth))
		if depth[from] >= 3 {
			from = 0
		}
		depth = append(depth, depth[from]+1)
		j := Junction{Name: written(fmt.Sprintf("junction %d", k+2)), Run: randomRun(r, 26, 36, 0.8)}
		if from > 0 {
			j.From = written(fmt.Sprintf("junction %d", from+1))
		}
		in.Junctions = append(in.Junctions, j)
	}
	for k := range 1 + r.IntN(40) {
		b := randomBranch(r, float64(in.Supply.Volts.V))
		b.Name = written(fmt.Sprintf("branch %d", k+1))
		if at := r.IntN(len(depth)); at > 0 {
			b.Junction = written(fmt.Sprintf("junction %d", at+1))
		}
		in.Branches = append(in.Branches, b)
	}
	in.Series = []quantity.Series{quantity.E12, quantity.E24, quantity.E96}[r.IntN(3)]
	return in
}

func randomRun(r *rand.Rand, thick, thin int, longest float64) Run {
	if r.IntN(6) == 0 {
		return Run{}
	}
	run := awg(thick+r.IntN(thin-thick+1), quantity.Metres(0.02+r.Float64()*longest))
	switch tenths := int(run.Length.V * 1e4); tenths % 6 {
	case 0: // a connector, its contacts reckoned with
		run.Connector.Resistance = written(quantity.Ohms(tenths%500) / 1000)
		fallthrough
	case 1:
		run.Connector.Kind = written("2-pin plug")
	}
	return run
}

func randomSupply(r *rand.Rand) Supply {
	s := Supply{Volts: written([]quantity.Volts{3, 4.5, 5, 6, 9, 12}[r.IntN(6)])}
	switch r.IntN(4) {
	case 0:
		s.Kind = written("usb")
		s.Volts.V = 5
	case 1:
		s.Kind, s.Inside = written("battery"), written(quantity.Ohms(r.Float64()*5))
	case 2:
		s.Kind, s.Regulated = written("mains adapter"), written(false)
		s.Limit = written(quantity.Amps(0.2 + r.Float64()))
	default:
		s.Kind = written("mains adapter")
	}
	return s
}

func randomLamp(r *rand.Rand) Fitted {
	l := Fitted{Lamp: written("lamp"), Type: Lamp{Colour: written(TypicalColours[r.IntN(len(TypicalColours))])}}
	base := 1.7 + 1.3*r.Float64()
	switch r.IntN(4) {
	case 0:
		l.Type.Forward = append(l.Type.Forward, written(quantity.Point{Volts: quantity.Volts(base), Amps: 0.01}))
	case 1:
		for k, i := range []quantity.Amps{0.002, 0.02} {
			l.Type.Forward = append(l.Type.Forward, written(quantity.Point{Volts: quantity.Volts(base + float64(k)*(0.1+0.3*r.Float64())), Amps: i}))
		}
	case 2:
		for k, i := range []quantity.Amps{0.002, 0.01, 0.02} {
			l.Type.Forward = append(l.Type.Forward, written(quantity.Point{Volts: quantity.Volts(base + float64(k)*(0.15+0.1*r.Float64())), Amps: i}))
		}
	}
	return l
}

func randomBranch(r *rand.Rand, volts float64) Branch {
	b := Branch{Lead: randomRun(r, 30, 40, 0.4), Current: written(quantity.Amps(0.001 + 0.02*r.Float64()))}
	for range 1 + r.IntN(max(1, int(volts/2.2))) {
		b.Lamps = append(b.Lamps, randomLamp(r))
	}
	if len(b.Lamps) > 1 && r.IntN(6) == 0 {
		b.Parallel = written(true)
	}
	switch r.IntN(8) {
	case 0:
		b.Resistor = written(Limiter{Kind: Fixed, Ohms: quantity.Ohms(20 + 1000*r.Float64())})
	case 1:
		b.Driver = driver(b.Current.V, quantity.Volts(0.1+r.Float64()))
	case 2:
		b.Parallel = written(true)
		for len(b.Lamps) < 2 {
			b.Lamps = append(b.Lamps, randomLamp(r))
		}
	}
	return b
}
