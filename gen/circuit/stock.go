package circuit

import (
	"slices"
	"strings"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// Lamp is one type of LED as its data sheet describes it (rack/lamps.yaml).
type Lamp struct {
	At        source.Span
	Colour    source.Value[string]              `key:"colour,required" doc:"Colour of the light: red, orange, amber, yellow, green, blue, white, warm white, or a hex colour for the drawing" eg:"white"`
	Size      source.Value[string]              `key:"size" doc:"Diameter of the body, or the name of its package" eg:"3 mm"`
	Forward   []source.Value[quantity.Point]    `key:"forward" doc:"Forward voltage at one or more currents, from the data sheet" eg:"[2.75 V @ 2 mA, 3.2 V @ 20 mA]"`
	Spread    source.Value[quantity.Volts]      `key:"spread" doc:"How far one lamp's forward voltage may lie from another's" eg:"0.2 V"`
	Rated     source.Value[quantity.Amps]       `key:"rated" doc:"Current the data sheet's figures hold at" eg:"20 mA"`
	Limit     source.Value[quantity.Amps]       `key:"limit" doc:"Absolute maximum of the continuous current" eg:"30 mA"`
	Reverse   source.Value[quantity.Volts]      `key:"reverse" doc:"Absolute maximum of the reverse voltage" eg:"5 V"`
	Intensity source.Value[quantity.Brightness] `key:"intensity" doc:"Luminous intensity at a current" eg:"1200 mcd @ 20 mA"`
	Angle     source.Value[quantity.Degrees]    `key:"angle" doc:"Full angle at half intensity" eg:"60°"`
	Source    source.Value[string]              `key:"source" doc:"Where the figures come from" eg:"maker's data sheet, table 2"`

	Broken bool // something in it could not be read, or names nothing
}

// packages are the lengths of chip packages named by their size in hundredths
// of an inch (IEC 61188-5-2; EIA).
var packages = map[string]quantity.Metres{
	"0402": 0.001, "0603": 0.0016, "0805": 0.002, "1206": 0.0032, "2835": 0.0035, "3528": 0.0035, "5050": 0.005,
}

// Diameter reads the lamp's size: a length, or the name of a package. Zero
// where it is neither.
func (l *Lamp) Diameter() quantity.Metres {
	if m, ok := packages[strings.TrimSpace(l.Size.V)]; ok {
		return m
	}
	var m quantity.Metres
	if m.UnmarshalText([]byte(l.Size.V)) != nil {
		return 0
	}
	return m
}

// known leaves out points that could not be read: that was reported.
func (l *Lamp) known() []source.Value[quantity.Point] {
	return slices.DeleteFunc(slices.Clone(l.Forward), func(p source.Value[quantity.Point]) bool { return !p.Set })
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

// Supply feeds circuits (rack/supplies.yaml).
type Supply struct {
	At        source.Span
	Kind      source.Value[string]            `key:"kind,required" doc:"What it is" eg:"usb" one:"battery|button cell|usb|mains adapter|power bank|bench supply"`
	Cells     source.Value[Cells]             `key:"cells" doc:"IEC designation of the cells, with their number in series; 2 x 3 LR6 is two rows of three" eg:"3 LR6"`
	Volts     source.Value[quantity.Volts]    `key:"volts,required" doc:"Nominal voltage" eg:"5 V"`
	Fresh     source.Value[quantity.Volts]    `key:"fresh" doc:"Voltage of fresh cells without load" eg:"9.5 V"`
	Measured  source.Value[quantity.Volts]    `key:"measured" doc:"Voltage measured without load" eg:"17.4 V"`
	Inside    source.Value[quantity.Ohms]     `key:"inside" doc:"Inside resistance" eg:"1.7 ohm"`
	Capacity  source.Value[quantity.AmpHours] `key:"capacity" doc:"Capacity of the cells" eg:"500 mAh"`
	Ends      source.Value[quantity.Volts]    `key:"ends" doc:"Voltage at which the cells count as spent" eg:"6 V"`
	Tolerance source.Value[quantity.Share]    `key:"tolerance" doc:"How far the voltage may lie from nominal" eg:"5 %"`
	Limit     source.Value[quantity.Amps]     `key:"limit" doc:"Largest current it can give" eg:"500 mA"`
	Discharge []source.Value[Depth]           `key:"discharge" doc:"Unloaded voltage by the share of the capacity used, where the cells' own curve is known" eg:"[9.5 V @ 0 %, 8.1 V @ 40 %, 6 V @ 100 %]"`
	AutoOff   source.Value[quantity.Amps]     `key:"switches off below" doc:"Load under which a power bank switches itself off; 0 mA where it never does" eg:"60 mA"`
	Regulated source.Value[bool]              `key:"regulated" doc:"no for adapters whose voltage rises without load" eg:"no"`
	Plug      source.Value[string]            `key:"plug" doc:"Plug, its size and polarity" eg:"5.5/2.1 mm, plus inside"`
	Source    source.Value[string]            `key:"source" doc:"Where the figures come from" eg:"label"`

	Broken bool // something in it could not be read, or names nothing
}

// Wire is a wire whose size is not a gauge (rack/wire.yaml).
type Wire struct {
	At      source.Span
	Copper  source.Value[quantity.Metres] `key:"copper,required" doc:"Bare diameter of the copper" eg:"0.2 mm"`
	Coating source.Value[string]          `key:"coating" doc:"What insulates it" eg:"enamel"`
	Colour  source.Value[string]          `key:"colour" doc:"Colour of the insulation" eg:"red"`

	Broken bool // something in it could not be read, or names nothing
}
