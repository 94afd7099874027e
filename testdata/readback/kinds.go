// Package readback reads a circuit diagram as a person with a pencil would:
// symbols by their shape, wires and dots by their coordinates, never by ids or
// data attributes. It rebuilds the netlist and checks the layout.
//
// It shares nothing with the package that draws, so that a mistake there cannot
// hide here. Only tests import it.
package readback

// kind is a symbol that a drawing can hold.
type kind string

const (
	wireKind     kind = "wire" // a length of insulated wire
	resistorKind kind = "resistor"
	driverKind   kind = "driver"
	lampKind     kind = "lamp"
	fuseKind     kind = "fuse"
	switchKind   kind = "switch"
	plugKind     kind = "connector" // one contact: a cup and the bar in it
	batteryKind  kind = "battery"
	sourceKind   kind = "source"     // any supply that is no battery
	pointKind    kind = "test-point" // numbered as on the meter card
	flagKind     kind = "continues"  // joined to the flag of the same letters
	endKind      kind = "end"        // a wire that leads nowhere yet
)

// Weights of a diagram's lines, in drawing units: a wire is told from a
// symbol's outline by its width.
const (
	wireWidth = 1.5
	bodyWidth = 1.1
	dotRadius = 2.75

	flagHeight  = 16.0
	pointRadius = 8.0 // of the smallest test point; smaller circles are ends
	refGap      = 5.0 // between a reference and the words on its line
)
