package gen

import (
	"context"
	"errors"
	"fmt"
	"path"
	"slices"
	"strings"

	"spruelight/gen/bag"
	"spruelight/gen/circuit/netlist"
	"spruelight/gen/journal"
	"spruelight/gen/output"
	"spruelight/gen/site"
	"spruelight/gen/source"
	"spruelight/gen/tally"
)

// ShelveOptions say what goes into an archive.
type ShelveOptions struct {
	KeepLocation bool // originals keep what they say of where they were taken
	Renditions   bool // the originals are left out
	Anyway       bool // also what is not finished, or has findings of severity stop
	Undated      bool // no Bagging-Date, so that the same input gives the same bytes on every day
}

// Archive is a build ready to be put into a bag.
type Archive struct {
	Slug     string
	Items    []bag.Item
	Info     []bag.Tag
	Findings source.Findings // of the build by itself
	Lacks    []string        // what was never written down
	Left     []string        // files of the build that are left out, each with the reason
	Cleaned  []string        // pictures whose place was taken out, each with what went
}

// NotFinished says why a build is not shelved.
type NotFinished struct{ Slug, Says string }

// Error says why, and what to do.
func (e *NotFinished) Error() string {
	return fmt.Sprintf("%s is not finished: %s; or shelve it as it is with --anyway", e.Slug, e.Says)
}

// Shelve prepares the archive of a finished build: its offline site, made from
// its sources alone so that it can be made again from the archive, the sources,
// the pictures, the netlists. Nothing is written. Findings of severity stop
// give an archive without items, unless opts says anyway.
func Shelve(ctx context.Context, env Env, slug string, opts ShelveOptions) (*Archive, error) {
	b, shop, err := findBuild(env, slug)
	if err != nil {
		return nil, err
	}
	if err := finished(b); err != nil && !opts.Anyway {
		return nil, err
	}
	u, err := bundleOf(env.Content, shop, b)
	if err != nil {
		return nil, err
	}
	s := &shelving{env: env, opts: opts, bundle: u, archive: &Archive{Slug: slug, Left: u.left}}
	return s.archive, s.fill(ctx)
}

// findBuild reads the workshop and one build of it.
func findBuild(env Env, slug string) (*journal.Build, *journal.Workshop, error) {
	shop, _ := journal.Open(env.Content)
	b, ok := shop.Build(slug)
	if !ok {
		return nil, nil, noBuild(slug, shop)
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

// shelving is the work on one archive.
type shelving struct {
	env     Env
	opts    ShelveOptions
	bundle  *bundle
	archive *Archive
	run     *run          // over the bundle alone
	made    []output.File // its site
	work    *work
	reasons []string // why it should not have been shelved
	bytes   int64
}

func (s *shelving) fill(ctx context.Context) error {
	if err := s.assemble(ctx); err != nil {
		return err
	}
	if s.run.found.Stops() {
		return nil
	}
	s.site()
	s.sources()
	if err := s.pictures(); err != nil {
		return err
	}
	s.netlists()
	s.archive.Lacks = s.lacking()
	s.add(bag.Bytes("README.txt", []byte(s.readme())))
	slices.SortFunc(s.archive.Items, func(a, b bag.Item) int { return strings.Compare(a.Path, b.Path) })
	s.archive.Info = s.info()
	return ctx.Err()
}

// assemble makes the site of the bundle by itself.
func (s *shelving) assemble(ctx context.Context) error {
	env := s.env
	env.Content = s.bundle.fs(s.env.Content)
	r := newRun(env)
	s.run = r
	r.read(ctx)
	r.reckon(ctx)
	if i := slices.IndexFunc(r.works, func(w *work) bool { return w.slug() == s.bundle.slug }); i >= 0 {
		s.work = r.works[i]
		if err := finished(s.work.build); err != nil {
			s.reasons = append(s.reasons, strings.TrimSuffix(err.Error(), "; or shelve it as it is with --anyway"))
		}
	}
	if s.opts.Anyway && s.work != nil {
		s.overrule()
	}
	r.takePhotos(ctx)
	if s.opts.Anyway && s.work != nil {
		s.overrule()
	}
	var site output.Memory
	if err := r.print(ctx, &site); err != nil {
		return err
	}
	s.made = site.Files()
	r.settle()
	for _, f := range r.found {
		if f.Rule.Name != journal.RuleLink { // other builds are no part of the archive
			s.archive.Findings.Add(f)
		}
	}
	return ctx.Err()
}

// overrule turns findings of severity stop into warnings, and notes each as a
// reason against shelving.
func (s *shelving) overrule() {
	for i := range s.run.found {
		f := &s.run.found[i]
		if f.Severity() == source.Stop && f.Silenced == "" {
			f.Overruled = true
			at := f.At.Position()
			s.reasons = append(s.reasons, fmt.Sprintf("%s:%d: %s [%s]", f.At.Name(), at.Line, f.Says.String(), f.Rule.Name))
		}
	}
}

func (s *shelving) add(item bag.Item) {
	s.archive.Items = append(s.archive.Items, item)
	s.bytes += max(item.Size, 0)
}

// site takes the pages. The site map is left out: it lists addresses on the
// web, where an archive does not stand.
func (s *shelving) site() {
	for _, f := range s.made {
		if f.Path != "sitemap.xml" {
			s.add(siteItem(f))
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
func (s *shelving) sources() {
	for _, name := range s.bundle.names() {
		s.add(bag.Bytes(path.Join("sources", name), s.bundle.texts[name]))
	}
}

// netlists writes every circuit for SPICE.
func (s *shelving) netlists() {
	taken := map[string]bool{}
	for i := range s.work.light.circuits {
		c := &s.work.light.circuits[i].solution
		if !c.Solved {
			continue
		}
		stem := site.SafeStem(c.Name)
		if source.ValidPath(stem) != nil { // a name that a system keeps for a device, or none at all
			stem = "circuit-" + stem
		}
		name := stem
		for n := 2; taken[name]; n++ {
			name = fmt.Sprintf("%s-%d", stem, n)
		}
		taken[name] = true
		s.add(bag.Bytes("netlists/"+name+".cir", []byte(netlist.SPICE(c))))
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
