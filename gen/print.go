package gen

import (
	"context"
	"fmt"
	"io/fs"
	"sync"

	"spruelight/gen/output"
	"spruelight/gen/page"
	"spruelight/gen/photo"
	"spruelight/gen/quantity"
	"spruelight/gen/site"
	"spruelight/gen/source"
	"spruelight/gen/tally"
)

// theme is what printing needs besides the model: theme, words, site; and what
// is made of all builds, when it is first wanted.
type theme struct {
	book     *page.Book
	words    *page.Words
	site     *page.Site
	key      string // the site's own words, which stand on every page
	language string
	name     string          // of the theme
	faults   source.Findings // of its templates

	assets func() []page.Asset
	front  func() *housePart
	whole  func() *site.AllPages

	finished func() []tally.Sum // of the finished builds
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
	front := r.theme.front()
	for _, f := range front.files {
		if err := out.Put(f); err != nil {
			return err
		}
	}
	list := r.wholeFiles()
	for _, s := range front.sheets {
		list = append(list, site.File{Path: s.Path, Make: func() ([]byte, source.Findings) { return r.theme.book.Print(r.theme.site, s) }})
	}
	for _, l := range list {
		text, found := l.Make()
		r.found.Add(found...)
		if err := out.Put(output.File{Path: l.Path, Bytes: text}); err != nil {
			return err
		}
	}
	r.counts.Pages = len(r.theme.whole().Sheets)
	return nil
}

// compose opens the theme and plans every build's part of the site; nothing is
// drawn or printed yet. It reports whether there is a site.
func (r *run) compose() bool {
	if !r.loadWords() || !r.openTheme() {
		return false
	}
	r.house.Words, r.house.Texts = r.words, r.texts()
	for _, w := range r.works {
		if !w.kept || !w.part.stands(r, w) {
			w.part = r.newBuildPart(w)
		}
	}
	for slug := range site.DrawnOnWall(r.shop.Wall) {
		if w := r.bySlug[slug]; w != nil {
			w.part.shown = true
		}
	}
	r.found.Add(r.texts().CheckDrawings(r.shop.Wall)...)
	return true
}

// openTheme reads the theme and the words the workshop asks for, and reports
// whether pages can be printed by them.
func (r *run) openTheme() bool {
	settings := &r.shop.Settings
	name := settings.Theme.Or("sheet")
	find := func(name string) (fs.FS, string, error) { return page.FindTheme(r.env.Themes, r.env.Content, name) }
	files, found := page.OpenTheme(find, name, settings.Theme.At)
	r.found.Add(found...)
	if files == nil {
		return false
	}
	p := &theme{words: r.words, language: r.words.Language, name: name}
	if earlier := r.earlier.theme(name, p.language); earlier != nil {
		p.book, p.assets, p.faults = earlier.book, earlier.assets, earlier.faults
	} else {
		p.book, found = page.NewBook(files, r.words)
		r.found.Add(found...)
		if found.Stops() {
			return false
		}
		p.assets = sync.OnceValue(files.Assets)
	}
	r.found.Add(p.book.Missing(settings.Language.At)...)
	r.theme = p
	r.house.Words, r.house.Texts = r.words, r.texts()
	p.site = r.house.NewSite("spruelight "+r.env.Version, files.Look.Scheme)
	p.key = fmt.Sprintf("%+v", *p.site)
	p.front, p.whole = sync.OnceValue(r.newHousePart), sync.OnceValue(r.newWhole)
	p.finished = sync.OnceValue(r.house.Finished)
	return true
}

// housePart is what the workshop as a whole puts into the site, besides its builds.
type housePart struct {
	sheets []*page.Sheet
	files  []output.File // drawings, and what the theme brings
	memo   printed
}

// newHousePart lays the workshop's own pages out.
func (r *run) newHousePart() *housePart {
	part := &housePart{sheets: r.house.Sheets(r.theme.whole)}
	for _, d := range r.house.Drawings {
		part.files = append(part.files, output.File{Path: d.Path, Bytes: d.File})
	}
	part.files = append(part.files, r.photos.Wall.Files()...)
	for _, a := range r.theme.assets() {
		data := a.Bytes
		if clean, _, err := photo.Private(data, photo.Keep{}); err == nil { // else it is no photo
			data = clean
		}
		part.files = append(part.files, output.File{Path: a.Path, Bytes: data})
	}
	return part
}

// wholeFiles are the workshop's own files that are made of all pages or texts.
func (r *run) wholeFiles() []site.File {
	return append(r.house.Feeds(r.theme.whole), r.theme.whole().IndexFiles()...)
}

// newWhole lists all pages.
func (r *run) newWhole() *site.AllPages {
	var sheets []*page.Sheet
	for _, w := range r.works {
		sheets = append(sheets, w.part.make().sheets...)
	}
	return site.NewAllPages(append(sheets, r.theme.front().sheets...))
}

// loadWords reads the words of the workshop's language.
func (r *run) loadWords() bool {
	language := r.shop.Settings.Language
	folder, err := fs.Sub(r.env.Themes, "words")
	if err == nil {
		r.words, err = page.LoadWords(folder, language.Or("en"))
	}
	if err == nil {
		r.words.PrintBy(quantity.Printer{Inches: r.shop.Settings.Lengths.V == "inches"})
	}
	if err != nil {
		r.found.Add(page.RuleTheme.At(language.At, "write en, de, fr, es or ja", "%v", err))
	}
	return err == nil
}
