package gen

import (
	"slices"
	"sync"

	"spruelight/gen/output"
	"spruelight/gen/page"
	"spruelight/gen/site"
	"spruelight/gen/source"
)

// buildPart is what one build puts into the site: its pages, drawings and photos.
// It is made once, when the first of them is wanted, and holds for as long as
// nothing changes that it was made of.
type buildPart struct {
	mu     sync.Mutex
	work   *work // what it is made of; nil once it is made
	sheets []*page.Sheet
	files  []output.File // drawings and photos
	memo   printed

	drawings []page.Drawing
	shown    bool // a free page shows one of them

	book  *page.Book // by which pictures among words were printed
	marks string     // what it may say of other builds
	leads []string   // where its links led
}

// newBuildPart plans a build's part of the site.
func (r *run) newBuildPart(w *work) *buildPart {
	return &buildPart{work: w, book: r.theme.book, marks: r.marks, leads: leads(r.texts(), w)}
}

// stands reports whether a part of an earlier pass is still right: it was
// made, nothing that it says of other builds has changed, and its links lead
// where they led.
func (p *buildPart) stands(r *run, w *work) bool {
	if p == nil || !p.made() || p.book != r.theme.book || p.marks != r.marks {
		return false
	}
	return slices.Equal(p.leads, leads(r.texts(), w))
}

func (p *buildPart) made() bool {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.work == nil
}

// make draws the build and lists its pages, unless that is done.
func (p *buildPart) make() *buildPart {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.work == nil {
		return p
	}
	w := *p.work // a copy: the next pass may be taking the build over
	w.drawing.Lock()
	defer w.drawing.Unlock()
	r := w.run
	p.sheets = w.sheets(w.facts(), w.desk(), r.house, r.theme.finished())
	p.files = append(w.drawingFiles(), w.photos.Files()...)
	p.drawings = w.drawings
	p.work = nil // or every part would hold the pass that it was made in
	return p
}

// leads lists where the links of a build's texts lead.
func leads(texts *site.Texts, w *work) []string {
	var leads []string
	for _, l := range w.links {
		to, ok := texts.Find(l.Body, l.Dest)
		if !ok {
			to = "\x00" + to
		}
		leads = append(leads, to)
	}
	return leads
}

// printAll puts every file of a build into the site, and lets go of what only
// they needed: of a large workshop no more than a few builds are drawn at once.
// The error is of the site.
func (r *run) printAll(w *work, out output.Site) (found source.Findings, err error) {
	s := w.part.make()
	for _, f := range s.files {
		if err := out.Put(f); err != nil {
			return found, err
		}
	}
	for _, sheet := range s.sheets {
		text, bad := r.theme.book.Print(r.theme.site, sheet)
		found.Add(bad...)
		if err := out.Put(output.File{Path: sheet.Path, Bytes: text}); err != nil {
			return found, err
		}
	}
	if text, ok := r.house.FeedOf(w.ofSite(w.facts()), s.sheets); ok {
		if err := out.Put(output.File{Path: w.facts().Place(site.FeedName), Bytes: text}); err != nil {
			return found, err
		}
	}
	for _, sheet := range s.sheets {
		sheet.Data = nil
	}
	s.files = nil
	if !s.shown {
		s.drawings = nil
	}
	return found, nil
}
