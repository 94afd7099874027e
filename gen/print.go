package gen

import (
	"context"
	"html/template"
	"io/fs"
	"path"
	"slices"
	"strings"
	"time"

	"spruelight/gen/journal"
	"spruelight/gen/output"
	"spruelight/gen/page"
	"spruelight/gen/source"
	"spruelight/gen/svg"
	"spruelight/gen/tally"
)

// press is what printing needs besides the model: theme, words, site.
type press struct {
	book   *page.Book
	words  *page.Words
	site   *page.Site
	theme  *page.Theme
	index  *page.Index
	sheets []*page.Sheet
}

// late is a file of the site that is made only when it is wanted: what is
// written to disk wants all of them, the preview only those that are looked at.
type late struct {
	path string
	make func() ([]byte, source.Findings)
}

// print makes every page, feed and asset.
func (r *run) print(ctx context.Context) {
	if !r.compose() {
		return
	}
	files := make([]output.File, len(r.late))
	numbers := make([]int, len(r.late))
	for i := range numbers {
		numbers[i] = i
	}
	each(ctx, r.env.Workers, numbers, func(i int) source.Findings {
		text, found := r.late[i].make()
		files[i] = output.File{Path: r.late[i].path, Bytes: text}
		r.env.Progress("pages", i+1, len(r.late))
		return found
	}, &r.found)
	r.files = append(r.files, files...)
	slices.SortFunc(r.files, func(a, b output.File) int { return strings.Compare(a.Path, b.Path) })
}

// compose lists every file of the site; pages and feeds are not made yet. It
// reports whether there is a site.
func (r *run) compose() bool {
	p, found := r.openTheme()
	r.found.Add(found...)
	if p == nil || r.found.Stops() {
		return false
	}
	r.press = p
	r.gather()
	r.files = slices.Concat(r.drawingFiles(), r.photoFiles(), r.assets())
	for _, s := range p.sheets {
		r.late = append(r.late, late{s.Path, func() ([]byte, source.Findings) { return p.book.Print(p.site, s) }})
	}
	r.late = append(r.late, r.feeds()...)
	r.late = append(r.late, r.indexFiles()...)
	r.counts.Pages = len(p.sheets)
	return true
}

// gather lists every sheet of the run: builds first, then the workshop's own,
// then those that need to know all others.
func (r *run) gather() {
	p := r.press
	for _, w := range r.works {
		if w.sheets == nil || !r.former.stands(r, w) {
			w.sheets = r.buildSheets(w)
		}
		p.sheets = append(p.sheets, w.sheets...)
	}
	for _, pages := range roomPages {
		p.sheets = append(p.sheets, pages(r)...)
	}
	p.sheets = append(p.sheets, r.searchSheet())
	p.site.Nav = r.nav()
	p.sheets = append(p.sheets, r.frontSheet(), missingSheet(p.words))
	slices.SortFunc(p.sheets, func(a, b *page.Sheet) int { return strings.Compare(a.Path, b.Path) })
	r.planIndex()
}

// openTheme reads the theme and the words the workshop asks for.
func (r *run) openTheme() (*press, source.Findings) {
	settings := &r.shop.Settings
	words := r.words
	var found source.Findings
	name := settings.Theme.Or("sheet")
	theme, bad := page.OpenTheme(r.themeShelf, name, settings.Theme.At)
	found.Add(bad...)
	if theme == nil {
		return nil, found
	}
	book, bad := r.bookOf(theme, words, name)
	found.Add(bad...)
	if found.Stops() {
		return nil, found
	}
	found.Add(book.Missing(settings.Language.At)...)
	site := &page.Site{Name: settings.Name.V, About: settings.About.V, Keeper: settings.Keeper.V, Language: settings.Language.Or("en"), Program: "spruelight " + r.env.Version, Scheme: theme.Look.Scheme}
	if a := settings.Address; a.Set {
		site.Address = strings.TrimSuffix(a.V, "/") + "/"
	}
	for _, w := range r.works {
		site.Updated = later(site.Updated, w.newest())
	}
	return &press{book: book, words: words, site: site, theme: theme}, found
}

// bookOf reads the theme's templates, or takes the book of a former pass.
func (r *run) bookOf(theme fs.FS, words *page.Words, name string) (*page.Book, source.Findings) {
	if p := r.former.press(name, words.Language); p != nil {
		return p.book, nil
	}
	return page.NewBook(theme, words)
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
		Month: w.Say("Month"), Total: w.Say("Total"), Day: w.Day, MonthYear: w.Month, MonthShort: w.MonthShort}
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

// nav lists the pages that every page links to at its head.
func (r *run) nav() []page.Link {
	var nav []page.Link
	for _, link := range navNames {
		if slices.ContainsFunc(r.press.sheets, func(s *page.Sheet) bool { return s.Path == link.Path }) {
			nav = append(nav, page.Link{Name: r.press.words.Say(link.Name), Path: link.Path})
		}
	}
	nav = append(nav, r.wallNav()...)
	return append(nav, page.Link{Name: r.press.words.Say("Search"), Path: searchPath, Note: "search"})
}

// navNames are the workshop's own pages that stand in the navigation, in order.
var navNames = []page.Link{{Name: "Line-up", Path: lineupPath}, {Name: "Reviews", Path: comparisonPath}, {Name: "Techniques", Path: techniquesPath}, {Name: "Hours", Path: hoursPath}}

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

// drawingFiles are the drawings as files of their own.
func (r *run) drawingFiles() []output.File {
	var files []output.File
	for _, w := range r.works {
		for _, d := range w.drawings {
			files = append(files, output.File{Path: d.Path, Bytes: d.File})
		}
	}
	for _, d := range r.shelf.drawings {
		files = append(files, output.File{Path: d.Path, Bytes: d.File})
	}
	return files
}

// keep turns a drawing of a topic into one on a page and a file beside it. The
// layouts are those for a desk and, where there is one, for a phone; without
// any there is no drawing: nil.
func (w *work) keep(name string, words svg.Table, layouts ...*svg.Drawing) *page.Drawing {
	out := drawnOnPage(w.place(path.Join("drawings", name+".svg")), words, layouts)
	if out != nil {
		w.drawings = append(w.drawings, *out)
	}
	return out
}

// drawnOnPage makes a drawing in its layouts part of a page.
func drawnOnPage(file string, words svg.Table, layouts []*svg.Drawing) *page.Drawing {
	d := layouts[0]
	if d == nil {
		return nil
	}
	out := &page.Drawing{Title: d.Title(), SVG: template.HTML(d.Inline()), Path: file, File: d.Bytes(), Text: page.Table(words)}
	out.Width, _ = d.Size()
	if len(layouts) > 1 {
		out.Phone = template.HTML(layouts[1].Inline())
	}
	return out
}
