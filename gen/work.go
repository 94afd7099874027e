package gen

import (
	"path"
	"sync"

	"spruelight/gen/journal"
	"spruelight/gen/output"
	"spruelight/gen/page"
	"spruelight/gen/site"
	"spruelight/gen/source"
	"spruelight/gen/svg"
	"spruelight/gen/topic"
)

// work is one build on its way through a pass: what was read, what was worked
// out of it, and what it puts into the site.
type work struct {
	run   *run
	build *journal.Build
	read  source.Findings // of reading it
	found source.Findings // of its sums
	kept  bool            // taken over from an earlier pass: its files did not change

	sums
	marks  string                // what pages of other builds may say of it
	links  []site.Link           // of its texts, to other texts and to photos
	places map[string]site.Place // where its texts stand
	photos *site.BuildPhotos

	part     *buildPart     // its part of the site
	drawing  *sync.Mutex    // held while it is drawn: works of later passes share what was worked out
	drawings []page.Drawing // of all subjects, saved as files beside the pages
}

// newWork begins the work on a build.
func newWork(r *run, b *journal.Build) *work {
	return &work{run: r, build: b, drawing: &sync.Mutex{}}
}

func (w *work) slug() string { return w.build.Slug }

// facts are the build as its subjects take it.
func (w *work) facts() topic.Facts { return topic.Facts{Bench: w.run.bench, Build: w.build} }

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

// reckon does the build's sums, and adds the pages that they make to the places
// that texts may link to, as in ../builds/marram/lighting.html.
func (w *work) reckon() {
	f := w.facts()
	w.sums = reckon(f, w.run.paints)
	w.found = w.sums.found()
	own, shop := w.build.Front.Silence, f.Settings.Silence
	quiet(w.found, own, shop)
	w.sums.quiet(own, shop)
	w.marks = w.mark()
	for _, name := range w.pageNames(f) {
		w.places[w.build.Dir+"/"+name] = site.Place{Path: f.Place(name)}
	}
}

// desk is what the build's pages are laid out with. While a build is drawn its
// texts show no drawings but its own.
func (w *work) desk() topic.Desk {
	house := *w.run.house
	house.Texts = w.run.texts()
	house.Texts.Drawings = func(slug string) []page.Drawing {
		if slug == w.slug() {
			return w.drawings
		}
		return nil
	}
	return topic.Desk{Words: w.run.words, Site: w.run.theme.site, Places: &house, Photos: &house, Keep: w.keep}
}

// keep takes a drawing as part of a page and as a file beside it.
func (w *work) keep(name string, words svg.Table, layouts ...*svg.Drawing) *page.Drawing {
	out := site.Drawn(w.facts().Place(path.Join("drawings", name+".svg")), w.run.words.Language, words, layouts)
	if out != nil {
		w.drawings = append(w.drawings, *out)
	}
	return out
}

// drawingFiles are the drawings of a build as files of their own.
func (w *work) drawingFiles() []output.File {
	files := make([]output.File, len(w.drawings))
	for i, d := range w.drawings {
		files[i] = output.File{Path: d.Path, Bytes: d.File}
	}
	return files
}
