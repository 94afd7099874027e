// Package shelving puts a finished build into an archive that outlives its site,
// brings builds back from archives, and lists archives on a contents page.
package shelving

import (
	"context"
	"errors"
	"fmt"
	"path"
	"slices"
	"strings"

	"spruelight/gen"
	"spruelight/gen/bag"
	"spruelight/gen/circuit/netlist"
	"spruelight/gen/journal"
	"spruelight/gen/output"
	"spruelight/gen/photo"
	"spruelight/gen/source"
	"spruelight/gen/tally"
)

// Options say what goes into an archive.
type Options struct {
	KeepLocation bool // originals keep what they say of where they were taken
	KeepCamera   bool // originals keep serial numbers and the camera's owner
	Renditions   bool // the originals are left out
	Anyway       bool // also what is not finished, or has findings of severity stop
	Embargoed    bool // also what is under embargo
	Undated      bool // no Bagging-Date, so that the same input gives the same bytes on every day
}

func (o Options) keep() photo.Keep { return photo.Keep{Place: o.KeepLocation, Camera: o.KeepCamera} }

// keepsAll reports whether originals stay as they are, to the byte.
func (o Options) keepsAll() bool { return o.KeepLocation && o.KeepCamera }

// Archive is a build ready to be put into a bag.
type Archive struct {
	Slug     string
	Items    []bag.Item
	Info     []bag.Tag
	Findings source.Findings // of the build by itself
	Lacks    []string        // what was never written down
	Left     []string        // files of the build that are left out, each with the reason
	Held     []string        // what of it is under embargo, and until when
	Cleaned  []string        // pictures that something was taken out of, each with what went
}

// NotFinished says why a build is not shelved.
type NotFinished struct{ Slug, Says string }

const anywayHint = "or shelve it as it is with --anyway"

// Error says why, and what to do.
func (e *NotFinished) Error() string {
	return fmt.Sprintf("%s is not finished: %s; %s", e.Slug, e.Says, anywayHint)
}

// Embargoed says that something of a build may not be seen yet.
type Embargoed struct {
	Slug string
	Held []string // what, and until when
}

// Error says what, and what to do.
func (e *Embargoed) Error() string {
	return fmt.Sprintf("%s is not shelved: under embargo are %s; shelve it after that, or put them in with --with embargoed", e.Slug,
		strings.Join(e.Held, "; "))
}

// Shelve prepares the archive of a finished build: its offline site, made from
// its sources alone so that it can be made again from the archive, the sources,
// the pictures, the netlists. Nothing is written. Findings of severity stop
// give an archive without items, unless opts says anyway. What is under embargo
// is an error of Embargoed, unless opts has it come along.
func Shelve(ctx context.Context, env gen.Env, slug string, opts Options) (*Archive, error) {
	b, shop, err := findBuild(env, slug)
	if err != nil {
		return nil, err
	}
	if err := finished(b); err != nil && !opts.Anyway {
		return nil, err
	}
	u, err := bundleOf(env.Content, shop, b, opts.keep())
	if err != nil {
		return nil, err
	}
	p := &packing{env: env, opts: opts, bundle: u, archive: &Archive{Slug: slug, Left: u.left}}
	return p.archive, p.fill(ctx)
}

// findBuild reads the workshop and one build of it.
func findBuild(env gen.Env, slug string) (*journal.Build, *journal.Workshop, error) {
	shop, _ := journal.Open(env.Content)
	b, ok := shop.Build(slug)
	if !ok {
		return nil, nil, shop.NoBuild(slug)
	}
	found := shop.ReadBuild(env.Content, b)
	if b.File == nil || b.Body == nil {
		if len(found) > 0 {
			return nil, nil, errors.New(found[0].Says.String())
		}
		return nil, nil, fmt.Errorf("builds/%s holds no build.md that can be read", slug)
	}
	return b, shop, nil
}

// finished returns why a build does not count as finished.
func finished(b *journal.Build) error {
	f := &b.Front
	switch {
	case f.State.V != string(tally.Shelf):
		return &NotFinished{b.Slug, fmt.Sprintf("build.md says state: %s; write state: shelf and finished: with the day", f.State.V)}
	case !f.Finished.Set:
		return &NotFinished{b.Slug, "build.md does not say when; write finished: with the day"}
	}
	return nil
}

