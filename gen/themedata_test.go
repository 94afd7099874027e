package gen

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"spruelight/gen/page"
	"spruelight/gen/quantity"
	"spruelight/gen/tally"
	"spruelight/themes"
)

var update = flag.Bool("update", false, "rewrite the reference of what templates get")

// The reference's two pages: what every page gets, and the types in its fields.
const (
	themeData  = "../content-example/wall/theme-data.md"
	themeTypes = "../content-example/wall/theme-types.md"
)

// The reference of what templates get says what the Go types say: it is made
// from the pages of the example, the types of their data and the comments on
// them. Rewrite it with: go test ./gen -run TestThemeData -update
func TestThemeData(t *testing.T) {
	for name, got := range themeReference(t) {
		want, err := os.ReadFile(name)
		if *update {
			err = os.WriteFile(name, []byte(got), 0o644)
		} else if err == nil && string(want) != got {
			err = errors.New("it is not what the types say")
		}
		if err != nil {
			t.Errorf("%s: %v; rewrite it with: go test ./gen -run TestThemeData -update", name, err)
		}
	}
}

// referencer writes the reference.
type referencer struct {
	t     *testing.T
	says  map[string]string // "log.Build" or "log.Build.Card" or a method → what its comment says
	queue []reflect.Type
	seen  map[reflect.Type]bool
	out   strings.Builder
}

func themeReference(t *testing.T) map[string]string {
	r := &referencer{t: t, says: map[string]string{}, seen: map[reflect.Type]bool{}}
	for _, room := range []string{"page", "topic", "topic/log", "topic/lighting", "topic/finish", "topic/size", "topic/record", "topic/review", "topic/care", "site", "tally", "paint", "scale", "circuit", "wiring", "quantity"} {
		r.readComments(room)
	}
	r.out.WriteString(`---
title: What templates get
summary: "The data of every kind of page, the functions and shared templates, and the keys of look.yaml."
group: Reference
order: 210
---
This page is written from the program's own types, so it says what the version says that wrote it. How to begin is told in [A theme of your own](theme.md); the types in the fields have [a page of their own](theme-types.md).

A template writes ` + "`{{.Data.Card.Name}}`" + ` for the field Name of the field Card of its data. A field that is a list is walked through with ` + "`{{range}}`" + `; one that may be missing (nil) is asked for with ` + "`{{with}}`" + `. What has round brackets is called with values: ` + "`{{.Link \"index.html\"}}`" + `. A field whose type begins with ` + "`journal.`" + ` is front matter as it was written: ` + "`.V`" + ` is its value, ` + "`.Set`" + ` says whether it stands there at all.

`)
	r.everyPage()
	r.kinds()
	r.functions()
	r.shared()
	r.look()
	data := r.taken()
	r.out.WriteString(`---
title: Types that templates get
summary: "The types that stand in the fields of a page's data, each with its fields and methods."
group: Reference
order: 211
---
These types stand in the fields that [What templates get](theme-data.md) lists. The first word is the room they come from.

`)
	r.types()
	return map[string]string{themeData: data, themeTypes: r.taken()}
}

// taken returns what was written, and begins anew.
func (r *referencer) taken() string {
	text := strings.TrimRight(r.out.String(), "\n") + "\n"
	r.out.Reset()
	return text
}

// readComments reads what the comments of a room say of its types, fields and methods.
func (r *referencer) readComments(room string) {
	names, _ := filepath.Glob(filepath.Join(room, "*.go"))
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.ParseComments)
		if err != nil {
			r.t.Fatal(err)
		}
		for _, d := range file.Decls {
			switch d := d.(type) {
			case *ast.GenDecl:
				for _, s := range d.Specs {
					if s, ok := s.(*ast.TypeSpec); ok {
						r.typeComments(room, s, d.Doc)
					}
				}
			case *ast.FuncDecl:
				if d.Recv != nil && d.Name.IsExported() {
					r.says[path.Base(room)+"."+receiver(d)+"."+d.Name.Name] = commentOf(d.Doc)
				}
			}
		}
	}
}

func (r *referencer) typeComments(room string, s *ast.TypeSpec, doc *ast.CommentGroup) {
	if s.Doc != nil {
		doc = s.Doc
	}
	name := path.Base(room) + "." + s.Name.Name
	r.says[name] = commentOf(doc)
	if body, ok := s.Type.(*ast.StructType); ok {
		for _, f := range body.Fields.List {
			says := commentOf(f.Comment)
			if says == "" {
				says = commentOf(f.Doc)
			}
			for _, n := range f.Names {
				r.says[name+"."+n.Name] = says
			}
		}
	}
}

