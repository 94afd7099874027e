package stencil

import (
	"bytes"
	"fmt"
	"html/template"
	"io"
	"reflect"
	"strconv"
	"strings"
	"sync"
	"text/template/parse"
)

// escaper writes values as html/template does in one kind of place.
type escaper struct {
	strings  writer       // nil where html/template has to write them all
	marked   reflect.Type // a type of html/template's own that is plainly written, or nil
	ofMarked writer

	judge *template.Template // prints any value in such a place
	lead  int                // what stands before the value there, in bytes
	trail int                // and after it
}

// text writes a string.
func (e *escaper) text(out *bytes.Buffer, text string) {
	if e.strings == nil || !e.strings(out, text) {
		e.ask(out, text)
	}
}

// value writes any value: as the text that fmt makes of it, except in scripts.
func (e *escaper) value(out *bytes.Buffer, v reflect.Value) {
	v = unwrapped(v)
	if !v.IsValid() {
		e.ask(out, nil)
		return
	}
	typ := v.Type()
	if typ == e.marked && e.ofMarked(out, v.String()) {
		return
	}
	if e.strings == nil {
		e.ask(out, v.Interface())
		return
	}
	switch {
	case typ == stringType, typ.Kind() == reflect.String && typ.NumMethod() == 0 && typ.PkgPath() != contentTypes:
		e.text(out, v.String())
	case typ == intType:
		var room [20]byte
		out.Write(strconv.AppendInt(room[:0], v.Int(), 10))
	case typ.Kind() != reflect.Pointer && typ.NumMethod() > 0:
		switch held := v.Interface().(type) {
		case fmt.Formatter, error:
			e.ask(out, held)
		case fmt.Stringer:
			e.text(out, held.String())
		default:
			e.ask(out, held)
		}
	default:
		e.ask(out, v.Interface())
	}
}

// ask has html/template write a value.
func (e *escaper) ask(out *bytes.Buffer, value any) {
	var text bytes.Buffer
	if err := e.judge.Execute(&text, value); err != nil {
		panic(refuse("escaping", err.Error()))
	}
	out.Write(text.Bytes()[e.lead : text.Len()-e.trail])
}

// contentTypes is the package whose string types say how a text is written.
var contentTypes = reflect.TypeFor[template.HTML]().PkgPath()

var intType = reflect.TypeFor[int]()

// places are templates with one value in each kind of place that is known.
var places = []string{
	`{{.}}`, `<title>{{.}}</title>`, `<i title="{{.}}"></i>`, `<a href="{{.}}"></a>`, `<a href="x/{{.}}"></a>`, `<a href="?x={{.}}"></a>`,
	`<img srcset="{{.}}">`, `<script>x={{.}}</script>`, `<script type="application/ld+json">{{.}}</script>`,
}

// escapers holds an escaper for each chain of html/template's functions.
var escapers map[string]*escaper

// loadEscapers finds out by which functions html/template escapes in each place.
var loadEscapers = sync.OnceFunc(func() {
	escapers = map[string]*escaper{}
	for _, text := range places {
		t := template.Must(template.New("place").Parse(text))
		template.Must(t, t.Execute(io.Discard, "")) // which escapes it
		var e *escaper
		for _, n := range t.Tree.Root.Nodes {
			switch n := n.(type) {
			case *parse.TextNode:
				if e == nil {
					e = &escaper{lead: len(n.Text)}
					continue
				}
				e.trail = len(n.Text)
			case *parse.ActionNode:
				if e == nil {
					e = &escaper{}
				}
				_, chain := splitEscapers(n.Pipe.Cmds)
				e.judge = t
				e.strings, e.marked, e.ofMarked = plainly(chain)
				escapers[chain] = e
			}
		}
	}
})

const escaperPrefix = "_html_template_"

// splitEscapers takes the escapers off the end of a pipeline and names them.
func splitEscapers(cmds []*parse.CommandNode) (rest []*parse.CommandNode, chain string) {
	first := len(cmds)
	for ; first > 0 && len(cmds[first-1].Args) == 1; first-- {
		name, ok := cmds[first-1].Args[0].(*parse.IdentifierNode)
		if !ok || !strings.HasPrefix(name.Ident, escaperPrefix) {
			break
		}
		chain = strings.TrimSpace(strings.TrimPrefix(name.Ident, escaperPrefix) + " " + chain)
	}
	return cmds[:first], chain
}

func cutEscapers(cmds []*parse.CommandNode) ([]*parse.CommandNode, *escaper) {
	loadEscapers()
	rest, chain := splitEscapers(cmds)
	e := escapers[chain]
	if e == nil || chain == "" {
		panic(refuse("escaping", chain))
	}
	return rest, e
}

// writer writes a text whose escaping is plain, or reports that it is not.
type writer func(out *bytes.Buffer, text string) bool

// plainly returns how texts are written by a chain of escapers where that is
// plain: strings, and those of a type of html/template's own.
func plainly(chain string) (strings writer, marked reflect.Type, ofMarked writer) {
	switch chain {
	case "htmlescaper":
		return writeHTML, reflect.TypeFor[template.HTML](), func(out *bytes.Buffer, text string) bool { out.WriteString(text); return true }
	case "attrescaper", "rcdataescaper":
		return writeHTML, nil, nil
	case "srcsetescaper attrescaper":
		return nil, reflect.TypeFor[template.Srcset](), writeHTML
	case "urlfilter urlnormalizer attrescaper":
		return writeAddress, reflect.TypeFor[template.URL](), writeTrusted
	}
	return nil, nil, nil
}

// writeHTML writes a text as html/template writes it between tags and in quoted
// attributes.
func writeHTML(out *bytes.Buffer, text string) bool {
	last := 0
	for i := range len(text) {
		if with := inHTML[text[i]]; with != "" {
			out.WriteString(text[last:i])
			out.WriteString(with)
			last = i + 1
		}
	}
	out.WriteString(text[last:])
	return true
}

// inHTML is what html/template writes for a byte; "" for the byte itself.
var inHTML = [256]string{0: "\uFFFD", '"': "&#34;", '&': "&amp;", '\'': "&#39;", '+': "&#43;", '<': "&lt;", '>': "&gt;"}

// writeAddress writes an address of plain characters that html/template lets pass.
func writeAddress(out *bytes.Buffer, text string) bool {
	if strings.Contains(text, ":") && !strings.HasPrefix(text, "https://") && !strings.HasPrefix(text, "http://") {
		return false
	}
	return writeTrusted(out, text)
}

// writeTrusted writes an address of plain characters, whatever its scheme.
func writeTrusted(out *bytes.Buffer, text string) bool {
	for i := range len(text) {
		if !inAddress[text[i]] {
			return false
		}
	}
	return writeHTML(out, text)
}

// inAddress are the unreserved and the reserved characters of an address that
// have no brackets or quotes (RFC 3986, 2.2 and 2.3).
var inAddress = func() (plain [256]bool) {
	for _, c := range []byte("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-._~:/?#@!$&*+,;=") {
		plain[c] = true
	}
	return plain
}()
