package gen_test

import (
	"context"
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"spruelight/gen"
	"spruelight/gen/source"
)

// closings is a workshop in which a hull with a lamp inside is glued shut. More
// goes into the area; the sittings are by their days.
func closings(t *testing.T, area string, sittings map[string]string) source.Findings {
	t.Helper()
	shop := fstest.MapFS{
		"workshop.yaml":      {Data: []byte("name: Bench\n")},
		"rack/supplies.yaml": {Data: []byte("usb-5v: {kind: usb, volts: 5 V}\n")},
		"rack/lamps.yaml":    {Data: []byte("white: {colour: white, forward: 3 V @ 10 mA, rated: 20 mA, limit: 30 mA}\n")},
		"builds/skiff/build.md": {Data: []byte("---\nname: Skiff\nstate: bench\nareas: {hull: {material: styrene, encloses: [D1]" + area + "}}\n" +
			"circuits: [{name: main, supply: usb-5v, entry: the keel, branches: [{name: fore, lamps: [white], current: 10 mA, resistor: 200R}]}]\n---\n")},
	}
	for day, front := range sittings {
		shop["builds/skiff/"+day+".md"] = &fstest.MapFile{Data: []byte("---\nstage: lighting\nhours: 1 h\n" + front + "---\n")}
	}
	res, err := gen.Check(context.Background(), (&filled{}).env(t, shop))
	if err != nil {
		t.Fatal(err)
	}
	if res.Findings.Stops() {
		t.Fatal(onlyStops(res.Findings))
	}
	return res.Findings
}

// ofClosings are the findings whose rules are of closings, as "rule: what it says".
func ofClosings(found source.Findings) (said []string) {
	for _, f := range found {
		if strings.HasPrefix(f.Rule.Name, "closed-") {
			text := fmt.Sprintf("%s%s: %s", f.Rule.Name, map[bool]string{true: " (silenced)"}[f.Silenced != ""], f.Says)
			for _, r := range f.Related {
				text += "; " + r.Says.String()
			}
			said = append(said, text+"; "+f.Do.String())
		}
	}
	return said
}

// What one sloppy closing left open is one warning with its list; a point that is
// silenced is not in it, and one that is open alone speaks for itself.
func TestOneClosingIsOneWarning(t *testing.T) {
	shut := map[string]string{"2026-02-14": "closed: [hull]\n"}
	said := ofClosings(closings(t, "", shut))
	if len(said) != 1 || !strings.HasPrefix(said[0], "closed-with-points-open: hull was closed with 8 points open; every lamp inside seen to light: D1 never seen to light [closed-lamp-unlit]; ") {
		t.Fatalf("%q", said)
	}
	for _, want := range []string{"soak test: no soak test is noted [closed-without-soak]; ", "lit: [D1]", "before closing: [{area: hull, leak check: [before primer, after primer], soak: 24 h, wiggle: all leads",
		"closed-without-photo"} {
		if !strings.Contains(said[0], want) {
			t.Errorf("no %q in %s", want, said[0])
		}
	}
	said = ofClosings(closings(t, ", silence: {closed-without-soak: it glowed for a week}", shut))
	if len(said) != 2 || !strings.Contains(said[0]+said[1], "closed with 7 points open") || !strings.Contains(said[0]+said[1], "closed-without-soak (silenced)") {
		t.Errorf("with a silence: %q", said)
	}
	said = ofClosings(closings(t, "", map[string]string{"2026-02-14": "closed: [hull]\nlit: [D1]\nreadings: [{at: fore, current: 10 mA}]\n" +
		"coats: [{area: hull, coat: black, for: light blocking, at: \"09:00\"}]\n" +
		"before closing: [{area: hull, leak check: [before primer, after primer], soak: 24 h, wiggle: all leads, wires out: the keel}]\n"}))
	for _, s := range said {
		if strings.HasPrefix(s, "closed-with-points-open") && !strings.Contains(s, "2 points open") {
			t.Errorf("few points: %q", said)
		}
	}
}

// An area that is closed already cannot be closed again.
func TestClosedTwice(t *testing.T) {
	for name, sittings := range map[string]map[string]string{
		"in two sittings": {"2026-02-14": "closed: [hull]\n", "2026-02-20": "closed: [hull]\n"},
		"in one sitting":  {"2026-02-14": "closed: [hull, {area: hull, at: \"23:59\"}]\n"},
	} {
		twice := 0
		for _, f := range closings(t, "", sittings) {
			if f.Rule.Name == "closed-twice" {
				twice++
				if len(f.Related) != 1 || !strings.Contains(f.Says.String(), "hull was closed already on ") || f.At == f.Related[0].At {
					t.Errorf("%s: %s, with %v", name, f.Says, f.Related)
				}
			}
		}
		if twice != 1 {
			t.Errorf("%s: %d findings", name, twice)
		}
	}
}

// A reading, and what is looked at before closing, count for a closing only
// where they do not follow it.
func TestReadingsAfterTheClosing(t *testing.T) {
	const reading, late = "readings: [{at: fore, current: 10 mA}]\n", "measured only after it was closed: fore"
	const off = "readings: [{at: fore, current: 1 mA}]\n"
	const soak = "before closing: [{area: hull, soak: 24 h}]\n"
	for _, c := range []struct {
		name     string
		sittings map[string]string
		late     bool
		open     []string // rules that must speak
		shut     []string // points that must be met
	}{
		{"before", map[string]string{"2026-02-10": reading, "2026-02-14": "closed: [hull]\n"}, false, nil, []string{"readings within", "measured"}},
		{"in the same sitting", map[string]string{"2026-02-14": "closed: [hull]\n" + reading}, false, nil, []string{"readings within"}},
		{"after", map[string]string{"2026-02-14": "closed: [hull]\n", "2026-02-20": reading}, true, nil, nil},
		{"before and, gone wrong, after", map[string]string{"2026-02-10": reading, "2026-02-14": "closed: [hull]\n", "2026-02-20": off}, false, nil, []string{"readings within"}},
		{"a soak test before", map[string]string{"2026-02-10": soak, "2026-02-14": "closed: [hull]\n"}, false, nil, []string{"soak test:"}},
		{"a soak test after", map[string]string{"2026-02-14": "closed: [hull]\n", "2026-02-20": soak}, false, []string{"soak test: no soak test is noted"}, nil},
	} {
		found := closings(t, "", c.sittings)
		said := strings.Join(ofClosings(found), "\n")
		if strings.Contains(said, late) != c.late {
			t.Errorf("%s: %s", c.name, said)
		}
		for _, want := range c.open {
			if !strings.Contains(said, want) {
				t.Errorf("%s: no %q in %s", c.name, want, said)
			}
		}
		for _, no := range c.shut {
			if strings.Contains(said, no) {
				t.Errorf("%s: %q in %s", c.name, no, said)
			}
		}
		pointed := false
		for _, f := range found {
			for _, r := range f.Related {
				pointed = pointed || strings.Contains(r.Says.String(), "fore was measured here, after the closing") && strings.Contains(r.At.Name(), "2026-02-20")
			}
		}
		if pointed != c.late {
			t.Errorf("%s: the reading is pointed at: %v", c.name, pointed)
		}
	}
}
