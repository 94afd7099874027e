package site

import (
	"html/template"
	"time"

	"spruelight/gen/page"
	"spruelight/gen/quantity"
	"spruelight/gen/scale"
	"spruelight/gen/source"
	"spruelight/gen/tally"
	"spruelight/gen/topic"
	"spruelight/gen/topic/size"
)

// Front is the workshop's front page.
type Front struct {
	About  template.HTML       // the text of workshop.md, where there is one
	Total  tally.Overall       // sums over all builds
	Groups []Group             // by state, empty ones left out
	Latest []topic.SittingCard // the newest sittings of all builds
}

// Group is the builds of one state.
type Group struct {
	State  tally.State  // where they stand
	Builds []topic.Card // the newest first
}

// Wall is a free page.
type Wall struct {
	Body  template.HTML // its text
	Pages []page.Link   // of its group, itself among them; none where it has no group
}

// Lineup is the page of all models side by side.
type Lineup struct {
	Models   LineupDrawing
	Subjects LineupDrawing
	Rows     []LineupRow
	Pairs    size.PairTable
	Adult    quantity.Metres // height of the standing figure
	Survey   source.Message  // that it comes from

	Rule       source.Message // by which shelves are filled
	Air        scale.Clearance
	AirAssumed bool
	Cabinets   []string
	Fits       []FitRow
	Shelves    []ShelfPlan
	Left       []scale.Unplaced
}

// Length prints a length as the workshop shows it.
func (l Lineup) Length(m quantity.Metres) quantity.Amount { return quantity.About(m) }

// LineupDrawing is a line-up: what stands on it, and what could not be drawn.
type LineupDrawing struct {
	Drawing page.Drawing
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
	Drawing *page.Drawing // nil where nothing stands on it
}

// AllHours is the page of the hours of the whole workshop.
type AllHours struct {
	Total  tally.Overall
	Charts []page.Drawing
	Builds []topic.Card // in the order of their hours
}

// Comparison is the table of all reviewed kits.
type Comparison struct {
	Criteria []tally.Criterion
	Best     float64
	Overall  bool // the workshop shows one mark over all
	Rows     []ComparisonRow
}

// ComparisonRow is one reviewed kit.
type ComparisonRow struct {
	Build                topic.Card
	Path, Title, Verdict string
	Date                 time.Time
	Result               tally.Review
}

// Mark returns the row's judgement on a criterion.
func (r ComparisonRow) Mark(criterion string) tally.ReviewRow {
	for _, row := range r.Result.Rows {
		if row.Criterion.Name == criterion {
			return row
		}
	}
	return tally.ReviewRow{}
}
