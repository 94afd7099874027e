package journal

import (
	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// Circuit is a supply and everything it lights.
type Circuit struct {
	At        source.Span
	Name      Text          `key:"name,required" doc:"The circuit's name" eg:"main harness"`
	Supply    Text          `key:"supply,required" doc:"A supply on the rack" eg:"usb-5v"`
	Fuse      Fuse          `key:"fuse" doc:"The fuse behind the supply" eg:"500 mA"`
	Switch    Text          `key:"switch" doc:"The switch and where it sits" eg:"slide switch in the base"`
	Entry     Text          `key:"entry" doc:"Where the wires enter the model" eg:"mounting rod in the keel"`
	Feed      Run           `key:"feed" doc:"The wire pair from the supply to the first junction"`
	First     Text          `key:"junction" doc:"What the first junction is called, at the feed's end" eg:"keel block"`
	Junctions []Junction    `key:"junctions" doc:"Further junctions, each at the end of its own wire pair"`
	Branches  []Branch      `key:"branches,required" doc:"Lamps in series with their resistor"`
	Fibres    []FibreBundle `key:"fibres" doc:"Optical fibres that lamps feed"`
}

// Fuse protects the wires.
type Fuse struct {
	At         source.Span
	Rated      Val[quantity.Amps] `key:"rated,required,short" doc:"Its rated current" eg:"500 mA"`
	Resistance Val[quantity.Ohms] `key:"resistance" doc:"Its cold resistance; worked out from a drop of 0.1 V at the rated current when not given" eg:"0.3 ohm"`
	Text       Text               `key:"type" doc:"What it is and where it sits" eg:"5 × 20 mm, quick, in the base"`
}

// Junction is a place where wires part.
type Junction struct {
	At   source.Span
	Name Text `key:"name,required" doc:"The junction's name" eg:"wheelhouse"`
	From Text `key:"from" doc:"The junction that feeds it; the first one when not given" eg:"keel block"`
	Run
}

// Run is a piece of wire.
type Run struct {
	At     source.Span
	Wire   Text                 `key:"wire,required" doc:"A gauge, a copper diameter, or a wire on the rack" eg:"28 AWG"`
	Length Val[quantity.Metres] `key:"length,required" doc:"Length of the pair, one way" eg:"350 mm"`
	Colour Text                 `key:"colour" doc:"Colour of the insulation" eg:"red/black"`

	Connector Connector `key:"connector" doc:"The plug and socket by which the pair comes apart, where it does" eg:"2-pin plug, 1.25 mm pitch"`
}

// Connector is a plug and its socket in a pair of wires.
type Connector struct {
	At         source.Span
	Kind       Text                 `key:"kind,required,short" doc:"What it is, by a term of the trade" eg:"2-pin plug, 1.25 mm pitch"`
	Place      Text                 `key:"at" doc:"Where in the model it sits" eg:"keel rod"`
	After      Val[quantity.Metres] `key:"after" doc:"How far along the wire it sits, from the supply's side; at its beginning when not given" eg:"120 mm"`
	Resistance Val[quantity.Ohms]   `key:"resistance" doc:"Resistance of one contact; none is reckoned with when not given" eg:"20 mohm"`
}

// Branch is a string of lamps with what limits its current.
type Branch struct {
	At       source.Span
	Name     Text               `key:"name,required" doc:"The branch's name" eg:"saloon fore"`
	Junction Text               `key:"junction" doc:"The junction it hangs on; the first one when not given" eg:"wheelhouse"`
	Lamps    []Fitted           `key:"lamps,required" doc:"The lamps in series, from plus to minus"`
	Parallel Val[bool]          `key:"parallel" doc:"yes where the lamps lie side by side on one resistor, which is worked out and warned of" eg:"no"`
	Current  Val[quantity.Amps] `key:"current" doc:"Wanted current of each lamp; 5 mA when not given" eg:"10 mA"`
	Resistor Val[Limiter]       `key:"resistor" doc:"auto, a fixed value with its rating and tolerance where known, or none" eg:"470R 0.25 W"`
	Driver   Driver             `key:"driver" doc:"A constant-current driver instead of a resistor"`
	Lead     Run                `key:"lead" doc:"The wire of the branch"`
	Matched  Text               `key:"matched" doc:"Branches of one name should look equally bright" eg:"saloon"`
	Control  Val[Control]       `key:"control" doc:"steady, blink 1.2 Hz 20 %, fade 4 s, or pwm 490 Hz 30 %" eg:"blink 1.2 Hz 20 %"`
}

// Driver is a constant-current driver.
type Driver struct {
	At        source.Span
	Current   Val[quantity.Amps]  `key:"current,required" doc:"The current it is set to" eg:"10 mA"`
	Dropout   Val[quantity.Volts] `key:"dropout,required" doc:"What it needs over itself to hold its current" eg:"0.5 V"`
	Tolerance Val[quantity.Share] `key:"tolerance" doc:"How far its current may lie from what it is set to" eg:"10 %"`
}

// Fitted is a lamp in its place.
type Fitted struct {
	At    source.Span
	Lamp  Text `key:"lamp,required,short" doc:"A lamp on the rack" eg:"warm-white-3mm"`
	Place Text `key:"at" doc:"Where it sits" eg:"saloon ceiling fore"`
	Shows Text `key:"shows" doc:"The light it shows by rule, on craft that carry such lights; else it is the builder's choice" eg:"port" one:"port|starboard|masthead|stern|towing|all-round|anti-collision"`
}

// FibreBundle is optical fibres fed by one lamp.
type FibreBundle struct {
	At     source.Span
	From   Text                 `key:"from,required" doc:"The lamp that feeds them, by its reference" eg:"D3"`
	Count  Val[int]             `key:"count,required" doc:"Number of strands" eg:"12"`
	Size   Val[quantity.Metres] `key:"size,required" doc:"Diameter of a strand" eg:"0.5 mm"`
	Length Val[quantity.Metres] `key:"length,required" doc:"Length of a strand" eg:"180 mm"`
	Place  Text                 `key:"at" doc:"Where the ends come out" eg:"hull windows"`
}
