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

// photoStage is the part of a pass that makes the workshop's photos, or looks
// at them alone.
type photoStage struct {
	env     Env
	recipe  photo.Recipe
	works   []*work
	photos  *site.Photos
	session bool // an earlier pass left its photos
	counts  *Counts
	found   *source.Findings
}

func newPhotoStage(r *run) *photoStage {
	p := &photoStage{env: r.env, recipe: photo.DefaultRecipe(), works: r.works, photos: &r.photos, session: r.earlier != nil,
		counts: &r.counts, found: &r.found}
	settings := r.shop.Settings.Photos
	if settings.Limit.Set {
		p.recipe.Limits.Pixels = int64(settings.Limit.V) * 1_000_000
	}
	if settings.Also.Set {
		p.recipe.Also = photo.Format(settings.Also.V)
	}
	return p
}

// make makes the renditions of every photo, or takes them from the cache or
// from an earlier pass. The photos of a broken record are looked at only.
func (p *photoStage) make(ctx context.Context) {
	if p.found.Stops() {
		p.inspect(ctx)
		return
	}
	list := p.jobs(func(of *site.BuildPhotos) bool { return of.Sets == nil })
	if len(list) > 0 {
		defer leanHeap()()
	}
	p.each(ctx, list, func(j *photoJob) {
		j.set, j.err = p.env.Photos.Make(ctx, p.env.Content, j.File, p.recipe)
		j.info = j.set.Info
	})
	for _, j := range list {
		if j.err == nil && !j.set.Reused {
			p.counts.Made++
		}
	}
	for _, of := range p.all() {
		p.found.Add(of.Notes...)
		p.counts.Reused += len(of.Sets)
	}
	p.counts.Reused -= p.counts.Made
	if ctx.Err() != nil || p.counts.Made == 0 && p.session { // the cache holds what it held
		return
	}
	if err := p.env.Photos.Flush(); err != nil {
		p.found.Add(photo.RuleCache.At(source.Span{}, "check the cache folder, or name another with --cache",
			"the photo cache cannot be written: %v", err))
	}
}

// inspect checks by their headers the photos that no earlier pass looked at.
func (p *photoStage) inspect(ctx context.Context) {
	p.each(ctx, p.jobs(func(of *site.BuildPhotos) bool { return of.Taken == nil }), func(j *photoJob) {
		j.info, j.err = photo.Inspect(p.env.Content, j.File, p.recipe.Limits)
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

// jobs lists the photos of the builds that still want them, and of the wall.
func (p *photoStage) jobs(want func(*site.BuildPhotos) bool) []*photoJob {
	var list []*photoJob
	for _, w := range p.works {
		if !want(w.photos) {
			continue
		}
		w.photos = &site.BuildPhotos{Named: w.photos.Named} // an earlier pass may still show the former ones
		p.photos.Builds[w.slug()] = w.photos
		for _, named := range w.photos.Named {
			list = append(list, &photoJob{NamedPhoto: named, into: w.photos})
		}
	}
	for _, named := range p.photos.Wall.Named {
		if _, known := p.photos.Wall.Sets[named.File]; !known {
			list = append(list, &photoJob{NamedPhoto: named, into: p.photos.Wall})
		}
	}
	return list
}

// each works on photos and keeps what comes out with their builds.
func (p *photoStage) each(ctx context.Context, list []*photoJob, do func(*photoJob)) {
	var done atomic.Int64
	each(ctx, p.env.Workers, list, func(j *photoJob) source.Findings {
		do(j)
		p.env.Progress("photos", int(done.Add(1)), len(list))
		return nil
	}, p.found)
	if ctx.Err() != nil {
		return
	}
	known := *p.found
	for _, j := range list {
		switch {
		case j.err != nil:
			j.into.KeepFault(j.NamedPhoto, j.err, known)
		case j.set.Renditions == nil: // it was looked at only
			j.into.KeepTaken(j.File, j.info.Taken)
		default:
			j.into.Keep(j.NamedPhoto, j.set)
		}
	}
	for _, of := range p.all() {
		p.counts.Photos += len(of.Named)
		p.found.Add(of.Faults...)
	}
	for _, w := range p.works {
		p.found.Add(w.photos.Undated(w.build)...)
	}
}

// all are the photos of all builds and of the wall.
func (p *photoStage) all() []*site.BuildPhotos {
	all := []*site.BuildPhotos{p.photos.Wall}
	for _, w := range p.works {
		all = append(all, w.photos)
	}
	return all
}

// wallPhotos lists the photos that free pages show and no page of a build does.
// Those of an earlier pass whose files did not change are taken over.
func wallPhotos(r *run) *site.BuildPhotos {
	wall := &site.BuildPhotos{Sets: map[string]photo.Set{}, Taken: map[string]time.Time{}}
	for file, written := range site.ShownOnWall(r.shop.Wall) {
		if _, drawn := site.DrawingName(file); drawn || !journal.Pictured(file) || r.hidden.Has(file) || wall.Names(file) ||
			r.photos.Of(file).Names(file) {
			continue
		}
		named := site.NamedPhoto{File: file, At: written.At}
		wall.Named = append(wall.Named, named)
		if set, ok := r.earlier.photo(file); ok {
			wall.Keep(named, set)
		}
	}
	return wall
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
