package page

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"html/template"
	"io/fs"
	"path"
	"regexp"
	"slices"
	"strings"
	"sync"

	"spruelight/gen/source"
	"spruelight/gen/stencil"
)

// RuleTemplate is broken by a theme's template that cannot be read or run.
var RuleTemplate = &source.Rule{Name: "theme", Severity: source.Stop, Source: "html/template",
	Reason: "A template that fails would leave a page half printed.",
	Keys:   source.NoKey}

// Rules lists the rules of this package for the guide.
var Rules = []*source.Rule{RuleTemplate, RuleTheme, RuleWords}

// Book holds a theme's templates with the words of one language.
type Book struct {
	words *Words
	kinds map[string]*kind
	parts *template.Template // the shared templates alone
	theme fs.FS

	said, counted map[string]bool // what the templates say
}

// kind is the templates of one kind of page.
type kind struct {
	*template.Template
	ready   sync.Once
	stencil *stencil.Stencil // in which the words of the language stand as they will on every page
	uncut   error            // why there is none
}

// NewBook reads the templates (*.html) of a theme. Those whose names begin
// with an underscore are shared by all pages; each other one is a kind of page.
func NewBook(theme fs.FS, words *Words) (*Book, source.Findings) {
	b := &Book{words: words, kinds: map[string]*kind{}, theme: theme, said: map[string]bool{}, counted: map[string]bool{}}
	names, err := fs.Glob(theme, "*.html")
	if err != nil {
		return nil, source.Findings{RuleTemplate.At(source.Span{}, "check the theme's folder", "the theme cannot be read: %v", err)}
	}
	var found source.Findings
	shared := template.New("shared").Funcs(b.funcs()).Option("missingkey=error")
	for _, name := range names {
		if strings.HasPrefix(name, "_") {
			found.Add(b.parse(shared, name)...)
		}
	}
	if found.Stops() {
		return nil, found
	}
	b.parts = template.Must(shared.Clone())
	for _, name := range names {
		if strings.HasPrefix(name, "_") {
			continue
		}
		t := template.Must(shared.Clone())
		found.Add(b.parse(t, name)...)
		b.kinds[strings.TrimSuffix(name, ".html")] = &kind{Template: t}
	}
	return b, found
}

func (b *Book) parse(t *template.Template, name string) source.Findings {
	text, err := fs.ReadFile(b.theme, name)
	if err == nil {
		_, err = t.New(name).Parse(string(text))
	}
	if err == nil {
		b.notePhrases(t, name)
		return nil
	}
	return source.Findings{b.fault(err, name)}
}

// where returns the path by which findings name a template.
func (b *Book) where(name string) string {
	if t, ok := b.theme.(*Theme); ok {
		return t.Where(name)
	}
	return path.Join("theme", name)
}

// Kinds returns the kinds of page the theme can print.
func (b *Book) Kinds() []string {
	var kinds []string
	for k := range b.kinds {
		kinds = append(kinds, k)
	}
	slices.Sort(kinds)
	return kinds
}

// Print prints a sheet. The findings name the template's file and line.
func (b *Book) Print(site *Site, sheet *Sheet) ([]byte, source.Findings) {
	if _, err := b.templates(sheet); err != nil {
		return nil, source.Findings{RuleTemplate.At(source.Span{}, "add "+sheet.Kind+".html to the theme", "%v", err)}
	}
	text, err := b.ByStencil(site, sheet)
	if err != nil {
		text, err = b.ByTemplate(site, sheet)
	}
	if err != nil {
		return nil, source.Findings{b.fault(err, sheet.Kind+".html")}
	}
	return markForeign(admitData(text)), nil
}

// templates returns those of a sheet's kind, ready to print.
func (b *Book) templates(sheet *Sheet) (*kind, error) {
	k, ok := b.kinds[sheet.Kind]
	if !ok {
		return nil, fmt.Errorf("the theme has no template for pages of kind %q", sheet.Kind)
	}
	k.ready.Do(func() {
		k.stencil, k.uncut = stencil.Cut(k.Template, "page", b.funcs(), "say", "count", "number")
	})
	return k, nil
}

// ByStencil runs a sheet's templates in the quick way. The error is of
// stencil.ErrOther where they do not allow it.
func (b *Book) ByStencil(site *Site, sheet *Sheet) ([]byte, error) {
	k, err := b.templates(sheet)
	if err != nil || k.uncut != nil {
		return nil, cmp.Or(err, k.uncut)
	}
	return printed(func(out *bytes.Buffer) error { return k.stencil.Run(out, b.view(site, sheet)) })
}

// ByTemplate runs them by html/template, which is what ByStencil is held to.
func (b *Book) ByTemplate(site *Site, sheet *Sheet) ([]byte, error) {
	k, err := b.templates(sheet)
	if err != nil {
		return nil, err
	}
	return printed(func(out *bytes.Buffer) error { return k.ExecuteTemplate(out, "page", b.view(site, sheet)) })
}

// buffers serve one page after the other.
var buffers = sync.Pool{New: func() any { return new(bytes.Buffer) }}

// printed returns what run prints, in just the memory that it needs: of a buffer
// that grew, nearly half may be empty, and pages are kept by the thousand.
func printed(run func(*bytes.Buffer) error) ([]byte, error) {
	out := buffers.Get().(*bytes.Buffer)
	defer buffers.Put(out)
	out.Reset()
	err := run(out)
	return bytes.Clone(out.Bytes()), err
}

func (b *Book) view(site *Site, sheet *Sheet) *View {
	return &View{Site: site, Sheet: sheet, Data: sheet.data(), book: b}
}

// Fragment runs one shared template, for markup inside a text.
func (b *Book) Fragment(name string, site *Site, sheet *Sheet, value any, how string) (template.HTML, source.Findings) {
	var out bytes.Buffer
	view := b.view(site, sheet)
	if err := b.parts.ExecuteTemplate(&out, name, Part{View: view, Value: value, How: how}); err != nil {
		return "", source.Findings{b.fault(err, name)}
	}
	return template.HTML(markForeign(bytes.TrimSpace(out.Bytes()))), nil
}

// templatePlace finds file, line and column in an error of html/template.
var templatePlace = regexp.MustCompile(`([\w.-]+\.html):(\d+)(?::(\d+))?`)

// fault turns an error of html/template into a finding in the theme's file.
func (b *Book) fault(err error, name string) source.Finding {
	says, at := err.Error(), source.Span{}
	var e *template.Error
	if errors.As(err, &e) && e.Description != "" {
		says = e.Description
	}
	if m := templatePlace.FindStringSubmatch(err.Error()); m != nil {
		name = m[1]
		text, _ := fs.ReadFile(b.theme, name)
		file := source.NewFile(b.where(name), string(text))
		line, column := 0, 0
		fmt.Sscan(m[2], &line)
		fmt.Sscan(m[3], &column)
		at = file.At(file.Offset(line, column+1), 1)
	} else {
		at = source.NewFile(b.where(name), "").Whole()
	}
	return RuleTemplate.At(at, "correct the template; the data it gets are described in the guide", "%s", says)
}
