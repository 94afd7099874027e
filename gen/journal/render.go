package journal

import (
	"bytes"
	"fmt"
	"html"
	"path"
	"strings"
	"sync"

	"spruelight/gen/source"

	"github.com/alecthomas/chroma/v2"
	chromahtml "github.com/alecthomas/chroma/v2/formatters/html"
	"github.com/alecthomas/chroma/v2/lexers"
	"github.com/alecthomas/chroma/v2/styles"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	extast "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/renderer"
	gmhtml "github.com/yuin/goldmark/renderer/html"
	"github.com/yuin/goldmark/util"
)

var ruleLink = &source.Rule{Name: "broken-link", Severity: source.Warn, Source: "common practice, no source",
	Reason: "A reader who follows the link would find nothing.",
	Keys:   source.NoKey}

// Into says how a body's links and pictures are written on a page.
type Into struct {
	// Link returns the address of a relative link on the page; ok is false
	// where it leads nowhere, and then only its words are shown.
	Link func(dest string) (href string, ok bool)
	// Picture returns the markup of a picture between the words; "" shows its
	// alt text instead.
	Picture func(Picture) string
}

// HTML renders the body. Raw HTML is shown as text; nothing in the result
// carries style or script.
func (b *Body) HTML(into Into) string {
	if b == nil {
		return ""
	}
	r := renderers.Get().(*bodyRenderer)
	defer func() {
		*r = bodyRenderer{all: r.all}
		renderers.Put(r)
	}()
	r.body, r.into = b, into
	var out bytes.Buffer
	out.Grow(2 * len(b.text))
	if err := r.all.Render(&out, b.text, b.doc); err != nil {
		// A bytes.Buffer does not fail, and our own functions return none.
		panic(err)
	}
	return out.String()
}

// renderers are kept, since goldmark takes as long to list the functions of one
// as to render a short text.
var renderers = sync.Pool{New: func() any {
	r := &bodyRenderer{}
	r.all = renderer.NewRenderer(renderer.WithNodeRenderers(
		util.Prioritized(r, 100),
		util.Prioritized(extension.NewTableHTMLRenderer(), 500),
		util.Prioritized(extension.NewFootnoteHTMLRenderer(), 500),
		util.Prioritized(extension.NewStrikethroughHTMLRenderer(), 500),
		util.Prioritized(gmhtml.NewRenderer(), 1000),
	))
	return r
}}

// Resolve returns the workshop file that a relative link of the body names,
// and the fragment after it. ok is false for links that leave the workshop.
func (b *Body) Resolve(dest string) (file, fragment string, ok bool) {
	name, fragment, _ := strings.Cut(dest, "#")
	if name == "" {
		return b.file.Name, fragment, true
	}
	if strings.ContainsAny(name, "\\\x00?") || path.IsAbs(name) {
		return "", "", false
	}
	file = path.Join(path.Dir(b.file.Name), name)
	return file, fragment, file != ".." && !strings.HasPrefix(file, "../")
}

// RuleLink is the name of the rule that broken links break.
var RuleLink = ruleLink.Name

// BrokenLink is the finding for a link that leads nowhere.
func BrokenLink(l Link, do source.Message) source.Finding {
	return ruleLink.At(l.At, do, "the link %q leads nowhere", l.Dest)
}

type bodyRenderer struct {
	all renderer.Renderer // itself before goldmark's own

	body *Body
	into Into
	open []bool // whether the links being rendered are shown as links

	level int // of the last heading, 0 before the first
}

func (r *bodyRenderer) RegisterFuncs(reg renderer.NodeRendererFuncRegisterer) {
	reg.Register(ast.KindLink, r.link)
	reg.Register(ast.KindAutoLink, r.autoLink)
	reg.Register(ast.KindImage, r.image)
	reg.Register(ast.KindParagraph, r.paragraph)
	reg.Register(ast.KindRawHTML, r.rawHTML)
	reg.Register(ast.KindHTMLBlock, r.htmlBlock)
	reg.Register(ast.KindHeading, r.heading)
	reg.Register(ast.KindFencedCodeBlock, r.code)
	reg.Register(ast.KindCodeBlock, r.code)
	reg.Register(extast.KindTaskCheckBox, r.tick)
	reg.Register(extast.KindTable, r.table)
	reg.Register(extast.KindTableCell, r.cell)
}

