package gen

import (
	"context"
	"fmt"
	"html/template"
	"io/fs"
	"path"
	"strings"
	"sync"
	"time"

	"spruelight/gen/journal"
	"spruelight/gen/output"
	"spruelight/gen/page"
	"spruelight/gen/source"
	"spruelight/gen/svg"
	"spruelight/gen/tally"
)

// press is what printing needs besides the model: theme, words, site; and what
// is made of all builds, when it is first wanted.
type press struct {
	book     *page.Book
	words    *page.Words
	site     *page.Site
	key      string // the site's own words, which stand on every page
	language string
	name     string          // of the theme
	faults   source.Findings // of its templates

	assets func() []output.File
	front  func() *shopfront
	whole  func() *whole
}

// print makes every page, feed and asset, build by build, and puts each into
// the site as it is made. What a finding of severity stop forbids is only known
// at the end; the error is of the site or of ctx.
func (r *run) print(ctx context.Context, out output.Site) error {
	if r.found.Stops() || ctx.Err() != nil || !r.compose() {
		return ctx.Err()
	}
	ctx, stop := context.WithCancelCause(ctx)
	defer stop(nil)
	numbers := make([]int, len(r.works))
	for i := range numbers {
		numbers[i] = i
	}
	each(ctx, r.env.Workers, numbers, func(i int) source.Findings {
		found, err := r.printAll(r.works[i], out)
		if err != nil {
			stop(err)
		}
		r.env.Progress("builds", i+1, len(r.works))
		return found
	}, &r.found)
	if ctx.Err() != nil {
		return context.Cause(ctx)
	}
	front := r.press.front()
	for _, f := range front.files {
		if err := out.Put(f); err != nil {
			return err
		}
	}
	list := r.wholeFiles()
	for _, s := range front.sheets {
		list = append(list, late{s.Path, func() ([]byte, source.Findings) { return r.press.book.Print(r.press.site, s) }})
	}
	for _, l := range list {
		text, found := l.make()
		r.found.Add(found...)
		if err := out.Put(output.File{Path: l.path, Bytes: text}); err != nil {
			return err
		}
	}
	r.counts.Pages = len(r.press.whole().sheets)
	return nil
}

// compose opens the theme and plans every build's part of the site; nothing is
// drawn or printed yet. It reports whether there is a site.
func (r *run) compose() bool {
	if !r.loadWords() || !r.openTheme() {
		return false
	}
	for _, w := range r.works {
		if !w.kept || !w.spread.stands(r, w) {
			w.spread = r.newSpread(w)
		}
	}
	r.found.Add(r.checkShownDrawings()...)
	return true
}

// openTheme reads the theme and the words the workshop asks for, and reports
// whether pages can be printed by them.
func (r *run) openTheme() bool {
	settings := &r.shop.Settings
	name := settings.Theme.Or("sheet")
	theme, found := page.OpenTheme(r.themeShelf, name, settings.Theme.At)
	r.found.Add(found...)
	if theme == nil {
		return false
	}
	p := &press{words: r.words, language: r.words.Language, name: name}
	if former := r.former.press(name, p.language); former != nil {
		p.book, p.assets, p.faults = former.book, former.assets, former.faults
	} else {
		p.book, found = page.NewBook(theme, r.words)
		r.found.Add(found...)
		if found.Stops() {
			return false
		}
		p.assets = sync.OnceValue(func() []output.File { return assets(theme) })
	}
	r.found.Add(p.book.Missing(settings.Language.At)...)
	r.press = p
	p.site = r.site(theme.Look.Scheme)
	p.key = fmt.Sprintf("%+v", *p.site)
	p.front, p.whole = sync.OnceValue(r.newShopfront), sync.OnceValue(r.newWhole)
	return true
}

// site is what every page says of the workshop.
func (r *run) site(scheme string) *page.Site {
	settings := &r.shop.Settings
	site := &page.Site{Name: settings.Name.V, About: settings.About.V, Keeper: settings.Keeper.V, Language: settings.Language.Or("en"),
		Program: "spruelight " + r.env.Version, Scheme: scheme, Nav: r.nav()}
	if a := settings.Address; a.Set {
		site.Address = strings.TrimSuffix(a.V, "/") + "/"
	}
	for _, w := range r.works {
		site.Updated = later(site.Updated, w.newest())
	}
	return site
}

// loadWords reads the words of the workshop's language.
func (r *run) loadWords() bool {
	language := r.shop.Settings.Language
	folder, err := fs.Sub(r.env.Themes, "words")
	if err == nil {
		r.words, err = page.LoadWords(folder, language.Or("en"))
	}
	if err != nil {
		r.found.Add(page.RuleTheme.At(language.At, "write en, de, fr, es or ja", "%v", err))
	}
	return err == nil
}

// captions are the words and dates of the charts.
func (r *run) captions() tally.Captions {
	w := r.words
	return tally.Captions{Stage: w.Say("Stage"), Hours: w.Say("Hours"), Date: w.Say("Date"), Spent: w.Say("Spent so far"), Sitting: w.Say("Sitting"), On: w.Say("On"),
		Month: w.Say("Month"), Total: w.Say("Total"), Day: w.Day, DayShort: w.DayShort, MonthYear: w.Month, MonthShort: w.MonthShort,
		Title: func(stage string) string { return w.Say(stage) }, Money: w.Money}
}

// newest returns the day of what is newest in a build.
func (w *work) newest() time.Time {
	day := w.build.Front.Finished.V.Time
	for _, s := range w.build.Sittings {
		day = later(day, s.Date)
	}
	if w.build.Review != nil {
		day = later(day, w.build.Review.Front.Date.V.Time)
	}
	return day
}

func later(a, b time.Time) time.Time {
	if b.After(a) {
		return b
	}
	return a
}

// pictureHTML prints a picture between the words of a body.
func (r *run) pictureHTML(p *page.Picture, on string, inline bool) string {
	name := "figure"
	if inline {
		name = "picture"
	}
	text, found := r.press.book.Fragment(name, r.press.site, &page.Sheet{Path: on}, p, "half")
	if len(found) > 0 {
		return ""
	}
	return string(text)
}

// body renders a body for a page.
func (r *run) body(b *journal.Body, dir, on string) template.HTML {
	return template.HTML(b.HTML(r.into(b, dir, on)))
}

func missingSheet(words *page.Words) *page.Sheet {
	return &page.Sheet{Path: "404.html", Kind: "missing", Title: words.Say("Nothing stands here"), Aside: true}
}

// drawingFiles are the drawings of a build as files of their own.
func (w *work) drawingFiles() []output.File {
	files := make([]output.File, len(w.drawings))
	for i, d := range w.drawings {
		files[i] = output.File{Path: d.Path, Bytes: d.File}
	}
	return files
}

// keep turns a drawing of a topic into one on a page and a file beside it. The
// layouts are those for a desk and, where there is one, for a phone; without
// any there is no drawing: nil.
func (w *work) keep(name string, words svg.Table, layouts ...*svg.Drawing) *page.Drawing {
	out := w.run.drawnOnPage(w.place(path.Join("drawings", name+".svg")), words, layouts)
	if out != nil {
		w.drawings = append(w.drawings, *out)
	}
	return out
}

// drawnOnPage makes a drawing in its layouts part of a page.
func (r *run) drawnOnPage(file string, words svg.Table, layouts []*svg.Drawing) *page.Drawing {
	if layouts[0] == nil {
		return nil
	}
	for _, d := range layouts {
		d.Lang = r.words.Language
	}
	return page.NewDrawing(file, words, layouts)
}
