package wiring

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"spruelight/gen/circuit"
	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// The circuits below are the ones the tests draw. Their data is invented.

func written[T any](v T) source.Value[T] { return source.Value[T]{V: v, Set: true} }

// awg is a pair of wires.
func awg(gauge int, millimetres float64, colour string) circuit.Run {
	r := circuit.Run{
		Size:   written(quantity.WireSize{Copper: quantity.AWG(gauge), Text: fmt.Sprintf("%d AWG", gauge)}),
		Length: written(quantity.Metres(millimetres / 1000)),
	}
	if colour != "" {
		r.Colour = written(colour)
	}
	return r
}

func lampOf(model, colour, place string) circuit.Fitted {
	return circuit.Fitted{Lamp: written(model), Place: written(place), Type: circuit.Lamp{Colour: written(colour), Size: written("3 mm")}}
}

// driver is a constant-current driver.
func driver(current quantity.Amps, dropout quantity.Volts) circuit.Driver {
	return circuit.Driver{Current: written(current), Dropout: written(dropout)}
}

// cells is a supply of cells in a row.
func cells(row int, volts quantity.Volts) circuit.Supply {
	pack := circuit.Cells{Type: "LR6", Series: row, Parallel: 1}
	return circuit.Supply{Kind: written("battery"), Cells: written(pack), Volts: written(volts)}
}

func branchOf(name, junction string, lead circuit.Run, lamps ...circuit.Fitted) circuit.Branch {
	b := circuit.Branch{Name: written(name), Lead: lead, Lamps: lamps, Current: written(quantity.Amps(0.005))}
	if junction != "" {
		b.Junction = written(junction)
	}
	return b
}

// skiff is the circuit of a survey skiff: a feed through the keel, two
// junctions beyond the first, strings, lamps side by side, a driver, fibres.
func skiff() circuit.Input {
	white := func(place string) circuit.Fitted { return lampOf("warm-white-3mm", "warm white", place) }
	thin := func(mm float64) circuit.Run { return awg(34, mm, "red/black") }
	mast := branchOf("mast light", "mast foot", thin(140), lampOf("white-0402", "white", "masthead"))
	mast.Control = written(circuit.Control{Kind: circuit.Blink, Frequency: 1.2, Duty: 0.2})
	deck := branchOf("deck", "", thin(160), lampOf("amber-0603", "amber", "under the port rail"), lampOf("amber-0603", "amber", "under the starboard rail"))
	desk := branchOf("chart table", "wheelhouse", thin(90), lampOf("amber-0603", "amber", "chart table"))
	panel := branchOf("panel", "wheelhouse", thin(100), lampOf("green-0402", "green", "depth finder"), lampOf("green-0402", "green", "radar"), lampOf("red-0402", "red", "alarm"))
	panel.Parallel = written(true)
	tow := branchOf("towing light", "mast foot", circuit.Run{}, lampOf("amber-0603", "amber", "stern"))
	tow.Driver = driver(0.008, 0.5)
	supply := circuit.Supply{Kind: written("usb"), Volts: written(quantity.Volts(5)), Tolerance: written(quantity.Share(0.05)), Limit: written(quantity.Amps(0.5))}
	bundle := circuit.FibreBundle{From: written("D5"), Count: written(12), Size: written(quantity.Metres(0.0005)), Length: written(quantity.Metres(0.12)), Place: written("instrument panel")}
	return circuit.Input{Supply: supply, Circuit: circuit.Circuit{
		Name:   written("main harness"),
		Supply: written("usb-5v"),
		Fibres: []circuit.FibreBundle{bundle},
		Fuse:   circuit.Fuse{Rated: written(quantity.Amps(0.25))},
		Switch: written("slide switch in the base"),
		Entry:  written("mounting rod in the keel"),
		Feed:   awg(28, 350, "red/black"),
		Junctions: []circuit.Junction{
			{Name: written("wheelhouse"), Run: awg(30, 120, "red/black")},
			{Name: written("mast foot"), From: written("wheelhouse"), Run: awg(32, 60, "enamel")},
		},
		Junction: written("keel"),
		Branches: []circuit.Branch{
			branchOf("saloon fore", "", thin(180), white("saloon ceiling fore")),
			branchOf("saloon aft", "", thin(210), white("saloon ceiling aft")),
			deck, desk, panel, mast, tow,
		},
	}}
}

// lantern is a circuit on cells without fuse, junctions or declared leads.
func lantern() circuit.Input {
	return circuit.Input{Supply: cells(2, 3), Circuit: circuit.Circuit{
		Name:   written("lantern"),
		Supply: written("two cells"),
		Switch: written("reed switch"),
		Branches: []circuit.Branch{
			branchOf("flame", "", circuit.Run{}, lampOf("amber-3mm", "amber", "lantern")),
			{Name: written("ember"), Lamps: []circuit.Fitted{lampOf("red-0603", "red", "grate")}, Resistor: written(circuit.Limiter{Kind: circuit.None})},
		},
	}}
}

