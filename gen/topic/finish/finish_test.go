package finish

import (
	"reflect"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"spruelight/gen/circuit"
	"spruelight/gen/journal"
	"spruelight/gen/paint"
	"spruelight/gen/quantity"
	"spruelight/gen/source"
	"spruelight/gen/topic"
)

// The rules of lightening that the journal allows are those that the paint room
// knows.
func TestLighteningsThatMayBeNamed(t *testing.T) {
	f, _ := reflect.TypeFor[journal.FinishPlan]().FieldByName("Lighten")
	words := strings.Split(f.Tag.Get("one"), "|")
	if len(words) != len(paint.Lightenings) {
		t.Errorf("%d are known, %q may be named", len(paint.Lightenings), words)
	}
	for _, word := range words {
		if _, ok := paint.FindLightening(word); !ok {
			t.Errorf("%q is not known", word)
		}
	}
}

// workshop is a small one that uses every word of the finish.
var workshop = map[string]string{
	"workshop.yaml":      "name: Bench\ntime zone: Europe/Berlin\ntemperature: 12 °C\n",
	"rack/lamps.yaml":    "amber-3mm: {colour: amber, forward: [2 V @ 20 mA], rated: 20 mA, limit: 30 mA}\n",
	"rack/supplies.yaml": "usb: {kind: usb, volts: 5 V, limit: 500 mA}\n",
	"rack/paints.yaml": `grey: {kind: acrylic lacquer, colour: "#8a9095", finish: satin, touch dry: 15 min, recoat: 1 h, recoat within: 2 h, recoat again: 8 h, mask after: 24 h, times at: 22 °C, source: data sheet 7, measured: {mask after: 30 h}}
tint: {kind: waterborne acrylic, colour: "#b9d8c8", clear: yes}
`,
	"builds/skiff/build.md": `---
name: Skiff
state: bench
scale: 1/48
lighten: 7-10-15
areas:
  cabin: {material: clear, encloses: [D1], side: outside, meets: [hull]}
  hull: {material: styrene, other face: cabin, treatments: [sanded]}
parts: [{part: B1, have: 1, need: 1, area: hull}]
circuits: [{name: main, supply: usb, entry: keel, branches: [{name: fore, lamps: [{lamp: amber-3mm, at: ceiling}], lead: {wire: 34 AWG, length: 100 mm}}]}]
mixes: {pale: {parts: {grey: 6 drops, thinner: 6 drops}, colour: "#a0a5a8"}}
decal sheets: {sheet: [{marking: "1", count: 2}]}
paint:
  cabin: [{coat: tint, for: clear colour, passes: 2}]
  hull: [{coat: grey, for: base, thinned: "1:1.5", method: airbrush, passes: 3, pressure: 1.2 bar, nozzle: 0.3 mm}, {coat: pale, for: panel tone}, {coat: black, for: panel tone}]
---
Text.
`,
	"builds/skiff/2026-03-28.md": `---
stage: painting
temperature: 22 °C
treated: {washed in soapy water: [hull]}
coats: [{area: hull, coat: grey, at: "20:00"}, {area: hull, coat: pale}]
masked: [{area: hull, at: "21:00"}]
lit: [D1]
readings: [{at: fore, current: 3 mA}]
leaks: [{where: seam, area: cabin, action: sealed, check: before primer}, {where: hatch}]
light tests: [{area: hull, bare: 1000 lx, readings: [{after: grey, lux: 10 lx}]}]
markings: [{marking: "1", area: hull}, {marking: "1", event: spoilt}]
before closing: [{area: cabin, leak check: after primer, soak: 24 h, wiggle: still, wires out: keel}]
---
Text.
`,
	"builds/skiff/2026-03-30.md": "---\nstage: assembly\nclosed: [{area: cabin, at: \"18:00\"}]\n---\nText.\n",
}

// reckoned reads the workshop and judges its one build, early on 29 March 2026.
func reckoned(t *testing.T) (topic.Facts, Result) {
	t.Helper()
	content := fstest.MapFS{}
	for name, text := range workshop {
		content[name] = &fstest.MapFile{Data: []byte(text)}
	}
	shop, found := journal.Open(content)
	b := shop.Builds[0]
	found.Add(shop.ReadBuild(content, b)...)
	if found.Stops() {
		t.Fatal(found)
	}
	f := topic.Facts{Build: b, Bench: &topic.Bench{Rack: &shop.Rack, Settings: &shop.Settings, Zone: shop.Zone,
		Now: time.Date(2026, 3, 29, 12, 0, 0, 0, shop.Zone), Today: time.Date(2026, 3, 29, 0, 0, 0, 0, time.UTC)}}
	paints, bad := Shelf(&shop.Rack)
	if len(bad) > 0 {
		t.Fatal(bad)
	}
	return f, Reckon(f, paints, func(at source.Span) *circuit.JudgedReading {
		if r := b.Sittings[0].Front.Read[0]; r.At != at {
			return nil
		}
		return &circuit.JudgedReading{Expected: circuit.Band[float64]{Nominal: 5, Low: 4.6, High: 5.4}, Unit: "mA"}
	})
}

