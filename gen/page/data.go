package page

import (
	"html/template"
	"time"

	"spruelight/gen/journal"
	"spruelight/gen/tally"
)

// Front is the workshop's front page.
type Front struct {
	About  template.HTML
	Total  tally.Overall
	Groups []Group // by state, empty ones left out
	Latest []SittingCard
}

// Group is the builds of one state.
type Group struct {
	State  tally.State
	Builds []BuildCard
}

// BuildCard is a build in short.
type BuildCard struct {
	Slug, Name, Path string
	Kit              journal.Kit
	Scale, Summary   string
	Lead             *Picture
	Sum              tally.Sum
	Updated          time.Time
	Next             string // the next step, on the bench
	NextPath         string // the sitting that says it
	NextOld          bool   // a newer sitting names none
}

// SittingCard is a sitting in short.
type SittingCard struct {
	Build, Title, Path, Stage, Summary string
	Date                               time.Time
	Hours                              string
	Lead                               *Picture
	Number                             int // its place among the build's sittings, from 1
}

// Leaf leads from a build's page to one of its further pages: what stands
// there, in a few words.
type Leaf struct {
	Name, Path string
	Facts      []string
}

// Build is a build's page.
type Build struct {
	Card       BuildCard
	Front      *journal.BuildFront
	Body       template.HTML
	Leaves     []Leaf
	Sittings   []SittingCard
	Steps      []StageStep
	Size, Real string   // of the model and of the real thing
	Timeline   *Drawing // hours by month and stage; nil for a short build
	Techniques []Link
	Feed       string // place of its own feed, or ""
}

// StageStep is a stage of a build: how far it is.
type StageStep struct {
	Name  string
	Hours string // "" where nothing was done yet
	State string // "done", "begun" or "open"
}

// Sitting is a sitting's page.
type Sitting struct {
	Build          BuildCard
	Front          *journal.SittingFront
	Title          string
	Date           time.Time
	Body           template.HTML
	Photos         []*Picture
	Techniques     []Link
	Earlier, Later *SittingCard
	Number, Of     int
}

// Wall is a free page.
type Wall struct {
	Body template.HTML
}
