package gen

import (
	"sync"

	"spruelight/gen/journal"
	"spruelight/gen/page"
	"spruelight/gen/site"
	"spruelight/gen/source"
	"spruelight/gen/tally"
	"spruelight/gen/topic"
	"spruelight/gen/topic/size"
)

// work is one build on its way through the pipeline: what was read, and what
// each topic worked out of it.
type work struct {
	run   *run
	build *journal.Build
	read  source.Findings // of reading it
	found source.Findings // of reckoning it

	marks  string                // what pages of other builds may say of it
	kept   bool                  // taken over from an earlier pass: its files did not change
	links  []site.Link           // of its texts, to other texts and to photos
	places map[string]site.Place // where its texts stand
	photos *site.BuildPhotos
	spread *spread // its part of the site

	card  *topic.Card         // for its own pages, while they are made
	cards []topic.SittingCard // likewise

	drawing  *sync.Mutex    // held while it is drawn: works of later passes share what was worked out
	drawings []page.Drawing // of all topics, saved as files beside the pages

	light  lightWork
	tally  tally.Build // as handed over
	totals tally.Sum
	finish finishWork
	record recordWork
	charts []page.Drawing // of hours and cost
	review reviewWork
	scale  size.Result

	timeline *page.Drawing // hours by month and stage, of a long build
}

// subject is one subject carried through the pipeline for a build. Its steps run
// in the order of the topics, so that a later one may use what an earlier one
// worked out; each step of all builds ends before the next step begins.
type subject struct {
	name   string
	reckon func(*work)               // sums: fills the work's own field, adds findings
	draw   func(*work)               // drawings of what was reckoned
	pages  func(*work) []*page.Sheet // pages of the topic's own
	leaves func(*work) []page.Leaf   // how the build page leads on to them
	part   func(*work) topic.Part    // drawings, pages and leaves at once
}

// subjects are the subjects, in the order in which a build page leads on.
var subjects = []subject{
	{name: "light", reckon: reckonLight, draw: drawLight, pages: lightPages, leaves: lightLeaves},
	{name: "finish", reckon: reckonFinish, draw: drawFinish, pages: finishPages, leaves: finishLeaves},
	{name: "tally", reckon: reckonTally, draw: drawTally, pages: tallyPages, leaves: tallyLeaves},
	{name: "timeline", draw: drawTimeline},
	{name: "scale", reckon: reckonSize, part: sizePart},
	{name: "repair", pages: repairPages, leaves: repairLeaves},
	{name: "review", reckon: reckonReview, pages: reviewPages, leaves: reviewLeaves},
}

// newWork begins the work on a build.
func newWork(r *run, b *journal.Build) *work {
	return &work{run: r, build: b, drawing: &sync.Mutex{}}
}

// survey lists what the texts of a build that was just read link to, where they
// will stand, and which photos they show.
func (w *work) survey() {
	w.links = nil
	for _, body := range w.build.Bodies() {
		w.links = append(w.links, site.LinksOf(body)...)
	}
	w.places = site.PlacesOf(w.build)
	w.photos = site.PhotosOf(w.build)
}

func (w *work) slug() string { return w.build.Slug }

// place returns the site path of a page of the build.
func (w *work) place(name string) string { return w.build.Slug + "/" + name }

func reckonSize(w *work) {
	w.scale = size.Reckon(w.facts())
	w.found.Add(w.scale.Found...)
}

func sizePart(w *work) topic.Part {
	d := w.desk()
	d.Card = w.run.buildCard(w)
	return size.Pages(w.facts(), &w.scale, w.run.house.Shelf.Members, d)
}

// addPlaces adds the pages that the sums have made: a text links to them by
// the name they have in the site, as in ../builds/marram/lighting.html.
func (w *work) addPlaces() {
	for _, name := range w.pageNames() {
		w.places[w.build.Dir+"/"+name] = site.Place{Path: w.place(name)}
	}
}

// pageNames are the pages of a build besides its texts.
func (w *work) pageNames() []string {
	var names []string
	for _, p := range []struct {
		name string
		is   bool
	}{
		{lightingName, len(w.solved()) > 0}, {meterName, len(w.solved()) > 0}, {finishName, len(w.finish.result.Areas) > 0},
		{"hours.html", w.totals.Sittings > 0}, {"parts.html", len(w.record.rows) > 0}, {"problems.html", len(w.record.problems) > 0},
		{"choices.html", len(w.record.decisions) > 0}, {"entry.html", w.tally.State == tally.Shelf},
		{size.File, w.scale.Sized()}, {repairName, w.repairable()},
	} {
		if p.is {
			names = append(names, p.name)
		}
	}
	return names
}
