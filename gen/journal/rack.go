package journal

import (
	"spruelight/gen/paint"
	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// Rack is the stock that builds share: the files under rack/.
type Rack struct {
	Lamps    source.Entries[Lamp]
	Supplies source.Entries[Supply]
	Paints   source.Entries[paint.Paint]
	Wire     source.Entries[Wire]
}

// Lamp is one type of LED as its data sheet describes it (rack/lamps.yaml).
type Lamp struct {
	At        source.Span
	Colour    Text                     `key:"colour,required" doc:"Colour of the light: red, orange, amber, yellow, green, blue, white, warm white, or a hex colour for the drawing" eg:"white"`
	Size      Text                     `key:"size" doc:"Diameter of the body, or the name of its package" eg:"3 mm"`
	Forward   []Val[quantity.Point]    `key:"forward" doc:"Forward voltage at one or more currents, from the data sheet" eg:"[2.75 V @ 2 mA, 3.2 V @ 20 mA]"`
	Spread    Val[quantity.Volts]      `key:"spread" doc:"How far one lamp's forward voltage may lie from another's" eg:"0.2 V"`
	Rated     Val[quantity.Amps]       `key:"rated" doc:"Current the data sheet's figures hold at" eg:"20 mA"`
	Limit     Val[quantity.Amps]       `key:"limit" doc:"Absolute maximum of the continuous current" eg:"30 mA"`
	Reverse   Val[quantity.Volts]      `key:"reverse" doc:"Absolute maximum of the reverse voltage" eg:"5 V"`
	Intensity Val[quantity.Brightness] `key:"intensity" doc:"Luminous intensity at a current" eg:"1200 mcd @ 20 mA"`
	Angle     Val[quantity.Degrees]    `key:"angle" doc:"Full angle at half intensity" eg:"60°"`
	Source    Text                     `key:"source" doc:"Where the figures come from" eg:"maker's data sheet, table 2"`
}

// Supply feeds circuits (rack/supplies.yaml).
type Supply struct {
	At        source.Span
	Kind      Text                   `key:"kind,required" doc:"What it is" eg:"usb" one:"battery|button cell|usb|mains adapter|power bank|bench supply"`
	Cells     Val[Cells]             `key:"cells" doc:"IEC designation of the cells, with their number in series; 2 x 3 LR6 is two rows of three" eg:"3 LR6"`
	Volts     Val[quantity.Volts]    `key:"volts,required" doc:"Nominal voltage" eg:"5 V"`
	Fresh     Val[quantity.Volts]    `key:"fresh" doc:"Voltage of fresh cells without load" eg:"9.5 V"`
	Measured  Val[quantity.Volts]    `key:"measured" doc:"Voltage measured without load" eg:"17.4 V"`
	Inside    Val[quantity.Ohms]     `key:"inside" doc:"Inside resistance" eg:"1.7 ohm"`
	Capacity  Val[quantity.AmpHours] `key:"capacity" doc:"Capacity of the cells" eg:"500 mAh"`
	Ends      Val[quantity.Volts]    `key:"ends" doc:"Voltage at which the cells count as spent" eg:"6 V"`
	Tolerance Val[quantity.Share]    `key:"tolerance" doc:"How far the voltage may lie from nominal" eg:"5 %"`
	Limit     Val[quantity.Amps]     `key:"limit" doc:"Largest current it can give" eg:"500 mA"`
	Discharge []Val[Depth]           `key:"discharge" doc:"Unloaded voltage by the share of the capacity used, where the cells' own curve is known" eg:"[9.5 V @ 0 %, 8.1 V @ 40 %, 6 V @ 100 %]"`
	AutoOff   Val[quantity.Amps]     `key:"switches off below" doc:"Load under which a power bank switches itself off; 0 mA where it never does" eg:"60 mA"`
	Regulated Val[bool]              `key:"regulated" doc:"no for adapters whose voltage rises without load" eg:"no"`
	Plug      Text                   `key:"plug" doc:"Plug, its size and polarity" eg:"5.5/2.1 mm, plus inside"`
	Source    Text                   `key:"source" doc:"Where the figures come from" eg:"label"`
}

// Wire is a wire whose size is not a gauge (rack/wire.yaml).
type Wire struct {
	At      source.Span
	Copper  Val[quantity.Metres] `key:"copper,required" doc:"Bare diameter of the copper" eg:"0.2 mm"`
	Coating Text                 `key:"coating" doc:"What insulates it" eg:"enamel"`
	Colour  Text                 `key:"colour" doc:"Colour of the insulation" eg:"red"`
}
