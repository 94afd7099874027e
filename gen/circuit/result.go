package circuit

import (
	"spruelight/gen/circuit/nodal"
	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// Band is a value with the lowest and highest it may take.
type Band[T ~float64] struct {
	Nominal, Low, High T
}

// Solution is a circuit worked out.
type Solution struct {
	Circuit Input // as solved
	Name    string

	Supply    SupplyResult
	Fuse      *Contact // nil: none
	Switch    *Contact // nil: none
	Feed      RunResult
	Junctions []JunctionResult // the first junction, then in input order
	Branches  []BranchResult   // in input order
	Total     Totals

	Points   []TestPoint // in the order in which a meter goes along
	Faults   []FaultResult
	Matched  []MatchedGroup
	Cells    *CellLife // nil: no cells, or nothing to step
	Judged   []JudgedReading
	Verdicts []Verdict // the likeliest cause of readings out of band, one a series

	Figures  []quantity.Figure
	Assumed  []source.Message // every default that matters, as a sentence part
	Cautions []source.Message // short, where the supply or the control calls for them
	Solved   bool             // false: no operating point; findings say why
	series   quantity.Series  // of which resistors are chosen
	Next     Refs             // where the next circuit's references begin
}

// SupplyResult is the supply as reckoned with.
type SupplyResult struct {
	Ref      string // B1
	Name     string // as on the rack
	Open     Band[quantity.Volts]
	Inside   quantity.Ohms
	Terminal Band[quantity.Volts] // under load
	Limit    quantity.Amps        // 0: unknown
	Used     quantity.Share       // of the limit, at peak
}

// Contact is a fuse or a switch.
type Contact struct {
	Ref  string // F1, S1
	Text string
	Ohms quantity.Ohms
	Drop quantity.Volts
}

// RunResult is a pair of wires in use.
type RunResult struct {
	Run     Run
	Plug    string        // X1, where a connector parts it; else empty
	Ohms    quantity.Ohms // there and back, contacts included
	Current quantity.Amps
	Drop    quantity.Volts // there and back
	Heat    quantity.Watts
}

// JunctionResult is a junction in use.
type JunctionResult struct {
	Name    string
	From    int // index of the junction that feeds it; -1 for the first
	Feed    RunResult
	Plus    Band[quantity.Volts] // to ground
	Minus   Band[quantity.Volts]
	Current quantity.Amps // through its feed
	Point   int           // number of the test point at its plus
}

// BranchResult is a branch: as declared, with every default filled in, worked
// out.
type BranchResult struct {
	Declared *Branch // as written
	Name     string
	Junction int // index into Solution.Junctions
	Kind     LimiterKind
	Ref      string // R1 or U1; empty for None
	Lamps    []LampResult
	Parallel bool
	Wanted   quantity.Amps
	Assumed  bool                // the wanted current is a default
	Current  Band[quantity.Amps] // while on
	Average  quantity.Amps       // over the control's period
	Control  Control
	Resistor ResistorResult
	Lead     RunResult
	Headroom quantity.Share // volts over the limiter, as a share of the supply's
	WireDrop quantity.Volts // from the supply's terminals to this branch's own end, all runs
	Power    quantity.Watts // all of the branch
	Lit      bool
	Fibres   []FibreResult
	Points   []int  // test points along the branch, from plus
	Matched  string // group
}

// ResistorResult is the limiter of a branch in use.
type ResistorResult struct {
	Ohms      quantity.Ohms
	Exact     quantity.Ohms // that would give exactly the wanted current; Auto only, 0: none would
	Tolerance quantity.Share
	Rating    quantity.Watts
	Bands     []quantity.Band // colour rings by IEC 60062; nil where the code has none
	Code      string          // 4k7
	Volts     Band[quantity.Volts]
	Heat      Band[quantity.Watts]
	At        quantity.Volts // at the junction, when Exact was taken
	Below     Neighbour      // the preferred value below, and what it would do
	Above     Neighbour
	Dropout   quantity.Volts // drivers
	Set       quantity.Amps  // drivers: the current they are set to
}

// Neighbour is a preferred value next to the chosen one.
type Neighbour struct {
	Ohms    quantity.Ohms
	Current quantity.Amps
}

// LampResult is one lamp in use.
type LampResult struct {
	Declared *Fitted // as written, with its data sheet
	Ref      string  // D1
	Model    string
	Place    string
	Area     string
	Colour   string
	Curve    nodal.Curve
	Current  Band[quantity.Amps]
	Average  quantity.Amps
	Volts    Band[quantity.Volts]
	Power    quantity.Watts
	Rated    quantity.Amps
	Limit    quantity.Amps  // absolute maximum
	Spread   quantity.Volts // by which it may lie to either side of the curve
	Reverse  quantity.Volts // that it stands; 0: unknown
	Lit      bool
	FullSize quantity.Metres   // what its diameter would be at full size; 0: unknown
	Bright   quantity.Candelas // at its current; 0: unknown
	Fibres   []FibreResult
}

// Totals are the sums over a circuit.
type Totals struct {
	Current    Band[quantity.Amps] // with every branch on
	Average    quantity.Amps
	Power      quantity.Watts // from the supply's source
	Lamps      quantity.Watts // into the lamps
	Limiters   quantity.Watts // lost in resistors and drivers
	Wires      quantity.Watts
	Efficiency quantity.Share // share of the power that reaches the lamps
}

// TestPoint is a place to put the meter's red probe, black on the supply's minus.
type TestPoint struct {
	Number   int
	Where    source.Message
	Volts    Band[quantity.Volts]
	Kind     PointKind
	Junction int // index; 0 at the supply, its fuse and its switch
	Branch   int // index, -1 for supply and junctions
	Lamp     int // index of the first lamp below the point
}

// FaultKind says how a lamp fails.
type FaultKind string

const (
	Open  FaultKind = "open"
	Short FaultKind = "short"
)

// FaultResult is what one lamp's failure does.
type FaultResult struct {
	Lamp    string // D3
	Kind    FaultKind
	Branch  int
	Dark    []string // further lamps that go out, besides the failed one
	Over    []OverLimit
	Hottest quantity.Amps // the highest current of any lamp of that branch
}

// OverLimit is a lamp above its rated or absolute current.
type OverLimit struct {
	Lamp    string
	Current quantity.Amps
	Rated   quantity.Amps
	Limit   quantity.Amps
}

// MatchedGroup are the lamps that should look alike.
type MatchedGroup struct {
	Name      string
	Branches  []int
	Ratio     float64 // brightest over dimmest, nominal
	Worst     float64 // the same at the corners
	ByLight   bool    // compared by luminous intensity, not by current
	Shows     bool    // the nominal ratio is above the threshold
	Threshold float64
}

// AreaHeat is the heat set free inside an area.
type AreaHeat struct {
	Name   string
	Heat   quantity.Watts
	Volume quantity.Litres // 0: unknown
	Rise   float64         // kelvin, estimated; 0: unknown

	parts []quantity.Watts // of the heat, a lamp each
}

// FibreResult is a bundle of fibres: what a lamp can feed and what to buy.
type FibreResult struct {
	At     source.Span // where it is written
	Lamp   string      // D3
	Place  string
	Count  int
	Size   quantity.Metres
	Length quantity.Metres
	Fits   int             // strands of this size that the lamp's face can feed; 0: unknown
	Buy    quantity.Metres // all strands with their spare

	face quantity.Metres // diameter of the lamp; 0: unknown
}

// CellLife is how long a circuit runs on its cells.
type CellLife struct {
	Cells  source.Message // "3 × LR6"
	ToEnd  Band[quantity.Hours]
	ToHalf Band[quantity.Hours] // until a lamp gives half its light; 0: not before the end
	Ends   quantity.Volts
	Draws  quantity.Amps  // on average, fresh
	Limit  quantity.Amps  // that such cells bear for long; 0: not named
	Curve  source.Message // where the discharge curve comes from
	Steps  []CellStep
}

// CellStep is a moment of the discharge.
type CellStep struct {
	Hours   quantity.Hours
	Volts   quantity.Volts // at the terminals, lamps on
	Current quantity.Amps  // while on
	Light   quantity.Share // of the dimmest lamp, against fresh
}

// JudgedReading is a reading beside what was expected.
type JudgedReading struct {
	Reading  Reading
	Where    source.Message // as the card names it
	Unit     string         // "mA" or "V"
	Value    float64
	Expected Band[float64]
	Within   bool
	Says     source.Message
}

// Verdict is the likeliest cause of a series of readings.
type Verdict struct {
	Taken  string
	Cause  source.Message   // "D3 open or fitted the wrong way round"
	Others []source.Message // causes that fit the readings as well
	Try    source.Message   // the next thing to measure or do
	Fits   bool             // all readings agree with it
}
