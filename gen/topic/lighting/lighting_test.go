package lighting

import (
	"io/fs"
	"reflect"
	"strings"
	"testing"
	"testing/fstest"

	"spruelight/gen/circuit"
	"spruelight/gen/journal"
	"spruelight/gen/source"
	"spruelight/gen/topic"
)

// The words that the journal allows are words that the circuit room knows.
func TestJournalWordsAreTheCircuitRooms(t *testing.T) {
	for _, c := range []struct {
		of    any
		field string
		known []string
	}{{circuit.Supply{}, "Kind", circuit.SupplyKinds}, {circuit.Fitted{}, "Shows", circuit.ShownLightNames()}} {
		f, _ := reflect.TypeOf(c.of).FieldByName(c.field)
		if got := f.Tag.Get("one"); got != strings.Join(c.known, "|") {
			t.Errorf("%T.%s allows %q, the room knows %q", c.of, c.field, got, c.known)
		}
	}
}

// litShop is a small workshop that uses every word of the circuits.
var litShop = map[string]string{
	"workshop.yaml": "name: Bench\nresistors: E96\nresistor tolerance: 1 %\ncamera: 1/50 s\nslack: 10 mm\n",
	"rack/lamps.yaml": `warm: {colour: warm white, size: 3 mm, forward: [2.68 V @ 2 mA, 2.81 V @ 5 mA, 3.05 V @ 20 mA], spread: 0.15 V, rated: 20 mA, limit: 25 mA, reverse: 5 V, intensity: 1800 mcd @ 20 mA}
red: {colour: red, size: "0805"}
`,
	"rack/supplies.yaml": `box: {kind: battery, cells: 2 x 4 LR6, volts: 6 V, fresh: 6.4 V, inside: 0.8 ohm, capacity: 5200 mAh, ends: 4 V, discharge: [6.4 V @ 0 %, 5 V @ 60 %, 4 V @ 100 %]}
bank: {kind: power bank, volts: 5 V, capacity: 10 Ah, switches off below: 60 mA}
`,
	"rack/wire.yaml": "thin: {copper: 0.2 mm, coating: enamel, colour: copper}\n",
	"builds/skiff/build.md": `---
name: Skiff
state: bench
scale: 1/48
areas: {hull: {material: styrene, encloses: [D1, D2], volume: 0.4 l}}
circuits:
  - name: main
    supply: box
    fuse: {rated: 500 mA, resistance: 0.3 ohm, type: quick}
    switch: slide
    entry: keel
    feed: {wire: 28 AWG, length: 300 mm, colour: red/black}
    junction: block
    junctions: [{name: mast foot, from: block, wire: thin, length: 120 mm}]
    branches:
      - {name: fore, lamps: [warm], current: 4 mA, resistor: auto, lead: {wire: 34 AWG, length: 100 mm}, matched: cabin, control: pwm 490 Hz 30 %}
      - {name: aft, lamps: [{lamp: warm, at: ceiling}], current: 4 mA, resistor: 787R 0.25 W 1 %, matched: cabin}
      - {name: side, junction: mast foot, lamps: [{lamp: red, at: house, shows: port}], driver: {current: 3 mA, dropout: 0.6 V, tolerance: 10 %}, control: fade 4 s}
    fibres: [{from: D2, count: 12, size: 0.5 mm, length: 180 mm, at: windows}]
  - name: deck
    supply: bank
    branches: [{name: lantern, lamps: [red], resistor: 220R, control: blink 1.2 Hz 20 %}, {name: pair, lamps: [red, red], parallel: yes}]
---
Text.
`,
	"builds/skiff/2026-03-28.md": `---
stage: lighting
lit: [D1, D4]
readings: [{at: fore, current: 3.9 mA}, {at: lantern, current: 0 mA}, {at: main, current: 11 mA}, {at: TP5, volts: 2.78 V}, {at: D4, volts: 0 V}]
---
Text.
`,
}

// lit reads the workshop, some of its files changed, and does the sums of its
// one build. All that was found is together.
func lit(t *testing.T, changes map[string]string) (Result, source.Findings) {
	t.Helper()
	content := fstest.MapFS{}
	for name, text := range litShop {
		if other, ok := changes[name]; ok {
			text = other
		}
		content[name] = &fstest.MapFile{Data: []byte(text)}
	}
	results, found := reckoned(content)
	if len(results) != 1 {
		t.Fatalf("%v", found)
	}
	return results["skiff"], found
}

// reckoned does the sums of every build of a workshop, by its folder's name.
func reckoned(content fs.FS) (map[string]Result, source.Findings) {
	shop, found := journal.Open(content)
	all := map[string]Result{}
	for _, b := range shop.Builds {
		found.Add(shop.ReadBuild(content, b)...)
		r := Reckon(topic.Facts{Bench: &topic.Bench{Rack: &shop.Rack, Settings: &shop.Settings, Zone: shop.Zone}, Build: b})
		found.Add(r.Found...)
		all[b.Slug] = r
	}
	return all, found
}

