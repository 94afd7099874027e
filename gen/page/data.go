package page

import (
	"html/template"
	"time"

	"spruelight/gen/journal"
	"spruelight/gen/tally"
)

// Front is the workshop's front page.
type Front struct {
	About  template.HTML // the text of workshop.md, where there is one
	Total  tally.Overall // sums over all builds
	Groups []Group       // by state, empty ones left out
	Latest []SittingCard // the newest sittings of all builds
}

// Group is the builds of one state.
type Group struct {
	State  tally.State // where they stand
	Builds []BuildCard // the newest first
}

// BuildCard is a build in short.
type BuildCard struct {
	Slug, Name, Path string      // folder, name, and place of its page
	Kit              journal.Kit // as the build file has it
	Scale, Summary   string      // as the box has it; what it is in a sentence
	Lead             *Picture    // the picture that stands for it, or nil
	Sum              tally.Sum   // hours, lamps, parts, cost
	Updated          time.Time   // day of what is newest in it
	Next             string      // the next step, on the bench
	NextPath         string      // the sitting that says it
	NextOld          bool        // a newer sitting names none
}

// SittingCard is a sitting in short.
type SittingCard struct {
	Build, Title, Path, Stage, Summary string    // its build's name, its own title, place, stage and first words
	Date                               time.Time // of the sitting
	Hours                              string    // at the bench, or ""
	Lead                               *Picture  // its first picture, or nil
	Number                             int       // its place among the build's sittings, from 1
}

// Leaf leads from a build's page to one of its further pages: what stands
// there, in a few words.
type Leaf struct {
	Name, Path string   // of the further page
	Facts      []string // a few words each
}

// Build is a build's page.
type Build struct {
	Card       BuildCard           // the build in short
	Front      *journal.BuildFront // its front matter
	Body       template.HTML       // its text
	Leaves     []Leaf              // further pages of the build
	Sittings   []SittingCard       // in order
	Steps      []StageStep         // how far it is
	Size, Real string              // of the model and of the real thing
	Timeline   *Drawing            // hours by month and stage; nil for a short build
	Techniques []Link              // that it shows
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
	Build          BuildCard             // the build it belongs to
	Front          *journal.SittingFront // its front matter
	Title          string                // of the sitting
	Date           time.Time             // of the sitting
	Body           template.HTML         // its text
	Photos         []*Picture            // in order
	Techniques     []Link                // that it shows
	Earlier, Later *SittingCard          // its neighbours, or nil
	Number, Of     int                   // its place among the build's sittings
}

// Wall is a free page.
type Wall struct {
	Body  template.HTML // its text
	Pages []Link        // of its group, itself among them; none where it has no group
}
