package journal

import (
	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// Circuit is a supply and everything it lights.
type Circuit struct {
	At       source.Span
	Name     Text     `key:"name,required" doc:"The circuit's name" eg:"main harness"`
	Supply   Text     `key:"supply,required" doc:"A supply on the rack" eg:"usb-5v"`
	Switch   Text     `key:"switch" doc:"The switch and where it sits" eg:"slide switch in the base"`
	Entry    Text     `key:"entry" doc:"Where the wires enter the model" eg:"mounting rod in the keel"`
	Feed     Run      `key:"feed" doc:"The wire pair from the supply to the first junction"`
	Branches []Branch `key:"branches,required" doc:"Lamps in series with their resistor"`
}

// Run is a piece of wire.
type Run struct {
	At     source.Span
	Wire   Text                 `key:"wire,required" doc:"A gauge, a copper diameter, or a wire on the rack" eg:"28 AWG"`
	Length Val[quantity.Metres] `key:"length,required" doc:"Length of the pair, one way" eg:"350 mm"`
	Colour Text                 `key:"colour" doc:"Colour of the insulation" eg:"red/black"`
}

// Branch is a string of lamps with its resistor.
type Branch struct {
	At       source.Span
	Name     Text               `key:"name,required" doc:"The branch's name" eg:"saloon fore"`
	Lamps    []Fitted           `key:"lamps,required" doc:"The lamps in series, from plus to minus"`
	Current  Val[quantity.Amps] `key:"current" doc:"Wanted current; 5 mA when not given" eg:"10 mA"`
	Resistor Text               `key:"resistor" doc:"auto, or a fixed value" eg:"auto"`
	Lead     Run                `key:"lead" doc:"The wire of the branch"`
	Matched  Text               `key:"matched" doc:"Branches of one name should look equally bright" eg:"saloon"`
}

// Fitted is a lamp in its place.
type Fitted struct {
	At    source.Span
	Lamp  Text `key:"lamp,required,short" doc:"A lamp on the rack" eg:"warm-white-3mm"`
	Place Text `key:"at" doc:"Where it sits" eg:"saloon ceiling fore"`
}
