package journal

import (
	"io/fs"
	"slices"
	"strings"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// FinishPlan is what build.md plans of the finish.
type FinishPlan struct {
	Areas   source.Entries[Area]      `key:"areas" doc:"Named regions of the model"`
	Paint   source.Entries[[]Coat]    `key:"paint" doc:"The paint stack of each area, from the plastic outward"`
	Mixes   source.Entries[Mix]       `key:"mixes" doc:"Paints stirred together, so that a touch-up can be stirred again years later"`
	Sheets  source.Entries[[]Marking] `key:"decal sheets" doc:"The markings on each decal sheet"`
	Lighten Text                      `key:"lighten" doc:"Rule by which colours are shown lightened for the scale; none when not given" eg:"7-10-15" one:"7-10-15|halved|15-25-33"`
}

// Area is a named region of the model.
type Area struct {
	At         source.Span
	Material   Text                 `key:"material,required" doc:"What it is made of" eg:"styrene" one:"styrene|resin|photo-etch|clear|printed|wood|metal"`
	Encloses   []Text               `key:"encloses" doc:"Lamps inside it" eg:"[D1, D2]"`
	Volume     Val[quantity.Litres] `key:"volume" doc:"Room inside it, to estimate how warm it gets" eg:"0.4 l"`
	Side       Text                 `key:"side" doc:"Which side of the shell it is; the lamp side where lamps are enclosed" eg:"lamp side" one:"lamp side|outside"`
	OtherFace  Text                 `key:"other face" doc:"The area on the other face of the same plastic" eg:"hull outside"`
	Meets      []Text               `key:"meets" doc:"Areas it meets, whose colours are compared" eg:"[deck]"`
	Treatments []Text               `key:"treatments" doc:"What was done to the bare plastic, in order" eg:"[straightened in hot water, washed]" one:"straightened in hot water|sanded|filled|polished|washed|primed|dipped in clear"`
	Silence    source.Entries[Text] `key:"silence" doc:"Rules that shall not speak for this area, each with the reason, which is printed" eg:"{primer-missing: an etching primer came on the fret}"`
}

// Coat is one planned layer of paint.
type Coat struct {
	At       source.Span
	Coat     Text                  `key:"coat,required,short" doc:"A paint on the rack, a mix of this build, a plain colour, or decals" eg:"hull-grey"`
	For      Text                  `key:"for" doc:"What the coat is for" eg:"base" one:"primer|light blocking|base|panel tone|clear colour|gloss before decals|decals|seal|wash|matt"`
	Thinned  Val[quantity.Mix]     `key:"thinned" doc:"Paint to thinner" eg:"\"1:1.5\""`
	Method   Text                  `key:"method" doc:"How it is laid" eg:"airbrush" one:"airbrush|brush|spray can|sponge|dip|marker|wipe"`
	Passes   Val[int]              `key:"passes" doc:"Number of passes" eg:"3"`
	Pressure Val[quantity.Pascals] `key:"pressure" doc:"Air pressure" eg:"1.2 bar"`
	Nozzle   Val[quantity.Metres]  `key:"nozzle" doc:"Diameter of the nozzle" eg:"0.3 mm"`
}

// Mix is paints stirred together.
type Mix struct {
	At     source.Span
	Parts  source.Entries[Val[quantity.Portion]] `key:"parts,required" doc:"Paints of the rack and what they were thinned with, in parts, drops or volumes" eg:"{hull-grey: 12 drops, tower-white: 4 drops, thinner: 16 drops}"`
	Colour Val[quantity.Colour]                  `key:"colour" doc:"Colour of the dry mix" eg:"\"#9aa0a3\""`
	For    Text                                  `key:"for" doc:"Where it went" eg:"chips along the sheer line"`
	Note   Text                                  `key:"note" doc:"What else helps to stir it again" eg:"swatch on the inside of the lid"`
}

// Marking is one numbered marking of a decal sheet.
type Marking struct {
	At     source.Span
	Number Text     `key:"marking,required,short" doc:"Its number on the sheet" eg:"7"`
	What   Text     `key:"what" doc:"What it shows" eg:"draught marks"`
	Count  Val[int] `key:"count" doc:"How many the sheet carries; one when not given" eg:"2"`
}

// FinishWork is what a sitting did for the finish.
type FinishWork struct {
	Coats    []Laid                `key:"coats" doc:"Coats laid in this sitting"`
	Warmth   Val[quantity.Celsius] `key:"temperature" doc:"Temperature in which the coats of this sitting cured, where it was not the bench's usual one" eg:"14 °C"`
	Masked   []Touched             `key:"masked" doc:"Areas that tape went onto" eg:"[hull outside]"`
	Handled  []Touched             `key:"handled" doc:"Areas that were held" eg:"[deck]"`
	Leaks    []Leak                `key:"leaks" doc:"Light seen where none is wanted"`
	Tests    []LightTest           `key:"light tests" doc:"What a lux meter showed through the coats, one laid after the other"`
	Ready    []Readied             `key:"before closing" doc:"What was looked at before an area is glued shut"`
	Closed   []Closed              `key:"closed" doc:"Areas glued shut: a point of no return" eg:"[hull inside]"`
	Markings []MarkingWork         `key:"markings" doc:"Numbered markings placed or spoilt"`
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
	For      Text                  `key:"for" doc:"What the coat is for, where the plan does not say" eg:"light blocking" one:"primer|light blocking|base|panel tone|clear colour|gloss before decals|decals|seal|wash|matt"`
	Thinned  Val[quantity.Mix]     `key:"thinned" doc:"Paint to thinner" eg:"\"1:1.5\""`
	Method   Text                  `key:"method" doc:"How it was laid" eg:"airbrush" one:"airbrush|brush|spray can|sponge|dip|marker|wipe"`
	Passes   Val[int]              `key:"passes" doc:"Number of passes" eg:"2"`
	Pressure Val[quantity.Pascals] `key:"pressure" doc:"Air pressure" eg:"1.2 bar"`
	Nozzle   Val[quantity.Metres]  `key:"nozzle" doc:"Diameter of the nozzle" eg:"0.3 mm"`
	Note     Text                  `key:"note" doc:"What else was seen" eg:"went on dry at the stem"`
}

// Touched is an area that had to be ready for tape or fingers.
type Touched struct {
	At   source.Span
	Area Text                `key:"area,required,short" doc:"The area" eg:"hull outside"`
	When Val[quantity.Clock] `key:"at" doc:"Time of day; the start of the day when not given" eg:"\"14:00\""`
}

// Leak is light where none is wanted.
type Leak struct {
	At     source.Span
	Where  Text `key:"where,required" doc:"The place" eg:"seam under the wheelhouse roof"`
	Area   Text `key:"area" doc:"The area whose light comes out" eg:"wheelhouse"`
	Cause  Text `key:"cause" doc:"Why it leaks" eg:"filler sanded through"`
	Action Text `key:"action" doc:"What was done about it" eg:"sealed" one:"sealed|accepted"`
	Why    Text `key:"why" doc:"Why it was accepted, or how it was sealed" eg:"black acrylic worked in with a needle"`
	Check  Text `key:"check" doc:"The look that found it" eg:"before primer" one:"before primer|after primer"`
}

// LightTest is a run of a lux meter over the coats of one place, lamp, distance
// and meter left where they were.
type LightTest struct {
	At       source.Span
	Area     Text               `key:"area,required" doc:"The area tested" eg:"hull inside"`
	Where    Text               `key:"where" doc:"The spot" eg:"port side amidships"`
	Bare     Val[quantity.Lux]  `key:"bare,required" doc:"Reading through the bare plastic" eg:"1850 lx"`
	Dark     Val[quantity.Lux]  `key:"dark" doc:"Reading with the lamp off" eg:"0 lx"`
	Meter    Val[quantity.Lux]  `key:"step" doc:"The meter's smallest step; 1 lx when not given" eg:"0.1 lx"`
	Target   Val[float64]       `key:"wanted" doc:"Wanted optical density; 3 when not given" eg:"3"`
	Readings []LightTestReading `key:"readings,required" doc:"Readings after each coat, in order"`
}

// LightTestReading is one reading of a light test.
type LightTestReading struct {
	At    source.Span
	After Text              `key:"after,required" doc:"The coat laid before the reading" eg:"blackout"`
	Lux   Val[quantity.Lux] `key:"lux,required" doc:"What the meter showed" eg:"22 lx"`
}

// Readied is what was looked at before an area is closed.
type Readied struct {
	At     source.Span
	Area   Text   `key:"area,required" doc:"The area" eg:"hull inside"`
	Checks []Text `key:"leak check" doc:"Looked for leaks in a dark room" eg:"[before primer, after primer]" one:"before primer|after primer"`
	Soak   Text   `key:"soak" doc:"How long the light was left on" eg:"24 h"`
	Wiggle Text   `key:"wiggle" doc:"Wires moved with the light on, and what was seen" eg:"all leads, no flicker"`
	Wires  Text   `key:"wires out" doc:"The entry through which the wires were led out" eg:"mounting rod in the keel"`
	Photo  Text   `key:"photo" doc:"The photo that shows the open inside" eg:"photos/wire-route.jpg"`
}

// Closed is an area glued shut.
type Closed struct {
	At   source.Span
	Area Text                `key:"area,required,short" doc:"The area" eg:"hull inside"`
	When Val[quantity.Clock] `key:"at" doc:"Time of day; the end of the day when not given" eg:"\"18:00\""`
}

// MarkingWork is what became of numbered markings in a sitting.
type MarkingWork struct {
	At     source.Span
	Number Text     `key:"marking,required,short" doc:"Its number on the sheet" eg:"7"`
	Sheet  Text     `key:"sheet" doc:"The sheet, where the build has several" eg:"main sheet"`
	Count  Val[int] `key:"count" doc:"How many; one when not given" eg:"2"`
	Area   Text     `key:"area" doc:"Where they went" eg:"hull outside"`
	Event  Text     `key:"event" doc:"What became of them; placed when not given" eg:"spoilt" one:"placed|spoilt"`
}

// Paint is a paint, primer, varnish or wash (rack/paints.yaml).
type Paint struct {
	At       source.Span
	Kind     Text                  `key:"kind,required" doc:"Its solvent family, which decides what may go over what: waterborne acrylic, acrylic lacquer, lacquer, enamel, oil or two-pack; acrylic alone is refused" eg:"acrylic lacquer"`
	Label    Text                  `key:"label" doc:"What is written on the pot" eg:"hull grey, lot 3"`
	Colour   Val[quantity.Colour]  `key:"colour" doc:"Colour of the dry paint" eg:"\"#8a9095\""`
	Finish   Text                  `key:"finish" doc:"How it shines" eg:"satin" one:"matt|satin|gloss|metallic"`
	Clear    Val[bool]             `key:"clear" doc:"Light passes: a plain or tinted clear" eg:"yes"`
	Warmth   Val[quantity.Celsius] `key:"times at" doc:"Temperature at which the times hold; 20 °C when not given" eg:"23 °C"`
	Measured PaintTimes            `key:"measured" doc:"Times measured at the own bench; they go before the others"`
	Source   Text                  `key:"source" doc:"Where the times come from" eg:"maker's data sheet, page 2"`
	PaintTimes
}

// PaintTimes are waiting times, each from the end of the last pass.
type PaintTimes struct {
	TouchDry    Val[quantity.Hours] `key:"touch dry" doc:"Dry to the touch after" eg:"15 min"`
	Handle      Val[quantity.Hours] `key:"handle" doc:"The part may be held after" eg:"1 h"`
	Recoat      Val[quantity.Hours] `key:"recoat" doc:"The same paint may follow after" eg:"1 h"`
	RecoatUntil Val[quantity.Hours] `key:"recoat within" doc:"The same paint may follow no later than this" eg:"2 h"`
	RecoatAgain Val[quantity.Hours] `key:"recoat again" doc:"After the first window has closed, the same paint may follow from here on" eg:"8 h"`
	Other       Val[quantity.Hours] `key:"other paint after" doc:"A paint of another family may follow after" eg:"2 h"`
	MaskAfter   Val[quantity.Hours] `key:"mask after" doc:"Tape may go on it after" eg:"24 h"`
	DecalsAfter Val[quantity.Hours] `key:"decals after" doc:"Decals may go on it after" eg:"24 h"`
	WashAfter   Val[quantity.Hours] `key:"wash after" doc:"A wash may go over it after" eg:"24 h"`
	Cured       Val[quantity.Hours] `key:"cured" doc:"As hard as it gets after" eg:"72 h"`
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
	known := func(name Text, names []string, kind, remedy string) {
		if name.Set && !slices.Contains(names, name.V) {
			if strings.HasSuffix(remedy, "one that is there") && len(names) > 0 && len(names) <= 12 {
				remedy += ": " + strings.Join(names, ", ")
			}
			found.Add(ruleName.At(name.At, remedy, "%q is no %s%s", name.V, kind, meant(name.V, names)))
		}
	}
	areas := b.Front.Areas.Names()
	area := func(name Text) {
		known(name, areas, "area of this build", "add it under areas in build.md, or write one that is there")
	}
	coats := w.coatNames(b)
	coat := func(name Text) {
		known(name, coats, "paint on the rack", "add it to rack/paints.yaml or under mixes, or write one that is there")
	}
	lamps := b.LampRefs()
	for _, a := range b.Front.Areas {
		for _, lamp := range a.Value.Encloses {
			known(lamp, lamps, "lamp of this build's circuits", "write the reference of a lamp: "+lampRange(lamps))
		}
		area(a.Value.OtherFace)
		for _, other := range a.Value.Meets {
			area(other)
		}
	}
	for _, p := range b.Front.Paint {
		area(p.Name)
		for _, c := range p.Value {
			coat(c.Coat)
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