// Every word reaches the circuit room as it was written.
func TestCircuitsAreHandedOver(t *testing.T) {
	r, found := lit(t, nil)
	if found.Stops() || len(r.Circuits) != 2 {
		t.Fatalf("%v", found)
	}
	main, deck := &r.Circuits[0].Solution, &r.Circuits[1].Solution
	in := main.Circuit
	if in.Series.Name != "E96" || in.Tolerance.V != 0.01 || in.Scale != 48 || in.Camera.V == 0 || in.Junction.V != "block" {
		t.Errorf("settings: %v %v %v %v %v", in.Series.Name, in.Tolerance.V, in.Scale, in.Camera.V, in.Junction.V)
	}
	if s := in.Supply; s.Cells.V != (circuit.Cells{Type: "LR6", Series: 4, Parallel: 2}) || len(s.Discharge) != 3 || s.Ends.V != 4 {
		t.Errorf("supply: %+v", s)
	}
	if in.Fuse.Rated.V != 0.5 || in.Fuse.Resistance.V != 0.3 || in.Fuse.Text.V != "quick" || in.Switch.V != "slide" || in.Entry.V != "keel" {
		t.Errorf("contacts: %+v %+v", in.Fuse, in.Switch)
	}
	if j := main.Junctions; len(j) != 2 || j[1].Name != "mast foot" || j[1].From != 0 || j[1].Feed.Ohms <= 0 ||
		in.Junctions[0].Run.Colour.V != "copper" {
		t.Errorf("junctions: %+v", j)
	}
	b := main.Branches
	if b[0].Control.Kind != circuit.PWM || b[0].Control.Duty != 0.3 || b[0].Kind != circuit.Auto ||
		b[0].Resistor.Tolerance != 0.01 || b[0].Lamps[0].Area != "hull" {
		t.Errorf("fore: %+v", b[0])
	}
	if b[1].Kind != circuit.Fixed || b[1].Resistor.Ohms != 787 || b[1].Resistor.Rating != 0.25 ||
		len(b[1].Lamps[0].Fibres) != 1 || b[1].Lamps[0].Fibres[0].Fits != 27 {
		t.Errorf("aft: %+v", b[1])
	}
	if b[2].Kind != circuit.ConstantCurrent || b[2].Junction != 1 || b[2].Resistor.Set != 0.003 ||
		b[2].Control.Kind != circuit.Fade || b[2].Lamps[0].FullSize < 0.09 {
		t.Errorf("side: %+v", b[2])
	}
	if deck.Branches[0].Lamps[0].Ref != "D4" || deck.Branches[0].Ref != "R3" || deck.Supply.Ref != "B2" || !deck.Branches[1].Parallel {
		t.Errorf("deck: %+v", deck.Branches)
	}
	if len(r.Areas) != 1 || r.Areas[0].Heat <= 0 || r.Areas[0].Volume != 0.4 {
		t.Errorf("areas: %+v", r.Areas)
	}
	if len(main.Judged) != 3 || len(deck.Judged) != 2 || len(deck.Verdicts) != 1 ||
		!strings.HasPrefix(deck.Verdicts[0].Cause.String(), "D4 ") && !strings.Contains(deck.Verdicts[0].Cause.String(), "R3") {
		t.Errorf("readings: %+v %+v %+v", main.Judged, deck.Judged, deck.Verdicts)
	}
}

// What is wrong is found with its place in the file.
func TestLightFindingsStandInTheFile(t *testing.T) {
	build := litShop["builds/skiff/build.md"]
	for _, c := range []struct{ old, new, rule, at string }{
		{"wire: 34 AWG", "wire: thni", "wire-name", "thni"},
		{"from: D2", "from: D9", "lamp-reference", "D9"},
		{"encloses: [D1, D2]", "encloses: [D1, D22]", "lamp-reference", "D22"},
		{"junction: mast foot", "junction: mast head", "junction-name", "mast head"},
		{"from: block", "from: mast foot", "junction-loop", "mast foot"},
		{"shows: port", "shows: starboard", "navigation-colour", "starboard"},
		{"resistor: 787R 0.25 W 1 %", "resistor: 10R", "lamp-over-limit", "warm"},
		{"driver: {current: 3 mA, dropout: 0.6 V, tolerance: 10 %}", "resistor: 470R, driver: {current: 3 mA, dropout: 0.6 V}", "two-limiters", "470R"},
		{"pwm 490 Hz 30 %", "pwm 490 Hz 30 %", "pwm-banding", "pwm 490 Hz 30 %"},
	} {
		if !strings.Contains(build, c.old) {
			t.Fatalf("%q is not in the build", c.old)
		}
		_, found := lit(t, map[string]string{"builds/skiff/build.md": strings.Replace(build, c.old, c.new, 1)})
		var got []string
		for _, f := range found {
			if f.Rule.Name == c.rule {
				got = append(got, f.At.Text())
			}
		}
		if len(got) == 0 || got[0] != c.at {
			t.Errorf("%s: found at %q, want %q (%v)", c.rule, got, c.at, rulesFound(found))
		}
	}
}

func rulesFound(found source.Findings) []string {
	var names []string
	for _, f := range found {
		names = append(names, f.Rule.Name)
	}
	return names
}