// href returns the address to print for a link, "" where it is not published.
func (r *bodyRenderer) href(dest string) string {
	if scheme, absolute := Scheme(dest); absolute {
		if published(scheme) {
			return dest
		}
		return ""
	}
	if r.into.Link == nil {
		return ""
	}
	href, ok := r.into.Link(dest)
	if !ok {
		return ""
	}
	return href
}

func (r *bodyRenderer) link(w util.BufWriter, _ []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	n := node.(*ast.Link)
	if !entering {
		if last := len(r.open) - 1; r.open[last] {
			w.WriteString("</a>")
			r.open = r.open[:last]
		} else {
			r.open = r.open[:last]
		}
		return ast.WalkContinue, nil
	}
	href := r.href(string(n.Destination))
	r.open = append(r.open, href != "")
	if href != "" {
		fmt.Fprintf(w, `<a href="%s"`, address(href))
		if len(n.Title) > 0 {
			fmt.Fprintf(w, ` title="%s"`, html.EscapeString(string(n.Title)))
		}
		w.WriteByte('>')
	}
	return ast.WalkContinue, nil
}

// address escapes a link for an attribute.
func address(href string) string {
	return html.EscapeString(string(util.URLEscape([]byte(href), true)))
}

func (r *bodyRenderer) autoLink(w util.BufWriter, src []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	n := node.(*ast.AutoLink)
	if !entering {
		return ast.WalkContinue, nil
	}
	label, dest := html.EscapeString(string(n.Label(src))), string(n.URL(src))
	if n.AutoLinkType == ast.AutoLinkEmail && !strings.HasPrefix(strings.ToLower(dest), "mailto:") {
		dest = "mailto:" + dest
	}
	if href := r.href(dest); href != "" {
		fmt.Fprintf(w, `<a href="%s">%s</a>`, address(href), label)
	} else {
		w.WriteString(label)
	}
	return ast.WalkContinue, nil
}

func (r *bodyRenderer) image(w util.BufWriter, src []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	n := node.(*ast.Image)
	if !entering {
		return ast.WalkContinue, nil
	}
	alt := plainText(n, src)
	markup := ""
	if _, absolute := Scheme(string(n.Destination)); !absolute && r.into.Picture != nil {
		markup = r.into.Picture(Picture{File: source.Written(string(n.Destination), source.Span{}), Alt: alt, Title: string(n.Title),
			Inline: !picturesOnly(n.Parent())})
	}
	if markup == "" {
		markup = html.EscapeString(alt)
	}
	w.WriteString(markup)
	return ast.WalkSkipChildren, nil
}

// paragraph leaves out the paragraph around pictures that stand alone, since a
// figure may not stand in one.
func (r *bodyRenderer) paragraph(w util.BufWriter, _ []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	switch {
	case picturesOnly(node) && r.into.Picture != nil:
	case entering:
		w.WriteString("<p>")
	default:
		w.WriteString("</p>")
	}
	if !entering {
		w.WriteByte('\n')
	}
	return ast.WalkContinue, nil
}

// picturesOnly reports whether a node is a paragraph of nothing but pictures.
func picturesOnly(n ast.Node) bool {
	if n == nil || n.Kind() != ast.KindParagraph || n.FirstChild() == nil {
		return false
	}
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		if text, ok := c.(*ast.Text); ok && text.Segment.Len() == 0 {
			continue // the line break between two pictures
		}
		if c.Kind() != ast.KindImage {
			return false
		}
	}
	return true
}

func (r *bodyRenderer) rawHTML(w util.BufWriter, src []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	n := node.(*ast.RawHTML)
	for i := 0; entering && i < n.Segments.Len(); i++ {
		seg := n.Segments.At(i)
		w.WriteString(html.EscapeString(string(seg.Value(src))))
	}
	return ast.WalkSkipChildren, nil
}

func (r *bodyRenderer) htmlBlock(w util.BufWriter, src []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	n := node.(*ast.HTMLBlock)
	if !entering {
		return ast.WalkContinue, nil
	}
	w.WriteString("<p>")
	for i := 0; i < n.Lines().Len(); i++ {
		seg := n.Lines().At(i)
		w.WriteString(html.EscapeString(string(seg.Value(src))))
	}
	if n.HasClosure() {
		w.WriteString(html.EscapeString(string(n.ClosureLine.Value(src))))
	}
	w.WriteString("</p>\n")
	return ast.WalkContinue, nil
}

