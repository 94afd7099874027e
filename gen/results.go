package gen

import (
	"context"
	"time"

	"spruelight/gen/circuit"
	"spruelight/gen/journal"
	"spruelight/gen/output"
	"spruelight/gen/page"
	"spruelight/gen/site"
	"spruelight/gen/source"
	"spruelight/gen/tally"
	"spruelight/gen/topic"
	"spruelight/gen/topic/care"
	"spruelight/gen/topic/finish"
	"spruelight/gen/topic/lighting"
)

// What stands above the pipeline asks here for results: the desk for the sums
// of one build, the shelving for the site of one build by itself.

// Reckoned is one build with what was worked out of it.
type Reckoned struct {
	Shop       *journal.Workshop
	Build      *journal.Build
	Now        time.Time          // by the workshop's clock
	Found      source.Findings    // of the whole workshop
	Sums       source.Findings    // of this build's sums alone
	Circuits   []circuit.Solution // that could be handed over, in the order of build.md; not each is solved
	Quote      *tally.Quote       // of a commission; nil where there is none
	Disclosure tally.Disclosure   // how the kit came here
	Words      *page.Words        // of the workshop's language; nil where they cannot be read
	work       *work
}

// Reckon reads a workshop, does its sums, and returns one build. What is under
// embargo is seen all the same. It fails where there is no such build.
func Reckon(ctx context.Context, env Env, slug string) (*Reckoned, error) {
	r := newRun(env)
	r.read(ctx)
	r.reckon(ctx)
	if ctx.Err() != nil {
		return nil, ctx.Err()
	}
	if env.Themes != nil {
		r.loadWords()
	}
	b := reckonedBy(r, slug)
	if b.Build == nil {
		return nil, r.shop.NoBuild(slug)
	}
	return b, nil
}

// reckonedBy returns what a run knows of a build; Build is nil where it has none.
func reckonedBy(r *run, slug string) *Reckoned {
	b := &Reckoned{Shop: r.shop, Now: r.bench.Now, Found: r.found, Words: r.words}
	if w := r.bySlug[slug]; w != nil {
		b.work, b.Build, b.Sums, b.Quote, b.Disclosure = w, w.build, w.found, w.record.Quote, w.record.Obtained
		for i := range w.light.Circuits {
			b.Circuits = append(b.Circuits, w.light.Circuits[i].Solution)
		}
	}
	return b
}

// Page returns where the page of a workshop's file stands in the site.
func (b *Reckoned) Page(file string) string { return b.work.run.places.Page(file) }

// PaintName is what is written on a paint's pot, else its name on the rack.
func (b *Reckoned) PaintName(coat string) string { return finish.PaintName(&b.Shop.Rack, coat) }

// LampName says what a lamp of the rack is: its colour and size.
func (b *Reckoned) LampName(name string) string {
	return lighting.LampName(&b.Shop.Rack, name, b.Words)
}

// LampKinds counts the lamps of each kind: "3 × warm white, 3 mm".
func (b *Reckoned) LampKinds() []string { return lighting.LampKinds(b.work.facts(), b.Words) }

// Alone is the site of a workshop that holds one build and what it uses.
type Alone struct {
	*Reckoned                  // Build is nil where it cannot be read
	Lead      string           // site path of the picture that stands for the build, about 800 pixels wide; "" without one
	Repair    string           // site path of the repair sheet, "" without one
	Lacks     []source.Message // what was never written down
	Overruled source.Findings
	Embargoed []string // what is under embargo, and until when
}

// AloneOptions say how far the site of one build goes.
type AloneOptions struct {
	Anyway    bool // findings of severity stop become warnings, and are listed as overruled
	Embargoed bool // what is under embargo is shown
}

// AssembleAlone makes the site of a workshop that holds one build. What goes
// into out is not whole where Found stops; without the option nothing is made
// of a build of which something is under embargo, and Reckoned is nil.
func AssembleAlone(ctx context.Context, env Env, out output.Site, slug string, opts AloneOptions) (*Alone, error) {
	r := newRun(env)
	a := &Alone{}
	overrule := func() {
		for i := range r.found {
			if f := &r.found[i]; opts.Anyway && r.bySlug[slug] != nil && f.Severity() == source.Stop && f.Silenced == "" {
				f.Overruled = true
				a.Overruled = append(a.Overruled, *f)
			}
		}
	}
	r.read(ctx)
	r.reckon(ctx)
	_, held, _ := site.Withhold(r.shop, r.bench.Now, site.Showing{})
	if a.Embargoed = held.Until; len(a.Embargoed) > 0 && !opts.Embargoed {
		return a, ctx.Err()
	}
	r = r.free(ctx, site.Showing{Embargoed: true})
	overrule()
	newPhotoStage(r).make(ctx)
	overrule()
	if err := r.print(ctx, out); err != nil {
		return nil, err
	}
	settle(&r.found, r.complete().shop)
	a.Reckoned = reckonedBy(r, slug)
	if w := a.work; w != nil && !r.found.Stops() {
		a.Lacks = care.Lacks(w.facts(), w.forCare())
		if lead := topic.NewCard(w.facts(), w.record.Build, w.record.Sum, r.house).Lead; lead != nil {
			a.Lead = lead.Near(800).Path
		}
		if care.Wanted(w.facts(), w.forCare()) {
			a.Repair = w.facts().Place(care.File)
		}
	}
	return a, ctx.Err()
}

// Largest returns the site path of a photo's largest rendition; ok is false
// where no page shows the photo.
func (a *Alone) Largest(photo string) (at string, ok bool) {
	return a.work.run.photos.Largest(photo)
}
