package tally

import (
	"strconv"
	"strings"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// This file holds what a builder declares: the journal decodes straight into
// these types by their tags.

// Kit is what is in the box, and how it came to the bench.
type Kit struct {
	At       source.Span
	Maker    source.Value[string]         `key:"maker" doc:"Who makes it" eg:"Halden Model Works"`
	Title    source.Value[string]         `key:"title" doc:"Title on the box" eg:"Coastal Survey Skiff"`
	Number   source.Value[string]         `key:"number" doc:"The maker's number" eg:"HM-3204"`
	Released source.Value[string]         `key:"released" doc:"Year of release" eg:"2025"`
	Parts    source.Value[int]            `key:"parts" doc:"Number of parts" eg:"186"`
	Price    source.Value[quantity.Money] `key:"price" doc:"Price, whoever paid it" eg:"92 EUR"`
	Obtained source.Value[string]         `key:"obtained" doc:"How it came to the bench; stated above every verdict" eg:"review sample" one:"review sample|gift|commission|bought|loan|discounted"`
	From     source.Value[string]         `key:"from" doc:"Who sent or gave it" eg:"the maker"`
	Lights   source.Value[bool]           `key:"lights" doc:"Whether the kit brings its own lamps, which club shows do not count as added" eg:"no"`
}

// Spend is money laid out.
type Spend struct {
	At    source.Span
	On    source.Value[string]         `key:"on,required" doc:"What for" eg:"enamelled wire"`
	Price source.Value[quantity.Money] `key:"price,required" doc:"What it cost" eg:"6.50 EUR"`
}

// Commission is work for a client.
type Commission struct {
	At        source.Span
	Rate      source.Value[quantity.Money] `key:"rate" doc:"What a bench hour costs" eg:"18 EUR"`
	Hours     source.Value[quantity.Hours] `key:"hours" doc:"Bench hours expected" eg:"40 h"`
	Materials source.Value[quantity.Money] `key:"materials" doc:"What materials are expected to cost" eg:"60 EUR"`
	Quoted    source.Value[quantity.Money] `key:"quoted" doc:"The price agreed on" eg:"780 EUR"`
	Deposit   source.Value[quantity.Money] `key:"deposit" doc:"Paid before work begins; a part of the price" eg:"200 EUR"`
	Publish   source.Value[bool]           `key:"publish" doc:"Whether readers of the site may see these figures" eg:"no"`
}

// Part is a part of the kit that somebody bothered to count.
type Part struct {
	At   source.Span
	Part source.Value[string] `key:"part,required" doc:"The kit's part number" eg:"C14"`
	What source.Value[string] `key:"what" doc:"What it is" eg:"bollard"`
	Have source.Value[int]    `key:"have,required" doc:"How many the kit packs" eg:"5"`
	Need source.Value[int]    `key:"need,required" doc:"How many the model needs" eg:"4"`
	Area source.Value[string] `key:"area" doc:"The area it belongs to, whose material and coats it shares" eg:"deck"`

	Broken bool // something in it could not be read, or names nothing
}

// PartEvent is what became of parts in a sitting.
type PartEvent struct {
	At    source.Span
	Part  source.Value[string] `key:"part,required" doc:"The kit's part number" eg:"C14"`
	Event source.Value[string] `key:"event,required" doc:"What became of it" eg:"spare used" one:"used|spare used|broken|lost|found|repaired|taken off|used elsewhere|got|made|filled|straightened"`
	Count source.Value[int]    `key:"count" doc:"How many; one when not given" eg:"1"`
	To    source.Value[string] `key:"to" doc:"For used elsewhere: where it went, a build's folder or a place" eg:"dunnock"`
	Why   source.Value[string] `key:"why" doc:"How it came about" eg:"split when pushed home"`

	Broken bool // something in it could not be read, or names nothing
}

// DecalWork is what became of decals in a sitting.
type DecalWork struct {
	At      source.Span
	Applied source.Value[int]    `key:"applied,short" doc:"How many were applied" eg:"12"`
	Failed  source.Value[int]    `key:"failed" doc:"How many tore, folded or silvered past use" eg:"1"`
	LeftOff source.Value[int]    `key:"left off" doc:"How many were left off on purpose" eg:"2"`
	Why     source.Value[string] `key:"why" doc:"How it came about" eg:"two registers are for another harbour"`
}

// Extra is something on the model that did not come in the box.
type Extra struct {
	At   source.Span
	What source.Value[string] `key:"what,required" doc:"What was added" eg:"turned brass mast"`
	Kind source.Value[string] `key:"kind,required" doc:"What kind of addition it is: aftermarket, etched parts, scratch-built, decals, lights, conversion; another word is a warning" eg:"aftermarket"`
}

// Choice is an either/or that the kit offers.
type Choice struct {
	At       source.Span
	Question source.Value[string]   `key:"question,required" doc:"What is to be decided" eg:"crane jib"`
	Options  []Option               `key:"options,required" doc:"What the kit offers"`
	Chosen   source.Value[string]   `key:"chosen" doc:"What was chosen" eg:"swung out"`
	Why      source.Value[string]   `key:"why" doc:"The reason" eg:"it carries the work lamp"`
	Areas    []source.Value[string] `key:"areas" doc:"Once these are closed it cannot be changed" eg:"[deck]"`
}

// Option is one of the ways to build.
type Option struct {
	At    source.Span
	Name  source.Value[string] `key:"name,required,short" doc:"What it is called" eg:"swung out"`
	Photo source.Value[string] `key:"photo" doc:"A picture of it, inside the build's folder" eg:"photos/jib-out.jpg"`
	Alt   source.Value[string] `key:"alt" doc:"What is to be seen, for readers who cannot see it" eg:"The jib swung out over the side"`
}

// Problem is a fault that some parts show and others do not: which treatment
// do the affected ones share?
type Problem struct {
	At         source.Span
	Name       source.Value[string]       `key:"name" doc:"What it is called on the site; the symptom when not given" eg:"crazing on the deck houses"`
	Kind       source.Value[string]       `key:"kind" doc:"What it concerns, so that the review can point to it" eg:"paint" one:"fit|detail|moulding|instructions|decals|engineering|breakage|lighting|leak|accuracy|paint|other"`
	Symptom    source.Value[string]       `key:"symptom,required" doc:"What the affected parts did" eg:"lifted under tape"`
	Noun       source.Value[string]       `key:"of" doc:"What is compared; parts when not given" eg:"part" one:"part|area|decal|lamp"`
	Seen       source.Value[quantity.Day] `key:"seen" doc:"When it was first seen" eg:"2026-02-21"`
	Affected   []source.Value[string]     `key:"affected" doc:"Parts or areas that show it" eg:"[B2, B5]"`
	Sound      []source.Value[string]     `key:"sound" doc:"Parts or areas that do not, though they might" eg:"[B1, B3, B4]"`
	Treatments source.Entries[Treatment]  `key:"treatments" doc:"What was done to which of them; what areas and sittings say is added"`
	Tests      []Trial                    `key:"tests" doc:"Trials made to find the cause"`
	Outcome    source.Value[string]       `key:"outcome" doc:"What it turned out to be, and what became of it" eg:"the new can; stripped and primed again"`

	Broken bool // something in it could not be read, or names nothing
}

// Treatment is something done to parts, or true of them. Its name says it of a
// part as readers would: "cast in resin", "primed from the new can".
type Treatment struct {
	At      source.Span
	On      []source.Value[string] `key:"on,required,short" doc:"The parts or areas it was done to" eg:"[B2, B5]"`
	Instead source.Value[string]   `key:"instead" doc:"What the others had" eg:"primed from the old can"`

	// The words for both where they are the program's own; else the names stand.
	Says, InsteadSays source.Message
}

// Trial is a test on a part or a test piece, made to find a cause.
type Trial struct {
	At         source.Span
	Piece      source.Value[string]   `key:"piece,required" doc:"The test piece" eg:"sprue end 1"`
	Treatments []source.Value[string] `key:"treatments" doc:"What it was given, by the names of the treatments" eg:"[cast in resin]"`
	Affected   source.Value[bool]     `key:"affected" doc:"Whether it showed the symptom; left out until it is known" eg:"no"`
	Note       source.Value[string]   `key:"note" doc:"What else was seen" eg:"held under tape for a day"`
}

// Fault is something wrong with the kit itself.
type Fault struct {
	At    source.Span
	Kind  source.Value[string]          `key:"kind,required" doc:"The trade's term for it: flash, sink mark, ejector-pin mark, short shot, warp, misalignment, gap, step, missing part, misregistered decal, scratched clear part; another word is a warning" eg:"sink mark"`
	Part  source.Value[string]          `key:"part" doc:"Where it is" eg:"hull half to port"`
	Size  source.Value[quantity.Metres] `key:"size" doc:"How large, where it was measured" eg:"0.4 mm"`
	Shows source.Value[bool]            `key:"shows" doc:"Whether it shows on the finished model" eg:"no"`
	Note  source.Value[string]          `key:"note" doc:"What was done about it" eg:"filled with stretched sprue"`
}

// Mark is the judgement on one criterion, with its reason.
type Mark struct {
	At    source.Span
	Score source.Value[Score]  `key:"mark,required,short" doc:"The mark, or not assessed" eg:"7"`
	Why   source.Value[string] `key:"why" doc:"The reason" eg:"two gaps at the deck needed filler"`
}

// Score is a mark, or the statement that none is given.
type Score struct {
	Mark        float64
	NotAssessed bool
}

// UnmarshalText reads "7.5" or "not assessed".
func (s *Score) UnmarshalText(text []byte) error {
	written := strings.TrimSpace(string(text))
	if strings.EqualFold(written, "not assessed") {
		*s = Score{NotAssessed: true}
		return nil
	}
	v, err := strconv.ParseFloat(written, 64)
	if err != nil || v != v || v > 1e6 || v < -1e6 {
		return quantity.Wrong(0, len(text), "write a number, or not assessed",
			"%q is no mark", written)
	}
	*s = Score{Mark: v}
	return nil
}

// String prints the mark as it is written.
func (s Score) String() string {
	if s.NotAssessed {
		return "not assessed"
	}
	return strconv.FormatFloat(s.Mark, 'f', -1, 64)
}
