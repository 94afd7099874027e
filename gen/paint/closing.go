package paint

import (
	"time"

	"spruelight/gen/source"
)

// Closing is what is known before an area is glued shut, and whether it was.
// The electrical side is handed over from the solved circuit and the sittings.
type Closing struct {
	Closed      source.Value[time.Time] // when it was glued shut; not set while it is open
	Lamps       []EnclosedLamp
	Readings    []EnclosedReading
	Checks      []DoneCheck          // dark-room checks made
	Soak        source.Value[string] // "24 h" or what was noted
	Wiggle      source.Value[string] // what was noted
	Entry       source.Value[string] // where the wires leave, as the circuit names it
	Routed      source.Value[string] // the entry through which a sitting led the wires out
	Photo       source.Value[string] // the photo that shows the inside
	Unreachable []source.Message     // what nobody can reach afterwards, besides lamps and coats
}

// EnclosedLamp is a lamp inside the area.
type EnclosedLamp struct {
	Ref, At string
	Lit     []time.Time // sittings in which it was seen to light
}

// EnclosedReading is a test point of a branch inside the area.
type EnclosedReading struct {
	At     string         // the branch or test point
	Band   source.Message // "9.1 to 10.3 mA"
	Text   source.Message // "9.6 mA"; empty where nothing was measured
	Within bool
}

// DoneCheck is a dark-room check that was made.
type DoneCheck struct {
	Check LeakCheck
	When  time.Time
}
