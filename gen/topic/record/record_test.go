package record

import (
	"strings"
	"testing"
	"testing/fstest"

	"spruelight/gen/journal"
)

// built reads the first build of a workshop.
func built(t *testing.T, files map[string]string) *journal.Build {
	t.Helper()
	content := fstest.MapFS{"workshop.yaml": {Data: []byte("name: Bench\n")}}
	for name, text := range files {
		content[name] = &fstest.MapFile{Data: []byte(text)}
	}
	shop, found := journal.Open(content)
	if len(shop.Builds) != 1 || found.Stops() {
		t.Fatal(found)
	}
	if found := shop.ReadBuild(content, shop.Builds[0]); found.Stops() {
		t.Fatal(found)
	}
	return shop.Builds[0]
}

// A driver, or nothing, in a resistor's place is no resistor to be bought.
func TestResistorsAreCountedWhereTheyAre(t *testing.T) {
	lamps, resistors := lampRefs(built(t, map[string]string{
		"rack/supplies.yaml": "usb-5v: {kind: usb, volts: 5 V}\n",
		"rack/lamps.yaml":    "white: {colour: white, forward: [3 V @ 10 mA]}\n",
		"builds/skiff/build.md": `---
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
`,
	}))
	if len(lamps) != 5 || lamps[4] != "D5" || resistors != 2 {
		t.Errorf("lamps %v and %d resistors, want D1 to D5 and 2", lamps, resistors)
	}
}

func TestTreatmentsAreGatheredFromTheLog(t *testing.T) {
	b := built(t, map[string]string{
		"rack/paints.yaml": "grey: {kind: waterborne acrylic}\n",
		"builds/skiff/build.md": `---
name: Skiff
state: bench
areas: {cabin: {material: resin}, deck: {material: styrene}}
parts: [{part: B1, have: 1, need: 1, area: deck}, {part: B2, have: 1, need: 1, area: cabin}]
problems:
  - {symptom: peeled, affected: [B2], sound: [B1, deck]}
  - {symptom: crazed, affected: [X1], sound: [B1]}
---
`,
		"builds/skiff/2026-02-10.md": "---\nstage: painting\ntreated: {wiped with spirit: [B2, X1]}\ncoats: [{area: deck, coat: grey}, {area: cabin, coat: grey}]\n---\n",
	})
	describe := func(i int) string {
		var parts []string
		for _, x := range problemOf(b, &b.Front.Problems[i]).Treatments {
			var on []string
			for _, u := range x.Value.On {
				on = append(on, u.V)
			}
			parts = append(parts, x.Name.V+" "+strings.Join(on, "+")+" or "+x.Value.Instead.V)
		}
		return strings.Join(parts, "; ")
	}
	if got, want := describe(0), "wiped with spirit B2 or ; painted with grey B1+deck+B2 or ; made of resin B2 or made of styrene; made of styrene B1+deck or "; got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	// X1 belongs to no area: coats and materials say nothing of it.
	if got, want := describe(1), "wiped with spirit X1 or "; got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}
