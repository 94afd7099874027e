package gen

import (
	"context"
	"testing"
	"testing/fstest"
)

// A driver, or nothing, in a resistor's place is no resistor to be bought.
func TestResistorsAreCountedWhereTheyAre(t *testing.T) {
	content := fstest.MapFS{
		"workshop.yaml":      {Data: []byte("name: Bench\n")},
		"rack/supplies.yaml": {Data: []byte("usb-5v: {kind: usb, volts: 5 V}\n")},
		"rack/lamps.yaml":    {Data: []byte("white: {colour: white, forward: [3 V @ 10 mA]}\n")},
		"builds/skiff/build.md": {Data: []byte(`---
name: Skiff
state: bench
circuits:
  - name: main
    supply: usb-5v
    branches:
      - {name: chosen, lamps: [{lamp: white}]}
      - {name: fixed, lamps: [{lamp: white}, {lamp: white}], resistor: 220R, parallel: yes}
      - {name: driven, lamps: [{lamp: white}], driver: {current: 10 mA, dropout: 0.5 V}}
      - {name: bare, lamps: [{lamp: white}], resistor: none}
---
`)},
	}
	r := newRun(Env{Content: content})
	r.read(context.Background())
	if len(r.works) != 1 || r.found.Stops() {
		t.Fatal(r.found)
	}
	lamps, resistors := lampRefs(r.works[0].build)
	if len(lamps) != 5 || lamps[4] != "D5" || resistors != 2 {
		t.Errorf("lamps %v and %d resistors, want D1 to D5 and 2", lamps, resistors)
	}
}
