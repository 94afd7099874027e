package gen

import (
	"context"
	"runtime/debug"
	"sync/atomic"
	"time"

	"spruelight/gen/journal"
	"spruelight/gen/photo"
	"spruelight/gen/site"
	"spruelight/gen/source"
)

// recipe says what is made of each photo.
func (r *run) recipe() photo.Recipe {
	recipe := photo.DefaultRecipe()
	settings := r.shop.Settings.Photos
	if settings.Limit.Set {
		recipe.Limits.Pixels = int64(settings.Limit.V) * 1_000_000
	}
	if settings.Also.Set {
		recipe.Also = photo.Format(settings.Also.V)
	}
	return recipe
}

// takePhotos makes the renditions of every photo, or takes them from the cache
// or from an earlier pass.
func (r *run) takePhotos(ctx context.Context) {
	if r.found.Stops() { // the photos of a broken record are checked, not made
		r.inspect(ctx)
		return
	}
	recipe := r.recipe()
	list := r.photoJobs(func(s *site.BuildPhotos) bool { return s.Sets == nil })
	if len(list) > 0 {
		defer leanHeap()()
	}
	r.eachPhoto(ctx, list, func(t *photoJob) {
		t.set, t.err = r.env.Photos.Make(ctx, r.env.Content, t.File, recipe)
		t.info = t.set.Info
	})
	for _, t := range list {
		if t.err == nil && !t.set.Reused {
			r.counts.Made++
		}
	}
	for _, s := range r.allPhotos() {
		r.found.Add(s.Notes...)
		r.counts.Reused += len(s.Sets)
	}
	r.counts.Reused -= r.counts.Made
	if ctx.Err() != nil || r.counts.Made == 0 && r.former != nil { // the cache holds what it held
		return
	}
	if err := r.env.Photos.Flush(); err != nil {
		r.found.Add(ruleCache.At(source.Span{}, "check the cache folder, or name another with --cache", "the photo cache cannot be written: %v", err))
	}
}

// leanHeap has the collector run when garbage is half of what is in use, and
// returns what puts its setting back. Photos leave garbage of 80 MB each that
// holds no pointers: to collect it twice as often costs next to nothing and
// takes a third off the largest memory of a run.
func leanHeap() (restore func()) {
	const percent = 50
	former := debug.SetGCPercent(percent)
	if former >= 0 && former < percent { // GOGC asks for less still
		debug.SetGCPercent(former)
	}
	return func() { debug.SetGCPercent(former) }
}

// inspect checks by their headers the photos that no earlier pass looked at.
func (r *run) inspect(ctx context.Context) {
	limits := r.recipe().Limits
	r.eachPhoto(ctx, r.photoJobs(func(s *site.BuildPhotos) bool { return s.Taken == nil }), func(t *photoJob) {
		t.info, t.err = photo.Inspect(r.env.Content, t.File, limits)
	})
}

// photoJob is one photo on its way through the photo room.
type photoJob struct {
	site.NamedPhoto
	into *site.BuildPhotos
	info photo.Info
	set  photo.Set
	err  error
}

// photoJobs lists the photos of the builds that still want them, and of the wall.
func (r *run) photoJobs(want func(*site.BuildPhotos) bool) []*photoJob {
	var list []*photoJob
	for _, w := range r.works {
		if !want(w.photos) {
			continue
		}
		w.photos = &site.BuildPhotos{Named: w.photos.Named} // an earlier pass may still show the former ones
		r.photos.Builds[w.slug()] = w.photos
		for _, named := range w.photos.Named {
			list = append(list, &photoJob{NamedPhoto: named, into: w.photos})
		}
	}
	for _, named := range r.photos.Wall.Named {
		if _, known := r.photos.Wall.Sets[named.File]; !known {
			list = append(list, &photoJob{NamedPhoto: named, into: r.photos.Wall})
		}
	}
	return list
}

// eachPhoto works on photos and keeps what comes out with their builds.
func (r *run) eachPhoto(ctx context.Context, list []*photoJob, do func(*photoJob)) {
	var done atomic.Int64
	each(ctx, r.env.Workers, list, func(t *photoJob) source.Findings {
		do(t)
		r.env.Progress("photos", int(done.Add(1)), len(list))
		return nil
	}, &r.found)
	if ctx.Err() != nil {
		return
	}
	known := r.found
	for _, t := range list {
		switch {
		case t.err != nil:
			t.into.KeepFault(t.NamedPhoto, t.err, known)
		case t.set.Renditions == nil: // it was looked at only
			t.into.KeepTaken(t.File, t.info.Taken)
		default:
			t.into.Keep(t.NamedPhoto, t.set)
		}
	}
	for _, s := range r.allPhotos() {
		r.counts.Photos += len(s.Named)
		r.found.Add(s.Faults...)
	}
	for _, w := range r.works {
		r.found.Add(w.photos.Undated(w.build)...)
	}
}

// allPhotos are the photos of all builds and of the wall.
func (r *run) allPhotos() []*site.BuildPhotos {
	all := []*site.BuildPhotos{r.photos.Wall}
	for _, w := range r.works {
		all = append(all, w.photos)
	}
	return all
}

// wallPhotos lists the photos that free pages show and no page of a build does.
// Those of an earlier pass whose files did not change are taken over.
func (r *run) wallPhotos() *site.BuildPhotos {
	wall := &site.BuildPhotos{Sets: map[string]photo.Set{}, Taken: map[string]time.Time{}}
	for file, written := range site.ShownOnWall(r.shop.Wall) {
		if _, drawn := site.DrawingName(file); drawn || !journal.Pictured(file) || r.hidden.HasPhoto(file) || wall.Names(file) || r.photos.Of(file).Names(file) {
			continue
		}
		named := site.NamedPhoto{File: file, At: written.At}
		wall.Named = append(wall.Named, named)
		if set, ok := r.former.photo(file); ok {
			wall.Keep(named, set)
		}
	}
	return wall
}

// ruleCache is broken when renditions cannot be kept.
var ruleCache = &source.Rule{Name: "photo-cache", Severity: source.Warn, Source: "common practice, no source",
	Reason: "Without its cache every run makes every photo anew.",
	Keys:   source.NoKey}
