package log

import (
	"html/template"
	"time"

	"spruelight/gen/journal"
	"spruelight/gen/page"
	"spruelight/gen/topic"
)

// Build is a build's page.
type Build struct {
	Card       topic.Card          // the build in short
	Front      *journal.BuildFront // its front matter
	Body       template.HTML       // its text
	Leaves     []page.Leaf         // further pages of the build
	Sittings   []topic.SittingCard // in order
	Drafts     []topic.SittingCard // at the bench: counted nowhere
	Steps      []StageStep         // how far it is
	Size, Real string              // of the model and of the real thing
	Timeline   *page.Drawing       // hours by month and stage; nil for a short build
	Techniques []page.Link         // that it shows
	Feed       string              // place of its own feed, or ""
}

// StageStep is a stage of a build: how far it is.
type StageStep struct {
	Name  string
	Hours string // "" where nothing was done yet
	State string // "done", "begun" or "open"
}

// Sitting is a sitting's page.
type Sitting struct {
	Build          topic.Card            // the build it belongs to
	Front          *journal.SittingFront // its front matter
	Title          string                // of the sitting
	Date           time.Time             // of the sitting
	Body           template.HTML         // its text
	Photos         []*page.Picture       // in order
	Techniques     []page.Link           // that it shows
	Earlier, Later *topic.SittingCard    // its neighbours, or nil
	Number, Of     int                   // its place among the build's sittings
}
