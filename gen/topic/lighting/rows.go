package lighting

import (
	"fmt"
	"math"
	"time"

	"spruelight/gen/circuit"
	"spruelight/gen/page"
	"spruelight/gen/quantity"
	"spruelight/gen/source"
	"spruelight/gen/topic"
	"spruelight/gen/wiring"
)

// Page is a build's page on its circuits, and its meter card.
type Page struct {
	Build    topic.Card
	Bench    bool
	Path     string // of the lighting page
	Meter    string // of the meter card
	Circuits []CircuitRow
	Areas    []HeatRow

	Loom     *page.Drawing
	Shopping []wiring.Item
	Spools   []wiring.Spool
	Unknown  []source.Message // runs without a length
	Slack    wiring.Slack
	Rings    []Rings
}

// Rings is the drawn colour rings of one value of resistor.
type Rings struct {
	Name, What string
	Refs       []string
	Drawing    *page.Drawing
}

// CircuitRow is one circuit on the page.
type CircuitRow struct {
	*circuit.Solution
	ID, Anchor   string
	Diagram      *page.Drawing
	Plug         string
	SupplySource string
	Open         topic.Cell // the supply unloaded
	Inside       quantity.Figure
	Rows         []BranchRow
	Starred      bool // a wanted current is assumed
	Card         []PointRow
	Wires        []WireRow
	Findings     []source.Finding
	Quiet        []source.Finding // silenced ones, with their reasons
	Faults       []FaultRow
	Fades        []FadeTable
	Readings     []ReadingRow
	Verdicts     []VerdictRow
	Life         *LifeRow
	Pairs        []PairRow
	Fibres       []FibreRow
}

// cellOf makes a cell of a band.
func cellOf[T ~float64](name string, b circuit.Band[T]) topic.Cell {
	return topic.CellOf(name, b.Nominal, b.Low, b.High)
}

// readingCell makes a cell of a band of readings, in their unit.
func readingCell(name string, b circuit.Band[float64], unit string) topic.Cell {
	c := cellOf(name, b)
	c.Main.Unit, c.Low.Unit, c.High.Unit = unit, unit, unit
	return c
}

// BranchRow is one branch in a circuit's table.
type BranchRow struct {
	*circuit.BranchResult
	JunctionName          source.Message // where there are several
	Want, Mean, Exact     quantity.Figure
	Amps, Over, Warmth    topic.Cell
	Head, Lost            quantity.Figure
	Rating                string
	Rings                 []Ring
	Lower, Higher         quantity.Figure // currents with the values beside the chosen one
	LowerOhms, HigherOhms quantity.Marked
	Limiter               any // what is shown for the resistor
	Controlled            bool
	Work                  []quantity.Figure // the branch's numbers with their working
	LampRows              []LampRow
}

// LampRow is one lamp of a branch.
type LampRow struct {
	*circuit.LampResult
	Drop     topic.Cell
	Amps     topic.Cell
	Light    quantity.Figure
	RealSize quantity.Figure
}

// Ring is one colour ring of a resistor.
type Ring struct {
	Name   string
	Colour quantity.Colour
}

// Branch prepares a branch of a solved circuit for its row.
func Branch(s *circuit.Solution, b *circuit.BranchResult) BranchRow {
	r := BranchRow{BranchResult: b, Want: quantity.FigureOf("wanted", b.Wanted),
		Mean: quantity.FigureOf("on average", b.Average), Exact: quantity.FigureOf("exactly", b.Resistor.Exact),
		Amps: cellOf("current", b.Current), Over: cellOf("volts over it", b.Resistor.Volts), Warmth: cellOf("heat", b.Resistor.Heat),
		Head: quantity.FigureOf("headroom", b.Headroom), Lost: quantity.FigureOf("lost in wire", b.WireDrop),
		Controlled: b.Control.Kind != circuit.Steady}
	r.Work = b.Figures(s)
	if len(s.Junctions) > 1 {
		r.JunctionName = s.JunctionName(b.Junction)
	}
	switch b.Kind {
	case circuit.Auto, circuit.Fixed:
		r.Limiter, r.Rating = quantity.Marked(b.Resistor.Ohms), quantity.Rating(b.Resistor.Rating).String()
		r.Lower, r.LowerOhms = quantity.FigureOf("with the value below", b.Resistor.Below.Current), quantity.Marked(b.Resistor.Below.Ohms)
		r.Higher, r.HigherOhms = quantity.FigureOf("with the value above", b.Resistor.Above.Current), quantity.Marked(b.Resistor.Above.Ohms)
	case circuit.ConstantCurrent:
		r.Limiter = b.Resistor.Set
	}
	for _, band := range b.Resistor.Bands {
		var c quantity.Colour
		if c.UnmarshalText([]byte(band.Hex)) == nil {
			r.Rings = append(r.Rings, Ring{band.Colour, c})
		}
	}
	for i := range b.Lamps {
		l := &b.Lamps[i]
		row := LampRow{LampResult: l, Drop: cellOf("forward voltage", l.Volts), Amps: cellOf("current", l.Current),
			Light: quantity.FigureOf("intensity", l.Bright)}
		if l.FullSize > 0 {
			row.RealSize = quantity.FigureOf("at full size", l.FullSize)
		}
		r.LampRows = append(r.LampRows, row)
	}
	return r
}

// PointRow is a test point on the meter card.
type PointRow struct {
	circuit.TestPoint
	Volts topic.Cell
}

// WireRow is a run of wire in use.
type WireRow struct {
	Where               source.Message
	Wire, Colour        string
	Length              quantity.Metres
	Ohms, Current, Drop quantity.Figure
	Work                []quantity.Figure
}

