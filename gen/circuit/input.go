package circuit

import (
	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// Input is one circuit as declared: a supply, the way to its first junction, a
// tree of junctions, and branches on them.
type Input struct {
	Name     source.Value[string]
	Supply   Supply
	Switch   Switch
	Fuse     Fuse
	Entry    source.Value[string] // where the wires enter the model
	Feed     Run                  // the wire pair from the supply to the first junction
	Junction source.Value[string] // what the first junction is called; default "first junction"

	Junctions []Junction // those beyond the first
	Branches  []Branch

	Series    quantity.Series // for auto resistors; zero: E24
	Tolerance source.Value[quantity.Share]
	Camera    source.Value[quantity.Hours] // exposure time, in hours; not set: no camera is asked about
	Scale     float64                      // real length over model length; zero: unknown
	Readings  []Reading

	// First holds the numbers that the references of this circuit begin at, so
	// that a build of several circuits has every reference once.
	First Refs
}

// Refs are the next numbers of D1, R1, U1, F1, S1, B1 and of the test points.
// Zero stands for one.
type Refs struct {
	Supply, Fuse, Switch, Lamp, Resistor, Driver, TestPoint, Connector int
}

// Run is a pair of equal wires: there and back.
type Run struct {
	At     source.Span
	Name   source.Value[string] // the rack's name of the wire, or as written
	Size   source.Value[quantity.WireSize]
	Length source.Value[quantity.Metres] // one way
	Colour source.Value[string]          // of the insulation, for the loom

	Connector Connector
}

// Connector is a plug and its socket in a run, a contact in either wire. Kind
// is set where there is one.
type Connector struct {
	Kind       source.Value[string]
	Place      source.Value[string]
	After      source.Value[quantity.Metres] // along the run from the supply's side; not set: at its beginning
	Resistance source.Value[quantity.Ohms]   // of one contact; not set: none
}

// Switch is a switch between supply and feed. Text says which and where.
type Switch struct {
	Text       source.Value[string]
	Resistance source.Value[quantity.Ohms] // of the closed contact
}

// Fuse is a fuse between supply and switch.
type Fuse struct {
	Rated      source.Value[quantity.Amps]
	Resistance source.Value[quantity.Ohms] // cold
	Text       source.Value[string]
}

// SupplyKind says what feeds a circuit.
type SupplyKind string

// The kinds of supply.
const (
	Battery    SupplyKind = "battery"
	ButtonCell SupplyKind = "button cell"
	USB        SupplyKind = "usb"
	Adapter    SupplyKind = "mains adapter"
	PowerBank  SupplyKind = "power bank"
	Bench      SupplyKind = "bench supply"
)

// SupplyKinds lists the kinds, for messages and schemas.
var SupplyKinds = []string{string(Battery), string(ButtonCell), string(USB), string(Adapter), string(PowerBank), string(Bench)}

// cells reports whether a supply is made of cells that empty.
func (k SupplyKind) cells() bool { return k == Battery || k == ButtonCell }

// Supply is what feeds a circuit.
type Supply struct {
	At         source.Span
	Name       source.Value[string]
	Unknown    bool                 // named, but not in stock: whoever handed it over has said so
	Kind       source.Value[string] // one of SupplyKinds
	Volts      source.Value[quantity.Volts]
	Tolerance  source.Value[quantity.Share]
	Fresh      source.Value[quantity.Volts] // of new cells, unloaded
	Inside     source.Value[quantity.Ohms]  // inside resistance
	Limit      source.Value[quantity.Amps]
	Regulated  source.Value[bool]
	Measured   source.Value[quantity.Volts] // unloaded, by the builder's meter
	Capacity   source.Value[quantity.AmpHours]
	Ends       source.Value[quantity.Volts] // at which it counts as empty
	Cells      source.Value[string]         // type of cell by IEC 60086: LR6, CR2032 …
	InSeries   source.Value[int]
	InParallel source.Value[int]
	Curve      []source.Value[Depth]       // declared discharge curve
	AutoOff    source.Value[quantity.Amps] // load below which a power bank switches off
}

// Depth is a point of a discharge curve: the volts of the whole supply when a
// share of its capacity is used.
type Depth struct {
	Volts quantity.Volts
	Used  quantity.Share
}

// Junction is a place where a feed ends and branches and further feeds begin.
type Junction struct {
	Name source.Value[string]
	From source.Value[string] // another junction; not set: the first one
	Run  Run
}

// Branch is a string of lamps with what limits its current.
type Branch struct {
	At       source.Span
	Name     source.Value[string]
	Junction source.Value[string] // not set: the first junction
	Lamps    []Lamp
	Parallel source.Value[bool] // lamps side by side on one resistor, instead of in a string
	Current  source.Value[quantity.Amps]
	Resistor source.Value[Resistor]
	Lead     Run
	Matched  source.Value[string] // group of branches that should look equally bright
	Control  source.Value[Control]
}

// Resistor says what limits a branch's current.
type Resistor struct {
	Kind      ResistorKind
	Ohms      quantity.Ohms  // Fixed
	Rated     quantity.Watts // Fixed, 0: not said
	Tolerance quantity.Share // Fixed, 0: the circuit's
	Current   quantity.Amps  // Driver
	Dropout   quantity.Volts // Driver: what it needs over itself
}

// ResistorKind is one way to limit a current.
type ResistorKind int

const (
	Auto   ResistorKind = iota // chosen by Solve
	Fixed                      // a resistor of given value
	Driver                     // a constant-current driver
	None                       // nothing but wire and the supply's inside resistance
)

// Lamp is one LED as fitted, with the data of its model on the rack.
type Lamp struct {
	At      source.Span
	Model   source.Value[string]
	Place   source.Value[string] // where it sits
	Area    string               // the area that encloses it, if any
	Colour  source.Value[string] // a word such as "white" or a hex
	Size    source.Value[quantity.Metres]
	Forward []source.Value[quantity.Point]
	Spread  source.Value[quantity.Volts] // how far another lamp's forward voltage may lie from this curve
	Rated   source.Value[quantity.Amps]
	Limit   source.Value[quantity.Amps] // absolute maximum
	Reverse source.Value[quantity.Volts]
	Bright  source.Value[quantity.Brightness]
	Source  string // of the lamp's data
	Shows   source.Value[string]
	Fibres  []Fibre
}

// Fibre is a bundle of optical fibres fed by a lamp.
type Fibre struct {
	At     source.Span
	Count  source.Value[int]
	Size   source.Value[quantity.Metres] // diameter of a strand
	Length source.Value[quantity.Metres]
	Place  source.Value[string] // where the ends come out
}

// ControlKind is a way to drive a branch over time.
type ControlKind string

const (
	Steady ControlKind = "steady"
	Blink  ControlKind = "blink"
	Fade   ControlKind = "fade"
	PWM    ControlKind = "pwm"
)

// Control says how a branch is driven over time.
type Control struct {
	Kind      ControlKind
	Frequency quantity.Hertz // Blink, PWM (0: not said)
	Period    quantity.Hours // Fade: dark to bright and back
	Duty      quantity.Share // Blink, PWM: share of the time that the lamps are on
}

// Reading is what a meter said: a current in a branch, or a voltage to ground
// at a test point or over a lamp or resistor.
type Reading struct {
	At      source.Span
	Where   source.Value[string] // branch, test point ("TP3"), lamp ("D2"), resistor ("R1") or "supply"
	Current source.Value[quantity.Amps]
	Volts   source.Value[quantity.Volts]
	Taken   string // the sitting, to tell series of readings apart
}

// Area is a closed part of the model that lamps heat.
type Area struct {
	Name   source.Value[string]
	Volume source.Value[quantity.Litres]
}
