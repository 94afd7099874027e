package journal

import (
	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// Part is a part whose number matters.
type Part struct {
	At   source.Span
	Part Text     `key:"part,required" doc:"The kit's part number" eg:"C14"`
	What Text     `key:"what" doc:"What it is" eg:"bollard"`
	Have Val[int] `key:"have,required" doc:"How many the kit packs" eg:"5"`
	Need Val[int] `key:"need,required" doc:"How many the model needs" eg:"4"`
	Area Text     `key:"area" doc:"The area it belongs to, whose material and coats it shares" eg:"deck"`
}

// PartEvent is what became of parts in a sitting.
type PartEvent struct {
	At    source.Span
	Part  Text     `key:"part,required" doc:"The kit's part number" eg:"C14"`
	Event Text     `key:"event,required" doc:"What became of it" eg:"spare used" one:"used|spare used|broken|lost|found|repaired|taken off|used elsewhere|got|made|filled|straightened"`
	Count Val[int] `key:"count" doc:"How many; one when not given" eg:"1"`
	To    Text     `key:"to" doc:"For used elsewhere: where it went, a build's folder or a place" eg:"dunnock"`
	Why   Text     `key:"why" doc:"How it came about" eg:"split when pushed home"`
}

// DecalWork is what became of decals in a sitting.
type DecalWork struct {
	At      source.Span
	Applied Val[int] `key:"applied,short" doc:"How many were applied" eg:"12"`
	Failed  Val[int] `key:"failed" doc:"How many tore, folded or silvered past use" eg:"1"`
	LeftOff Val[int] `key:"left off" doc:"How many were left off on purpose" eg:"2"`
	Why     Text     `key:"why" doc:"How it came about" eg:"two registers are for another harbour"`
}

// Extra is something on the model that did not come in the box.
type Extra struct {
	At   source.Span
	What Text `key:"what,required" doc:"What was added" eg:"turned brass mast"`
	Kind Text `key:"kind,required" doc:"What kind of addition it is" eg:"aftermarket" one:"aftermarket|etched parts|scratch-built|decals|lights|conversion"`
}

// Commission is work for a client.
type Commission struct {
	At        source.Span
	Rate      Val[quantity.Money] `key:"rate" doc:"What a bench hour costs" eg:"18 EUR"`
	Hours     Val[quantity.Hours] `key:"hours" doc:"Bench hours expected" eg:"40 h"`
	Materials Val[quantity.Money] `key:"materials" doc:"What materials are expected to cost" eg:"60 EUR"`
	Quoted    Val[quantity.Money] `key:"quoted" doc:"The price agreed on" eg:"780 EUR"`
	Deposit   Val[quantity.Money] `key:"deposit" doc:"Paid before work begins; a part of the price" eg:"200 EUR"`
	Publish   Val[bool]           `key:"publish" doc:"Whether readers of the site may see these figures" eg:"no"`
}
