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

// former is what earlier passes left for the next one: the works of builds
// whose files did not change, and the theme's templates as they were read. A
// nil former left nothing.
//
// Three conditions make that safe. A work is never changed once its pass has
// ended; it depends on its build's own folder, on what all builds share
// (settings, rack, shelf: a change there starts afresh), and on the few facts
// of other builds that marks names; and the moment is the pass's own.
type former struct {
	run     *run
	works   map[string]*work
	touched map[string]bool // slugs of builds whose folders changed; "" where the wall did
	printed *press          // of the last pass that opened a theme; nil where that may have changed
}

// leave returns what a pass leaves for the next one, given the workshop paths
// that changed since and the press of the last pass that had one.
func (r *run) leave(changed []string, printed *press) *former {
	f := &former{run: r, works: map[string]*work{}, touched: map[string]bool{}, printed: printed}
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
func (f *former) take(r *run) []*work {
	works := make([]*work, len(r.shop.Builds))
	for i, b := range r.shop.Builds {
		works[i] = newWork(r, b)
		if f == nil || f.touched[b.Slug] || f.works[b.Slug] == nil || f.run.hidden.Holds(b) || !f.works[b.Slug].finish.Until.IsZero() {
			continue
		}
		kept := *f.works[b.Slug] // a copy: the former pass may still be shown
		kept.run, kept.kept = r, true
		works[i], r.shop.Builds[i] = &kept, kept.build
	}
	return works
}

// photo returns what an earlier pass made of a photo of a free page.
func (f *former) photo(file string) (photo.Set, bool) {
	if f == nil || f.run.photos.Wall == nil || f.touched[site.BuildOf(file)] {
		return photo.Set{}, false
	}
	set, ok := f.run.photos.Wall.Sets[file]
	return set, ok
}

// press returns an earlier pass's press where theme and words are still its own.
func (f *former) press(theme, language string) *press {
	if f == nil || f.printed == nil || f.printed.name != theme || f.printed.language != language {
		return nil
	}
	return f.printed
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
func (r *run) allMarks() string {
	h := sha256.New()
	fmt.Fprintln(h, r.bench.Today) // paces and forecasts go by the day
	for _, w := range r.works {
		io.WriteString(h, w.marks)
	}
	fmt.Fprintf(h, "%v", r.house.Shelf.Members)
	return string(h.Sum(nil))
}
