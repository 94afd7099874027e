package page

import (
	"spruelight/gen/quantity"
	"spruelight/gen/scale"
)

// Scale is a build's page on its scale.
type Scale struct {
	Build     BuildCard
	Judged    scale.Judgement
	Method    string // of the test whether the lengths agree, with its source
	Survey    string // that figures are compared with
	Intervals *Drawing
	AtScale   scale.UsualSizes
	Nearest   []scale.Offer // commonly sold scales near its own
	Copies    []scale.Copy  // drawings at other scales, enlarged to its own
	Pairs     PairTable     // with every other model
	Lineup    string        // the line-up's place in the site
	Inches    bool
}

// Length prints a length as the workshop shows it.
func (s Scale) Length(m quantity.Metres) string { return scale.LengthText(m, s.Inches) }

// Lineup is the page of all models side by side.
type Lineup struct {
	Models   LineupDrawing
	Subjects LineupDrawing
	Rows     []LineupRow
	Pairs    PairTable
	Adult    quantity.Metres // height of the standing figure
	Survey   string          // that it comes from
	Inches   bool

	Rule       string // by which shelves are filled
	Air        scale.Clearance
	AirAssumed bool
	Cabinets   []string
	Fits       []FitRow
	Shelves    []ShelfPlan
	Left       []scale.Unplaced
}

// Length prints a length as the workshop shows it.
func (l Lineup) Length(m quantity.Metres) string { return scale.LengthText(m, l.Inches) }

// LineupDrawing is a line-up: what stands on it, and what could not be drawn.
type LineupDrawing struct {
	Drawing Drawing
	Stands  []scale.Stand
	Left    []scale.Piece
}

// LineupRow is one model of the line-up in words.
type LineupRow struct {
	Name, Says, Path string // path: of its page on scale, "" for a piece of the shelf
	Judged           scale.Judgement
	Model, Real      scale.Size
	View             scale.View
}

// PairTable is pairs of models: those worth a look, and the rest folded away.
type PairTable struct {
	Near, Far []scale.Pair
	Own       bool // all are seen from one model
}

// FitRow says where one model fits.
type FitRow struct {
	scale.Exhibit
	Finished bool
	Bare     bool // its own lengths stand for the room it takes
	Fits     []scale.Fit
}

// ShelfPlan is one shelf with its drawing.
type ShelfPlan struct {
	scale.Shelf
	Drawing *Drawing // nil where nothing stands on it
}
