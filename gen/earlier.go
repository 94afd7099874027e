package gen

import (
	"crypto/sha256"
	"fmt"
	"io"
	"strings"

	"spruelight/gen/photo"
	"spruelight/gen/site"
	"spruelight/gen/tally"
)

// earlier is what earlier passes left for the next one: the works of builds
// whose files did not change, and the theme's templates as they were read. A
// nil earlier left nothing.
//
// Three conditions make that safe. A work is never changed once its pass has
// ended; it depends on its build's own folder, on what all builds share
// (settings, rack, shelf: a change there starts afresh), and on the few facts
// of other builds that marks names; and the moment is the pass's own.
type earlier struct {
	run     *run
	works   map[string]*work
	touched map[string]bool // slugs of builds whose folders changed; "" where the wall did
	printed *theme          // of the last pass that opened a theme; nil where that may have changed
}

// leave returns what a pass leaves for the next one, given the workshop paths
// that changed since and the theme of the last pass that had one.
func leave(r *run, changed []string, printed *theme) *earlier {
	f := &earlier{run: r, works: map[string]*work{}, touched: map[string]bool{}, printed: printed}
	theme, afresh := r.shop.Settings.Theme.V, false
	for _, name := range changed {
		top, rest, _ := strings.Cut(name, "/")
		switch {
		case top == "builds" && rest == "": // builds came or went: each is looked at below
		case top == "builds":
			slug, _, _ := strings.Cut(rest, "/")
			f.touched[slug] = true
		case top == "wall": // free pages are read on every pass
			f.touched[""] = true
		case name == "workshop.yaml", name == "shelf.yaml", top == "rack":
			afresh = true
		case theme != "" && (name == theme || strings.HasPrefix(name, theme+"/")):
			f.printed = nil
		default: // an outline of the shelf, a theme behind the theme
			afresh, f.printed = true, nil
		}
	}
	if !afresh {
		for _, w := range r.works {
			f.works[w.slug()] = w
		}
	}
	return f
}

// take returns a work for every build of a pass: the former one where the
// build's folder did not change, else a new one that is still to be read.
func (e *earlier) take(r *run) []*work {
	works := make([]*work, len(r.shop.Builds))
	for i, b := range r.shop.Builds {
		works[i] = newWork(r, b)
		if e == nil || e.touched[b.Slug] || e.works[b.Slug] == nil || e.run.hidden.Touches(b) || !e.works[b.Slug].finish.Until.IsZero() {
			continue
		}
		kept := *e.works[b.Slug] // a copy: the former pass may still be shown
		kept.run, kept.kept = r, true
		works[i], r.shop.Builds[i] = &kept, kept.build
	}
	return works
}

// photo returns what an earlier pass made of a photo of a free page.
func (e *earlier) photo(file string) (photo.Set, bool) {
	if e == nil || e.run.photos.Wall == nil || e.touched[site.BuildOf(file)] {
		return photo.Set{}, false
	}
	set, ok := e.run.photos.Wall.Sets[file]
	return set, ok
}

// theme returns an earlier pass's theme where theme and words are still its own.
func (e *earlier) theme(name, language string) *theme {
	if e == nil || e.printed == nil || e.printed.name != name || e.printed.language != language {
		return nil
	}
	return e.printed
}

// mark sums up what pages of other builds say of a build: its name, and what a
// forecast goes by once it is finished.
func (w *work) mark() string {
	text := w.slug() + "\x00" + w.build.Front.Name.V + "\x00" + w.build.Front.State.V
	if w.record.Sum.State == tally.Shelf {
		text += fmt.Sprintf("\x00%v\x00%v\x00%v", w.record.Sum.ByStage, w.record.Sum.Parts, w.record.Sum.Hours)
	}
	return text
}

// allMarks sums up what pages of any build may say of others.
func allMarks(r *run) string {
	h := sha256.New()
	fmt.Fprintln(h, r.bench.Today) // paces and forecasts go by the day
	for _, w := range r.works {
		io.WriteString(h, w.marks)
	}
	fmt.Fprintf(h, "%v", r.house.Shelf.Members)
	return string(h.Sum(nil))
}