func (r *bodyRenderer) heading(w util.BufWriter, _ []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	n := node.(*ast.Heading)
	if !entering {
		fmt.Fprintf(w, "</h%d>\n", r.level)
		return ast.WalkContinue, nil
	}
	// A level that was left out is not left out on the page, where readers
	// who go by headings would look for it.
	level := min(n.Level+r.body.shift, max(r.level, 1)+1, 6)
	r.level = level
	id := ""
	if v, ok := n.AttributeString("id"); ok {
		id = fmt.Sprintf(` id="%s"`, html.EscapeString(fmt.Sprintf("%s", v)))
	}
	fmt.Fprintf(w, "<h%d%s>", level, id)
	return ast.WalkContinue, nil
}

func (r *bodyRenderer) tick(w util.BufWriter, _ []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	if entering {
		if node.(*extast.TaskCheckBox).IsChecked {
			w.WriteString("☑ ")
		} else {
			w.WriteString("☐ ")
		}
	}
	return ast.WalkContinue, nil
}

// foldsFrom is the number of columns from which on a table folds into one card
// a row on a phone, where it would be too narrow to read.
const foldsFrom = 3

func (r *bodyRenderer) table(w util.BufWriter, _ []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	switch {
	case !entering:
		w.WriteString("</table>\n")
	case len(node.(*extast.Table).Alignments) >= foldsFrom:
		w.WriteString("<table class=\"folds\">\n")
	default:
		w.WriteString("<table>\n")
	}
	return ast.WalkContinue, nil
}

// cell writes a table cell with its alignment as a class, since pages carry no
// style attributes, and with the heading it stands under where its table folds.
func (r *bodyRenderer) cell(w util.BufWriter, src []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	n := node.(*extast.TableCell)
	tag := "td"
	if n.Parent().Kind() == extast.KindTableHeader {
		tag = "th"
	}
	if !entering {
		fmt.Fprintf(w, "</%s>\n", tag)
		return ast.WalkContinue, nil
	}
	w.WriteString("<" + tag)
	w.WriteString(map[extast.Alignment]string{extast.AlignRight: ` class="right"`, extast.AlignCenter: ` class="centre"`}[n.Alignment])
	if head := columnHead(n, src); tag == "td" && head != "" {
		fmt.Fprintf(w, ` data-th="%s"`, html.EscapeString(head))
	}
	w.WriteString(">")
	return ast.WalkContinue, nil
}

// columnHead returns the heading of a cell's column where its table folds; the
// first cell of a row is the heading of the card itself.
func columnHead(cell ast.Node, src []byte) string {
	table := cell.Parent().Parent().(*extast.Table)
	if len(table.Alignments) < foldsFrom || cell.PreviousSibling() == nil {
		return ""
	}
	head := table.FirstChild().FirstChild()
	for c := cell.PreviousSibling(); c != nil; c = c.PreviousSibling() {
		head = head.NextSibling()
	}
	return plainText(head, src)
}

// codeFormat writes classes, never styles: the theme's sheet colours them for
// light and dark.
var codeFormat = chromahtml.New(chromahtml.WithClasses(true), chromahtml.ClassPrefix("c-"), chromahtml.PreventSurroundingPre(true))

func (r *bodyRenderer) code(w util.BufWriter, src []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	if !entering {
		return ast.WalkContinue, nil
	}
	var text strings.Builder
	for i := 0; i < node.Lines().Len(); i++ {
		seg := node.Lines().At(i)
		text.Write(seg.Value(src))
	}
	language := ""
	if fenced, ok := node.(*ast.FencedCodeBlock); ok {
		language = string(fenced.Language(src))
	}
	// The block may be wider than the page: it can be reached and scrolled by keyboard.
	w.WriteString(`<pre class="code" tabindex="0"><code>`)
	w.WriteString(coloured(text.String(), language))
	w.WriteString("</code></pre>\n")
	return ast.WalkSkipChildren, nil
}

// coloured marks up code by chroma, or escapes it where the language is not known.
func coloured(text, language string) string {
	lexer := lexers.Get(language)
	if language == "" || lexer == nil || len(text) > maxCoded {
		return html.EscapeString(text)
	}
	tokens, err := chroma.Coalesce(lexer).Tokenise(nil, text)
	var out strings.Builder
	if err == nil {
		err = codeFormat.Format(&out, styles.Fallback, tokens)
	}
	if err != nil {
		return html.EscapeString(text)
	}
	return out.String()
}
