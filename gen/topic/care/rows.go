package care

import (
	"time"

	"spruelight/gen/circuit"
	"spruelight/gen/page"
	"spruelight/gen/quantity"
	"spruelight/gen/source"
	"spruelight/gen/topic"
	"spruelight/gen/topic/finish"
	"spruelight/gen/topic/lighting"
)

// Repair is the sheet for whoever opens the model in ten years: one printed
// page, to be glued into the base.
type Repair struct {
	Build       topic.Card
	Finished    time.Time // zero while it is in work
	Photo       *page.Picture
	Inside      *page.Picture // of the wires or the open inside
	Open        []string      // how to open it
	Resistors   string        // where they sit
	Route       []string
	Unreachable []string // besides the closed areas
	Circuits    []RepairCircuit
	Closed      []RepairArea
	Coats       []RepairStack
	Mixes       []finish.MixCard
	Spares      []RepairSpare
	Leaks       []finish.LeakRow
	Known       []string
	Cautions    []source.Message
	Lacks       []source.Message // what was never written down
}

// RepairCircuit is one circuit: what feeds it, its lamps, what a meter reads.
type RepairCircuit struct {
	Name, Supply, Ref, Plug string
	Switch, Entry           string
	Fuse                    source.Message
	Fed, Feed               source.Message // the supply in words; the wire from it
	Solved                  bool           // false: nothing below is known
	Current                 quantity.Figure
	DayOne                  quantity.Figure // measured; zero where nobody did
	Cells                   source.Message
	Lasts                   quantity.Figure
	Lamps                   []RepairLamp
	Points                  []lighting.PointRow
	Junctions               []source.Message // feeds between junctions
	Unplug                  []circuit.PluggedRun
}

// RepairLamp is one lamp with the branch it belongs to. The branch's own facts
// stand once, beside its first lamp.
type RepairLamp struct {
	*circuit.LampResult
	Drop     quantity.Figure // forward voltage at its current
	Type     string          // its name on the rack, and its colour where that does not say it
	First    bool            // the first of its branch
	Span     int             // lamps of the branch
	Branch   string
	Limiter  source.Message // "R1 470R, 1/4 W"
	Rings    []string
	Wanted   quantity.Figure
	Measured quantity.Figure // zero where nobody did
	Wire     source.Message
	Junction string // where several
	Control  source.Message
	Parallel bool
}

// RepairArea is an area that was glued shut.
type RepairArea struct {
	Name  string
	When  time.Time
	Lamps []string
}

// RepairStack is the coats of one area, from the plastic outward.
type RepairStack struct {
	Area, Material string
	Coats          []RepairCoat
}

// RepairCoat is one coat as it was laid.
type RepairCoat struct {
	Name, Label string
	Thinned     source.Message
	Colour      *quantity.Colour
	Planned     bool // never logged as laid
}

// RepairSpare is something put aside, and where.
type RepairSpare struct{ What, Where string }

// lampFigures returns a lamp's forward voltage and its branch's wanted current.
func lampFigures(b *circuit.BranchResult, l *circuit.LampResult) (drop, wanted quantity.Figure) {
	return quantity.FigureOf("forward voltage", l.Volts.Nominal), quantity.FigureOf("wanted current", b.Wanted)
}
