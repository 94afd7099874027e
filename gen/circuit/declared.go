package circuit

import (
	"fmt"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// Circuit is a supply and everything it lights, as declared. This file and
// stock.go hold what a builder writes: the journal decodes straight into these
// types by their tags. A field without a tag is what a name led to, filled in
// by whoever knows the rack.
type Circuit struct {
	At        source.Span
	Name      source.Value[string] `key:"name,required" doc:"The circuit's name" eg:"main harness"`
	Supply    source.Value[string] `key:"supply,required" doc:"A supply on the rack" eg:"usb-5v"`
	Fuse      Fuse                 `key:"fuse" doc:"The fuse behind the supply" eg:"500 mA"`
	Switch    source.Value[string] `key:"switch" doc:"The switch and where it sits" eg:"slide switch in the base"`
	Entry     source.Value[string] `key:"entry" doc:"Where the wires enter the model" eg:"mounting rod in the keel"`
	Feed      Run                  `key:"feed" doc:"The wire pair from the supply to the first junction"`
	Junction  source.Value[string] `key:"junction" doc:"What the first junction is called, at the feed's end" eg:"keel block"`
	Junctions []Junction           `key:"junctions" doc:"Further junctions, each at the end of its own wire pair"`
	Branches  []Branch             `key:"branches,required" doc:"Lamps in series with their resistor"`
	Fibres    []FibreBundle        `key:"fibres" doc:"Optical fibres that lamps feed"`

	Broken bool // something in it could not be read, or names nothing
}

// place is where findings about the whole circuit stand.
func (c *Circuit) place() source.Span {
	if c.Name.At.Known() {
		return c.Name.At
	}
	return c.At
}

// LampRef is the reference of a build's n-th lamp: D1.
func LampRef(n int) string { return fmt.Sprintf("D%d", n) }

// Lamps counts the circuit's lamps.
func (c *Circuit) Lamps() int {
	n := 0
	for i := range c.Branches {
		n += len(c.Branches[i].Lamps)
	}
	return n
}

// Fuse protects the wires.
type Fuse struct {
	At         source.Span
	Rated      source.Value[quantity.Amps] `key:"rated,required,short" doc:"Its rated current" eg:"500 mA"`
	Resistance source.Value[quantity.Ohms] `key:"resistance" doc:"Its cold resistance; worked out from a drop of 0.1 V at the rated current when not given" eg:"0.3 ohm"`
	Text       source.Value[string]        `key:"type" doc:"What it is and where it sits" eg:"5 × 20 mm, quick, in the base"`
}

// Junction is a place where wires part.
type Junction struct {
	At   source.Span
	Name source.Value[string] `key:"name,required" doc:"The junction's name" eg:"wheelhouse"`
	From source.Value[string] `key:"from" doc:"The junction that feeds it; the first one when not given" eg:"keel block"`
	Run
}

// Run is a pair of equal wires: there and back.
type Run struct {
	At     source.Span
	Wire   source.Value[string]          `key:"wire,required" doc:"A gauge, a copper diameter, or a wire on the rack" eg:"28 AWG"`
	Length source.Value[quantity.Metres] `key:"length,required" doc:"Length of the pair, one way" eg:"350 mm"`
	Colour source.Value[string]          `key:"colour" doc:"Colour of the insulation" eg:"red/black"`

	Connector Connector `key:"connector" doc:"The plug and socket by which the pair comes apart, where it does" eg:"2-pin plug, 1.25 mm pitch"`

	Size source.Value[quantity.WireSize] // that Wire names; not set: no wire, or an unknown one
}

// Connector is a plug and its socket in a pair of wires, a contact in either.
// Kind is set where there is one.
type Connector struct {
	At         source.Span
	Kind       source.Value[string]          `key:"kind,required,short" doc:"What it is, by a term of the trade" eg:"2-pin plug, 1.25 mm pitch"`
	Place      source.Value[string]          `key:"at" doc:"Where in the model it sits" eg:"keel rod"`
	After      source.Value[quantity.Metres] `key:"after" doc:"How far along the wire it sits, from the supply's side; at its beginning when not given" eg:"120 mm"`
	Resistance source.Value[quantity.Ohms]   `key:"resistance" doc:"Resistance of one contact; none is reckoned with when not given" eg:"20 mohm"`
}

// Branch is a string of lamps with what limits its current.
type Branch struct {
	At       source.Span
	Name     source.Value[string]        `key:"name,required" doc:"The branch's name" eg:"saloon fore"`
	Junction source.Value[string]        `key:"junction" doc:"The junction it hangs on; the first one when not given" eg:"wheelhouse"`
	Lamps    []Fitted                    `key:"lamps,required" doc:"The lamps in series, from plus to minus"`
	Parallel source.Value[bool]          `key:"parallel" doc:"yes where the lamps lie side by side on one resistor, which is worked out and warned of" eg:"no"`
	Current  source.Value[quantity.Amps] `key:"current" doc:"Wanted current of each lamp; 5 mA when not given" eg:"10 mA"`
	Resistor source.Value[Limiter]       `key:"resistor" doc:"auto, a fixed value with its rating and tolerance where known, or none" eg:"470R 0.25 W"`
	Driver   Driver                      `key:"driver" doc:"A constant-current driver instead of a resistor"`
	Lead     Run                         `key:"lead" doc:"The wire of the branch"`
	Matched  source.Value[string]        `key:"matched" doc:"Branches of one name should look equally bright" eg:"saloon"`
	Control  source.Value[Control]       `key:"control" doc:"steady, blink 1.2 Hz 20 %, fade 4 s, or pwm 490 Hz 30 %" eg:"blink 1.2 Hz 20 %"`
}

// place is where findings about the branch stand.
func (b *Branch) place() source.Span {
	if b.Name.At.Known() {
		return b.Name.At
	}
	return b.At
}

// TakesResistor reports whether a resistor limits its current, as declared.
func (b *Branch) TakesResistor() bool {
	return !b.Driver.Current.Set && b.Resistor.V.Kind != None
}

// limiterAt is where findings about what limits its current stand.
func (b *Branch) limiterAt() source.Span {
	if b.Driver.Current.Set {
		return b.Driver.At
	}
	return b.Resistor.At
}

// Driver is a constant-current driver.
type Driver struct {
	At        source.Span
	Current   source.Value[quantity.Amps]  `key:"current,required" doc:"The current it is set to" eg:"10 mA"`
	Dropout   source.Value[quantity.Volts] `key:"dropout,required" doc:"What it needs over itself to hold its current" eg:"0.5 V"`
	Tolerance source.Value[quantity.Share] `key:"tolerance" doc:"How far its current may lie from what it is set to" eg:"10 %"`
}

// Fitted is a lamp in its place.
type Fitted struct {
	At    source.Span
	Lamp  source.Value[string] `key:"lamp,required,short" doc:"A lamp on the rack" eg:"warm-white-3mm"`
	Place source.Value[string] `key:"at" doc:"Where it sits" eg:"saloon ceiling fore"`
	Shows source.Value[string] `key:"shows" doc:"The light it shows by rule, on craft that carry such lights; else it is the builder's choice" eg:"port" one:"port|starboard|masthead|stern|towing|all-round|anti-collision"`

	Type Lamp   // that Lamp names; empty: not on the rack
	Area string // that encloses it, if any
}

// FibreBundle is optical fibres fed by one lamp.
type FibreBundle struct {
	At     source.Span
	From   source.Value[string]          `key:"from,required" doc:"The lamp that feeds them, by its reference" eg:"D3"`
	Count  source.Value[int]             `key:"count,required" doc:"Number of strands" eg:"12"`
	Size   source.Value[quantity.Metres] `key:"size,required" doc:"Diameter of a strand" eg:"0.5 mm"`
	Length source.Value[quantity.Metres] `key:"length,required" doc:"Length of a strand" eg:"180 mm"`
	Place  source.Value[string]          `key:"at" doc:"Where the ends come out" eg:"hull windows"`
}
