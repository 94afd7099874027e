package gen

import (
	"slices"
	"sync"

	"spruelight/gen/journal"
	"spruelight/gen/page"
	"spruelight/gen/site"
	"spruelight/gen/source"
	"spruelight/gen/topic"
	"spruelight/gen/topic/care"
	"spruelight/gen/topic/finish"
	"spruelight/gen/topic/lighting"
	"spruelight/gen/topic/log"
	"spruelight/gen/topic/record"
	"spruelight/gen/topic/review"
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
	part   *buildPart // its part of the site

	card *topic.Card // for its own pages, while they are made

	drawing  *sync.Mutex    // held while it is drawn: works of later passes share what was worked out
	drawings []page.Drawing // of all topics, saved as files beside the pages

	light  lighting.Result
	finish finish.Result
	record record.Result
	review review.Result
	scale  size.Result

	timeline *page.Drawing // hours by month and stage, of a long build
}

// subject is one subject carried through the pipeline for a build. Its steps run
// in the order of the topics, so that a later one may use what an earlier one
// worked out; each step of all builds ends before the next step begins.
type subject struct {
	name   string
	reckon func(*work)            // sums: fills the work's own field, adds findings; nil for none
	part   func(*work) topic.Part // drawings, pages and how the build's page leads on to them
}

// subjects are the subjects, in the order in which a build page leads on.
var subjects = []subject{
	{name: "light", reckon: reckonLighting, part: lightingPart},
	{name: "finish", reckon: reckonFinish, part: finishPart},
	{name: "record", reckon: reckonRecord, part: recordPart},
	{name: "scale", reckon: reckonSize, part: sizePart},
	{name: "repair", part: carePart},
	{name: "review", reckon: reckonReview, part: reviewPart},
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

func reckonLighting(w *work) {
	w.light = lighting.Reckon(w.facts())
	w.found.Add(w.light.Found...)
}

func lightingPart(w *work) topic.Part { return lighting.Pages(w.facts(), &w.light, w.desk()) }

func reckonSize(w *work) {
	w.scale = size.Reckon(w.facts())
	w.found.Add(w.scale.Found...)
}

func sizePart(w *work) topic.Part {
	return size.Pages(w.facts(), &w.scale, w.run.house.Shelf.Members, w.desk())
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
	names := slices.Concat(w.light.Pages, w.finish.Pages, w.record.Pages, w.scale.Pages)
	if care.Wanted(w.facts(), w.cared()) {
		names = append(names, care.File)
	}
	return names
}

func reckonRecord(w *work) {
	w.record = record.Reckon(w.facts())
	w.found.Add(w.record.Found...)
}

func recordPart(w *work) topic.Part {
	f, d := w.facts(), w.desk()
	in := record.Seen{Finished: w.run.theme.finished(), Paints: finish.PaintNames(f), Lights: lighting.LampKinds(f, d.Words)}
	part := record.Pages(f, &w.record, in, d)
	w.timeline = record.Timeline(f, &w.record, d)
	return part
}

func reckonReview(w *work) {
	scale := ""
	if len(w.scale.Judged.Believed) > 0 {
		scale = w.scale.Judged.Sentence
	}
	w.review = review.Reckon(w.facts(), &w.record, scale)
	w.found.Add(w.review.Found...)
}

func reviewPart(w *work) topic.Part { return review.Pages(w.facts(), &w.review, w.desk()) }

// buildSheets are all pages of a build: those of the topics, its own, and its
// sittings.
func (r *run) buildSheets(w *work) []*page.Sheet {
	var all topic.Part
	for _, t := range subjects {
		p := t.part(w)
		all.Sheets, all.Leaves = append(all.Sheets, p.Sheets...), append(all.Leaves, p.Leaves...)
	}
	in := log.Seen{Leaves: all.Leaves, Timeline: w.timeline}
	f, piece := w.facts(), &w.scale.Piece
	in.Size, in.Real = size.Text(piece.Model, r.words, f.Inches()), size.Text(piece.Real, r.words, f.Inches())
	sheets := append(all.Sheets, log.Pages(f, in, w.desk()).Sheets...)
	site.Searched(w.ofSite(), finish.PaintNames(f), sheets)
	for _, s := range sheets {
		s.Group = w.build.Front.Name.V
		if s.Updated.IsZero() {
			s.Updated = f.Newest()
		}
	}
	return sheets
}

func reckonFinish(w *work) {
	w.finish = finish.Reckon(w.facts(), w.run.paints, w.light.Judged)
	w.found.Add(w.finish.Found...)
}

func finishPart(w *work) topic.Part {
	return finish.Pages(w.facts(), &w.finish, w.desk())
}

// cared is what the repair sheet needs of the other subjects.
func (w *work) cared() care.Seen {
	in := care.Seen{Finish: &w.finish, Ledger: w.record.Rows}
	for i := range w.light.Circuits {
		in.Circuits = append(in.Circuits, &w.light.Circuits[i].Solution)
	}
	return in
}

func carePart(w *work) topic.Part {
	return care.Pages(w.facts(), w.cared(), w.desk())
}
