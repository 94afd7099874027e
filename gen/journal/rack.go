package journal

import (
	"spruelight/gen/circuit"
	"spruelight/gen/paint"
	"spruelight/gen/source"
)

// Rack is the stock that builds share: the files under rack/.
type Rack struct {
	Lamps    source.Entries[circuit.Lamp]
	Supplies source.Entries[circuit.Supply]
	Paints   source.Entries[paint.Paint]
	Wire     source.Entries[circuit.Wire]
}