func receiver(d *ast.FuncDecl) string {
	e := d.Recv.List[0].Type
	if star, ok := e.(*ast.StarExpr); ok {
		e = star.X
	}
	if index, ok := e.(*ast.IndexExpr); ok {
		e = index.X
	}
	return e.(*ast.Ident).Name
}

// commentOf returns a comment on one line.
func commentOf(c *ast.CommentGroup) string {
	if c == nil {
		return ""
	}
	return strings.Join(strings.Fields(c.Text()), " ")
}

// everyPage tells of what every template gets.
func (r *referencer) everyPage() {
	r.out.WriteString("## Every page\n\nA template of a page gets a View: the fields of the site and of the page (its Sheet) as `.Sheet`, its data as `.Data`. A shared template that is called with `.With` gets a Part: the same View, a `.Value`, and `.How` to show it.\n\n")
	for _, t := range []reflect.Type{reflect.TypeFor[page.Site](), reflect.TypeFor[page.Sheet](), reflect.TypeFor[page.View](), reflect.TypeFor[page.Part]()} {
		r.seen[t] = true
		r.describe(t, "### ")
	}
}

// kinds tells of the data of each kind of page, as the example's pages have it.
func (r *referencer) kinds() {
	data := map[string]reflect.Type{"catalogue": reflect.TypeFor[page.Catalogue]()} // which stands over archives, not in a site
	env := Env{Content: os.DirFS("../content-example"), Themes: themes.FS, Moment: time.Date(2026, 3, 15, 12, 0, 0, 0, time.UTC), Version: "test"}
	x := newRun(env)
	ctx := context.Background()
	x.read(ctx)
	x.reckon(ctx)
	if !x.compose() {
		r.t.Fatal(x.found)
	}
	for _, s := range x.theme.whole().Sheets {
		got := s.Data
		if later, ok := got.(page.Later); ok {
			got = later()
		}
		of := reflect.TypeOf(got)
		if of != nil && of.Kind() == reflect.Pointer {
			of = of.Elem()
		}
		if was, ok := data[s.Kind]; ok && was != of {
			r.t.Errorf("pages of kind %s have data of two types: %v and %v", s.Kind, was, of)
		}
		data[s.Kind] = of
	}
	r.out.WriteString("## Kinds of page\n\nA kind is printed by the file of its name. What follows is what `.Data` holds there.\n\n")
	for _, kind := range x.theme.book.Kinds() {
		of, ok := data[kind]
		if !ok {
			r.t.Errorf("no page of the example is of kind %s", kind)
			continue
		}
		fmt.Fprintf(&r.out, "### %s.html\n\n", kind)
		if of == nil {
			r.out.WriteString("No data.\n\n")
			continue
		}
		r.seen[of] = true
		r.body(of)
	}
}

// types tells of the types that stand in the fields.
func (r *referencer) types() {
	for len(r.queue) > 0 {
		slices.SortFunc(r.queue, func(a, b reflect.Type) int { return strings.Compare(a.String(), b.String()) })
		next := r.queue
		r.queue = nil
		for _, t := range next {
			r.describe(t, "## ")
		}
	}
}

func (r *referencer) describe(t reflect.Type, heading string) {
	fmt.Fprintf(&r.out, "%s%s\n\n", heading, t)
	r.body(t)
}

// body writes what a type is, then its fields and methods as a table.
func (r *referencer) body(t reflect.Type) {
	if says := r.says[t.String()]; says != "" {
		r.out.WriteString(says + "\n\n")
	}
	var rows []string
	if t.Kind() == reflect.Struct {
		for i := range t.NumField() {
			if f := t.Field(i); f.IsExported() {
				says := r.says[t.String()+"."+f.Name]
				if f.Anonymous {
					says = "all of its fields stand here too"
				}
				rows = append(rows, row(f.Name, r.name(f.Type), says))
			}
		}
	}
	pointer := reflect.PointerTo(t)
	for i := range pointer.NumMethod() {
		m := pointer.Method(i)
		says, own := r.says[t.String()+"."+m.Name]
		if own && m.Type.NumOut() == 1 && m.Name != "String" && !strings.HasPrefix(m.Name, "Unmarshal") {
			rows = append(rows, row(m.Name+r.takes(m.Type), r.name(m.Type.Out(0)), says))
		}
	}
	if len(rows) > 0 {
		r.out.WriteString("| field | type | says |\n| --- | --- | --- |\n" + strings.Join(rows, "\n") + "\n\n")
	}
}

func row(name, of, says string) string {
	return "| `" + name + "` | `" + of + "` | " + strings.ReplaceAll(says, "|", "\\|") + " |"
}

