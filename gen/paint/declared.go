package paint

import (
	"time"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// The types below are what journals declare of a finish: tags say by which keys
// (key), what they mean (doc), an example (eg) and the words that may stand
// there (one). Fields without a key are added when the parts of a build are
// brought together.

// Area is a named region of the model.
type Area struct {
	At        source.Span
	Material  source.Value[Material]               `key:"material,required" doc:"What it is made of" eg:"styrene"`
	Encloses  []source.Value[string]               `key:"encloses" doc:"Lamps inside it" eg:"[D1, D2]"`
	Volume    source.Value[quantity.Litres]        `key:"volume" doc:"Room inside it, to estimate how warm it gets" eg:"0.4 l"`
	Side      source.Value[Side]                   `key:"side" doc:"Which side of the shell it is; the lamp side where lamps are enclosed" eg:"lamp side"`
	OtherFace source.Value[string]                 `key:"other face" doc:"The area on the other face of the same plastic" eg:"hull outside"`
	Meets     []source.Value[string]               `key:"meets" doc:"Areas it meets, whose colours are compared" eg:"[deck]"`
	Prepared  []source.Value[Work]                 `key:"treatments" doc:"What was done to the bare plastic, in order" eg:"[straightened in hot water, washed]"`
	Silence   source.Entries[source.Value[string]] `key:"silence" doc:"Rules that shall not speak for this area, each with the reason, which is printed" eg:"{primer-missing: an etching primer came on the fret}"`

	// What the hand-over adds: names, and what the sittings did.
	Name       source.Value[string]
	Treatments []Treatment // those of Prepared first
	Planned    []Coat
	Laid       []Laid
	Tests      []LightTest
	Leaks      []Leak
	Closing    Closing

	Broken bool // something in it could not be read, or names nothing
}

// Coat is one planned layer of paint.
type Coat struct {
	At       source.Span
	Paint    source.Value[string]           `key:"coat,required,short" doc:"A paint on the rack, a mix of this build, a plain colour, or decals" eg:"hull-grey"`
	For      source.Value[Purpose]          `key:"for" doc:"What the coat is for" eg:"base"`
	Thinned  source.Value[quantity.Mix]     `key:"thinned" doc:"Paint to thinner" eg:"\"1:1.5\""`
	Method   source.Value[string]           `key:"method" doc:"How it is laid" eg:"airbrush" one:"airbrush|brush|spray can|sponge|dip|marker|wipe"`
	Passes   source.Value[int]              `key:"passes" doc:"Number of passes" eg:"3"`
	Pressure source.Value[quantity.Pascals] `key:"pressure" doc:"Air pressure" eg:"1.2 bar"`
	Nozzle   source.Value[quantity.Metres]  `key:"nozzle" doc:"Diameter of the nozzle" eg:"0.3 mm"`

	Broken bool // something in it could not be read, or names nothing
}

// Mix is paints stirred together.
type Mix struct {
	At     source.Span
	Parts  source.Entries[source.Value[quantity.Portion]] `key:"parts,required" doc:"Paints of the rack and what they were thinned with, in parts, drops or volumes" eg:"{hull-grey: 12 drops, tower-white: 4 drops, thinner: 16 drops}"`
	Colour source.Value[Colour]                           `key:"colour" doc:"Colour of the dry mix" eg:"\"#9aa0a3\""`
	For    source.Value[string]                           `key:"for" doc:"Where it went" eg:"chips along the sheer line"`
	Note   source.Value[string]                           `key:"note" doc:"What else helps to stir it again" eg:"swatch on the inside of the lid"`

	Name source.Value[string] // as the build lists it

	Broken bool // something in it could not be read, or names nothing
}

// Paint is a paint, primer, varnish or wash (rack/paints.yaml).
type Paint struct {
	At       source.Span
	Kind     source.Value[string]           `key:"kind,required" doc:"Its solvent family, which decides what may go over what: waterborne acrylic, acrylic lacquer, lacquer, enamel, oil or two-pack; acrylic alone is refused" eg:"acrylic lacquer"`
	Label    source.Value[string]           `key:"label" doc:"What is written on the pot" eg:"hull grey, lot 3"`
	Colour   source.Value[Colour]           `key:"colour" doc:"Colour of the dry paint" eg:"\"#8a9095\""`
	Finish   source.Value[Finish]           `key:"finish" doc:"How it shines" eg:"satin"`
	Clear    source.Value[bool]             `key:"clear" doc:"Light passes: a plain or tinted clear" eg:"yes"`
	Warmth   source.Value[quantity.Celsius] `key:"times at" doc:"Temperature at which the times hold; 20 °C when not given" eg:"23 °C"`
	Measured PaintTimes                     `key:"measured" doc:"Times measured at the own bench; they go before the others"`
	Source   source.Value[string]           `key:"source" doc:"Where the times come from" eg:"maker's data sheet, page 2"`
	PaintTimes

	Name   source.Value[string] // as the rack or the build lists it
	Family source.Value[Family] // read from Kind

	Broken bool // something in it could not be read, or names nothing
}

// PaintTimes are waiting times, each from the end of the last pass.
type PaintTimes struct {
	TouchDry    source.Value[quantity.Hours] `key:"touch dry" doc:"Dry to the touch after" eg:"15 min"`
	Handle      source.Value[quantity.Hours] `key:"handle" doc:"The part may be held after" eg:"1 h"`
	Recoat      source.Value[quantity.Hours] `key:"recoat" doc:"The same paint may follow after" eg:"1 h"`
	RecoatUntil source.Value[quantity.Hours] `key:"recoat within" doc:"The same paint may follow no later than this" eg:"2 h"`
	RecoatAgain source.Value[quantity.Hours] `key:"recoat again" doc:"After the first window has closed, the same paint may follow from here on" eg:"8 h"`
	Other       source.Value[quantity.Hours] `key:"other paint after" doc:"A paint of another family may follow after" eg:"2 h"`
	MaskAfter   source.Value[quantity.Hours] `key:"mask after" doc:"Tape may go on it after" eg:"24 h"`
	DecalsAfter source.Value[quantity.Hours] `key:"decals after" doc:"Decals may go on it after" eg:"24 h"`
	WashAfter   source.Value[quantity.Hours] `key:"wash after" doc:"A wash may go over it after" eg:"24 h"`
	Cured       source.Value[quantity.Hours] `key:"cured" doc:"As hard as it gets after" eg:"72 h"`
}

// Marking is one numbered marking of a decal sheet.
type Marking struct {
	At     source.Span
	Number source.Value[string] `key:"marking,required,short" doc:"Its number on the sheet" eg:"7"`
	What   source.Value[string] `key:"what" doc:"What it shows" eg:"draught marks"`
	Count  source.Value[int]    `key:"count" doc:"How many the sheet carries; one when not given" eg:"2"`

	Broken bool // something in it could not be read, or names nothing
}

// MarkingWork is what became of numbered markings in a sitting.
type MarkingWork struct {
	At     source.Span
	Number source.Value[string] `key:"marking,required,short" doc:"Its number on the sheet" eg:"7"`
	Sheet  source.Value[string] `key:"sheet" doc:"The sheet, where the build has several" eg:"main sheet"`
	Count  source.Value[int]    `key:"count" doc:"How many; one when not given" eg:"2"`
	Area   source.Value[string] `key:"area" doc:"Where they went" eg:"hull outside"`
	Event  source.Value[string] `key:"event" doc:"What became of them; placed when not given" eg:"spoilt" one:"placed|spoilt"`

	When time.Time // end of the sitting

	Broken bool // something in it could not be read, or names nothing
}

// Leak is light where none is wanted.
type Leak struct {
	At     source.Span
	Where  source.Value[string]    `key:"where,required" doc:"The place" eg:"seam under the wheelhouse roof"`
	Area   source.Value[string]    `key:"area" doc:"The area whose light comes out" eg:"wheelhouse"`
	Cause  source.Value[string]    `key:"cause" doc:"Why it leaks" eg:"filler sanded through"`
	Action source.Value[string]    `key:"action" doc:"What was done about it" eg:"sealed" one:"sealed|accepted"`
	Why    source.Value[string]    `key:"why" doc:"Why it was accepted, or how it was sealed" eg:"black acrylic worked in with a needle"`
	Check  source.Value[LeakCheck] `key:"check" doc:"The look that found it" eg:"before primer"`

	Found time.Time // day of the sitting

	Broken bool // something in it could not be read, or names nothing
}

// LightTest is a run of a lux meter over the coats of one place, lamp, distance
// and meter left where they were.
type LightTest struct {
	At       source.Span
	Area     source.Value[string]       `key:"area,required" doc:"The area tested" eg:"hull inside"`
	Where    source.Value[string]       `key:"where" doc:"The spot" eg:"port side amidships"`
	Bare     source.Value[quantity.Lux] `key:"bare,required" doc:"Reading through the bare plastic" eg:"1850 lx"`
	Dark     source.Value[quantity.Lux] `key:"dark" doc:"Reading with the lamp off" eg:"0 lx"`
	Meter    source.Value[quantity.Lux] `key:"step" doc:"The meter's smallest step; 1 lx when not given" eg:"0.1 lx"`
	Target   source.Value[float64]      `key:"wanted" doc:"Wanted optical density; 3 when not given" eg:"3"`
	Readings []LightTestReading         `key:"readings,required" doc:"Readings after each coat, in order"`

	Broken bool // something in it could not be read, or names nothing
}

// LightTestReading is one reading of a light test.
type LightTestReading struct {
	At    source.Span
	After source.Value[string]       `key:"after,required" doc:"The coat laid before the reading" eg:"blackout"`
	Lux   source.Value[quantity.Lux] `key:"lux,required" doc:"What the meter showed" eg:"22 lx"`
}