// rover is a circuit that comes apart in three places: the shell lifts off, the
// turret turns, and one lamp can be changed.
func rover() circuit.Input {
	plugged := func(r circuit.Run, kind, place string, after float64) circuit.Run {
		r.Connector = circuit.Connector{Kind: written(kind), Place: written(place)}
		if after > 0 {
			r.Connector.After = written(quantity.Metres(after / 1000))
		}
		return r
	}
	feed := plugged(awg(28, 240, "red/black"), "2-pin plug, 1.25 mm pitch", "under the shell", 90)
	feed.Connector.Resistance = written(quantity.Ohms(0.02))
	return circuit.Input{Supply: cells(3, 4.5), Circuit: circuit.Circuit{
		Name:      written("rover"),
		Supply:    written("three cells"),
		Switch:    written("slide switch"),
		Feed:      feed,
		Junctions: []circuit.Junction{{Name: written("turret"), Run: plugged(awg(30, 80, "enamel"), "pin and socket, 1 mm", "turret ring", 0)}},
		Branches: []circuit.Branch{
			branchOf("headlights", "", awg(34, 110, "red/black"), lampOf("white-0603", "white", "port headlight")),
			branchOf("beacon", "turret", plugged(awg(34, 60, ""), "pin and socket, 1 mm", "", 60), lampOf("amber-0603", "amber", "turret top")),
		},
	}}
}

func solved(t testing.TB, in circuit.Input) circuit.Solution {
	t.Helper()
	s, found := circuit.Solve(in)
	if !s.Solved {
		t.Fatalf("not solved: %v", found)
	}
	return s
}

// drawnCircuit is a circuit that the tests draw, by the name of its golden file.
type drawnCircuit struct {
	name string
	in   circuit.Input
}

func circuits() []drawnCircuit {
	return []drawnCircuit{{"skiff", skiff()}, {"lantern", lantern()}, {"rover", rover()}}
}

// randomCircuit declares a circuit of up to so many branches that uses every
// feature: trees of junctions, some of them bare, strings and lamps side by
// side, every way to limit a current, wires declared or not, long names.
func randomCircuit(r *rand.Rand, branches int) circuit.Input {
	in := circuit.Input{Circuit: circuit.Circuit{Name: written("random"), Supply: written("supply")}}
	in.Supply.Volts = written(quantity.Volts(12))
	in.Supply.Kind = written(circuit.SupplyKinds[r.IntN(len(circuit.SupplyKinds))])
	if r.IntN(2) == 0 {
		in.Switch = written(randomName(r, "switch"))
	}
	if r.IntN(3) == 0 {
		in.Fuse.Rated = written(quantity.Amps(0.5))
	}
	if r.IntN(2) == 0 {
		in.Entry = written(randomName(r, "entry"))
	}
	in.Feed = randomRun(r)
	names := []string{""}
	for k := range r.IntN(9) {
		name := randomName(r, fmt.Sprintf("junction %d", k+2))
		j := circuit.Junction{Name: written(name), Run: randomRun(r)}
		if from := names[r.IntN(len(names))]; from != "" {
			j.From = written(from)
		}
		names = append(names, name)
		in.Junctions = append(in.Junctions, j)
	}
	for k := range 1 + r.IntN(branches) {
		b := randomBranch(r, k, names[r.IntN(len(names))])
		for k := range b.Lamps {
			for range r.IntN(2) * r.IntN(3) {
				from := circuit.LampRef(in.Lamps() + k + 1)
				in.Fibres = append(in.Fibres, circuit.FibreBundle{From: written(from), Count: written(1 + r.IntN(40)), Size: written(quantity.Metres(0.0005)), Place: written(randomName(r, "end"))})
			}
		}
		in.Branches = append(in.Branches, b)
	}
	return in
}

func randomRun(r *rand.Rand) circuit.Run {
	if r.IntN(5) == 0 {
		return circuit.Run{}
	}
	run := awg(26+r.IntN(12), 20+600*r.Float64(), []string{"", "red", "red/black", "white and blue"}[r.IntN(4)])
	if r.IntN(4) == 0 {
		run.Connector.Kind, run.Connector.Place = written(randomName(r, "2-pin plug")), written(randomName(r, "floor"))
		if r.IntN(2) == 0 {
			run.Connector.After = written(run.Length.V * quantity.Metres(r.Float64()))
		}
		if r.IntN(2) == 0 {
			run.Connector.Resistance = written(quantity.Ohms(r.Float64() * 0.1))
		}
	}
	return run
}

func randomName(r *rand.Rand, name string) string {
	for range r.IntN(4) {
		name += []string{" starboard", " under the engine room floor", " fore", " WWWWWWWWWWWWWWWWWWWW", " 船首", " –"}[r.IntN(6)]
	}
	return name
}

func randomBranch(r *rand.Rand, k int, junction string) circuit.Branch {
	b := branchOf(randomName(r, fmt.Sprintf("branch %d", k+1)), junction, randomRun(r))
	for range 1 + r.IntN(4) {
		colour := circuit.TypicalColours[r.IntN(len(circuit.TypicalColours))]
		b.Lamps = append(b.Lamps, lampOf(randomName(r, "lamp"), colour, randomName(r, "place")))
	}
	switch r.IntN(8) {
	case 0:
		b.Driver = driver(0.01, 0.5)
	case 1:
		b.Resistor = written(circuit.Limiter{Kind: circuit.None})
	case 2:
		b.Resistor = written(circuit.Limiter{Kind: circuit.Fixed, Ohms: 470})
	}
	if r.IntN(3) == 0 {
		b.Parallel = written(true)
		for range r.IntN(2) * r.IntN(12) {
			b.Lamps = append(b.Lamps, lampOf("extra", "red", "row"))
		}
	}
	return b
}
