package wiring

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"spruelight/gen/circuit"
	"spruelight/gen/quantity"
	"spruelight/gen/svg"

	"spruelight/testdata/readback"
)

// looms draws the looms that the tests look at: every example alone and both
// together, at both widths.
func looms(t testing.TB) map[string]*svg.Drawing {
	t.Helper()
	both := []circuit.Solution{solved(t, skiff()), solved(t, lantern())}
	return map[string]*svg.Drawing{
		"loom-rover": Loom("l", []circuit.Solution{solved(t, rover())}, Wide, nil), "loom-skiff": Loom("l", both[:1], Wide, nil), "loom-both": Loom("l", both, Wide, nil), "loom-skiff-phone": Loom("l", both[:1], Narrow, nil),
	}
}

// TestLoomIsLegible: no two words or symbols of a loom overlap and all lies in
// the view box, for the examples and for random circuits.
func TestLoomIsLegible(t *testing.T) {
	for name, d := range looms(t) {
		if err := legible(d); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	for k := range 60 {
		r := rand.New(rand.NewPCG(7, uint64(k)))
		s, _ := circuit.Solve(randomCircuit(r, 14))
		if err := legible(Loom("l", []circuit.Solution{s}, []float64{Wide, Narrow}[k%2], nil)); err != nil {
			t.Errorf("circuit %d: %v", k, err)
		}
	}
}

// TestLegibleCanFail: words laid over words are seen.
func TestLegibleCanFail(t *testing.T) {
	d := Loom("l", []circuit.Solution{solved(t, lantern())}, Wide, nil)
	b := d.Boxes()[0].Box
	d.Text(b.Centre(), "over something", svg.TextStyle{})
	if legible(d) == nil {
		t.Error("words over a symbol went unseen")
	}
}

// legible looks for two registered boxes on one spot. Words may stand wholly
// within a symbol: letters in a circle, the base's parts in its box.
func legible(d *svg.Drawing) error {
	var things []readback.Thing
	for _, b := range d.Boxes() {
		if !d.ViewBox().Contains(b.Box) {
			return &outsideError{b.Name}
		}
		things = append(things, readback.Thing{What: string(b.Kind) + " " + b.Name, Owner: -1, Box: b.Box, Text: b.Kind == svg.KindText})
	}
	return readback.Overlaps(things)
}

type outsideError struct{ name string }

func (e *outsideError) Error() string { return e.name + " lies outside the view box" }

// TestLoomHoldsEverything: every lamp, wire, length and bundle stands on it.
func TestLoomHoldsEverything(t *testing.T) {
	s := solved(t, skiff())
	d := Loom("l", []circuit.Solution{s}, Wide, nil)
	var texts []string
	for _, b := range d.Boxes() {
		texts = append(texts, b.Name)
	}
	for _, want := range []string{"B1", "F1", "S1", "W1", "W2", "W3", "L1", "L7", "D1", "D10", "350 mm", "60 mm", "keel", "wheelhouse", "mast foot", "WW", "A", "G", "R", "W", "warm white"} {
		if !slices.Contains(texts, want) {
			t.Errorf("%q is not on the loom", want)
		}
	}
	if !strings.Contains(strings.Join(texts, " "), "12\u00a0×\u00a00.5\u00a0mm fibre") {
		t.Error("the fibres are not on the loom")
	}
	if Loom("l", []circuit.Solution{{}}, Wide, nil) != nil {
		t.Error("a circuit that is not solved was drawn")
	}
}

// Lengths with slack, worked out by hand: 1.05·350 + 2·15 = 397.5, so 398 mm;
// 1.05·180 + 30 = 219 mm exactly.
func TestCutList(t *testing.T) {
	spools, unknown := CutList([]circuit.Solution{solved(t, skiff())}, UsualSlack)
	if len(unknown) != 1 || !strings.HasPrefix(unknown[0].String(), "L7") {
		t.Errorf("unknown: %q", unknown)
	}
	want := map[string]float64{"W1+": 398, "W1−": 398, "L1+": 219, "L1−": 219, "W2+": 156, "W3+": 93, "W3−": 93}
	pieces := 0
	for _, s := range spools {
		total := 0.0
		for i, c := range s.Cuts {
			pieces++
			total += float64(c.Cut)
			if mm, ok := want[c.Ref]; ok && math.Abs(c.Cut.Millimetres()-mm) > 1e-6 {
				t.Errorf("%s is cut to %v, want %g mm", c.Ref, c.Cut, mm)
			}
			if i > 0 && c.Cut > s.Cuts[i-1].Cut {
				t.Errorf("%s %s: not the longest first", s.Wire, s.Colour)
			}
			if strings.HasSuffix(c.Ref, "+") != (s.Colour == "red" || s.Colour == "enamel" && c.Ref == "W3+") {
				t.Errorf("%s lies on the %s spool", c.Ref, s.Colour)
			}
		}
		if math.Abs(total-float64(s.Total)) > 1e-12 {
			t.Errorf("%s %s: %v in all, the pieces make %g m", s.Wire, s.Colour, s.Total, total)
		}
	}
	if pieces != 18 {
		t.Errorf("%d pieces, want a pair for each of 9 runs", pieces)
	}
	if got := spools[1].All().String(); got != "398 mm" {
		t.Errorf("28 AWG red: %s in all", got)
	}
	var order []string
	for _, s := range spools {
		order = append(order, s.Wire.String()+" "+s.Colour)
	}
	if got := strings.Join(order, ", "); got != "28 AWG black, 28 AWG red, 30 AWG black, 30 AWG red, 32 AWG enamel, 34 AWG black, 34 AWG red" {
		t.Errorf("spools: %s", got)
	}
}

func TestShopping(t *testing.T) {
	items := Shopping([]circuit.Solution{solved(t, skiff()), solved(t, lantern())}, UsualSlack)
	got := map[string]string{}
	for _, i := range items {
		got[i.Kind+" "+i.What.String()] = i.Text().String()
	}
	for what, count := range map[string]string{
		"lamp warm-white-3mm": "2", "lamp amber-0603": "4", "lamp green-0402": "2", "lamp red-0402": "1", "resistor 430 Ω, 1/8 W, ±5 %": "3",
		"driver constant current, 8 mA": "1", "fuse 250 mA": "1", "switch slide switch in the base": "1", "supply usb-5v, 5 V": "1", "cells LR6": "2",
		"fibre 0.5 mm":    "1.7 m", // 12 strands of 120 mm with 15 % to spare: 1.656 m
		"wire 28 AWG red": "400 mm",
	} {
		if got[what] != count {
			t.Errorf("%s: %q, want %s; all: %v", what, got[what], count, got)
		}
	}
}

// Rings by IEC 60062: 470 ohm 5 % is yellow violet brown gold; 4.99 kilohm 1 %
// is yellow white white brown brown.
func TestBands(t *testing.T) {
	for _, c := range []struct {
		r    quantity.Ohms
		tol  quantity.Share
		says string
	}{{470, 0.05, "yellow, violet, brown, gold"}, {4990, 0.01, "yellow, white, white, brown, brown"}} {
		d, err := Bands("r", c.r, c.tol, nil)
		if err != nil {
			t.Fatal(err)
		}
		var words []string
		for _, b := range d.Boxes() {
			words = append(words, b.Name)
		}
		for _, colour := range strings.Split(c.says, ", ") {
			if !slices.Contains(words, colour) {
				t.Errorf("%v: %q is not named", c.r, colour)
			}
		}
		if err := legible(d); err != nil {
			t.Error(err)
		}
		if !strings.Contains(d.Inline(), c.says) {
			t.Errorf("%v: the rings are not read out as %q", c.r, c.says)
		}
	}
	if _, err := Bands("r", 4990, 0.05, nil); err == nil {
		t.Error("a value without rings was drawn")
	}
}

// A connector parts its wire: each piece has slack at both of its ends, 15 mm
// and 5 % as ever, worked out by hand.
func TestConnectorsOnTheLists(t *testing.T) {
	s := solved(t, rover())
	spools, _ := CutList([]circuit.Solution{s}, UsualSlack)
	got := map[string]string{}
	for _, spool := range spools {
		for _, c := range spool.Cuts {
			got[c.Ref] = fmt.Sprintf("%s > %s %.0f %.0f", c.From, c.To, c.Length.Millimetres(), c.Cut.Millimetres())
		}
	}
	for ref, want := range map[string]string{
		"W1a+": "the base > X1 90 125",                     // 94.5 + 30
		"W1b−": "X1 > " + s.Junctions[0].Name + " 150 188", // 157.5 + 30
		"W2+":  s.Junctions[0].Name + ", X2 > turret 80 114",
		"L2−":  "turret > X3, beacon 60 93",
		"L1+":  s.Junctions[0].Name + " > headlights 110 146",
	} {
		if got[ref] != want {
			t.Errorf("%s: %q, want %q", ref, got[ref], want)
		}
	}
	bought := map[string]Item{}
	for _, i := range Shopping([]circuit.Solution{s}, UsualSlack) {
		if i.Kind == "connector" {
			bought[i.What.String()] = i
		}
	}
	if i := bought["2-pin plug, 1.25 mm pitch"]; i.Count != 1 || fmt.Sprint(i.For) != "[X1]" {
		t.Errorf("%+v", i)
	}
	if i := bought["pin and socket, 1 mm"]; i.Count != 2 || fmt.Sprint(i.For) != "[X2 X3]" {
		t.Errorf("%+v", i)
	}
	drawn := Loom("l", []circuit.Solution{s}, Wide, nil).Inline()
	for _, says := range []string{">X1<", ">X2<", ">X3<", ">turret ring<", "Blocks across a limb are connectors."} {
		if !strings.Contains(drawn, says) {
			t.Errorf("the loom does not say %q", says)
		}
	}
}
