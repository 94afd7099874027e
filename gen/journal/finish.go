package journal

import (
	"io/fs"
	"slices"

	"spruelight/gen/paint"
	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// FinishPlan is what build.md plans of the finish.
type FinishPlan struct {
	Areas   source.Entries[paint.Area]      `key:"areas" doc:"Named regions of the model"`
	Paint   source.Entries[[]paint.Coat]    `key:"paint" doc:"The paint stack of each area, from the plastic outward"`
	Mixes   source.Entries[paint.Mix]       `key:"mixes" doc:"Paints stirred together, so that a touch-up can be stirred again years later"`
	Sheets  source.Entries[[]paint.Marking] `key:"decal sheets" doc:"The markings on each decal sheet"`
	Lighten Text                            `key:"lighten" doc:"Rule by which colours are shown lightened for the scale; none when not given" eg:"7-10-15" one:"7-10-15|halved|15-25-33"`
}

// FinishWork is what a sitting did for the finish.
type FinishWork struct {
	Coats    []Laid                `key:"coats" doc:"Coats laid in this sitting"`
	Warmth   Val[quantity.Celsius] `key:"temperature" doc:"Temperature in which the coats of this sitting cured, where it was not the bench's usual one" eg:"14 °C"`
	Masked   []Touched             `key:"masked" doc:"Areas that tape went onto" eg:"[hull outside]"`
	Handled  []Touched             `key:"handled" doc:"Areas that were held" eg:"[deck]"`
	Leaks    []paint.Leak          `key:"leaks" doc:"Light seen where none is wanted"`
	Tests    []paint.LightTest     `key:"light tests" doc:"What a lux meter showed through the coats, one laid after the other"`
	Ready    []Readied             `key:"before closing" doc:"What was looked at before an area is glued shut"`
	Closed   []Closed              `key:"closed" doc:"Areas glued shut: a point of no return" eg:"[hull inside]"`
	Markings []paint.MarkingWork   `key:"markings" doc:"Numbered markings placed or spoilt"`
}

// ClosedAreas returns the names of the areas closed in the sitting.
func (f *FinishWork) ClosedAreas() []Text {
	var names []Text
	for _, c := range f.Closed {
		names = append(names, c.Area)
	}
	return names
}

// Laid is a coat that was laid in a sitting.
type Laid struct {
	At       source.Span
	Area     Text                  `key:"area,required" doc:"The area painted" eg:"hull inside"`
	Coat     Text                  `key:"coat,required" doc:"A paint on the rack, a mix of this build, a plain colour, or decals" eg:"blackout"`
	When     Val[quantity.Clock]   `key:"at" doc:"Time of day when the last pass was done; the clocks count from it" eg:"\"19:30\""`
	For      Val[paint.Purpose]    `key:"for" doc:"What the coat is for, where the plan does not say" eg:"light blocking"`
	Thinned  Val[quantity.Mix]     `key:"thinned" doc:"Paint to thinner" eg:"\"1:1.5\""`
	Method   Text                  `key:"method" doc:"How it was laid" eg:"airbrush" one:"airbrush|brush|spray can|sponge|dip|marker|wipe"`
	Passes   Val[int]              `key:"passes" doc:"Number of passes" eg:"2"`
	Pressure Val[quantity.Pascals] `key:"pressure" doc:"Air pressure" eg:"1.2 bar"`
	Nozzle   Val[quantity.Metres]  `key:"nozzle" doc:"Diameter of the nozzle" eg:"0.3 mm"`
	Note     Text                  `key:"note" doc:"What else was seen" eg:"went on dry at the stem"`

	Broken bool // something in it could not be read, or names nothing
}

// Layer is the coat itself.
func (l *Laid) Layer() paint.Coat {
	return paint.Coat{At: l.At, Paint: l.Coat, For: l.For, Thinned: l.Thinned, Method: l.Method,
		Passes: l.Passes, Pressure: l.Pressure, Nozzle: l.Nozzle}
}

// Touched is an area that had to be ready for tape or fingers.
type Touched struct {
	At   source.Span
	Area Text                `key:"area,required,short" doc:"The area" eg:"hull outside"`
	When Val[quantity.Clock] `key:"at" doc:"Time of day; the start of the day when not given" eg:"\"14:00\""`

	Broken bool // something in it could not be read, or names nothing
}

// Readied is what was looked at before an area is closed.
type Readied struct {
	At     source.Span
	Area   Text                   `key:"area,required" doc:"The area" eg:"hull inside"`
	Checks []Val[paint.LeakCheck] `key:"leak check" doc:"Looked for leaks in a dark room" eg:"[before primer, after primer]"`
	Soak   Text                   `key:"soak" doc:"How long the light was left on" eg:"24 h"`
	Wiggle Text                   `key:"wiggle" doc:"Wires moved with the light on, and what was seen" eg:"all leads, no flicker"`
	Wires  Text                   `key:"wires out" doc:"The entry through which the wires were led out" eg:"mounting rod in the keel"`
	Photo  Text                   `key:"photo" doc:"The photo that shows the open inside" eg:"photos/wire-route.jpg"`

	Broken bool // something in it could not be read, or names nothing
}

// Closed is an area glued shut.
type Closed struct {
	At   source.Span
	Area Text                `key:"area,required,short" doc:"The area" eg:"hull inside"`
	When Val[quantity.Clock] `key:"at" doc:"Time of day; the end of the day when not given" eg:"\"18:00\""`

	Broken bool // something in it could not be read, or names nothing
}

// PlainColours are the colours that may be named without a paint on the rack.
// Nothing is known of their paint, so no clock runs for them.
var PlainColours = source.Entries[quantity.Colour]{
	plainColour("black", 0x12, 0x12, 0x12), plainColour("silver", 0xbc, 0xbf, 0xc2), plainColour("white", 0xf4, 0xf4, 0xf2), plainColour("grey", 0x8c, 0x8c, 0x8c),
	plainColour("red", 0xa8, 0x2a, 0x22), plainColour("green", 0x2e, 0x66, 0x3a), plainColour("blue", 0x24, 0x48, 0x86), plainColour("yellow", 0xe0, 0xb4, 0x24), plainColour("brown", 0x5e, 0x42, 0x2c),
}

func plainColour(name string, r, g, b uint8) source.Entry[quantity.Colour] {
	return source.Entry[quantity.Colour]{Name: Text{V: name}, Value: quantity.Colour{R: r, G: g, B: b}}
}

// DecalCoat is the name of the coat that is decals.
const DecalCoat = "decals"

// checkFinish holds the names of the finish against the rack, the build's own
// areas, mixes and lamps, and the photos against the build's folder.
func (w *Workshop) checkFinish(fsys fs.FS, b *Build) source.Findings {
	var found source.Findings
	known := func(name Text, names []string, kind string, do source.Message) {
		if name.Set && !slices.Contains(names, name.V) {
			found.Add(noSuch(name, names, kind, do))
		}
	}
	areas := b.Front.Areas.Names()
	area := func(name Text) {
		known(name, areas, "area of this build", orOne("add it under areas in build.md, or write one that is there", areas))
	}
	coats := w.coatNames(b)
	coat := func(name Text) {
		known(name, coats, "paint on the rack", orOne("add it to rack/paints.yaml or under mixes, or write one that is there", coats))
	}
	lamps := b.LampRefs()
	for _, a := range b.Front.Areas {
		for _, lamp := range a.Value.Encloses {
			known(lamp, lamps, "lamp of this build's circuits", source.Say("write the reference of a lamp: %s", lampRange(lamps)))
		}
		area(a.Value.OtherFace)
		for _, other := range a.Value.Meets {
			area(other)
		}
	}
	for _, p := range b.Front.Paint {
		area(p.Name)
		for _, c := range p.Value {
			coat(c.Paint)
		}
	}
	for _, s := range b.Sittings {
		checkFinishWork(&s.Front.FinishWork, area, coat)
		for _, r := range s.Front.Ready {
			found.Add(checkPhoto(fsys, b, r.Photo)...)
		}
	}
	return found
}

func checkFinishWork(f *FinishWork, area, coat func(Text)) {
	for _, c := range f.Coats {
		area(c.Area)
		coat(c.Coat)
	}
	for _, t := range slices.Concat(f.Masked, f.Handled) {
		area(t.Area)
	}
	for _, l := range f.Leaks {
		area(l.Area)
	}
	for _, t := range f.Tests {
		area(t.Area)
		for _, r := range t.Readings {
			coat(r.After)
		}
	}
	for _, r := range f.Ready {
		area(r.Area)
	}
	for _, c := range f.Closed {
		area(c.Area)
	}
	for _, m := range f.Markings {
		area(m.Area)
	}
}

// coatNames lists what a coat of a build may be.
func (w *Workshop) coatNames(b *Build) []string {
	return slices.Concat(w.Rack.Paints.Names(), b.Front.Mixes.Names(), PlainColours.Names(), []string{DecalCoat})
}

func lampRange(lamps []string) string {
	switch len(lamps) {
	case 0:
		return "this build has no circuits yet"
	case 1:
		return lamps[0]
	}
	return lamps[0] + " to " + lamps[len(lamps)-1]
}
