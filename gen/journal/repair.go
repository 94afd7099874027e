package journal

import (
	"io/fs"
	"slices"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// Repair is what whoever opens the model in ten years must be told and the
// rest of the journal does not say.
type Repair struct {
	At          source.Span
	Open        []Text                             `key:"open" doc:"How to open it, step by step" eg:"[lay the model on a cloth, undo the four screws under the base]"`
	Plug        Text                               `key:"plug" doc:"Its plug or socket with size and polarity, where there is more to say than the supply on the rack does" eg:"5.5/2.1 mm socket in the rear edge, plus inside"`
	DayOne      source.Entries[Val[quantity.Amps]] `key:"day one" doc:"Current from the supply of each circuit, measured on the day it was finished" eg:"{main harness: 17.2 mA}"`
	Resistors   Text                               `key:"resistors" doc:"Where the resistors sit, and whether they can be reached" eg:"on a strip of board under the deck hatch"`
	Route       []Text                             `key:"route" doc:"The way of the wires from the base inward" eg:"[up the mounting rod, aft along the keel, each lead to its lamp]"`
	Photo       Text                               `key:"photo" doc:"The photo that shows the wires; that of the open inside when not given" eg:"photos/wire-route.jpg"`
	Unreachable []Text                             `key:"unreachable" doc:"What cannot be reached without breaking something, besides the closed areas" eg:"[the joint of rod and keel]"`
	Spares      []SpareKept                        `key:"spares" doc:"Spares kept for repairs, and where"`
	Known       []Text                             `key:"known problems" doc:"What is not as it should be, and was left so" eg:"[the aft hatch does not close flush]"`
	Cautions    []Text                             `key:"cautions" doc:"What can hurt the model or whoever opens it" eg:"[the mast breaks if the model is laid on its port side]"`
}

// SpareKept is something put aside for repairs.
type SpareKept struct {
	At    source.Span
	What  Text `key:"what,required,short" doc:"What it is, and how many" eg:"two amber lamps"`
	Where Text `key:"where" doc:"Where it is kept" eg:"in a bag taped under the base"`
}

// Written reports whether anything was written for repairers.
func (r *Repair) Written() bool {
	return len(r.Open)+len(r.DayOne)+len(r.Route)+len(r.Unreachable)+len(r.Spares)+len(r.Known)+len(r.Cautions) > 0 || r.Plug.Set ||
		r.Resistors.Set || r.Photo.Set
}

// checkRepair holds the circuits and the photo that repair names against those
// that there are.
func checkRepair(fsys fs.FS, b *Build) source.Findings {
	r := &b.Front.Repair
	found := checkPhoto(fsys, b, r.Photo)
	var circuits []string
	for _, c := range b.Front.Circuits {
		circuits = append(circuits, c.Name.V)
	}
	for _, e := range r.DayOne {
		if !slices.Contains(circuits, e.Name.V) {
			found.Add(noSuch(e.Name, circuits, "circuit of this build", source.Say("write the name of one: %s", source.Row(circuits))))
		}
	}
	return found
}
