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