// packing is the work on one archive.
type packing struct {
	env     gen.Env
	opts    Options
	bundle  *bundle
	archive *Archive
	site    *gen.Alone      // of the bundle alone
	made    output.Memory   // its files
	reasons []string        // why it should not have been shelved
	gone    []photo.Removed // of each original, unless all stay as they are
	bytes   int64
}

func (p *packing) fill(ctx context.Context) error {
	if err := p.assemble(ctx); err != nil {
		return err
	}
	if p.site.Found.Stops() {
		return nil
	}
	p.pages()
	p.sources()
	if err := p.pictures(); err != nil {
		return err
	}
	p.netlists()
	p.archive.Lacks = p.lacking()
	p.add(bag.Bytes("README.txt", []byte(p.readme())))
	slices.SortFunc(p.archive.Items, func(a, b bag.Item) int { return strings.Compare(a.Path, b.Path) })
	p.archive.Info = p.info()
	return ctx.Err()
}

// assemble makes the site of the bundle by itself.
func (p *packing) assemble(ctx context.Context) error {
	env := p.env
	env.Content = p.bundle.fs(p.env.Content)
	site, err := gen.AssembleAlone(ctx, env, &p.made, p.bundle.slug, gen.AloneOptions{Anyway: p.opts.Anyway, Embargoed: p.opts.Embargoed})
	if err != nil {
		return err
	}
	if site.Reckoned == nil {
		return &Embargoed{p.bundle.slug, site.Embargoed}
	}
	p.site, p.archive.Held = site, site.Embargoed
	if site.Build != nil {
		if err := finished(site.Build); err != nil {
			p.reasons = append(p.reasons, strings.TrimSuffix(err.Error(), "; "+anywayHint))
		}
	}
	for _, f := range site.Overruled {
		p.reasons = append(p.reasons, fmt.Sprintf("%s:%d: %s [%s]", f.At.Name(), f.At.Position().Line, f.Says.String(), f.Rule.Name))
	}
	for _, f := range site.Found {
		if f.Rule.Name != journal.RuleLink { // other builds are no part of the archive
			p.archive.Findings.Add(f)
		}
	}
	return nil
}

func (p *packing) add(item bag.Item) {
	p.archive.Items = append(p.archive.Items, item)
	p.bytes += max(item.Size, 0)
}

// pages takes the site. The site map is left out: it lists addresses on the
// web, where an archive does not stand.
func (p *packing) pages() {
	for _, f := range p.made.Files() {
		if f.Path != "sitemap.xml" {
			p.add(siteItem(f))
		}
	}
}

func siteItem(f output.File) bag.Item {
	at := path.Join("site", f.Path)
	if f.Open == nil {
		return bag.Bytes(at, f.Bytes)
	}
	return bag.Item{Path: at, Open: f.Open, Size: f.Size}
}

// sources takes the texts as they were written.
func (p *packing) sources() {
	for _, name := range p.bundle.names() {
		p.add(bag.Bytes(path.Join("sources", name), p.bundle.texts[name]))
	}
}

// netlists writes every circuit for SPICE.
func (p *packing) netlists() {
	taken := map[string]bool{}
	for i := range p.site.Circuits {
		c := &p.site.Circuits[i]
		if !c.Solved {
			continue
		}
		stem := source.Stem(c.Name)
		if source.ValidPath(stem) != nil { // a name that a system keeps for a device, or none at all
			stem = "circuit-" + stem
		}
		name := stem
		for n := 2; taken[name]; n++ {
			name = fmt.Sprintf("%s-%d", stem, n)
		}
		taken[name] = true
		p.add(bag.Bytes("netlists/"+name+".cir", []byte(netlist.SPICE(c))))
	}
}

// Write puts the archive into a bag at dst: a zip file where the name ends in
// .zip, else a folder. It must not exist, and appears whole or not at all.
func (a *Archive) Write(ctx context.Context, dst string) error {
	return bag.Write(ctx, dst, a.Items, a.Info, bag.Options{})
}

// Bytes returns how many bytes of payload the archive has.
func (a *Archive) Bytes() int64 {
	var n int64
	for _, item := range a.Items {
		n += max(item.Size, 0)
	}
	return n
}
