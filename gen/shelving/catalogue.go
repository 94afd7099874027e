package shelving

import (
	"context"
	"fmt"
	"io/fs"
	"net/url"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"spruelight/gen/bag"
	"spruelight/gen/output"
	"spruelight/gen/page"
	"spruelight/gen/source"
	"spruelight/gen/svg"
)

// Contents is a contents page over several archives, ready to be written.
type Contents struct {
	Files  []output.File
	Models int
	Broken []string // bags that are not valid, each with its first fault
}

// mostShown is how many faults of a bag the contents page shows.
const mostShown = 3

// Catalogue makes a contents page over the bags in a folder: folders and zip
// files. Every bag is verified on the way. out is the folder that the page will
// stand in, from which it leads to the bags.
func Catalogue(ctx context.Context, themes fs.FS, program, dir, out string) (*Contents, error) {
	names, err := bagsIn(dir)
	if err != nil {
		return nil, err
	}
	if len(names) == 0 {
		return nil, fmt.Errorf("%s holds no bags", dir)
	}
	scratch, remove, err := output.Scratch("catalogue")
	if err != nil {
		return nil, err
	}
	defer remove()
	c := &Contents{}
	var data page.Catalogue
	for i, name := range names {
		row, err := c.row(ctx, name, out, filepath.Join(scratch, fmt.Sprint(i)), i+1)
		if err != nil {
			return nil, err
		}
		data.Models = append(data.Models, row)
	}
	c.Models = len(data.Models)
	slices.SortStableFunc(data.Models, func(a, b page.CatalogueRow) int { return strings.Compare(b.Finished, a.Finished) })
	return c, c.print(themes, program, data)
}

// bagsIn lists the bags in a folder.
func bagsIn(dir string) ([]string, error) {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return nil, err
	}
	var names []string
	for _, d := range entries {
		name := filepath.Join(dir, d.Name())
		_, err := os.Stat(filepath.Join(name, "bagit.txt"))
		if !strings.HasPrefix(d.Name(), ".") && (err == nil || !d.IsDir() && strings.EqualFold(filepath.Ext(name), ".zip")) {
			names = append(names, name)
		}
	}
	return names, nil
}

// row verifies one bag and takes its picture out.
func (c *Contents) row(ctx context.Context, name, out, scratch string, number int) (page.CatalogueRow, error) {
	tags, _ := bag.Info(name) // a bag that cannot be read says so below
	row := rowOf(tags)
	if row.Name == "" {
		row.Name = filepath.Base(name)
	}
	picture := strings.TrimPrefix(tagOf(tags, tagPicture), "data/")
	rep, err := bag.Restore(ctx, name, scratch, func(at string) string {
		if at == picture {
			return "picture"
		}
		return ""
	})
	if ctx.Err() != nil {
		return row, context.Cause(ctx)
	}
	if err != nil {
		return row, fmt.Errorf("%s: %w", name, err)
	}
	row.Sound = rep.Valid
	for _, f := range rep.Faults[:min(len(rep.Faults), mostShown)] {
		row.Faults = append(row.Faults, f.String())
	}
	if !rep.Valid {
		c.Broken = append(c.Broken, fmt.Sprintf("%s: %s", name, strings.Join(row.Faults[:min(1, len(row.Faults))], "")))
	}
	if data, err := os.ReadFile(filepath.Join(scratch, "picture")); err == nil {
		row.Picture = fmt.Sprintf("pictures/%d%s", number, path.Ext(picture))
		c.Files = append(c.Files, output.File{Path: row.Picture, Bytes: data})
	}
	return row, link(&row, name, out, tags)
}

// link sets the links from the contents page to a bag and its pages.
func link(row *page.CatalogueRow, name, out string, tags []bag.Tag) error {
	from, err := filepath.Abs(out)
	if err != nil {
		return err
	}
	to, err := filepath.Abs(name)
	if err != nil {
		return err
	}
	rel, err := filepath.Rel(from, to)
	if err != nil {
		return fmt.Errorf("there is no way from %s to %s without an absolute path: %w", out, name, err)
	}
	row.Bag = address(filepath.ToSlash(rel))
	if info, err := os.Stat(name); err == nil && info.IsDir() {
		for _, l := range []struct {
			to    *string
			label string
		}{{&row.Page, tagPage}, {&row.Sheet, tagSheet}} {
			if at := tagOf(tags, l.label); fs.ValidPath(at) {
				*l.to = row.Bag + "/" + address(at)
			}
		}
	}
	return nil
}

// address escapes a relative path for a link.
func address(rel string) string {
	parts := strings.Split(rel, "/")
	for i, p := range parts {
		parts[i] = url.PathEscape(p)
	}
	return strings.Join(parts, "/")
}

func tagOf(tags []bag.Tag, label string) string {
	for _, t := range tags {
		if t.Label == label {
			return t.Value
		}
	}
	return ""
}

// rowOf reads what bag-info.txt says.
func rowOf(tags []bag.Tag) page.CatalogueRow {
	row := page.CatalogueRow{Name: tagOf(tags, tagModel), Kit: tagOf(tags, tagKit), Scale: tagOf(tags, tagScale),
		Says: tagOf(tags, "External-Description"), Finished: tagOf(tags, tagFinished), Bagged: tagOf(tags, "Bagging-Date"),
		Size: tagOf(tags, "Bag-Size")}
	for _, t := range tags {
		switch t.Label {
		case tagLacks:
			row.Lacks = append(row.Lacks, t.Value)
		case tagAnyway:
			row.Anyway = append(row.Anyway, t.Value)
		}
	}
	return row
}

// print prints the page with the built-in theme.
func (c *Contents) print(themes fs.FS, program string, data page.Catalogue) error {
	theme, err := fs.Sub(themes, "sheet")
	if err != nil {
		return err
	}
	folder, err := fs.Sub(themes, "words")
	if err != nil {
		return err
	}
	words, err := page.LoadWords(folder, "en")
	if err != nil {
		return err
	}
	book, found := page.NewBook(theme, words)
	if found.Stops() {
		return faultOf(found)
	}
	site := &page.Site{Name: "Archived models", Language: "en", Program: program}
	text, found := book.Print(site, &page.Sheet{Path: "index.html", Kind: "catalogue", Title: site.Name, Data: data})
	if found.Stops() {
		return faultOf(found)
	}
	c.Files = append(c.Files, output.File{Path: "index.html", Bytes: text}, output.File{Path: "style.css", Bytes: styleOf(theme)})
	if lamp, err := fs.ReadFile(theme, "lamp.svg"); err == nil {
		c.Files = append(c.Files, output.File{Path: "lamp.svg", Bytes: lamp})
	}
	return nil
}

func faultOf(found source.Findings) error {
	return fmt.Errorf("%s: %s", found[0].At.Name(), found[0].Says.String())
}

// styleOf joins the style sheets of a theme.
func styleOf(theme fs.FS) []byte {
	var style strings.Builder
	style.WriteString(svg.Properties())
	style.WriteString(svg.Stylesheet())
	names, _ := fs.Glob(theme, "*.css")
	for _, name := range names {
		text, _ := fs.ReadFile(theme, name)
		if name == page.PrintStyle {
			text = []byte("@media print {\n" + string(text) + "}\n")
		}
		style.Write(text)
	}
	return []byte(style.String())
}
