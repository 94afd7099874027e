// Package topic holds what the subjects of a build share: what they are given,
// what they give back, and what lays out their pages. One folder below it holds
// one subject. A subject takes explicit inputs and gives back a result; it knows
// neither the run that it is part of nor the other builds.
package topic

import (
	"html/template"
	"path"
	"time"

	"spruelight/gen/journal"
	"spruelight/gen/page"
	"spruelight/gen/quantity"
	"spruelight/gen/source"
	"spruelight/gen/svg"
)

// Bench is what all builds of a workshop share.
type Bench struct {
	Rack     *journal.Rack
	Settings *journal.Settings
	Zone     *time.Location
	Now      time.Time // the moment of the run, in the workshop's zone
	Today    time.Time // its calendar day, at midnight UTC as all days are
}

// Inches reports whether lengths are shown in inches.
func (b *Bench) Inches() bool { return b.Settings.Lengths.V == "inches" }

// Facts are one build on the bench. What is under embargo has been taken out.
type Facts struct {
	*Bench
	*journal.Build
}

// Place returns the site path of a page of the build.
func (f Facts) Place(name string) string { return f.Slug + "/" + name }

// Times of day that stand for one that was not written.
const (
	StartOfDay = quantity.Clock(0)
	EndOfDay   = quantity.Clock(23*60 + 59)
)

// At returns a time of day of a sitting in the workshop's zone.
func (f Facts) At(s *journal.Sitting, clock journal.Val[quantity.Clock], otherwise quantity.Clock) time.Time {
	minutes := int(clock.Or(otherwise))
	return time.Date(s.Date.Year(), s.Date.Month(), s.Date.Day(), minutes/60, minutes%60, 0, 0, f.Zone)
}

// Newest returns the day of what is newest in the build.
func (f Facts) Newest() time.Time {
	day := f.Front.Finished.V.Time
	for _, s := range f.Sittings {
		day = Later(day, s.Date)
	}
	if f.Review != nil {
		day = Later(day, f.Review.Front.Date.V.Time)
	}
	return day
}

// Later returns the later of two moments.
func Later(a, b time.Time) time.Time {
	if b.After(a) {
		return b
	}
	return a
}

// Texts returns what was written, without the places.
func Texts(list []journal.Text) []string {
	out := make([]string, len(list))
	for i, t := range list {
		out[i] = t.V
	}
	return out
}

// Outcome is what the sums of a subject give besides its own result.
type Outcome struct {
	Found source.Findings
	Pages []string // names of the pages it will make: texts may link to them
}

// Places knows where things stand in the site.
type Places interface {
	// Text prints a body for the page at a path of the site.
	Text(body *journal.Body, dir, on string) template.HTML
	// Page returns the site path of the page of a workshop file, "" for none.
	Page(file string) string
	// Build returns another build of the workshop, nil where there is none.
	Build(slug string) *page.Link
	// Technique leads to the page of a technique, however a journal writes it.
	Technique(written string) page.Link
}

// Photos knows what was made of the workshop's photos, by their workshop paths.
type Photos interface {
	// Picture returns a photo as a page shows it; nil where there is none, or
	// where it is withheld.
	Picture(file, alt, caption, credit string) *page.Picture
	// Taken returns when its camera says a photo was taken; zero where it does not.
	Taken(file string) time.Time
}

// Keeper takes a drawing as part of a page and as a file beside it: its layouts
// for a desk and, where there is one, for a phone. Without a drawing: nil.
type Keeper func(name string, words svg.Table, layouts ...*svg.Drawing) *page.Drawing

// Desk is what the pages of a build are laid out with.
type Desk struct {
	Words  *page.Words
	Site   *page.Site
	Card   Card // the build in short
	Places Places
	Photos Photos
	Keep   Keeper
}

// Sheet begins a page of the build.
func (d Desk) Sheet(file, kind, title, summary string, data any) *page.Sheet {
	return &page.Sheet{Path: path.Join(d.Card.Slug, file), Kind: kind, Title: d.Words.Headed(title, d.Card.Name),
		Summary: summary, Data: data, Words: summary}
}

// PhoneWidth suits the drawings of the narrowest phone, in CSS pixels.
const PhoneWidth = 304

// Part is what a subject puts into the site.
type Part struct {
	Sheets []*page.Sheet
	Leaves []page.Leaf // how the build's page leads on to them
}
