package gen

import (
	"context"
	"strings"
	"testing"
	"testing/fstest"
	"time"
)

// drying reads a small workshop: on the evening before the moment one coat was
// laid, and a lamp's current was measured inside an area.
func drying(t *testing.T) *work {
	t.Helper()
	content := fstest.MapFS{}
	for name, text := range map[string]string{
		"workshop.yaml":      "name: Bench\ntime zone: Europe/Berlin\n",
		"rack/lamps.yaml":    "amber-3mm: {colour: amber, forward: [2 V @ 20 mA], rated: 20 mA, limit: 30 mA}\n",
		"rack/supplies.yaml": "usb: {kind: usb, volts: 5 V, limit: 500 mA}\n",
		"rack/paints.yaml":   "grey: {kind: acrylic lacquer, mask after: 24 h}\n",
		"builds/skiff/build.md": `---
name: Skiff
state: bench
areas: {cabin: {material: styrene, encloses: [D1]}}
circuits: [{name: main, supply: usb, branches: [{name: fore, lamps: [amber-3mm], lead: {wire: 34 AWG, length: 100 mm}}]}]
paint: {cabin: [{coat: grey, for: base}]}
---
Text.
`,
		"builds/skiff/2026-03-28.md": "---\nstage: painting\n" +
			"coats: [{area: cabin, coat: grey, at: \"20:00\"}]\nreadings: [{at: fore, current: 3 mA}]\n---\nText.\n",
	} {
		content[name] = &fstest.MapFile{Data: []byte(text)}
	}
	r := newRun(Env{Content: content, Moment: time.Date(2026, 3, 29, 12, 0, 0, 0, time.UTC), Wall: true})
	r.read(context.Background())
	r.reckon(context.Background())
	if r.found.Stops() || len(r.works) != 1 {
		t.Fatalf("%v", r.found)
	}
	return r.works[0]
}

// The closing card judges a reading against the band of its branch: 3 mA where
// 5 mA are wanted (the default) lies outside what the circuit allows.
func TestClosingCardJudgesReadings(t *testing.T) {
	w := drying(t)
	d := w.finish.Paint.Areas[0].Card.Points[1].Detail.String()
	if !strings.HasPrefix(d, "fore reads 3 mA, the band is ") || !strings.HasSuffix(d, " mA") {
		t.Errorf("readings: %s", d)
	}
}

// A build whose coats still dry is reckoned again on every pass, since its
// clocks move though no file does.
func TestClocksRunOnBetweenPasses(t *testing.T) {
	w := drying(t)
	if w.finish.Until.IsZero() {
		t.Fatal("the hull was painted the evening before")
	}
	next := newRun(w.run.env)
	next.shop = w.run.shop
	for _, x := range leave(w.run, []string{"wall/about.md"}, nil).take(next) {
		if x.kept {
			t.Errorf("%s is kept", x.slug())
		}
	}
}
