package care

import (
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"spruelight/gen/circuit"
	"spruelight/gen/journal"
	"spruelight/gen/topic"
	"spruelight/gen/topic/finish"
)

// asked reads a build of one lit circuit; sitting is the front matter of its
// only sitting, repair what build.md says to repairers.
func asked(t *testing.T, state, repair, sitting string) (topic.Facts, Seen) {
	t.Helper()
	content := fstest.MapFS{}
	for name, text := range map[string]string{
		"workshop.yaml":      "name: Bench\n",
		"rack/lamps.yaml":    "amber-3mm: {colour: amber, forward: [2 V @ 20 mA], rated: 20 mA, limit: 30 mA}\n",
		"rack/supplies.yaml": "usb: {kind: usb, volts: 5 V, limit: 500 mA}\n",
		"rack/paints.yaml":   "grey: {kind: enamel}\n",
		"builds/skiff/build.md": "---\nname: Skiff\nstate: " + state + "\nareas: {hull: {material: styrene}}\npaint: {hull: [grey]}\n" +
			"circuits: [{name: main, supply: usb, branches: [{name: fore, lamps: [amber-3mm]}]}]\nrepair: " + repair + "\n---\nText.\n",
		"builds/skiff/a.jpg":         "",
		"builds/skiff/2026-03-28.md": "---\nstage: painting\n" + sitting + "---\nText.\n",
	} {
		content[name] = &fstest.MapFile{Data: []byte(text)}
	}
	shop, found := journal.Open(content)
	b := shop.Builds[0]
	if found.Add(shop.ReadBuild(content, b)...); found.Stops() {
		t.Fatal(found)
	}
	f := topic.Facts{Build: b, Bench: &topic.Bench{Rack: &shop.Rack, Settings: &shop.Settings, Zone: shop.Zone}}
	paints, _ := finish.Shelf(&shop.Rack)
	r := finish.Reckon(f, paints, nil)
	fore := circuit.BranchResult{Name: "fore", Ref: "R1", Lamps: []circuit.LampResult{{Ref: "D1"}}}
	lit := &circuit.Solution{Name: "main", Branches: []circuit.BranchResult{fore}}
	return f, Seen{Circuits: []*circuit.Solution{lit}, Finish: &r}
}

// What a repairer would miss is listed until somebody writes it down.
func TestLacks(t *testing.T) {
	said := func(f topic.Facts, in Seen) (texts []string) {
		for _, l := range Lacks(f, in) {
			texts = append(texts, l.String())
		}
		return texts
	}
	bare := said(asked(t, "shelf", "{}", ""))
	for _, want := range []string{"how to open it", "plug and polarity", "the current on day one", "meter readings of fore",
		"whether these were ever seen to light: D1",
		"when the coats were laid of hull", "where spares are kept", "a photo"} {
		if !slices.Contains(bare, want) {
			t.Errorf("nobody misses %q: %s", want, strings.Join(bare, "; "))
		}
	}
	f, in := asked(t, "shelf",
		"{open: four screws, plug: socket in the base, day one: {main: 3 mA}, route: up the rod, photo: a.jpg, spares: [a lamp]}",
		"photos: [{file: a.jpg, alt: a hull}]\nlit: [D1]\nreadings: [{at: fore, current: 3 mA}]\ncoats: [{area: hull, coat: grey}]\n")
	if left := said(f, in); !slices.Equal(left, []string{"paint mixes for touching up"}) {
		t.Errorf("still missed: %q", left)
	}
}

// There is a sheet for what is lit, what is finished and what somebody wrote
// for repairers.
func TestWanted(t *testing.T) {
	for _, c := range []struct {
		state, repair string
		lit, want     bool
	}{{"bench", "{}", false, false}, {"bench", "{}", true, true}, {"shelf", "{}", false, true}, {"bench", "{open: pull}", false, true}} {
		f, in := asked(t, c.state, c.repair, "")
		if !c.lit {
			in.Circuits = nil
		}
		if got := Wanted(f, in); got != c.want {
			t.Errorf("%+v: wanted is %v", c, got)
		}
	}
}
