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
)

// press is what printing needs besides the model: theme, words, site.
type press struct {
	book   *page.Book
	words  *page.Words
	site   *page.Site
	theme  fs.FS
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
	p.site.Nav = r.nav()
	p.sheets = append(p.sheets, r.frontSheet(), missingSheet(p.words))
	slices.SortFunc(p.sheets, func(a, b *page.Sheet) int { return strings.Compare(a.Path, b.Path) })
}

// openTheme reads the theme and the words the workshop asks for.
func (r *run) openTheme() (*press, source.Findings) {
	settings := &r.shop.Settings
	words, found := r.openWords()
	if words == nil {
		return nil, found
	}
	name := settings.Theme.Or("sheet")
	theme, err := fs.Sub(r.env.Themes, name)
	if err == nil {
		_, err = fs.Stat(theme, "_page.html")
	}
	if err != nil {
		found.Add(ruleTheme.At(settings.Theme.At, "write sheet", "there is no theme %q", name))
		return nil, found
	}
	book, bad := r.bookOf(theme, words, name)
	found.Add(bad...)
	if found.Stops() {
		return nil, found
	}
	site := &page.Site{Name: settings.Name.V, About: settings.About.V, Keeper: settings.Keeper.V, Language: settings.Language.Or("en"), Program: "spruelight " + r.env.Version}
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

func (r *run) openWords() (*page.Words, source.Findings) {
	language := r.shop.Settings.Language.Or("en")
	folder, err := fs.Sub(r.env.Themes, "words")
	if err == nil {
		var words *page.Words
		if words, err = page.LoadWords(folder, language); err == nil {
			return words, nil
		}
	}
	return nil, source.Findings{ruleTheme.At(r.shop.Settings.Language.At, "write en", "%v", err)}
}

// ruleTheme is broken when a theme or language is not there.
var ruleTheme = source.Rule{Name: "theme-missing", Severity: source.Stop, Reason: "Without its theme no page can be printed.", Source: "common practice, no source"}

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
	for _, s := range r.press.sheets {
		if name, ok := navNames[s.Path]; ok {
			nav = append(nav, page.Link{Name: r.press.words.Say(name), Path: s.Path})
		}
	}
	slices.SortFunc(nav, func(a, b page.Link) int { return strings.Compare(a.Name, b.Name) })
	for _, leaf := range r.shop.Wall {
		nav = append(nav, page.Link{Name: leaf.Front.Title.V, Path: r.places[leaf.File.Name].path})
	}
	return nav
}

// navNames are the workshop's own pages that stand in the navigation.
var navNames = map[string]string{lineupPath: "Line-up", comparisonPath: "Reviews", hoursPath: "Hours"}

// assets are the style sheet and whatever else the theme brings along.
func (r *run) assets() []output.File {
	var style strings.Builder
	style.WriteString(svg.Properties()) // the theme's own come after and win
	style.WriteString(svg.Stylesheet())
	names, _ := fs.Glob(r.press.theme, "*.css")
	for _, name := range names {
		text, _ := fs.ReadFile(r.press.theme, name)
		style.Write(text)
	}
	files := []output.File{{Path: "style.css", Bytes: []byte(style.String())}}
	for _, pattern := range []string{"*.js", "*.svg", "*.png"} {
		names, _ := fs.Glob(r.press.theme, pattern)
		for _, name := range names {
			data, _ := fs.ReadFile(r.press.theme, name)
			files = append(files, output.File{Path: name, Bytes: data})
		}
	}
	return files
}

// feeds are the Atom feed and the site map.
func (r *run) feeds() []late {
	p := r.press
	feeds := []late{{"atom.xml", func() ([]byte, source.Findings) {
		return page.Atom(p.site, "atom.xml", p.site.Name, r.entries()), nil
	}}}
	if p.site.Address != "" {
		feeds = append(feeds, late{"sitemap.xml", func() ([]byte, source.Findings) { return page.SiteMap(p.site, p.sheets), nil }})
	}
	return feeds
}

// mostEntries is how many entries the workshop's feed holds.
const mostEntries = 30

// entries are the newest sittings and reviews, newest first.
func (r *run) entries() []page.Entry {
	entries := r.reviewEntries()
	for _, x := range r.newestSittings(mostEntries) {
		w, s := x.work, x.work.build.Sittings[x.number]
		notice := ""
		if w.review.disclosure.Due {
			notice = w.review.disclosure.Sentence
		}
		entries = append(entries, page.Entry{Path: r.places[s.File.Name].path, Notice: notice, Title: w.build.Front.Name.V + ": " + s.Title(), Published: s.Date,
			Summary: s.Body.Summary(240), HTML: s.Body.HTML(r.into(s.Body, w.build.Dir, "atom.xml"))})
	}
	slices.SortStableFunc(entries, func(a, b page.Entry) int {
		return b.Published.Compare(a.Published)
	})
	return entries[:min(len(entries), mostEntries)]
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

// wallPages are the free pages.
func wallPages(r *run) []*page.Sheet {
	var sheets []*page.Sheet
	for _, leaf := range r.shop.Wall {
		at := r.places[leaf.File.Name].path
		sheets = append(sheets, &page.Sheet{Path: at, Kind: "wall", Title: leaf.Front.Title.V, Words: leaf.Body.Text(),
			Summary: leaf.Front.Says.Or(leaf.Body.Summary(200)), Data: page.Wall{Body: r.body(leaf.Body, "wall", at)}})
	}
	return sheets
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

// keep turns a drawing of a topic into one on a page and a file beside it.
func (w *work) keep(name string, d *svg.Drawing, text page.Table) page.Drawing {
	out := page.Drawing{Title: d.Title(), SVG: template.HTML(d.Inline()), Path: w.place(path.Join("drawings", name+".svg")), File: d.Bytes(), Text: text}
	w.drawings = append(w.drawings, out)
	return out
}
