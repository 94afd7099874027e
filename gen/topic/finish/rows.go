package finish

import (
	"time"

	"spruelight/gen/page"
	"spruelight/gen/paint"
	"spruelight/gen/quantity"
	"spruelight/gen/source"
	"spruelight/gen/topic"
)

// Page is a build's page on its finish.
type Page struct {
	Build    topic.Card
	Bench    bool // in work: the clocks matter
	Result   *paint.Result
	Moment   time.Time // that the clocks are judged by; zero where nothing will change with it
	Zone     string
	Room     source.Value[quantity.Celsius] // the bench's temperature
	Slow     source.Message                 // the rule by which cold slows drying, with its source
	Timeline *page.Drawing                  // nil where nothing is drying
	Areas    []AreaRow
	Swatches []Swatch
	Lighten  *Lighten
	Lit      []LitRow
	Mixes    []MixCard
	Leaks    []LeakRow
	Findings []source.Finding // of the build as a whole
}

// AreaRow is one area on the page.
type AreaRow struct {
	*paint.AreaResult
	ID       string
	Section  *page.Drawing
	AllNow   bool          // everything may be done
	Photo    *page.Picture // of the open inside
	Findings []source.Finding
	Quiet    []source.Finding // silenced ones, with their reasons
}

// Swatch is a paint of the build.
type Swatch struct {
	Name    string
	Paint   *paint.Paint
	Label   string
	Lighter *paint.Lightened // nil where no rule is asked for
	Waits   paint.Waits
}

// Lighten is the rule by which colours are shown lightened.
type Lighten struct {
	Name, Scale string
	Source      source.Message
	Silent      bool // the rule says nothing at this scale
}

// LitRow is a lamp seen through clear paint.
type LitRow struct {
	Lamp, Area, Paint string
	Coats             int
	From              paint.Colour
	paint.LitColour
}

// MixCard is a recorded mix.
type MixCard struct {
	Name   string
	For    string
	Note   string
	Colour *paint.Colour
	Parts  []MixPart
	Pour   paint.Pour
}

// MixPart is one portion as it was written.
type MixPart struct {
	What    string
	Written source.Message
	paint.Poured
}

// LeakRow is a leak with the area it belongs to.
type LeakRow struct {
	Area string
	paint.Leak
}
