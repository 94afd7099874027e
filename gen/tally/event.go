package tally

// Event is what became of parts in a sitting.
type Event string

// What can become of a part. The words are those of the journal.
const (
	Used         Event = "used"           // fitted where the instructions want it
	SpareUsed    Event = "spare used"     // a spare fitted in place of one that is broken or lost
	Broken       Event = "broken"         // past use
	Lost         Event = "lost"           // gone
	Found        Event = "found"          // a lost one turned up again
	Repaired     Event = "repaired"       // a broken one made good
	TakenOff     Event = "taken off"      // a fitted one is loose again
	Elsewhere    Event = "used elsewhere" // for something the instructions do not plan, or another build
	Got          Event = "got"            // more of them, from outside the kit
	Made         Event = "made"           // scratch-built or cast to replace one
	Filled       Event = "filled"         // needed filler: evidence for the review, the count stays
	Straightened Event = "straightened"   // was warped: evidence for the review, the count stays
)

// Events are all events, in the order in which a guide explains them.
var Events = []Event{Used, SpareUsed, Broken, Lost, Found, Repaired, TakenOff, Elsewhere, Got, Made, Filled, Straightened}