// Wire prepares a run for its row.
func Wire(where source.Message, r circuit.RunResult) WireRow {
	name := r.Run.Wire.V
	if name == "" {
		name = r.Run.Size.V.String()
	}
	return WireRow{Where: where, Wire: name, Colour: r.Run.Colour.V, Length: r.Run.Length.V,
		Ohms: quantity.FigureOf("resistance there and back", r.Ohms), Current: quantity.FigureOf("current", r.Current),
		Drop: quantity.FigureOf("drop", r.Drop), Work: r.Figures()}
}

// LifeRow is how long the cells last.
type LifeRow struct {
	*circuit.CellLife
	End, Half   topic.Cell
	Ends, Draws quantity.Figure
}

// Life prepares a circuit's cells for the page.
func Life(l *circuit.CellLife) *LifeRow {
	if l == nil {
		return nil
	}
	row := &LifeRow{CellLife: l, End: cellOf("until empty", l.ToEnd), Half: cellOf("until half the light", l.ToHalf),
		Ends: quantity.FigureOf("end voltage", l.Ends), Draws: quantity.FigureOf("draws", l.Draws)}
	for _, c := range []*topic.Cell{&row.End, &row.Half} {
		for _, f := range []*quantity.Figure{&c.Main, &c.Low, &c.High} {
			f.Value, f.Digits = twoFigures(f.Value), 2
		}
	}
	return row
}

// twoFigures rounds hours of cells to what is known of them.
func twoFigures(v float64) float64 {
	if v <= 0 {
		return v
	}
	unit := math.Pow(10, math.Floor(math.Log10(v))-1)
	return math.Round(v/unit) * unit
}

// PairRow is a group of branches that should look alike.
type PairRow struct {
	circuit.MatchedGroup
	Members []string
	Times   topic.Cell
	Limit   quantity.Figure
}

// MayShow reports whether the group's worst case shows, though its nominal one
// does not.
func (r PairRow) MayShow() bool { return !r.Shows && r.Worst > r.Threshold }

// Pair prepares a matched group for its row.
func Pair(s *circuit.Solution, g circuit.MatchedGroup) PairRow {
	row := PairRow{MatchedGroup: g,
		Times: topic.CellOf("brightest to dimmest", g.Ratio, 1, g.Worst), Limit: quantity.FigureOf("shows from", g.Threshold)}
	for _, i := range g.Branches {
		row.Members = append(row.Members, s.Branches[i].Name)
	}
	return row
}

// FibreRow is a bundle of fibres.
type FibreRow struct {
	circuit.FibreResult
	Buy  quantity.Figure
	Work []quantity.Figure
}

// HeatRow is the heat set free in an area.
type HeatRow struct {
	circuit.AreaHeat
	Warmth, Warmer quantity.Figure
	Work           []quantity.Figure
}

// Heat prepares an area's heat for its row.
func Heat(a circuit.AreaHeat) HeatRow {
	return HeatRow{a, quantity.FigureOf("heat", a.Heat), quantity.Figure{Name: "warmer by about", Value: a.Rise, Unit: "K"}, a.Figures()}
}

// FaultRow is what the failure of one lamp, or of any of a string, does.
type FaultRow struct {
	Lamps, Kind, Branch string
	Rest                bool // the rest of its string goes dark
	Dark                []string
	Over                []source.Message // lamps above their rating, with their currents
	Worse               bool             // above an absolute limit
	Hottest             quantity.Amount  // of the rest; without a unit where nothing flows
}

// FadeTable is the steps of a fade from dark to full.
type FadeTable struct {
	Branch string
	Steps  []FadeRow
}

// FadeRow is one step of a fade.
type FadeRow struct {
	After, Duty quantity.Figure
	Level       int
}

// Fade prepares the steps of a fade.
func Fade(branch string, steps []circuit.FadeStep) FadeTable {
	t := FadeTable{Branch: branch}
	for _, s := range steps {
		t.Steps = append(t.Steps, FadeRow{quantity.Figure{Name: "after", Value: s.Seconds, Unit: "s", Digits: 2},
			quantity.Figure{Name: "duty", Value: float64(s.Duty), Unit: "share", Digits: 3}, s.Level})
	}
	return t
}

// ReadingRow is a reading beside what was expected.
type ReadingRow struct {
	circuit.JudgedReading
	Read    quantity.Figure
	Expect  topic.Cell
	Sitting string // path of the page it is written on
	Day     time.Time
}

// Reading prepares a judged reading for its row.
func Reading(j circuit.JudgedReading, sitting string) ReadingRow {
	day, _ := time.Parse(time.DateOnly, j.Reading.Taken) // zero where no sitting has it
	return ReadingRow{j, quantity.Figure{Name: "read", Value: j.Value, Unit: j.Unit},
		readingCell("expected", j.Expected, j.Unit), sitting, day}
}

// VerdictRow is the likeliest cause of a day's readings.
type VerdictRow struct {
	circuit.Verdict
	Day quantity.Day
}

// Verdicts prepares verdicts for the page.
func Verdicts(all []circuit.Verdict) []VerdictRow {
	var rows []VerdictRow
	for _, v := range all {
		day, _ := time.Parse(time.DateOnly, v.Taken) // readings are kept apart by the days of their sittings
		rows = append(rows, VerdictRow{v, quantity.Day{Time: day}})
	}
	return rows
}

// Points prepares the test points of a meter card.
func Points(s *circuit.Solution) []PointRow {
	var rows []PointRow
	for _, p := range s.Points {
		rows = append(rows, PointRow{p, cellOf(fmt.Sprintf("TP%d", p.Number), p.Volts)})
	}
	return rows
}
