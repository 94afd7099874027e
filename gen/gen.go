// Package gen is the pipeline of spruelight, readable top to bottom: a
// workshop folder is read, everything is reckoned, drawn and printed, and the
// files of the site are handed over as they are made.
//
//	Read → Reckon → Draw → Print → (output writes)
//
// Drawing and printing go together, one build after the other, so that no more
// than a few builds are drawn at once; the preview draws and prints a build
// when it is looked at.
//
// One Env is the only door to the outside: content and theme as file systems,
// the moment, the number of workers. The same Env yields the same bytes.
package gen

import (
	"context"
	"io/fs"
	"runtime"
	"slices"
	"time"

	"spruelight/gen/journal"
	"spruelight/gen/output"
	"spruelight/gen/page"
	"spruelight/gen/paint"
	"spruelight/gen/photo"
	"spruelight/gen/site"
	"spruelight/gen/source"
	"spruelight/gen/topic"
	"spruelight/gen/topic/finish"
)

// Env is everything a run gets from outside.
type Env struct {
	Content  fs.FS                              // the workshop folder
	Themes   fs.FS                              // the built-in themes and words
	Moment   time.Time                          // what clocks and embargoes go by
	Wall     bool                               // Moment is a wall clock, to be read in the workshop's time zone
	Workers  int                                // at once; the number of cores where zero
	Photos   *photo.Cache                       // where renditions are kept
	Progress func(step string, done, total int) // told how far a run is; may be nil
	Version  string                             // of the program, for the foot of pages
}

// Result is a finished run.
type Result struct {
	Findings source.Findings
	Counts   Counts
	Hidden   []string  // files left out because their names begin with a dot
	Until    time.Time // when the site changes though no file does: as clocks run on, an embargo ends or the day is over
}

// Counts sum up a run in one line.
type Counts struct {
	Builds, Sittings, Photos, Made, Reused, Pages int
}

// Assemble reads the workshop and puts every file of its site into out, as it
// is made. It is the caller who swaps the site in, and only where the result
// holds no finding of severity stop: that may be found when much has been put.
// Errors are those of ctx and of out.
func Assemble(ctx context.Context, env Env, out output.Site) (*Result, error) {
	defer leanHeap()() // all builds are in memory at once
	r := newRun(env)
	r.read(ctx)
	r.reckon(ctx)
	r = r.free(ctx, site.Showing{})
	newPhotoStage(r).make(ctx)
	if r.found.Stops() {
		return r.result(), ctx.Err()
	}
	r.published(out)
	if err := r.print(ctx, out); err != nil {
		return r.result(), err
	}
	r.found.Add(journal.Present(env.Content)...)
	return r.result(), ctx.Err()
}

// Check reads and checks everything that Assemble would, and makes nothing.
func Check(ctx context.Context, env Env) (*Result, error) {
	r := newRun(env)
	r.read(ctx)
	r.reckon(ctx)
	newPhotoStage(r).inspect(ctx)
	_, _, notes := site.Withhold(r.shop, r.bench.Now, site.Showing{})
	r.found.Add(notes...)
	if r.loadWords() {
		r.openTheme()
	}
	return r.result(), ctx.Err()
}

// run is one pass through the pipeline.
type run struct {
	env     Env
	earlier *earlier // what an earlier pass left, nil where there was none
	shop    *journal.Workshop
	works   []*work // one a build, in the order of the slugs
	bySlug  map[string]*work
	whole   *run          // of which this one is what may be seen; nil where nothing is withheld
	hidden  site.Withheld // what may not be seen
	places  site.Places   // where each workshop file stands in the site
	photos  site.Photos
	words   *page.Words // set before drawing
	theme   *theme      // set before drawing
	counts  Counts
	found   source.Findings
	reading source.Findings // those of reading alone
	paints  paint.Shelf     // the rack's
	bench   *topic.Bench    // what all builds share
	house   *site.House     // the workshop as a whole
	marks   string          // what pages of builds may say of other builds
}

