package gen

import (
	"context"
	"slices"

	"spruelight/gen/photo"
	"spruelight/gen/site"
	"spruelight/gen/source"
)

// What the site must not mention yet is checked all the same: the whole workshop
// is read and reckoned for its findings, and then what is free of it for the
// site. Builds of which nothing is withheld are reckoned once.

// free returns the run of what may be seen: the run itself where nothing is
// withheld. Its findings are those of the whole.
func (r *run) free(ctx context.Context, show site.Showing) *run {
	shop, hidden, notes := site.Withhold(r.shop, r.bench.Now, show)
	r.found.Add(notes...)
	if !hidden.Any() {
		return r
	}
	f := newRun(r.env)
	f.whole, f.earlier, f.shop, f.hidden, f.bench = r, r.earlier, shop, hidden, r.bench
	for _, b := range shop.Builds {
		w := r.bySlug[b.Slug]
		if w == nil {
			continue
		}
		own := *w
		own.run, own.kept = f, true
		if b != w.build {
			own = *newWork(f, b)
			own.survey()
		}
		f.add(&own)
	}
	f.settleIn()
	f.reckon(ctx)
	rests := restingOnWithheld(r, f)
	f.found = r.found
	for i := range f.found {
		f.found[i].Withheld = rests(f.found[i])
	}
	f.inspectHeld(ctx)
	return f
}

// restingOnWithheld returns what tells the findings of a whole workshop that
// rest on what is withheld: they stand in it, or are not found without it.
func restingOnWithheld(whole, free *run) func(source.Finding) bool {
	known := map[string]bool{}
	for _, found := range []source.Findings{whole.reading, free.found} {
		for _, f := range found {
			known[f.Key()] = true
		}
	}
	return func(f source.Finding) bool { return free.hidden.Has(f.At.Name()) || !known[f.Key()] }
}

// complete is the run of the whole workshop.
func (r *run) complete() *run {
	if r.whole != nil {
		return r.whole
	}
	return r
}

// inspectHeld checks the photos that only what is withheld names.
func (r *run) inspectHeld(ctx context.Context) {
	limits := newPhotoStage(r).recipe.Limits
	for _, w := range r.whole.works {
		if !r.hidden.Touches(w.build) {
			continue
		}
		held := &site.BuildPhotos{}
		for _, named := range w.photos.Named {
			if r.photos.Of(named.File).Names(named.File) {
				continue
			}
			info, err := photo.Inspect(r.env.Content, named.File, limits)
			if ctx.Err() != nil {
				return
			}
			if err != nil {
				held.KeepFault(named, err, r.found)
			} else {
				held.KeepTaken(named.File, info.Taken)
			}
		}
		for _, f := range slices.Concat(held.Faults, held.Undated(w.build)) {
			f.Withheld = true
			r.found.Add(f)
		}
	}
}

// published warns of what was in the site and is withheld now, where the site
// knows what it held.
func (r *run) published(out any) {
	former, ok := out.(interface{ Had(path string) bool })
	if !ok || r.whole == nil {
		return
	}
	for _, f := range r.hidden.Published(r.whole.places, former.Had) {
		f.Withheld = true
		r.found.Add(f)
	}
}