// Times are wall-clock times of the workshop's zone; the sitting's own
// temperature counts before the bench's; the night of 29 March 2026 has 23
// hours in Berlin (directive 2000/84/EC).
func TestCoatsAndClocks(t *testing.T) {
	_, r := reckoned(t)
	hull := r.Paint.Areas[1]
	if len(hull.Rows) != 4 || hull.Rows[0].Paint == nil || hull.Rows[1].Paint == nil ||
		hull.Rows[2].For != paint.Decals || hull.Rows[3].Paint.Family.Set {
		t.Fatalf("rows %+v", hull.Rows)
	}
	grey := hull.Curings[0]
	if got := quantity.Moment(grey.Ready[paint.Mask].From).String(); got != "Mon 30 Mar 2026 03:00" { // 30 h, one of which the clock skips
		t.Errorf("mask from %s", got)
	}
	if grey.Slowed.Value != 1 || grey.Ready[paint.Mask].Source.String() != "measured by the builder" ||
		grey.Ready[paint.Touch].Source.String() != "data sheet 7" {
		t.Errorf("%+v", grey)
	}
	if again := grey.Again.From.Sub(grey.Laid.When); again != 8*time.Hour {
		t.Errorf("recoat again after %s", again)
	}
	pale := hull.Curings[1]
	if !pale.Laid.Assumed || quantity.Moment(pale.Laid.When).String() != "Sat 28 Mar 2026 23:59" || pale.Paint.Family.V != paint.Lacquer {
		t.Errorf("%+v of %+v", pale.Laid, pale.Paint)
	}
	c := hull.Rows[0].First()
	if c.Thinned.V.String() != "1:1.5" || c.Method.V != "airbrush" || c.Passes.V != 3 || c.Bar() != 1.2 || c.Nozzle.V.String() != "0.3 mm" {
		t.Errorf("%+v", c)
	}
	for _, rule := range []string{"masked-too-soon", "coat-without-hour", "recoat-in-gap"} {
		if !spoke(r.Paint.Findings, rule) {
			t.Errorf("%s does not speak", rule)
		}
	}
	if spoke(r.Paint.Findings, "painted-unwashed") {
		t.Error("the hull was sanded and washed in the sitting")
	}
}

func TestClosingLightAndDecals(t *testing.T) {
	f, r := reckoned(t)
	cabin, hull := r.Paint.Areas[0], r.Paint.Areas[1]
	open := ""
	for _, p := range cabin.Card.Points {
		if p.State == paint.Open {
			open += p.What.String() + "; "
		}
	}
	if !cabin.Card.Closed || quantity.Moment(cabin.Card.When).String() != "Mon 30 Mar 2026 18:00" ||
		open != "readings within their bands; photo of the inside taken; " {
		t.Errorf("closed %v, open: %s", cabin.Card.When, open)
	}
	if d := cabin.Card.Points[1].Detail.String(); d != "fore reads 3 mA, the band is 4.6 to 5.4 mA" {
		t.Errorf("readings: %s", d)
	}
	if got := (source.List{Of: source.Anys(cabin.Card.Unreachable), Sep: "; "}).String(); got != "lamp D1, ceiling; lead of fore, 34 AWG, 100 mm" {
		t.Errorf("out of reach: %s", got)
	}
	if len(hull.Light) != 1 || hull.Light[0].Total.Value != 2 || hull.Light[0].Where != "hull" {
		t.Errorf("light test %+v", hull.Light)
	}
	if m := r.Paint.Marks; len(m) != 1 || m[0].Printed != 2 || m[0].Placed != 1 || m[0].Spoilt != 1 || m[0].Left != 0 {
		t.Errorf("decals %+v", m)
	}
	leaks := r.Leaks()
	if len(leaks) != 2 || leaks[0].Area != "cabin" || leaks[1].Area != "" || !spoke(r.Paint.Findings, "leak-open") {
		t.Errorf("leaks %+v", leaks)
	}
	lit := litRows(f, &cabin)
	if len(lit) != 1 || lit[0].Lamp != "D1" || lit[0].Coats != 2 || lit[0].From != lampColours["amber"] {
		t.Errorf("through clear colour %+v", lit)
	}
	if len(cabin.Meets) == 0 && len(hull.Meets) == 0 {
		t.Error("no colours meet")
	}
}

func spoke(found source.Findings, rule string) bool {
	for _, f := range found {
		if f.Rule.Name == rule {
			return true
		}
	}
	return false
}