func newRun(env Env) *run {
	if env.Workers <= 0 {
		env.Workers = runtime.GOMAXPROCS(0)
	}
	if env.Progress == nil {
		env.Progress = func(string, int, int) {}
	}
	return &run{env: env, bySlug: map[string]*work{}, photos: site.Photos{Builds: map[string]*site.BuildPhotos{}}}
}

func (r *run) result() *Result {
	shop := r.complete().shop
	settle(&r.found, shop)
	res := &Result{Findings: r.found, Counts: r.counts, Hidden: shop.Hidden}
	for _, b := range shop.Builds {
		res.Hidden = append(res.Hidden, b.Hidden...)
	}
	if !r.found.Stops() {
		res.Until = r.until()
	}
	return res
}

// read fills the model.
func (r *run) read(ctx context.Context) {
	shop, found := journal.Open(r.env.Content)
	r.shop = shop
	r.bench = newBench(r.env, shop)
	r.found.Add(found...)
	works := r.earlier.take(r)
	each(ctx, r.env.Workers, works, func(w *work) source.Findings {
		if !w.kept {
			w.read = shop.ReadBuild(r.env.Content, w.build)
			w.read.Add(w.build.CheckFileNames(r.env.Content)...)
		}
		return w.read
	}, &r.found)
	r.found.Add(r.shop.CheckFileNames(r.env.Content, r.env.Themes)...)
	for _, w := range works {
		if w.build.File == nil {
			continue
		}
		if !w.kept {
			w.survey()
		}
		if !w.read.Stops() { // a name that could not be read, or is misspelt, shows none
			r.found.Add(shop.CheckUnshown(w.build)...)
		}
		r.add(w)
	}
	if !r.found.Stops() {
		r.found.Add(journal.Present(r.env.Content)...)
	}
	r.reading = slices.Clone(r.found)
	r.settleIn()
}

// add takes a build into the run.
func (r *run) add(w *work) {
	r.works = append(r.works, w)
	r.bySlug[w.slug()] = w
	r.photos.Builds[w.slug()] = w.photos
	r.counts.Builds++
	r.counts.Sittings += len(w.build.Sittings)
}

// settleIn finds where the texts of all builds stand.
func (r *run) settleIn() {
	places := make(map[string]map[string]site.Place, len(r.works))
	for _, w := range r.works {
		places[w.slug()] = w.places
	}
	r.places = site.NewPlaces(r.shop.Wall, places)
	r.photos.Wall = wallPhotos(r)
}

// reckon does every topic's sums for every build, then the sums over builds.
func (r *run) reckon(ctx context.Context) {
	var found source.Findings
	r.paints, found = finish.Shelf(&r.shop.Rack)
	r.found.Add(found...)
	each(ctx, r.env.Workers, r.works, func(w *work) source.Findings {
		if !w.kept {
			w.reckon()
		}
		return w.found
	}, &r.found)
	r.house = r.newHouse()
	r.found.Add(withoutFollowersOfSize(r.house.Shelf.Found, r.shop.Builds)...)
	r.marks = allMarks(r)
	texts := r.texts()
	for _, leaf := range r.shop.Wall {
		r.found.Add(texts.CheckLinks(site.LinksOf(leaf.Body))...)
	}
	for _, w := range r.works {
		r.found.Add(texts.CheckLinks(w.links)...)
	}
	r.found.Add(site.CheckWall(r.env.Content, r.shop.Wall)...)
}

// until returns the moment at which a site that was just made changes by
// itself, as clocks run on, embargoes end and days pass; the moment of the run
// where that is at once.
func (r *run) until() time.Time {
	if r.env.Wall {
		return time.Date(9999, 1, 1, 0, 0, 0, 0, time.UTC)
	}
	now := r.bench.Now
	y, m, d := now.Date()
	until := time.Date(y, m, d+1, 0, 0, 0, 0, now.Location())
	for _, w := range slices.Concat(r.works, r.complete().works) {
		if ends := w.finish.Until; !ends.IsZero() && ends.Before(until) {
			until = ends
		}
	}
	for _, ends := range r.hidden.Ends {
		if ends.Before(until) {
			until = ends
		}
	}
	return until
}