// takes writes what a method is called with.
func (r *referencer) takes(m reflect.Type) string {
	var in []string
	for i := 1; i < m.NumIn(); i++ {
		in = append(in, plainType.Replace(m.In(i).String()))
	}
	return "(" + strings.Join(in, ", ") + ")"
}

// name writes a type, and queues those of the program behind it. Front matter
// and what other packages declare are named only.
func (r *referencer) name(t reflect.Type) string {
	of := t
	for of.Kind() == reflect.Pointer || of.Kind() == reflect.Slice || of.Kind() == reflect.Map || of.Kind() == reflect.Array {
		of = of.Elem()
	}
	room := path.Base(of.PkgPath())
	told := strings.HasPrefix(of.PkgPath(), "spruelight/gen/") && room != "journal" && room != "source" && !strings.Contains(of.Name(), "[")
	if told && of.Kind() == reflect.Struct && !r.seen[of] {
		r.seen[of] = true
		r.queue = append(r.queue, of)
	}
	return plainType.Replace(t.String())
}

// plainType writes a type as a reader of templates needs it.
var plainType = strings.NewReplacer("spruelight/gen/", "", "*", "", "interface {}", "any")

// functions tells of the functions, each with an example as it comes out.
func (r *referencer) functions() {
	folder, err := fs.Sub(themes.FS, "words")
	if err != nil {
		r.t.Fatal(err)
	}
	english, err := page.LoadWords(folder, "en")
	if err != nil {
		r.t.Fatal(err)
	}
	colour := quantity.Colour{R: 138, G: 144, B: 149}
	data := map[string]any{"Site": &page.Site{Updated: time.Date(2026, 3, 14, 0, 0, 0, 0, time.UTC)}, "Hours": quantity.Hours(10.0 / 3), "Share": quantity.Share(0.42), "State": tally.Bench,
		"Figure": quantity.Figure{Value: 3.954, Low: 3.14, High: 4.85, Unit: "mA", Digits: 3}, "Money": quantity.Money{Minor: 9200, Currency: "EUR"}, "Colour": colour, "Texts": []string{"black", "silver"}}
	r.out.WriteString("## Functions\n\nBesides those of Go's html/template.\n\n| function | gives | for example | comes out as |\n| --- | --- | --- | --- |\n")
	for _, f := range page.Functions {
		shows, err := f.Shows(english, data)
		if err != nil {
			r.t.Errorf("%s: %v", f.Name, err)
		}
		fmt.Fprintf(&r.out, "| `%s` | %s | `%s` | `%s` |\n", f.Name, f.Says, f.Example, strings.ReplaceAll(shows, "\u00a0", " "))
	}
	r.out.WriteString("\n")
}

var (
	defined = regexp.MustCompile(`\{\{-? ?define "([^"]+)"`)
	about   = regexp.MustCompile(`(?s)\{\{/\* ?(.*?) ?\*/\}\}\s*\{\{-? ?define "([^"]+)"`)
)

// shared tells of the templates that pages share.
func (r *referencer) shared() {
	names, err := fs.Glob(themes.FS, "sheet/*.html")
	if err != nil {
		r.t.Fatal(err)
	}
	r.out.WriteString("## Shared templates\n\nFiles whose names begin with an underscore are shared by all pages. `page` is the frame; it calls `main`, which every kind of page defines, and `head`, which a kind may define. A file of your theme stands in place of the one of the same name.\n\n| file | template | is |\n| --- | --- | --- |\n")
	for _, name := range names {
		text, err := fs.ReadFile(themes.FS, name)
		if err != nil {
			r.t.Fatal(err)
		}
		if !strings.HasPrefix(path.Base(name), "_") {
			continue
		}
		says := map[string]string{}
		for _, m := range about.FindAllStringSubmatch(string(text), -1) {
			says[m[2]] = strings.Join(strings.Fields(strings.TrimPrefix(m[1], m[2]+":")), " ")
		}
		for _, m := range defined.FindAllStringSubmatch(string(text), -1) {
			fmt.Fprintf(&r.out, "| `%s` | `%s` | %s |\n", path.Base(name), m[1], says[m[1]])
		}
	}
	r.out.WriteString("\n")
}

// look tells of the keys of look.yaml.
func (r *referencer) look() {
	r.out.WriteString("## Keys of look.yaml\n\n| key | says |\n| --- | --- |\n")
	t := reflect.TypeFor[page.Look]()
	for i := range t.NumField() {
		f := t.Field(i)
		fmt.Fprintf(&r.out, "| `%s` | %s |\n", f.Tag.Get("yaml"), r.says["page.Look."+f.Name])
	}
}
