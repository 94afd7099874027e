// Package tally adds up and weighs what a workshop wrote down: hours, money,
// parts and spares, the pace of a build and its forecast, which treatment
// separates spoiled parts from sound ones, and what a review says and on which
// evidence. It is for the modeller who plans, publishes and reviews, and for
// the readers who ask how long, how much, and whether the kit is worth it.
//
// It is pure: typed values in, results and findings out. Hours are bench time
// in hours; days are calendar days, given as midnight UTC of that day, so that
// no time zone moves them; money is counted in the smallest unit of its
// currency and two currencies are never added.
//
// # Sources
//
//   - R. A. Fisher, Statistical Methods for Research Workers, section 21.02:
//     the exact test of a fourfold table
//   - R. J. Hyndman and Y. Fan, Sample Quantiles in Statistical Packages, The
//     American Statistician 50 (1996), 361-365: the quartile method used
//   - 16 CFR Part 255 (as revised 26 July 2023), section 255.5: disclosure
//   - W3C, WebVTT: The Web Video Text Tracks Format: chapter files
//   - ISO 4217: currencies
package tally

import (
	"time"

	"spruelight/gen/quantity"
	"spruelight/gen/source"
)

// Build is what the tallies need to know of one model project. Sittings that
// are held back must be left out by the caller (see HeldBack), so that no sum
// gives them away.
type Build struct {
	Slug, Name string
	State      State
	At         source.Span // where the build is described

	Kit    Kit
	Decals source.Value[int] // on the sheet
	Lamps  []string          // references, D1, D2 …, in order
	// Resistors counts the resistors of the circuits: one a branch that has one.
	Resistors int
	Spent     []Spend // bought for the build as a whole
	Sittings  []Sitting
}

// State is where a build stands.
type State string

// The states of a build.
const (
	Bench    State = "bench"     // in work
	Shelf    State = "shelf"     // finished
	Stash    State = "stash"     // not begun
	SetAside State = "set aside" // paused
)

// Sitting is one dated spell at the bench.
type Sitting struct {
	Slug, Title string
	At          source.Span
	Date        time.Time // midnight UTC of the calendar day
	Hours       source.Value[quantity.Hours]
	Stage       source.Value[string]
	// Apart is time that is not bench time, by what it was for: research, drying …
	// It is shown, never added to bench time.
	Apart    source.Entries[source.Value[quantity.Hours]]
	Spent    []Spend
	Parts    []PartEvent
	Decals   DecalWork
	Lit      []source.Value[string] // lamps seen to light
	Readings int                    // meter readings written down
	Closed   []source.Value[string] // areas glued shut
	Next     source.Value[string]   // the next step
}
