package circuit

import (
	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// Input is one circuit as declared, and what its sum needs besides: the supply
// that it names, the bench's settings, and what a meter read.
type Input struct {
	Circuit
	Supply  Supply // that Circuit.Supply names
	Unknown bool   // it is not on the rack: whoever handed the circuit over has said so

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

// Reading is what a meter said: a current in a branch, or a voltage to ground
// at a test point or over a lamp or resistor.
type Reading struct {
	At      source.Span
	Where   source.Value[string] // branch, test point ("TP3"), lamp ("D2"), resistor ("R1") or "supply"
	Current source.Value[quantity.Amps]
	Volts   source.Value[quantity.Volts]
	Taken   string // the sitting, which keeps series of readings apart
}

// Area is a closed part of the model that lamps heat.
type Area struct {
	Name   source.Value[string]
	Volume source.Value[quantity.Litres]
}
